//! The crank check.

use super::value;
use super::valves::{Valves, valve};
use crate::document::{BelievedDoc, CallDoc, CrankCheckDoc, RockerDoc};
use lashwork::engine::{CylinderLabel, Engine};
use lashwork::job::Problem;
use lashwork::quantity::{CrankAngle, CyclePosition};
use lashwork::rockers::{Believed, Call, CrankCheck, Look, WrongCall};

/// Most rockers in a document: every rocker of the greatest engine several times.
const MAX_ROCKERS: usize = 500;
/// Most other firing orders in a document.
const MAX_ORDERS: usize = 20;

/// The check in typed values. Without an engine only what needs none is checked.
pub(super) fn check(
    doc: CrankCheckDoc,
    engine: Option<&Engine>,
    valves: Option<&Valves>,
    problems: &mut Vec<Problem>,
) -> Option<CrankCheck> {
    let before = problems.len();
    let believed = believed(&doc.believed, engine, problems);
    let wrong_call = doc
        .wrong_call
        .and_then(|p| value!(problems, "/crank_check/wrong_call", WrongCall::new(p)));
    let mut looks = Vec::new();
    if is_within(doc.rockers.len(), MAX_ROCKERS, "rockers", problems) {
        for (i, rocker) in doc.rockers.iter().enumerate() {
            let place = format!("/crank_check/rockers/{i}");
            looks.extend(look(rocker, engine, valves, &place, problems));
        }
    }
    let orders = doc.also_orders.unwrap_or_default();
    let mut also_orders = Vec::new();
    if is_within(orders.len(), MAX_ORDERS, "also_orders", problems) {
        for (i, order) in orders.iter().enumerate() {
            let place = format!("/crank_check/also_orders/{i}");
            if super::is_short(order, &place, problems) {
                also_orders.push(labels(order, &place, problems));
            }
        }
    }
    if problems.len() > before {
        return None;
    }
    Some(CrankCheck {
        believed: believed?,
        looks,
        wrong_call,
        also_orders,
    })
}

fn is_within(count: usize, most: usize, field: &str, problems: &mut Vec<Problem>) -> bool {
    if count > most {
        problems.push(Problem::new(
            format!("/crank_check/{field}"),
            "document.too-many",
            format!("the list has {count} items, more than {most}"),
            format!("write at most {most}"),
        ));
    }
    count <= most
}

fn labels(order: &[String], place: &str, problems: &mut Vec<Problem>) -> Vec<CylinderLabel> {
    let mut made = Vec::new();
    for (k, label) in order.iter().enumerate() {
        let place = format!("{place}/{k}");
        made.extend(value!(problems, place, CylinderLabel::new(label)));
    }
    made
}

fn believed(
    doc: &BelievedDoc,
    engine: Option<&Engine>,
    problems: &mut Vec<Problem>,
) -> Option<Believed> {
    match (&doc.cylinder, doc.deg) {
        (Some(label), None) => {
            let place = "/crank_check/believed/cylinder";
            let found = super::cylinder(engine?, label, place, problems);
            found.map(Believed::FiringTdc)
        }
        (None, Some(degrees)) => {
            let cycle = engine?.cycle();
            if !(0.0..cycle.degrees()).contains(&degrees) {
                problems.push(Problem::new(
                    "/crank_check/believed/deg",
                    "valve.outside-cycle",
                    format!(
                        "{degrees} deg is outside the cycle of {} deg",
                        cycle.degrees()
                    ),
                    "give crank degrees after the firing TDC of the first cylinder in the order",
                ));
                return None;
            }
            let angle = CrankAngle::from_degrees(degrees).ok()?;
            Some(Believed::At(CyclePosition::new(cycle, angle)))
        }
        _ => {
            problems.push(Problem::new(
                "/crank_check/believed",
                "valve.believed",
                "a believed position is either a cylinder's firing TDC or a number of degrees",
                "give exactly one of \"cylinder\" and \"deg\"",
            ));
            None
        }
    }
}

fn look(
    doc: &RockerDoc,
    engine: Option<&Engine>,
    valves: Option<&Valves>,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Look> {
    let valve = valve(
        (&doc.cylinder, doc.valve, doc.number),
        engine,
        valves,
        place,
        problems,
    );
    Some(Look {
        valve: valve?,
        call: match doc.rocker {
            CallDoc::Free => Call::Free,
            CallDoc::Held => Call::Held,
        },
    })
}
