//! Cranking compression in a document: expected against read, rules side by side, what oil said, what comes
//! first.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::condition_read::{compression, document, dry, refused_with, report, section, step};
use super::ignition_four::{assumed, run};
use approx::assert_abs_diff_eq;
use lashwork::condition::compression::{CompressionCause, CompressionLook, CrankingFault};
use lashwork::job::{BearsOn, Report, Standing, WorkAdvice, WorkStep};
use lashwork::tolerance::Verdict;
use lashwork_tests::refusals::example;
use serde_json::{Value, json};

const PSI: f64 = 6.894_757_293_168;

fn of(readings: &Value) -> Value {
    json!({"valves": "settled", "compression": {"readings": readings, "unit": "psi"}})
}

fn belief(report: &Report, cylinder: usize, cause: CompressionCause) -> f64 {
    let causes = &compression(report).cylinders[cylinder].causes;
    let one = causes.iter().find(|one| one.cause == cause);
    one.map_or(0.0, |one| one.probability)
}

/// CALC: ratio 9, throw 45 mm, rod 150 mm, closing 60 degrees after bottom dead centre, 14.696 psi, exponents 1.20
/// and 1.30: 149.1 and 185.6 psi.
#[test]
fn what_the_engine_should_show_follows_from_its_dimensions() {
    let mut document = document(&json!({
        "valves": "settled",
        "air": {"altitude": "0 m"},
        "compression_ratio": 9, "intake_closes_abdc": "60 deg",
        "compression": {
            "readings": dry(&[160.0, 163.0, 158.0, 161.0]),
            "exponent": {"from": 1.2, "to": 1.3}, "unit": "psi"
        }
    }));
    document["engine"]["crank"] = json!({"throw": "45 mm", "rod": "150 mm", "offset": "0 mm"});
    let report = run(&document);
    let level = compression(&report).level.as_ref().expect("a ratio");
    let (from, to) = (
        level.expected_from.expect("known"),
        level.expected_to.expect("known"),
    );
    assert_abs_diff_eq!(from.kilopascals() / PSI, 149.1, epsilon = 0.1);
    assert_abs_diff_eq!(to.kilopascals() / PSI, 185.6, epsilon = 0.1);
    assert_eq!(level.verdict, Verdict::InBand);
    let text = &compression(&report).level_text;
    assert!(text.contains("149 psi to 186 psi"), "{text}");
    assert!(assumed(&report, "condition.ratio-uncertainty-assumed"));
    assert!(assumed(&report, "condition.closing-uncertainty"));
    assert!(!assumed(&report, "condition.compression-rod-assumed"));
    assert!(!assumed(&report, "condition.compression-air-assumed"));
}

/// CALC: 84.556 of 101.325 kPa at 1500 m (ISO 2533), so a printed 100 psi is 83.45 psi there; by the density,
/// 0.8638, it would be 86.4. 85 psi are enough.
#[test]
fn a_printed_least_goes_with_the_pressure_of_the_place() {
    let asked = |air: Value| {
        json!({
            "valves": "settled", "air": air,
            "compression": {
                "readings": dry(&[85.0, 86.0, 85.0, 86.0]), "rules": [{"least": "100 psi"}],
                "repeat": "0.2 psi", "gauge_uncertainty": "0.2 psi", "unit": "psi"
            }
        })
    };
    let high = report(&asked(json!({"altitude": "1500 m"})));
    let rule = &compression(&high).rules[0];
    assert_abs_diff_eq!(rule.limit.kilopascals() / PSI, 83.45, epsilon = 0.01);
    assert_eq!(rule.judged.verdict, Verdict::InBand);
    assert_eq!(step(&high, WorkStep::Compression), Standing::Settled);
    assert!(section(&high).next.is_none());
    let low = report(&asked(Value::Null));
    let rule = &compression(&low).rules[0];
    assert_eq!(rule.judged.verdict, Verdict::Below);
    assert_eq!(rule.low.len(), 4);
    let air = low.assumptions.iter();
    let mut air = air.filter(|one| one.code == "condition.compression-air-assumed");
    assert_eq!(air.next().expect("listed").bears_on, BearsOn::Verdict);
    // Every cylinder like the others, and still a rule is missed: no cylinder is blamed.
    let WorkAdvice::FindCause { causes, .. } = &compression(&low).advice else {
        panic!("{:?}", compression(&low).advice);
    };
    assert!(causes[0].contains("gauge"));
    assert_eq!(step(&low, WorkStep::Compression), Standing::NotSettled);
}

