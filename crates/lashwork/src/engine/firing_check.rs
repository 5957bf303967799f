//! Checks the stated parts, gathers every problem, and works out when each cylinder fires.

use super::geometry::{Way, first_misfit, tie, ways};
use super::{CylinderIndex, EngineAssumption, EngineError, EngineParts, Intervals};
use crate::quantity::{AxisAngle, CrankAngle, CyclePosition};
use alloc::string::ToString;
use alloc::vec::Vec;

/// Listed intervals may miss the cycle by this much, in degrees: sevenths written with three
/// decimals. This library's choice.
const SUM_SLACK: f64 = 0.01;
/// Geometry and intervals agree within this, in degrees: bank angles written with two decimals.
/// This library's choice.
const AGREEMENT: f64 = 0.1;

/// What was worked out: the order as places, and firing positions along the order.
#[derive(Default)]
pub(super) struct Firing {
    pub(super) order: Vec<CylinderIndex>,
    pub(super) along_order: Vec<f64>,
    pub(super) assumptions: Vec<EngineAssumption>,
}

/// Checks the parts.
pub(super) fn firing(parts: &EngineParts) -> Result<Firing, Vec<EngineError>> {
    let mut problems = label_problems(parts);
    let order = order(parts, &mut problems);
    interval_problems(parts, &mut problems);
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut firing = Firing {
        order,
        ..Firing::default()
    };
    let count = firing.order.len();
    let cycle = parts.cycle.degrees();
    match &parts.intervals {
        Intervals::Even => {
            firing.along_order = (0..count)
                .map(|i| cycle * i as f64 / count as f64)
                .collect();
            compare(parts, &mut firing)?;
        }
        Intervals::Listed(listed) => {
            let mut at = 0.0;
            for interval in listed {
                firing.along_order.push(at);
                at += interval.degrees();
            }
            if (cycle - at).abs() > 1e-9 {
                firing.assumptions.push(EngineAssumption::IntervalsRounded {
                    rest: CrankAngle::computed(cycle - at),
                });
            }
            compare(parts, &mut firing)?;
        }
        Intervals::FromGeometry => choose(parts, &mut firing)?,
    }
    Ok(firing)
}

fn label_problems(parts: &EngineParts) -> Vec<EngineError> {
    let mut problems = Vec::new();
    if parts.cylinders.is_empty() {
        problems.push(EngineError::NoCylinders);
    }
    for (i, cylinder) in parts.cylinders.iter().enumerate() {
        let before = parts.cylinders.iter().take(i);
        if before.filter(|c| c.label == cylinder.label).count() == 1 {
            problems.push(EngineError::LabelTwice {
                cylinder: cylinder.label.clone(),
            });
        }
    }
    problems
}

fn order(parts: &EngineParts, problems: &mut Vec<EngineError>) -> Vec<CylinderIndex> {
    let mut places = Vec::new();
    for (i, label) in parts.order.iter().enumerate() {
        let cylinder = || label.clone();
        let earlier = parts.order.iter().take(i).filter(|l| *l == label).count();
        match parts.cylinders.iter().position(|c| c.label == *label) {
            None if earlier == 0 => problems.push(EngineError::OrderUnknown {
                cylinder: cylinder(),
            }),
            Some(_) if earlier == 1 => problems.push(EngineError::OrderTwice {
                cylinder: cylinder(),
            }),
            Some(place) if earlier == 0 => places.push(CylinderIndex::new(place)),
            _ => {}
        }
    }
    for (i, cylinder) in parts.cylinders.iter().enumerate() {
        let again = parts
            .cylinders
            .iter()
            .take(i)
            .any(|c| c.label == cylinder.label);
        if !again && !parts.order.contains(&cylinder.label) {
            problems.push(EngineError::OrderMissing {
                cylinder: cylinder.label.clone(),
            });
        }
    }
    places
}

fn interval_problems(parts: &EngineParts, problems: &mut Vec<EngineError>) {
    match &parts.intervals {
        Intervals::Even => {}
        Intervals::Listed(listed) => {
            if listed.len() != parts.cylinders.len() {
                problems.push(EngineError::IntervalCount {
                    got: listed.len(),
                    wanted: parts.cylinders.len(),
                });
            }
            for (i, interval) in listed.iter().enumerate() {
                if interval.degrees() <= 0.0 {
                    let name = parts.order.get(i).map(ToString::to_string);
                    problems.push(EngineError::IntervalNotPositive {
                        after: name.unwrap_or_else(|| alloc::format!("at place {}", i + 1)),
                        got: *interval,
                    });
                }
            }
            let sum: f64 = listed.iter().map(|a| a.degrees()).sum();
            if (sum - parts.cycle.degrees()).abs() > SUM_SLACK {
                problems.push(EngineError::IntervalSum {
                    sum,
                    cycle: CrankAngle::computed(parts.cycle.degrees()),
                });
            }
        }
        Intervals::FromGeometry => {
            for cylinder in parts.cylinders.iter().filter(|c| c.tdc_turn().is_none()) {
                problems.push(EngineError::GeometryMissing {
                    cylinder: cylinder.label.clone(),
                });
            }
        }
    }
}

