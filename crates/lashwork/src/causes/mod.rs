//! What may be the matter with an engine, by all that was found of it.
//!
//! # Conventions
//! - Nothing said is nothing known: what was not looked at moves no probability.
//! - Cylinders count from 0, in the order their signs are given in.
//! - Probabilities are of a cause being there, alone or with another.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | What may be the matter, and where? | [`Cause`], [`Place`] |
//! | What was found? | [`CauseCheck`], [`CylinderSigns`], [`EngineSigns`] |
//! | How probable is each, and what speaks for it? | [`CauseCheck::weighed`], [`SpeaksFor`] |
//! | Where to look next? | [`CauseAnswer::next`] |
//!
//! # Method
//! Bayes' rule over all cases: nothing, each cause in each place, each two of them, and something else. A cause is
//! slight or plain, and all its signs know which: one that is missing where another is clear speaks against it. A
//! sound cylinder may leak for the moment, and then compression, leak and vacuum all show it: so they are not taken
//! as three witnesses of one defect. Of signs that are read off one another only one is weighed, or what it adds: oil only after a low cylinder, the place of a hiss only
//! after a leak, lambda only without the gases it is reckoned of, the vacuum gauge without what was found
//! elsewhere. The weight of evidence is ten times the logarithm of a ratio of odds (decibans; I. J. Good,
//! Probability and the weighing of evidence, 1950, from memory); what looks add one after the other sums to
//! the whole.
//!
//! # Not known
//! - How often a stated probability is right was not tried, neither on simulated
//!   engines of another making nor on real ones; how often causes are met and show their signs is this library's choice ([`CauseAssumption`]).
//! - Three things at once; a blocked exhaust, a sticking valve, weak springs and whatever else is not in [`Cause`]
//!   are one `something else`.
//!
//! # Not here
//! The measurements and their verdicts, which come in as signs.

mod answer;
mod assumption;
mod cause;
mod chances;
mod check;
mod error;
mod evidence;
mod next;
mod shown;
mod signs;
mod suspect;

pub use answer::{
    CauseAnswer, CauseLook, CausePlace, CauseVerdict, LikelyCause, NextCauseLook, SETTLED,
    SpeaksFor, Strength,
};
pub use assumption::CauseAssumption;
pub use cause::{Cause, CausePriors, Place};
pub use check::CauseCheck;
pub use error::CauseError;
pub use signs::{
    CompressionSign, CylinderSigns, DriftSign, DwellSign, EngineSigns, LambdaSign, LashSign,
    LeakSign, MonoxideSign, OxygenSign, PlugSign, PressureSign, Seen, TimingSign, UnburntSign,
};
