//! What was found of the idle.

use crate::job::work::{MeasuredReport, WorkAdvice};
use crate::mixture::idle::{CurvePoint, IdleReading, RiseRule, Side, TopSeen};
use crate::quantity::{CrankSpeed, ScrewAngle};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Idle speed and mixture, and what to turn next.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct IdleReport {
    /// What came out, in words.
    pub verdict_text: String,
    /// The speed against the book's; none if it was not read.
    pub speed: Option<MeasuredReport>,
    /// The crown of the curve, if the readings show it.
    pub crown: Option<IdleCrownReport>,
    /// The side to which the speed still rises, where no crown was seen.
    pub rises_toward: Option<Side>,
    /// Whether the readings are more lopsided than the curve.
    pub is_lopsided: bool,
    /// The curve for drawing, from the first place to the last; empty below four readings.
    pub points: Vec<IdlePointReport>,
    /// The readings of the mixture screw, for drawing.
    pub readings: Vec<IdleReadReport>,
    /// The reading now.
    pub now: Option<IdleReadReport>,
    /// Where the book wants the mixture screw, in turns out; none where no crown was seen, something else is to be
    /// settled first, or the gas has set it and the book does not state where.
    pub wanted_turns: Option<f64>,
    /// The least speed that the book wants, if it states one.
    pub wanted_from: Option<CrankSpeed>,
    /// The most.
    pub wanted_to: Option<CrankSpeed>,
    /// The rise of the speed on leaning by the published rules, if that was asked for.
    pub rise: Option<IdleRiseReport>,
    /// Whether speed and mixture stand, or the mixture is left to the gas; none if the speed now was not read.
    pub is_done: Option<bool>,
    /// Whether the mixture is set by the exhaust gas or left to it, so that the screw does not go where the speed
    /// wants it.
    pub is_by_gas: bool,
    /// How far to turn the mixture screw next, positive clockwise, which is in.
    pub turn: Option<ScrewAngle>,
    /// Standard uncertainty of that, in degrees.
    pub turn_u: Option<f64>,
    /// What to do.
    pub advice: WorkAdvice,
}

/// A speed at a place of the mixture screw.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct IdleReadReport {
    /// Place of the screw, in turns out.
    pub turns: f64,
    /// The speed there.
    pub rpm: f64,
}

impl IdleReadReport {
    pub(super) const fn of(reading: &IdleReading) -> Self {
        Self {
            turns: reading.place.turns(),
            rpm: reading.speed.rpm(),
        }
    }
}

/// The crown of the curve.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct IdleCrownReport {
    /// Where the speed is highest, in turns out.
    pub best_turns: f64,
    /// Standard uncertainty of that.
    pub best_turns_u: f64,
    /// From here, with 95 %.
    pub from_turns: f64,
    /// To here.
    pub to_turns: f64,
    /// The speed there.
    pub rpm: f64,
    /// Standard uncertainty of that.
    pub rpm_u: f64,
}

impl IdleCrownReport {
    pub(super) const fn of(top: &TopSeen) -> Self {
        Self {
            best_turns: top.best.value.turns(),
            best_turns_u: top.best.standard_uncertainty.number(),
            from_turns: top.from.turns(),
            to_turns: top.to.turns(),
            rpm: top.speed.value.rpm(),
            rpm_u: top.speed.standard_uncertainty.number(),
        }
    }
}

/// A point of the curve, with its band.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct IdlePointReport {
    /// Place of the screw, in turns out.
    pub turns: f64,
    /// Speed on the curve.
    pub rpm: f64,
    /// From this speed, with 95 %.
    pub low_rpm: f64,
    /// To this one.
    pub high_rpm: f64,
}

impl IdlePointReport {
    pub(super) const fn of(point: &CurvePoint) -> Self {
        Self {
            turns: point.place.turns(),
            rpm: point.speed.rpm(),
            low_rpm: point.low.rpm(),
            high_rpm: point.high.rpm(),
        }
    }
}

/// How far the speed rises on leaning, by published rules that do not agree, side by side.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct IdleRiseReport {
    /// The rise; none if the readings do not show it.
    pub rise: Option<CrankSpeed>,
    /// Standard uncertainty of that, in rpm.
    pub rise_u: Option<f64>,
    /// Each rule by itself; none is chosen.
    pub by_rules: Vec<RiseRuleReport>,
    /// What they come to, in words.
    pub text: String,
}

/// The rise by one rule.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct RiseRuleReport {
    /// The rule.
    pub rule: RiseRule,
    /// The least it asks for; none where it says nothing.
    pub least: Option<CrankSpeed>,
    /// The most.
    pub most: Option<CrankSpeed>,
    /// The rise against it; none where it says nothing or the rise is not known.
    pub judged: Option<MeasuredReport>,
    /// In words.
    pub text: String,
}
