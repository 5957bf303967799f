//! The JavaScript that loads a WebAssembly file, and the parts of a file that are loaded later.
//!
//! A program of its own, because the library it needs is large and only the npm package needs it.

mod parts;
mod split;

use std::path::Path;
use std::process::ExitCode;
use wasm_bindgen_cli_support::Bindgen;

const USAGE: &str = "usage: lashwork-wasm-glue <file.wasm> <folder> <name> [--parts]";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let outcome = match words.as_slice() {
        [file, folder, name] => glue(file, folder, name, false),
        [file, folder, name, "--parts"] => glue(file, folder, name, true),
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

fn glue(file: &str, folder: &str, name: &str, in_parts: bool) -> Result<(), String> {
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(file)
        .out_name(name)
        .typescript(true)
        // The glue finds the file beside itself when it is told no other place.
        .omit_default_module_path(false)
        // By their names functions are known; what makes the file small drops them.
        .remove_name_section(false)
        .demangle(false)
        .remove_producers_section(true);
    let web = bindgen.web(true).map_err(|why| format!("{why:#}"))?;
    let mut made = web.generate_output().map_err(|why| format!("{why:#}"))?;
    if in_parts {
        let whole = made.wasm_mut().emit_wasm();
        let (main, parts) = split::split(&whole)?;
        std::fs::create_dir_all(folder).map_err(|why| format!("{folder}: {why}"))?;
        for (part, mut module) in parts {
            let file = Path::new(folder).join(format!("{name}_{part}.wasm"));
            let written = module.emit_wasm_file(&file);
            written.map_err(|why| format!("{}: {why:#}", file.display()))?;
        }
        *made.wasm_mut() = main;
    }
    made.emit(folder).map_err(|why| format!("{why:#}"))
}
