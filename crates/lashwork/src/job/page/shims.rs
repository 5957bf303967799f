//! The shims on the page, in the order in which they are changed.

use super::wrap;
use crate::job::clearance::shims::sheet::{OTHER_OPEN, nominal, place, put_spare_in, words};
use crate::job::clearance::{ClearanceReport, ShimPlanReport, ShimStopReport};
use crate::job::text::whole_degrees;
use crate::valve::ShimWork;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

pub(super) fn write(out: &mut String, found: &ClearanceReport, inches: bool) {
    let several = found.shim_plans.len() > 1;
    for plan in found
        .shim_plans
        .iter()
        .filter(|plan| !plan.moves.is_empty())
    {
        let by = if several {
            format!(" by [{}]; work to one book only", plan.specification)
        } else {
            String::new()
        };
        out.push('\n');
        wrap::write(out, "", &format!("Shims{by}"));
        one(out, plan, inches);
    }
    // Why stands at each valve above.
    let cannot = found.shim_plans.iter().flat_map(|plan| &plan.cannot);
    let mut names: Vec<&str> = cannot.map(|cannot| cannot.valve.as_str()).collect();
    names.dedup();
    if !names.is_empty() {
        wrap::write(out, "No change of shim yet at ", &names.join(", "));
    }
}

fn one(out: &mut String, plan: &ShimPlanReport, inches: bool) {
    for caution in &plan.cautions {
        wrap::write(out, "! ", caution);
    }
    for (number, stop) in (1..).zip(&plan.stops) {
        wrap::write(
            out,
            &format!("Shim stop {number}: "),
            &place(number, stop, inches),
        );
        at(out, plan, stop);
    }
    let nowhere = (0..)
        .zip(&plan.moves)
        .filter(|(_, step)| step.stop.is_none());
    for (i, step) in nowhere {
        let text = format!("{}; its place by the maker's manual", words(plan, i, step));
        wrap::write(out, &format!("  {:>2}. ", i + 1), &text);
    }
    if !plan.stops.is_empty() {
        let turn = whole_degrees(plan.total_turn.degrees());
        wrap::write(
            out,
            "Turning for the shims: ",
            &format!("{turn} deg forward in all"),
        );
    }
    let buy = plan
        .buy
        .iter()
        .map(|b| format!("{} x {}", b.count, nominal(plan, b.size)));
    let buy: Vec<String> = buy.collect();
    if !buy.is_empty() {
        wrap::write(out, "Buy: ", &buy.join(", "));
    }
}

fn at(out: &mut String, plan: &ShimPlanReport, stop: &ShimStopReport) {
    for visit in &stop.work {
        let index = visit.step.saturating_sub(1);
        let Some(step) = plan.moves.get(index) else {
            continue;
        };
        let text = match visit.work {
            ShimWork::PutSpareIn => put_spare_in(plan, visit, step),
            ShimWork::Exchange | ShimWork::TakeSpareOut => words(plan, index, step),
        };
        let open = if visit.all_closed {
            String::new()
        } else {
            format!("; {OTHER_OPEN}")
        };
        let cause = step
            .find_cause
            .as_ref()
            .map(|cause| format!("{cause}; only then "));
        wrap::write(
            out,
            &format!("  {:>2}. ", visit.step),
            &format!("{}{text}{open}", cause.unwrap_or_default()),
        );
    }
}
