//! `cargo xtask <command>`: what cargo alone cannot do, gathered in one place.
//!
//! Nothing here computes; it starts other programs and says what it does.

mod bare_metal;
mod bench;
mod bits;
mod c;
mod careful;
mod check;
mod counted;
mod demo;
mod fleet;
mod fuzz;
mod mutants;
mod node;
mod output;
mod own;
mod page;
mod prepare;
mod python;
mod release;
mod step;
mod toolchain;
mod tools;
mod wasm;
mod wheel;

use std::process::ExitCode;
use step::run;

const USAGE: &str = "\
usage: cargo xtask <command>

  demo [FILE...] [--full]
                        job sheet of a document, or of every document in examples/data
  test                  format, lints, tests, documentation, schema, bare metal, C, npm package, page
  tools                 what the checks need besides Rust: looks for it, installs what is missing
  c                     C libraries, header and the tree to install, in target/c/stage
  c test                the proofs of the C interface alone
  header [--check]      writes bindings/c/include/lashwork.h, or checks that it is up to date
  install --prefix DIR [--libdir DIR]
                        installs the C library, its header and package files; DESTDIR is honoured; DIR of
                        libraries is below the prefix, such as lib64 or lib/x86_64-linux-gnu
  wheel                 the Python wheel, in target/python-wheel/dist, tried in each Python on the path
  fleet --test [--rows N]
                        judges readings of a fleet in DuckDB, Polars, and Spark with two executors, one of them killed
  mutants [--each N [--seed TEXT]] [AREA...]
                        how many small changes of the code the tests see, by area
  fuzz [TARGET] [--minutes N]
                        the fuzz targets: a minute in all, or N
  fuzz TARGET --minimise
                        writes the target's corpus anew, with what was found
  careful               what looks for undefined behaviour with a nightly compiler: miri, sanitizers with std
  wasm                  the npm package, in bindings/wasm/pkg
  wasm test             the same, and the proofs of the package alone
  page [--build]        the page for a phone: builds it and serves it, or builds it only
  page --test           builds it and drives it in a browser
  bits                  the answers to every vector in every build, language and emulated processor, as a table
  load                  the largest documents, hostile texts and thousands in a row: time and memory
  bench                 times of the kernel beside numpy and scipy
  oracles               makes tests/oracles/*.json anew with the pinned Python packages
  direct                writes Rust's answers into tests/direct/*.json
  codes                 writes docs/errors.md, every code with its words
  release-check         what is looked at before a release: packages, licences, the interface, the header as pages
  schema [--check]      writes the files in crates/lashwork-wire/schema, or checks that they are up to date";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let outcome = match words.as_slice() {
        ["demo", rest @ ..] => demo::show(rest),
        ["schema"] => run(own::native().arg("schemas")),
        ["schema", "--check"] => run(own::native().args(["schemas", "--check"])),
        ["test"] => check::all(),
        ["tools"] => prepare::for_all_checks(),
        ["c"] => c::build(),
        ["c", "test"] => c::tests::alone(),
        ["header"] => c::header(&[]),
        ["header", "--check"] => c::header(&["--check"]),
        ["install", "--prefix", prefix] => c::install(prefix, "lib"),
        ["install", "--prefix", prefix, "--libdir", lib] => c::install(prefix, lib),
        ["wheel"] => wheel::build(),
        ["fleet", "--test"] => fleet::test(fleet::ROWS),
        ["fleet", "--test", "--rows", rows] => fleet::rows(rows).and_then(fleet::test),
        ["mutants", rest @ ..] => mutants::asked(rest),
        ["fuzz", rest @ ..] => fuzz::asked(rest),
        ["careful"] => careful::all(),
        ["wasm"] => wasm::package(),
        ["wasm", "test"] => wasm::package().and_then(|()| wasm::test()),
        ["page"] => page::serve(),
        ["page", "--build"] => page::build(),
        ["page", "--test"] => wasm::package().and_then(|()| page::test()),
        ["bits"] => bits::all(),
        ["load"] => run(step::cargo()
            .args(["run", "--release", "--package", "lashwork-benches"])
            .args(["--bin", "load"])),
        ["bench"] => bench::table(),
        ["direct"] => run(own::native().arg("direct")),
        ["codes"] => run(own::native().arg("codes")),
        ["release-check"] => release::check(),
        ["oracles"] => python::oracles(),
        ["help" | "--help" | "-h"] => {
            println!("{USAGE}");
            Ok(())
        }
        _ => Err(format!("no such command: {:?}\n{USAGE}", words.join(" "))),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("xtask: {why}");
            ExitCode::FAILURE
        }
    }
}
