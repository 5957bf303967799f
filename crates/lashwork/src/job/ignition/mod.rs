//! Ignition: step two of the service. A folder a question; each hears of the steps it leans on
//! ([`order::Before`]), so that no amount is given on ground that is not settled.
//!
//! A question is a folder with `mod.rs` (what is asked, and `report(asked, known, &before, assumptions,
//! problems) -> Option<its report>` and `standing(&its report)`), `answer.rs` (its report, with
//! [`IgnitionAdvice`] and [`MeasuredReport`]) and `sheet.rs`; a field in [`Ignition`] and
//! [`IgnitionReport`], its places in [`IgnitionPlace`], a file in `lashwork-wire/src/ignition`; and a line
//! in `report` below, which notes its standing before the next question asks what comes before it.

mod advice;
mod cam;
mod contacts;
mod electrics;
mod judged;
mod order;
mod place;
mod point;
mod report;
mod request;
pub(in crate::job) mod sheet;
mod timing;

pub use advice::IgnitionAdvice;
pub use contacts::{
    Contacts, ContactsReport, DwellRead, OtherScaleReport, PrintedPair, SparkShiftReport,
};
pub use electrics::{
    Charge, ChargeReport, Coil, Condenser, CondenserReport, Electrics, ElectricsReport, Plug,
    PlugReport, Pressure, Resistor, ResistorReport, WeakReport,
};
pub use judged::MeasuredReport;
pub use order::{IgnitionStep, IgnitionStopReport, Standing, StepReport};
pub use place::{ContactsField, ElectricsField, IgnitionPlace, TimingField};
pub use point::{FlashReport, IgnitionPoint, IgnitionPointReport, WayReport};
pub use report::IgnitionReport;
pub use request::{Distributor, Ignition, Settled};
pub use timing::{
    AdvanceReport, AdvanceRowReport, BodyTurnReport, CurveCauseReport, Timing, TimingRead,
    TimingReport, TimingSlipReport,
};

use super::assumptions::Assumptions;
use super::clearance::ClearanceReport;
use super::known::Known;
use super::machine::FiredBy;
use super::place::Place;
use super::problem::Problem;
use crate::tolerance::Verdict;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use order::Order;

/// Works out the section; `valves` is what the clearance section found.
pub(super) fn report(
    asked: &Ignition,
    known: Known<'_>,
    valves: Option<&ClearanceReport>,
    assumptions: &mut Assumptions,
) -> Result<IgnitionReport, Vec<Problem>> {
    let mut problems = Vec::new();
    if known.fired_by == Some(FiredBy::Diesel) {
        problems.push(Problem::new(
            Place::Ignition(IgnitionPlace::Section),
            "ignition.diesel",
            "a diesel has no ignition to set",
            "leave the ignition section out, or say what lights the charge",
        ));
    }
    let mut order = Order::default();
    order.note(IgnitionStep::Valves, valves_standing(asked.valves, valves));
    let contacts = asked.contacts.as_ref().and_then(|contacts| {
        let before = order.before(IgnitionStep::Contacts);
        let distributor = &asked.distributor;
        contacts::report(
            contacts,
            known,
            distributor,
            &before,
            assumptions,
            &mut problems,
        )
    });
    if let Some(found) = &contacts {
        order.note(IgnitionStep::Contacts, contacts::standing(found));
    }
    let electrics = asked.electrics.as_ref().and_then(|electrics| {
        let distributor = &asked.distributor;
        electrics::report(electrics, known, distributor, assumptions, &mut problems)
    });
    if let Some(found) = &electrics {
        order.note(IgnitionStep::Electrics, electrics::standing(found));
    }
    let timing = asked.timing.as_ref().and_then(|timing| {
        let before = order.before(IgnitionStep::Timing);
        let distributor = &asked.distributor;
        timing::report(
            timing,
            known,
            distributor,
            &before,
            assumptions,
            &mut problems,
        )
    });
    if let Some(text) = asked.timing.as_ref().and_then(timing::stop) {
        order.stop(text, Vec::from([IgnitionStep::Timing]));
    }
    if let Some(found) = &timing {
        order.note(IgnitionStep::Timing, timing::standing(found));
        if let Some(curve) = &found.curve {
            order.note(IgnitionStep::Advance, timing::advance_standing(curve));
        }
    }
    let point = asked.point.as_ref().and_then(|point| {
        let aim = asked.timing.as_ref().and_then(Timing::aim);
        let distributor = &asked.distributor;
        point::report(point, known, distributor, aim, assumptions, &mut problems)
    });
    if !problems.is_empty() {
        return Err(problems);
    }
    let (stop_work, steps) = order.told();
    Ok(IgnitionReport {
        stop_work,
        steps,
        contacts,
        electrics,
        timing,
        point,
    })
}

/// Where the valve clearances stand: by what the clearance section found, else by what is stated.
fn valves_standing(stated: Option<Settled>, found: Option<&ClearanceReport>) -> (Standing, String) {
    let Some(found) = found else {
        return match stated {
            Some(Settled::Yes) => (Standing::Settled, String::from("stated as settled")),
            Some(Settled::No) => (Standing::NotSettled, String::from("stated as not settled")),
            None => (Standing::NotKnown, String::from("not stated")),
        };
    };
    let is_good = |valve: &&super::clearance::ValveReport| {
        !valve.judged.is_empty() && valve.judged.iter().all(|j| j.verdict == Verdict::InBand)
    };
    let good = found.valves.iter().filter(is_good).count();
    let all = found.valves.len() + found.not_read.len();
    if good == all && found.stop_work.is_empty() {
        (Standing::Settled, format!("{all} of {all} in band"))
    } else {
        (
            Standing::NotSettled,
            format!("{good} of {all} found in band"),
        )
    }
}
