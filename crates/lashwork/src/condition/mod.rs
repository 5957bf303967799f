//! Tier 3: condition: what state an engine is in before anything is adjusted.
//!
//! # Conventions
//! - A gauge's pressure is one over the air around; what compression does is worked out above nothing.
//! - The engine is its own standard: a cylinder is compared with the good ones beside it first, with a figure
//!   worked out from its dimensions second.
//! - Where published rules disagree, each is given by its name; none is merged.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | What should the gauge show here, which cylinder is low, and why? | [`compression`] |
//! | How are the head's bolts tightened? | [`head`] |
//! | How large is the leak, and where does it go? | [`leak`] |
//!
//! # Not here
//! What the lash does to the events (`events`), the order of work and the words of the sheet (`job`).

pub mod compression;
pub mod head;
pub mod leak;
mod measured;
