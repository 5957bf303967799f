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
//! # Model
//! Bayes' rule over all cases: nothing, each cause in each place, each two of them, and something else.
//! - A cause is slight or plain, and all its signs know which: one that is missing where another is clear speaks
//!   against it. In the sign that a cause is by definition (a tight valve in its clearance, a late spark in the timing)
//!   it shows at once.
//! - A burnt valve has sunk or has not; a tight one closed since it was set or was set so; a worn cam opened the
//!   clearance (follower) or did not (nose).
//! - A sound cylinder may leak for the moment (carbon under a valve, bores dry from standing).
//! - Each look has 3 chances in 100 to have nothing to do with what is the matter, so that none decides by itself.
//!
//! What each sign points to, and its source, stands in `chances.rs`; how often it does is this library's choice. The
//! vacuum gauge has its own causes ([`crate::mixture::gauge`]), whose likelihoods are shared out over these.
//!
//! # Nothing is counted twice
//! | signs of one thing | what is done |
//! |---|---|
//! | low dry, low with oil | one sign of three outcomes: oil only says which |
//! | a leak, where it hisses | one sign of five outcomes |
//! | compression, leak and vacuum of one leak | one cause, slight or plain, and leaks that pass, explain all three |
//! | a clearance, and its drift, reckoned of it | the drift is weighed beside the clearance: in a sound valve one slip makes both |
//! | lambda, and the gases it is reckoned of | lambda is left out |
//! | timing, clearances and compression given with the gauge | left out there |
//!
//! # What speaks for a cause
//! The weight of evidence is ten times the logarithm of a ratio of odds (decibans; I. J. Good, Probability and the
//! weighing of evidence, 1950, from memory); what looks add one after the other sums to the whole.
//!
//! # How far a probability is right
//! Tried on engines simulated by other means (areas of leaks, gas left at top dead centre, air behind the throttle,
//! what burns; `tests/tests/causes`), never on real ones. What is stated under 0.1 is met about as often as stated;
//! from 0.1 to 0.7 it is met more often, by up to 0.2, with everything looked at by up to 0.3; from 0.9 to 0.97 it is
//! met 8 to 9 times in 10, over that nearly always. Of sound engines about 1 in 200 gets a cause at 0.5 or more after
//! a service, 1 in 50 with everything looked at. Some entries of the model were set with the results of such engines
//! known, so this is no calibration, and no answer claims one. Every answer lists it as assumed
//! ([`CauseAssumption::SimulatedOnly`]).
//!
//! # Not known
//! - A lean mixture and air behind the throttle are hardly told apart, nor a cam a tooth out by anything but all
//!   cylinders low and a low needle.
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
mod odds;
mod seen;
mod shown;
mod sign;
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
pub use seen::Seen;
pub use sign::{
    CompressionSign, DriftSign, DwellSign, LambdaSign, LashSign, LeakSign, MonoxideSign,
    OxygenSign, PlugSign, PressureSign, SeatSign, TimingSign, UnburntSign,
};
pub use signs::{CylinderSigns, EngineSigns};
