//! Jets in a document: which size goes with other air.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::float_cmp,
    reason = "a test that cannot read its document stops with the reason"
)]

use super::ignition_four::assumed;
use super::mixture_read::{refused_with, report, section, step};
use approx::{assert_abs_diff_eq, assert_relative_eq};
use lashwork::job::mixture::{JetReport, JetsReport};
use lashwork::job::{Report, Standing, WorkAdvice, WorkStep};
use lashwork::mixture::jets::{Circuit, JetCaution, JetRule};
use serde_json::{Value, json};

/// A main jet of 200 by flow, set at sea level, an invented series.
fn main_jet() -> Value {
    json!({
        "circuit": "main", "number": 200, "numbering": "flow",
        "sizes": [140, 150, 160, 170, 180, 190, 200, 210],
        "lambda": "0.88 lambda", "lambda_uncertainty": 0.01
    })
}

fn jets(fitted: &[Value]) -> Value {
    json!({"set_for": {"altitude": "0 ft", "temperature": "70 F"}, "fitted": fitted})
}

/// The jets at 6000 ft and 40 F, all before them settled but the float level.
fn high(jets: &Value) -> Value {
    json!({
        "valves": "settled", "timing": "settled",
        "air": {"altitude": "6000 ft", "temperature": "40 F"}, "jets": jets
    })
}

fn found(report: &Report) -> &JetsReport {
    section(report).jets.as_ref().expect("asked for")
}

fn only(report: &Report) -> &JetReport {
    let [jet] = found(report).jets.as_slice() else {
        panic!("one jet");
    };
    jet
}

/// Both densities by the ideal gas of half-moist air, apart from the kernel: 1.1940 kg/m3 (101.325 kPa, 294.26 K,
/// half of 2.504 kPa of vapour) and 1.0170 (81.200 kPa, 277.59 K, half of 0.839 kPa): 0.8518, so 184.6 by theory
/// and 170.4 in proportion.
#[test]
fn theory_and_proportion_stand_side_by_side() {
    let report = report(&high(&jets(&[main_jet()])));
    let all = found(&report);
    assert_abs_diff_eq!(all.ratio, 0.8518, epsilon = 0.0005);
    assert!(all.ratio_u > 0.005 && all.ratio_u < 0.03);
    let from = all.set_for.density.expect("known");
    assert_abs_diff_eq!(from.kilograms_per_cubic_metre(), 1.1940, epsilon = 0.001);
    assert!(all.set_for.density_u > 0.005);
    let there = section(&report).air.as_ref().expect("stated");
    let density = there.density.expect("known").kilograms_per_cubic_metre();
    assert_abs_diff_eq!(density, 1.0170, epsilon = 0.001);
    let jet = only(&report);
    assert_eq!(jet.rules[0].rule, JetRule::Theory);
    assert_abs_diff_eq!(jet.rules[0].number, 184.6, epsilon = 0.1);
    assert_abs_diff_eq!(jet.rules[1].number, 170.4, epsilon = 0.1);
    assert_eq!(jet.rules[0].size, Some(190.0));
    assert!(jet.rules_text.contains("disagree"), "{}", jet.rules_text);
    assert_eq!((jet.circuit, jet.fit), (Circuit::Main, Some(190.0)));
    // By hand: 0.88 x 200/190 x 0.8518^(1/2 .. 1).
    let fit = jet.sizes.iter().find(|size| size.number == 190.0);
    let fit = fit.expect("around the rules");
    assert_abs_diff_eq!(fit.lambda_to, 0.8549, epsilon = 0.0005);
    assert_abs_diff_eq!(fit.lambda_from, 0.7890, epsilon = 0.0005);
    assert_relative_eq!(fit.back, 0.88 * 200.0 / 190.0, max_relative = 1e-12);
    let WorkAdvice::Set {
        first,
        text,
        then_reads,
    } = &jet.advice
    else {
        panic!("{:?}", jet.advice);
    };
    assert!(text.contains("fit 190 in place of 200"), "{text}");
    assert!(text.contains("200 goes back in"), "{text}");
    assert!(then_reads.contains("full load"), "{then_reads}");
    assert!(
        first.iter().any(|one| one.contains("fuel level")),
        "{first:?}"
    );
    assert!(!first.iter().any(|one| one.contains("timing")), "{first:?}");
    // Balance comes after the jets: what counts is how it was where it ran right.
    assert!(
        first.iter().any(|one| one.contains("balanced then"))
            && !first.iter().any(|one| one.contains("are balanced")),
        "{first:?}"
    );
    let cautions: Vec<JetCaution> = jet.cautions.iter().map(|one| one.caution).collect();
    assert_eq!(cautions, [JetCaution::RichIsSafe, JetCaution::LeanBackDown]);
    assert!(jet.cautions[1].text.contains("holes a piston"));
    assert_eq!(step(&report, WorkStep::Jets), Standing::NotSettled);
    assert!(assumed(&report, "mixture.same-volume-of-air"));
    assert!(assumed(&report, "mixture.weather-pressure"));
    let sheet = report.sheet();
    assert!(
        sheet.contains("first make sure: the fuel level is settled"),
        "{sheet}"
    );
}

