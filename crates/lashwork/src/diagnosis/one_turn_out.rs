//! Which valves are off their base circle when a stop is one turn out.

use super::WrongStroke;
use crate::engine::{CylinderIndex, Engine};
use crate::quantity::{CrankAngle, CyclePosition};
use crate::valve::{CamEvents, StopPlan, ValveId};
use alloc::vec::Vec;

/// The ways of being one turn out: at all stops of the walk from cylinder to cylinder, at the stop
/// of one cylinder only, and at both stops of the two-position table if there is one.
///
/// A valve counts as off its base circle between its opening and closing events, without a guard
/// for ramps. Ways that lift nothing, or the same valves as an earlier one, are left out.
///
/// # Source
/// Geometry of rotation: at a crank mark the engine may stand in either turn of its cycle.
///
/// # Examples
/// ```
/// use lashwork::engine::Engine;
/// use lashwork::diagnosis::one_turn_out;
/// use lashwork::quantity::CrankAngle;
/// use lashwork::valve::{CamEvents, ValveTrain};
///
/// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).unwrap();
/// let events = CamEvents::assumed();
/// let train = ValveTrain::new(&engine, &events, CrankAngle::from_degrees(20.0)?, 1, 1)?;
/// let walk = train.cylinder_by_cylinder(None);
/// let table = train.two_position(engine.order()[0]);
/// let ways = one_turn_out(&engine, &events, &walk, table.as_ref());
/// // At overlap TDC both valves are off their base circle: all eight, then two for each cylinder.
/// // The table would lift all eight as well, so it is no way of its own here.
/// let lifted: Vec<usize> = ways.iter().map(|way| way.lifted.len()).collect();
/// assert_eq!(lifted, [8, 2, 2, 2, 2]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn one_turn_out(
    engine: &Engine,
    events: &CamEvents,
    walk: &StopPlan,
    table: Option<&StopPlan>,
) -> Vec<WrongStroke> {
    let all = lifted(engine, events, walk);
    let mut ways = alloc::vec![WrongStroke {
        cylinder: None,
        two_position: false,
        lifted: all.clone(),
    }];
    let mut cylinders: Vec<CylinderIndex> = all.iter().map(|v| v.cylinder).collect();
    cylinders.sort();
    cylinders.dedup();
    ways.extend(cylinders.into_iter().map(|cylinder| {
        WrongStroke {
            cylinder: Some(cylinder),
            two_position: false,
            lifted: all
                .iter()
                .copied()
                .filter(|v| v.cylinder == cylinder)
                .collect(),
        }
    }));
    ways.extend(table.map(|table| WrongStroke {
        cylinder: None,
        two_position: true,
        lifted: lifted(engine, events, table),
    }));
    let mut kept: Vec<WrongStroke> = Vec::new();
    for way in ways {
        if !way.lifted.is_empty() && kept.iter().all(|k| k.lifted != way.lifted) {
            kept.push(way);
        }
    }
    kept
}

fn lifted(engine: &Engine, events: &CamEvents, plan: &StopPlan) -> Vec<ValveId> {
    let mut found: Vec<ValveId> = plan
        .stops
        .iter()
        .flat_map(|stop| {
            let stands = stop.position.turned(CrankAngle::TURN);
            let checks = stop.checks.iter().map(|check| check.valve);
            checks.filter(move |valve| {
                let phase = engine.own_phase(valve.cylinder, stands);
                is_open(events, *valve, phase)
            })
        })
        .collect();
    found.sort_unstable();
    found
}

fn is_open(events: &CamEvents, valve: ValveId, phase: CyclePosition) -> bool {
    let since = events.opens(valve.kind).forward_to(phase).degrees();
    since > 0.0 && since < events.duration(valve.kind).degrees()
}
