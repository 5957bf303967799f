//! The cautions for one engine: five to eight, the gravest first. Usual workshop practice; the maker's
//! manual comes first.
//!
//! # Sources
//! Hydraulic lock: Historic Aircraft Association, "Engine hydraulic locking". Open plug leads, and a shim
//! lifted away from top dead centre: makers' manuals, named in the tests. The rest is common practice, no
//! source.

use super::machine::{FiredBy, Machine, StandsIn, StartedBy};
use crate::engine::Engine;
use crate::quantity::AxisAngle;
use alloc::vec::Vec;

/// What the cautions depend on.
#[derive(Clone, Copy, Default)]
pub(super) struct Facts {
    pub(super) machine: Machine,
    /// Whether some cylinders hang below the crank.
    pub(super) radial: bool,
    /// What is done to the valves; nothing where the engine alone is described.
    pub(super) valves: Option<ValveWork>,
    /// What is read of the condition.
    pub(super) condition: Option<ConditionWork>,
    /// Whether the ignition is worked on.
    pub(super) ignition: bool,
    /// Whether the mixture is worked on.
    pub(super) mixture: bool,
}

/// What is done to the valves.
#[derive(Clone, Copy, Default)]
pub(super) struct ValveWork {
    /// Whether shims set the lash, else screws.
    pub(super) shims: bool,
    /// Whether there is a valve that no leaf passes.
    pub(super) no_leaf: bool,
    /// Whether the metal may burn a hand.
    pub(super) hot: bool,
}

/// What is read of the condition.
#[derive(Clone, Copy, Default)]
pub(super) struct ConditionWork {
    /// Whether the engine is cranked.
    pub(super) cranked: bool,
    /// Whether air is let into cylinders.
    pub(super) aired: bool,
    /// Whether the head's bolts are tightened.
    pub(super) bolts: bool,
}

/// The cautions of a job.
pub(super) fn cautions(facts: Facts) -> Vec<&'static str> {
    let mut all = Vec::new();
    if facts.radial {
        all.push(
            "Hydraulic lock first: oil and fuel run into the lower cylinders. Take a plug out of each \
             of them and turn slowly by hand; any unusual resistance means stop; never clear it by \
             turning back.",
        );
    }
    all.push(no_start(facts.machine.ignition));
    all.push(held(facts.machine.stands_in));
    all.push(turning(facts.machine.started_by));
    if let Some(work) = facts.valves {
        if work.no_leaf {
            all.push(
                "A valve no leaf passes may stand on its cam or be held off its seat: make sure that \
                 it is closed; if there is still no lash, test compression or leak-down before the \
                 engine runs.",
            );
        }
        all.push(if work.shims {
            "Never turn the crank with a shim or bucket out. Change a shim with its valve closed and \
             the piston away from top dead centre: a spring pressed down further lets the valve touch \
             the piston."
        } else {
            "Check every gap again after the lock nut is tight: tightening moves the screw. The leaf \
             decides, not the turn."
        });
        if work.hot {
            all.push("Hot metal and oil burn: protect hands and keep fuel away.");
        }
        all.push(
            "Before starting, turn two full turns by hand: nothing may bind. Run it only where the \
             exhaust gas can get out.",
        );
    }
    if let Some(work) = facts.condition {
        if work.bolts {
            all.push(BOLTS);
        }
        if work.cranked {
            all.push(CRANKED);
        }
        if work.aired {
            all.push(AIRED);
        }
    }
    if facts.ignition {
        all.extend(IGNITION);
    }
    if facts.mixture {
        all.extend(MIXTURE);
    }
    all.push(
        "The engine maker's manual, local codes and licensed practice come first; this sheet only \
         computes.",
    );
    all
}

/// What reading the condition can do to a person or an engine. Common practice, no source.
const BOLTS: &str = "Head bolts by the maker's manual alone: its torque, order, and whether cold or warm, oiled or \
     dry. Never tighten stretch bolts again unless it says so. The valves are measured after it.";
const CRANKED: &str = "To crank for compression, all plugs out: coil or magneto dead, every lead earthed; fuel shut \
     off, as mist from the plug holes lights. Only then is a battery on, for so long; nobody and nothing near fan, \
     belts or propeller; a warm engine burns.";
const AIRED: &str = "Air in a cylinder turns the crank with more than a hand holds, and a propeller with it: let it \
     in slowly, hands and tools off, nobody in its way. Take off what holds the crank before it is cranked.";

/// What ignition can do to a person. Common practice, no source.
const IGNITION: [&str; 3] = [
    "High voltage: leads, cap and coil can throw you against the fan, and are a danger to anyone with a \
     pacemaker. Switch off before touching; hold nothing while it runs.",
    "Running for the lamp: nothing loose near fan, belts and pulley, and nobody in line with them; parts \
     look still under a strobe lamp and are not. Hold the brake, out of gear.",
    "Sparks light fuel: no leaks, no open carburettor, no battery gas; exhaust gas out of the room. Never \
     crank an electronic ignition with an open lead.",
];

