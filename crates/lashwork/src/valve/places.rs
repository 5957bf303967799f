//! The crank positions a mechanic can find.
//!
//! # Conventions
//! - A mark on the pulley comes to the pointer once in every turn of the crank, so on a four-stroke
//!   engine it gives two positions of the cycle, 360 degrees apart.
//! - A cylinder's top dead centre is found twice in a cycle as well: firing and overlap.
//!
//! Uses `quantity` and `engine`.

use super::ValveError;
use super::sequence::same;
use crate::engine::{Engine, SAME_PLACE};
use crate::quantity::{CrankAngle, Cycle, CyclePosition};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// A mark on the pulley.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::quantity::{CrankAngle, Cycle, CyclePosition};
/// use lashwork::valve::Mark;
/// let tdc = CyclePosition::new(Cycle::FourStroke, CrankAngle::ZERO);
/// let d = |x| CrankAngle::from_degrees(x);
/// let mark = Mark::new("10 BTDC", tdc, d(350.0)?)?;
/// assert_eq!(mark.at().degrees(), 350.0);
/// assert_eq!(Mark::new("10 BTDC", tdc, d(-10.0)?).unwrap_err().code(), "valve.mark-outside-turn");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Mark {
    label: String,
    at: CrankAngle,
}

impl Mark {
    /// A mark that comes to the pointer `at` crank degrees after a dead centre.
    ///
    /// # Errors
    /// [`ValveError::MarkUnnamed`] without a label, [`ValveError::MarkOutsideTurn`] outside 0 to
    /// 360 deg, 360 excluded.
    pub fn new(
        label: impl Into<String>,
        dead_centre: CyclePosition,
        at: CrankAngle,
    ) -> Result<Self, ValveError> {
        let label = label.into();
        if label.trim().is_empty() {
            return Err(ValveError::MarkUnnamed);
        }
        let got = at.degrees();
        if !(0.0..360.0).contains(&got) {
            return Err(ValveError::MarkOutsideTurn { mark: label, got });
        }
        // A place in the turn, not in the cycle.
        let after_tdc = CrankAngle::computed(dead_centre.turned(at).degrees());
        let turn = CyclePosition::new(Cycle::TwoStroke, after_tdc);
        let at = CrankAngle::computed(turn.degrees());
        Ok(Self { label, at })
    }

    /// What is written at it.
    #[must_use]
    pub fn label(&self) -> &str {
        &self.label
    }

    /// Crank degrees after TDC of the first cylinder in the firing order: from 0 up to, not
    /// including, 360.
    #[must_use]
    pub const fn at(&self) -> CrankAngle {
        self.at
    }
}

/// The marks of a pulley: at least one, each with its own name and place.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::quantity::{CrankAngle, Cycle, CyclePosition};
/// use lashwork::valve::{Mark, Marks};
/// let tdc = CyclePosition::new(Cycle::FourStroke, CrankAngle::ZERO);
/// let mark = |label: &str, d| Mark::new(label, tdc, CrankAngle::from_degrees(d).unwrap()).unwrap();
/// assert_eq!(Marks::new(vec![mark("T", 0.0), mark("F", 345.0)]).unwrap().list().len(), 2);
/// // The second lies on the first.
/// let problems = Marks::new(vec![mark("T", 0.0), mark("F", 359.995)]).unwrap_err();
/// assert_eq!((problems[0].0, problems[0].1.code()), (1, "valve.marks-alike"));
/// assert_eq!(Marks::new(vec![]).unwrap_err()[0].1.code(), "valve.no-marks");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Marks(Vec<Mark>);

impl Marks {
    /// Most marks on one pulley: one every five degrees.
    pub const MAX: usize = 72;

