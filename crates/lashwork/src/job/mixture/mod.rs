//! Mixture: step three of the service. A folder a question; each hears of the steps it leans on
//! (`work::Before`), so that no amount is given on ground that is not settled.
//!
//! A question is a folder with `mod.rs` (what is asked, and `report(asked, around, &before, assumptions,
//! problems) -> Option<its report>` and `standing(&its report)`), `answer.rs` (its report) and `sheet.rs`; a
//! field in [`Mixture`] and [`MixtureReport`], its places in [`MixturePlace`], a file in
//! `lashwork-wire/src/mixture`; and a few lines in `report` below.

mod air;
mod balance;
mod float;
mod gas;
mod gauge;
mod idle;
mod jets;
mod place;
mod report;
mod request;
pub(in crate::job) mod sheet;
mod unit;

pub use air::{AirAround, AirAroundReport};
pub use balance::{
    Balance, BalanceBeforeReport, BalanceRead, BalanceReport, BalanceShaftReport,
    BalanceTurnReport, Cylinders, OpeningKnown, ThrottleCylinderReport, ThrottleFlow,
    ThrottleReport,
};
pub use float::{
    Float, FloatChamber, FloatChamberReport, FloatFuelReport, FloatNozzle, FloatReport,
};
pub use gas::{
    Gas, GasCauseReport, GasDoubtReport, GasJudgedReport, GasLambdaReport, GasLimits, GasReadAt,
    GasReport, StatedGasUncertainty,
};
pub use gauge::{Gauge, GaugeCauseReport, GaugeReport, NextGaugeLookReport};
pub use idle::{
    Idle, IdleCrownReport, IdlePointReport, IdleReadReport, IdleReport, IdleRiseReport, IdleRule,
    Rise, RiseRuleReport,
};
pub use jets::{
    FittedJet, JetCautionReport, JetReport, JetRuleReport, JetSizeReport, Jets, JetsReport,
};
pub use place::MixturePlace;
pub use place::{
    BalanceField, BalanceWay, CylindersField, FloatField, GasField, GaugeField, IdleField,
    JetsField,
};
pub use report::MixtureReport;
pub use request::Mixture;
pub use unit::VacuumUnit;

use super::assumptions::Assumptions;
use super::place::Place;
use super::problem::Problem;
use super::work::{Order, Section, Work, WorkStep};
use crate::mixture::gauge::{LashFound, TimingFound};
use alloc::vec::Vec;

/// What the rest of the document says.
#[derive(Clone, Copy)]
pub(super) struct Elsewhere {
    /// Whether lengths are said in inches.
    pub(super) inches: bool,
    /// Cylinders of the engine.
    pub(super) cylinders: usize,
    /// What the clearance section found.
    pub(super) lash: Option<LashFound>,
    /// What the ignition section found.
    pub(super) timing: Option<TimingFound>,
}

/// Works out the section; `order` knows where the steps before it stand.
pub(super) fn report(
    asked: &Mixture,
    elsewhere: Elsewhere,
    order: &mut Order,
    assumptions: &mut Assumptions,
) -> Result<MixtureReport, Vec<Problem>> {
    let mut work = Work {
        order,
        assumptions,
        problems: Vec::new(),
    };
    work.order.note_stated(WorkStep::Valves, asked.valves);
    work.order.note_stated(WorkStep::Timing, asked.timing);
    let around = asked.air.as_ref();
    let around = around.and_then(|air| {
        let place = Place::Mixture(MixturePlace::Air);
        air::around(air, place, work.assumptions, &mut work.problems)
    });
    let ambient = around.as_ref().map(|around| around.pressure);
    let seen = gauge::Elsewhere {
        ambient,
        // Behind one of several throttles there are fewer.
        cylinders: asked.balance.is_none().then_some(elsewhere.cylinders),
        valves: work.order.standing(WorkStep::Valves),
        timing: work.order.standing(WorkStep::Timing),
        lash: elsewhere.lash,
        timing_found: elsewhere.timing,
    };
    let gauge = work.ask(
        WorkStep::Gauge,
        asked.gauge.as_ref(),
        |asked, before, assumptions, problems| {
            gauge::report(asked, seen, before, assumptions, problems)
        },
        gauge::standing,
    );
    let float = work.ask(
        WorkStep::Float,
        asked.float.as_ref(),
        |float_asked, before, assumptions, problems| {
            let facts = float::Facts {
                burnt: asked.fuel,
                inches: elsewhere.inches,
            };
            float::report(float_asked, facts, before, assumptions, problems)
        },
        float::standing,
    );
    let jets = work.ask(
        WorkStep::Jets,
        asked.jets.as_ref(),
        |jets_asked, before, assumptions, problems| {
            let there = jets::There {
                asked: asked.air.as_ref(),
                found: around.as_ref(),
            };
            jets::report(jets_asked, there, before, assumptions, problems)
        },
        jets::standing,
    );
    let height = asked.air.as_ref().and_then(|air| air.altitude);
    let ground = balance::Elsewhere {
        ambient,
        valves: work.order.standing(WorkStep::Valves),
        timing: work.order.standing(WorkStep::Timing),
        float: work.order.standing(WorkStep::Float),
        compression: asked.gauge.as_ref().and_then(gauge::compression),
    };
    let balance = work.ask(
        WorkStep::Balance,
        asked.balance.as_ref(),
        |asked, before, assumptions, problems| {
            balance::report(asked, ground, before, assumptions, problems)
        },
        balance::standing,
    );
    let idle = work.ask(
        WorkStep::Idle,
        asked.idle.as_ref(),
        |asked, before, assumptions, problems| {
            idle::report(asked, height, before, assumptions, problems)
        },
        idle::standing,
    );
    let elsewhere = gas::Elsewhere {
        fuel: asked.fuel,
        screw: asked.idle.as_ref().map(|idle| idle.screw),
        fault: gauge.as_ref().and_then(gauge::fault),
    };
    let gas = work.ask(
        WorkStep::Gas,
        asked.gas.as_ref(),
        |asked, before, assumptions, problems| {
            gas::report(asked, elsewhere, before, assumptions, problems)
        },
        gas::standing,
    );
    let Work {
        order, problems, ..
    } = work;
    if !problems.is_empty() {
        return Err(problems);
    }
    let (stop_work, steps) = order.told(Section::Mixture);
    Ok(MixtureReport {
        stop_work,
        steps,
        air: around.as_ref().map(air::told),
        gauge,
        float,
        jets,
        balance,
        idle,
        gas,
    })
}
