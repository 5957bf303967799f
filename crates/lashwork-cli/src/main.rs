//! `lashwork`: job sheets, reports and judged tables of readings on the command line.
//!
//! Everything is asked of `lashwork-wire`; nothing here knows the trade. What comes out goes to standard
//! output, what is wrong to standard error (with `--json`, to standard output as well, in the shape of the
//! JSON interface). It ends with 0, with 1 if something was refused, with 2 if it could not run.
#![forbid(unsafe_code)]

mod arguments;
mod document;
mod ended;
mod input;
mod judge;
mod output;

use arguments::{Ask, Schema, Words};
use clap::error::ErrorKind;
use clap::{CommandFactory, Parser};
use ended::{Ended, cannot};
use output::{Output, aside};
use std::process::ExitCode;

fn main() -> ExitCode {
    let mut output = Output::new(std::env::args_os().any(|word| word == "--json"));
    let ended = match Words::try_parse() {
        Ok(words) => answer(words, &mut output),
        Err(why) => misused(&why, &mut output),
    };
    output.end(ended).into()
}

fn answer(words: Words, output: &mut Output) -> Ended {
    match words.ask {
        Ask::Sheet { files, full } => document::sheets(&files, full, output),
        Ask::Report { file, pretty } => document::report(&file, pretty, output),
        Ask::Check { files } => document::checks(&files, output),
        Ask::Quick { file } => document::told(&file, lashwork_wire::quick_check, output),
        Ask::Ignition { file } => document::told(&file, lashwork_wire::ignition_check, output),
        Ask::Schema { which } => {
            output.text(match which {
                Schema::Document => lashwork_wire::document_schema(),
                Schema::Report => lashwork_wire::report_schema(),
                Schema::Ignition => lashwork_wire::ignition_check_schema(),
            });
            Ended::Well
        }
        Ask::Judge(table) => judge::table(&table, output),
        Ask::Completions { shell } => {
            let mut script = Vec::new();
            clap_complete::generate(shell, &mut Words::command(), "lashwork", &mut script);
            output.bytes(&script);
            Ended::Well
        }
        Ask::Man { command } => manual(command.as_deref(), output),
    }
}

/// A manual page, in the form that `man` reads.
fn manual(command: Option<&str>, output: &mut Output) -> Ended {
    let mut all = Words::command();
    all.build();
    let asked = match command {
        None => Some(all),
        Some(name) => all.find_subcommand(name).cloned(),
    };
    let Some(asked) = asked else {
        let why = format!("there is no command {:?}", command.unwrap_or_default());
        return output.problem("", &cannot("program.arguments", &why));
    };
    let mut page = Vec::new();
    match clap_mangen::Man::new(asked).render(&mut page) {
        Ok(()) => output.bytes(&page),
        Err(why) => return output.problem("", &cannot("program.cannot-write", &why)),
    }
    Ended::Well
}

/// Help and version are answers; everything else is a way of calling that there is not.
fn misused(why: &clap::Error, output: &mut Output) -> Ended {
    let text = why.to_string();
    match why.kind() {
        ErrorKind::DisplayHelp | ErrorKind::DisplayVersion => {
            output.text(&text);
            Ended::Well
        }
        _ if output.is_json() => output.problem("", &cannot("program.arguments", &text.trim())),
        _ => {
            aside(&text);
            Ended::CannotRun
        }
    }
}
