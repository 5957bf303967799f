//! Inch engines in inches, and Fahrenheit where it is asked for: every text of sheets and report, no finer
//! than a hand can use. Conversions are made by hand, with 25.4 mm to the inch, 5/9 K to the degree
//! Fahrenheit.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]
#![allow(
    clippy::cast_possible_truncation,
    reason = "marks are whole micrometres, far below what an integer holds"
)]

use lashwork::job::Report;
use lashwork_tests::examples;
use lashwork_tests::refusals::{example, put, with};
use serde_json::{Value, json};
use std::collections::BTreeSet;

fn report(document: &Value) -> Report {
    lashwork_wire::report(document.to_string().as_bytes())
        .unwrap_or_else(|why| panic!("{why:?}\n{document}"))
}

fn in_inches_and_fahrenheit(mut document: Value) -> Value {
    put(
        &mut document,
        "/units",
        json!({ "length": "in", "temperature": "F" }),
    );
    document
}

/// Every text of a document, changed.
fn each_text(value: &mut Value, change: &dyn Fn(&str) -> Option<String>) {
    match value {
        Value::String(text) => {
            if let Some(new) = change(text) {
                *text = new;
            }
        }
        Value::Array(items) => items.iter_mut().for_each(|item| each_text(item, change)),
        Value::Object(map) => map.values_mut().for_each(|item| each_text(item, change)),
        _ => {}
    }
}

/// Lengths in inches, to 0.0001 in what a leaf may be and to 0.01 in what is longer; temperatures in
/// Fahrenheit.
fn inched(text: &str) -> Option<String> {
    let (number, unit) = text.split_once(' ')?;
    let number: f64 = number.parse().ok()?;
    match unit {
        "mm" if number.abs() < 20.0 => Some(format!("{:.4} in", number / 25.4)),
        "mm" => Some(format!("{:.2} in", number / 25.4)),
        "C" => Some(format!("{:.1} F", number * 1.8 + 32.0)),
        _ => None,
    }
}

/// An example as an inch book and inch leaves would have it. What its writer notes is the writer's.
fn inch_engine(mut document: Value) -> Value {
    document.as_object_mut().unwrap().remove("note");
    each_text(&mut document, &inched);
    // A series is whole steps.
    let series = "/clearance/valves/shim/series";
    if document.pointer(series).is_some() {
        let whole = json!({ "first": "0.0860 in", "last": "0.1260 in", "step": "0.0020 in" });
        put(&mut document, series, whole);
    }
    document
}

/// Every text of the report, and both sheets.
fn texts(report: &Report) -> Vec<String> {
    fn gather(value: &Value, out: &mut Vec<String>) {
        match value {
            Value::String(text) => out.push(text.clone()),
            Value::Array(items) => items.iter().for_each(|item| gather(item, out)),
            Value::Object(map) => map.values().for_each(|item| gather(item, out)),
            _ => {}
        }
    }
    let mut all = vec![report.sheet(), report.full_sheet()];
    gather(&serde_json::to_value(report).unwrap(), &mut all);
    all
}

/// The words of a text without brackets and commas, in pairs.
fn pairs(text: &str) -> Vec<(String, String)> {
    let bare = |word: &str| {
        let kept = |c: char| !c.is_alphanumeric() && !"/-".contains(c);
        word.trim_matches(kept).to_owned()
    };
    let words: Vec<String> = text.split_whitespace().map(bare).collect();
    let pairs = words.windows(2);
    pairs.map(|w| (w[0].clone(), w[1].clone())).collect()
}

fn is_number(word: &str) -> bool {
    word.ends_with(|c: char| c.is_ascii_digit())
}

/// What stands in millimetres, kelvin or degrees Celsius.
fn metric(report: &Report) -> BTreeSet<String> {
    let all = texts(report);
    let pairs = all.iter().flat_map(|text| pairs(text));
    let metric = pairs.filter(|(number, unit)| {
        let units = ["mm", "mm/K", "K", "C"];
        units.contains(&unit.as_str()) && (is_number(number) || number == "in")
    });
    metric
        .map(|(number, unit)| format!("{number} {unit}"))
        .collect()
}

