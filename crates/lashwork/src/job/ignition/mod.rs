//! Ignition: step two of the service. A folder a question; each hears of the steps it leans on
//! (`work::Before`), so that no amount is given on ground that is not settled.
//!
//! A question is a folder with `mod.rs` (what is asked, and `report(asked, known, &before, assumptions,
//! problems) -> Option<its report>` and `standing(&its report)`), `answer.rs` (its report, with
//! [`WorkAdvice`](super::WorkAdvice) and [`MeasuredReport`](super::MeasuredReport)) and `sheet.rs`; a field
//! in [`Ignition`] and [`IgnitionReport`], its places in [`IgnitionPlace`], a file in
//! `lashwork-wire/src/ignition`; and a line in `report` below, which notes its standing before the next
//! question asks what comes before it.

mod cam;
mod contacts;
mod electrics;
mod evenness;
mod leads;
mod leaves;
mod magneto;
mod mark;
mod place;
mod point;
mod report;
mod request;
pub(in crate::job) mod sheet;
mod timing;

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
pub use leads::{LeadGroupReport, LeadStateReport, Leads, LeadsReport, NextLookReport};
pub use magneto::{
    DropRead, Magneto, MagnetoCautionReport, MagnetoDropReport, MagnetoPairReport, MagnetoReport,
    OneMagneto, OneMagnetoReport,
};
pub use place::{
    ContactsField, ElectricsField, EvenWay, EvennessField, IgnitionPlace, LeadsField, MagnetoField,
    TimingField,
};
pub use point::{FlashReport, IgnitionPoint, IgnitionPointReport, PointWayReport};
pub use report::IgnitionReport;
pub use request::{Distributor, Ignition};
pub use timing::{
    AdvanceBandReport, AdvanceLineReport, AdvanceReport, AdvanceRowReport, BodyTurnReport,
    CurveCauseReport, Timing, TimingRead, TimingReport, TimingSlipReport,
};

use super::assumptions::Assumptions;
use super::known::Known;
use super::machine::FiredBy;
use super::place::Place;
use super::problem::Problem;
use super::work::{Order, Section, Work, WorkStep};
use crate::ignition::breaker::Dwell;
use crate::quantity::Advance;
use crate::tolerance::Estimate;
use alloc::string::String;
use alloc::vec::Vec;
pub(super) use cam::linked;

/// The dwell that was read, for the record of the years, or why it does not go there.
pub(super) fn contacts_dwell(
    asked: &Ignition,
    found: &IgnitionReport,
) -> Option<Result<Estimate<Dwell>, String>> {
    contacts::dwell_read(asked.contacts.as_ref()?, found.contacts.as_ref()?)
}

/// The same of the ignition point.
pub(super) fn timing_point(
    asked: &Ignition,
    found: &IgnitionReport,
) -> Option<Result<Estimate<Advance>, String>> {
    timing::point_read(asked.timing.as_ref()?, found.timing.as_ref()?)
}

/// Works out the section; `order` knows where the steps before it stand.
pub(super) fn report(
    asked: &Ignition,
    known: Known<'_>,
    order: &mut Order,
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
    let distributor = &asked.distributor;
    let mut work = Work {
        order,
        assumptions,
        problems,
    };
    work.order.note_stated(WorkStep::Valves, asked.valves);
    let leads = work.ask(
        WorkStep::Leads,
        asked.leads.as_ref(),
        |asked, before, assumptions, problems| {
            leads::report(asked, known, distributor, before, assumptions, problems)
        },
        leads::standing,
    );
    let contacts = work.ask(
        WorkStep::Contacts,
        asked.contacts.as_ref(),
        |asked, before, assumptions, problems| {
            contacts::report(asked, known, distributor, before, assumptions, problems)
        },
        contacts::standing,
    );
    let electrics = work.ask(
        WorkStep::Electrics,
        asked.electrics.as_ref(),
        // It leans on no step before it.
        |asked, _, assumptions, problems| {
            electrics::report(asked, known, distributor, assumptions, problems)
        },
        electrics::standing,
    );
    let timing = work.ask(
        WorkStep::Timing,
        asked.timing.as_ref(),
        |asked, before, assumptions, problems| {
            timing::report(asked, known, distributor, before, assumptions, problems)
        },
        timing::standing,
    );
    if let Some(text) = asked.timing.as_ref().and_then(timing::stop) {
        work.order.stop(text, Vec::from([WorkStep::Timing]));
    }
    if let Some(curve) = timing.as_ref().and_then(|found| found.curve.as_ref()) {
        let standing = timing::advance_standing(curve);
        work.order.note(WorkStep::Advance, standing);
    }
    let evenness = work.ask(
        WorkStep::Evenness,
        asked.evenness.as_ref(),
        |asked, before, assumptions, problems| {
            evenness::report(asked, known, distributor, before, assumptions, problems)
        },
        evenness::standing,
    );
    let magneto = work.ask(
        WorkStep::Magneto,
        asked.magneto.as_ref(),
        |asked, before, assumptions, problems| {
            magneto::report(asked, known, distributor, before, assumptions, problems)
        },
        magneto::standing,
    );
    for text in magneto.iter().flat_map(magneto::stops) {
        work.order.stop(text, Vec::from([WorkStep::Magneto]));
    }
    let Work {
        order,
        assumptions,
        mut problems,
    } = work;
    let point = asked.point.as_ref().and_then(|point| {
        let aim = asked.timing.as_ref().and_then(Timing::aim);
        point::report(point, known, distributor, aim, assumptions, &mut problems)
    });
    if !problems.is_empty() {
        return Err(problems);
    }
    let (stop_work, steps) = order.told(Section::Ignition);
    let next = order.next(Section::Ignition);
    Ok(IgnitionReport {
        stop_work,
        steps,
        next,
        leads,
        contacts,
        electrics,
        timing,
        evenness,
        magneto,
        point,
    })
}
