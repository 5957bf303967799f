//! Condition: what state the engine is in before anything is adjusted. A folder a question; each hears of the
//! steps it leans on (`work::Before`), so that nothing is concluded on ground that is not settled.
//!
//! A question is a folder with `mod.rs` (what is asked, and `report(asked, ground, &before, assumptions,
//! problems) -> Option<its report>` and `standing(&its report)`), `answer.rs` (its report) and `sheet.rs`; a
//! field in [`Condition`] and [`ConditionReport`], its places in [`ConditionPlace`], a file in
//! `lashwork-wire/src/condition`; and a few lines in `report` below.

mod compression;
mod events;
mod ground;
mod head;
mod leak;
mod place;
mod report;
mod request;
pub(in crate::job) mod sheet;
mod unit;

pub use compression::{
    Compression, CompressionCauseReport, CompressionCylinderReport, CompressionGasketReport,
    CompressionLevelReport, CompressionNextReport, CompressionReport, CompressionRuleReport,
};
pub use events::{
    EventAtLashReport, Events, EventsAtLashReport, EventsCylinderReport, EventsMoveReport,
    EventsReport,
};
pub use head::{BoltForce, Head, HeadBolts, HeadReport, TorqueUnit};
pub use leak::{
    LeakCylinderReport, LeakDown, LeakDownReading, LeakDownReport, LeakDownRule, LeakTester,
    OrificeKnown,
};
pub use place::{CompressionField, ConditionPlace, EventsField, HeadField, LeakField};
pub use report::ConditionReport;
pub use request::Condition;
pub use unit::GaugeUnit;

use super::assumptions::Assumptions;
use super::cautions::ConditionWork;
use super::clearance::LashNow;
use super::mixture::AirAround;
use super::problem::Problem;
use super::work::{Order, Section, Work, WorkStep};
use crate::engine::{CylinderLabel, Engine};
use crate::mixture::gauge::CompressionFound;
use crate::quantity::{Area, GaugePressure};
use crate::tolerance::{Estimate, Measurand};
use crate::valve::CamEvents;
use alloc::string::String;
use alloc::vec::Vec;
use ground::Ground;

/// What the rest of the document says.
#[derive(Clone, Copy)]
pub(super) struct Elsewhere<'r> {
    pub(super) engine: &'r Engine,
    /// Whether lengths are said in inches.
    pub(super) inches: bool,
    /// The air of the mixture section.
    pub(super) air: Option<AirAround>,
    /// Cam events as printed.
    pub(super) printed: Option<CamEvents>,
    /// The rocker ratio of the clearance section.
    pub(super) rocker: Option<f64>,
    /// The lash of the valves that were read.
    pub(super) lash: &'r [LashNow],
    /// Why that does not stand, if something took it back.
    pub(super) valves_back: Option<&'r str>,
}

