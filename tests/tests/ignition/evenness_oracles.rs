//! Evenness against numpy's FFT and least squares and scipy's densities (data:
//! `tests/oracles/ignition_evenness.json`).
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::engine::{Engine, layout};
use lashwork::ignition::evenness::{
    DwellShown, Evenness, EvennessCheck, LobeReadings, UnevenCause,
};
use lashwork::quantity::{Advance, DistributorAngle};
use lashwork_tests::values::deg;
use lashwork_tests::{Differences, list, number, numbers, oracle, text};
use serde_json::Value;

/// Sums of up to 24 products of numbers below a thousand.
const FIT: f64 = 1e-11;
/// Central differences of smooth functions: their step squared, and their own rounding.
const BY_DIFFERENCES: f64 = 1e-6;
/// Inverses of covariances that hold a mean of 180 degrees beside half a degree.
const SHARE: f64 = 1e-7;

fn engine(case: &Value) -> Engine {
    let intervals = numbers(case, "intervals");
    let count = intervals.len();
    Engine::builder(layout::inline(count, &[]))
        .order(1..=count)
        .intervals(intervals.into_iter().map(deg))
        .build()
        .unwrap()
}

fn answer(case: &Value, engine: &Engine) -> Evenness {
    let order = engine.order().iter().copied();
    let (late, u) = (numbers(case, "late"), number(case, "u"));
    let readings = if text(case, "kind") == "flash" {
        let at = |late: &f64| Advance::from_degrees_before(-late).unwrap();
        LobeReadings::Timing {
            read: order.zip(late.iter().map(at)).collect(),
            book: Some(Advance::TDC),
            each: deg(u),
            shared: deg(0.0),
        }
    } else {
        let mut before = numbers(case, "intervals");
        before.rotate_right(1);
        // Contacts open for a while, and no dwell may be as long as the way from spark to spark.
        let closed = |(late, way): (&f64, &f64)| {
            DistributorAngle::from_degrees((way + late - 40.0) / 2.0).unwrap()
        };
        LobeReadings::Dwell {
            read: order.zip(late.iter().zip(&before).map(closed)).collect(),
            shown: DwellShown::BeforeItsSpark,
            each: DistributorAngle::from_degrees(u / 2.0).unwrap(),
        }
    };
    let tolerance = number(case, "tolerance") / 2.0;
    let check = EvennessCheck {
        readings,
        tolerance: DistributorAngle::from_degrees(tolerance).unwrap(),
        cam: None,
    };
    check.worked_out(engine).unwrap()
}

#[test]
fn mean_harmonic_and_residuals_are_those_of_numpy() {
    let mut differences = Differences::default();
    for (at, case) in oracle("ignition_evenness").iter().enumerate() {
        let engine = engine(case);
        let found = answer(case, &engine);
        let mut close = |got: f64, wanted: f64, within: f64, what: &str| {
            differences.compare(&format!("case {at}, {what}"), got, wanted, within, within);
        };
        if let Some(mean) = &found.mean {
            close(mean.error.degrees_late(), number(case, "mean"), FIT, "mean");
            let u = mean.standard_uncertainty.degrees();
            close(u, number(case, "mean_u"), BY_DIFFERENCES, "u of the mean");
        }
        assert_eq!(found.harmonic.is_some(), engine.order().len() >= 4);
        if let Some(harmonic) = &found.harmonic {
            close(
                harmonic.amplitude.degrees(),
                number(case, "amplitude"),
                FIT,
                "amplitude",
            );
            close(
                harmonic.amplitude_u.degrees(),
                number(case, "amplitude_u"),
                BY_DIFFERENCES,
                "u of the amplitude",
            );
            close(
                harmonic.latest_at.degrees(),
                number(case, "phase"),
                FIT,
                "phase",
            );
            if let Some(u) = harmonic.latest_at_u {
                close(
                    u.degrees(),
                    number(case, "phase_u"),
                    BY_DIFFERENCES,
                    "u of the phase",
                );
            }
        }
        let lists =
            ["errors", "errors_u", "residuals", "residuals_u"].map(|key| numbers(case, key));
        for (lobe, firing) in found.lobes.iter().enumerate() {
            let what = |of: &str| format!("{of} of lobe {lobe}");
            close(
                firing.error.degrees_late(),
                lists[0][lobe],
                FIT,
                &what("error"),
            );
            close(
                firing.error_u.degrees(),
                lists[1][lobe],
                BY_DIFFERENCES,
                &what("u of error"),
            );
            close(
                firing.residual.degrees_late(),
                lists[2][lobe],
                FIT,
                &what("residual"),
            );
            close(
                firing.residual_u.degrees(),
                lists[3][lobe],
                BY_DIFFERENCES,
                &what("u of residual"),
            );
        }
        assert_eq!(
            Some(found.residual_freedom as u64),
            case["freedom"].as_u64(),
            "case {at}"
        );
    }
    differences.settle();
}

#[test]
fn explanations_have_the_shares_of_scipys_densities() {
    let name = |cause| match cause {
        UnevenCause::Even => "even",
        UnevenCause::RunOut => "run_out",
        UnevenCause::LobeWorn => "lobe_worn",
        UnevenCause::Misread => "misread",
        UnevenCause::EveryOther => "every_other",
        UnevenCause::RunOutAndEveryOther => "run_out_and_every_other",
        UnevenCause::EveryLobe => "every_lobe",
    };
    let mut differences = Differences::default();
    for (at, case) in oracle("ignition_evenness").iter().enumerate() {
        let engine = engine(case);
        let found = answer(case, &engine);
        let all: Vec<_> = found.groups.iter().flat_map(|g| &g.explanations).collect();
        let wanted = list(case, "probabilities");
        assert_eq!(all.len(), wanted.len(), "case {at}");
        for row in wanted {
            let lobe = row[1].as_i64().unwrap();
            let cylinder = usize::try_from(lobe).ok().map(|lobe| engine.order()[lobe]);
            let own = all
                .iter()
                .find(|e| name(e.cause) == row[0].as_str().unwrap() && e.cylinder == cylinder);
            let wanted: f64 = row[2].as_str().unwrap().parse().unwrap();
            let got = own.unwrap().probability;
            differences.compare(&format!("case {at}, {row}"), got, wanted, SHARE, 0.0);
        }
    }
    differences.settle();
}
