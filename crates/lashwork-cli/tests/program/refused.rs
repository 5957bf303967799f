//! Rows and tables that are wrong: each is told, the rest is judged.

use super::run;
use serde_json::Value;

const NAMES: &str = "engine,valve,lower limit,upper limit,leaf goes,leaf does not";
const GOOD: &str = "A,intake,0.15 mm,0.25 mm,0.18 mm,0.20 mm";

/// Rows with the code that each is refused with; none for those that are judged.
fn rows() -> Vec<(Vec<u8>, Option<&'static str>)> {
    let text = |text: &str| text.as_bytes().to_vec();
    vec![
        (text(GOOD), None),
        (
            text("A,intake,0.15,0.25 mm,0.18 mm,0.20 mm"),
            Some("quantity.no-unit"),
        ),
        (
            text("A;intake;0.15 mm;0.25 mm;0.18 mm;0.20 mm"),
            Some("csv.field-count"),
        ),
        (
            text("A,intake,0,15 mm,0,25 mm,0,18 mm,0,20 mm"),
            Some("csv.field-count"),
        ),
        (
            text("A,intake,\"0.15 mm,0.25 mm,0.18 mm,0.20 mm"),
            Some("csv.open-quote"),
        ),
        (
            b"A\xff,intake,0.15 mm,0.25 mm,0.18 mm,0.20 mm".to_vec(),
            Some("csv.not-utf8"),
        ),
        (vec![b'a'; 200_000], Some("csv.line-too-long")),
        (
            text("A,intake,0.15 mm,0.25 furlong,0.18 mm,0.20 mm"),
            Some("quantity.unknown-unit"),
        ),
        (
            text("A,intake,0.15 mm,0.25 C,0.18 mm,0.20 mm"),
            Some("quantity.unknown-unit"),
        ),
        (
            text("A,intke,0.15 mm,0.25 mm,0.18 mm,0.20 mm"),
            Some("document.unknown-value"),
        ),
        (
            text("A,intake,0.15 mm,0.25 mm,0.20 mm,0.18 mm"),
            Some("feeler.contradiction"),
        ),
        (
            text("A,intake,,,0.18 mm,0.20 mm"),
            Some("document.missing-field"),
        ),
        (
            text("A,intake,0.15 mm,0.25 mm,,"),
            Some("document.missing-field"),
        ),
        (text("A,intake,0.15 mm,0.25 mm,7 thou,8 thou"), None),
        (
            text("A,intake,0.15 mm\r,0.25 mm,0.18 mm,0.20 mm"),
            Some("csv.line-end"),
        ),
        (text("# a remark, and a blank line"), None),
        (text(""), None),
        (text(GOOD), None),
        (text("A,intake,0.15 mm,0.25 m"), Some("csv.torn-line")),
    ]
}

fn table() -> Vec<u8> {
    let mut table = NAMES.as_bytes().to_vec();
    for (row, _) in rows() {
        table.push(b'\n');
        table.extend(row);
    }
    table
}

#[test]
fn every_wrong_row_is_told_with_its_number_and_the_others_are_judged() {
    let found = run(&["judge", "-"], table());
    assert_eq!(found.code, 1);
    let answered = found.rows();
    let (names, answered) = answered.split_first().unwrap();
    let at = |name: &str| names.iter().position(|one| one == name).unwrap();
    let good = run(&["judge", "-"], format!("{NAMES}\n{GOOD}\n")).rows();
    let mut answered = answered.iter();
    let mut refused = 0;
    for ((row, code), number) in rows().into_iter().zip(2..) {
        if row.is_empty() || row.starts_with(b"#") {
            continue;
        }
        let answer = answered.next().unwrap();
        assert_eq!(answer[at("line")], number.to_string());
        let told = format!("-:{number}: ");
        if let Some(code) = code {
            refused += 1;
            assert_eq!(answer[at("verdict")], "refused", "row {number}");
            let problems = &answer[at("problems")];
            assert!(problems.contains(code), "row {number}: {problems}");
            let mut lines = found.err.lines().filter(|line| line.starts_with(&told));
            let is_told = lines.any(|line| line.contains(&format!("[{code}]")));
            assert!(is_told, "row {number}: {}", found.err);
        } else {
            assert!(!found.err.contains(&told), "row {number}: {}", found.err);
            if row == GOOD.as_bytes() {
                let mut expected = good[1].clone();
                expected[at("line")] = number.to_string();
                assert_eq!(answer, &expected, "row {number}");
            }
        }
    }
    assert!(answered.next().is_none());
    let sum = format!("-: 3 judged, {refused} refused, 3 in mixed units (see note)\n");
    assert!(found.err.ends_with(&sum), "{}", found.err);
}

#[test]
fn a_problem_names_the_column_it_is_in() {
    let found = run(
        &["judge", "-"],
        format!("{NAMES}\nA,intake,0.15 mm,0.25 mm,0.18,0.20 mm\n"),
    );
    assert!(found.err.contains("-:2: leaf goes: "), "{}", found.err);
    assert!(found.field(1, "problems").ends_with(" at leaf goes"));
    // What was in the row stays there.
    assert_eq!(found.field(1, "leaf goes"), "0.18");
}