/// Works out the section; `order` knows where the steps before it stand.
pub(super) fn report(
    asked: &Condition,
    elsewhere: Elsewhere<'_>,
    order: &mut Order,
    assumptions: &mut Assumptions,
) -> Result<ConditionReport, Vec<Problem>> {
    let mut work = Work {
        order,
        assumptions,
        problems: Vec::new(),
    };
    let head = asked.head.as_ref().and_then(|asked| {
        let found = head::report(asked, elsewhere.inches, &mut work.problems)?;
        work.order
            .note(WorkStep::Head, head::standing(asked, &found));
        Some(found)
    });
    work.order.note_stated(WorkStep::Valves, asked.valves);
    let events = asked.events.as_ref().and_then(|of_cam| {
        let known = events::Elsewhere {
            engine: elsewhere.engine,
            inches: elsewhere.inches,
            printed: elsewhere.printed,
            rocker: elsewhere.rocker,
            lash: elsewhere.lash,
            ratio: asked.ratio,
            crank: ground::crank(elsewhere.engine),
            valves_back: elsewhere.valves_back,
        };
        events::report(of_cam, known, work.assumptions, &mut work.problems)
    });
    let (events, running) = events.unzip();
    let more = events.as_ref().and_then(|found| found.more.as_ref());
    work.order
        .note_lash_moves(more.map(|more| events::moves(more, elsewhere.inches)));
    let ground = Ground::of(
        asked,
        elsewhere,
        running.flatten().as_ref(),
        work.assumptions,
        &mut work.problems,
    );
    let compression = ground.as_ref().and_then(|ground| {
        let stand = (
            work.order.standing(WorkStep::Head),
            work.order.standing(WorkStep::Valves),
        );
        work.ask(
            WorkStep::Compression,
            asked.compression.as_ref(),
            |asked, before, assumptions, problems| {
                compression::report(asked, ground, stand, before, assumptions, problems)
            },
            compression::standing,
        )
    });
    if compression.as_ref().is_some_and(compression::may_stay) {
        work.order.note_may_wait(WorkStep::Compression);
    }
    let leak = ground.as_ref().and_then(|ground| {
        let valves = work.order.standing(WorkStep::Valves);
        work.ask(
            WorkStep::Leak,
            asked.leak.as_ref(),
            |asked, before, assumptions, problems| {
                leak::report(asked, ground, valves, before, assumptions, problems)
            },
            leak::standing,
        )
    });
    if leak.as_ref().is_some_and(leak::may_stay) {
        work.order.note_may_wait(WorkStep::Leak);
    }
    let Work {
        order, problems, ..
    } = work;
    if !problems.is_empty() {
        return Err(problems);
    }
    let (stop_work, steps) = order.told(Section::Condition);
    let next = order.next(Section::Condition);
    Ok(ConditionReport {
        stop_work,
        steps,
        next,
        head,
        events,
        compression,
        leak,
    })
}

/// What was found of the compression, as evidence for the steps after it.
#[derive(Default)]
pub(super) struct CompressionKnown {
    /// Of all cylinders; none if it is not certain.
    pub(super) of_all: Option<CompressionFound>,
    /// Cylinders of which it is certain, and whether it is wrong.
    pub(super) by_cylinder: Vec<(CylinderLabel, bool)>,
}

/// The same of a report.
pub(super) fn compression_known(
    asked: Option<&Condition>,
    found: Option<&ConditionReport>,
) -> CompressionKnown {
    let asked = asked.and_then(|asked| asked.compression.as_ref());
    let found = found.and_then(|found| found.compression.as_ref());
    let both = asked.zip(found);
    let known = both.map(|(asked, found)| CompressionKnown {
        of_all: compression::of_all(asked, found),
        by_cylinder: compression::by_cylinder(asked, found),
    });
    known.unwrap_or_default()
}

/// Readings of cylinders for the record of the years.
pub(super) struct ForRecord<Q: Measurand> {
    pub(super) readings: Vec<(CylinderLabel, Estimate<Q>)>,
    /// What of them does not go there.
    pub(super) but: Option<String>,
}

/// The compression for the record of the years, or why it does not go there.
pub(super) fn compression_shown(
    asked: &Condition,
    found: &ConditionReport,
) -> Option<Result<ForRecord<GaugePressure>, String>> {
    let (asked, found) = asked.compression.as_ref().zip(found.compression.as_ref())?;
    Some(compression::shown(asked, found))
}

/// The same of the leaks.
pub(super) fn leak_areas(
    asked: &Condition,
    found: &ConditionReport,
) -> Option<Result<ForRecord<Area>, String>> {
    let (asked, found) = asked.leak.as_ref().zip(found.leak.as_ref())?;
    Some(leak::areas(asked, found))
}

/// What is read, for the cautions.
pub(super) fn work(asked: &Condition) -> ConditionWork {
    ConditionWork {
        cranked: asked.compression.is_some(),
        aired: asked.leak.is_some(),
        bolts: asked.head.is_some(),
    }
}

/// Why the valve clearances do not stand, if the head's bolts take them back.
pub(super) fn takes_valves_back(asked: &Condition) -> Option<&'static str> {
    let head = asked.head.as_ref()?;
    head::takes_valves_back(head.stand)
}
