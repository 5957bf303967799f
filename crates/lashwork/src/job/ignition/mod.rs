//! Ignition: step two of the service. A folder a question; each hears of the steps it leans on
//! (`order::Before`), so that no amount is given on ground that is not settled.
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
mod evenness;
mod judged;
mod leads;
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
pub use evenness::{
    EvenReadings, Evenness, EvennessReport, LobeFiringReport, OnceRoundReport, UnevenGroupReport,
    UnevenReport,
};
pub use judged::MeasuredReport;
pub use leads::{LeadGroupReport, LeadStateReport, Leads, LeadsReport, NextLookReport};
pub use order::{IgnitionStep, IgnitionStopReport, Standing, StepReport};
pub use place::{
    ContactsField, ElectricsField, EvenWay, EvennessField, IgnitionPlace, LeadsField, TimingField,
};
pub use point::{FlashReport, IgnitionPoint, IgnitionPointReport, WayReport};
pub use report::IgnitionReport;
pub use request::{Distributor, Ignition, Settled};
pub use timing::{
    AdvanceBandReport, AdvanceLineReport, AdvanceReport, AdvanceRowReport, BodyTurnReport,
    CurveCauseReport, Timing, TimingRead, TimingReport, TimingSlipReport,
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
use order::{Before, Order};

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
    let mut work = Work {
        known,
        distributor: &asked.distributor,
        order: Order::default(),
        assumptions,
        problems,
    };
    let valves = valves_standing(asked.valves, valves);
    work.order.note(IgnitionStep::Valves, valves);
    let leads = asked.leads.as_ref();
    let leads = work.ask(IgnitionStep::Leads, leads, leads::report, leads::standing);
    let contacts = asked.contacts.as_ref();
    let contacts = work.ask(
        IgnitionStep::Contacts,
        contacts,
        contacts::report,
        contacts::standing,
    );
    let electrics = asked.electrics.as_ref();
    let electrics = work.ask(
        IgnitionStep::Electrics,
        electrics,
        // It leans on no step before it.
        |asked, known, distributor, _, assumptions, problems| {
            electrics::report(asked, known, distributor, assumptions, problems)
        },
        electrics::standing,
    );
    let timing = asked.timing.as_ref();
    let timing = work.ask(
        IgnitionStep::Timing,
        timing,
        timing::report,
        timing::standing,
    );
    if let Some(text) = asked.timing.as_ref().and_then(timing::stop) {
        work.order.stop(text, Vec::from([IgnitionStep::Timing]));
    }
    if let Some(curve) = timing.as_ref().and_then(|found| found.curve.as_ref()) {
        let standing = timing::advance_standing(curve);
        work.order.note(IgnitionStep::Advance, standing);
    }
    let evenness = asked.evenness.as_ref();
    let evenness = work.ask(
        IgnitionStep::Evenness,
        evenness,
        evenness::report,
        evenness::standing,
    );
    let Work {
        order,
        assumptions,
        mut problems,
        ..
    } = work;
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
        leads,
        contacts,
        electrics,
        timing,
        evenness,
        point,
    })
}

/// What is worked on, question by question.
struct Work<'r> {
    known: Known<'r>,
    distributor: &'r Distributor,
    order: Order,
    assumptions: &'r mut Assumptions,
    problems: Vec<Problem>,
}

/// How a question is answered.
type Answering<Q, R> =
    fn(&Q, Known<'_>, &Distributor, &Before, &mut Assumptions, &mut Vec<Problem>) -> Option<R>;

impl Work<'_> {
    /// Answers a question by what stands before it, and notes where its step then stands.
    fn ask<Q, R>(
        &mut self,
        step: IgnitionStep,
        asked: Option<&Q>,
        report: Answering<Q, R>,
        standing: fn(&R) -> (Standing, String),
    ) -> Option<R> {
        let before = self.order.before(step);
        let found = report(
            asked?,
            self.known,
            self.distributor,
            &before,
            self.assumptions,
            &mut self.problems,
        )?;
        self.order.note(step, standing(&found));
        Some(found)
    }
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
