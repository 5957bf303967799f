//! Judged rows: the numbers of the JSON interface bit for bit, and one row reckoned by another way.

use super::{Run, example, run};
use serde_json::{Value, json};
use std::fs;
use std::path::PathBuf;

const NUMBERS: [(&str, &str); 9] = [
    ("below_least", "/judged/probabilities/below/least"),
    ("below_most", "/judged/probabilities/below/most"),
    ("in_band_least", "/judged/probabilities/in_band/least"),
    ("in_band_most", "/judged/probabilities/in_band/most"),
    ("above_least", "/judged/probabilities/above/least"),
    ("above_most", "/judged/probabilities/above/most"),
    ("low_mm", "/judged/low/mm"),
    ("high_mm", "/judged/high/mm"),
    ("u_mm", "/judged/normal_uncertainty_mm"),
];

fn readings() -> Run {
    run(&["judge", example("readings.csv").to_str().unwrap()], "")
}

/// The quick checks that the rows of `readings.csv` are, written by hand.
fn checks() -> Vec<Value> {
    let both = |goes, refuses| json!({"goes": [goes], "refuses": [refuses]});
    let check = |valve, from, to, reading| json!({"valve": valve, "limits": {"set": {"from": from, "to": to}}, "reading": reading});
    vec![
        check("intake", "0.15 mm", "0.25 mm", both("0.18 mm", "0.20 mm")),
        check("exhaust", "0.25 mm", "0.35 mm", both("0.20 mm", "0.25 mm")),
        check("intake", "0,15 mm", "0,25 mm", both("0,12 mm", "0,15 mm")),
        check(
            "exhaust",
            "0.010 in",
            "0.014 in",
            both("0.013 in", "0.015 in"),
        ),
        check("intake", "6 thou", "10 thou", both("10 thou", "12 thou")),
        check(
            "exhaust",
            "0.25 mm",
            "0.35 mm",
            json!({"refuses": ["0.05 mm"]}),
        ),
    ]
}

#[test]
fn every_number_of_a_row_is_that_of_the_json_interface() {
    let found = readings();
    assert_eq!(found.code, 0);
    let checks = checks();
    assert_eq!(found.rows().len(), 1 + checks.len());
    let mut compared = 0;
    for (at, check) in checks.iter().enumerate() {
        let report = lashwork_wire::quick_report(check.to_string().as_bytes()).unwrap();
        let report = serde_json::to_value(report).unwrap();
        for (name, place) in NUMBERS {
            let (field, value) = (found.field(at + 1, name), report.pointer(place));
            match value.and_then(Value::as_f64) {
                Some(number) => {
                    let field: f64 = field.parse().unwrap();
                    assert_eq!(field.to_bits(), number.to_bits(), "row {at}: {name}");
                    compared += 1;
                }
                None => assert_eq!(field, "", "row {at}: {name}"),
            }
        }
        for (name, place) in [
            ("verdict", "/judged/verdict"),
            ("words", "/judged/verdict_text"),
            ("advice", "/judged/advice/text"),
        ] {
            assert_eq!(
                found.field(at + 1, name),
                report.pointer(place).unwrap().as_str().unwrap()
            );
        }
        let assumed = report["assumptions"].as_array().unwrap();
        let assumed: Vec<_> = assumed
            .iter()
            .map(|one| one["code"].as_str().unwrap())
            .collect();
        assert_eq!(found.field(at + 1, "assumed"), assumed.join(" "));
    }
    assert!(compared >= 50, "{compared}");
}

#[test]
fn with_json_a_row_is_the_whole_answer_byte_by_byte() {
    let found = run(
        &["judge", "--json", example("readings.csv").to_str().unwrap()],
        "",
    );
    assert_eq!(found.code, 0);
    let lines: Vec<&str> = found.text().lines().collect();
    // A remark and the names stand before them.
    let expected = checks().into_iter().zip(3..).map(|(check, row)| {
        let answer = lashwork_wire::quick_check(check.to_string().as_bytes());
        let answer = String::from_utf8(answer).unwrap();
        format!("{{\"row\":{row},{}", answer.strip_prefix('{').unwrap())
    });
    assert_eq!(lines, expected.collect::<Vec<_>>());
}

/// The area under the normal density up to `z`, by Simpson's rule over 20 standard deviations.
fn normal_below(z: f64) -> f64 {
    let (steps, from) = (4000, -20.0);
    let width = (z - from) / f64::from(steps);
    let density = |x: f64| (-x * x / 2.0).exp() / (2.0 * std::f64::consts::PI).sqrt();
    let weight = |i: i32| match i {
        0 => 1.0,
        i if i == steps => 1.0,
        i if i % 2 == 1 => 4.0,
        _ => 2.0,
    };
    let term = |i: i32| weight(i) * density(from + f64::from(i) * width);
    (0..=steps).map(term).sum::<f64>() * width / 3.0
}

