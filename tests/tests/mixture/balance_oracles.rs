//! Balance against numpy's least squares and scipy's quadrature (data: `tests/oracles/mixture_balance*.json`).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::mixture::balance::{
    BalanceCheck, CylinderCheck, Joint, Linkage, NextReading, Opening, ThrottleReading, TrialTurn,
    spread_within,
};
use lashwork::quantity::{AbsolutePressure, AirFlow, PressureDifference, ScrewAngle, Vacuum};
use lashwork::tolerance::Uncertainty;
use lashwork_tests::{Differences, list, number, numbers, oracle};
use serde_json::Value;

/// Sums of a dozen products.
const FIT: f64 = 1e-9;
/// Central differences.
const BY_DIFFERENCES: f64 = 1e-6;
/// Both integrals.
const CHANCE: f64 = 1e-8;

fn whole(value: &Value) -> usize {
    usize::try_from(value.as_u64().unwrap()).unwrap()
}

fn parsed(value: &Value) -> f64 {
    value.as_str().unwrap().parse().unwrap()
}

fn kpa(number: f64) -> Vacuum {
    Vacuum::from_kilopascals(number).unwrap()
}

fn linkage(case: &Value) -> Linkage {
    let joint = |joint: &Value| {
        let (one, other) = (whole(&joint[0]), whole(&joint[1]));
        if joint[2] == "rigid" {
            Joint::rigid(one, other)
        } else {
            Joint::screw(one, other)
        }
    };
    let joints: Vec<Joint> = list(case, "joints").iter().map(joint).collect();
    Linkage::new(whole(&case["count"]), &[whole(&case["reference"])], &joints).unwrap()
}

fn check(case: &Value) -> BalanceCheck<Vacuum> {
    let stated = |key| {
        let u = number(case, key);
        (u > 0.0).then(|| Uncertainty::from_number(u).unwrap())
    };
    let readings = list(case, "readings").iter().enumerate();
    let readings = readings.map(|(throttle, shown)| {
        let shown = shown.as_array().unwrap().iter();
        ThrottleReading {
            throttle,
            shown: shown.map(|value| kpa(parsed(value))).collect(),
        }
    });
    let trial = |trial: &Value| TrialTurn {
        joint: whole(&trial[0]),
        turn: ScrewAngle::from_degrees(parsed(&trial[1])).unwrap(),
        before: kpa(parsed(&trial[2])),
        after: kpa(parsed(&trial[3])),
        unmoved: None,
    };
    BalanceCheck {
        readings: readings.collect(),
        scatter: stated("stated"),
        between_gauges: stated("between"),
        trials: list(case, "trials").iter().map(trial).collect(),
        allowed: Some(PressureDifference::from_kilopascals(number(case, "allowed")).unwrap()),
        rule: None,
        ambient: None,
    }
}

#[test]
fn changes_turns_and_spread_are_those_of_numpy_and_scipy() {
    let mut differences = Differences::default();
    for (at, case) in oracle("mixture_balance").iter().enumerate() {
        let answer = check(case).worked_out(&linkage(case)).unwrap();
        let mut close = |what: &str, got: f64, wanted: f64, within: f64| {
            differences.compare(&format!("case {at}, {what}"), got, wanted, within, within);
        };
        let single = answer.scatter.single.number();
        close("scatter", single, number(case, "single"), FIT);
        let screws = list(case, "screws");
        assert_eq!(screws.len(), answer.moves.len(), "case {at}");
        let (change, u) = (numbers(case, "changes"), numbers(case, "changes_u"));
        for (place, found) in answer.moves.iter().enumerate() {
            assert_eq!(found.joint, whole(&screws[place]), "case {at}");
            let what = format!("screw {}", found.joint);
            close(&what, found.change.kilopascals(), change[place], FIT);
            close(&what, found.standard_uncertainty.number(), u[place], FIT);
            let wanted = list(case, "turns")[place].as_str().unwrap();
            match found.turn {
                None => assert_eq!(wanted, "", "case {at}, {what}"),
                Some(turn) => {
                    close(&what, turn.turn.degrees(), wanted.parse().unwrap(), FIT);
                    let wanted = parsed(&list(case, "turns_u")[place]);
                    close(&what, turn.standard_uncertainty, wanted, BY_DIFFERENCES);
                }
            }
        }
        let in_band = answer.judgement.unwrap().probabilities.in_band.least;
        close("spread", in_band, number(case, "within"), CHANCE);
    }
    differences.settle();
}