/// The air of the mixture section is that of the document.
#[test]
fn the_air_of_the_mixture_section_is_taken() {
    let mut own = document(&json!({
        "valves": "settled",
        "compression": {"readings": dry(&[85.0, 86.0, 85.0, 86.0]), "rules": [{"least": "100 psi"}]}
    }));
    own["mixture"] = json!({"air": {"altitude": "1500 m"}});
    let report = run(&own);
    let limit = compression(&report).rules[0].limit;
    assert_abs_diff_eq!(limit.kilopascals() / PSI, 83.45, epsilon = 0.01);
}

/// One engine, three rules, three verdicts; none is merged with another. 108 of 141 psi are 76.6 %.
#[test]
fn rules_stand_side_by_side() {
    let report = report(&json!({
        "valves": "settled",
        "compression": {
            "readings": dry(&[141.0, 108.0, 138.0, 140.0]),
            "rules": [{"percent_of_highest": 75}, {"most_between": "20 psi"}, {"least": "100 psi"}],
            "repeat": "0.5 psi", "gauge_uncertainty": "1 psi", "unit": "psi"
        }
    }));
    let found = compression(&report);
    let verdicts: Vec<Verdict> = found.rules.iter().map(|one| one.judged.verdict).collect();
    assert_eq!(verdicts, [Verdict::InBand, Verdict::Below, Verdict::InBand]);
    assert!(found.rules.iter().all(|one| one.lowest == "cylinder 2"));
    assert!(
        found.verdict_text.contains("1 of 3 rules"),
        "{}",
        found.verdict_text
    );
    let sheet = report.sheet();
    assert_eq!(sheet.matches("  rule: ").count(), 3);
    assert!(
        sheet.contains("at most 20 psi from the lowest to the highest: here 121 psi"),
        "{sheet}"
    );
}

/// Two neighbours low and oil no help: the gasket between them (published). Not where each has its own head.
#[test]
fn neighbours_low_point_to_the_gasket_between_them() {
    let readings = json!([
        {"cylinder": "1", "dry": "150 psi", "wet": "155 psi"},
        {"cylinder": "2", "dry": "95 psi", "wet": "98 psi"},
        {"cylinder": "3", "dry": "97 psi", "wet": "99 psi"},
        {"cylinder": "4", "dry": "148 psi", "wet": "152 psi"}
    ]);
    let one_head = report(&of(&readings));
    assert!(belief(&one_head, 1, CompressionCause::Gasket) > 0.9);
    let [gasket] = &compression(&one_head).gaskets[..] else {
        panic!("one");
    };
    assert_eq!(gasket.between, ["2", "3"]);
    assert!(assumed(&one_head, "condition.rows-as-listed"));
    // Nothing says that the bolts are tight: they come before anything is taken apart.
    let WorkAdvice::Measure { text } = &compression(&one_head).advice else {
        panic!("{:?}", compression(&one_head).advice);
    };
    assert!(
        text.starts_with("the torque of the head bolts first"),
        "{text}"
    );
    assert!(
        compression(&one_head)
            .verdict_text
            .starts_with("cylinders 2 and 3 low")
    );
    let mut own_heads = of(&readings);
    own_heads["heads"] = json!([]);
    let own_heads = report(&own_heads);
    assert_abs_diff_eq!(belief(&own_heads, 1, CompressionCause::Gasket), 0.0);
    assert!(compression(&own_heads).gaskets.is_empty());
    assert!(!assumed(&own_heads, "condition.rows-as-listed"));
}

