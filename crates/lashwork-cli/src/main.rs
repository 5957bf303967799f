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

use arguments::{named, words};
use clap::ArgMatches;
use clap::error::ErrorKind;
use clap_complete::Shell;
use ended::{Ended, cannot};
use output::{Output, aside};
use std::process::ExitCode;

fn main() -> ExitCode {
    let mut output = Output::new(std::env::args_os().any(|word| word == "--json"));
    let ended = match words().try_get_matches() {
        Ok(found) => answer(&found, &mut output),
        Err(why) => misused(&why, &mut output),
    };
    output.end(ended).into()
}

fn answer(found: &ArgMatches, output: &mut Output) -> Ended {
    let Some((ask, found)) = found.subcommand() else {
        // One is required, so that this is not reached.
        return Ended::CannotRun;
    };
    let word = |name: &str| found.get_one::<String>(name).map(String::as_str);
    match ask {
        "sheet" => document::sheets(&named(found), found.get_flag("full"), output),
        "report" => document::report(&named(found), found.get_flag("pretty"), output),
        "check" => document::checks(&named(found), output),
        "quick" => document::told(&named(found), lashwork_wire::quick_check, output),
        "ignition" => document::told(&named(found), lashwork_wire::ignition_check, output),
        "judge" => judge::table(found, output),
        "schema" => {
            output.text(match word("which") {
                Some("report") => lashwork_wire::report_schema(),
                Some("ignition") => lashwork_wire::ignition_check_schema(),
                _ => lashwork_wire::document_schema(),
            });
            Ended::Well
        }
        "completions" => {
            let mut script = Vec::new();
            if let Some(shell) = found.get_one::<Shell>("shell") {
                clap_complete::generate(*shell, &mut words(), "lashwork", &mut script);
            }
            output.bytes(&script);
            Ended::Well
        }
        _ => manual(word("command"), output),
    }
}

/// A manual page, in the form that `man` reads.
fn manual(command: Option<&str>, output: &mut Output) -> Ended {
    let mut all = words();
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