    /// Takes the marks of a pulley.
    ///
    /// # Errors
    /// Every problem with the place of its mark in the list: [`ValveError::NoMarks`],
    /// [`ValveError::TooManyMarks`], [`ValveError::MarkTwice`] for a name twice,
    /// [`ValveError::MarksAlike`] for two within a hundredth of a degree.
    pub fn new(marks: Vec<Mark>) -> Result<Self, Vec<(usize, ValveError)>> {
        let got = marks.len();
        if got == 0 {
            return Err(alloc::vec![(0, ValveError::NoMarks)]);
        }
        if got > Self::MAX {
            let max = Self::MAX;
            return Err(alloc::vec![(max, ValveError::TooManyMarks { got, max })]);
        }
        let mut problems = Vec::new();
        for (i, mark) in marks.iter().enumerate() {
            let earlier = || marks.iter().take(i);
            if earlier().any(|other| other.label == mark.label) {
                let mark = mark.label.clone();
                problems.push((i, ValveError::MarkTwice { mark }));
            }
            if let Some(other) = earlier().find(|other| on_one_another(other, mark)) {
                let error = ValveError::MarksAlike {
                    mark: mark.label.clone(),
                    other: other.label.clone(),
                    at: mark.at.degrees(),
                    within: SAME_PLACE,
                };
                problems.push((i, error));
            }
        }
        if problems.is_empty() {
            Ok(Self(marks))
        } else {
            Err(problems)
        }
    }

    /// The marks as listed.
    #[must_use]
    pub fn list(&self) -> &[Mark] {
        &self.0
    }
}

/// Where the crank can be stopped.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum StoppingPoints {
    /// At the marks of the pulley.
    Marks(Marks),
    /// At each cylinder's top dead centre, firing and overlap.
    DeadCentres,
    /// Anywhere, with a degree wheel.
    AnyAngle,
}

impl StoppingPoints {
    /// Every place of the cycle, none of them twice; none at all if any angle can be found. Of places
    /// within a hundredth of a degree the first stands for all: a window that begins between them is
    /// then taken to hold none of them, which leaves a valve out rather than read it on a ramp.
    #[must_use]
    pub fn positions(&self, engine: &Engine) -> Vec<CyclePosition> {
        let head = CyclePosition::new(engine.cycle(), CrankAngle::ZERO);
        let first_turn: Vec<CyclePosition> = match self {
            Self::Marks(marks) => marks.list().iter().map(|m| head.turned(m.at)).collect(),
            Self::DeadCentres => engine
                .order()
                .iter()
                .map(|c| engine.dead_centre(*c))
                .collect(),
            Self::AnyAngle => Vec::new(),
        };
        let turn_on = first_turn.iter().map(|p| p.turned(CrankAngle::TURN));
        let mut all: Vec<CyclePosition> = Vec::new();
        for place in first_turn.iter().copied().chain(turn_on) {
            if !all.iter().any(|known| same(*known, place)) {
                all.push(place);
            }
        }
        all
    }

    /// Whether the crank can be stopped at a position.
    #[must_use]
    pub fn can_find(&self, engine: &Engine, position: CyclePosition) -> bool {
        let any = matches!(self, Self::AnyAngle);
        any || self.positions(engine).iter().any(|p| same(*p, position))
    }

    /// The label of the mark at the pointer there, if there is one.
    #[must_use]
    pub fn mark_at(&self, position: CyclePosition) -> Option<&str> {
        let Self::Marks(marks) = self else {
            return None;
        };
        let head = CyclePosition::new(position.cycle(), CrankAngle::ZERO);
        let found = marks.list().iter().find(|m| {
            let at = head.turned(m.at);
            same(at, position) || same(at.turned(CrankAngle::TURN), position)
        });
        found.map(Mark::label)
    }
}

/// Where the crank is before the work, as crank degrees after firing TDC of the first cylinder
/// in the firing order.
///
/// # Errors
/// [`ValveError::FromOutsideCycle`] outside 0 to 720 deg on a four-stroke engine, 720 excluded.
///
/// ```
/// use lashwork::quantity::{CrankAngle, Cycle};
/// use lashwork::valve::present_position;
/// let d = |x| CrankAngle::from_degrees(x);
/// assert_eq!(present_position(Cycle::FourStroke, d(540.0)?)?.degrees(), 540.0);
/// assert!(present_position(Cycle::FourStroke, d(720.0)?).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn present_position(cycle: Cycle, at: CrankAngle) -> Result<CyclePosition, ValveError> {
    let (got, max) = (at.degrees(), cycle.degrees());
    if (0.0..max).contains(&got) {
        Ok(CyclePosition::new(cycle, at))
    } else {
        Err(ValveError::FromOutsideCycle { got, max })
    }
}

fn on_one_another(a: &Mark, b: &Mark) -> bool {
    let on_wheel = |mark: &Mark| CyclePosition::new(Cycle::TwoStroke, mark.at);
    same(on_wheel(a), on_wheel(b))
}
