//! What the question of the magnetos needs to know.

use crate::engine::Sense;
use crate::feeler::Reading;
use crate::ignition::breaker::Contacts;
use crate::ignition::magneto::{EGap, MagnetoSpeed, SpeedDrop, Which};
use crate::quantity::{Advance, ContactGap, CrankAngle, CrankSpeed, MagnetoAngle};
use crate::tolerance::{Limits, Uncertainty};
use alloc::vec::Vec;

/// The magnetos: what was read of each, and what the book asks for.
///
/// ```
/// use lashwork::job::ignition::{Magneto, OneMagneto};
/// let mut asked = Magneto::default();
/// asked.magnetos.push(OneMagneto::default());
/// assert!(asked.drop.is_none() && asked.limits.is_none());
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Magneto {
    /// Each of them; one, or a left and a right one.
    pub magnetos: Vec<OneMagneto>,
    /// The book's ignition point, both ends.
    pub limits: Option<Limits<Advance>>,
    /// How far apart the book lets two be, either way.
    pub most_apart: Option<CrankAngle>,
    /// The book's angle past neutral at which the contacts open.
    pub e_gap_limits: Option<Limits<EGap>>,
    /// The book's gap of the contacts.
    pub gap_limits: Option<Limits<ContactGap>>,
    /// The test of each magneto alone on the running engine.
    pub drop: Option<DropRead>,
}

/// One magneto, as read.
///
/// ```
/// use lashwork::ignition::magneto::MagnetoSpeed;
/// use lashwork::job::ignition::OneMagneto;
/// let mut read = OneMagneto::default();
/// read.speed = Some(MagnetoSpeed::HALF);
/// assert!(read.which.is_none() && read.sparks_at.is_none());
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct OneMagneto {
    /// Which of two.
    pub which: Option<Which>,
    /// How fast it turns; with `sparks_per_turn` both must agree, and one of them is needed for whatever
    /// is turned.
    pub speed: Option<MagnetoSpeed>,
    /// Sparks in one turn of its rotor, each cylinder served once a cycle.
    pub sparks_per_turn: Option<u8>,
    /// Which way its rotor turns, facing the end from which its body is turned.
    pub rotor: Option<Sense>,
    /// How far its rotor is past neutral where the contacts open.
    pub e_gap: Option<EGap>,
    /// Standard uncertainty of that; 1 magneto degree either way is assumed, and listed, if not stated.
    pub e_gap_uncertainty: Option<Uncertainty<EGap>>,
    /// What the faces of its contacts look like.
    pub look: Option<Contacts>,
    /// What leaves said of the gap, with the follower on top of a lobe.
    pub gap: Option<Reading>,
    /// Where it sparks, read at the crank.
    pub sparks_at: Option<Advance>,
    /// Standard uncertainty of that; 1 crank degree either way is assumed, and listed, if not stated.
    pub uncertainty: Option<Uncertainty<Advance>>,
    /// The lag of its impulse coupling, in its own degrees.
    pub lag: Option<MagnetoAngle>,
}

/// The speeds of a test of each magneto alone, at the crank.
///
/// ```
/// use lashwork::ignition::magneto::SpeedDrop;
/// use lashwork::job::ignition::DropRead;
/// use lashwork::quantity::CrankSpeed;
/// let rpm = CrankSpeed::from_rpm;
/// let allowed = SpeedDrop::from_rpm(50.0)?;
/// let read = DropRead::of(rpm(1800.0)?, rpm(1725.0)?, rpm(1700.0)?, allowed);
/// assert!(read.uncertainty.is_none() && read.most_drop.is_none());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct DropRead {
    /// On both.
    pub both: CrankSpeed,
    /// On the left one alone.
    pub left_alone: CrankSpeed,
    /// On the right one alone.
    pub right_alone: CrankSpeed,
    /// Standard uncertainty of each; 10 rpm is assumed, and listed, if not stated.
    pub uncertainty: Option<CrankSpeed>,
    /// The book's greatest drop on either, if it prints one.
    pub most_drop: Option<SpeedDrop>,
    /// The book's greatest difference between the two.
    pub most_difference: SpeedDrop,
}

impl DropRead {
    /// The three speeds and the book's greatest difference, the rest not stated.
    #[must_use]
    pub const fn of(
        both: CrankSpeed,
        left_alone: CrankSpeed,
        right_alone: CrankSpeed,
        most_difference: SpeedDrop,
    ) -> Self {
        Self {
            both,
            left_alone,
            right_alone,
            uncertainty: None,
            most_drop: None,
            most_difference,
        }
    }
}
