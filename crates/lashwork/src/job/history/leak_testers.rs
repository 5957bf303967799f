//! Which testers the leaks of the services were read with: what two of them show is never held side by side, areas are.

use super::request::{PastLeakTester, PastService};
use super::time::Times;
use crate::job::text::joined;
use crate::quantity::shown::reckoned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// The testers that the leaks of the services were read with.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LeakTestersReport {
    /// Whether they differ.
    pub differ: bool,
    /// Whether some service does not say which it was.
    pub some_not_known: bool,
    /// Which, when, and what follows, in words.
    pub text: String,
}

/// Tells them; nothing if no service names one.
pub(super) fn report(
    services: &[PastService],
    times: &Times,
    inches: bool,
) -> Option<LeakTestersReport> {
    let read = services.iter().filter(|one| !one.leak_area.is_empty());
    let mut named: Vec<(&PastLeakTester, Vec<String>)> = Vec::new();
    let mut unnamed = Vec::new();
    for service in read {
        let when = times.service(&service.used);
        let Some(tester) = &service.leak_tester else {
            unnamed.push(when);
            continue;
        };
        match named.iter_mut().find(|(known, _)| *known == tester) {
            Some((_, at)) => at.push(when),
            None => named.push((tester, Vec::from([when]))),
        }
    }
    if named.is_empty() {
        return None;
    }
    let differ = named.len() > 1;
    let list = |all: &[String]| joined(&all.iter().map(String::as_str).collect::<Vec<_>>());
    let mut said: Vec<String> = (named.iter())
        .map(|(tester, at)| format!("{} on {}", what(tester, inches), list(at)))
        .collect();
    if !unnamed.is_empty() {
        said.push(format!("one that is not named on {}", list(&unnamed)));
    }
    let follows = match (differ, unnamed.is_empty()) {
        (true, true) => {
            "testers differ: what they show is never held side by side, the areas are, each reckoned with the \
             orifice of its own"
        }
        (_, false) => {
            "whether testers differ is not known: an area stands beside the others only if it was reckoned with \
             the orifice of its own tester"
        }
        (false, true) => "one tester throughout",
    };
    Some(LeakTestersReport {
        differ,
        some_not_known: !unnamed.is_empty(),
        text: format!("read with {}; {follows}", said.join("; ")),
    })
}

fn what(tester: &PastLeakTester, inches: bool) -> String {
    let orifice = tester
        .orifice
        .map(|orifice| format!("an orifice of {}", reckoned(orifice.mm(), inches)));
    match (&tester.name, orifice) {
        (Some(name), Some(orifice)) => format!("{name}, {orifice},"),
        (Some(name), None) => name.clone(),
        (None, Some(orifice)) => orifice,
        (None, None) => String::from("a tester"),
    }
}
