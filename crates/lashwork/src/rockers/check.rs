//! What the rockers say about where the crank stands: which must be free at a position, which tight,
//! and what was found.
//!
//! # Conventions
//! - Free: the follower rests on the base circle, inside the window in which lash may be read.
//! - Tight: the valve is open by more than the guard against the cam ramps on both sides.
//! - In between nothing can be said: on a ramp a rocker may feel either way.
//! - Calls of different rockers are independent of each other; a second call of one rocker by the same
//!   hand is not, and counts only where it contradicts the first.
//!
//! # Source
//! Geometry of rotation, with the windows of `valve`.

use crate::Refusal;
use crate::engine::{CylinderIndex, CylinderLabel, Engine, EngineError};
use crate::quantity::{CrankAngle, CyclePosition};
use crate::valve::{CamEvents, ValveError, ValveId, ValveKind, ValveTrain};
use alloc::borrow::Cow;
use alloc::vec::Vec;
use serde::Serialize;

/// A phase this little outside an arc lies on its edge, in degrees: the last bits of sums of thirds
/// and sevenths of a turn.
const EDGE_ROUNDING: f64 = 1e-9;

/// What a rocker must do at a crank position.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum RockerState {
    /// It moves by its lash.
    Free,
    /// It is pressed against the valve.
    Tight,
    /// It is on a ramp: either may be found.
    CannotSay,
}

/// What was found at a rocker.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Feel {
    /// It moved.
    Free,
    /// It did not.
    Tight,
}

/// One check of one rocker.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct RockerCheck {
    /// Its valve.
    pub valve: ValveId,
    /// What was found.
    pub feel: Feel,
}

/// The chance that one rocker is called wrongly: above 0 and below one half.
///
/// ```
/// use lashwork::rockers::MisreadRisk;
/// assert_eq!(MisreadRisk::new(0.02)?.get(), 0.02);
/// assert_eq!(MisreadRisk::assumed().get(), 0.05);
/// // At one half a call says nothing; at none a single slip would rule out the truth.
/// assert!(MisreadRisk::new(0.5).is_err() && MisreadRisk::new(0.0).is_err());
/// # Ok::<(), lashwork::rockers::EvidenceError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(transparent)]
pub struct MisreadRisk(f64);

impl MisreadRisk {
    /// Takes a chance.
    ///
    /// # Errors
    /// [`EvidenceError::MisreadRisk`] unless above 0 and below one half.
    pub fn new(chance: f64) -> Result<Self, EvidenceError> {
        if chance > 0.0 && chance < 0.5 {
            Ok(Self(chance))
        } else {
            Err(EvidenceError::MisreadRisk { got: chance })
        }
    }

    /// One call in twenty, for when none is stated. This library's choice, to be listed as an
    /// assumption.
    #[must_use]
    pub const fn assumed() -> Self {
        Self(0.05)
    }

    /// The chance.
    #[must_use]
    pub const fn get(self) -> f64 {
        self.0
    }
}

/// Where the crank is assumed to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AssumedPosition {
    /// At firing top dead centre of a cylinder.
    FiringTdc(CylinderIndex),
    /// At a position of the cycle.
    At(CyclePosition),
}

/// What is asked: the assumed position and the rockers checked.
#[derive(Clone, Debug, PartialEq)]
pub struct CrankCheck {
    /// Where the crank is assumed to be.
    pub believed: AssumedPosition,
    /// The rockers checked; one checked twice is listed twice.
    pub checks: Vec<RockerCheck>,
    /// The chance of a wrong call; [`MisreadRisk::assumed`] if not stated.
    pub wrong_call: Option<MisreadRisk>,
    /// Firing orders the engine may have instead.
    pub also_orders: Vec<Vec<CylinderLabel>>,
}

/// Why rockers cannot be weighed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum EvidenceError {
    /// A chance of a wrong call at which nothing follows from a call.
    #[error("a chance of a wrong call of {got} is not above 0 and below 0.5")]
    MisreadRisk {
        /// The refused chance.
        got: f64,
    },
    /// A rocker of a valve the engine does not have.
    #[error("rocker {} of those checked belongs to no valve of the engine", .rocker + 1)]
    NoSuchValve {
        /// Its place in the list, from 0.
        rocker: usize,
    },
    /// Another firing order the engine cannot have.
    #[error("{problem}")]
    Order {
        /// Its place in the list, from 0.
        order: usize,
        /// Why.
        problem: EngineError,
    },
    /// Another firing order that is none.
    #[error(
        "this firing order is the engine's own, or listed before, only started from another cylinder"
    )]
    SameOrder {
        /// Its place in the list, from 0.
        order: usize,
    },
}