/// Every example as an inch engine: by its leaves alone, and by what is asked for.
#[test]
fn inch_engines_are_in_inches() {
    for (name, bytes) in examples() {
        let engine = inch_engine(serde_json::from_slice(&bytes).unwrap());
        let asked = in_inches_and_fahrenheit(engine.clone());
        assert_eq!(metric(&report(&asked)), BTreeSet::new(), "{name}");
        if engine.pointer("/clearance/gauge").is_none() {
            continue;
        }
        let fahrenheit = with(engine, &[("/units", json!({ "temperature": "F" }))]);
        assert_eq!(metric(&report(&fahrenheit)), BTreeSet::new(), "{name}");
    }
}

/// Every example as it is, asked for in inches and Fahrenheit. What may stand in millimetres: what is
/// marked on leaves and shims, what the book prints, what was written into the document, and the sizes
/// of a series of shims.
#[test]
fn marks_and_print_stay_as_they_are() {
    let mut stood = 0;
    for (name, bytes) in examples() {
        let mut document: Value = serde_json::from_slice(&bytes).unwrap();
        document.as_object_mut().unwrap().remove("note");
        let may_stand = written(&document);
        for one in metric(&report(&in_inches_and_fahrenheit(document))) {
            let (number, unit) = one.split_once(' ').unwrap();
            let is_written = unit == "mm" && may_stand.contains(&in_micrometres(number));
            assert!(is_written, "{name}: {one}");
            stood += 1;
        }
    }
    assert!(stood > 50, "only {stood}");
}

fn in_micrometres(number: &str) -> i64 {
    (number.parse::<f64>().unwrap() * 1e3).round() as i64
}

fn written(document: &Value) -> BTreeSet<i64> {
    fn gather(value: &Value, out: &mut BTreeSet<i64>) {
        match value {
            Value::String(text) => {
                out.extend(text.strip_suffix(" mm").map(in_micrometres));
            }
            Value::Array(items) => items.iter().for_each(|item| gather(item, out)),
            Value::Object(map) => map.values().for_each(|item| gather(item, out)),
            _ => {}
        }
    }
    let mut all = BTreeSet::new();
    gather(document, &mut all);
    if let Some(series) = document.pointer("/clearance/valves/shim/series") {
        let end = |key: &str| in_micrometres(series[key].as_str().unwrap().trim_end_matches(" mm"));
        let step = usize::try_from(end("step")).unwrap();
        all.extend((end("first")..=end("last")).step_by(step));
    }
    all
}

/// The same document in both units: its full sheets.
fn both(document: &Value) -> (String, String) {
    let metric = report(document).full_sheet();
    (
        metric,
        report(&in_inches_and_fahrenheit(document.clone())).full_sheet(),
    )
}

fn say(document: &Value, metric: &str, inch: &str) {
    let sheets = both(document);
    assert!(sheets.0.contains(metric), "no {metric:?} in\n{}", sheets.0);
    assert!(sheets.1.contains(inch), "no {inch:?} in\n{}", sheets.1);
}

/// 0.20 / 25.4 = 0.00787, 0.18 / 25.4 = 0.00709, 0.22 / 25.4 = 0.00866: to the nearest half thousandth.
#[test]
fn a_book_in_the_other_unit_says_both() {
    say(
        &example("inline-four.json"),
        "set to 0.20 mm, band 0.18 mm to 0.22 mm;",
        "set to 0.20 mm (0.008 in), band 0.18 mm to 0.22 mm (0.007 in to 0.0085 in);",
    );
}

/// 0.010 / 25.4 = 0.00039, 0.008 / 25.4 = 0.00031; 33.5 C is 92.3 F: the texts of waiting, of the
/// comparison (0.012 / 25.4 = 0.00047), of a part (70 / 25.4 = 2.756) and of the lock nut (0.018 and 0.003
/// and 0.008 mm).
#[test]
fn what_the_warmth_does_is_said_in_inches() {
    let document = example("upright-twin-warm.json");
    say(
        &document,
        "[later-sheet] intake (u 0.010 mm now, 0.008 mm wanted)",
        "[later-sheet] intake (u 0.0004 in now, 0.0003 in wanted)",
    );
    say(&document, "apart, u 0.012 mm", "apart, u 0.0005 in");
    say(
        &document,
        "camshaft to barrel flange: 70.0 mm of",
        "camshaft to barrel flange: 2.76 in of",
    );
    say(
        &document,
        "locking opens the gap by 0.018 mm",
        "locking opens the gap by 0.0007 in",
    );
    say(
        &document,
        "standard deviation 0.003 mm as felt; the next within 0.008 mm",
        "standard deviation 0.0001 in as felt; the next within 0.0003 in",
    );
    // 17 less 12 millionths over 95 mm and 50 K are 0.024 mm, a thousandth of an inch.
    say(
        &document,
        "by some 0.025 mm more when it is 50 K warmer",
        "by some 0.0010 in more when it is 90 F warmer",
    );
}

