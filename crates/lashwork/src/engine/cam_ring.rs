//! The cam ring of a radial engine: one ring that opens the valves of a whole row.
//!
//! # Method
//! The ring's lobes pass each tappet once in two turns of the crank, and the next lobe must stand at
//! the next cylinder when that one's turn comes. With n cylinders in a row and every second one
//! firing, that leaves (n - 1)/2 lobes at 1/(n - 1) of the crank's speed against it, or (n + 1)/2
//! lobes at 1/(n + 1) with it. Beside those numbers the ring is turned from firing to firing, which
//! finds a firing order it does not go with.
//!
//! # Source
//! Geometry. The numbers are published for several engines; the tests name them.

use super::link_rods::same_pin;
use super::{Cylinder, CylinderLabel};
use crate::Refusal;
use crate::quantity::{AxisAngle, Cycle, CyclePosition, Quoted};
use alloc::borrow::Cow;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use core::str::FromStr;
use serde::Serialize;

/// A lobe this near to a tappet's direction stands at it, in degrees of the ring: bank angles written
/// with one decimal. This library's choice.
const AT_TAPPET: f64 = 0.5;

/// Which way a cam ring turns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum RingSense {
    /// With the crank.
    Same,
    /// Against it.
    Opposite,
}

/// A cam ring: lobes for one kind of valve, speed and sense.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::engine::{CamRing, RingSense};
/// let ring = CamRing::new(4, 8.0, RingSense::Opposite)?;
/// assert_eq!(ring.to_string(), "4 lobes at 1/8 of the crank's speed, opposite to the crank");
/// assert_eq!(ring.to_string().parse(), Ok(ring));
/// assert_eq!(CamRing::serving(9, RingSense::Opposite), Some(ring));
/// assert_eq!(CamRing::serving(8, RingSense::Opposite), None);
/// assert_eq!(CamRing::new(0, 8.0, RingSense::Same).unwrap_err().code(), "engine.cam-ring-lobes");
/// # Ok::<(), lashwork::engine::CamRingError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CamRing {
    lobes: u8,
    crank_turns_per_ring_turn: f64,
    sense: RingSense,
}

/// Why a cam ring cannot be, or does not go with an engine.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CamRingError {
    /// No lobes, or more than any ring.
    #[error("{got} lobes are outside 1 to {max}")]
    Lobes {
        /// The refused count.
        got: u8,
        /// Greatest accepted.
        max: u8,
    },
    /// A speed no ring has.
    #[error("{got} crank turns for one turn of the ring are outside 1 to {max}")]
    Speed {
        /// The refused number of crank turns.
        got: f64,
        /// Greatest accepted.
        max: f64,
    },
    /// The text describes no ring.
    #[error("{} does not describe a cam ring", Quoted(.text))]
    Text {
        /// The text.
        text: String,
    },
    /// Two-stroke engines have none.
    #[error("a cam ring belongs to a four-stroke engine")]
    NotFourStroke,
    /// It is not known which way a cylinder or its crankpin points.
    #[error(
        "cylinder {cylinder} has no bank and crankpin angle, so its place on the ring is unknown"
    )]
    NoGeometry {
        /// The cylinder.
        cylinder: CylinderLabel,
    },
    /// Every second cylinder fires only where their number is odd.
    #[error("the row of cylinder {first} has {count} cylinders; a cam ring serves an odd number")]
    EvenRow {
        /// The first cylinder of the row.
        first: CylinderLabel,
        /// How many it has.
        count: usize,
    },
    /// The numbers do not go with the row.
    #[error("a ring of {ring} does not serve a row of {count}")]
    Numbers {
        /// The ring as stated.
        ring: CamRing,
        /// Cylinders in the row.
        count: usize,
    },
    /// The lobes are elsewhere when a cylinder's turn comes.
    #[error(
        "when cylinder {cylinder} fires, the ring's nearest lobe stands {:.1} deg from where it \
         stood at cylinder {first}",
        .off.degrees()
    )]
    Order {
        /// The first cylinder of the row.
        first: CylinderLabel,
        /// The cylinder.
        cylinder: CylinderLabel,
        /// From the place where a lobe should stand to the nearest one.
        off: AxisAngle,
    },
}

