//! How fast a magneto turns against the crank.

use super::MagnetoError;
use crate::quantity::{CrankAngle, Cycle, MagnetoAngle};
use serde::Serialize;

/// Least magneto turns for one turn of the crank: half of the slowest drive in use.
const LEAST: f64 = 0.25;
/// Most: twice the fastest in use, a two-spark magneto of a nine-cylinder engine.
const MOST: f64 = 4.5;

/// Magneto turns for one turn of the crank.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::magneto::MagnetoSpeed;
/// use lashwork::quantity::{Cycle, MagnetoAngle};
/// let lag = MagnetoAngle::from_degrees(14.0)?;
/// assert_eq!(MagnetoSpeed::HALF.at_crank(lag).degrees(), 28.0);
/// assert_eq!(MagnetoSpeed::FULL.at_crank(lag).degrees(), 14.0);
/// // Six cylinders, two sparks for each turn of the magneto.
/// assert_eq!(MagnetoSpeed::for_sparks(6, Cycle::FourStroke, 2)?.turns_per_crank_turn(), 1.5);
/// assert!(MagnetoSpeed::HALF.agreeing(MagnetoSpeed::FULL).is_err());
/// assert_eq!(MagnetoSpeed::new(9.0).unwrap_err().code(), "ignition.magneto-speed");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize)]
#[serde(transparent)]
pub struct MagnetoSpeed(f64);

impl MagnetoSpeed {
    /// Once in two turns of the crank.
    pub const HALF: Self = Self(0.5);
    /// As fast as the crank.
    pub const FULL: Self = Self(1.0);

    /// Takes magneto turns for one turn of the crank.
    ///
    /// # Errors
    /// [`MagnetoError::Speed`] outside 0.25 to 4.5.
    pub fn new(turns_per_crank_turn: f64) -> Result<Self, MagnetoError> {
        if (LEAST..=MOST).contains(&turns_per_crank_turn) {
            Ok(Self(turns_per_crank_turn))
        } else {
            Err(MagnetoError::Speed {
                got: turns_per_crank_turn,
                least: LEAST,
                most: MOST,
            })
        }
    }

    /// The speed at which a magneto that gives so many sparks in one turn of its own serves so many
    /// cylinders.
    ///
    /// # Errors
    /// [`MagnetoError::Speed`] if that is outside 0.25 to 4.5, as without cylinders or sparks.
    ///
    /// # Source
    /// Counting: each cylinder takes one spark a cycle.
    pub fn for_sparks(
        cylinders: usize,
        cycle: Cycle,
        sparks_per_turn: usize,
    ) -> Result<Self, MagnetoError> {
        Self::new(cylinders as f64 / cycle.crank_turns() / sparks_per_turn as f64)
    }

    /// The speed, where what is stated and what follows from the sparks agree.
    ///
    /// # Errors
    /// [`MagnetoError::SpeedsDiffer`] if they do not.
    pub fn agreeing(self, by_sparks: Self) -> Result<Self, MagnetoError> {
        // Only rounding is between them: no two drives lie so near.
        if (self.0 - by_sparks.0).abs() < 1e-6 {
            Ok(self)
        } else {
            Err(MagnetoError::SpeedsDiffer {
                stated: self.0,
                by_sparks: by_sparks.0,
            })
        }
    }

    /// Magneto turns for one turn of the crank.
    #[must_use]
    pub const fn turns_per_crank_turn(self) -> f64 {
        self.0
    }

    /// The turn of the crank that goes with a turn of the magneto.
    #[must_use]
    pub const fn at_crank(self, angle: MagnetoAngle) -> CrankAngle {
        CrankAngle::computed(angle.degrees() / self.0)
    }

    /// The turn of the magneto that goes with a turn of the crank.
    #[must_use]
    pub const fn at_magneto(self, angle: CrankAngle) -> MagnetoAngle {
        MagnetoAngle::computed(angle.degrees() * self.0)
    }
}