/// At 40 C the lash has grown by 0.067 mm, that is 0.0026 in; one of 0.002 in when cold is then 0.118 mm,
/// 0.0046 in, to the nearest half thousandth 0.0045.
#[test]
fn lash_by_temperature_is_said_in_inches() {
    let document = example("upright-twin-warm.json");
    let found = report(&document);
    let curve = &found.clearance.as_ref().unwrap().warmth.lash_curves[0];
    let point = &curve.points[2];
    assert!((point.change.mm() - 0.067).abs() < 0.0005, "{point:?}");
    assert!((point.lash.mm() - 0.118).abs() < 0.0005, "{point:?}");
    let (metric, inch) = both(&document);
    let row = |sheet: &str, at: &str| -> Vec<String> {
        let line = sheet.lines().find(|line| line.starts_with(at)).unwrap();
        line.split_whitespace().take(5).map(String::from).collect()
    };
    assert_eq!(row(&metric, "   40 C")[2..], ["+0.067", "(0.008)", "0.12"]);
    assert_eq!(
        row(&inch, "  104 F")[2..],
        ["+0.0026", "(0.0003)", "0.0045"]
    );
    assert!(metric.contains("in mm: thermal change") && inch.contains("in inches: thermal change"));
}

/// A pulley's marks: 141 mm along the rim are 5.55 in, 5 and 8.8 sixteenths; 486 mm are 19.13 in, 19 and
/// 2.1 sixteenths.
#[test]
fn a_rim_is_measured_with_a_rule() {
    let document = example("v-eight-marks.json");
    say(
        &document,
        "rim mark 141 mm behind TDC",
        "rim mark 5 9/16 in behind TDC",
    );
    let document = example("v-eight-shims.json");
    say(
        &document,
        "rim mark 486 mm behind TDC",
        "rim mark 19 1/8 in behind TDC",
    );
}

/// Metal 44 K off with no rule: 0.1 mm x 44 / 60 = 0.073 mm, 0.0029 in.
#[test]
fn a_shift_that_nobody_knows_is_said_in_inches() {
    let mut document = example("inline-four.json");
    let hot = json!({ "temperature": { "is": "64 C", "uncertainty": "2 K" } });
    put(&mut document, "/clearance/metal", hot);
    say(
        &document,
        "it may differ by 0.07 mm (standard uncertainty)",
        "the metal is at 147 F, the figures hold at 68 F, and nothing says how the lash of this engine \
         follows the temperature; it may differ by 0.003 in (standard uncertainty)",
    );
    say(
        &document,
        "over a warm-up of 60 K come to about 0.10 mm)",
        "over a warm-up of 108 F come to about 0.004 in)",
    );
}

/// 0.02 mm is 0.0008 in and 0.05 mm is 0.0020 in, to the nearest half thousandth 0.001 and 0.002; 8 mm are
/// 0.315 in; 0.008 mm is 0.0003 in.
#[test]
fn what_is_taken_is_said_in_inches() {
    let mut document = inch_engine(example("inline-four.json"));
    put(
        &mut document,
        "/clearance/specifications/0/intake",
        json!({ "set_to": "0.008 in" }),
    );
    put(
        &mut document,
        "/clearance/valves/events/at",
        json!({ "lash": "0.040 in" }),
    );
    let sheet = report(&document).full_sheet();
    for text in [
        "taken (a fifth of it, 0.001 in to 0.002 in;",
        "greatest lift not stated, 0.315 in taken",
        "uncertainty of the hand not stated: 0.0003 in (standard)",
    ] {
        assert!(sheet.contains(text), "no {text:?} in\n{sheet}");
    }
}