/// Oil that brings most of it back points to the rings, oil that does nothing away from them (published); what it
/// did is said, and so is how far that moved the belief.
#[test]
fn what_oil_said_is_told() {
    let with = |wet: f64| {
        report(&of(&json!([
            {"cylinder": "1", "dry": "150 psi"},
            {"cylinder": "2", "dry": "100 psi", "wet": format!("{wet} psi")},
            {"cylinder": "3", "dry": "149 psi"},
            {"cylinder": "4", "dry": "151 psi"}
        ])))
    };
    let (much, little) = (with(140.0), with(102.0));
    let oil = |report: &Report| {
        let text = compression(report).cylinders[1].oil_text.clone();
        text.expect("read")
    };
    assert!(
        oil(&much).starts_with("40 psi more, which speaks for the rings"),
        "{}",
        oil(&much)
    );
    assert!(
        oil(&little).contains("speaks against the rings"),
        "{}",
        oil(&little)
    );
    assert!(belief(&much, 1, CompressionCause::Rings) > 0.9);
    assert!(belief(&little, 1, CompressionCause::Rings) < 0.05);
    assert!(much.sheet().contains("      oil: 40 psi more"));
}

/// What to do next: valves before oil, oil before leak-down.
#[test]
fn each_look_comes_in_its_turn() {
    let look = |valves: &str, wet: Option<&str>| {
        let mut readings = dry(&[150.0, 100.0, 149.0, 151.0]);
        if let Some(wet) = wet {
            readings[1]["wet"] = json!(wet);
        }
        let mut asked = of(&readings);
        asked["valves"] = json!(valves);
        let report = report(&asked);
        let next = compression(&report).next.as_ref().expect("low").look;
        (
            next,
            compression(&report).advice.clone(),
            section(&report).next.clone(),
        )
    };
    let (next, advice, work) = look("not_settled", None);
    assert_eq!(next, CompressionLook::Clearances);
    assert!(
        matches!(advice, WorkAdvice::SettleFirst { .. }),
        "{advice:?}"
    );
    assert_eq!(work.expect("open").step, WorkStep::Valves);
    let (next, advice, work) = look("settled", None);
    assert_eq!(next, CompressionLook::Oil);
    assert!(
        matches!(&advice, WorkAdvice::Measure { text } if text.contains("read cylinder 2 again"))
    );
    assert_eq!(work.expect("open").step, WorkStep::Compression);
    assert_eq!(
        look("settled", Some("140 psi")).0,
        CompressionLook::LeakDown
    );
}

/// Read before the valves were settled, it holds for now only, and says so; what the clearance section of the same
/// document finds counts.
#[test]
fn before_the_valves_are_settled_it_is_provisional() {
    let good = dry(&[150.0, 149.0, 151.0, 150.0]);
    let mut asked = of(&good);
    assert!(compression(&report(&asked)).provisional.is_none());
    asked["valves"] = json!("not_settled");
    let not_settled = report(&asked);
    assert!(compression(&not_settled).provisional.is_some());
    assert_eq!(
        step(&not_settled, WorkStep::Compression),
        Standing::NotKnown
    );
    let sheet = not_settled.sheet();
    assert!(
        sheet.contains("provisional: settle the valve clearances first"),
        "{sheet}"
    );
    asked.as_object_mut().expect("an object").remove("valves");
    let not_known = report(&asked);
    let text = compression(&not_known).provisional.clone().expect("said");
    assert!(text.contains("nothing says"), "{text}");

    let mut with_clearances = example("inline-four.json");
    asked["valves"] = json!("settled");
    with_clearances["condition"] = asked;
    let report = run(&with_clearances);
    assert_eq!(step(&report, WorkStep::Valves), Standing::NotSettled);
    let text = compression(&report).provisional.clone().expect("said");
    assert!(text.contains("settle the valve clearances first"), "{text}");
    assert!(
        assumed(&report, "condition.compression-closing-assumed")
            || compression(&report).level.is_none()
    );
}

