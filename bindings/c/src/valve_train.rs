//! Valves and cam events, and what a stop plan consists of.

use crate::boundary::Outcome;
use crate::engine::{lw_engine, number};
use crate::pointers::Record;
use crate::quantity::choose;
use lashwork::engine::CylinderIndex;
use lashwork::quantity::{CrankAngle, Lash, Length};
use lashwork::valve::{CamEvents, EventsAt, ValveId, ValveKind, ValveTrain};

/// How stops are chosen.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_method {
    /// Each cylinder at its firing top dead centre, in firing order.
    CylinderByCylinder = 1,
    /// Two positions one turn (360 degrees) apart.
    TwoPosition = 2,
    /// As few stops as the places that can be found allow.
    FewestStops = 3,
    /// Each cylinder's intake where its exhaust begins to open, its exhaust where its intake has just
    /// closed.
    OppositeValve = 4,
    /// Each valve while the same kind in the cylinder that fires a turn away is fully open; in engines
    /// without such a cylinder, while the one that comes nearest to it is.
    FullyOpenValve = 5,
}

/// Which crank positions can be found.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_places {
    /// The firing and overlap top dead centre of each cylinder.
    DeadCentres = 1,
    /// Any angle, with a degree wheel.
    AnyAngle = 2,
}

/// A kind of valve.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_valve_kind {
    /// Intake.
    Intake = 1,
    /// Exhaust.
    Exhaust = 2,
}

/// Where printed cam events hold.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_events_at {
    /// With the valves set to a lash: the events are where they leave and reach their seats.
    Lash = 1,
    /// With the valves lifted so far off their seats, at the lash the engine runs with.
    Lift = 2,
}

/// Valves and cam events as a manual prints them, in crank degrees, -60 to 120; an event on the other
/// side of dead centre is negative.
///
/// A valve with a large lash leaves its seat late and is back early: printed for a larger lash than the
/// engine runs with, or for a lift, events say less of the base circle than they seem to. What the last
/// fields state is worked out as in a document with `events.at`; all of them zero, the events are taken
/// as there without it: every valve is off its base circle 25 degrees longer at both ends.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_valve_train {
    /// Size of this structure, `sizeof(lw_valve_train)`.
    pub struct_size: usize,
    /// Intake opens before top dead centre.
    pub intake_opens_btdc_deg: f64,
    /// Intake closes after bottom dead centre.
    pub intake_closes_abdc_deg: f64,
    /// Exhaust opens before bottom dead centre.
    pub exhaust_opens_bbdc_deg: f64,
    /// Exhaust closes after top dead centre.
    pub exhaust_closes_atdc_deg: f64,
    /// Guard: how far from the events the cam ramps reach, 0 to 180.
    pub guard_deg: f64,
    /// Intake valves of a cylinder, 1 to 4.
    pub intake_per_cylinder: u32,
    /// Exhaust valves of a cylinder, 1 to 4.
    pub exhaust_per_cylinder: u32,
    /// Where the events hold: a value of `lw_events_at`; 0 if it is not stated.
    pub events_at: u32,
    /// Zero.
    pub reserved: u32,
    /// The lash or lift at which they hold, in millimetres, up to a quarter of the greatest lift.
    pub events_at_mm: f64,
    /// The greatest lift of the valves in millimetres, 1 to 60; 0 if it is not known: 8 is then taken.
    pub greatest_lift_mm: f64,
    /// The lash with which the intake valves run, in millimetres; where books differ, the least. With 0 a
    /// valve is off its base circle longest.
    pub running_intake_mm: f64,
    /// The same of the exhaust valves.
    pub running_exhaust_mm: f64,
}

/// What a plan costs.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_plan_cost {
    /// Size of this structure, `sizeof(lw_plan_cost)`.
    pub struct_size: usize,
    /// How many stops.
    pub stops: usize,
    /// Changes from one side of the engine to the other.
    pub walks: usize,
    /// Valves that cannot be checked at any stop, because their cams leave no arc to read them.
    pub unreachable: usize,
    /// Crank degrees from the first stop to the last, all forward. Of the fewest stops it is the least
    /// that leaves as much margin as can be had, of which 30 degrees are enough.
    pub total_turn_deg: f64,
}

/// One stop.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_stop {
    /// Size of this structure, `sizeof(lw_stop)`.
    pub struct_size: usize,
    /// Crank degrees after firing top dead centre of the first cylinder in the firing order.
    pub position_deg: f64,
    /// Crank degrees to turn forward from the stop before; 0 at the first.
    pub turn_deg: f64,
    /// The valves to check here.
    pub checks: usize,
    /// The valves whose own movement shows that the stop is reached.
    pub cues: usize,
    /// The cylinder whose firing top dead centre this is, from 1; 0 if there is none. Both its valves are
    /// shut and slack.
    pub firing_tdc_of: u32,
    /// The cylinder whose overlap top dead centre this is, from 1; 0 if there is none. Its valves rock.
    pub overlap_tdc_of: u32,
    /// Crank degrees by which the crank may be short of the stop with every valve to check still inside
    /// its arc.
    pub may_be_off_before_deg: f64,
    /// The same past the stop.
    pub may_be_off_after_deg: f64,
}