impl Refusal for CamRingError {
    fn code(&self) -> &'static str {
        match self {
            Self::Lobes { .. } => "engine.cam-ring-lobes",
            Self::Speed { .. } => "engine.cam-ring-speed",
            Self::Text { .. } => "engine.cam-ring-text",
            Self::NotFourStroke => "engine.cam-ring-two-stroke",
            Self::NoGeometry { .. } => "engine.cam-ring-no-geometry",
            Self::EvenRow { .. } => "engine.cam-ring-even-row",
            Self::Numbers { .. } => "engine.cam-ring-numbers",
            Self::Order { .. } => "engine.cam-ring-order",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::Lobes { .. } => Cow::Borrowed("count the lobes for one kind of valve"),
            Self::Speed { .. } => {
                Cow::Borrowed("give the crank turns in which the ring turns once, such as 8")
            }
            Self::Text { .. } => Cow::Borrowed(
                "write it as in \"4 lobes at 1/8 of the crank's speed, opposite to the crank\"",
            ),
            Self::NotFourStroke => Cow::Borrowed("leave the ring out, or correct the cycle"),
            Self::NoGeometry { cylinder } => Cow::Owned(alloc::format!(
                "give bank and crankpin of cylinder {cylinder}"
            )),
            Self::EvenRow { .. } => Cow::Borrowed(
                "check the crankpins: cylinders whose crankpins point the same way make one row",
            ),
            Self::Numbers { count, .. } => {
                let rings = [RingSense::Opposite, RingSense::Same];
                let asked: Vec<String> = rings
                    .iter()
                    .filter_map(|sense| CamRing::serving(*count, *sense))
                    .map(|ring| alloc::format!("{ring}"))
                    .collect();
                Cow::Owned(alloc::format!("expected {}", asked.join("; or ")))
            }
            Self::Order { .. } => {
                Cow::Borrowed("check firing order and bank angles: every second cylinder fires")
            }
        }
    }
}

impl CamRing {
    /// Most lobes accepted: far above any engine's.
    pub const MAX_LOBES: u8 = 20;
    /// Most crank turns for one turn of the ring.
    pub const MAX_CRANK_TURNS: f64 = 100.0;

    /// Takes the lobes for one kind of valve, the crank turns in which the ring turns once, and its
    /// sense.
    ///
    /// # Errors
    /// [`CamRingError::Lobes`] outside 1 to [`Self::MAX_LOBES`], [`CamRingError::Speed`] outside 1
    /// to [`Self::MAX_CRANK_TURNS`].
    pub fn new(
        lobes: u8,
        crank_turns_per_ring_turn: f64,
        sense: RingSense,
    ) -> Result<Self, CamRingError> {
        let (got, max) = (lobes, Self::MAX_LOBES);
        if got == 0 || got > max {
            return Err(CamRingError::Lobes { got, max });
        }
        let (got, max) = (crank_turns_per_ring_turn, Self::MAX_CRANK_TURNS);
        if !(1.0..=max).contains(&got) {
            return Err(CamRingError::Speed { got, max });
        }
        Ok(Self {
            lobes,
            crank_turns_per_ring_turn,
            sense,
        })
    }

    /// The ring that serves a row of so many cylinders; none for an even number or a row longer
    /// than [`Self::MAX_LOBES`] can serve.
    #[must_use]
    pub fn serving(cylinders: usize, sense: RingSense) -> Option<Self> {
        if cylinders.is_multiple_of(2) {
            return None;
        }
        let lobes = match sense {
            RingSense::Opposite => (cylinders - 1) / 2,
            RingSense::Same => cylinders.div_ceil(2),
        };
        let lobes = u8::try_from(lobes).ok()?;
        Self::new(lobes, 2.0 * f64::from(lobes), sense).ok()
    }

    /// Lobes for one kind of valve.
    #[must_use]
    pub const fn lobes(&self) -> u8 {
        self.lobes
    }

    /// Crank turns in which the ring turns once.
    #[must_use]
    pub const fn crank_turns_per_ring_turn(&self) -> f64 {
        self.crank_turns_per_ring_turn
    }

