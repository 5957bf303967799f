//! The fuel level in a document: against the book's, with the fuel that is burnt, and at the jet.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::float_cmp,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::{assumed, run};
use super::mixture_read::{document, refused_with, report, section, step};
use approx::assert_abs_diff_eq;
use lashwork::job::mixture::FloatReport;
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use lashwork::tolerance::Verdict;
use serde_json::{Value, json};

/// One float chamber with the fuel so high over the mark, within 0.2 mm; the book allows 0.5 mm.
fn level(mm: f64) -> Value {
    json!({
        "chambers": [{"name": "front", "level": {"mm": mm}}],
        "uncertainty": "0.2 mm",
        "limits": {"from": "-0.5 mm", "to": "0.5 mm"}
    })
}

fn with(mut float: Value, fields: &Value) -> Value {
    for (name, value) in fields.as_object().expect("an object") {
        float[name] = value.clone();
    }
    float
}

fn petrol() -> Value {
    json!({"density": "0.745 kg/l", "density_uncertainty": "0.002 kg/l"})
}

fn found(report: &Report) -> &FloatReport {
    section(report).float.as_ref().expect("asked for")
}

fn told(float: &Value) -> Report {
    report(&json!({"fuel": "E0", "float": float}))
}

/// By hand: from 1.2 mm under the mark to the middle is 1.2 mm up; 0.4 of it at the needle.
#[test]
fn a_low_level_bends_the_tang_away() {
    let body = json!({"body": {
        "mass": "10 g", "diameter": "24 mm", "floats": 2, "seat": "2 mm", "fuel_pressure": "0.2 bar",
        "leverage": 0.4
    }});
    let report = told(&with(level(-1.2), &body));
    let one = &found(&report).chambers[0];
    assert_eq!(one.judged.verdict, Verdict::Below);
    assert_eq!(one.judged.verdict_text, "too low");
    assert_abs_diff_eq!(one.rise.expect("a band").mm(), 1.2, epsilon = 1e-9);
    assert_abs_diff_eq!(
        one.at_needle.expect("a leverage").mm(),
        0.48,
        epsilon = 1e-9
    );
    let WorkAdvice::Set { first, text, .. } = &one.advice else {
        panic!("{:?}", one.advice);
    };
    assert!(text.contains("away from the needle"), "{text}");
    assert!(
        text.contains("by 1.2 mm, u 0.2 mm, 0.48 mm at the needle"),
        "{text}"
    );
    assert!(text.contains("shuts later"), "{text}");
    for sure in [
        "no flame",
        "filter",
        "the bowl stood level",
        "only the tang",
    ] {
        assert!(
            first.iter().any(|one| one.contains(sure)),
            "{sure}: {first:?}"
        );
    }
    assert_eq!(step(&report, WorkStep::Float), Standing::NotSettled);
    assert!(assumed(&report, "mixture.level-with-fuel-burnt"));
}

#[test]
fn a_high_level_looks_at_needle_and_float_first() {
    let report = told(&level(1.2));
    let one = &found(&report).chambers[0];
    let WorkAdvice::Set { first, text, .. } = &one.advice else {
        panic!("{:?}", one.advice);
    };
    assert!(
        text.contains("toward the needle")
            && text.contains("shuts sooner")
            && text.contains("lower"),
        "{text}"
    );
    assert!(first[0].contains("the float holds no fuel"), "{first:?}");
}

#[test]
fn a_level_as_the_book_asks_is_left() {
    let mut float = level(0.1);
    float
        .as_object_mut()
        .expect("an object")
        .remove("uncertainty");
    let report = told(&float);
    let one = &found(&report).chambers[0];
    assert!(
        matches!(one.advice, WorkAdvice::Leave { .. }),
        "{:?}",
        one.advice
    );
    assert!(one.rise.is_none());
    assert_abs_diff_eq!(one.level_u, 0.5, epsilon = 1e-12);
    assert!(assumed(&report, "mixture.float-level-uncertainty"));
    // Half a millimetre of doubt leaves 16 % or so out of the band: only probably in it.
    assert_eq!(one.judged.verdict_text, "probably in band");
    assert_eq!(step(&report, WorkStep::Float), Standing::Settled);
}