/// Steps of a family of jets in print: 6 numbers for 1000 ft and 4 for 10 F. 200 - 36 + 12 = 176.
#[test]
fn the_steps_of_the_book_are_not_merged() {
    let with_steps = |per_1000_ft: f64| {
        let mut jet = main_jet();
        jet["book_steps"] = json!({"per_1000_ft": per_1000_ft, "per_10_f": 4});
        report(&high(&jets(&[jet])))
    };
    let plain = with_steps(6.0);
    let book = &only(&plain).rules[2];
    assert_abs_diff_eq!(book.number, 176.0, epsilon = 1e-9);
    assert_eq!((book.number_u, book.size), (None, Some(180.0)));
    assert!(
        book.text.contains("the nearest on the rich side is 180"),
        "{}",
        book.text
    );
    // 200 - 6 + 12 = 206: larger than both others, and then the size to fit is the book's.
    let rich = with_steps(1.0);
    let jet = only(&rich);
    assert_eq!(jet.fit, Some(210.0));
    assert!(jet.rules_text.contains("book"), "{}", jet.rules_text);
    let is_said = |caution| jet.cautions.iter().any(|one| one.caution == caution);
    assert!(is_said(JetCaution::BookIsRicher) && !is_said(JetCaution::LeanBackDown));
}

/// Whatever sizes are named: what is fitted, what is to be fitted and what each rule asks for stand in the table,
/// rising and once.
#[test]
fn the_table_holds_every_size_that_is_spoken_of() {
    let series: [&[i32]; 7] = [
        &[105, 108, 110],
        &[160, 170, 210],
        &[140, 150],
        &[170],
        &[188, 191, 195, 220],
        &[200],
        &[210, 220],
    ];
    for sizes in series {
        for heights in [("6000 ft", "0 ft"), ("0 ft", "6000 ft")] {
            let mut jet = main_jet();
            jet["sizes"] = json!(sizes);
            jet["book_steps"] = json!({"per_1000_ft": 6, "per_10_f": 4});
            let mut asked = high(&jets(&[jet]));
            asked["air"]["altitude"] = json!(heights.0);
            asked["jets"]["set_for"]["altitude"] = json!(heights.1);
            let report = report(&asked);
            let jet = only(&report);
            let table: Vec<f64> = jet.sizes.iter().map(|size| size.number).collect();
            assert!(table.windows(2).all(|pair| pair[0] < pair[1]), "{table:?}");
            assert!(table.contains(&200.0), "{sizes:?}: {table:?}");
            for rule in &jet.rules {
                for size in [rule.size, rule.nearest, jet.fit].into_iter().flatten() {
                    assert!(table.contains(&size), "{sizes:?}: {size} in {table:?}");
                }
            }
            assert_eq!(report.sheet().matches("as it is, ").count(), 1);
        }
    }
}

