//! The contact breaker: gap, dwell, and how they move the spark.
//!
//! # Conventions
//! - Dwell counts in degrees of the shaft that carries the breaker's cam ([`Dwell`]), whatever turns it;
//!   [`CamSpeed`] says how often the crank turns for one turn of it.
//! - A wider gap is less dwell, and less dwell is an earlier spark.
//! - What a reading says of the gap is an [`Estimate`](crate::tolerance::Estimate); how leaves make one is
//!   asked elsewhere (`feeler`).
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | How many degrees are 66 %? | [`Lobes::dwell_of_percent`], [`Lobes::percent`] |
//! | The meter has no scale for these cylinders | [`MeterScale::dwell`], [`DwellShown`] |
//! | Was the meter on another scale? | [`possible_scales`] |
//! | How long are the contacts closed? | [`BreakerCam::closed_time`] |
//! | Which dwell goes with this gap, and which gap with this dwell? | [`LobeModel`] |
//! | How far does the spark move? | [`spark_shift`], [`LobeModel::spark_shift`] |
//! | May a leaf be believed here? | [`gap_evidence`], [`LobeModel::leaf_against_dwell`] |
//! | Where in the band do I set? | [`dwell_aim`], [`gap_aim`] |
//! | Is the shaft worn? | [`dwell_variation`] |
//!
//! # Not here
//! Timing itself (`timing`), unequal lobes (`evenness`), the current in the coil (`electrics`).

mod assumption;
mod at_speed;
mod cam;
mod contacts;
mod dwell;
mod error;
mod lobe_estimate;
mod lobe_model;
mod pair;
mod scale;
mod set_to;
mod shown;
mod spark;

pub use assumption::BreakerAssumption;
pub use at_speed::{DwellVariation, USUAL_VARIATION, VariedBy, dwell_variation};
pub use cam::{BreakerCam, CamSpeed, Lobes};
pub use contacts::{Contacts, GapEvidence, LeafAgainstDwell, LeafFinding, gap_evidence};
pub use dwell::{Dwell, DwellChange};
pub use error::BreakerError;
pub use lobe_model::LobeModel;
pub use pair::{Agreement, GapAndDwell, GapSizes, SecondPair};
pub use scale::{MeterScale, PossibleScale, possible_scales};
pub use set_to::{DwellAim, WearIn, dwell_aim, gap_aim};
pub use shown::DwellShown;
pub use spark::{Flanks, SparkShift, spark_shift};
