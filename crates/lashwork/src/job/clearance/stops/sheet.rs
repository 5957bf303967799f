//! Stop plans on the job sheet: what each costs, the recommended one in full, the others in short.

use super::answer::{CheckReport, PlanReport, StopReport, StopsReport, WatchReport};
use super::words;
use super::written::at_most;
use crate::job::text::{line, rim_mark, section, whole_degrees};
use crate::quantity::Quoted;
use crate::valve::{Movement, ValveKind};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Writes all plans.
pub(in crate::job) fn write(out: &mut String, report: &StopsReport, inches: bool) {
    section(out, "Stop plans");
    line(
        out,
        &format!("the crank can be stopped at {}", report.places),
    );
    costs(out, &report.plans);
    for plan in &report.plans {
        for against in &plan.against {
            let text = format!("against {}: {}", words(plan.method), against.text);
            line(out, &text);
        }
    }
    for refused in &report.not_offered {
        let text = format!("not possible: {} ({})", words(refused.method), refused.text);
        line(out, &text);
    }
    if let Some(why) = &report.none_recommended {
        line(out, &format!("NO PLAN IS RECOMMENDED: {why}"));
    }
    let walk = report.recommended.as_ref();
    let chosen = walk.and_then(|w| Some((w, report.plans.get(w.plan)?)));
    if let Some((recommended, plan)) = chosen {
        heading(out, "Recommended", plan);
        line(out, &format!("why: {}", recommended.why));
        if let Some(text) = &report.pulley_marks {
            line(out, text);
        }
        full(out, plan, inches);
    }
    for (i, plan) in report.plans.iter().enumerate() {
        if walk.is_some_and(|w| w.plan == i) {
            continue;
        }
        heading(out, "Or", plan);
        let mut above = report.plans.iter().enumerate();
        let twin = above.find(|(k, other)| {
            let shown = *k < i || walk.is_some_and(|w| w.plan == *k);
            shown && *k != i && same_stops(plan, other)
        });
        match twin {
            Some((_, other)) => {
                line(out, &format!("the same stops as {}", words(other.method)));
            }
            None if is_watched(plan) => watched(out, plan),
            None => short(out, plan),
        }
    }
}

/// Whether its stops are found by watching valves.
fn is_watched(plan: &PlanReport) -> bool {
    plan.stops.iter().any(|s| !s.watch.is_empty())
}

fn costs(out: &mut String, plans: &[PlanReport]) {
    line(
        out,
        &format!(
            "{:<30}{:>6}{:>11}{:>17}{:>14}{:>10}",
            "", "stops", "turning", "changes of side", "least margin", "left out"
        ),
    );
    for plan in plans {
        let margin = plan.smallest_margin;
        line(
            out,
            &format!(
                "{:<30}{:>6}{:>11}{:>17}{:>14}{:>10}",
                words(plan.method),
                plan.stops.len(),
                format!("{} deg", whole_degrees(plan.total_turn.degrees())),
                plan.walks,
                margin.map_or_else(|| "-".into(), |m| format!("{} deg", at_most(m))),
                plan.unreachable.len()
            ),
        );
    }
}

fn heading(out: &mut String, before: &str, plan: &PlanReport) {
    section(out, &format!("{before}: {}", words(plan.method)));
    if let Some(from) = plan.from.filter(|_| begins_elsewhere(plan)) {
        let at = whole_degrees(from.degrees());
        line(
            out,
            &format!("turning counts from {at} deg after the first firing TDC"),
        );
    }
}

/// Whether the crank is turned before the first stop.
fn begins_elsewhere(plan: &PlanReport) -> bool {
    let first = plan.stops.first();
    first.is_some_and(|s| s.turn.degrees() > 0.0)
}

/// Whether two plans check the same at the same places.
fn same_stops(a: &PlanReport, b: &PlanReport) -> bool {
    let same = |(a, b): (&StopReport, &StopReport)| a.position == b.position && a.check == b.check;
    a.stops.len() == b.stops.len() && a.stops.iter().zip(&b.stops).all(same)
}

fn full(out: &mut String, plan: &PlanReport, inches: bool) {
    for (i, stop) in plan.stops.iter().enumerate() {
        let mark = stop
            .pulley_mark_mm
            .map(|mm| format!(", {}", rim_mark(mm, inches)));
        line(
            out,
            &format!(
                "{:>2}. {}; rotor {} deg{}",
                i + 1,
                reach(i, stop),
                whole_degrees(stop.rotor.degrees()),
                mark.unwrap_or_default()
            ),
        );
        line(out, &format!("    {}", stop.text));
        let mut side = None;
        for check in &stop.check {
            if check.side != side && check.side.is_some() {
                let name = check.side.as_deref().unwrap_or_default();
                line(out, &format!("    side {name}:"));
            }
            side.clone_from(&check.side);
            line(out, &format!("      [ ] {}", check.valve));
        }
    }
    left_out(out, plan);
}

