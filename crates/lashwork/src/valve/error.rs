//! Why cam events, a window or a stop plan could not be made.

use super::CamEvent;
use crate::Refusal;
use crate::quantity::Quoted;
use alloc::borrow::Cow;
use alloc::string::String;

/// Why cam events, a window or a stop plan could not be made. Angles are crank degrees.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ValveError {
    /// An event angle no cam of a running engine has.
    #[error("{event} at {got} deg is outside {min} to {max} deg")]
    EventOutOfRange {
        /// Which event.
        event: CamEvent,
        /// The refused angle.
        got: f64,
        /// Least accepted.
        min: f64,
        /// Greatest accepted.
        max: f64,
    },
    /// Events at a lash or lift that tells nothing of the base circle.
    #[error("cam events at {got} mm of lash or lift are outside 0 to {max} mm")]
    EventsAtOutOfRange {
        /// The refused lash or lift in millimetres.
        got: f64,
        /// Greatest accepted: a quarter of the greatest lift.
        max: f64,
    },
    /// No valve of an engine lifts so little or so much.
    #[error("a greatest lift of {got} mm is outside {min} to {max} mm")]
    GreatestLift {
        /// The refused lift in millimetres.
        got: f64,
        /// Least accepted.
        min: f64,
        /// Greatest accepted.
        max: f64,
    },
    /// The guard leaves nothing of the base circle, or is negative.
    #[error("a guard of {got} deg is outside 0 to {max} deg")]
    GuardOutOfRange {
        /// The refused guard.
        got: f64,
        /// Greatest accepted.
        max: f64,
    },
    /// Cam-timed poppet valves of this kind belong to the four-stroke cycle.
    #[error("stop plans are computed for four-stroke engines only")]
    NotFourStroke,
    /// No valves of either kind, or more than a cylinder can hold.
    #[error("{got} {kind} valves per cylinder is outside {min} to 4")]
    ValveCount {
        /// Intake or exhaust.
        kind: &'static str,
        /// The refused count.
        got: u8,
        /// Least accepted.
        min: u8,
    },
    /// A mark without a name.
    #[error("a mark has no label")]
    MarkUnnamed,
    /// A mark that is not on the circle of the pulley.
    #[error("mark {} at {got} deg is outside 0 to 360 deg, 360 excluded", Quoted(.mark))]
    MarkOutsideTurn {
        /// Its label.
        mark: String,
        /// The refused angle.
        got: f64,
    },
    /// Stops at marks are asked for and there is none.
    #[error("stops at marks need at least one mark")]
    NoMarks,
    /// More marks than anyone can tell apart.
    #[error("{got} marks are more than {max}")]
    TooManyMarks {
        /// How many.
        got: usize,
        /// Most accepted.
        max: usize,
    },
    /// Two marks of one name.
    #[error("there are two marks {}", Quoted(.mark))]
    MarkTwice {
        /// The name.
        mark: String,
    },
    /// Two marks at one place.
    #[error("mark {} at {at} deg lies within {within} deg of mark {}", Quoted(.mark), Quoted(.other))]
    MarksAlike {
        /// The second of the two.
        mark: String,
        /// The first.
        other: String,
        /// Where the second lies.
        at: f64,
        /// How near is too near.
        within: f64,
    },
    /// The crank cannot stand there.
    #[error("a crank position of {got} deg is outside 0 to {max} deg, {max} excluded")]
    FromOutsideCycle {
        /// The refused position.
        got: f64,
        /// Degrees in a cycle.
        max: f64,
    },
}

impl Refusal for ValveError {
    fn code(&self) -> &'static str {
        match self {
            Self::EventOutOfRange { .. } => "valve.event-out-of-range",
            Self::EventsAtOutOfRange { .. } => "valve.events-at-out-of-range",
            Self::GreatestLift { .. } => "valve.greatest-lift",
            Self::GuardOutOfRange { .. } => "valve.guard-out-of-range",
            Self::NotFourStroke => "valve.not-four-stroke",
            Self::ValveCount { .. } => "valve.count",
            Self::MarkUnnamed => "valve.mark-unnamed",
            Self::MarkOutsideTurn { .. } => "valve.mark-outside-turn",
            Self::NoMarks => "valve.no-marks",
            Self::TooManyMarks { .. } => "valve.too-many-marks",
            Self::MarkTwice { .. } => "valve.mark-twice",
            Self::MarksAlike { .. } => "valve.marks-alike",
            Self::FromOutsideCycle { .. } => "valve.from-outside-cycle",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::EventOutOfRange { .. } => {
                "give the maker's figure; an event on the other side of dead centre is negative"
            }
            Self::EventsAtOutOfRange { .. } => {
                "give the lash or lift printed beside the events, or the valve's greatest lift if it is \
                 more than 8 mm"
            }
            Self::GreatestLift { .. } => "give the full lift at the valve, such as \"9 mm\"",
            Self::GuardOutOfRange { .. } => "a guard of 10 to 30 deg covers usual ramps",
            Self::NotFourStroke => {
                "leave the valve clearances out, or check whether it is a two-stroke"
            }
            Self::ValveCount { .. } => "state how many valves of the kind each cylinder has",
            Self::MarkUnnamed => "write what is printed at the mark, such as \"10 BTDC\"",
            Self::MarkOutsideTurn { .. } => {
                "count in the running direction from dead centre: 10 before TDC is 350 deg"
            }
            Self::NoMarks => "list the marks, or choose the dead centres or any angle",
            Self::TooManyMarks { .. } => {
                "a pulley marked all round is a degree wheel: choose any angle"
            }
            Self::MarkTwice { .. } => "give each mark a label of its own",
            Self::MarksAlike { .. } => "keep one of the two, or correct its angle",
            Self::FromOutsideCycle { .. } => {
                "count from firing TDC of the first cylinder in the order, in the running direction"
            }
        })
    }
}
