//! The direction of dependencies inside the core, read from its source:
//! `quantity, statistics <- tolerance, engine <- {valve, feeler, thermal, adjust, ignition, mixture, history} <- {rockers, diagnosis, clearance, condition, events, causes} <- job`.
//!
//! An arrow may skip a tier; it never goes up and never sideways. Comments and doc examples are not
//! read: an example may show areas together.

use lashwork_tests::root;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Every area and its tier; an area uses only areas of a lower tier.
const TIERS: [(&str, u8); 19] = [
    ("whole", 0),
    ("quantity", 0),
    ("statistics", 0),
    ("tolerance", 1),
    ("engine", 1),
    ("valve", 2),
    ("feeler", 2),
    ("thermal", 2),
    ("adjust", 2),
    ("ignition", 2),
    ("mixture", 2),
    ("history", 2),
    ("rockers", 3),
    ("diagnosis", 3),
    ("clearance", 3),
    ("condition", 3),
    ("events", 3),
    ("causes", 3),
    ("job", 4),
];

/// Text formats are the wire crate's: a user with typed values gets no parser.
const NOT_IN_THE_CORE: [&str; 3] = ["serde_json", "schemars", "strsim"];

fn tier(area: &str) -> Option<u8> {
    TIERS
        .iter()
        .find(|(name, _)| *name == area)
        .map(|(_, t)| *t)
}

fn without_comments(source: &str) -> String {
    source
        .lines()
        .map(|line| line.split("//").next().unwrap_or(""))
        .collect::<Vec<_>>()
        .join("\n")
}

/// The identifier a text begins with.
fn leading_word(text: &str) -> &str {
    let text = text.trim_start();
    let end = text
        .find(|c: char| !(c.is_alphanumeric() || c == '_'))
        .unwrap_or(text.len());
    text.get(..end).unwrap_or("")
}

/// First words of a path's continuation: one, or those of a group in braces.
fn first_words(rest: &str) -> Vec<String> {
    let rest = rest.trim_start();
    if rest.starts_with('*') {
        return vec!["*".to_owned()];
    }
    let Some(group) = rest.strip_prefix('{') else {
        return vec![leading_word(rest).to_owned()];
    };
    let (mut depth, mut item, mut items) = (0_u32, String::new(), Vec::new());
    for c in group.chars() {
        match c {
            '}' if depth == 0 => break,
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 0 => {
                items.push(std::mem::take(&mut item));
                continue;
            }
            _ => {}
        }
        item.push(c);
    }
    items.push(item);
    items
        .iter()
        .map(|item| match item.trim() {
            "*" => "*".to_owned(),
            item => leading_word(item).to_owned(),
        })
        .filter(|word| !word.is_empty())
        .collect()
}

/// What a file of `area` reaches that it may not.
fn forbidden(area: &str, source: &str) -> Vec<String> {
    let source = without_comments(source);
    let mut found = Vec::new();
    for root_path in ["crate::", "super::"] {
        for (at, _) in source.match_indices(root_path) {
            let rest = source.get(at + root_path.len()..).unwrap_or("");
            for word in first_words(rest) {
                let is_up = match (tier(area), tier(&word)) {
                    (Some(from), Some(to)) => word != area && to >= from,
                    _ => false,
                };
                // A glob of the root hides what it reaches.
                if is_up || (root_path == "crate::" && word == "*") {
                    let line = source.get(..at).unwrap_or("").lines().count().max(1);
                    found.push(format!("line {line}: {area} -> {word} by {root_path}"));
                }
            }
        }
    }
    let words = source.split_whitespace().collect::<Vec<_>>().join(" ");
    if words.contains("use crate as ") || words.contains("use crate::{self") {
        found.push(format!("{area}: gives the crate root another name"));
    }
    found
}

fn rust_files(folder: &Path, into: &mut Vec<PathBuf>) {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let mut paths: Vec<_> = entries.map(|entry| entry.path()).collect();
    paths.sort();
    for path in paths {
        if path.is_dir() {
            rust_files(&path, into);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            into.push(path);
        }
    }
}

