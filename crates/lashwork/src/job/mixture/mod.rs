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
mod of_idle;
mod place;
mod report;
mod request;
pub(in crate::job) mod sheet;
mod unit;

pub(in crate::job) use air::around;
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
use crate::quantity::AbsolutePressure;
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
    let facts = Facts {
        asked,
        elsewhere,
        around: around.as_ref(),
    };
    let gauge = facts.gauge(&mut work);
    if gauge.as_ref().is_some_and(|found| !gauge::has_next(found)) {
        work.order.note_may_wait(WorkStep::Gauge);
    }
    let float = facts.float(&mut work);
    let jets = facts.jets(&mut work);
    if jets.as_ref().is_some_and(jets::may_stay) {
        work.order.note_may_wait(WorkStep::Jets);
    }
    work.order.note_fault(gauge.as_ref().and_then(gauge::fault));
    let balance = facts.balance(&mut work);
    let idle = facts.idle(&mut work);
    let gas = facts.gas(&mut work, idle.as_ref());
    let Work {
        order, problems, ..
    } = work;
    if !problems.is_empty() {
        return Err(problems);
    }
    let (stop_work, steps) = order.told(Section::Mixture);
    let next = order.next(Section::Mixture);
    Ok(MixtureReport {
        stop_work,
        steps,
        next,
        air: around.as_ref().map(air::told),
        gauge,
        float,
        jets,
        balance,
        idle,
        gas,
    })
}

/// What is asked and what is known, from which each question takes its part.
struct Facts<'r> {
    asked: &'r Mixture,
    elsewhere: Elsewhere,
    around: Option<&'r air::Around>,
}

impl Facts<'_> {
    fn ambient(&self) -> Option<AbsolutePressure> {
        self.around.map(|around| around.pressure)
    }

    fn compression(&self) -> Option<bool> {
        self.asked.gauge.as_ref().and_then(gauge::compression)
    }

    fn gauge(&self, work: &mut Work<'_>) -> Option<GaugeReport> {
        let compression = self.compression();
        let facts = gauge::Elsewhere {
            ambient: self.ambient(),
            // Behind one of several throttles there are fewer.
            cylinders: (self.asked.balance.is_none()).then_some(self.elsewhere.cylinders),
            valves: work.order.standing(WorkStep::Valves),
            timing: work.order.standing(WorkStep::Timing),
            lash: self.elsewhere.lash,
            timing_found: self.elsewhere.timing,
        };
        work.ask(
            WorkStep::Gauge,
            self.asked.gauge.as_ref(),
            |asked, before, assumptions, problems| {
                gauge::report(asked, facts, before, assumptions, problems)
            },
            |found| gauge::standing(found, compression),
        )
    }

    fn float(&self, work: &mut Work<'_>) -> Option<FloatReport> {
        let facts = float::Facts {
            burnt: self.asked.fuel,
            inches: self.elsewhere.inches,
        };
        work.ask(
            WorkStep::Float,
            self.asked.float.as_ref(),
            |asked, _, assumptions, problems| float::report(asked, facts, assumptions, problems),
            float::standing,
        )
    }

    fn jets(&self, work: &mut Work<'_>) -> Option<JetsReport> {
        let there = jets::There {
            asked: self.asked.air.as_ref(),
            found: self.around,
        };
        work.ask(
            WorkStep::Jets,
            self.asked.jets.as_ref(),
            |asked, before, assumptions, problems| {
                jets::report(asked, there, before, assumptions, problems)
            },
            jets::standing,
        )
    }

    fn balance(&self, work: &mut Work<'_>) -> Option<BalanceReport> {
        let ground = balance::Elsewhere {
            ambient: self.ambient(),
            valves: work.order.standing(WorkStep::Valves),
            timing: work.order.standing(WorkStep::Timing),
            float: work.order.standing(WorkStep::Float),
            compression: self.compression(),
        };
        work.ask(
            WorkStep::Balance,
            self.asked.balance.as_ref(),
            |asked, before, assumptions, problems| {
                balance::report(asked, ground, before, assumptions, problems)
            },
            balance::standing,
        )
    }

    fn idle(&self, work: &mut Work<'_>) -> Option<IdleReport> {
        let gas = self.asked.gas.as_ref();
        let around = idle::Elsewhere {
            height: self.asked.air.as_ref().and_then(|air| air.altitude),
            gas: gas.and_then(|gas| gas::of_idle(gas, self.asked.fuel.as_ref())),
        };
        work.ask(
            WorkStep::Idle,
            self.asked.idle.as_ref(),
            |asked, before, assumptions, problems| {
                idle::report(asked, around, before, assumptions, problems)
            },
            idle::standing,
        )
    }

    fn gas(&self, work: &mut Work<'_>, idle: Option<&IdleReport>) -> Option<GasReport> {
        let asked_idle = self.asked.idle.as_ref();
        let facts = gas::Elsewhere {
            fuel: self.asked.fuel,
            screw: asked_idle.map(|idle| idle.screw),
            is_idle_left: idle.is_some_and(idle::is_left),
        };
        if (self.asked.gas.as_ref()).is_some_and(|gas| gas.ran() == GasReadAt::RaisedSpeed) {
            // The idle does not reach there.
            work.order.note_free(WorkStep::Gas, WorkStep::Idle);
        }
        work.ask(
            WorkStep::Gas,
            self.asked.gas.as_ref(),
            |asked, before, assumptions, problems| {
                gas::report(asked, facts, before, assumptions, problems)
            },
            gas::standing,
        )
    }
}
