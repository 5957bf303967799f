//! Adjusting screws.
//!
//! # Source
//! Angle = 360 degrees x travel / pitch: the definition of the lead of a single-start thread.

use super::AdjustError;
use super::error::check_ratio;
use crate::quantity::{LashChange, Length, ScrewAngle, ScrewTravel};
use alloc::format;
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

/// Where on the rocker the screw sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ScrewSeat {
    /// At the valve, or with no rocker between: the screw travels as far as the gap changes.
    ValveSide,
    /// At the cam or push rod: the gap changes by the travel times the rocker ratio.
    CamSide,
    /// The nut on the stud a rocker pivots on: it moves both arms, so the gap changes by the travel times
    /// one more than the rocker ratio.
    Pivot,
}

impl ScrewSeat {
    /// Change of the gap for one unit of travel; `rocker_ratio` is valve movement over cam-side movement.
    ///
    /// # Source
    /// Geometry of a lever: with the push rod held, raising the pivot by `h` raises the valve's end of a
    /// rocker of ratio `r` by `(1 + r) h`.
    ///
    /// ```
    /// use lashwork::adjust::ScrewSeat;
    /// assert_eq!(ScrewSeat::ValveSide.gap_per_travel(1.5), 1.0);
    /// assert_eq!(ScrewSeat::CamSide.gap_per_travel(1.5), 1.5);
    /// assert_eq!(ScrewSeat::Pivot.gap_per_travel(1.5), 2.5);
    /// ```
    #[must_use]
    pub fn gap_per_travel(self, rocker_ratio: f64) -> f64 {
        match self {
            Self::ValveSide => 1.0,
            Self::CamSide => rocker_ratio,
            Self::Pivot => 1.0 + rocker_ratio,
        }
    }

    /// Whether a turn cannot be told without the rocker ratio.
    ///
    /// ```
    /// use lashwork::adjust::ScrewSeat;
    /// assert!(ScrewSeat::CamSide.needs_ratio() && !ScrewSeat::ValveSide.needs_ratio());
    /// ```
    #[must_use]
    pub const fn needs_ratio(self) -> bool {
        !matches!(self, Self::ValveSide)
    }
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
/// The travel is the change divided by what the seat makes of it ([`ScrewSeat::gap_per_travel`]), with
/// `rocker_ratio` valve movement over cam-side movement; the angle is 360 degrees x travel / pitch.
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
/// assert_eq!(turn.angle.degrees().round(), -73.0);
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
    let closing = -change.mm() / seat.gap_per_travel(ratio);
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
const PARTS: [(u32, u32); 12] = [
    (1, 8),
    (1, 6),
    (1, 4),
    (1, 3),
    (3, 8),
    (1, 2),
    (5, 8),
    (2, 3),
    (3, 4),
    (5, 6),
    (7, 8),
    (1, 1),
];
/// Half a minute of a clock face, in degrees.
const HALF_MINUTE: f64 = 3.0;
/// Half a flat of a hexagon, in degrees.
const HALF_FLAT: f64 = 30.0;
/// Words that are off by less than this are said without "about", in degrees: a hand does not see it.
const SAME: f64 = 0.5;

/// How far words may miss a turn, both without sign.
///
/// ```
/// use lashwork::adjust::TurnRoom;
/// use lashwork::quantity::ScrewAngle;
/// let room = TurnRoom { short: ScrewAngle::from_degrees(2.0)?, over: ScrewAngle::from_degrees(0.5)? };
/// assert!(room.short > room.over);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TurnRoom {
    /// By how much they may say too little.
    pub short: ScrewAngle,
    /// By how much they may say too much.
    pub over: ScrewAngle,
}

impl TurnRoom {
    fn holds(self, wanted: f64, said: f64) -> bool {
        let off = said - wanted;
        -self.short.degrees() <= off && off <= self.over.degrees()
    }
}

