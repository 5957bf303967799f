//! The JavaScript that loads a WebAssembly file.
//!
//! A program of its own, because the library it needs is large and only the npm package needs it.

use std::process::ExitCode;
use wasm_bindgen_cli_support::Bindgen;

const USAGE: &str = "usage: lashwork-wasm-glue <file.wasm> <folder> <name>";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let outcome = match words.as_slice() {
        [file, folder, name] => glue(file, folder, name),
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
