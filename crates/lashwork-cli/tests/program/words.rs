//! Help, manual, completions and schemas.

use super::{example, run};
use std::fs;

const COMMANDS: [&str; 9] = [
    "sheet",
    "report",
    "check",
    "quick",
    "ignition",
    "schema",
    "judge",
    "completions",
    "man",
];

#[test]
fn manual_and_completions_name_every_command() {
    let man = run(&["man"], "");
    assert_eq!(man.code, 0);
    for command in COMMANDS {
        assert!(
            man.text().contains(&format!("lashwork\\-{command}(1)")),
            "{command}"
        );
        let own = run(&["man", command], "");
        assert_eq!(own.code, 0, "{command}");
        assert!(
            own.text().contains(&format!(".TH lashwork-{command} 1")),
            "{}",
            own.text()
        );
    }
    assert_eq!(run(&["man", "sheett"], "").code, 2);
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let script = run(&["completions", shell], "");
        assert_eq!(script.code, 0, "{shell}");
        for command in COMMANDS {
            assert!(script.text().contains(command), "{shell}: {command}");
        }
    }
}

#[test]
fn help_names_every_column() {
    let help = run(&["judge", "--help"], "");
    assert_eq!(help.code, 0);
    let told = run(&["judge", example("readings.csv").to_str().unwrap()], "");
    let names = told.rows().swap_remove(0);
    assert!(names.len() > 16, "{names:?}");
    for name in names.iter().filter(|name| *name != "cylinder") {
        assert!(help.text().contains(name.as_str()), "{name}");
    }
    // What a table without a known column is told to be read.
    let none = run(&["judge", "--json", "-"], "a,b\n1,2\n").json();
    let hint = none["problems"][0]["hint"].as_str().unwrap();
    let (_, names) = hint.split_once("are read: ").unwrap();
    assert_eq!(names.split(", ").count(), 12, "{names}");
    for name in names.split(", ") {
        assert!(help.text().contains(name), "{name}");
    }
}

#[test]
fn schemas_are_those_of_the_json_interface() {
    for (words, expected) in [
        (&["schema"][..], lashwork_wire::document_schema()),
        (&["schema", "document"], lashwork_wire::document_schema()),
        (&["schema", "report"], lashwork_wire::report_schema()),
        (
            &["schema", "ignition"],
            lashwork_wire::ignition_check_schema(),
        ),
    ] {
        assert_eq!(run(words, "").text(), expected, "{words:?}");
    }
}

#[test]
fn a_wrong_word_ends_with_two() {
    for words in [
        &["sheett"][..],
        &[],
        &["sheet"],
        &["judge", "--separator", "ab", "-"],
        &["judge", "--separator", "\"", "-"],
    ] {
        let found = run(words, "");
        assert_eq!((found.code, found.text()), (2, ""), "{words:?}");
        assert!(!found.err.is_empty(), "{words:?}");
        let json = run(&[words, &["--json"]].concat(), "");
        assert_eq!(
            (json.code, json.codes()),
            (2, vec!["program.arguments".into()])
        );
    }
    for words in [&["--help"][..], &["--version"], &["judge", "--help"]] {
        assert_eq!(run(words, "").code, 0, "{words:?}");
    }
}

#[test]
fn nothing_is_said_by_colour() {
    // No escape sequence in anything that is printed, not for a table of two verdicts either.
    let table = fs::read(example("readings.csv")).unwrap();
    for words in [&["--help"][..], &["judge", "-"], &["man"], &["nonsense"]] {
        let found = run(words, &table);
        assert!(!found.out.contains(&0x1b), "{words:?}");
        assert!(!found.err.contains('\u{1b}'), "{words:?}");
    }
}
