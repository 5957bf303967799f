//! Which way to turn the distributor's body, and how far.

use super::TimingError;
use crate::engine::Sense;
use crate::ignition::point::Drive;
use crate::quantity::{Advance, CrankAngle, DistributorAngle, Length};
use serde::Serialize;

/// The body of a distributor or a magneto in its clamp.
///
/// ```
/// use lashwork::ignition::point::Drive;
/// use lashwork::ignition::timing::Body;
/// use lashwork::quantity::{Cycle, Length};
/// let drive = Drive::once_a_cycle(Cycle::FourStroke);
/// assert!(Body::new(drive, None, Some(Length::from_mm(60.0)?)).is_ok());
/// assert!(Body::new(drive, None, Some(Length::from_mm(1.0)?)).is_err());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Body {
    drive: Drive,
    rotor: Option<Sense>,
    circle: Option<Length>,
}

/// Which way the body turns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum BodyWay {
    /// Against the rotor: the cam meets the contacts sooner, the spark comes earlier.
    AgainstRotor,
    /// With the rotor: the spark comes later.
    WithRotor,
    /// Not at all.
    Stay,
}

/// How far to turn the body, and what must read afterwards.
///
/// ```
/// use lashwork::engine::Sense;
/// use lashwork::ignition::point::Drive;
/// use lashwork::ignition::timing::{Body, BodyWay};
/// use lashwork::quantity::{Advance, Cycle, Length};
/// let drive = Drive::once_a_cycle(Cycle::FourStroke);
/// let body = Body::new(drive, Some(Sense::Clockwise), Some(Length::from_mm(60.0)?))?;
/// let (found, aim) = (Advance::parse("4 deg BTDC")?, Advance::parse("10 deg BTDC")?);
/// let turn = body.turn(found, aim, Advance::parse("24 deg BTDC")?)?;
/// assert_eq!(turn.way, BodyWay::AgainstRotor);
/// assert_eq!(turn.seen_from_cap, Some(Sense::Anticlockwise));
/// assert_eq!(turn.body.degrees(), 3.0);
/// assert!((turn.along_circle.ok_or("a circle is stated")?.mm() - 1.571).abs() < 5e-4);
/// assert_eq!(turn.then_reads, Advance::parse("30 deg BTDC")?);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BodyTurn {
    /// How much earlier the spark must come; negative is later.
    pub earlier: CrankAngle,
    /// How far the body turns, whichever way.
    pub body: DistributorAngle,
    /// The same along the circle that was stated.
    pub along_circle: Option<Length>,
    /// Which way, beside the rotor.
    pub way: BodyWay,
    /// Which way it looks from above the cap, where the rotor's sense is stated so.
    pub seen_from_cap: Option<Sense>,
    /// What must read afterwards, under the same conditions and with the same lamp.
    pub then_reads: Advance,
}

impl Body {
    /// Takes the drive, the rotor's sense seen from above the cap, and the diameter of the circle on which
    /// the body's turn can be measured, such as its clamp.
    ///
    /// # Errors
    /// [`TimingError::ClampCircle`] outside 10 to 500 mm.
    pub fn new(
        drive: Drive,
        rotor: Option<Sense>,
        circle: Option<Length>,
    ) -> Result<Self, TimingError> {
        if let Some(circle) = circle
            && !(10.0..=500.0).contains(&circle.mm())
        {
            return Err(TimingError::ClampCircle { got: circle.mm() });
        }
        Ok(Self {
            drive,
            rotor,
            circle,
        })
    }

    /// From the point that was found to the one wanted; `read` is what the mark showed.
    ///
    /// # Errors
    /// [`TimingError::Quantity`] if a result is out of range.
    ///
    /// # Source
    /// Geometry: the cam turns with the rotor, the contacts with the body.
    pub fn turn(
        &self,
        found: Advance,
        aim: Advance,
        read: Advance,
    ) -> Result<BodyTurn, TimingError> {
        let earlier = aim - found;
        let degrees = earlier.degrees().abs() / self.drive.crank_turns();
        let body = DistributorAngle::from_degrees(degrees)?;
        let way = if earlier.degrees() > 0.0 {
            BodyWay::AgainstRotor
        } else if earlier.degrees() < 0.0 {
            BodyWay::WithRotor
        } else {
            BodyWay::Stay
        };
        let seen_from_cap = match (way, self.rotor) {
            (BodyWay::WithRotor, rotor) => rotor,
            (BodyWay::AgainstRotor, Some(Sense::Clockwise)) => Some(Sense::Anticlockwise),
            (BodyWay::AgainstRotor, Some(Sense::Anticlockwise)) => Some(Sense::Clockwise),
            _ => None,
        };
        let along = |circle: Length| Length::from_mm(circle.mm() / 2.0 * body.radians());
        Ok(BodyTurn {
            earlier,
            body,
            along_circle: self.circle.map(along).transpose()?,
            way,
            seen_from_cap,
            then_reads: Advance::from_degrees_before((read + earlier).degrees_before())?,
        })
    }
}
