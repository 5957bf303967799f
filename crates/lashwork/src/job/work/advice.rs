//! What to do, and what must be sure before it is done.

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
        use alloc::format;
        match self {
            Self::Leave { text } | Self::Measure { text } | Self::SettleFirst { text } => {
                Vec::from([text.clone()])
            }
            Self::Set {
                first,
                text,
                then_reads,
            } => {
                let sure = first.iter().map(|one| format!("first make sure: {one}"));
                let set = [text.clone(), format!("then it reads {then_reads}")];
                sure.chain(set).collect()
            }
            Self::FindCause { text, causes } => {
                let look = causes.iter().map(|cause| format!("look at: {cause}"));
                core::iter::once(text.clone()).chain(look).collect()
            }
        }
    }
}
