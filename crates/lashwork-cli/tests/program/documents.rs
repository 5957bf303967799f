//! Documents: what the program prints is what the JSON interface says, byte by byte.

use super::{example, program, run};
use std::fs;
use std::io::Read;
use std::process::Stdio;

const REFUSED: &str = r#"{"lashwork": 1, "titel": "x"}"#;

#[test]
fn every_example_is_answered_as_the_json_interface_answers_it() {
    let mut read = 0;
    for entry in fs::read_dir(example("")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|ending| ending != "json") {
            continue;
        }
        read += 1;
        let (document, file) = (fs::read(&path).unwrap(), path.to_str().unwrap());
        let sheet = run(&["sheet", file], "");
        let expected = lashwork_wire::job_sheet(&document).unwrap();
        assert_eq!(sheet.text().trim_end(), expected.trim_end(), "{file}");
        assert_eq!((sheet.code, sheet.err.as_str()), (0, ""), "{file}");
        let full = run(&["sheet", "--full", "-"], &document);
        let expected = lashwork_wire::full_sheet(&document).unwrap();
        assert_eq!(full.text().trim_end(), expected.trim_end(), "{file}");
        let report = run(&["report", file], "");
        let expected = lashwork_wire::run(&document);
        assert_eq!(report.out.trim_ascii_end(), expected, "{file}");
        assert_eq!(run(&["check", file], "").code, 0, "{file}");
    }
    assert!(read >= 10, "{read} examples");
}

#[test]
fn a_report_laid_out_has_the_same_values() {
    let document = fs::read(example("inline-four.json")).unwrap();
    let (close, wide) = (
        run(&["report", "-"], &document),
        run(&["report", "--pretty", "-"], &document),
    );
    assert_eq!(close.json(), wide.json());
    assert!(wide.text().lines().count() > 100);
    let refused = run(&["report", "--pretty", "-"], REFUSED);
    assert_eq!(refused.code, 1);
    assert!(refused.codes().contains(&"document.unknown-field".into()));
}

#[test]
fn questions_without_an_engine_are_answered_as_the_json_interface_answers_them() {
    let quick =
        r#"{"valve": "intake", "limits": {"set_to": "0.20 mm"}, "reading": {"goes": ["0.12 mm"]}}"#;
    let found = run(&["quick", "-"], quick);
    assert_eq!(found.code, 0);
    assert_eq!(
        found.out.trim_ascii_end(),
        lashwork_wire::quick_check(quick.as_bytes())
    );
    for (ask, answer) in [
        ("quick", lashwork_wire::quick_check(b"{}")),
        ("ignition", lashwork_wire::ignition_check(b"[]")),
    ] {
        let found = run(&[ask, "-"], if ask == "quick" { "{}" } else { "[]" });
        assert_eq!(found.code, 1, "{ask}");
        assert_eq!(found.out.trim_ascii_end(), answer, "{ask}");
    }
}

#[test]
fn what_is_wrong_is_told_with_place_and_code_and_ends_with_one() {
    let check = run(&["check", "-"], REFUSED);
    assert_eq!(check.code, 1);
    for word in ["-: /titel: ", "[document.unknown-field]", "\"title\""] {
        assert!(check.text().contains(word), "{word}: {}", check.text());
    }
    let json = run(&["check", "--json", "-"], REFUSED);
    assert_eq!(json.code, 1);
    let expected = lashwork_wire::report(REFUSED.as_bytes()).unwrap_err();
    assert_eq!(
        json.json()["problems"],
        serde_json::to_value(expected).unwrap()
    );
    let fine = run(
        &[
            "check",
            "--json",
            example("inline-four.json").to_str().unwrap(),
        ],
        "",
    );
    assert_eq!((fine.code, fine.codes().len()), (0, 0));
    let sheet = run(&["sheet", "-"], REFUSED);
    assert_eq!((sheet.code, sheet.out.as_slice()), (1, b"".as_slice()));
    assert!(
        sheet.err.contains("document.unknown-field at \"/titel\""),
        "{}",
        sheet.err
    );
    let sheet = run(&["sheet", "--json", "-"], REFUSED);
    assert_eq!((sheet.code, sheet.err.as_str()), (1, ""));
    assert!(sheet.codes().contains(&"document.unknown-field".into()));
}

#[test]
fn of_several_files_each_is_answered_and_the_worst_counts() {
    let good = example("inline-four.json");
    let good = good.to_str().unwrap();
    let both = run(&["sheet", "no-such-file", good], "");
    assert_eq!(both.code, 2);
    assert!(both.text().contains(&format!("#### {good}\n")));
    assert!(both.text().contains("VALVE CLEARANCES"));
    assert!(both.err.starts_with("no-such-file: "), "{}", both.err);
    assert!(both.err.contains("[program.cannot-read]"), "{}", both.err);
    assert_eq!(run(&["sheet", "-", good], REFUSED).code, 1);
    assert_eq!(run(&["check", "no-such-file", "-"], REFUSED).code, 2);
    let json = run(&["report", "--json", "no-such-file"], "");
    assert_eq!((json.code, json.err.as_str()), (2, ""));
    assert_eq!(json.codes(), ["program.cannot-read"]);
    // A folder can be opened, but not read.
    let folder = run(&["report", "--json", env!("CARGO_MANIFEST_DIR")], "");
    assert_eq!(
        (folder.code, folder.codes()),
        (2, vec!["program.cannot-read".into()])
    );
}

#[test]
fn a_document_without_end_is_refused_for_its_length() {
    let long = vec![b' '; lashwork_wire::MAX_BYTES + 2];
    let found = run(&["check", "--json", "-"], &long);
    assert_eq!(
        (found.code, found.codes()),
        (1, vec!["document.too-large".into()])
    );
    if cfg!(target_os = "linux") {
        let found = run(&["check", "--json", "/dev/zero"], "");
        assert_eq!(
            (found.code, found.codes()),
            (1, vec!["document.too-large".into()])
        );
    }
}

#[test]
fn who_reads_only_the_beginning_ends_it_quietly() {
    let mut child = program()
        .args(["schema", "report"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut first = [0];
    let mut out = child.stdout.take().unwrap();
    out.read_exact(&mut first).unwrap();
    drop(out);
    let done = child.wait_with_output().unwrap();
    assert_eq!(done.status.code(), Some(0));
    assert_eq!(String::from_utf8(done.stderr).unwrap(), "");
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_cannot_be_written_is_no_success() {
    for words in [&["schema"][..], &["check", "--json", "-"]] {
        let full = fs::OpenOptions::new()
            .write(true)
            .open("/dev/full")
            .unwrap();
        let done = program()
            .args(words)
            .stdin(Stdio::null())
            .stdout(full)
            .output()
            .unwrap();
        assert_eq!(done.status.code(), Some(2), "{words:?}");
        let told = String::from_utf8(done.stderr).unwrap();
        assert!(told.contains("[program.cannot-write]"), "{told}");
    }
}