/// What work on the mixture can do to a person. Common practice, no source.
const MIXTURE: [&str; 3] = [
    "Petrol vapour creeps along the floor and lights far away: no flame, no spark, no hot lamp; catch what \
     drips, air the room, an extinguisher at hand. Never pour fuel into a running engine.",
    "It runs while you adjust: exhaust gas out of the room, it kills unnoticed; nothing loose near fan and \
     belts; manifold and exhaust burn. Face away from the intake: it can spit back.",
    "A lean mixture under load melts pistons: after a change, try it on the rich side first and read the \
     plugs.",
];

/// Nobody and nothing may start it.
const fn no_start(ignition: Option<FiredBy>) -> &'static str {
    match ignition {
        None => {
            "Make sure that it cannot fire: ignition off, battery off, plug leads earthed, a magneto \
             earthed, a diesel's fuel shut off. A hot or primed engine can fire."
        }
        Some(FiredBy::Battery) => {
            "Ignition off and battery off, against a second hand at the starter; earth the plug leads."
        }
        Some(FiredBy::Electronic) => {
            "Ignition off and battery off; earth every plug lead before the crank turns: an open lead \
             can destroy an electronic ignition."
        }
        Some(FiredBy::Magneto) => {
            "Earth the magneto and take the plug leads off: a broken earth lead leaves it live, and \
             there is no key that stops it."
        }
        Some(FiredBy::Diesel) => {
            "Shut off the fuel, hold the decompressor where there is one, and take the battery off: a \
             warm diesel fires without any ignition."
        }
    }
}

/// It may not move, and nothing it drives may.
const fn held(stands_in: Option<StandsIn>) -> &'static str {
    match stands_in {
        None => {
            "Out of gear, and held so that nothing moves: chocks, rated stands, never a jack. Stay \
             clear of fans and belts; treat a propeller as live at all times."
        }
        Some(StandsIn::Vehicle) => {
            "Gearbox in neutral, wheels chocked; a raised vehicle or engine rests on rated stands, \
             never on a jack. Stay clear of fan and belts."
        }
        Some(StandsIn::Boat) => {
            "Shaft out of gear and nobody in the water at the propeller; air the bilge of fuel vapour \
             before anything can spark."
        }
        Some(StandsIn::Aircraft) => {
            "Chocks in and tail tied down; treat the propeller as live at all times and stand out of \
             its arc whenever the crank turns."
        }
        Some(StandsIn::Stationary) => {
            "Belt off or clutch out, so that nothing driven turns; stay clear of flywheel and belts."
        }
    }
}

/// How the crank is turned.
const fn turning(started_by: Option<StartedBy>) -> &'static str {
    match started_by {
        Some(StartedBy::HandCrank) => {
            "Turn in the running direction only, plugs out where the manual allows it; past the mark, \
             go on two full turns, do not turn back. Pull the hand crank up, with the thumb beside \
             the fingers: it can kick."
        }
        Some(StartedBy::Kick) => {
            "Turn in the running direction only, plugs out where the manual allows it; past the mark, \
             go on two full turns, do not turn back. Never turn it by the kick lever: it can kick."
        }
        _ => {
            "Turn in the running direction only, plugs out where the manual allows it; past the mark, \
             go on two full turns, do not turn back."
        }
    }
}

/// Fewest cylinders of a row that a four-stroke radial has in place of an in-line engine.
const RADIAL_FROM: usize = 5;

/// Whether nothing says how the cylinders stand, and their count is that of a radial of one row.
pub(super) fn may_be_radial(engine: &Engine) -> bool {
    let cylinders = engine.cylinders();
    let is_unknown = cylinders.iter().all(|c| c.bank.is_none()) && engine.cam_ring().is_none();
    is_unknown && cylinders.len() >= RADIAL_FROM && cylinders.len() % 2 == 1
}

/// Whether cylinders stand all round the crank, so that some hang below it however it is mounted.
pub(super) fn is_radial(engine: &Engine) -> bool {
    if engine.cam_ring().is_some() {
        return true;
    }
    let banks = engine.cylinders().iter().map(|c| c.bank);
    let Some(mut banks) = banks.collect::<Option<Vec<AxisAngle>>>() else {
        return false;
    };
    banks.sort_by(|a, b| a.degrees().total_cmp(&b.degrees()));
    let (Some(first), Some(last)) = (banks.first(), banks.last()) else {
        return false;
    };
    let over_the_end = first.degrees() + 360.0 - last.degrees();
    let between = banks.windows(2).map(|pair| match pair {
        [a, b] => b.degrees() - a.degrees(),
        _ => 0.0,
    });
    between.fold(over_the_end, f64::max) < 180.0
}