/// 0.47 mm where 0.35 mm is set: 0.0185 and 0.014 in. A shim keeps the number that is printed on it; the
/// lash it leaves is 0.33 to 0.36 mm, 0.013 to 0.014 in.
#[test]
fn shims_keep_their_numbers_and_lash_is_said_in_inches() {
    let document = example("v-eight-shims.json");
    say(
        &document,
        "opened to 0.47 mm where 0.35 mm is set",
        "opened to 0.0185 in where 0.35 mm (0.014 in) is set",
    );
    say(
        &document,
        "lash then 0.33 mm to 0.36 mm: IN BAND against 0.32 mm to 0.38 mm:",
        "lash then 0.013 in to 0.014 in: IN BAND against 0.32 mm to 0.38 mm (0.0125 in to 0.015 in):",
    );
    let (metric, inch) = both(&document);
    let shims = |sheet: &str| -> Vec<String> {
        let words: Vec<&str> = sheet.split_whitespace().collect();
        let line = words.join(" ");
        let lifted = line.split("lift out ").skip(1);
        lifted
            .map(|rest| rest.chars().take_while(|c| *c != ',').collect())
            .collect()
    };
    assert!(!shims(&metric).is_empty());
    assert_eq!(shims(&metric), shims(&inch));
}

/// What a hand is told has no third decimal of a millimetre.
#[test]
fn a_hand_is_told_hundredths() {
    let page = report(&example("inline-four.json")).sheet();
    let advice = page.lines().skip_while(|line| !line.starts_with("Stop 1"));
    let advice = advice.take_while(|line| !line.starts_with("Assumed"));
    let fine = advice.flat_map(pairs).filter(|(number, unit)| {
        let decimals = number.split_once('.').map_or(0, |(_, d)| d.len());
        unit == "mm" && decimals > 2 && number != "0.005"
    });
    assert_eq!(fine.collect::<Vec<_>>(), [], "{page}");
}

/// One valve by itself says what it says in what is asked for: 0.10 mm is 0.0039 in.
#[test]
fn one_valve_is_said_in_inches() {
    let check = json!({ "valve": "intake", "reading": { "goes": ["0.30 mm"] },
        "limits": { "set_to": "0.20 mm", "set": { "from": "0.18 mm", "to": "0.22 mm" } },
        "units": { "length": "in" } });
    let report = lashwork_wire::quick_report(check.to_string().as_bytes()).unwrap();
    assert_eq!(
        report.judged.advice.text(),
        "reset to 0.20 mm (0.008 in); close the gap by at least 0.004 in"
    );
    assert_eq!(
        report.judged.limits,
        "0.18 mm to 0.22 mm (0.007 in to 0.0085 in)"
    );
}

/// What the readings say together: a spread of 0.028 mm is 0.0011 in, a shift of 0.10 mm 0.0039 in.
#[test]
fn what_the_readings_say_together_is_said_in_inches() {
    let document = example("exchanged-four.json");
    say(
        &document,
        "about 0.200 mm with a spread of 0.028 mm, exhaust about 0.300 mm with 0.028 mm",
        "about 0.0079 in with a spread of 0.0011 in, exhaust about 0.0118 in with 0.0011 in",
    );
    say(
        &document,
        "an engine 60 K warmer than noticed is assumed to change all lashes by 0.100 mm, at most 0.200 mm",
        "an engine 108 F warmer than noticed is assumed to change all lashes by 0.0039 in, at most 0.0079 in",
    );
    say(
        &document,
        "intake valves are set to 0.20 mm\n",
        "intake valves are set to 0.20 mm (0.008 in)\n",
    );
}

/// A reset that cannot aim at the printed 0.002 in, as the lock nut would leave it tight too often, aims
/// from 0.0572 mm on: 0.06 mm for a hand, 0.0025 in (0.0572 mm is 0.00225 in).
#[test]
fn an_aim_is_what_a_hand_can_set() {
    let mut document = example("upright-twin-warm.json");
    let reading = json!([{ "cylinder": "1", "valve": "intake", "goes": ["0.15 mm"], "refuses": ["0.18 mm"] }]);
    put(&mut document, "/clearance/readings", reading);
    let books = document.pointer_mut("/clearance/specifications").unwrap();
    books.as_array_mut().unwrap().truncate(1);
    say(
        &document,
        "reset to 0.06 mm: screw in",
        "reset to 0.0025 in: screw in",
    );
    say(
        &document,
        "not to the printed 0.002 in (0.05 mm), which ends",
        "not to the printed 0.002 in, which ends",
    );
}
