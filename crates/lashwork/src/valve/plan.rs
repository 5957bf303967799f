//! At which crank positions to stop, and which valves to check there.
//!
//! # Method
//! - Cylinder by cylinder: each cylinder's firing TDC in firing order, where both its valves rest on
//!   the base circle; a valve whose window misses that point gets a stop at its window's middle.
//!   Of all places to start, the one with the fewest walks between sides wins, then the least
//!   turning, then the one nearest the head of the firing order.
//! - Two positions: of two positions 360 degrees apart, each valve is taken in the one nearer the
//!   middle of its base circle. This rule reproduces the two-position tables that manuals print.

use super::{CamEvents, ValveError, ValveKind, Window};
use crate::engine::{CylinderIndex, Engine};
use crate::quantity::{CrankAngle, Cycle, CyclePosition};
use alloc::vec::Vec;
use serde::Serialize;

/// Places nearer than this are one stop, in crank degrees: sevenths and ninths of a cycle written
/// with three decimals, and far less than a crank can be set by hand. This library's choice.
const SAME_PLACE: f64 = 0.01;

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

/// How a plan chooses its stops.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Method {
    /// Each cylinder at its own firing TDC, in firing order.
    CylinderByCylinder,
    /// Two positions one crank turn apart.
    TwoPosition,
}

/// A valve to check at a stop.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ValveCheck {
    /// The valve.
    pub valve: ValveId,
    /// Crank degrees from the stop to the nearer edge of the valve's window.
    pub margin: CrankAngle,
}

/// A crank position and what to check there.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stop {
    /// Crank degrees after firing TDC of the first cylinder in the firing order.
    pub position: CyclePosition,
    /// How far to turn forward from the stop before; from nothing at the first stop.
    pub turn: CrankAngle,
    /// The cylinder at firing TDC here, if one is.
    pub firing_tdc: Option<CylinderIndex>,
    /// What to check here.
    pub checks: Vec<ValveCheck>,
}

/// A list of stops that covers every valve that can be covered.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StopPlan {
    /// How the stops were chosen.
    pub method: Method,
    /// The stops, in the order in which the crank reaches them, always turning forward.
    pub stops: Vec<Stop>,
    /// Forward turning from the first stop to the last.
    pub total_turn: CrankAngle,
    /// Changes from one side of the engine to another.
    pub walks: usize,
    /// Valves no stop can serve: their base circle is shorter than the guards.
    pub unreachable: Vec<ValveId>,
}

/// The valves of an engine and the windows in which each kind may be read.
///
/// ```
/// use lashwork::engine::{
///     layout, CylinderLabel, End, Engine, EngineParts, Intervals, Numbering, Rotation, Sense,
/// };
/// use lashwork::quantity::{CrankAngle, Cycle, CyclePosition};
/// use lashwork::valve::{CamEvents, ValveKind, ValveTrain};
/// let engine = Engine::new(EngineParts {
///     cycle: Cycle::FourStroke,
///     cylinders: layout::inline(4, &[]),
///     order: [1, 3, 4, 2].map(CylinderLabel::numbered).to_vec(),
///     intervals: Intervals::Even,
///     rotation: Rotation { sense: Sense::Clockwise, seen_from: End::Free },
///     numbering: Numbering::FromFreeEnd,
/// })
/// .unwrap();
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
    intake: (u8, Option<Window>),
    exhaust: (u8, Option<Window>),
}

