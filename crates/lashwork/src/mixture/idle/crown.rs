//! The top of the curve, if the readings show it.

use super::Side;
use crate::quantity::{CrankSpeed, TurnsOut};
use crate::tolerance::{Measurand, Uncertainty};
use serde::Serialize;

/// A value with its standard uncertainty.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Fitted<Q: Measurand> {
    /// The value.
    pub value: Q,
    /// Its standard uncertainty; for few readings of unknown scatter the distribution has wider tails than the
    /// normal one.
    pub standard_uncertainty: Uncertainty<Q>,
}

/// A top that lies within the readings.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TopSeen {
    /// Where the speed is highest.
    pub best: Fitted<TurnsOut>,
    /// From here, with 95 %.
    pub from: TurnsOut,
    /// To here.
    pub to: TurnsOut,
    /// The speed there.
    pub speed: Fitted<CrankSpeed>,
}

/// Readings that show no top.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct NoCrown {
    /// The side on which the speed still rises; none if the readings do not show that either.
    pub rises_toward: Option<Side>,
}

/// Whether the crown of the curve was seen.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "crown")]
pub enum Crown {
    /// It was.
    Seen(TopSeen),
    /// It was not: flat within the scatter, still rising at an end, or hollow.
    NotSeen(NoCrown),
}
