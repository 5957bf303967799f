//! The cylinders of which the lash of both valves is known.

use super::Elsewhere;
use crate::engine::CylinderLabel;
use crate::job::assumptions::Assumptions;
use crate::job::clearance::LashNow;
use crate::quantity::Lash;
use crate::tolerance::Estimate;
use crate::valve::ValveKind;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The lash of the two kinds of valve.
#[derive(Clone, Copy)]
pub(super) struct Pair {
    pub(super) intake: Estimate<Lash>,
    pub(super) exhaust: Estimate<Lash>,
}

/// A cylinder.
pub(super) struct One {
    pub(super) label: CylinderLabel,
    pub(super) name: String,
    pub(super) now: Pair,
    /// With what is out of band at what the book sets; none if nothing is.
    pub(super) set: Option<Pair>,
}

/// The cylinders, and why others are not among them.
pub(super) fn gathered(
    elsewhere: Elsewhere<'_>,
    assumptions: &mut Assumptions,
) -> (Vec<One>, Vec<String>) {
    let (mut told, mut not_told) = (Vec::new(), Vec::new());
    for cylinder in elsewhere.engine.cylinders() {
        let name = format!("cylinder {}", cylinder.label);
        let of = |kind: ValveKind| {
            let all = elsewhere.lash.iter();
            let own = all.filter(|one| one.kind == kind && one.cylinder == cylinder.label.as_str());
            own.collect::<Vec<&LashNow>>()
        };
        let (intake, exhaust) = (of(ValveKind::Intake), of(ValveKind::Exhaust));
        if intake.is_empty() || exhaust.is_empty() {
            not_told.push(format!("{name}: not both of its valves were read"));
            continue;
        }
        if intake.len() > 1 || exhaust.len() > 1 {
            assumptions.add(
                "condition.events-first-valve",
                "of several valves of a kind the one with the least lash counts: it opens first and closes last",
            );
        }
        let is_out = intake.iter().chain(&exhaust).any(|one| one.is_out);
        let pair = |is_set: bool| {
            Some(Pair {
                intake: least(&intake, is_set)?,
                exhaust: least(&exhaust, is_set)?,
            })
        };
        match pair(false) {
            Some(now) => told.push(One {
                label: cylinder.label.clone(),
                name,
                now,
                set: pair(true).filter(|_| is_out),
            }),
            None => not_told.push(format!(
                "{name}: a reading with one end does not say where its valves open and close"
            )),
        }
    }
    (told, not_told)
}

/// The least lash of valves; none if one of them has one end.
fn least(valves: &[&LashNow], is_set: bool) -> Option<Estimate<Lash>> {
    let of = |one: &&LashNow| {
        let now = one.lash?;
        match one.book.filter(|_| is_set && one.is_out) {
            // Set with the same leaves, by the same hand.
            Some(book) => Estimate::between(book, book, now.normal_uncertainty()).ok(),
            None => Some(now),
        }
    };
    let all: Option<Vec<Estimate<Lash>>> = valves.iter().map(of).collect();
    let middle = |one: &Estimate<Lash>| one.centre().map_or(f64::INFINITY, Lash::mm);
    (all?.into_iter()).min_by(|one, other| middle(one).total_cmp(&middle(other)))
}