/// A sight mark in print: within 0.05 in, said to be 1.5 mm, of the dot. It is 1.27 mm.
#[test]
fn a_rounded_mark_judges_otherwise() {
    let verdict = |from: &str, to: &str| {
        let mut float = level(1.4);
        float["uncertainty"] = json!("0.05 mm");
        float["limits"] = json!({"from": from, "to": to});
        found(&told(&float)).chambers[0].judged.verdict
    };
    assert_eq!(verdict("-0.05 in", "0.05 in"), Verdict::Above);
    assert_eq!(verdict("-1.5 mm", "1.5 mm"), Verdict::InBand);
}

/// By hand: 20 mm deep in petrol of 745 are 20 x 745/789 in ethanol, 1.1153 mm less; with 1 mm, 2 and 2 kg/m3 of
/// doubt 0.0893 mm of it, and 0.2190 with 0.2 of the reading.
#[test]
fn ethanol_stands_lower() {
    let float = with(
        level(0.3),
        &json!({
            "read_with": {"fuel": "E0", "density": "745 kg/m3", "uncertainty": "2 kg/m3"},
            "density": "789 kg/m3", "density_uncertainty": "2 kg/m3",
            "immersion": {"depth": "20 mm", "uncertainty": "1 mm"}
        }),
    );
    let report = report(&json!({"fuel": "E100", "float": float}));
    let all = found(&report);
    let fuel = all.fuel.as_ref().expect("another fuel");
    assert_abs_diff_eq!(fuel.rises_by, -1.1153, epsilon = 1e-4);
    assert_abs_diff_eq!(fuel.rises_by_u, 0.0893, epsilon = 2e-4);
    // CALC by chemistry: 9.003 over 14.57.
    assert_abs_diff_eq!(fuel.needs, 9.003 / 14.57, epsilon = 1e-3);
    assert!(fuel.lambda.is_none() && fuel.mass_flow.is_none());
    assert!(fuel.text.contains("leaner"), "{}", fuel.text);
    let one = &all.chambers[0];
    assert_eq!(one.read.mm(), 0.3);
    assert_abs_diff_eq!(one.level.mm(), -0.8153, epsilon = 1e-4);
    assert_abs_diff_eq!(one.level_u, 0.2190, epsilon = 2e-4);
    assert_eq!(one.judged.verdict, Verdict::Below);
    let WorkAdvice::Set { then_reads, .. } = &one.advice else {
        panic!("{:?}", one.advice);
    };
    assert!(
        then_reads.contains("1.1 mm over the mark with the one it was read with"),
        "{then_reads}"
    );
    assert!(!assumed(&report, "mixture.level-with-fuel-burnt"));
    assert!(assumed(&report, "mixture.even-float"));
}

/// E10 through the jets of petrol is 4 % leaner: it needs 13.99 where petrol needs 14.57.
#[test]
fn another_fuel_leans_the_same_jets() {
    let float = with(
        level(0.0),
        &json!({
            "read_with": {"fuel": "E0", "density": "745 kg/m3", "uncertainty": "2 kg/m3"},
            "density": "749.4 kg/m3", "density_uncertainty": "2 kg/m3",
            "immersion": {"depth": "15 mm", "uncertainty": "1 mm"},
            "nozzle": {"depression": "3 kPa", "over_mark": "5 mm"},
            "lambda": "0.90 lambda", "lambda_uncertainty": 0.01
        }),
    );
    let told = report(&json!({"fuel": "E10", "float": float}));
    let fuel = found(&told).fuel.as_ref().expect("another fuel");
    assert_abs_diff_eq!(fuel.lambda.expect("known").ratio(), 0.935, epsilon = 1e-3);
    assert_abs_diff_eq!(fuel.leaner_by.expect("a nozzle"), 1.039, epsilon = 1e-3);
    assert!(fuel.lambda_u.expect("known") > 0.01);
    assert!(
        fuel.text.contains("3.9 % leaner") && fuel.text.contains("holes a piston"),
        "{}",
        fuel.text
    );
    assert!(told.sheet().contains("holes a piston"));
    assert!(assumed(&told, "mixture.no-viscosity"));
    // Without a lambda only the change is said.
    let mut float = float;
    let fields = float.as_object_mut().expect("an object");
    fields.remove("lambda");
    fields.remove("lambda_uncertainty");
    let told = report(&json!({"fuel": "E10", "float": float}));
    let fuel = found(&told).fuel.as_ref().expect("another fuel");
    assert!(fuel.lambda.is_none());
    assert_abs_diff_eq!(fuel.leaner_by.expect("a nozzle"), 1.039, epsilon = 1e-3);
}