#[test]
fn with_json_wrong_rows_have_the_problems_of_the_json_interface() {
    let found = run(&["judge", "--json", "-"], table());
    assert_eq!(found.code, 1);
    let mut expected = rows()
        .into_iter()
        .zip(2..)
        .filter(|((row, _), _)| !row.is_empty() && !row.starts_with(b"#"));
    let mut seen = 0;
    for line in found.text().lines() {
        let answer: Value = serde_json::from_str(line).unwrap();
        let ((_, code), number) = expected.next().unwrap();
        assert_eq!(answer["row"], number);
        let codes: Vec<&str> = answer["problems"]
            .as_array()
            .into_iter()
            .flatten()
            .map(|one| one["code"].as_str().unwrap())
            .collect();
        assert_eq!(codes.is_empty(), code.is_none(), "{line}");
        assert!(code.is_none_or(|code| codes.contains(&code)), "{line}");
        seen += 1;
    }
    assert_eq!(seen, 17);
    assert!(!found.err.contains("[csv."), "{}", found.err);
}

#[test]
fn units_of_two_kinds_in_a_row_are_taken_as_written_and_noted() {
    let found = run(
        &["judge", "-"],
        format!("{NAMES}\n{GOOD}\nA,intake,0.15 mm,0.25 mm,7 thou,8 thou\n"),
    );
    assert_eq!(found.code, 0);
    assert_eq!(found.field(1, "note"), "");
    assert_eq!(found.field(2, "note"), "mixed units (mm, thou), as written");
    // 7 thou are 0.1778 mm: an inch is 25.4 mm, exactly (international agreement of 1959).
    assert_eq!(found.field(2, "low_mm"), "0.1778");
}

#[test]
fn a_last_line_without_an_end_is_judged_and_noted() {
    let found = run(&["judge", "-"], format!("{NAMES}\n{GOOD}\n{GOOD}"));
    assert_eq!(found.code, 0);
    assert_eq!(found.field(1, "note"), "");
    assert!(
        found
            .field(2, "note")
            .contains("see that the file is whole")
    );
    let json = run(&["judge", "--json", "-"], format!("{NAMES}\n{GOOD}"));
    let line: Value = serde_json::from_str(json.text()).unwrap();
    assert!(line["note"].as_str().unwrap().contains("whole"));
}

#[test]
fn a_table_that_cannot_be_understood_is_refused_with_what_to_do() {
    let semicolons = NAMES.replace(',', ";");
    let wide: Vec<u8> = [0xff, 0xfe]
        .into_iter()
        .chain(NAMES.bytes().flat_map(|byte| [byte, 0]))
        .collect();
    for (table, code, hint) in [
        (b"".to_vec(), "csv.empty", "column names"),
        (b"# only a remark\n\n".to_vec(), "csv.empty", "column names"),
        (
            semicolons.into_bytes(),
            "csv.no-known-column",
            "--separator ';'",
        ),
        (
            NAMES.replace(',', "\t").into_bytes(),
            "csv.no-known-column",
            "--separator tab",
        ),
        (GOOD.into(), "csv.no-known-column", "leaf does not"),
        (wide, "csv.not-utf8", "UTF-8"),
        (
            format!("{NAMES},valve\n").into_bytes(),
            "csv.column-twice",
            "another name",
        ),
        (
            format!("{NAMES},verdict\n").into_bytes(),
            "csv.column-taken",
            "another name",
        ),
    ] {
        let found = run(&["judge", "-"], &table);
        let shown = String::from_utf8_lossy(&table).into_owned();
        assert_eq!((found.code, found.text()), (1, ""), "{shown}");
        assert!(
            found.err.contains(code) && found.err.contains(hint),
            "{shown}: {}",
            found.err
        );
        let json = run(&["judge", "--json", "-"], &table);
        assert_eq!(
            (json.code, json.codes()),
            (1, vec![code.to_owned()]),
            "{shown}"
        );
    }
    let none = run(&["judge", "no-such-file", "--json"], "");
    assert_eq!(
        (none.code, none.codes()),
        (2, vec!["program.cannot-read".into()])
    );
}

#[test]
fn what_is_the_same_for_all_rows_is_checked_before_them() {
    for (same, code) in [
        ("{\"gauge\": {\"leafs\": []}}", "document.unknown-field"),
        (
            "{\"valve\": \"intake\", \"valve\": \"exhaust\"}",
            "document.key-twice",
        ),
        ("[]", "document.wrong-type"),
        ("{", "document.not-json"),
    ] {
        let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("wrong-same.json");
        std::fs::write(&path, same).unwrap();
        let words = ["judge", "--json", "--same", path.to_str().unwrap(), "-"];
        let found = run(&words, format!("{NAMES}\n{GOOD}\n"));
        assert_eq!(found.code, 1, "{same}");
        assert!(
            found.codes().contains(&code.to_owned()),
            "{same}: {}",
            found.text()
        );
    }
    let found = run(&["judge", "--json", "--same", "no-such-file", "-"], "");
    assert_eq!(
        (found.code, found.codes()),
        (2, vec!["program.cannot-read".into()])
    );
}
