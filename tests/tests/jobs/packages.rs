//! What is published is complete, and says the same version everywhere.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

use lashwork_tests::root;
use std::fs;

/// What goes to crates.io.
const PUBLISHED: [&str; 4] = [
    "crates/lashwork-tails",
    "crates/lashwork",
    "crates/lashwork-wire",
    "crates/lashwork-cli",
];

fn read(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|why| panic!("{path}: {why}"))
}

/// The folders of all packages of the workspace.
fn members() -> Vec<String> {
    let manifest = read("Cargo.toml");
    let (_, members) = manifest.split_once("members = [").unwrap();
    let (members, _) = members.split_once(']').unwrap();
    members
        .split('"')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect()
}

#[test]
fn what_is_published_has_all_that_goes_with_it_and_the_rest_is_not_published() {
    let members = members();
    assert!(members.len() > 8, "{members:?}");
    for folder in members {
        let manifest = read(&format!("{folder}/Cargo.toml"));
        if !PUBLISHED.contains(&folder.as_str()) {
            assert!(manifest.contains("publish = false\n"), "{folder}");
            continue;
        }
        assert!(!manifest.contains("publish = false"), "{folder}");
        for field in [
            "description = \"",
            "categories = [",
            "readme = \"README.md\"",
            "keywords.workspace",
        ] {
            assert!(manifest.contains(field), "{folder}: {field}");
        }
        // They lie in the package itself, because nothing outside of it goes along.
        for licence in ["LICENSE-MIT", "LICENSE-APACHE"] {
            assert_eq!(
                read(&format!("{folder}/{licence}")),
                read(licence),
                "{folder}"
            );
        }
        let about = read(&format!("{folder}/README.md"));
        assert!(
            about.contains("manual, local codes and licensed practice come first"),
            "{folder}"
        );
    }
}

#[test]
fn one_version_is_stated_everywhere() {
    let version = env!("CARGO_PKG_VERSION");
    let manifest = read("Cargo.toml");
    for library in ["lashwork-tails", "lashwork", "lashwork-wire"] {
        let line = format!("{library} = {{ path = \"crates/{library}\", version = \"{version}\",");
        assert!(manifest.contains(&line), "{line}");
    }
    assert!(read("CITATION.cff").contains(&format!("\nversion: {version}\n")));
    assert!(read("CHANGELOG.md").contains(&format!("\n## {version}")));
}