impl<'e> ValveTrain<'e> {
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
        self.window(valve.kind)?
            .margin(self.engine.own_phase(valve.cylinder, crank))
    }

    /// Each cylinder at its firing TDC in firing order. `start` fixes the first cylinder: the plan
    /// begins at the first stop from its firing TDC on at which one of its valves is checked.
    /// Without it the start that saves walks is chosen.
    #[must_use]
    pub fn cylinder_by_cylinder(&self, start: Option<CylinderIndex>) -> StopPlan {
        let mut places: Vec<(CyclePosition, Vec<ValveCheck>)> = Vec::new();
        let mut unreachable = Vec::new();
        let valves = self.valves();
        for &cylinder in self.engine.order() {
            let tdc = self.engine.firing_position(cylinder);
            for &valve in valves.iter().filter(|v| v.cylinder == cylinder) {
                let Some(window) = self.window(valve.kind) else {
                    unreachable.push(valve);
                    continue;
                };
                let at = match window.margin(self.engine.own_phase(cylinder, tdc)) {
                    Some(_) => tdc,
                    None => tdc.turned(window.middle_turn()),
                };
                let met = places.iter_mut().find_map(|(place, checks)| {
                    let margin = self.margin(valve, *place).filter(|_| same(*place, at))?;
                    Some((margin, checks))
                });
                if let Some((margin, checks)) = met {
                    checks.push(ValveCheck { valve, margin });
                } else {
                    let margin = self.margin(valve, at).unwrap_or(CrankAngle::ZERO);
                    places.push((at, alloc::vec![ValveCheck { valve, margin }]));
                }
            }
        }
        let plan_from = |first: CyclePosition| {
            self.in_turn(Method::CylinderByCylinder, first, &places, &unreachable)
        };
        if let Some(first) = start {
            return plan_from(self.first_place(first, &places));
        }
        let mut best = plan_from(CyclePosition::new(self.engine.cycle(), CrankAngle::ZERO));
        for (first, _) in &places {
            let plan = plan_from(*first);
            let less_turning = best.total_turn - plan.total_turn;
            let better = plan.walks < best.walks
                || (plan.walks == best.walks && less_turning.degrees() > SAME_PLACE);
            if better {
                best = plan;
            }
        }
        best
    }

    /// The place where a plan that starts with a cylinder begins: the first one from its firing TDC
    /// on that checks one of its valves; its firing TDC itself if none does.
    fn first_place(
        &self,
        start: CylinderIndex,
        places: &[(CyclePosition, Vec<ValveCheck>)],
    ) -> CyclePosition {
        let tdc = self.engine.firing_position(start);
        let ahead = |place: CyclePosition| {
            if same(tdc, place) {
                0.0
            } else {
                tdc.forward_to(place).degrees()
            }
        };
        places
            .iter()
            .filter(|(_, checks)| checks.iter().any(|c| c.valve.cylinder == start))
            .map(|(place, _)| *place)
            .min_by(|a, b| ahead(*a).total_cmp(&ahead(*b)))
            .unwrap_or(tdc)
    }

    /// Two positions one turn apart, from firing TDC of `first`; `None` if some valve's window
    /// holds neither, so that no such table exists, or if all valves belong to one of the two, as on
    /// a single-cylinder engine. A valve as near to its middle in both is taken
    /// in the first.
    #[must_use]
    pub fn two_position(&self, first: CylinderIndex) -> Option<StopPlan> {
        let here = self.engine.firing_position(first);
        let there = here.turned(CrankAngle::from_degrees(360.0).ok()?);
        let mut places = alloc::vec![(here, Vec::new()), (there, Vec::new())];
        for valve in self.valves() {
            let window = self.window(valve.kind)?;
            let distance = |crank| window.from_middle(self.engine.own_phase(valve.cylinder, crank));
            let farther = distance(here) - distance(there);
            let at = if farther.degrees() <= SAME_PLACE {
                here
            } else {
                there
            };
            let margin = self.margin(valve, at)?;
            for (_, checks) in places.iter_mut().filter(|(place, _)| *place == at) {
                checks.push(ValveCheck { valve, margin });
            }
        }
        if places.iter().any(|(_, checks)| checks.is_empty()) {
            return None;
        }
        Some(self.in_turn(Method::TwoPosition, here, &places, &[]))
    }

    /// Puts places in the order in which a forward-turning crank reaches them.
    fn in_turn(
        &self,
        method: Method,
        first: CyclePosition,
        places: &[(CyclePosition, Vec<ValveCheck>)],
        unreachable: &[ValveId],
    ) -> StopPlan {
        let mut reached: Vec<_> = places.iter().map(|p| (first.forward_to(p.0), p)).collect();
        reached.sort_by(|a, b| a.0.degrees().total_cmp(&b.0.degrees()));
        let mut stops: Vec<Stop> = Vec::new();
        let (mut before, mut walks, mut side) = (CrankAngle::ZERO, 0, None);
        for (from_first, (position, checks)) in reached {
            let mut checks = checks.clone();
            // Work through the side one stands on first.
            checks.sort_by_key(|c| {
                let s = self.side(c.valve);
                (crosses(side, s), s, c.valve)
            });
            for check in &checks {
                let s = self.side(check.valve);
                walks += usize::from(crosses(side, s));
                side = s.or(side);
            }
            let turn = if stops.is_empty() {
                CrankAngle::ZERO
            } else {
                from_first - before
            };
            before = from_first;
            let firing_tdc = self
                .engine
                .order()
                .iter()
                .copied()
                .find(|&c| same(self.engine.firing_position(c), *position));
            stops.push(Stop {
                position: *position,
                turn,
                firing_tdc,
                checks,
            });
        }
        let total_turn = stops
            .iter()
            .fold(CrankAngle::ZERO, |sum, stop| sum + stop.turn);
        StopPlan {
            method,
            stops,
            total_turn,
            walks,
            unreachable: unreachable.to_vec(),
        }
    }

    fn side(&self, valve: ValveId) -> Option<&str> {
        self.engine.cylinder(valve.cylinder)?.side.as_deref()
    }
}

/// Whether two places are one stop, also when the cycle ends between them.
fn same(a: CyclePosition, b: CyclePosition) -> bool {
    let apart = a.forward_to(b).degrees().min(b.forward_to(a).degrees());
    apart <= SAME_PLACE
}

/// Whether one walks to get from a side to the next; a cylinder without a side is reached from any.
fn crosses(from: Option<&str>, to: Option<&str>) -> bool {
    from.is_some() && to.is_some() && from != to
}

impl Window {
    /// Turning from firing TDC to the window's middle.
    fn middle_turn(&self) -> CrankAngle {
        CyclePosition::new(self.from().cycle(), CrankAngle::ZERO).forward_to(self.middle())
    }
}
