//! Bayes factors of whole engines against adaptive quadrature (data: `tests/oracles/diagnosis.json`).
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a stored case without a field stops the test"
)]

use approx::assert_abs_diff_eq;
use lashwork::diagnosis::{
    Diagnosis, Evidence, Prior, ReadingFault, Seen, Slip, Source, Warming, Way, Whole, WrongStroke,
    diagnose,
};
use lashwork::engine::CylinderIndex;
use lashwork::quantity::{LashChange, LengthUnit};
use lashwork::tolerance::{Estimate, Uncertainty};
use lashwork::valve::ValveLimits;
use lashwork::valve::{ValveId, ValveKind};
use lashwork_tests::values::{band, lash, mark, u};
use lashwork_tests::{Differences, list, number, oracle, text};
use serde_json::Value;

/// Both sides lose a few bits of each of four readings; the stored texts have 15 digits.
const CLOSE: f64 = 1e-9;
/// A step is at most a tenth of the range of the shift, whose ends hold little.
const CUT: f64 = 0.02;
/// A way less probable than this is hopeless; its integral peaks at a drift that is left out.
const HOPELESS: f64 = -30.0;

fn limits(printed: &Value, kind: &str) -> ValveLimits {
    let texts: Vec<f64> = list(printed, kind)
        .iter()
        .map(|v| v.as_str().unwrap().parse().unwrap())
        .collect();
    let set = texts[0];
    let at = |mm: f64| format!("{mm:.3} mm");
    let set_band = band(&at(set - texts[1]), &at(set + texts[1]));
    ValveLimits::new(mark(&at(set)), set_band, None).unwrap()
}

fn source(printed: &Value) -> Source {
    Source {
        intake: limits(printed, "intake"),
        exhaust: limits(printed, "exhaust"),
        warmth: LashChange::ZERO,
        warmth_uncertainty: Uncertainty::ZERO,
    }
}

fn seen(i: usize, reading: &Value, u_mm: f64) -> Seen {
    let kind = match text(reading, "kind") {
        "intake" => ValveKind::Intake,
        _ => ValveKind::Exhaust,
    };
    let end = |key: &str| reading[key].as_str().map(|mm| lash(&format!("{mm} mm")));
    let felt = match (end("low"), end("high")) {
        (Some(low), Some(high)) => Estimate::between(low, high, u(u_mm)).unwrap(),
        (Some(low), None) => Estimate::at_least(low, u(u_mm)),
        (None, high) => Estimate::at_most(high.unwrap(), u(u_mm)),
    };
    Seen {
        valve: ValveId {
            cylinder: CylinderIndex::new(i / 2),
            kind,
            number: 1,
        },
        felt,
        marked_in: LengthUnit::Millimetre,
    }
}

/// The mean of factors given by logarithms to base 10.
fn mean(logs: &[f64]) -> f64 {
    let great = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let sum: f64 = logs.iter().map(|l| 10.0_f64.powf(l - great)).sum();
    great + (sum / logs.len() as f64).log10()
}

fn of(diagnosis: &Diagnosis, cause: ReadingFault) -> f64 {
    let found = diagnosis.causes.iter().find(|c| c.cause == cause);
    found
        .unwrap_or_else(|| panic!("{cause:?} was not weighed"))
        .log10_bayes_factor
}

/// More than one thing: each way that is kept, and all of them together.
fn several(differences: &mut Differences, case: &Value, found: &Diagnosis) {
    let name = text(case, "id");
    let mut causes = found.causes.iter();
    let several = causes.find(|c| c.cause == ReadingFault::Several).unwrap();
    for weighed in &several.ways {
        let (key, close) = match weighed.way {
            Way::Disarray => ("disarray", CLOSE),
            Way::Two([Whole::Swapped, Whole::Turned(_)]) => ("swapped_and_turned", CLOSE),
            Way::Two([Whole::Swapped, Whole::Shifted(_)]) => ("swapped_and_shifted", CUT),
            Way::Two([Whole::Turned(_), Whole::Shifted(_)]) => ("turned_and_shifted", CUT),
            other => panic!("{other:?} has no reference"),
        };
        let place = format!("{name} {key}");
        let want = number(&case["several"], key);
        differences.compare(&place, weighed.log10_bayes_factor, want, 0.0, close);
    }
    // Of eight causes each has an eighth of a tenth; a pair three times the product, disarray what is left.
    let share = 0.1 / 8.0;
    let pair: f64 = 3.0 * share * share;
    let every = case["several"].as_object().unwrap().keys();
    let joint = every.map(|key| {
        let prior = if key == "disarray" {
            share - 3.0 * pair
        } else {
            pair
        };
        prior / share * 10.0_f64.powf(number(&case["several"], key))
    });
    let want = joint.sum::<f64>().log10();
    let place = format!("{name} several");
    differences.compare(&place, several.log10_bayes_factor, want, 0.0, CUT);
}

