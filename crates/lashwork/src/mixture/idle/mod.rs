//! Where the mixture screw is best, from the speed of the engine.
//!
//! # Conventions
//! - A place of the screw counts in turns out from where it seats ([`TurnsOut`](crate::quantity::TurnsOut)); a
//!   turn to be made is positive clockwise, that is in.
//! - Out is richer for a screw in the fuel and leaner for one in the air ([`MixtureScrew`]).
//! - Where published rules disagree they stand side by side, each by its name.
//!
//! # Questions
//! | question | answer |
//! |---|---|
//! | Where is the speed highest, and was the crown seen at all? | [`IdleCurve`], [`Crown`] |
//! | Where does it fall by what the book says? | [`IdleCurve::beside`] |
//! | How much does it rise from here, and what do the books say of that? | [`IdleCurve::rise_at`], [`RiseRule`] |
//! | What to turn next? | [`IdleRound`] |
//!
//! # Method
//! - Speed against place is fitted by a parabola, least squares over orthogonal polynomials: near its top any
//!   smooth curve is one. Whether the readings go further than that is asked of the next polynomial
//!   ([`Lopsided`]).
//! - The interval of the best place is Fieller's: it stays right where the top is ill defined, and says so by
//!   having no end. The crown counts as seen only where that interval lies within the readings.
//! - Standard uncertainties by JCGM 100:2008, 5.2.2, with the covariances of the fit.
//!
//! # Sources
//! Forsythe (1957) for the polynomials, Fieller (1954) for the interval; published rules are named in the
//! tests. That a parabola serves is taken for granted and tested by simulation.
//!
//! # Not here
//! What the exhaust gas says of the mixture (`gas`).

mod assumption;
mod crown;
mod curve;
mod error;
mod parabola;
mod rise;
mod round;

pub use assumption::IdleAssumption;
pub use crown::{Crown, Fitted, NoCrown, TopSeen};
pub use curve::{CurvePoint, IdleCurve, IdleReading, Lopsided, MixtureScrew, Side};
pub use error::IdleError;
pub use rise::{RiseJudged, RiseRule, rise_by_the_rules};
pub use round::{IdleRound, IdleStep, SpeedWay};