/// 120 less one number for 2000 ft by the book is 118; the sizes that were named end at 110.
#[test]
fn a_size_that_is_not_to_be_had_is_said_to_be_none() {
    let mut jet = main_jet();
    jet["number"] = json!(120);
    jet["sizes"] = json!([105, 108, 110]);
    jet["book_steps"] = json!({"per_1000_ft": 1, "per_10_f": 4});
    let mut asked = high(&jets(&[jet]));
    asked["air"] = json!({"altitude": "2000 ft", "temperature": "70 F"});
    let short = report(&asked);
    let book = &only(&short).rules[2];
    assert_abs_diff_eq!(book.number, 118.0, epsilon = 1e-9);
    assert_eq!(
        book.text,
        "the book's steps: 118.0: not among the sizes to be had, the nearest on the rich side is 120, which is fitted"
    );
    assert_eq!(only(&short).fit, Some(120.0));
    asked["jets"]["fitted"][0]["sizes"] = json!([105, 108, 110, 118]);
    let had = report(&asked);
    let book = &only(&had).rules[2];
    assert_eq!(book.text, "the book's steps: 118.0: size 118");
    // Where none is rich enough, that is said.
    asked["jets"]["fitted"][0]["sizes"] = json!([105, 108, 110]);
    asked["air"]["altitude"] = json!("0 ft");
    asked["jets"]["set_for"]["altitude"] = json!("2000 ft");
    let none = report(&asked);
    let text = &only(&none).rules[2].text;
    assert!(
        text.ends_with("no size to be had is large enough"),
        "{text}"
    );
}

#[test]
fn main_and_pilot_are_answered_apart() {
    let pilot = json!({
        "circuit": "pilot", "number": 45, "numbering": "diameter", "sizes": [40, 42.5, 44, 45, 47.5]
    });
    let report = report(&high(&jets(&[main_jet(), pilot])));
    let [main, pilot] = found(&report).jets.as_slice() else {
        panic!("two jets");
    };
    assert_eq!(
        (main.name.as_str(), pilot.name.as_str()),
        ("main jet", "pilot jet")
    );
    assert!(main.sizes.iter().all(|size| size.number > 100.0));
    assert!(pilot.sizes.iter().all(|size| size.number < 50.0));
    // By bore: 45 x 0.8518^(1/4) = 43.23.
    assert_abs_diff_eq!(pilot.rules[0].number, 43.23, epsilon = 0.01);
    assert!(!pilot.is_lambda_known && main.is_lambda_known);
    assert!(
        pilot.kept.text.contains("of the lambda it had"),
        "{}",
        pilot.kept.text
    );
    assert!(assumed(&report, "mixture.lambda-of-one"));
    // Each is seen where it works.
    let reads = |jet: &JetReport| match &jet.advice {
        WorkAdvice::Set { then_reads, .. } => then_reads.clone(),
        other => format!("{other:?}"),
    };
    assert!(reads(main).contains("at full load"), "{}", reads(main));
    assert!(reads(pilot).contains("at idle"), "{}", reads(pilot));
}

/// Of two main jets with names of their own one is right: the jets are not settled.
#[test]
fn one_jet_that_is_right_does_not_settle_the_others() {
    let (mut front, mut rear) = (main_jet(), main_jet());
    front["name"] = json!("front");
    front["sizes"] = json!([200, 210]);
    rear["name"] = json!("rear");
    let report = report(&high(&jets(&[front, rear])));
    let [front, rear] = found(&report).jets.as_slice() else {
        panic!("two jets");
    };
    assert_eq!((front.fit, rear.fit), (Some(200.0), Some(190.0)));
    assert_eq!(rear.name, "main jet rear");
    assert_eq!(step(&report, WorkStep::Jets), Standing::NotSettled);
}