/// The leaf that goes and the one that does not are the ends of a rectangular distribution; each end is off by
/// the same normal one, of a leaf's tolerance (rectangular, its half-width over the root of three: JCGM
/// 100:2008, 4.3.7) and the hand. The probability below a limit is the integral of JCGM 106:2012, 7.2, here
/// summed in small steps; the kernel has it in closed form.
#[test]
fn one_row_is_as_reckoned_by_another_way() {
    let same = temporary(
        "same.json",
        r#"{"gauge": {"leaves": ["0.18 mm", "0.22 mm"], "tolerance": "0.005 mm",
            "stack_tolerance": "worst_case", "hand": "0.008 mm"}}"#,
    );
    let table = "valve,lower limit,upper limit,leaf goes,leaf does not\n\
        intake,0.19 mm,0.21 mm,0.18 mm,0.22 mm\n";
    let found = run(&["judge", "--same", same.to_str().unwrap(), "-"], table);
    assert_eq!(found.code, 0, "{}", found.err);
    let u = (0.005_f64.powi(2) / 3.0 + 0.008_f64.powi(2)).sqrt();
    let below = |limit: f64| {
        let steps = 400;
        let middle = |i: i32| 0.18 + 0.04 * (f64::from(i) + 0.5) / f64::from(steps);
        let each = |i: i32| normal_below((limit - middle(i)) / u);
        (0..steps).map(each).sum::<f64>() / f64::from(steps)
    };
    let (tight, loose) = (below(0.19), 1.0 - below(0.21));
    for (name, want) in [
        ("u_mm", u),
        ("below_least", tight),
        ("above_most", loose),
        ("in_band_least", 1.0 - tight - loose),
    ] {
        let got: f64 = found.field(1, name).parse().unwrap();
        // Midpoints of 0.1 um: the sum is off by about (0.0001 / u)^2 / 24.
        assert!((got - want).abs() < 1e-5, "{name}: {got}, reckoned {want}");
    }
}

#[test]
fn what_is_the_same_for_all_rows_is_stated_once_and_a_row_comes_before_it() {
    let same = json!({"valve": "exhaust", "limits": {"set": {"from": "0.25 mm", "to": "0.35 mm"}}, "rule": "simple"});
    let file = temporary("all-rows.json", &same.to_string());
    let table = "leaf goes,leaf does not,lower limit\n0.20 mm,0.25 mm,\n0.20 mm,0.25 mm,0.10 mm\n";
    let found = run(
        &["judge", "--json", "--same", file.to_str().unwrap(), "-"],
        table,
    );
    assert_eq!(found.code, 0, "{}", found.text());
    let answers: Vec<Value> = found
        .text()
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    for (answer, from) in answers.iter().zip(["0.25 mm", "0.10 mm"]) {
        let mut check = same.clone();
        check["limits"]["set"]["from"] = from.into();
        check["reading"] = json!({"goes": ["0.20 mm"], "refuses": ["0.25 mm"]});
        let expected: Value =
            serde_json::from_slice(&lashwork_wire::quick_check(check.to_string().as_bytes()))
                .unwrap();
        assert_eq!(answer["quick"], expected["quick"], "{from}");
    }
    assert_ne!(answers[0]["quick"], answers[1]["quick"]);
}

#[test]
fn a_stack_of_leaves_is_written_with_plus_signs() {
    let table = "valve,lower limit,upper limit,leaf goes,leaf does not\n\
        intake,0.15 mm,0.25 mm,0.10 mm + 0.05 mm,0.20 mm\n";
    let found = run(&["judge", "--json", "-"], table);
    assert_eq!(found.code, 0);
    let check = json!({"valve": "intake", "limits": {"set": {"from": "0.15 mm", "to": "0.25 mm"}},
        "reading": {"goes": ["0.10 mm", "0.05 mm"], "refuses": ["0.20 mm"]}});
    let expected: Value =
        serde_json::from_slice(&lashwork_wire::quick_check(check.to_string().as_bytes())).unwrap();
    let line: Value = serde_json::from_str(found.text()).unwrap();
    assert_eq!(line["quick"], expected["quick"]);
}

#[test]
fn other_separators_and_a_mark_of_utf8_change_no_answer() {
    let with = |sign: &str| {
        let lines = [
            [
                "\u{feff}valve",
                "lower limit",
                "upper limit",
                "leaf goes",
                "leaf does not",
            ],
            ["intake", "0,15 mm", "0,25 mm", "0,12 mm", "0,15 mm"],
        ];
        lines.map(|line| line.join(sign)).join("\r\n") + "\r\n"
    };
    let answers = [(";", ";"), ("tab", "\t")].map(|(word, sign)| {
        let found = run(&["judge", "--json", "--separator", word, "-"], with(sign));
        assert_eq!(found.code, 0, "{}", found.err);
        found.text().to_owned()
    });
    assert_eq!(answers[0], answers[1]);
    assert!(answers[0].contains("\"verdict\":\"below\""));
    // The mark may stand before a remark, too.
    let table = format!(
        "\u{feff}# invented\n{}",
        with(";").trim_start_matches('\u{feff}')
    );
    let marked = run(&["judge", "--json", "--separator", ";", "-"], table);
    assert_eq!(marked.text(), answers[0].replace("\"row\":2", "\"row\":3"));
    let csv = run(&["judge", "--separator", ";", "-"], with(";"));
    assert!(
        csv.text().starts_with("valve;lower limit;"),
        "{}",
        csv.text()
    );
}

#[test]
fn cautions_are_said_once_and_before_the_rows_they_belong_to() {
    let found = readings();
    let report = lashwork_wire::quick_report(checks()[1].to_string().as_bytes()).unwrap();
    assert!(report.cautions.len() > 3);
    for caution in report.cautions {
        assert_eq!(found.err.matches(caution).count(), 1, "{caution}");
    }
    let (cautions, sum) = found.err.trim_end().rsplit_once('\n').unwrap();
    assert!(sum.ends_with("6 judged, 0 refused"), "{sum}");
    assert!(cautions.contains("passed on unread: cylinder"));
}

/// A file of a test's own, in the folder that cargo keeps for tests.
fn temporary(name: &str, text: &str) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    fs::write(&path, text).unwrap();
    path
}
