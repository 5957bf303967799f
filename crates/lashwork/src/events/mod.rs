//! Tier 3: events: what the lash does to the opening and closing of the valves.
//!
//! # Conventions
//! - Angles are crank degrees as a manual prints them: intake opening before TDC, closing after BDC, exhaust
//!   opening before BDC, closing after TDC.
//! - Lash is that at the valve; a ramp is that of the follower, with the rocker's ratio between.
//! - More lash opens later and closes earlier. Beyond the ramp's height only the flank's own slope says by how
//!   much; without it an event has one end.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | How steep is the cam where the lash is taken up? | [`Flank`] |
//! | Where do the valves open and close at the lash they run with, and what overlap and compression does that leave? | [`RunningEvents`] |
//!
//! # Method
//! An event is where the cam has lifted by the lash: on a ramp of so much a cam degree, on a slope measured with
//! two leaves, or on a flank without a ramp that lifts harmonically. The difference of two such places moves the
//! printed event.
//!
//! # Sources
//! Geometry. Which way lash moves the events is published; the texts are named in the tests.
//!
//! # Not here
//! Where a valve may be read (`valve`), what the compression then is (`condition`).

mod answer;
mod error;
mod flank;
mod running;

pub use answer::{EffectiveRatio, EventFound, EventsAssumption, EventsFound};
pub use error::EventsError;
pub use flank::{Flank, Taken};
pub use running::{RunningEvents, RunningValve};
