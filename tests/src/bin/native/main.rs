//! `native`: what the kernel answers when Rust asks it, for checks of what is written in other languages or
//! into files.

mod answers;
mod bits;
mod doors;
mod schemas;

use std::error::Error;

type Outcome = Result<(), Box<dyn Error>>;

const USAGE: &str = "\
usage: native <command>

  answers FILE          every shared vector, example and some drawn documents with their answers, as JSON
  drawn FILE COUNT SEED so many drawn documents with their answers, likewise
  requests FOLDER [--one-of-each-area]
                        the shared vectors and direct calls, for a program that answers them
  compare DOOR REQUESTS ANSWERS
                        what came through a door, held against what Rust answers
  bits                  a line for every vector: its file, its name, a digest of what Rust answers here
  bits ANSWERS          the same of what came through a door
  bits --of NAME        what the digest of a vector is made of
  codes                 docs/errors.md, every code with its words
  direct                Rust's answers into tests/direct/*.json
  schemas [--check]     the JSON Schemas into their files, or whether those are what the types say";

fn main() -> Outcome {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["answers", file] => answers::write(file),
        ["drawn", file, count, seed] => answers::write_drawn(file, count, seed),
        ["requests", folder] => doors::write(folder.as_ref(), false),
        ["requests", folder, "--one-of-each-area"] => doors::write(folder.as_ref(), true),
        ["compare", door, requests, answers] => {
            doors::compare(door, requests.as_ref(), answers.as_ref())
        }
        ["bits"] => bits::of_this_machine(),
        ["bits", "--of", name] => bits::show(name),
        ["bits", answers] => bits::of_a_door(answers.as_ref()),
        ["codes"] => Ok(lashwork_tests::codes::write()?),
        ["direct"] => Ok(lashwork_tests::direct::write()?),
        ["schemas"] => schemas::write(),
        ["schemas", "--check"] => schemas::check(),
        _ => Err(USAGE.into()),
    }
}
