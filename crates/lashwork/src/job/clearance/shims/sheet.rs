//! The shims on the job sheet: what goes where, in working order, what to buy, what is left.

use super::answer::{ShimFrom, ShimMove, ShimPlanReport};
use crate::clearance::text::length;
use crate::job::text::{chances, ends, line, section, verdict_word};
use crate::quantity::{Nominal, ShimThickness};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Writes the plan of each specification.
pub(in crate::job) fn write(out: &mut String, plans: &[ShimPlanReport]) {
    let several = plans.len() > 1;
    for plan in plans {
        section(out, &format!("Shim plan for [{}]", plan.specification));
        if several {
            line(
                out,
                "There is one plan for each specification that may apply: work to one of them only.",
            );
        }
        if !plan.moves.is_empty() {
            line(
                out,
                "This plan takes all valves together; where it differs from the advice at a reading, follow this plan.",
            );
        }
        one(out, plan);
    }
}

fn one(out: &mut String, plan: &ShimPlanReport) {
    line(out, &counted(plan));
    for (i, step) in plan.moves.iter().enumerate() {
        line(out, &format!("{:>2}. {}", i + 1, words(plan, i, step)));
        let then = ends(step.low, step.high, plan.in_inches);
        let (verdict, chances) = (verdict_word(step.verdict), chances(&step.probabilities));
        line(
            out,
            &format!(
                "        lash then {then}: {verdict} against {}: {chances}",
                step.limits
            ),
        );
        if !step.in_set {
            line(
                out,
                "        the nearest size available: STILL OUTSIDE the set band",
            );
        }
    }
    let buy = plan.buy.iter().map(|b| {
        let size = nominal(plan, b.size);
        format!("{} x {size}", b.count)
    });
    listed(out, "Buy", &buy.collect::<Vec<_>>());
    let stock = plan
        .from_stock
        .iter()
        .map(|s| format!("{} x {}", s.count, s.size));
    listed(out, "From stock", &stock.collect::<Vec<_>>());
    let left = plan
        .left_over
        .iter()
        .map(|l| format!("{} from {}", thickness(plan, l.thickness), l.valve));
    listed(out, "Left over", &left.collect::<Vec<_>>());
    listed(out, "Shim stays, in band", &plan.keep);
    for cannot in &plan.cannot {
        line(
            out,
            &format!("No change at {}: {}", cannot.valve, cannot.reason),
        );
    }
    if !plan.moves.is_empty() {
        line(
            out,
            "Measure every lash again after fitting, before the engine is run.",
        );
    }
}

fn listed(out: &mut String, what: &str, items: &[String]) {
    if !items.is_empty() {
        line(out, &format!("{what}: {}", items.join(", ")));
    }
}

fn counted(plan: &ShimPlanReport) -> String {
    let sum = |counts: &mut dyn Iterator<Item = u32>| counts.fold(0, u32::saturating_add);
    let bought = sum(&mut plan.buy.iter().map(|b| b.count));
    let stock = sum(&mut plan.from_stock.iter().map(|s| s.count));
    let is_swap = |step: &&ShimMove| matches!(step.from, ShimFrom::Valve(_));
    let swapped = plan.moves.iter().filter(is_swap).count();
    match plan.moves.len() {
        0 => String::from("No shim to change."),
        n => {
            let valves = if n == 1 { "1 valve gets" } else { "valves get" };
            let count = if n == 1 {
                String::new()
            } else {
                format!("{n} ")
            };
            format!(
                "{count}{valves} a different shim: {swapped} from another valve, {stock} from stock, \
                 {bought} to buy"
            )
        }
    }
}

/// What to do at one valve. The steps of a group hand shims on, each to the next; the first step of
/// a ring waits for the last.
fn words(plan: &ShimPlanReport, index: usize, step: &ShimMove) -> String {
    let (old, new) = (thickness(plan, step.old), thickness(plan, step.new));
    let lift = format!("{}: lift out {old}", step.valve);
    match &step.from {
        ShimFrom::Stock(mark) => {
            let measures = if mark.nominal().mm().total_cmp(&step.new.mm()).is_eq() {
                String::new()
            } else {
                format!(" (measures {new})")
            };
            format!("{lift}, fit {mark}{measures} from stock")
        }
        ShimFrom::Buy(size) => format!("{lift}, fit a new {}", nominal(plan, *size)),
        ShimFrom::Valve(giver) => {
            let given = plan.moves.iter().position(|other| other.valve == *giver);
            match given {
                Some(at) if at > index => {
                    format!(
                        "{lift} and keep it; fit {new} when step {} lifts it out",
                        at + 1
                    )
                }
                Some(at) => format!("{lift}, fit {new} from {giver} (step {})", at + 1),
                None => format!("{lift}, fit {new} from {giver}"),
            }
        }
    }
}

fn thickness(plan: &ShimPlanReport, of: ShimThickness) -> String {
    length(plan.in_inches, &|unit, decimals| {
        of.show(unit, decimals.into())
    })
}

fn nominal(plan: &ShimPlanReport, of: Nominal) -> String {
    length(plan.in_inches, &|unit, decimals| {
        of.show(unit, decimals.into())
    })
}
