//! An engine joined with its cam: which valves there are and where each may be read.
//!
//! Uses `quantity` and `engine`.

use super::plan::ValveCheck;
use super::{CamEvents, MayBeOff, ValveError, ValveKind, Window};
use crate::engine::{CylinderIndex, Engine};
use crate::quantity::{CrankAngle, Cycle, CyclePosition};
use alloc::vec::Vec;
use serde::Serialize;

/// One valve of an engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct ValveId {
    /// Its cylinder.
    pub cylinder: CylinderIndex,
    /// Intake or exhaust.
    pub kind: ValveKind,
    /// Which of its kind in the cylinder, from 1.
    pub number: u8,
}

/// The valves of an engine and the windows in which each kind may be read.
///
/// ```
/// use lashwork::engine::Engine;
/// use lashwork::quantity::{CrankAngle, Cycle, CyclePosition};
/// use lashwork::valve::{CamEvents, ValveKind, ValveTrain};
/// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap();
/// let guard = CrankAngle::from_degrees(20.0)?;
/// let train = ValveTrain::new(&engine, &CamEvents::assumed(), guard, 1, 1)?;
///
/// // No. 1 fires at 0; its exhaust valve may be read until 80.
/// let at = |d| CrankAngle::from_degrees(d).map(|a| CyclePosition::new(Cycle::FourStroke, a));
/// let exhaust_1 = train.valves()[1];
/// assert_eq!(exhaust_1.kind, ValveKind::Exhaust);
/// assert_eq!(train.margin(exhaust_1, at(50.0)?).unwrap().degrees(), 30.0);
/// assert_eq!(train.margin(exhaust_1, at(81.0)?), None);
///
/// // Four stops half a turn apart, one cylinder at each.
/// let walk = train.cylinder_by_cylinder(None);
/// let turns: Vec<f64> = walk.stops.iter().map(|s| s.turn.degrees()).collect();
/// assert_eq!(turns, [0.0, 180.0, 180.0, 180.0]);
///
/// // Two stops a turn apart, four valves at each.
/// let table = train.two_position(engine.order()[0]).unwrap();
/// let checks: Vec<usize> = table.stops.iter().map(|s| s.checks.len()).collect();
/// assert_eq!((checks, table.total_turn.degrees()), (vec![4, 4], 360.0));
///
/// // No cylinder has five intake valves.
/// assert!(ValveTrain::new(&engine, &CamEvents::assumed(), guard, 5, 1).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct ValveTrain<'e> {
    engine: &'e Engine,
    events: CamEvents,
    guard: CrankAngle,
    intake: (u8, Option<Window>),
    exhaust: (u8, Option<Window>),
}

impl<'e> ValveTrain<'e> {
    /// Joins an engine with its cam, whose events are those at the running lash
    /// ([`CamEvents::at_running_lash`]).
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
        if engine.cycle() != Cycle::FourStroke {
            return Err(ValveError::NotFourStroke);
        }
        let counts = [
            ("intake", intake_per_cylinder),
            ("exhaust", exhaust_per_cylinder),
        ];
        for (kind, got) in counts {
            if !(1..=4).contains(&got) {
                return Err(ValveError::ValveCount { kind, got, min: 1 });
            }
        }
        Ok(Self {
            engine,
            events: *events,
            guard,
            intake: (
                intake_per_cylinder,
                Window::of(ValveKind::Intake, events, guard)?,
            ),
            exhaust: (
                exhaust_per_cylinder,
                Window::of(ValveKind::Exhaust, events, guard)?,
            ),
        })
    }

    /// The window of a kind of valve, in its own cylinder's phase.
    #[must_use]
    pub const fn window(&self, kind: ValveKind) -> Option<Window> {
        match kind {
            ValveKind::Intake => self.intake.1,
            ValveKind::Exhaust => self.exhaust.1,
        }
    }

    /// Every valve, cylinder by cylinder as the engine lists them, intake first.
    #[must_use]
    pub fn valves(&self) -> Vec<ValveId> {
        let mut all = Vec::new();
        for index in 0..self.engine.cylinders().len() {
            let cylinder = CylinderIndex::new(index);
            for (kind, count) in [
                (ValveKind::Intake, self.intake.0),
                (ValveKind::Exhaust, self.exhaust.0),
            ] {
                all.extend((1..=count).map(|number| ValveId {
                    cylinder,
                    kind,
                    number,
                }));
            }
        }
        all
    }

    /// Whether a valve may be read with the crank there, and by what margin.
    #[must_use]
    pub fn margin(&self, valve: ValveId, crank: CyclePosition) -> Option<CrankAngle> {
        self.room(valve, crank).map(MayBeOff::nearer)
    }

    /// How far short of there and past it the crank may stand with the valve still in its window; none
    /// if it may not be read there.
    #[must_use]
    pub fn room(&self, valve: ValveId, crank: CyclePosition) -> Option<MayBeOff> {
        self.window(valve.kind)?
            .room(self.engine.own_phase(valve.cylinder, crank))
    }

    /// The check of a valve with the crank there, if it may be read there.
    pub(super) fn check(&self, valve: ValveId, crank: CyclePosition) -> Option<ValveCheck> {
        let room = self.room(valve, crank)?;
        Some(ValveCheck::new(valve, room))
    }

    /// The room of a kind of valve at a phase on its base circle, less the guard, of which nothing may
    /// be left; none off the base circle.
    pub(super) fn room_at_rest(&self, kind: ValveKind, phase: CyclePosition) -> Option<MayBeOff> {
        let rest = Window::of(kind, &self.events, CrankAngle::ZERO).ok()??;
        let room = rest.room(phase)?;
        Some(room.less(self.guard, self.guard))
    }

    /// All valves of a kind in a cylinder.
    pub(super) fn all_of(
        &self,
        cylinder: CylinderIndex,
        kind: ValveKind,
    ) -> impl Iterator<Item = ValveId> + use<> {
        (1..=self.count(kind)).map(move |number| ValveId {
            cylinder,
            kind,
            number,
        })
    }

    /// The engine.
    #[must_use]
    pub const fn engine(&self) -> &'e Engine {
        self.engine
    }

    /// The cam events it was made with.
    #[must_use]
    pub const fn events(&self) -> &CamEvents {
        &self.events
    }

    /// The valves of a kind in a cylinder: how many.
    pub(super) const fn count(&self, kind: ValveKind) -> u8 {
        match kind {
            ValveKind::Intake => self.intake.0,
            ValveKind::Exhaust => self.exhaust.0,
        }
    }

    /// The side of the engine from which a valve is reached.
    pub(super) fn side(&self, valve: ValveId) -> Option<&'e str> {
        self.engine.cylinder(valve.cylinder)?.side.as_deref()
    }
}