/// By hand with 745 kg/m3 and 9.80665 m/s2: 28 mm over the jet are 204.6 Pa, 8 mm to the nozzle 58.4 Pa; of 1 kPa
/// 0.94155 is left where 0.95617 was, so 0.9923 of the fuel.
#[test]
fn what_the_level_does_at_the_jet() {
    let nozzle = json!({
        "jet_under_mark": "30 mm", "nozzle": {"depression": "1 kPa", "over_mark": "6 mm"}
    });
    let report = told(&with(with(level(-2.0), &petrol()), &nozzle));
    let one = &found(&report).chambers[0];
    assert_abs_diff_eq!(
        one.head.expect("a jet").kilopascals(),
        0.20456,
        epsilon = 1e-5
    );
    assert_abs_diff_eq!(
        one.lifted_from.expect("a nozzle").kilopascals(),
        0.05845,
        epsilon = 1e-5
    );
    assert_abs_diff_eq!(one.flow.expect("a nozzle"), 0.9923, epsilon = 1e-4);
    assert_eq!(one.runs_over, Some(false));
    let text = one.at_jet_text.as_ref().expect("said");
    assert!(
        text.contains("205 Pa") && text.contains("0.8 % less fuel"),
        "{text}"
    );
}

#[test]
fn fuel_over_the_nozzle_runs_out_by_itself() {
    let nozzle = json!({"nozzle": {"depression": "1 kPa", "over_mark": "6 mm"}});
    let report = told(&with(with(level(7.0), &petrol()), &nozzle));
    let one = &found(&report).chambers[0];
    assert_eq!(
        (one.runs_over, one.lifted_from, one.flow),
        (Some(true), None, None)
    );
    let WorkAdvice::Set { first, .. } = &one.advice else {
        panic!("{:?}", one.advice);
    };
    assert!(first[0].contains("not started"), "{first:?}");
    assert!(
        found(&report)
            .verdict_text
            .contains("runs out of the nozzle")
    );
}

/// By hand: the book's middle is 0.5 mm over the mark, so 1.5 mm under it is 2 mm low, under a nozzle 6 mm over
/// the middle: 0.9923 of the fuel, as above.
#[test]
fn the_flow_is_against_the_middle_of_the_book() {
    let mut float = with(
        with(level(-1.5), &petrol()),
        &json!({"nozzle": {"depression": "1 kPa", "over_mark": "6.5 mm"}}),
    );
    float["limits"] = json!({"from": "0 mm", "to": "1 mm"});
    let report = told(&float);
    let one = &found(&report).chambers[0];
    assert_abs_diff_eq!(one.flow.expect("a nozzle"), 0.9923, epsilon = 1e-4);
    assert_abs_diff_eq!(one.rise.expect("a band").mm(), 2.0, epsilon = 1e-9);
}

#[test]
fn a_level_in_the_band_and_over_the_nozzle_is_measured_again() {
    let nozzle = json!({"nozzle": {"depression": "1 kPa", "over_mark": "0 mm"}});
    let report = told(&with(with(level(0.1), &petrol()), &nozzle));
    let one = &found(&report).chambers[0];
    assert_eq!(one.judged.verdict, Verdict::InBand);
    let WorkAdvice::Measure { text } = &one.advice else {
        panic!("{:?}", one.advice);
    };
    assert!(text.contains("over the nozzle's mouth"), "{text}");
}

