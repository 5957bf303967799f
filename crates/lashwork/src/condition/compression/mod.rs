//! Cranking compression: what this engine should show, which cylinder is low, and what oil says of why.
//!
//! # Conventions
//! - Readings are gauge pressures at the end of the strokes, throttle open, all plugs out.
//! - The pressure of the air is that of the place, not one set to sea level. What a gauge shows goes with the
//!   *pressure* of the air, not with its density: at 5000 ft with 0.832, not with 0.862 ([`AltitudeFactor`]).
//! - Dry is without oil, wet with oil on the piston.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | What would the gauge show in other air? | [`in_other_air`] |
//! | Does a printed factor for altitude follow pressure or density? | [`AltitudeFactor`] |
//! | What should this engine show? | [`Cranking`] |
//! | Which cylinders are the standard, and what exponent follows? | [`Standard`] |
//! | Is it within a printed rule, and how certain is that? | [`CompressionRule`] |
//! | Which cylinders share a head gasket? | [`HeadRows`] |
//! | Which cylinder is low, and is it rings, valves or the gasket? | [`CompressionTest`] |
//!
//! # Method
//! `p = p_air r^n` with `r` from where the intake closes at the running lash; cylinders whose own closing is known
//! are compared as if all closed alike. The standard is the largest
//! group of cylinders within a tenth of its highest; the exponent that it implies is the engine's own. Printed
//! rules are judged side by side over the gauge's scatter by one integral each. Causes are weighed by Bayes'
//! rule along each row of the head: a gasket between neighbours lowers both.
//!
//! # Sources
//! Rules and what dry and wet readings point to are published; the texts are named in the tests. How often
//! each cause is met and the bands of what it shows are this library's choice ([`CompressionAssumption`]).
//!
//! # Not here
//! How large a leak is (`leak`), where the intake closes (`events`).

mod altitude;
mod answer;
mod assumption;
mod by_lash;
mod cause;
mod caution;
mod error;
mod expected;
mod oil;
mod reading;
mod rows;
mod rule;
mod standard;
mod test;
mod weigh;

pub use altitude::{AltitudeFactor, FactorFollows, in_other_air};
pub use answer::{CompressionAnswer, CompressionLook, CylinderAnswer};
pub use assumption::CompressionAssumption;
pub use cause::{BuildUp, CompressionCause, GasketBetween, WeighedCause};
pub use caution::{CrankingFault, CrankingState};
pub use error::CompressionError;
pub use expected::{Cranking, Exponent, Level};
pub use oil::OilAdded;
pub use reading::CylinderReading;
pub use rows::HeadRows;
pub use rule::{CompressionRule, RuleVerdict};
pub use standard::{ExponentDoubt, Standard};
pub use test::CompressionTest;
pub(crate) use test::{USUAL_GAUGE, USUAL_REPEAT};
