//! Reads the header and writes a table of its structures and calls, with a way to make each call.
//!
//! What the header says anew and this does not know stops the build: nothing is left out unseen.

use std::collections::BTreeMap;
use std::env::var;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

const HEADER: &str = "../include/lashwork.h";

type Outcome<T = ()> = Result<T, String>;

/// A name and its type in C, without `struct`.
struct Named<'a> {
    name: &'a str,
    kind: String,
}

fn main() -> Outcome {
    println!("cargo::rerun-if-changed=build.rs");
    println!("cargo::rerun-if-changed={HEADER}");
    let header = fs::read_to_string(HEADER).map_err(|why| format!("{HEADER}: {why}"))?;
    let code = without_comments(&header);
    let structures = structures(&code)?;
    let mut out = String::new();
    out.push_str("pub(crate) static RECORDS: &[Record] = &[\n");
    for (name, fields) in &structures {
        record(&mut out, name, fields, &structures)?;
    }
    out.push_str("];\n");
    calls(&mut out, &code, &structures)?;
    let folder = var("OUT_DIR").map_err(|why| why.to_string())?;
    fs::write(Path::new(&folder).join("table.rs"), out).map_err(|why| why.to_string())
}

fn without_comments(header: &str) -> String {
    let mut code = String::new();
    let mut rest = header;
    while let Some((before, after)) = rest.split_once("/*") {
        code.push_str(before);
        rest = after.split_once("*/").map_or("", |(_, after)| after);
    }
    code.push_str(rest);
    let lines = code.lines();
    lines
        .filter(|line| !line.trim_start().starts_with('#'))
        .collect::<Vec<_>>()
        .join("\n")
}

/// The structures whose fields the header shows, by name, with those fields.
fn structures(code: &str) -> Outcome<BTreeMap<&str, Vec<Named<'_>>>> {
    let mut found = BTreeMap::new();
    for part in code.split("typedef struct ").skip(1) {
        let Some((name, rest)) = part.split_once('{') else {
            continue;
        };
        // A handle has no fields to see.
        if name.contains(';') {
            continue;
        }
        let (fields, _) = rest.split_once('}').ok_or("a structure has no end")?;
        let fields = fields.split(';').filter(|field| !field.trim().is_empty());
        let fields: Outcome<Vec<Named<'_>>> = fields.map(named).collect();
        found.insert(name.trim(), fields?);
    }
    Ok(found)
}

/// `const struct lw_air *air` and the like.
fn named(text: &str) -> Outcome<Named<'_>> {
    let text = text.trim();
    let at = text
        .rfind(|c: char| !(c.is_alphanumeric() || c == '_'))
        .ok_or_else(|| format!("`{text}` is no field or parameter"))?;
    let (kind, name) = text.split_at(at + 1);
    let words = kind.replace('*', " * ");
    let words: Vec<&str> = words
        .split_whitespace()
        .filter(|word| *word != "struct")
        .collect();
    Ok(Named {
        name,
        kind: words.join(" "),
    })
}

/// How wide a value is, and which variant of `Number` it is.
fn number(kind: &str) -> Option<(usize, &'static str)> {
    Some(match kind {
        "double" => (8, "Double"),
        "int64_t" => (8, "Whole"),
        "size_t" => (8, "Size"),
        // What the library writes there alone.
        "uint32_t" | "lw_direction" | "lw_valve_kind" => (4, "Choice"),
        "uint8_t" => (1, "Byte"),
        "char" => (1, "Letter"),
        _ => return None,
    })
}