fn short(out: &mut String, plan: &PlanReport) {
    for (i, stop) in plan.stops.iter().enumerate() {
        let (how, checks) = (reach(i, stop), groups(&stop.check).join(" | "));
        if how.len() + checks.len() < 90 {
            line(out, &format!("{:>2}. {how}: check {checks}", i + 1));
        } else {
            line(out, &format!("{:>2}. {how}", i + 1));
            line(out, &format!("      check {checks}"));
        }
    }
    left_out(out, plan);
}

/// What to watch and what to check then, in the order in which they come; a line for each stop would say
/// the same over and over.
fn watched(out: &mut String, plan: &PlanReport) {
    let watches = || plan.stops.iter().flat_map(|s| &s.watch);
    let is_open = watches().all(|w| w.movement == Movement::FullyOpen);
    line(
        out,
        if is_open {
            "no mark is needed: watch one valve, and while it is fully open check the other; turning \
             forward:"
        } else {
            "no mark is needed: watch an exhaust valve begin to open, an intake valve just close, and \
             check the other; turning forward:"
        },
    );
    let pairs: Vec<String> = watches().map(pair).collect();
    for row in pairs.chunks(4) {
        line(out, &format!("      {}", row.join(", ")));
    }
    left_out(out, plan);
}

/// A valve to watch and the ones to check then.
fn pair(watch: &WatchReport) -> String {
    let check: Vec<&str> = watch
        .check
        .iter()
        .map(|valve| valve.strip_prefix("cylinder ").unwrap_or(valve))
        .collect();
    format!(
        "{} {} -> {}",
        watch.cylinder,
        watch.kind.word(),
        check.join(" and ")
    )
}

/// How to get to a stop, and how to know it.
pub(in crate::job) fn reach(i: usize, stop: &StopReport) -> String {
    let turn = if i == 0 && stop.turn.degrees() <= 0.0 {
        String::from("start")
    } else {
        format!("turn {} deg forward", whole_degrees(stop.turn.degrees()))
    };
    let place = match (&stop.firing_tdc, &stop.overlap_tdc) {
        (Some(firing), _) => format!("firing TDC of {firing}"),
        (None, Some(overlap)) => format!("overlap TDC of {overlap}"),
        (None, None) => {
            let since = whole_degrees(stop.last_fired.turn.degrees());
            format!(
                "{since} deg after firing TDC of {}",
                stop.last_fired.cylinder
            )
        }
    };
    let mark = stop
        .mark
        .as_ref()
        .map(|label| format!("mark {}, ", Quoted(label)));
    if stop.watch.is_empty() {
        format!("{turn}: {}{place}", mark.unwrap_or_default())
    } else {
        let watch: Vec<&str> = stop.watch.iter().map(|w| w.text.as_str()).collect();
        format!("{turn}: {} (near {place})", watch.join(", "))
    }
}

/// The checks of a stop by side and kind, in the order of the checks.
fn groups(checks: &[CheckReport]) -> Vec<String> {
    let mut out: Vec<(Option<&str>, Vec<&str>, Vec<&str>)> = Vec::new();
    for check in checks {
        let side = check.side.as_deref();
        if out.last().is_none_or(|(last, ..)| *last != side) {
            out.push((side, Vec::new(), Vec::new()));
        }
        if let Some((_, intake, exhaust)) = out.last_mut() {
            let list = match check.kind {
                ValveKind::Intake => intake,
                ValveKind::Exhaust => exhaust,
            };
            // All valves of a kind in a cylinder are checked together.
            if list.last() != Some(&check.cylinder.as_str()) {
                list.push(&check.cylinder);
            }
        }
    }
    let of = |kind: &str, list: &[&str]| {
        (!list.is_empty()).then(|| format!("{kind} {}", list.join(", ")))
    };
    out.into_iter()
        .map(|(side, intake, exhaust)| {
            let kinds = [of("intake", &intake), of("exhaust", &exhaust)];
            let kinds: Vec<String> = kinds.into_iter().flatten().collect();
            let side = side.map(|s| format!("{s}: ")).unwrap_or_default();
            format!("{side}{}", kinds.join("; "))
        })
        .collect()
}

fn left_out(out: &mut String, plan: &PlanReport) {
    let mut by_reason: Vec<(&str, Vec<&str>)> = Vec::new();
    for left in &plan.unreachable_why {
        match by_reason.iter_mut().find(|(text, _)| *text == left.text) {
            Some((_, valves)) => valves.push(&left.valve),
            None => by_reason.push((&left.text, Vec::from([left.valve.as_str()]))),
        }
    }
    for (text, valves) in by_reason {
        line(
            out,
            &format!(
                "Cannot be checked at any stop: {} ({text})",
                valves.join(", ")
            ),
        );
    }
}
