//! The idle curve against numpy's least squares and scipy (data: `tests/oracles/mixture_idle.json`).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::mixture::idle::{Crown, IdleCurve, IdleReading, MixtureScrew, Side};
use lashwork::quantity::{CrankSpeed, TurnsOut};
use lashwork::tolerance::Uncertainty;
use lashwork_tests::{Differences, number, numbers, oracle, text};
use serde_json::Value;

const FIT: f64 = 1e-8;
const BY_DIFFERENCES: f64 = 1e-5;

fn turns(turns: f64) -> TurnsOut {
    TurnsOut::from_turns(turns).unwrap()
}

fn curve(case: &Value) -> IdleCurve {
    let readings: Vec<IdleReading> = numbers(case, "places")
        .into_iter()
        .zip(numbers(case, "speeds"))
        .map(|(place, speed)| IdleReading {
            place: turns(place),
            speed: CrankSpeed::from_rpm(speed).unwrap(),
        })
        .collect();
    let stated = number(case, "stated");
    let stated = (stated > 0.0).then(|| Uncertainty::from_number(stated).unwrap());
    let screw = if text(case, "screw") == "air" {
        MixtureScrew::Air
    } else {
        MixtureScrew::Fuel
    };
    IdleCurve::fitted(&readings, stated, screw).unwrap()
}

#[test]
fn the_curve_is_that_of_numpy() {
    let mut differences = Differences::default();
    let (mut seen, mut not_seen) = (0, 0);
    for (at, case) in oracle("mixture_idle").iter().enumerate() {
        let curve = curve(case);
        let mut close = |what: &str, got: f64, wanted: f64, within: f64| {
            differences.compare(&format!("case {at}, {what}"), got, wanted, within, within);
        };
        let sigma = number(case, "sigma");
        close("scatter", curve.scatter().unwrap().number(), sigma, FIT);
        if let Some(wanted) = text(case, "cubic")
            .parse()
            .ok()
            .filter(|c: &f64| c.is_finite())
        {
            let got = curve.lopsided().unwrap().over_uncertainty;
            close("cubic", got, wanted, 1e-6);
        } else {
            assert_eq!(curve.lopsided(), None, "case {at}");
        }
        let side = if text(case, "side") == "lean" {
            Side::Lean
        } else {
            Side::Rich
        };
        let (drop, place) = (number(case, "drop"), turns(number(case, "place")));
        let Crown::Seen(top) = curve.crown().unwrap() else {
            assert_eq!(case["seen"], false, "case {at}");
            not_seen += 1;
            continue;
        };
        assert_eq!(case["seen"], true, "case {at}");
        seen += 1;
        let between = numbers(case, "between");
        close("from", top.from.turns(), between[0], FIT);
        close("to", top.to.turns(), between[1], FIT);
        let beside = curve.beside(side, drop).unwrap();
        let rise = curve.rise_at(place).unwrap();
        let (value, u) = (numbers(case, "figures"), numbers(case, "figures_u"));
        let found = [
            (
                top.best.value.turns(),
                top.best.standard_uncertainty.number(),
            ),
            (
                top.speed.value.rpm(),
                top.speed.standard_uncertainty.number(),
            ),
            (beside.value.turns(), beside.standard_uncertainty.number()),
            (
                rise.centre().unwrap().rpm(),
                rise.normal_uncertainty().number(),
            ),
        ];
        for (which, (got, got_u)) in found.into_iter().enumerate() {
            close(&format!("figure {which}"), got, value[which], FIT);
            close(
                &format!("u of figure {which}"),
                got_u,
                u[which],
                BY_DIFFERENCES,
            );
        }
        // The band of the curve, at the place of the rise.
        let places = numbers(case, "places");
        let last = places.iter().copied().fold(f64::MIN, f64::max);
        let first = places.iter().copied().fold(f64::MAX, f64::min);
        let steps = (0..100).take_while(|at| first + 0.25 * f64::from(*at) < last + 1e-9);
        let points = curve.points(steps.count()).unwrap();
        let point = points
            .iter()
            .find(|p| (p.place.turns() - place.turns()).abs() < 1e-9);
        let point = point.unwrap();
        close("curve", point.speed.rpm(), value[4], FIT);
        let half = number(case, "factor") * u[4];
        close(
            "band",
            point.high.rpm() - point.speed.rpm(),
            half,
            BY_DIFFERENCES,
        );
        close(
            "band",
            point.speed.rpm() - point.low.rpm(),
            half,
            BY_DIFFERENCES,
        );
    }
    assert!(seen >= 4 && not_seen >= 2, "{seen} seen, {not_seen} not");
    differences.settle();
}
