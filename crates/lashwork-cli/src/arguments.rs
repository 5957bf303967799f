//! What can be asked, and in which words.

use clap::builder::{PossibleValuesParser, ValueParser};
use clap::{Arg, ArgAction, ArgMatches, Command};
use clap_complete::Shell;
use std::path::PathBuf;

const MORE: &str = "\
FILE is a path, or - for standard input. Ends with 0; with 1 if something was refused, each reason being told \
and the rest answered; with 2 if it could not run.

The engine maker's manual, local codes and licensed practice come first; lashwork only computes.";

/// The program's words, from which help, manual and completions are made as well.
pub(crate) fn words() -> Command {
    let json = Arg::new("json")
        .long("json")
        .global(true)
        .action(ArgAction::SetTrue)
        .help("Answer in JSON, problems and failures included");
    Command::new("lashwork")
        .version(env!("CARGO_PKG_VERSION"))
        .about("Service of older piston engines: valve clearances, ignition, mixture")
        .after_help(MORE)
        .subcommand_required(true)
        .arg_required_else_help(true)
        .arg(json)
        .subcommands([
            ask("sheet", "Job sheet of a document: one page")
                .args([files(), flag("full", "The page and everything behind it")]),
            ask("report", "Report of a document, as JSON")
                .args([file("FILE"), flag("pretty", "A line for each value")]),
            ask("check", "What is wrong with documents, all of it").arg(files()),
            ask("quick", "Answer to a quick check of one valve, as JSON").arg(file("FILE")),
            ask(
                "ignition",
                "Answer to questions of the ignition that need no engine, as JSON",
            )
            .arg(file("FILE")),
            ask("schema", "JSON Schema of what is read and answered").arg(
                Arg::new("which")
                    .default_value("document")
                    .value_parser(PossibleValuesParser::new([
                        "document", "report", "ignition",
                    ]))
                    .help("Of documents, of every answer, or of questions of the ignition"),
            ),
            judge(),
            ask("completions", "Completions for a shell").arg(
                Arg::new("shell")
                    .required(true)
                    .value_parser(clap::value_parser!(Shell)),
            ),
            ask(
                "man",
                "The manual page, of the program or of one of its commands",
            )
            .arg(Arg::new("command")),
        ])
}

fn judge() -> Command {
    let same = Arg::new("same")
        .long("same")
        .value_name("FILE")
        .value_parser(path())
        .help("A quick check in JSON with what is the same for all rows, such as the gauge")
        .long_help(
            "A quick check in JSON with what is the same for all rows, such as the gauge; where a row states a \
             field of it, the row counts",
        );
    let separator = Arg::new("separator")
        .long("separator")
        .default_value(",")
        .value_parser(separator)
        .help("What stands between fields; \"tab\" for a tabulator");
    ask(
        "judge",
        "Judge a table of readings, row by row: CSV in, CSV out",
    )
    .after_help(crate::judge::columns::HELP)
    .args([file("READINGS.csv"), same, separator])
}

fn ask(name: &'static str, about: &'static str) -> Command {
    Command::new(name).about(about)
}

fn flag(name: &'static str, help: &'static str) -> Arg {
    Arg::new(name)
        .long(name)
        .action(ArgAction::SetTrue)
        .help(help)
}

fn file(name: &'static str) -> Arg {
    Arg::new("file")
        .value_name(name)
        .required(true)
        .value_parser(path())
}

fn files() -> Arg {
    file("FILE").num_args(1..)
}

fn path() -> ValueParser {
    ValueParser::path_buf()
}

fn separator(word: &str) -> Result<u8, String> {
    match word.as_bytes() {
        b"tab" => Ok(b'\t'),
        [one] if one.is_ascii_punctuation() && !b"\"#".contains(one) || *one == b'\t' => Ok(*one),
        _ => Err("give one sign such as \";\", or \"tab\"".to_owned()),
    }
}

/// The files that were named.
pub(crate) fn named(found: &ArgMatches) -> Vec<PathBuf> {
    let files = found.get_many::<PathBuf>("file");
    files.into_iter().flatten().cloned().collect()
}