/// Leak-down of the low cylinder is asked for, unless it was read.
#[test]
fn a_leak_down_that_was_read_is_not_asked_for_again() {
    let mut asked = of(&dry(&[150.0, 149.0, 90.0, 150.0]));
    asked["compression"]["oil"] = json!("3 ml");
    asked["cylinder_volume"] = json!("325 ml");
    asked["compression"]["readings"][2]["wet"] = json!("96 psi");
    let advice = |asked: &Value| compression(&report(asked)).advice.clone();
    assert!(matches!(advice(&asked), WorkAdvice::Measure { text } if text.contains("listen at")));
    let tester = json!({"supply": "80 psi", "orifice": "0.040 in"});
    let with_leak = |cylinder: &str| {
        let mut asked = asked.clone();
        asked["leak"] = json!({
            "tester": tester,
            "rule": {"supply": "80 psi", "orifice": "0.040 in", "least": "60 psi"},
            "readings": [{"cylinder": cylinder, "shows": "40 psi", "held": true}]
        });
        asked
    };
    let with = |cylinder: &str| advice(&with_leak(cylinder));
    let next = |cylinder: &str| {
        let report = report(&with_leak(cylinder));
        section(&report).next.as_ref().expect("open").step
    };
    assert_eq!(next("3"), WorkStep::Leak);
    assert_eq!(next("1"), WorkStep::Compression);
    assert!(
        matches!(with("3"), WorkAdvice::FindCause { text, .. } if text.contains("cylinder 3 was read"))
    );
    assert!(matches!(with("1"), WorkAdvice::Measure { .. }));
}

/// A throttle that was shut makes every reading low: crank again, whatever they say.
#[test]
fn bad_cranking_is_done_again() {
    let mut asked = of(&dry(&[110.0, 60.0, 112.0, 111.0]));
    asked["compression"]["cranked"] = json!({"throttle_open": false});
    let report = report(&asked);
    let found = compression(&report);
    assert_eq!(found.faults, [CrankingFault::ThrottleShut]);
    assert_eq!(
        found.next.as_ref().expect("low").look,
        CompressionLook::CrankAgain
    );
    assert!(matches!(&found.advice, WorkAdvice::Measure { text } if text.contains("crank again")));
    assert_eq!(step(&report, WorkStep::Compression), Standing::NotKnown);
    // Nothing low, and still not believed.
    let mut asked = of(&dry(&[110.0, 111.0, 112.0, 111.0]));
    asked["compression"]["cranked"] = json!({"strokes": 2});
    let few = super::condition_read::report(&asked);
    assert_eq!(step(&few, WorkStep::Compression), Standing::NotKnown);
    assert!(matches!(
        &compression(&few).advice,
        WorkAdvice::Measure { .. }
    ));
}

#[test]
fn cylinders_that_were_not_read_are_named() {
    let report = report(&of(&dry(&[150.0, 149.0])));
    assert_eq!(compression(&report).not_read, ["cylinder 3", "cylinder 4"]);
    assert_eq!(step(&report, WorkStep::Compression), Standing::NotKnown);
    assert!(
        matches!(&compression(&report).advice, WorkAdvice::Measure { text } if text.contains("cylinder 3"))
    );
}

/// A dead coil, shut fuel, plugs out, and nobody at the fan: before anything is cranked.
#[test]
fn the_cautions_fit_cranking() {
    let report = report(&of(&dry(&[150.0, 149.0, 151.0, 150.0])));
    let said = report.cautions.join(" ");
    for word in ["all plugs out", "fuel", "earthed", "fan"] {
        assert!(said.contains(word), "{word}: {said}");
    }
    let sheet = report.sheet();
    let caution = sheet
        .find("! To crank for compression")
        .expect("on the sheet");
    assert!(caution < sheet.find("Compression: ").expect("on the sheet"));
}