#[test]
fn going_down_the_smaller_jet_is_lean() {
    let mut jet = main_jet();
    jet["number"] = json!(180);
    let asked = json!({
        "valves": "settled", "timing": "settled",
        "air": {"altitude": "0 ft", "temperature": "70 F"},
        "jets": {"set_for": {"altitude": "6000 ft", "temperature": "40 F"}, "fitted": [jet]}
    });
    let report = report(&asked);
    let jet = only(&report);
    // 180/0.8518 = 211.3 in proportion: no size is large enough.
    assert_eq!(jet.fit, None);
    let WorkAdvice::Measure { text } = &jet.advice else {
        panic!("{:?}", jet.advice);
    };
    assert!(text.contains("do not load the engine"), "{text}");
    let is_said = |caution| jet.cautions.iter().any(|one| one.caution == caution);
    assert!(is_said(JetCaution::DenserIsLean) && is_said(JetCaution::SeriesTooSmall));
}

#[test]
fn the_same_air_keeps_the_jet() {
    let mut asked = high(&jets(&[main_jet()]));
    asked["air"] = json!({"altitude": "0 ft", "temperature": "70 F"});
    let report = report(&asked);
    assert_eq!(only(&report).fit, Some(200.0));
    assert!(matches!(only(&report).advice, WorkAdvice::Leave { .. }));
    assert_eq!(step(&report, WorkStep::Jets), Standing::Settled);
}

/// From the heights alone the ratio is known to 7.5 %; 95 % of 184 by theory are then over 190.
#[test]
fn air_that_is_loosely_known_takes_the_larger_size() {
    let mut asked = high(&jets(&[main_jet()]));
    asked["air"] = json!({"altitude": "6000 ft"});
    asked["jets"]["set_for"] = json!({"altitude": "0 ft"});
    let report = report(&asked);
    let jet = only(&report);
    assert_abs_diff_eq!(
        found(&report).ratio_u / found(&report).ratio,
        0.075,
        epsilon = 1e-3
    );
    // The standard atmosphere: 0.8359 of the density at 6000 ft, 182.9 by theory.
    assert_abs_diff_eq!(jet.rules[0].number, 182.86, epsilon = 0.05);
    assert_eq!(jet.fit, Some(200.0));
    assert_eq!(jet.rules[0].nearest, Some(190.0));
    let text = &jet.rules[0].text;
    assert!(
        text.ends_with("190, but to be sure of it take 200, which is fitted"),
        "{text}"
    );
    assert!(
        jet.cautions
            .iter()
            .any(|one| one.caution == JetCaution::LooseAir)
    );
}

#[test]
fn no_size_is_named_before_what_comes_first() {
    let mut asked = high(&jets(&[main_jet()]));
    asked["timing"] = json!("not_settled");
    let waiting = report(&asked);
    assert_eq!(only(&waiting).fit, None);
    assert!(matches!(
        only(&waiting).advice,
        WorkAdvice::SettleFirst { .. }
    ));
    // The trap of the barometer that reads as at sea level.
    asked["timing"] = json!("settled");
    asked["air"] = json!({
        "barometer": {"shows": "29.92 inHg", "set_to": "place"}, "altitude": "6000 ft", "temperature": "40 F"
    });
    let doubtful = report(&asked);
    assert_eq!(only(&doubtful).fit, None);
    let verdict = &only(&doubtful).verdict_text;
    assert!(verdict.contains("something else comes first"), "{verdict}");
    let WorkAdvice::Measure { text } = &only(&doubtful).advice else {
        panic!("{:?}", only(&doubtful).advice);
    };
    assert!(text.contains("barometer"), "{text}");
}

