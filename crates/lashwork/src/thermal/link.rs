//! One part of the chain and the temperature it has.

use super::Material;
use crate::quantity::Length;
use alloc::string::{String, ToString};
use serde::Serialize;

/// On which side of the rocker a part stands; without a rocker everything is on the valve's side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// Between camshaft and rocker: reaches the valve times the rocker ratio.
    Cam,
    /// Between rocker and valve seat.
    Valve,
}

/// What growing longer does to the gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Effect {
    /// The gap opens, as when a cylinder head grows.
    Opens,
    /// The gap closes, as when a valve stem or a pushrod grows.
    Closes,
}

/// Which temperature a part has.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Follows {
    /// That of the given name.
    Named(String),
    /// Between two: cold + fraction of (hot - cold).
    Between {
        /// Name of the cold temperature.
        cold: String,
        /// Name of the hot temperature.
        hot: String,
        /// 0 is as the cold one, 1 as the hot one.
        fraction: f64,
        /// Standard uncertainty of the fraction.
        fraction_u: f64,
    },
}

impl Follows {
    /// The temperatures it names.
    ///
    /// ```
    /// use lashwork::thermal::Follows;
    /// assert!(Follows::from("head").names().eq(["head"]));
    /// ```
    pub fn names(&self) -> impl Iterator<Item = &str> {
        let (one, other) = match self {
            Self::Named(name) => (name, None),
            Self::Between { cold, hot, .. } => (cold, Some(hot)),
        };
        core::iter::once(one).chain(other).map(String::as_str)
    }
}

impl From<&str> for Follows {
    fn from(name: &str) -> Self {
        Self::Named(name.to_string())
    }
}

impl From<String> for Follows {
    fn from(name: String) -> Self {
        Self::Named(name)
    }
}

/// One part of the chain.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Link {
    /// Name of the part.
    pub part: String,
    /// What it is made of.
    pub material: Material,
    /// Its length at 20 C along the chain.
    pub length: Length,
    /// Standard uncertainty of the length.
    pub length_uncertainty: Length,
    /// Where it stands.
    pub side: Side,
    /// What its growth does.
    pub effect: Effect,
    /// Which temperature it has.
    pub follows: Follows,
}
