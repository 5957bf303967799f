//! The crank check.

use super::valves::{Valves, valve};
use crate::engine::cylinder;
use crate::problem::{Problem, is_short, is_within, value};
use crate::word::W;
use lashwork::engine::{CylinderLabel, Engine};
use lashwork::quantity::{CrankAngle, CyclePosition};
use lashwork::rockers::{AssumedPosition, CrankCheck, Feel, MisreadRisk, RockerCheck};
use lashwork::valve::ValveKind;

named!(Feel as "FeelDoc" {
    /// Free: it could be moved by its lash.
    Free = "free",
    /// Tight: it was pressed against the valve and had no lash.
    Tight = "tight",
});

parts! {
    /// An assumed crank position and the rockers checked there.
    CrankCheckDoc {
        believed: BelievedDoc,
        /// Chance that one rocker is called wrongly, above 0 and below 0.5.
        wrong_call: Option<f64>,
        /// The rockers checked; one checked twice is listed twice.
        rockers: Vec<RockerDoc>,
        /// Firing orders the engine may have instead.
        also_orders: Option<Vec<Vec<String>>>,
    }
    /// Firing top dead centre of a cylinder, or crank degrees after that of the first cylinder in the
    /// firing order.
    BelievedDoc {
        cylinder: Option<String>,
        deg: Option<f64>,
    }
    /// One check of one rocker.
    RockerDoc {
        cylinder: String,
        valve: W<ValveKind>,
        /// Which of its kind in the cylinder, from 1; needed where there are several.
        number: Option<u8>,
        rocker: W<Feel>,
    }
}

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
    let wrong_call = doc.wrong_call.and_then(|p| {
        value(
            problems,
            "/clearance/crank_check/wrong_call",
            MisreadRisk::new(p),
        )
    });
    let list = |field: &str| format!("/clearance/crank_check/{field}");
    let mut checks = Vec::new();
    if is_within(doc.rockers.len(), MAX_ROCKERS, &list("rockers"), problems) {
        for (i, rocker) in doc.rockers.iter().enumerate() {
            let place = format!("/clearance/crank_check/rockers/{i}");
            checks.extend(rocker_check(rocker, engine, valves, &place, problems));
        }
    }
    let orders = doc.also_orders.unwrap_or_default();
    let mut also_orders = Vec::new();
    if is_within(orders.len(), MAX_ORDERS, &list("also_orders"), problems) {
        for (i, order) in orders.iter().enumerate() {
            let place = format!("/clearance/crank_check/also_orders/{i}");
            if is_short(order, &place, problems) {
                also_orders.push(labels(order, &place, problems));
            }
        }
    }
    if problems.len() > before {
        return None;
    }
    Some(CrankCheck {
        believed: believed?,
        checks,
        wrong_call,
        also_orders,
    })
}

fn labels(order: &[String], place: &str, problems: &mut Vec<Problem>) -> Vec<CylinderLabel> {
    let mut made = Vec::new();
    for (k, label) in order.iter().enumerate() {
        let place = format!("{place}/{k}");
        made.extend(value(problems, place, CylinderLabel::new(label)));
    }
    made
}

fn believed(
    doc: &BelievedDoc,
    engine: Option<&Engine>,
    problems: &mut Vec<Problem>,
) -> Option<AssumedPosition> {
    match (&doc.cylinder, doc.deg) {
        (Some(label), None) => {
            let place = "/clearance/crank_check/believed/cylinder";
            let found = cylinder(engine?, label, place, problems);
            found.map(AssumedPosition::FiringTdc)
        }
        (None, Some(degrees)) => {
            let cycle = engine?.cycle();
            if !(0.0..cycle.degrees()).contains(&degrees) {
                problems.push(Problem::new(
                    "/clearance/crank_check/believed/deg",
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
            Some(AssumedPosition::At(CyclePosition::new(cycle, angle)))
        }
        _ => {
            problems.push(Problem::new(
                "/clearance/crank_check/believed",
                "valve.believed",
                "an assumed position is either a cylinder's firing TDC or a number of degrees",
                "give exactly one of \"cylinder\" and \"deg\"",
            ));
            None
        }
    }
}

fn rocker_check(
    doc: &RockerDoc,
    engine: Option<&Engine>,
    valves: Option<&Valves>,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<RockerCheck> {
    let valve = valve(
        (&doc.cylinder, doc.valve.0, doc.number),
        engine,
        valves,
        place,
        problems,
    );
    Some(RockerCheck {
        valve: valve?,
        feel: doc.rocker.0,
    })
}
