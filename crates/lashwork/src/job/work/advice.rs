//! What to do, and what must be sure before it is done.

use crate::job::page::wrap;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// What to do about one thing, with only what belongs to it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(tag = "action", rename_all = "snake_case")]
#[non_exhaustive]
pub enum WorkAdvice {
    /// Leave it alone.
    Leave {
        /// Why, in words.
        text: String,
    },
    /// Read it again, or otherwise: what was read does not decide.
    Measure {
        /// What and how.
        text: String,
    },
    /// Set it.
    Set {
        /// What must be sure first.
        first: Vec<String>,
        /// What to turn, which way and how far.
        text: String,
        /// What must read afterwards.
        then_reads: String,
    },
    /// Settle something else first; no amount until then.
    SettleFirst {
        /// What.
        text: String,
    },
    /// Find the cause; setting would hide it.
    FindCause {
        /// What is out of the way, in words.
        text: String,
        /// Where to look, the likeliest first.
        causes: Vec<String>,
    },
}

impl WorkAdvice {
    /// In lines, the first thing first.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        match self {
            Self::Leave { text } | Self::Measure { text } | Self::SettleFirst { text } => {
                Vec::from([text.clone()])
            }
            Self::Set {
                first,
                text,
                then_reads,
            } => {
                let set = [text.clone(), reads(then_reads)];
                first.iter().map(|one| sure(one)).chain(set).collect()
            }
            Self::FindCause { text, causes } => {
                let look = causes.iter().map(|cause| format!("look at: {cause}"));
                core::iter::once(text.clone()).chain(look).collect()
            }
        }
    }
}

fn sure(first: &str) -> String {
    format!("first make sure: {first}")
}

fn reads(then: &str) -> String {
    format!("then it reads {then}")
}

/// How far what to do stands in on the sheet.
const LEAD: &str = "  > ";

/// Writes what to do on the sheet, with room beside it for what was done and for what then reads.
pub(in crate::job) fn write_advice(out: &mut String, advice: &WorkAdvice) {
    let amounts = match advice {
        WorkAdvice::Set { text, .. } => core::slice::from_ref(text),
        _ => &[],
    };
    write_amounts(out, advice, amounts);
}

/// The same of an advice with several amounts, each with its own room.
pub(in crate::job) fn write_amounts(out: &mut String, advice: &WorkAdvice, amounts: &[String]) {
    let WorkAdvice::Set {
        first, then_reads, ..
    } = advice
    else {
        for text in advice.lines() {
            wrap::write(out, LEAD, &text);
        }
        if matches!(advice, WorkAdvice::Measure { .. }) {
            wrap::room(out, "found");
        }
        return;
    };
    for one in first {
        wrap::write(out, LEAD, &sure(one));
    }
    for text in amounts {
        wrap::write(out, LEAD, text);
        wrap::room(out, "done");
    }
    wrap::write(out, LEAD, &reads(then_reads));
    wrap::room(out, "as left");
}

/// Writes a reading or a look that would tell more; where it is what to do, it stands there already.
pub(in crate::job) fn write_further(out: &mut String, lead: &str, next: &str, advice: &WorkAdvice) {
    if !advice.lines().iter().any(|told| told.contains(next)) {
        wrap::write(out, lead, next);
        wrap::room(out, "found");
    }
}