impl ScrewTurn {
    /// The turn as said to a mechanic: direction, whole degrees, and words for them if following the words
    /// stays in the `room`: a simple part of a turn, else flats for a nut on a stud, else minutes on a clock
    /// face, of 6 degrees each; no words if none is near enough.
    ///
    /// ```
    /// use lashwork::adjust::{ScrewSeat, Thread, TurnRoom, screw_turn};
    /// use lashwork::quantity::{LashChange, Length, ScrewAngle};
    /// let thread = Thread::metric(Length::parse("1 mm")?)?;
    /// let words = |mm, seat, room| -> Result<String, Box<dyn std::error::Error>> {
    ///     let change = LashChange::from_mm(mm)?;
    ///     let room = ScrewAngle::from_degrees(room)?;
    ///     let room = TurnRoom { short: room, over: room };
    ///     Ok(screw_turn(change, thread, seat, 1.0, true)?.words(seat, room))
    /// };
    /// let screw = ScrewSeat::ValveSide;
    /// assert_eq!(words(0.0, screw, 2.0)?, "leave the screw as it is");
    /// assert_eq!(words(-0.25, screw, 2.0)?, "in 90 deg (1/4 turn)");
    /// assert_eq!(words(1.25, screw, 2.0)?, "out 450 deg (1 1/4 turns)");
    /// assert_eq!(words(0.045, screw, 2.0)?, "out 16 deg (about 2 1/2 clock minutes)");
    /// assert_eq!(words(0.045, screw, 1.0)?, "out 16 deg");
    /// assert_eq!(words(0.50, ScrewSeat::Pivot, 2.0)?, "out 90 deg (1/4 turn)");
    /// assert_eq!(words(0.165, ScrewSeat::Pivot, 2.0)?, "out 30 deg (1/2 flat of the nut)");
    /// assert_eq!(words(0.001, screw, 2.0)?, "out less than 1 deg");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn words(&self, seat: ScrewSeat, room: TurnRoom) -> String {
        let way = match self.direction {
            TurnDirection::In => "in",
            TurnDirection::Out => "out",
            TurnDirection::None => return String::from("leave the screw as it is"),
        };
        let degrees = libm::fabs(self.angle.degrees());
        if degrees < SAME {
            return format!("{way} less than 1 deg");
        }
        let shown = libm::rint(degrees);
        let flats = match seat {
            ScrewSeat::Pivot => in_flats(degrees, room),
            ScrewSeat::ValveSide | ScrewSeat::CamSide => None,
        };
        let said = in_turns(degrees, room).or(flats);
        match said.or_else(|| in_minutes(degrees, room)) {
            Some(said) => format!("{way} {shown} deg ({said})"),
            None => format!("{way} {shown} deg"),
        }
    }
}

fn about(degrees: f64, said: f64) -> &'static str {
    if libm::fabs(degrees - said) < SAME {
        ""
    } else {
        "about "
    }
}

/// Whole turns and the nearest simple part.
fn in_turns(degrees: f64, room: TurnRoom) -> Option<String> {
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
    let said = 360.0 * whole + part.map_or(0.0, size);
    if said <= 0.0 || !room.holds(degrees, said) {
        return None;
    }
    let about = about(degrees, said);
    Some(match part {
        Some((n, d)) if whole < 1.0 => format!("{about}{n}/{d} turn"),
        Some((n, d)) => format!("{about}{whole} {n}/{d} turns"),
        None if whole < 2.0 => format!("{about}1 turn"),
        None => format!("{about}{whole} turns"),
    })
}

/// Whole and half flats of the nut.
fn in_flats(degrees: f64, room: TurnRoom) -> Option<String> {
    let halves = libm::rint(degrees / HALF_FLAT);
    let said = halves * HALF_FLAT;
    let fits = halves > 0.0 && room.holds(degrees, said);
    fits.then(|| {
        let flats = if halves > 2.0 { "flats" } else { "flat" };
        let about = about(degrees, said);
        format!("{about}{} {flats} of the nut", with_half(halves))
    })
}

/// Whole turns, and whole and half minutes of a clock face.
fn in_minutes(degrees: f64, room: TurnRoom) -> Option<String> {
    let halves = libm::rint(degrees / HALF_MINUTE);
    let said = halves * HALF_MINUTE;
    if halves <= 0.0 || !room.holds(degrees, said) {
        return None;
    }
    let whole = libm::floor(said / 360.0);
    let rest = halves - whole * (360.0 / HALF_MINUTE);
    let turns = match whole {
        w if w < 1.0 => String::new(),
        w if w < 2.0 => String::from("1 turn and "),
        w => format!("{w} turns and "),
    };
    let minutes = if rest > 2.0 {
        "clock minutes"
    } else {
        "clock minute"
    };
    let about = about(degrees, said);
    let count = with_half(rest);
    Some(format!("{about}{turns}{count} {minutes}"))
}

/// So many halves as whole ones and a half.
fn with_half(halves: f64) -> String {
    let whole = libm::floor(halves / 2.0);
    match (whole > 0.0, halves - 2.0 * whole > 0.5) {
        (true, true) => format!("{whole} 1/2"),
        (false, true) => String::from("1/2"),
        _ => format!("{whole}"),
    }
}