#[test]
fn no_arrow_goes_up_or_sideways() {
    let source = root().join("crates/lashwork/src");
    let (mut failures, mut read, mut files) = (Vec::new(), BTreeMap::new(), Vec::new());
    rust_files(&source, &mut files);
    for file in files {
        let inside = file.strip_prefix(&source).unwrap();
        if inside == Path::new("lib.rs") {
            continue;
        }
        let first = inside.components().next().unwrap().as_os_str();
        let area = first.to_str().unwrap().trim_end_matches(".rs");
        if tier(area).is_none() {
            failures.push(format!("{}: this area has no tier", inside.display()));
        }
        *read.entry(area.to_owned()).or_insert(0) += 1;
        for why in forbidden(area, &fs::read_to_string(&file).unwrap()) {
            failures.push(format!("{}: {why}", inside.display()));
        }
    }
    for (area, _) in TIERS {
        if !read.contains_key(area) {
            failures.push(format!("area {area} has no source"));
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

/// What every question may use besides areas and its own files.
const SHARED: [&str; 3] = ["air", "books", "drift"];

/// The questions of a section: its folders.
fn questions(section: &Path) -> Vec<String> {
    let entries = fs::read_dir(section).into_iter().flatten().flatten();
    let folders = entries.filter(|entry| entry.path().is_dir());
    let mut names: Vec<String> = folders
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// Names that a section's own file gives out from its questions, each with the question it is of.
fn given_out(all: &[String], head: &str) -> Vec<(String, String)> {
    let head = without_comments(head);
    let mut names = Vec::new();
    for question in all.iter().filter(|q| !SHARED.contains(&q.as_str())) {
        let begin = format!("use {question}::");
        for (at, _) in head.match_indices(begin.as_str()) {
            let rest = head.get(at + begin.len()..).unwrap_or("");
            let path = rest.split(';').next().unwrap_or("");
            let items = path.split([',', '{', '}']).map(str::trim);
            for item in items.filter(|item| !item.is_empty() && !item.ends_with("::")) {
                let name = item.rsplit_once("::").map_or(item, |(_, last)| last);
                let name = name.rsplit_once(" as ").map_or(name, |(_, given)| given);
                names.push((name.to_owned(), question.clone()));
            }
        }
    }
    names
}

/// Other questions of its section that a file of a question reaches: `section` and `depth` folders
/// below it; `given` are names the section gives out from its questions.
fn other_questions(
    section: &str,
    question: &str,
    depth: usize,
    (all, given): (&[String], &[(String, String)]),
    source: &str,
) -> Vec<String> {
    let source = without_comments(source);
    let up = format!("{}super::", "super::".repeat(depth));
    let roots = [format!("crate::job::{section}::"), up];
    let mut found = Vec::new();
    for root_path in &roots {
        for (at, _) in source.match_indices(root_path.as_str()) {
            // A longer climb ends outside the section.
            if source.get(..at).unwrap_or("").ends_with("super::") {
                continue;
            }
            for word in first_words(source.get(at + root_path.len()..).unwrap_or("")) {
                let by_name = given.iter().find(|(name, _)| *name == word);
                let of = by_name.map_or(&word, |(_, of)| of);
                let is_other = all.contains(of) && of != question;
                if (is_other && !SHARED.contains(&of.as_str())) || word == "*" {
                    found.push(format!("{question} -> {word} by {root_path}"));
                }
            }
        }
    }
    found
}

#[test]
fn no_question_uses_another() {
    let job = root().join("crates/lashwork/src/job");
    let (mut failures, mut read) = (Vec::new(), 0);
    for section in questions(&job) {
        let all = questions(&job.join(&section));
        let head = fs::read_to_string(job.join(&section).join("mod.rs")).unwrap();
        let given = given_out(&all, &head);
        for question in &all {
            let mut files = Vec::new();
            rust_files(&job.join(&section).join(question), &mut files);
            for file in files {
                read += 1;
                let source = fs::read_to_string(&file).unwrap();
                let is_head = file.ends_with("mod.rs");
                let depth = usize::from(!is_head);
                for why in other_questions(&section, question, depth, (&all, &given), &source) {
                    failures.push(format!("{}: {why}", file.display()));
                }
            }
        }
    }
    assert!(read >= 20, "only {read} files of questions read");
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

#[test]
fn planted_questions_are_found() {
    let all = ["books", "readings", "shims"].map(String::from);
    let given = given_out(
        &all,
        "pub use readings::{MOST, answer::ReadReport};\npub use books::Book;\nuse readings::Read;",
    );
    let names: Vec<&str> = given.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["MOST", "ReadReport", "Read"]);
    for (depth, planted) in [
        (0, "use crate::job::clearance::readings::Read;"),
        (0, "use super::readings::Read;"),
        (1, "use super::super::readings::{Read, answer};"),
        (1, "use crate::job::clearance::{books::Book, readings};"),
        (0, "use super::*;"),
        (0, "use crate::job::clearance::ReadReport;"),
        (1, "use super::super::{MOST, books::Book};"),
    ] {
        let found = other_questions("clearance", "shims", depth, (&all, &given), planted);
        assert!(!found.is_empty(), "{planted}");
    }
    for (depth, fine) in [
        (0, "use super::books::Book;\nuse crate::adjust::Adjuster;"),
        (
            1,
            "use super::answer::ShimMove;\nuse crate::job::text::line;",
        ),
        (1, "// use super::super::readings::Read;"),
        (0, "use crate::job::clearance::Book;"),
    ] {
        let found = other_questions("clearance", "shims", depth, (&all, &given), fine);
        assert_eq!(found, Vec::<String>::new(), "{fine}");
    }
}

#[test]
fn planted_arrows_are_found() {
    for (area, planted) in [
        ("quantity", "use crate::tolerance::Limits;"),
        ("tolerance", "use crate::engine::Layout;"),
        ("engine", "pub(crate) use crate::tolerance::Limits;"),
        ("feeler", "use crate::{quantity::Lash, thermal::Chain};"),
        (
            "feeler",
            "use crate::{\n    quantity::{Lash, Length},\n    adjust,\n};",
        ),
        ("adjust", "fn f(x: crate::valve::Window) {}"),
        ("valve", "use super::super::feeler::Leaf;"),
        ("thermal", "use super::job;"),
        ("thermal", "use super::{quantity::Lash, job::Report};"),
        ("engine", "use crate::*;"),
        ("engine", "use crate::{*, quantity::Lash};"),
        ("engine", "use crate as root;"),
    ] {
        assert!(!forbidden(area, planted).is_empty(), "{area}: {planted}");
    }
}

#[test]
fn allowed_arrows_are_left_alone() {
    for (area, fine) in [
        (
            "job",
            "use crate::{adjust, engine, feeler, quantity, thermal, tolerance, valve};",
        ),
        (
            "valve",
            "use crate::engine::Layout;\nuse crate::quantity::{CrankAngle, Cycle};",
        ),
        ("feeler", "use crate::tolerance::Estimate;"),
        (
            "feeler",
            "// use crate::job::Report;\n/// use lashwork::job::Report;",
        ),
        (
            "quantity",
            "use super::{QuantityError, Written};\nuse super::error::check;",
        ),
        ("tolerance", "use super::*;"),
    ] {
        assert_eq!(
            forbidden(area, fine),
            Vec::<String>::new(),
            "{area}: {fine}"
        );
    }
}

/// Names a manifest lists under its ordinary dependencies, without those that come only when asked for.
fn dependencies(manifest: &str) -> Vec<String> {
    let (mut names, mut is_listing) = (Vec::new(), false);
    for line in manifest.lines().map(str::trim) {
        if let Some(section) = line.strip_prefix('[') {
            let section = section.trim_end_matches(']');
            let parts = section.rsplit_once("dependencies");
            let is_ordinary =
                parts.is_some_and(|(before, _)| before.is_empty() || before.ends_with('.'));
            let name = parts.and_then(|(_, after)| after.strip_prefix('.'));
            is_listing = is_ordinary && name.is_none();
            if let (true, Some(name)) = (is_ordinary, name) {
                names.push(name.to_owned());
            }
        } else if is_listing
            && !line.is_empty()
            && !line.starts_with('#')
            && !line.contains("optional = true")
        {
            names.push(line.split(['.', '=', ' ']).next().unwrap_or("").to_owned());
        }
    }
    names
}

#[test]
fn the_core_knows_no_text_format() {
    let manifest = fs::read_to_string(root().join("crates/lashwork/Cargo.toml")).unwrap();
    let names = dependencies(&manifest);
    assert!(names.contains(&"serde".to_owned()), "{names:?}");
    for name in NOT_IN_THE_CORE {
        assert!(!names.contains(&name.to_owned()), "{name} is in the core");
    }
}

/// What is made for users gets the schemas as files: what writes them is asked for by tests alone.
#[test]
fn only_who_asks_gets_the_writer_of_schemas() {
    let read = |path: &str| fs::read_to_string(root().join(path).join("Cargo.toml")).unwrap();
    for asked in ["crates/lashwork", "crates/lashwork-wire"] {
        let manifest = read(asked);
        assert!(manifest.contains("schemars = {"), "{asked}");
        assert!(!dependencies(&manifest).contains(&"schemars".to_owned()));
        assert!(manifest.contains("default = [\"whole\"]\n"), "{asked}");
    }
    for made in [
        "bindings/c",
        "bindings/wasm",
        "bindings/wasm/whole",
        "bindings/wasm/quick",
    ] {
        assert!(!read(made).contains("schema"), "{made}");
    }
}

/// The program asks the JSON interface and nothing below it, so that no rule of the trade can stand there.
#[test]
fn the_program_knows_the_json_interface_alone() {
    let own = root().join("crates/lashwork-cli");
    let names = dependencies(&fs::read_to_string(own.join("Cargo.toml")).unwrap());
    let ours: Vec<_> = names.iter().filter(|n| n.starts_with("lashwork")).collect();
    assert_eq!(ours, ["lashwork-wire"]);
    let mut files = Vec::new();
    rust_files(&own.join("src"), &mut files);
    assert!(files.len() > 5, "{files:?}");
    for file in files {
        let source = without_comments(&fs::read_to_string(&file).unwrap());
        assert!(!source.contains("lashwork::"), "{}", file.display());
    }
}

#[test]
fn planted_dependencies_are_found() {
    for planted in [
        "[dependencies]\nserde_json.workspace = true",
        "[dependencies]\nserde = \"1\"\nserde_json = \"1\"",
        "[dependencies.serde_json]\nworkspace = true",
        "[target.'cfg(unix)'.dependencies]\nserde_json = \"1\"",
    ] {
        let names = dependencies(planted);
        assert!(names.contains(&"serde_json".to_owned()), "{planted}");
    }
    assert!(dependencies("[dev-dependencies]\nserde_json = \"1\"").is_empty());
    let on_demand = "[dependencies]\nserde_json = { workspace = true, optional = true }";
    assert!(dependencies(on_demand).is_empty());
}
