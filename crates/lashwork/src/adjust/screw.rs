//! Adjusting screws.
//!
//! # Source
//! Angle = 360 degrees x travel / pitch: the definition of the lead of a single-start thread.

use super::AdjustError;
use super::error::check_ratio;
use crate::quantity::{LashChange, Length, ScrewAngle, ScrewTravel};
use alloc::string::String;
use serde::Serialize;

/// The thread of an adjusting screw: single start, right hand.
///
/// ```
/// use lashwork::adjust::Thread;
/// use lashwork::quantity::{Length, ScrewAngle};
/// let metric = Thread::metric(Length::parse("0.75 mm")?)?;
/// assert_eq!(metric.travel(ScrewAngle::from_degrees(180.0)?)?.mm(), 0.375);
/// assert!((Thread::per_inch(26)?.pitch().thou() - 38.46).abs() < 0.005);
/// assert!(Thread::metric(Length::parse("6 mm")?).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Thread {
    pitch: Length,
}

impl Thread {
    /// Least pitch in millimetres.
    pub const MIN_PITCH_MM: f64 = 0.1;
    /// Greatest pitch in millimetres.
    pub const MAX_PITCH_MM: f64 = 5.0;

    /// A thread by its pitch, as in M6 x 0.75.
    ///
    /// # Errors
    /// [`AdjustError::Pitch`] outside 0.1 to 5 mm.
    pub fn metric(pitch: Length) -> Result<Self, AdjustError> {
        Self::checked(pitch.mm())
    }

    /// A thread by its number of threads in 25.4 mm.
    ///
    /// # Errors
    /// [`AdjustError::Pitch`] outside 0.1 to 5 mm pitch (5.08 to 254 per inch) or not a number.
    pub fn per_inch(threads: impl Into<f64>) -> Result<Self, AdjustError> {
        Self::checked(25.4 / threads.into())
    }

    fn checked(mm: f64) -> Result<Self, AdjustError> {
        if !(Self::MIN_PITCH_MM..=Self::MAX_PITCH_MM).contains(&mm) {
            return Err(AdjustError::Pitch {
                mm,
                min: Self::MIN_PITCH_MM,
                max: Self::MAX_PITCH_MM,
            });
        }
        let pitch = Length::from_mm(mm)?;
        Ok(Self { pitch })
    }

    /// Travel of one turn.
    #[must_use]
    pub const fn pitch(self) -> Length {
        self.pitch
    }

    /// Travel of a turn by `angle`, with the sign of the angle.
    ///
    /// # Errors
    /// [`AdjustError::Quantity`] over 40 mm.
    ///
    /// ```
    /// use lashwork::adjust::Thread;
    /// use lashwork::quantity::ScrewAngle;
    /// let quarter = ScrewAngle::from_degrees(-90.0)?;
    /// let travel = Thread::per_inch(20)?.travel(quarter)?;
    /// assert!((travel.mm() + 0.3175).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn travel(self, angle: ScrewAngle) -> Result<ScrewTravel, AdjustError> {
        Ok(ScrewTravel::from_mm(
            angle.degrees() * self.pitch.mm() / 360.0,
        )?)
    }
}

/// On which side of the rocker the screw sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ScrewSeat {
    /// At the valve, or with no rocker between: the screw travels as far as the gap changes.
    ValveSide,
    /// At the cam or push rod: the gap changes by the travel times the rocker ratio.
    CamSide,
}

/// Which way to turn, seen from the screwdriver's end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum TurnDirection {
    /// Clockwise.
    In,
    /// Anticlockwise.
    Out,
    /// Leave it.
    None,
}

/// How to turn the screw.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ScrewTurn {
    /// Turn in degrees, positive clockwise.
    pub angle: ScrewAngle,
    /// Travel along the screw in millimetres, positive into the gap (closing it).
    pub travel: ScrewTravel,
    /// The way to turn.
    pub direction: TurnDirection,
}

/// Least and greatest rocker ratio that is accepted.
const ROCKER_RATIO: (f64, f64) = (0.3, 4.0);