#[test]
fn every_cause_has_the_factor_of_adaptive_quadrature() {
    let mut differences = Differences::default();
    for case in oracle("diagnosis") {
        let readings: Vec<Seen> = list(&case, "readings")
            .iter()
            .enumerate()
            .map(|(i, reading)| seen(i, reading, number(&case, "u_mm")))
            .collect();
        let found = diagnose(&Evidence {
            one_turn_out: vec![WrongStroke {
                cylinder: None,
                two_position: false,
                lifted: readings.iter().map(|r| r.valve).collect(),
            }],
            readings,
            sources: vec![source(&case["believed"]), source(&case["other"])],
            warming: Warming::Unknown(Uncertainty::from_mm(0.1).unwrap()),
            prior: Prior::usual(),
        })
        .unwrap();
        let many = |value: &Value| -> Vec<f64> {
            let texts = value.as_array().unwrap().iter();
            texts
                .map(|v| v.as_str().unwrap().parse().unwrap())
                .collect()
        };
        let name = text(&case, "id");
        let mut same = |what: &str, got: f64, want: f64| {
            let place = format!("{name} {what}");
            if want < HOPELESS {
                differences.compare(&place, got, want, 0.0, 0.01);
            } else {
                differences.compare(&place, got, want, CLOSE, CLOSE);
            }
        };
        same(
            "evidence",
            found.log10_evidence,
            number(&case, "log10_evidence"),
        );
        let slips = &case["slip_one"];
        let both = [
            many(&slips["same_number"]),
            many(&slips["thousandths_hundredths"]),
        ];
        same(
            "slip of one",
            of(&found, ReadingFault::UnitSlipOne),
            mean(&both.concat()),
        );
        let all = [many(&case["slip_all"]), many(&case["set_all"])].concat();
        same(
            "slip of all",
            of(&found, ReadingFault::UnitSlipAll),
            mean(&all),
        );
        same(
            "swapped",
            of(&found, ReadingFault::SwappedAll),
            number(&case, "swapped_all"),
        );
        let pairs = many(&case["swapped_cylinder"]);
        same(
            "swapped in one",
            of(&found, ReadingFault::SwappedOneCylinder),
            mean(&pairs),
        );
        let other = number(&case, "other_specification");
        same(
            "other source",
            of(&found, ReadingFault::OtherSpecification),
            other,
        );
        same(
            "turned out",
            of(&found, ReadingFault::OneTurnOut),
            number(&case, "one_turn_out"),
        );
        several(&mut differences, &case, &found);
        // The kernel cuts the shift off at whole steps, the reference at exactly two spreads.
        differences.compare(
            &format!("{name} not cold"),
            of(&found, ReadingFault::NotCold),
            number(&case, "not_cold"),
            0.0,
            CUT,
        );
    }
    differences.settle();
}

/// The factors of single ways, so that a mean cannot hide two errors.
#[test]
fn the_best_way_of_one_slip_has_its_own_factor() {
    let case = oracle("diagnosis").swap_remove(0);
    let readings = list(&case, "readings").iter().enumerate();
    let found = diagnose(&Evidence {
        readings: readings
            .map(|(i, r)| seen(i, r, number(&case, "u_mm")))
            .collect(),
        sources: vec![source(&case["believed"])],
        one_turn_out: vec![],
        warming: Warming::Unknown(Uncertainty::from_mm(0.1).unwrap()),
        prior: Prior::usual(),
    })
    .unwrap();
    let slip = found
        .causes
        .iter()
        .find(|c| c.cause == ReadingFault::UnitSlipOne)
        .unwrap();
    let Way::SlipOne { reading, slip: how } = slip.ways[0].way else {
        panic!("{:?} is no slip of one reading", slip.ways[0].way);
    };
    let key = match how {
        Slip::SameNumber => "same_number",
        Slip::ThousandthsHundredths => "thousandths_hundredths",
    };
    let want: f64 = case["slip_one"][key][reading]
        .as_str()
        .unwrap()
        .parse()
        .unwrap();
    assert_abs_diff_eq!(slip.ways[0].log10_bayes_factor, want, epsilon = CLOSE);
}