#[test]
fn what_cannot_be_is_refused_where_it_stands() {
    let refused = |place: &str, code: &str, change: &dyn Fn(&mut Value)| {
        let mut asked = high(&jets(&[main_jet()]));
        change(&mut asked);
        refused_with(&format!("/mixture/jets{place}"), code, &asked);
    };
    let jet = |field: &'static str, to: Value| {
        move |asked: &mut Value| asked["jets"]["fitted"][0][field] = to.clone()
    };
    // The law of the numbers is never taken for granted.
    refused("/fitted/0", "mixture.jet-numbering-not-stated", &|asked| {
        let jet = asked["jets"]["fitted"][0].as_object_mut();
        jet.expect("a jet").remove("numbering");
    });
    refused(
        "/fitted/0",
        "document.missing-field",
        &jet("numbering", json!("table")),
    );
    refused(
        "/fitted/0/table",
        "mixture.jet-table-unused",
        &jet("table", json!([])),
    );
    refused(
        "/fitted/0/circuit",
        "mixture.needle-is-no-jet",
        &jet("circuit", json!("needle")),
    );
    refused(
        "/fitted/0/number",
        "mixture.jet-number",
        &jet("number", json!(0)),
    );
    refused(
        "/fitted/0/sizes",
        "mixture.jet-series",
        &jet("sizes", json!([200, 190])),
    );
    refused(
        "/fitted/0/sizes/0",
        "mixture.jet-number",
        &jet("sizes", json!([-5, 190])),
    );
    let steps = |up: i32| json!({"per_1000_ft": up, "per_10_f": 4});
    refused(
        "/fitted/0/book_steps",
        "mixture.jet-step",
        &jet("book_steps", steps(-1)),
    );
    refused(
        "/fitted/0/book_steps",
        "mixture.steps-leave-no-jet",
        &jet("book_steps", steps(60)),
    );
    refused("/fitted/0", "document.missing-field", &|asked| {
        let jet = asked["jets"]["fitted"][0].as_object_mut();
        jet.expect("a jet").remove("lambda_uncertainty");
    });
    refused("", "mixture.jets-without-air", &|asked| {
        asked.as_object_mut().expect("an object").remove("air");
    });
    refused("/set_for", "mixture.air-not-stated", &|asked| {
        asked["jets"]["set_for"] = json!({"temperature": "20 C"});
    });
    refused("/fitted", "mixture.no-jets", &|asked| {
        asked["jets"]["fitted"] = json!([]);
    });
    refused("/fitted/1", "mixture.same-jet-twice", &|asked| {
        asked["jets"]["fitted"] = json!([main_jet(), main_jet()]);
    });
    refused(
        "/fitted/0/book_steps",
        "mixture.steps-need-places",
        &|asked| {
            asked["jets"]["fitted"][0]["book_steps"] = steps(6);
            asked["air"] = json!({"altitude": "6000 ft"});
        },
    );
    refused("/fitted/0/sizes/0", "mixture.outside-jet-table", &|asked| {
        let jet = &mut asked["jets"]["fitted"][0];
        jet["numbering"] = json!("table");
        jet["table"] = json!([{"number": 150, "flow": 1}, {"number": 210, "flow": 2}]);
    });
    refused("/fitted/0/table", "mixture.outside-jet-table", &|asked| {
        let jet = &mut asked["jets"]["fitted"][0];
        jet["numbering"] = json!("table");
        jet["sizes"] = json!([190, 200, 210]);
        jet["table"] = json!([{"number": 190, "flow": 1}, {"number": 210, "flow": 1.1}]);
    });
}

/// What the jets were set for counts as well: a barometer that reads there as at sea level.
#[test]
fn a_doubtful_barometer_where_they_were_set_holds_every_size_back() {
    let mut asked = high(&jets(&[main_jet()]));
    asked["jets"]["set_for"] = json!({
        "barometer": {"shows": "29.92 inHg", "set_to": "place"}, "altitude": "6000 ft", "temperature": "70 F"
    });
    let report = report(&asked);
    assert!(found(&report).set_for.doubt.is_some());
    assert_eq!(only(&report).fit, None);
    let WorkAdvice::Measure { text } = &only(&report).advice else {
        panic!("{:?}", only(&report).advice);
    };
    assert!(text.contains("settle the barometer"), "{text}");
    assert_eq!(step(&report, WorkStep::Jets), Standing::NotSettled);
}

#[test]
fn what_must_be_sure_stands_before_a_jet() {
    let report = report(&high(&jets(&[main_jet()])));
    let WorkAdvice::Set { first, .. } = &only(&report).advice else {
        panic!("{:?}", only(&report).advice);
    };
    for sure in ["ran right with 200", "balanced then", "the fuel shut off"] {
        assert!(
            first.iter().any(|one| one.contains(sure)),
            "{sure}: {first:?}"
        );
    }
}
