//! Mixture: step three of the service. A folder a question; each hears of the steps it leans on
//! (`work::Before`), so that no amount is given on ground that is not settled.
//!
//! A question is a folder with `mod.rs` (what is asked, and `report(asked, around, &before, assumptions,
//! problems) -> Option<its report>` and `standing(&its report)`), `answer.rs` (its report) and `sheet.rs`; a
//! field in [`Mixture`] and [`MixtureReport`], its places in [`MixturePlace`], a file in
//! `lashwork-wire/src/mixture`; and a few lines in `report` below.

mod air;
mod place;
mod report;
mod request;
pub(in crate::job) mod sheet;

pub use air::{AirAround, AirAroundReport};
pub use place::MixturePlace;
pub use report::MixtureReport;
pub use request::Mixture;

use super::assumptions::Assumptions;
use super::problem::Problem;
use super::work::{Order, Section, Work, WorkStep};
use alloc::vec::Vec;

/// Works out the section; `order` knows where the steps before it stand.
pub(super) fn report(
    asked: &Mixture,
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
    let around = around.and_then(|air| air::around(air, work.assumptions, &mut work.problems));
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
    })
}
