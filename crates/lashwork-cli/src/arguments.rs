//! What can be asked, and in which words.

use clap::{Args, Parser, Subcommand, ValueEnum};
use clap_complete::Shell;
use std::path::PathBuf;

const MORE: &str = "\
FILE is a path, or - for standard input. Ends with 0; with 1 if something was refused, each reason being told \
and the rest answered; with 2 if it could not run.

The engine maker's manual, local codes and licensed practice come first; lashwork only computes.";

/// Service of older piston engines: valve clearances, ignition, mixture.
#[derive(Parser)]
#[command(name = "lashwork", version, after_help = MORE)]
pub(crate) struct Words {
    #[command(subcommand)]
    pub(crate) ask: Ask,
    /// Answer in JSON, problems and failures included
    #[arg(long, global = true)]
    json: bool,
}

#[derive(Subcommand)]
pub(crate) enum Ask {
    /// Job sheet of a document: one page
    Sheet {
        #[arg(value_name = "FILE", required = true)]
        files: Vec<PathBuf>,
        /// The page and everything behind it
        #[arg(long)]
        full: bool,
    },
    /// Report of a document, as JSON
    Report {
        file: PathBuf,
        /// A line for each value
        #[arg(long)]
        pretty: bool,
    },
    /// What is wrong with documents, all of it
    Check {
        #[arg(value_name = "FILE", required = true)]
        files: Vec<PathBuf>,
    },
    /// Answer to a quick check of one valve, as JSON
    Quick { file: PathBuf },
    /// Answer to questions of the ignition that need no engine, as JSON
    Ignition { file: PathBuf },
    /// JSON Schema of what is read and answered
    Schema {
        #[arg(default_value = "document")]
        which: Schema,
    },
    /// Judge a table of readings, row by row: CSV in, CSV out
    Judge(Table),
    /// Completions for a shell
    Completions { shell: Shell },
    /// The manual page, of the program or of one of its commands
    Man { command: Option<String> },
}

#[derive(Clone, Copy, ValueEnum)]
pub(crate) enum Schema {
    /// What a document may hold
    Document,
    /// What an answer may hold
    Report,
    /// What questions of the ignition may hold
    Ignition,
}

/// A table of readings.
#[derive(Args)]
#[command(after_help = crate::judge::columns::HELP)]
pub(crate) struct Table {
    /// Readings, a row each, under a line of column names
    #[arg(value_name = "READINGS.csv")]
    pub(crate) file: PathBuf,
    /// A quick check in JSON with what is the same for all rows, such as the gauge; a row's own fields come
    /// before it
    #[arg(long, value_name = "FILE")]
    pub(crate) same: Option<PathBuf>,
    /// What stands between fields; "tab" for a tabulator
    #[arg(long, default_value = ",", value_parser = separator)]
    pub(crate) separator: u8,
}

fn separator(word: &str) -> Result<u8, String> {
    match word.as_bytes() {
        b"tab" => Ok(b'\t'),
        [one] if one.is_ascii_punctuation() && !b"\"#".contains(one) || *one == b'\t' => Ok(*one),
        _ => Err("give one sign such as \";\", or \"tab\"".to_owned()),
    }
}
