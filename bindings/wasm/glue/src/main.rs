//! What the npm package takes from Rust: the JavaScript that loads the WebAssembly file, and the
//! TypeScript types of the answers.
//!
//! A program of its own, because the libraries it needs are large and only the package needs them.

mod source;
mod types;

use std::process::ExitCode;
use wasm_bindgen_cli_support::Bindgen;

const USAGE: &str = "\
usage: lashwork-wasm-glue glue <file.wasm> <folder> <name>
       lashwork-wasm-glue types <file.d.ts>";

/// Where the types of the answers stand, and those that an answer begins with.
const SOURCE: [&str; 2] = ["crates/lashwork/src", "crates/lashwork-wire/src"];
const ROOTS: [&str; 3] = ["Problem", "OneValveReport", "Report"];

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let outcome = match words.as_slice() {
        ["glue", file, folder, name] => glue(file, folder, name),
        ["types", file] => types::declarations(&SOURCE, &ROOTS)
            .and_then(|text| std::fs::write(file, text).map_err(|why| why.to_string())),
        _ => Err(USAGE.to_owned()),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("lashwork-wasm-glue: {why}");
            ExitCode::FAILURE
        }
    }
}

fn glue(file: &str, folder: &str, name: &str) -> Result<(), String> {
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(file)
        .out_name(name)
        .typescript(true)
        // The glue finds the file beside itself when it is told no other place.
        .omit_default_module_path(false)
        .remove_name_section(true)
        .remove_producers_section(true);
    let web = bindgen.web(true).map_err(|why| format!("{why:#}"))?;
    web.generate(folder).map_err(|why| format!("{why:#}"))
}
