//! What must be right before throttles are balanced.
//!
//! # Source
//! Valves adjusted and sealing checked first, idle speed and valve clearances set before: two workshop texts,
//! named in the tests. Ignition and float level before it: common practice, no source.

use alloc::vec::Vec;
use serde::Serialize;

/// Something that must be right before, because it moves the readings too.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Before {
    /// Valve clearances.
    Clearances,
    /// Compression within its limits.
    Compression,
    /// No air drawn in behind the throttles.
    Sealing,
    /// Ignition.
    Ignition,
    /// Fuel level of every carburettor.
    FloatLevel,
    /// Idle speed.
    IdleSpeed,
}

/// Why the balance does not rest on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Stands {
    /// It was not looked at.
    NotChecked,
    /// It is not right.
    NotRight,
}

/// What is known of each: right, not right, or nothing.
///
/// ```
/// use lashwork::mixture::balance::{Before, Beforehand, Stands};
/// let known = Beforehand { clearances: Some(true), compression: Some(false), ..Beforehand::default() };
/// let missing = known.unsettled();
/// assert_eq!(missing[0], (Before::Compression, Stands::NotRight));
/// assert_eq!(missing.len(), 5);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Beforehand {
    /// Valve clearances.
    pub clearances: Option<bool>,
    /// Compression within its limits.
    pub compression: Option<bool>,
    /// No air drawn in behind the throttles.
    pub sealing: Option<bool>,
    /// Ignition.
    pub ignition: Option<bool>,
    /// Fuel level of every carburettor.
    pub float_level: Option<bool>,
    /// Idle speed.
    pub idle_speed: Option<bool>,
}

impl Beforehand {
    /// What the balance does not yet rest on, in the order of work.
    #[must_use]
    pub fn unsettled(&self) -> Vec<(Before, Stands)> {
        let known = [
            (Before::Clearances, self.clearances),
            (Before::Compression, self.compression),
            (Before::Sealing, self.sealing),
            (Before::Ignition, self.ignition),
            (Before::FloatLevel, self.float_level),
            (Before::IdleSpeed, self.idle_speed),
        ];
        let missing = known.into_iter().filter_map(|(what, right)| match right {
            Some(true) => None,
            Some(false) => Some((what, Stands::NotRight)),
            None => Some((what, Stands::NotChecked)),
        });
        missing.collect()
    }
}