impl Refusal for EvidenceError {
    fn code(&self) -> &'static str {
        match self {
            Self::MisreadRisk { .. } => "valve.wrong-call",
            Self::NoSuchValve { .. } => "valve.no-such-rocker",
            Self::Order { problem, .. } => problem.code(),
            Self::SameOrder { .. } => "valve.same-order",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::MisreadRisk { .. } => {
                Cow::Borrowed("give a chance such as 0.05: one call in twenty")
            }
            Self::NoSuchValve { .. } => Cow::Borrowed("check the cylinder and the valve's number"),
            Self::Order { problem, .. } => problem.hint(),
            Self::SameOrder { .. } => Cow::Borrowed("list only orders that differ"),
        }
    }
}

/// An arc of own-cylinder phase.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct PhaseArc {
    pub(super) from: CyclePosition,
    pub(super) length: CrankAngle,
}

impl PhaseArc {
    fn holds(&self, phase: CyclePosition) -> bool {
        // An edge belongs to the arc.
        let past = self.from.forward_to(phase).degrees();
        past <= self.length.degrees() + EDGE_ROUNDING
    }
}

/// The rockers of an engine and what each must do over the cycle.
///
/// ```
/// use lashwork::engine::Engine;
/// use lashwork::quantity::CrankAngle;
/// use lashwork::valve::CamEvents;
/// use lashwork::rockers::{RockerState, Rockers};
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2])
///     .map_err(|problems| format!("{problems:?}"))?;
/// let guard = CrankAngle::from_degrees(20.0)?;
/// let rockers = Rockers::new(&engine, &CamEvents::assumed(), guard, 1, 1)?;
/// // At firing TDC of No. 1 both its rockers are free; No. 4 is at overlap, with wide events tight.
/// let at = engine.firing_position(engine.order()[0]);
/// let states: Vec<RockerState> = rockers.valves().iter().map(|v| rockers.state(*v, at)).collect();
/// use RockerState::{Free, Tight};
/// // Intake and exhaust of cylinders 1 to 4: No. 2 ends its power stroke, No. 3 its intake stroke.
/// assert_eq!(states, [Free, Free, Free, Tight, Tight, Free, Tight, Tight]);
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
#[derive(Clone, Debug)]
pub struct Rockers<'e> {
    pub(super) engine: &'e Engine,
    pub(super) valves: Vec<ValveId>,
    intake: (Option<PhaseArc>, Option<PhaseArc>),
    exhaust: (Option<PhaseArc>, Option<PhaseArc>),
}

impl<'e> Rockers<'e> {
    /// Joins an engine with its cam.
    ///
    /// # Errors
    /// [`ValveError`]: not a four-stroke, a valve count outside 1 to 4, a guard out of range.
    pub fn new(
        engine: &'e Engine,
        events: &CamEvents,
        guard: CrankAngle,
        intake_per_cylinder: u8,
        exhaust_per_cylinder: u8,
    ) -> Result<Self, ValveError> {
        let (intake, exhaust) = (intake_per_cylinder, exhaust_per_cylinder);
        let train = ValveTrain::new(engine, events, guard, intake, exhaust)?;
        let arcs = |kind| {
            let free = train.window(kind).map(|w| PhaseArc {
                from: w.from(),
                length: w.length(),
            });
            let length = events.duration(kind) - guard - guard;
            let from = events.opens(kind).turned(guard);
            let tight = (length.degrees() > 0.0).then_some(PhaseArc { from, length });
            (free, tight)
        };
        Ok(Self {
            engine,
            valves: train.valves(),
            intake: arcs(ValveKind::Intake),
            exhaust: arcs(ValveKind::Exhaust),
        })
    }

    /// The same rockers on an engine of the same cylinders that fires otherwise.
    pub(super) fn firing_as<'o>(&self, engine: &'o Engine) -> Rockers<'o> {
        Rockers {
            engine,
            valves: self.valves.clone(),
            intake: self.intake,
            exhaust: self.exhaust,
        }
    }

    /// Every valve, cylinder by cylinder as the engine lists them, intake first.
    #[must_use]
    pub fn valves(&self) -> &[ValveId] {
        &self.valves
    }

    /// What a rocker must do with the crank there.
    #[must_use]
    pub fn state(&self, valve: ValveId, crank: CyclePosition) -> RockerState {
        let phase = self.engine.own_phase(valve.cylinder, crank);
        let (free, tight) = self.arcs(valve.kind);
        if free.is_some_and(|arc| arc.holds(phase)) {
            RockerState::Free
        } else if tight.is_some_and(|arc| arc.holds(phase)) {
            RockerState::Tight
        } else {
            RockerState::CannotSay
        }
    }

    /// The arcs in which a kind of valve's rocker is free and tight.
    pub(super) const fn arcs(&self, kind: ValveKind) -> (Option<PhaseArc>, Option<PhaseArc>) {
        match kind {
            ValveKind::Intake => self.intake,
            ValveKind::Exhaust => self.exhaust,
        }
    }
}