/// The turn that changes the gap by `change` (wanted minus now).
///
/// At the valve side the travel is the change of gap, at the cam side the change divided by
/// `rocker_ratio` (valve movement over cam-side movement); the angle is 360 degrees x travel / pitch.
/// `inward_closes` is true where turning the screw in closes the gap, as on most rockers; false
/// for a tappet screw that lengthens when turned out. The rocker's small swing is taken as straight.
/// Tightening the lock nut shifts the screw; that is not in it.
///
/// # Errors
/// [`AdjustError::Ratio`] for a rocker ratio outside 0.3 to 4; [`AdjustError::Quantity`] for a
/// travel over 40 mm.
///
/// ```
/// use lashwork::adjust::{ScrewSeat, Thread, TurnDirection, screw_turn};
/// use lashwork::quantity::{Lash, Length};
/// let m6 = Thread::metric(Length::parse("1 mm")?)?;
/// let open = Lash::parse("0.008 in")? - Lash::parse("0 in")?;
/// let turn = screw_turn(open, m6, ScrewSeat::ValveSide, 1.0, true)?;
/// assert_eq!(turn.direction, TurnDirection::Out);
/// assert_eq!(turn.words(), "out 73 deg (about 1/5 turn)");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn screw_turn(
    change: LashChange,
    thread: Thread,
    seat: ScrewSeat,
    rocker_ratio: f64,
    inward_closes: bool,
) -> Result<ScrewTurn, AdjustError> {
    let (min, max) = ROCKER_RATIO;
    let ratio = check_ratio("rocker ratio", rocker_ratio, min, max)?;
    let closing = match seat {
        ScrewSeat::ValveSide => -change.mm(),
        ScrewSeat::CamSide => -change.mm() / ratio,
    };
    let inward = if inward_closes { closing } else { -closing };
    Ok(ScrewTurn {
        angle: ScrewAngle::from_degrees(360.0 * inward / thread.pitch.mm())?,
        travel: ScrewTravel::from_mm(closing)?,
        direction: if inward > 0.0 {
            TurnDirection::In
        } else if inward < 0.0 {
            TurnDirection::Out
        } else {
            TurnDirection::None
        },
    })
}

/// Parts of a turn a hand can judge: numerator, denominator.
const PARTS: [(u32, u32); 17] = [
    (1, 12),
    (1, 8),
    (1, 6),
    (1, 5),
    (1, 4),
    (1, 3),
    (3, 8),
    (2, 5),
    (1, 2),
    (3, 5),
    (5, 8),
    (2, 3),
    (3, 4),
    (4, 5),
    (5, 6),
    (7, 8),
    (1, 1),
];

impl ScrewTurn {
    /// The turn as said to a mechanic: direction, whole degrees, and the nearest simple part of a
    /// turn; the number to go by is the degrees.
    ///
    /// ```
    /// use lashwork::adjust::{ScrewSeat, Thread, screw_turn};
    /// use lashwork::quantity::{LashChange, Length};
    /// let thread = Thread::metric(Length::parse("1 mm")?)?;
    /// let words = |mm| -> Result<String, Box<dyn std::error::Error>> {
    ///     let change = LashChange::from_mm(mm)?;
    ///     Ok(screw_turn(change, thread, ScrewSeat::ValveSide, 1.0, true)?.words())
    /// };
    /// assert_eq!(words(0.0)?, "leave the screw as it is");
    /// assert_eq!(words(-0.25)?, "in 90 deg (1/4 turn)");
    /// assert_eq!(words(1.25)?, "out 450 deg (1 1/4 turns)");
    /// assert_eq!(words(0.001)?, "out less than 1 deg");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn words(&self) -> String {
        let way = match self.direction {
            TurnDirection::In => "in",
            TurnDirection::Out => "out",
            TurnDirection::None => return String::from("leave the screw as it is"),
        };
        let degrees = libm::fabs(self.angle.degrees());
        if degrees < 0.5 {
            return alloc::format!("{way} less than 1 deg");
        }
        let shown = libm::rint(degrees);
        match in_turns(degrees) {
            Some(turns) => alloc::format!("{way} {shown} deg ({turns})"),
            None => alloc::format!("{way} {shown} deg"),
        }
    }
}

/// Whole turns and the nearest simple part, "about" unless it is the same to a tenth of a degree;
/// none below a twenty-fourth of a turn.
fn in_turns(degrees: f64) -> Option<String> {
    /// Half of the smallest part: below it no part is near.
    const LEAST_DEGREES: f64 = 15.0;
    if degrees < LEAST_DEGREES {
        return None;
    }
    let mut whole = libm::floor(degrees / 360.0);
    let rest = degrees - 360.0 * whole;
    let size = |(n, d): (u32, u32)| 360.0 * f64::from(n) / f64::from(d);
    let (mut part, mut off) = (None, rest);
    for candidate in PARTS {
        let distance = libm::fabs(rest - size(candidate));
        if distance < off {
            (part, off) = (Some(candidate), distance);
        }
    }
    if part == Some((1, 1)) {
        (part, whole) = (None, whole + 1.0);
    }
    let about = if off < 0.1 { "" } else { "about " };
    Some(match part {
        Some((n, d)) if whole < 1.0 => alloc::format!("{about}{n}/{d} turn"),
        Some((n, d)) => alloc::format!("{about}{whole} {n}/{d} turns"),
        None if whole < 2.0 => alloc::format!("{about}1 turn"),
        None => alloc::format!("{about}{whole} turns"),
    })
}