/// One valve, and how far the crank is from the end of the arc in which it may be read.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_valve_check {
    /// Size of this structure, `sizeof(lw_valve_check)`.
    pub struct_size: usize,
    /// Cylinder, from 1.
    pub cylinder: u32,
    /// Intake or exhaust: a value of `lw_valve_kind`.
    pub kind: lw_valve_kind,
    /// Which of its kind at that cylinder, from 1; 0 in a cue, where all of the kind move.
    pub number: u32,
    /// Zero.
    pub reserved: u32,
    /// Crank degrees to the nearer end of its arc, the guard left out; 0 in a cue and for a valve that
    /// cannot be checked at any stop.
    pub margin_deg: f64,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_valve_train {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_plan_cost {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_stop {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front; never read from a caller, so the enumeration is one of ours.
unsafe impl Record for lw_valve_check {
    const FIRST_SIZE: usize = size_of::<Self>();
}

pub(crate) const METHODS: [(u32, lw_method); 5] = [
    (
        lw_method::CylinderByCylinder as u32,
        lw_method::CylinderByCylinder,
    ),
    (lw_method::TwoPosition as u32, lw_method::TwoPosition),
    (lw_method::FewestStops as u32, lw_method::FewestStops),
    (lw_method::OppositeValve as u32, lw_method::OppositeValve),
    (lw_method::FullyOpenValve as u32, lw_method::FullyOpenValve),
];

pub(crate) const PLACES: [(u32, lw_places); 2] = [
    (lw_places::DeadCentres as u32, lw_places::DeadCentres),
    (lw_places::AnyAngle as u32, lw_places::AnyAngle),
];

pub(crate) const EVENTS_AT: [(u32, lw_events_at); 2] = [
    (lw_events_at::Lash as u32, lw_events_at::Lash),
    (lw_events_at::Lift as u32, lw_events_at::Lift),
];

impl lw_valve_train {
    /// Where the events hold, if that is stated.
    fn holds_at(&self) -> Outcome<Option<EventsAt>> {
        if self.events_at == 0 {
            return Ok(None);
        }
        let mm = self.events_at_mm;
        Ok(Some(
            match choose("events_at", self.events_at, &EVENTS_AT)? {
                lw_events_at::Lash => EventsAt::Lash(Lash::from_mm(mm)?),
                lw_events_at::Lift => EventsAt::Lift(Length::from_mm(mm)?),
            },
        ))
    }

    pub(crate) fn typed<'e>(&self, engine: &'e lw_engine) -> Outcome<ValveTrain<'e>> {
        let angle = CrankAngle::from_degrees;
        let events = CamEvents::new(
            angle(self.intake_opens_btdc_deg)?,
            angle(self.intake_closes_abdc_deg)?,
            angle(self.exhaust_opens_bbdc_deg)?,
            angle(self.exhaust_closes_atdc_deg)?,
        )?;
        let greatest = self.greatest_lift_mm;
        let greatest = (greatest != 0.0).then(|| Length::from_mm(greatest));
        let events = match self.holds_at()? {
            Some(at) => events.holding_at(at, greatest.transpose()?)?,
            None => events,
        };
        let running = events.at_running_lash(
            Lash::from_mm(self.running_intake_mm)?,
            Lash::from_mm(self.running_exhaust_mm)?,
        );
        // More than a byte holds is refused by the kernel like any other count.
        let count = |n: u32| u8::try_from(n).unwrap_or(u8::MAX);
        Ok(ValveTrain::new(
            &engine.0,
            &running,
            angle(self.guard_deg)?,
            count(self.intake_per_cylinder),
            count(self.exhaust_per_cylinder),
        )?)
    }
}

impl lw_valve_check {
    pub(crate) fn of(
        cylinder: CylinderIndex,
        kind: ValveKind,
        of_kind: u8,
        margin: CrankAngle,
    ) -> Self {
        Self {
            struct_size: 0,
            cylinder: number(Some(cylinder)),
            kind: match kind {
                ValveKind::Intake => lw_valve_kind::Intake,
                ValveKind::Exhaust => lw_valve_kind::Exhaust,
            },
            number: u32::from(of_kind),
            reserved: 0,
            margin_deg: margin.degrees(),
        }
    }

    pub(crate) fn valve(valve: ValveId, margin: CrankAngle) -> Self {
        Self::of(valve.cylinder, valve.kind, valve.number, margin)
    }
}