/// By hand: 18.64 mm deep by its weight, known to 5 %: 0.052 mm of the 1.0395 it sinks, with 2 and 2 kg/m3 of the
/// fuels 0.0832.
#[test]
fn a_depth_by_the_weight_is_known_to_a_twentieth() {
    let mut asked = document(&json!({"fuel": "E100", "float": with(
        level(0.3),
        &json!({
            "read_with": {"fuel": "E0", "density": "745 kg/m3", "uncertainty": "2 kg/m3"},
            "density": "789 kg/m3", "density_uncertainty": "2 kg/m3",
            "body": {
                "mass": "10 g", "diameter": "24 mm", "floats": 2, "seat": "2 mm", "fuel_pressure": "0.2 bar",
                "leverage": 0.4
            }
        }),
    )}));
    asked["units"] = json!({"length": "in"});
    let report = run(&asked);
    let fuel = found(&report).fuel.as_ref().expect("another fuel");
    assert_abs_diff_eq!(fuel.rises_by, -1.0395, epsilon = 1e-3);
    assert_abs_diff_eq!(fuel.rises_by_u, 0.0832, epsilon = 3e-4);
    assert!(
        fuel.text
            .contains("0.041 in lower than the one it was read with, u 0.003 in"),
        "{}",
        fuel.text
    );
    assert!(assumed(&report, "mixture.float-depth-uncertainty"));
}

#[test]
fn jets_wait_for_the_level() {
    let jets = json!({
        "set_for": {"altitude": "0 m", "temperature": "20 C"},
        "fitted": [{"circuit": "main", "number": 120, "numbering": "flow", "sizes": [110, 115, 120]}]
    });
    let asked = |mm: f64| {
        json!({
            "valves": "settled", "timing": "settled",
            "air": {"altitude": "1800 m", "temperature": "20 C"}, "float": level(mm), "jets": jets
        })
    };
    let low = report(&asked(-1.2));
    let jet = &section(&low).jets.as_ref().expect("asked for").jets[0];
    let WorkAdvice::SettleFirst { text } = &jet.advice else {
        panic!("{:?}", jet.advice);
    };
    assert!(text.contains("fuel level"), "{text}");
    assert_eq!(jet.fit, None);
    let right = report(&asked(0.0));
    let jet = &section(&right).jets.as_ref().expect("asked for").jets[0];
    assert_eq!(jet.fit, Some(110.0));
}

#[test]
fn an_inch_engine_is_told_in_inches() {
    let mut asked = document(&json!({"float": level(-1.27)}));
    asked["units"] = json!({"length": "in"});
    let report = run(&asked);
    let one = &found(&report).chambers[0];
    assert!(
        one.judged
            .found
            .contains("0.050 in under the mark, u 0.008 in"),
        "{}",
        one.judged.found
    );
}

#[test]
fn what_cannot_be_is_refused_where_it_stands() {
    let other =
        json!({"read_with": {"fuel": "E0", "density": "745 kg/m3", "uncertainty": "2 kg/m3"}});
    let immersion = json!({"immersion": {"depth": "20 mm", "uncertainty": "1 mm"}});
    let whole = || with(with(with(level(0.0), &other), &petrol()), &immersion);
    let refused = |place: &str, code: &str, float: &Value| {
        refused_with(place, code, &json!({"fuel": "E10", "float": float}));
    };
    refused_with(
        "/mixture/fuel",
        "mixture.fuel-not-stated",
        &json!({"float": whole()}),
    );
    let at = |rest: &str| format!("/mixture/float{rest}");
    let no_density = with(with(level(0.0), &other), &immersion);
    refused(
        &at("/density"),
        "mixture.fuel-density-not-stated",
        &no_density,
    );
    let no_depth = with(with(level(0.0), &other), &petrol());
    refused(&at("/immersion"), "mixture.immersion-not-stated", &no_depth);
    let deep = json!({"immersion": {"depth": "0 mm", "uncertainty": "1 mm"}});
    refused(
        &at("/immersion"),
        "mixture.float-depth",
        &with(whole(), &deep),
    );
    let body = json!({"body": {
        "mass": "10 g", "diameter": "24 mm", "floats": 0, "seat": "2 mm", "fuel_pressure": "0.2 bar",
        "leverage": 0.4
    }});
    refused(&at("/body"), "mixture.float-body", &with(no_depth, &body));
    let weak = json!({"nozzle": {"depression": "0.02 kPa", "over_mark": "6 mm"}});
    refused(
        &at("/nozzle"),
        "mixture.no-fuel-flow",
        &with(whole(), &weak),
    );
    let jet = json!({"jet_under_mark": "0.1 mm"});
    let dry = with(with(level(-1.0), &petrol()), &jet);
    refused(&at("/jet_under_mark"), "quantity.out-of-range", &dry);
    refused(
        &at("/limits"),
        "tolerance.empty-band",
        &with(level(0.0), &json!({"limits": {}})),
    );
    refused(
        &at("/chambers"),
        "mixture.no-float-chambers",
        &with(level(0.0), &json!({"chambers": []})),
    );
    let twice =
        json!({"chambers": [{"name": "a", "level": "0 mm"}, {"name": "a", "level": "0 mm"}]});
    refused(
        &at("/chambers/1"),
        "mixture.same-chamber-name",
        &with(level(0.0), &twice),
    );
    let half = json!({"density": "0.745 kg/l"});
    refused(&at(""), "document.missing-field", &with(level(0.0), &half));
    // What is sold as petrol holds up to 10 % of ethanol.
    let petrol =
        json!({"read_with": {"fuel": "petrol", "density": "745 kg/m3", "uncertainty": "2 kg/m3"}});
    refused(
        &at("/read_with/fuel"),
        "mixture.fuel-formula",
        &with(whole(), &petrol),
    );
}