#[test]
fn what_cannot_be_is_refused_where_it_stands() {
    let at = |field: &str| format!("/condition/compression{field}");
    let mut asked = of(&json!([]));
    refused_with(&at("/readings"), "condition.compression-no-reading", &asked);
    asked = of(&json!([{"cylinder": "7", "dry": "150 psi"}]));
    refused_with(&at("/readings/0/cylinder"), "job.no-such-cylinder", &asked);
    asked = of(&json!([{"cylinder": "1", "dry": "150 psi"}, {"cylinder": "1", "dry": "151 psi"}]));
    refused_with(
        &at("/readings/1/cylinder"),
        "condition.compression-read-twice",
        &asked,
    );
    asked = of(&json!([{"cylinder": "1", "dry": "450 psi"}]));
    refused_with(&at("/readings/0"), "condition.compression-shown", &asked);
    asked = of(&json!([{"cylinder": "1", "dry": "150 psi", "wet": "120 psi"}]));
    refused_with(
        &at("/readings/0/wet"),
        "condition.compression-wet-under-dry",
        &asked,
    );
    let good = dry(&[150.0, 149.0, 151.0, 150.0]);
    let with = |field: &str, value: Value| {
        let mut asked = of(&good);
        asked["compression"][field] = value;
        asked
    };
    let rules = |rule: Value| with("rules", json!([rule]));
    let asked = rules(json!({"percent_of_highest": 110}));
    refused_with(
        &at("/rules/0/percent_of_highest"),
        "condition.compression-ratio-rule",
        &asked,
    );
    let asked = rules(json!({"most_between": "200 psi"}));
    refused_with(
        &at("/rules/0/most_between"),
        "condition.compression-difference-rule",
        &asked,
    );
    let asked = rules(json!({"least": "5 psi"}));
    refused_with(
        &at("/rules/0/least"),
        "condition.compression-minimum-rule",
        &asked,
    );
    let asked = rules(json!({"least": "100 psi", "percent_of_highest": 75}));
    refused_with(&at("/rules/0"), "condition.one-rule", &asked);
    let asked = with("exponent", json!({"from": 1.2, "to": 1.6}));
    refused_with(&at("/exponent"), "condition.compression-exponent", &asked);
    let asked = with("repeat", json!("0 psi"));
    refused_with(&at("/repeat"), "condition.compression-repeat", &asked);
    let mut asked = of(&json!([{"cylinder": "1", "dry": "150 psi"}]));
    asked["compression"]["rules"] = json!([{"percent_of_highest": 75}]);
    refused_with(&at("/rules"), "condition.compression-one-reading", &asked);
}

#[test]
fn dimensions_that_cannot_be_are_refused_where_they_stand() {
    let with = |field: &str, value: Value| {
        let mut asked = of(&dry(&[150.0, 149.0, 151.0, 150.0]));
        asked["compression_ratio"] = json!(9);
        asked[field] = value;
        asked
    };
    // Under 3 or over 25 is no engine with spark ignition or a diesel.
    for ratio in [2.5, 26.0] {
        let asked = with("compression_ratio", json!(ratio));
        refused_with(
            "/condition/compression_ratio",
            "engine.compression-ratio",
            &asked,
        );
    }
    let asked = with("compression_ratio_uncertainty", json!(-0.1));
    let place = "/condition/compression_ratio_uncertainty";
    refused_with(place, "condition.ratio-uncertainty", &asked);
    let asked = with("heads", json!([["1", "2"], ["2", "3"]]));
    refused_with(
        "/condition/heads",
        "condition.compression-twice-in-rows",
        &asked,
    );
    let asked = with("heads", json!([["1", "9"]]));
    refused_with("/condition/heads", "job.no-such-cylinder", &asked);
    let mut asked = with("cylinder_volume", json!("125 ml"));
    asked["compression"]["oil"] = json!("15 ml");
    asked["compression"]["readings"][0]["wet"] = json!("155 psi");
    refused_with(
        "/condition/compression/oil",
        "condition.compression-oil-fills",
        &asked,
    );
}