/// Top dead centres along the order after that of its first cylinder, from 0 up to 360; none if a
/// cylinder lacks geometry.
fn relative_tdcs(parts: &EngineParts, order: &[CylinderIndex]) -> Option<Vec<f64>> {
    let turn = |i: &CylinderIndex| parts.cylinders.get(i.get())?.tdc_turn();
    let first: AxisAngle = order.first().and_then(turn)?;
    order
        .iter()
        .map(|i| Some((turn(i)? - first).within_turn()))
        .collect()
}

/// Compares positions by order and intervals with the crank, if all cylinders carry geometry.
fn compare(parts: &EngineParts, firing: &mut Firing) -> Result<(), Vec<EngineError>> {
    let Some(relative) = relative_tdcs(parts, &firing.order) else {
        let without = parts.cylinders.iter().find(|c| c.tdc_turn().is_none());
        let some = parts.cylinders.iter().any(|c| c.tdc_turn().is_some());
        if let (true, Some(cylinder)) = (some, without) {
            firing
                .assumptions
                .push(EngineAssumption::GeometryNotCompared {
                    without: cylinder.label.clone(),
                });
        }
        return Ok(());
    };
    let mut problems = Vec::new();
    for ((label, position), by_crank) in parts.order.iter().zip(&firing.along_order).zip(relative) {
        let by_order = position - 360.0 * libm::floor(position / 360.0);
        let apart = (by_order - by_crank).abs();
        if apart.min(360.0 - apart) > AGREEMENT {
            problems.push(EngineError::GeometryDisagrees {
                cylinder: label.clone(),
                first: parts.order.first().unwrap_or(label).clone(),
                by_order: CrankAngle::computed(by_order),
                by_geometry: CrankAngle::computed(by_crank),
            });
        }
    }
    if problems.is_empty() {
        Ok(())
    } else {
        Err(problems)
    }
}

/// Chooses the turn of each cylinder from the crank and notes what else was possible.
fn choose(parts: &EngineParts, firing: &mut Firing) -> Result<(), Vec<EngineError>> {
    // Geometry and order were checked before; without them there is nothing to place.
    let Some(relative) = relative_tdcs(parts, &firing.order) else {
        return Ok(());
    };
    let cycle = parts.cycle.degrees();
    let found = ways(&relative, cycle);
    let Some((best, others)) = found.split_first() else {
        return Err(misfit(parts, &relative));
    };
    firing.along_order.clone_from(&best.positions);
    for (place, label) in parts.order.iter().enumerate() {
        let Some(chosen) = best.positions.get(place) else {
            continue;
        };
        let moved = |w: &&Way| {
            w.positions
                .get(place)
                .is_some_and(|p| (p - chosen).abs() > 1.0)
        };
        let alternatives: Vec<&Way> = others.iter().filter(moved).collect();
        if let Some(other) = alternatives.first().and_then(|w| w.positions.get(place)) {
            firing.assumptions.push(EngineAssumption::TurnChosen {
                cylinder: label.clone(),
                first: parts.order.first().unwrap_or(label).clone(),
                chosen: CyclePosition::new(parts.cycle, CrankAngle::computed(*chosen)),
                other: CyclePosition::new(parts.cycle, CrankAngle::computed(*other)),
                tied: alternatives.iter().any(|w| tie(w, best)),
            });
        }
    }
    Ok(())
}

fn misfit(parts: &EngineParts, relative: &[f64]) -> Vec<EngineError> {
    let place = first_misfit(relative, parts.cycle.degrees()).unwrap_or(relative.len() - 1);
    let before = place.saturating_sub(1);
    let tdc = |i: usize| CrankAngle::computed(relative.get(i).copied().unwrap_or(0.0));
    match (parts.order.get(place), parts.order.get(before)) {
        (Some(cylinder), Some(previous)) => alloc::vec![EngineError::OrderAgainstGeometry {
            cylinder: cylinder.clone(),
            previous: previous.clone(),
            tdc: tdc(place),
            previous_tdc: tdc(before),
        }],
        _ => alloc::vec![EngineError::NoCylinders],
    }
}
