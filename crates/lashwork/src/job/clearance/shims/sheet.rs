//! The shims on the job sheet: what goes where, in working order, what to buy, what is left.

use super::answer::{ShimFrom, ShimMove, ShimPlanReport, ShimStopReport, ShimVisitReport};
use crate::adjust::ShimRounding;
use crate::clearance::text::thickness as written;
use crate::job::text::{chances, ends, line, rim_mark, section, verdict_word, whole_degrees};
use crate::quantity::shown::by_hand;
use crate::quantity::{Nominal, ShimThickness};
use crate::valve::ShimWork;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Writes the plan of each specification.
pub(in crate::job) fn write(out: &mut String, plans: &[ShimPlanReport], inches: bool) {
    let several = plans.len() > 1;
    for plan in plans {
        section(out, &format!("Shim plan for [{}]", plan.specification));
        if several {
            line(
                out,
                "There is one plan for each specification that may apply: work to one of them only.",
            );
        }
        one(out, plan, inches);
    }
}

fn one(out: &mut String, plan: &ShimPlanReport, inches: bool) {
    line(out, &counted(plan));
    if let Some(rounding) = plan.rounding {
        let how = match rounding {
            ShimRounding::Nearest => "the nearest size",
            ShimRounding::NeverTighter => "never tighter than the value to set",
        };
        line(out, &format!("Rounded as stated: {how}."));
    }
    for caution in &plan.cautions {
        line(out, &format!("! {caution}"));
    }
    for (number, stop) in (1..).zip(&plan.stops) {
        at(out, plan, (number, stop), inches);
    }
    if let [.., _] = plan.stops.as_slice() {
        line(
            out,
            &format!(
                "Turning in all {} deg forward, {:.1} turns of the crank.",
                whole_degrees(plan.total_turn.degrees()),
                plan.total_turn.degrees() / 360.0
            ),
        );
    }
    let nowhere: Vec<_> = (0..)
        .zip(&plan.moves)
        .filter(|(_, m)| m.stop.is_none())
        .collect();
    if !nowhere.is_empty() {
        line(
            out,
            "No place with the valve closed and the piston away from its top; go by the maker's manual:",
        );
    }
    for (i, step) in nowhere {
        exchange(out, plan, (i, step), inches);
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
}

/// A stop, and what is done there.
fn at(
    out: &mut String,
    plan: &ShimPlanReport,
    (number, stop): (usize, &ShimStopReport),
    inches: bool,
) {
    let place = place(number, stop, inches);
    line(out, &format!("Shim stop {number}: {place}"));
    for visit in &stop.work {
        let index = visit.step.saturating_sub(1);
        let Some(step) = plan.moves.get(index) else {
            continue;
        };
        match visit.work {
            ShimWork::PutSpareIn => line(out, &format!("    {}", put_spare_in(plan, visit, step))),
            ShimWork::Exchange | ShimWork::TakeSpareOut => {
                exchange(out, plan, (index, step), inches);
            }
        }
        if !visit.all_closed {
            line(out, &format!("        {OTHER_OPEN}"));
        }
    }
}

/// What is said where another valve of the cylinder is off its seat.
pub(in crate::job) const OTHER_OPEN: &str =
    "the other valve of this cylinder is open here: press with care";

/// How to get to a stop for shims, and how to know it.
pub(in crate::job) fn place(number: usize, stop: &ShimStopReport, inches: bool) -> String {
    let turn = if number == 1 && stop.turn.degrees() <= 0.0 {
        String::from("set the crank to")
    } else {
        format!("turn {} deg forward to", whole_degrees(stop.turn.degrees()))
    };
    let mark = stop
        .pulley_mark_mm
        .map(|mm| format!(", {}", rim_mark(mm, inches)));
    let places = stop.work.iter().map(|visit| {
        let past = visit.after_firing_tdc.degrees();
        let side = if past < 0.0 { "before" } else { "after" };
        format!(
            "{} deg {side} firing TDC of {}",
            whole_degrees(past.abs()),
            visit.cylinder
        )
    });
    let mut places: Vec<String> = places.collect();
    places.dedup();
    let margins = stop.work.iter().map(|v| v.margin.degrees());
    format!(
        "{turn} {}, give or take {} deg; rotor {} deg{}",
        places.join(" = "),
        whole_degrees(libm::floor(margins.fold(f64::INFINITY, f64::min))),
        whole_degrees(stop.rotor.degrees()),
        mark.unwrap_or_default()
    )
}

/// What stands in for a shim while the crank is turned.
pub(in crate::job) fn put_spare_in(
    plan: &ShimPlanReport,
    visit: &ShimVisitReport,
    step: &ShimMove,
) -> String {
    let (old, new) = (thickness(plan, step.old), thickness(plan, step.new));
    format!(
        "{}: lift out {old} and keep it; put in a spare shim no thicker than {new} until step {}, as \
         the crank must be turned between",
        step.valve, visit.step
    )
}

/// A step, and what is to be expected of it.
fn exchange(
    out: &mut String,
    plan: &ShimPlanReport,
    (index, step): (usize, &ShimMove),
    inches: bool,
) {
    line(
        out,
        &format!("{:>2}. {}", index + 1, words(plan, index, step)),
    );
    let then = ends(step.low, step.high, &|mm| by_hand(mm, inches));
    let (verdict, chances) = (verdict_word(step.verdict), chances(&step.probabilities));
    line(
        out,
        &format!(
            "        lash then {then}: {verdict} against {}: {chances}",
            step.limits
        ),
    );
    let likelier = step
        .others
        .iter()
        .filter(|other| other.probabilities.in_band.least > step.probabilities.in_band.least);
    for other in likelier {
        let size = nominal(plan, other.choice.size);
        let (verdict, chances) = (
            verdict_word(other.verdict),
            self::chances(&other.probabilities),
        );
        line(
            out,
            &format!("        {size} instead: {verdict}: {chances}"),
        );
    }
    if let Some(cause) = &step.find_cause {
        line(out, &format!("        {cause}"));
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
pub(in crate::job) fn words(plan: &ShimPlanReport, index: usize, step: &ShimMove) -> String {
    let (old, new) = (thickness(plan, step.old), thickness(plan, step.new));
    let has_spare = |valve: &str| {
        let visits = plan.stops.iter().flat_map(|stop| &stop.work);
        let mut spares = visits.filter(|visit| visit.work == ShimWork::PutSpareIn);
        spares.any(|visit| visit.valve == valve)
    };
    let lift = if has_spare(&step.valve) {
        format!("{}: take the spare out", step.valve)
    } else {
        format!("{}: lift out {old}", step.valve)
    };
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
                Some(at) if at > index && !has_spare(giver) => {
                    format!(
                        "{lift} and keep it; fit {new} when step {} lifts it out",
                        at + 1
                    )
                }
                Some(at) if at < index => {
                    format!("{lift}, fit {new} from {giver} (step {})", at + 1)
                }
                _ => format!("{lift}, fit {new} from {giver}"),
            }
        }
    }
}

fn thickness(plan: &ShimPlanReport, of: ShimThickness) -> String {
    written(plan.in_inches, &|unit, decimals| {
        of.show(unit, decimals.into())
    })
}

pub(in crate::job) fn nominal(plan: &ShimPlanReport, of: Nominal) -> String {
    written(plan.in_inches, &|unit, decimals| {
        of.show(unit, decimals.into())
    })
}