/// The variant of `Kind` for a type, and its size.
fn kind(
    named: &Named<'_>,
    structures: &BTreeMap<&str, Vec<Named<'_>>>,
) -> Outcome<(usize, String)> {
    if let Some((size, number)) = number(&named.kind) {
        return Ok((size, format!("Kind::Number(Number::{number})")));
    }
    let unknown = || format!("what is `{} {}`?", named.kind, named.name);
    let (pointed, is_read) = match named.kind.strip_prefix("const ") {
        Some(rest) => (rest, true),
        None => (named.kind.as_str(), false),
    };
    let found = match pointed {
        "lw_engine *" => "Kind::Engine".to_owned(),
        "lw_plan *" => "Kind::Plan".to_owned(),
        "lw_engine * *" => "Kind::NewEngine".to_owned(),
        "lw_plan * *" => "Kind::NewPlan".to_owned(),
        "lw_error * *" => "Kind::Error".to_owned(),
        "lw_text *" => "Kind::NewText".to_owned(),
        "char *" if is_read => "Kind::Text".to_owned(),
        _ => {
            let pointed = pointed.strip_suffix(" *").ok_or_else(unknown)?;
            match (
                number(pointed),
                structures.keys().position(|name| *name == pointed),
            ) {
                (Some((_, number)), _) => format!(
                    "Kind::Column(Number::{number}, {})",
                    if is_read { "Way::In" } else { "Way::Out" }
                ),
                (None, Some(index)) => format!(
                    "Kind::Record({index}, {})",
                    if is_read { "Way::In" } else { "Way::Out" }
                ),
                _ => return Err(unknown()),
            }
        }
    };
    Ok((8, found))
}

/// A structure with the places of its fields, by the rules of C.
fn record(
    out: &mut String,
    name: &str,
    fields: &[Named<'_>],
    structures: &BTreeMap<&str, Vec<Named<'_>>>,
) -> Outcome {
    let (mut at, mut list) = (0_usize, String::new());
    for field in fields {
        // The library's own, given out and taken back as it is.
        let (size, kind) = match (name, field.name) {
            ("lw_text", "data") => (8, "Kind::Number(Number::Size)".to_owned()),
            _ => kind(field, structures)?,
        };
        at = at.next_multiple_of(size);
        let name = field.name;
        let _ = write!(list, "Field {{ name: {name:?}, kind: {kind}, at: {at} }}, ");
        at += size;
    }
    let size = at.next_multiple_of(8);
    let _ = writeln!(
        out,
        "Record {{ name: {name:?}, size: {size}, fields: &[{list}] }},"
    );
    Ok(())
}

/// The calls that give a status, each with its parameters and a way to make it.
fn calls(out: &mut String, code: &str, structures: &BTreeMap<&str, Vec<Named<'_>>>) -> Outcome {
    let (mut table, mut declared) = (String::new(), String::new());
    for part in code.split("lw_status lw_").skip(1) {
        let (name, rest) = part.split_once('(').unwrap_or_default();
        // Not a call, or one that is asked of every error.
        if name.is_empty() || name.contains(';') || name == "error_status" {
            continue;
        }
        let (parameters, _) = rest.split_once(')').ok_or("a call without an end")?;
        let (mut kinds, mut types, mut words) = (String::new(), String::new(), String::new());
        for (i, parameter) in parameters.split(',').enumerate() {
            let parameter = named(parameter)?;
            let (_, kind) = kind(&parameter, structures)?;
            let (way, rust) = match parameter.kind.as_str() {
                "double" => ("double", "f64"),
                "int64_t" => ("whole", "i64"),
                "uint32_t" => ("choice", "u32"),
                "size_t" => ("size", "usize"),
                _ => ("pointer", "*mut c_void"),
            };
            let name = parameter.name;
            let _ = write!(kinds, "Field {{ name: {name:?}, kind: {kind}, at: 0 }}, ");
            let _ = write!(types, "_: {rust}, ");
            let _ = write!(words, "a.{way}({i}), ");
        }
        let _ = writeln!(declared, "fn lw_{name}({types}) -> lw_status;");
        let _ = writeln!(
            table,
            "Call {{ name: \"lw_{name}\", parameters: &[{kinds}], make: |a| \
             // SAFETY: the arguments keep to the contract.\n unsafe {{ lw_{name}({words}) }} }},"
        );
    }
    let _ = writeln!(out, "pub(crate) static CALLS: &[Call] = &[\n{table}];");
    let _ = writeln!(out, "unsafe extern \"C\" {{\n{declared}}}");
    Ok(())
}
