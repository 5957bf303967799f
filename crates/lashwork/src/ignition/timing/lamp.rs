//! What a stroboscopic lamp adds: it flashes late, and a dial-back lamp counts flashes.

use super::TimingError;
use crate::ignition::point::Sparks;
use crate::quantity::{Advance, CrankAngle, CrankSpeed, Cycle};

/// How long after the spark a lamp flashes. It shifts every reading the same way, to the late side, and the
/// more the faster the engine turns.
///
/// ```
/// use lashwork::ignition::timing::LampDelay;
/// use lashwork::quantity::CrankSpeed;
/// let slow = LampDelay::from_microseconds(100.0)?;
/// assert!((slow.at(CrankSpeed::from_rpm(3000.0)?)?.degrees() - 1.8).abs() < 1e-12);
/// assert!(LampDelay::from_microseconds(-1.0).is_err());
/// # Ok::<(), lashwork::ignition::timing::TimingError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LampDelay {
    microseconds: f64,
}

impl LampDelay {
    /// A lamp that flashes with the spark; taken, and to be listed, where nothing is stated.
    pub const NONE: Self = Self { microseconds: 0.0 };
    /// Greatest delay that is taken for a lamp's, in microseconds.
    pub const MAX_MICROSECONDS: f64 = 1000.0;

    /// Takes a delay in microseconds.
    ///
    /// # Errors
    /// [`TimingError::LampDelay`] outside 0 to [`Self::MAX_MICROSECONDS`].
    pub fn from_microseconds(microseconds: f64) -> Result<Self, TimingError> {
        if (0.0..=Self::MAX_MICROSECONDS).contains(&microseconds) {
            Ok(Self { microseconds })
        } else {
            Err(TimingError::LampDelay { got: microseconds })
        }
    }

    /// How far the crank turns between spark and flash: by so much more the spark comes earlier than the
    /// mark shows.
    ///
    /// # Errors
    /// None for a speed within its range.
    ///
    /// # Source
    /// Geometry: 6 degrees a second for each turn a minute.
    pub fn at(self, speed: CrankSpeed) -> Result<CrankAngle, TimingError> {
        let delay = crate::quantity::si::minutes(self.microseconds / 60e6);
        let turns: f64 = (delay * crate::quantity::si::each_minute(speed.rpm())).into();
        Ok(CrankAngle::from_degrees(360.0 * turns)?)
    }
}

/// The true point behind what a dial-back lamp shows, where the lamp takes each flash for one of `made_for`
/// and the plug sparks as `sparks` says.
///
/// Such a lamp measures the time from flash to flash and delays the light by the dialled share of it. Made
/// for one flash in two turns and put on a wasted spark, it shows twice the advance, and twice the speed.
///
/// # Errors
/// [`TimingError::Quantity`] if the point lies over half a turn away.
///
/// # Source
/// Geometry.
///
/// ```
/// use lashwork::ignition::point::Sparks;
/// use lashwork::ignition::timing::dialled_back;
/// use lashwork::quantity::{Advance, Cycle};
/// let shown = Advance::parse("20 deg BTDC")?;
/// let (each, twice) = (Sparks::OnceACycle, Sparks::OnceATurn);
/// assert_eq!(dialled_back(shown, Cycle::FourStroke, each, twice)?, Advance::parse("10 deg BTDC")?);
/// assert_eq!(dialled_back(shown, Cycle::FourStroke, twice, each)?, Advance::parse("40 deg BTDC")?);
/// assert_eq!(dialled_back(shown, Cycle::TwoStroke, each, twice)?, shown);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn dialled_back(
    shown: Advance,
    cycle: Cycle,
    made_for: Sparks,
    sparks: Sparks,
) -> Result<Advance, TimingError> {
    let turns = |sparks: Sparks| match sparks {
        Sparks::OnceACycle => cycle.crank_turns(),
        Sparks::OnceATurn => 1.0,
    };
    let degrees = shown.degrees_before() * turns(sparks) / turns(made_for);
    Ok(Advance::from_degrees_before(degrees)?)
}