/// In a band of 0.5 mm to either side with 1 mm of doubt: 38 % in it by the normal law, so it is neither shown to
/// be right nor to be out.
#[test]
fn a_level_that_is_not_decided_is_read_again_and_nothing_is_bent() {
    let open = |rest: &Value| {
        let mut float = with(with(level(0.1), &petrol()), rest);
        float["uncertainty"] = json!("1 mm");
        told(&float)
    };
    let undecided = open(&json!({"nozzle": {"depression": "1 kPa", "over_mark": "6 mm"}}));
    let one = &found(&undecided).chambers[0];
    let shown = "not shown to be out of band";
    assert_eq!(one.judged.verdict_text, shown);
    assert!(one.rise.is_none() && one.at_needle.is_none());
    let WorkAdvice::Measure { text } = &one.advice else {
        panic!("{:?}", one.advice);
    };
    assert!(text.starts_with("read the level closer"), "{text}");
    assert_eq!(step(&undecided, WorkStep::Float), Standing::NotSettled);
    // What may run out of the nozzle is shut off whatever the verdict.
    let over = open(&json!({"nozzle": {"depression": "1 kPa", "over_mark": "0 mm"}}));
    let one = &found(&over).chambers[0];
    assert_eq!(one.judged.verdict_text, shown);
    let WorkAdvice::Measure { text } = &one.advice else {
        panic!("{:?}", one.advice);
    };
    assert!(
        text.contains("not started") && text.contains("read the level closer"),
        "{text}"
    );
}

/// To 0.1 mm, as an eye reads it; where it is known closer, with a digit of its uncertainty (JCGM 100, 7.2.6).
#[test]
fn a_level_is_said_as_closely_as_it_is_known() {
    let said = |uncertainty: &str| {
        let mut float = level(0.3);
        float["uncertainty"] = json!(uncertainty);
        found(&told(&float)).chambers[0].judged.found.clone()
    };
    assert_eq!(said("0.3 mm"), "0.3 mm over the mark, u 0.3 mm");
    assert_eq!(said("1.5 mm"), "0.3 mm over the mark, u 1.5 mm");
    assert_eq!(said("0.04 mm"), "0.30 mm over the mark, u 0.04 mm");
    assert_eq!(said("0.004 mm"), "0.300 mm over the mark, u 0.004 mm");
}

/// A level that is nothing as it is written is at the mark, on neither side, and no doubt is nothing.
#[test]
fn nothing_is_said_as_at_the_mark_and_a_doubt_never_as_nothing() {
    let said = |mm: f64, uncertainty: &str| {
        let mut float = level(mm);
        float["uncertainty"] = json!(uncertainty);
        found(&told(&float)).chambers[0].judged.found.clone()
    };
    assert_eq!(said(-0.0002, "0.004 mm"), "at the mark, u 0.004 mm");
    assert_eq!(said(-0.04, "0.2 mm"), "at the mark, u 0.2 mm");
    assert_eq!(
        said(-0.1, "0.0001 mm"),
        "0.100 mm under the mark, u under 0.001 mm"
    );
}

/// The name of the chamber stands before all of it once.
#[test]
fn what_to_do_does_not_repeat_the_chamber() {
    for mm in [-1.2, 0.1, 1.2] {
        let told = told(&level(mm));
        for line in found(&told).chambers[0].advice.lines() {
            assert!(!line.contains("front"), "{line}");
        }
    }
}