#[test]
fn the_next_reading_is_the_best_of_all_tried() {
    let mut differences = Differences::default();
    for (at, case) in oracle("mixture_balance").iter().enumerate() {
        let answer = check(case).worked_out(&linkage(case)).unwrap();
        let wanted = list(case, "next");
        let (kind, place, doubts) = match answer.next.unwrap() {
            NextReading::Trial { joint } => ("trial", joint, None),
            NextReading::Again {
                throttle,
                doubt,
                then,
            } => ("again", throttle, Some([doubt, then])),
            NextReading::TrialAgain { joint, doubt, then } => {
                ("trial_again", joint, Some([doubt, then]))
            }
        };
        assert_eq!(
            (kind, place),
            (wanted[0].as_str().unwrap(), whole(&wanted[1])),
            "case {at}"
        );
        for (place, got) in doubts.into_iter().flatten().enumerate() {
            let wanted = parsed(&wanted[place + 2]);
            differences.compare(&format!("case {at}"), got, wanted, 0.0, BY_DIFFERENCES);
        }
    }
    differences.settle();
}

#[test]
fn the_chance_of_a_spread_is_that_of_scipy() {
    let mut differences = Differences::default();
    for (at, case) in oracle("mixture_balance_spread").iter().enumerate() {
        let (means, sds) = (numbers(case, "means"), numbers(case, "sds"));
        let all: Vec<(f64, f64)> = means.into_iter().zip(sds).collect();
        let got = spread_within(&all, number(case, "allowed"));
        differences.compare(
            &format!("case {at}"),
            got,
            number(case, "within"),
            CHANCE,
            CHANCE,
        );
    }
    differences.settle();
}

#[test]
fn openings_and_breathing_are_those_of_the_nozzle() {
    let mut differences = Differences::default();
    for (at, case) in oracle("mixture_balance_cylinder").iter().enumerate() {
        let vacuum = numbers(case, "vacuum")
            .into_iter()
            .zip(numbers(case, "vacuum_u"));
        let flow: Vec<_> = numbers(case, "flow")
            .into_iter()
            .zip(numbers(case, "flow_u"))
            .map(|(flow, u)| {
                let flow = AirFlow::from_kilograms_per_hour(flow).unwrap();
                (flow, Uncertainty::from_number(u).unwrap())
            })
            .collect();
        let is_alike = flow.is_empty();
        let check = CylinderCheck {
            ambient: AbsolutePressure::from_kilopascals(number(case, "air")).unwrap(),
            vacuum: vacuum
                .map(|(v, u)| (kpa(v), Uncertainty::from_number(u).unwrap()))
                .collect(),
            opening: if is_alike {
                Opening::Alike {
                    share: number(case, "share"),
                }
            } else {
                Opening::Flow(flow)
            },
            findings: vec![],
            matters_from: None,
        };
        for (place, found) in check.worked_out().unwrap().cylinders.iter().enumerate() {
            let mut compare = |what: &str, got: f64, wanted: f64| {
                let what = format!("case {at}, cylinder {place}, {what}");
                differences.compare(&what, got, wanted, BY_DIFFERENCES, BY_DIFFERENCES);
            };
            compare(
                "breathing",
                found.breathing.value,
                numbers(case, "breathing")[place],
            );
            let u = found.breathing.standard_uncertainty;
            compare("its u", u, numbers(case, "breathing_u")[place]);
            assert_eq!(found.opening.is_none(), is_alike);
            if let Some(opening) = found.opening {
                compare("opening", opening.value, numbers(case, "opening")[place]);
                let u = opening.standard_uncertainty;
                compare("its u", u, numbers(case, "opening_u")[place]);
            }
        }
    }
    differences.settle();
}