    /// Which way it turns.
    #[must_use]
    pub const fn sense(&self) -> RingSense {
        self.sense
    }

    /// Checks the ring against every row: cylinders as listed with when they fire.
    pub(super) fn check(
        &self,
        cycle: Cycle,
        cylinders: &[Cylinder],
        firing: &[CyclePosition],
    ) -> Result<(), CamRingError> {
        if cycle != Cycle::FourStroke {
            return Err(CamRingError::NotFourStroke);
        }
        for cylinder in cylinders {
            if cylinder.tdc_turn().is_none() {
                let cylinder = cylinder.label.clone();
                return Err(CamRingError::NoGeometry { cylinder });
            }
        }
        for first in cylinders {
            let row = same_pin(cylinders, first);
            if row.first() == Some(&first.label) {
                self.check_row(&row, cylinders, firing)?;
            }
        }
        Ok(())
    }

    fn check_row(
        &self,
        row: &[CylinderLabel],
        cylinders: &[Cylinder],
        firing: &[CyclePosition],
    ) -> Result<(), CamRingError> {
        let count = row.len();
        let places = || {
            let all = cylinders.iter().zip(firing);
            all.filter(|(c, _)| row.contains(&c.label))
        };
        let Some((first, start)) = places().next() else {
            return Ok(());
        };
        if count.is_multiple_of(2) {
            let first = first.label.clone();
            return Err(CamRingError::EvenRow { first, count });
        }
        let asked = Self::serving(count, self.sense);
        let turns = |ring: Self| ring.crank_turns_per_ring_turn - self.crank_turns_per_ring_turn;
        if !asked.is_some_and(|r| r.lobes == self.lobes && turns(r).abs() < 1e-9) {
            return Err(CamRingError::Numbers { ring: *self, count });
        }
        let way = match self.sense {
            RingSense::Same => 1.0,
            RingSense::Opposite => -1.0,
        };
        let pitch = 360.0 / f64::from(self.lobes);
        for (cylinder, fires) in places() {
            let from_first = match (cylinder.bank, first.bank) {
                (Some(here), Some(there)) => (here - there).within_turn(),
                _ => 0.0,
            };
            let turned = start.forward_to(*fires).degrees() / self.crank_turns_per_ring_turn;
            let over = from_first - way * turned;
            // To the nearest lobe, either way.
            let off = over - pitch * libm::round(over / pitch);
            if off.abs() > AT_TAPPET {
                return Err(CamRingError::Order {
                    first: first.label.clone(),
                    cylinder: cylinder.label.clone(),
                    off: AxisAngle::computed(-off),
                });
            }
        }
        Ok(())
    }
}

impl FromStr for CamRing {
    type Err = CamRingError;
    fn from_str(text: &str) -> Result<Self, CamRingError> {
        let read = || {
            let (lobes, rest) = text.split_once(" lobe")?;
            let rest = rest.strip_prefix('s').unwrap_or(rest);
            let rest = rest.strip_prefix(" at 1/")?;
            let (turns, sense) = rest.split_once(" of the crank's speed, ")?;
            let sense = match sense {
                WITH_THE_CRANK => RingSense::Same,
                AGAINST_THE_CRANK => RingSense::Opposite,
                _ => return None,
            };
            Some((lobes.parse().ok()?, turns.parse().ok()?, sense))
        };
        let (lobes, turns, sense) = read().ok_or_else(|| CamRingError::Text {
            text: String::from(text),
        })?;
        Self::new(lobes, turns, sense)
    }
}

const WITH_THE_CRANK: &str = "with the crank";
const AGAINST_THE_CRANK: &str = "opposite to the crank";

impl fmt::Display for CamRing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let lobes = if self.lobes == 1 { "lobe" } else { "lobes" };
        let sense = match self.sense {
            RingSense::Same => WITH_THE_CRANK,
            RingSense::Opposite => AGAINST_THE_CRANK,
        };
        write!(
            f,
            "{} {lobes} at 1/{} of the crank's speed, {sense}",
            self.lobes, self.crank_turns_per_ring_turn
        )
    }
}
