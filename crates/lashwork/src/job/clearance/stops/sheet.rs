//! Stop plans on the job sheet: what each costs, the recommended one in full, the others in short.

use super::answer::{CheckReport, PlanReport, StopReport, StopsReport};
use crate::job::text::{degrees, line, pulley, section};
use crate::quantity::CrankAngle;
use crate::valve::{Method, ValveKind};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Writes all plans.
pub(in crate::job) fn write(out: &mut String, report: &StopsReport) {
    section(out, "Stop plans");
    line(
        out,
        &format!("the crank can be stopped at {}", report.places),
    );
    costs(out, &report.plans);
    for refused in &report.not_offered {
        let text = format!("not possible: {} ({})", words(refused.method), refused.text);
        line(out, &text);
    }
    let walk = report.recommended.as_ref();
    let chosen = walk.and_then(|w| Some((w, report.plans.get(w.plan)?)));
    if let Some((recommended, plan)) = chosen {
        heading(out, "Recommended", plan);
        line(out, &format!("why: {}", recommended.why));
        full(out, plan);
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
            None if plan.method == Method::OppositeValve => opposite(out, plan),
            None => short(out, plan),
        }
    }
}

fn words(method: Method) -> &'static str {
    match method {
        Method::CylinderByCylinder => "cylinder by cylinder",
        Method::TwoPosition => "two positions one turn apart",
        Method::FewestStops => "fewest stops",
        Method::OppositeValve => "by the opposite valve",
    }
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
        let margin = plan.smallest_margin.map(CrankAngle::degrees);
        line(
            out,
            &format!(
                "{:<30}{:>6}{:>11}{:>17}{:>14}{:>10}",
                words(plan.method),
                plan.stops.len(),
                format!("{} deg", degrees(plan.total_turn.degrees())),
                plan.walks,
                margin.map_or_else(|| "-".into(), |m| format!("{} deg", degrees(m))),
                plan.unreachable.len()
            ),
        );
    }
}

fn heading(out: &mut String, before: &str, plan: &PlanReport) {
    section(out, &format!("{before}: {}", words(plan.method)));
    if let Some(from) = plan.from.filter(|_| begins_elsewhere(plan)) {
        let at = degrees(from.degrees());
        line(
            out,
            &format!("the crank is now {at} deg after the first firing TDC"),
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

fn full(out: &mut String, plan: &PlanReport) {
    for (i, stop) in plan.stops.iter().enumerate() {
        let mark = stop.pulley_mark_mm.map(|mm| format!(", {}", pulley(mm)));
        line(
            out,
            &format!(
                "{:>2}. {}; rotor {} deg{}",
                i + 1,
                reach(i, stop, plan),
                degrees(stop.rotor.degrees()),
                mark.unwrap_or_default()
            ),
        );
        let mut side = None;
        for check in &stop.check {
            if check.side != side && check.side.is_some() {
                let name = check.side.as_deref().unwrap_or_default();
                line(out, &format!("    side {name}:"));
            }
            side.clone_from(&check.side);
            let away = degrees(check.margin.degrees());
            let from = if stop.watch.is_empty() {
                "inside the check window"
            } else {
                "clear of its own lift"
            };
            line(
                out,
                &format!("      [ ] {} ({away} deg {from})", check.valve),
            );
        }
    }
    left_out(out, plan);
}

fn short(out: &mut String, plan: &PlanReport) {
    for (i, stop) in plan.stops.iter().enumerate() {
        let (how, checks) = (reach(i, stop, plan), groups(&stop.check).join(" | "));
        if how.len() + checks.len() < 90 {
            line(out, &format!("{:>2}. {how}: check {checks}", i + 1));
        } else {
            line(out, &format!("{:>2}. {how}", i + 1));
            line(out, &format!("      check {checks}"));
        }
    }
    left_out(out, plan);
}

/// The rule and the order; a line for each stop would say the same over and over.
fn opposite(out: &mut String, plan: &PlanReport) {
    line(
        out,
        "check the intake where the exhaust of its cylinder just begins to open, the exhaust where \
         the intake of its cylinder has just closed; turning forward they come in this order:",
    );
    for row in plan.stops.chunks(8) {
        let row: Vec<String> = row.iter().map(|s| groups(&s.check).join(" | ")).collect();
        line(out, &format!("      {}", row.join(" -> ")));
    }
    left_out(out, plan);
}

/// How to get to a stop, and how to know it.
fn reach(i: usize, stop: &StopReport, plan: &PlanReport) -> String {
    let turn = if i == 0 && !begins_elsewhere(plan) {
        String::from("start")
    } else {
        format!("turn {} deg forward", degrees(stop.turn.degrees()))
    };
    let place = match (&stop.firing_tdc, &stop.overlap_tdc) {
        (Some(firing), _) => format!("firing TDC of {firing}"),
        (None, Some(overlap)) => format!("overlap TDC of {overlap}"),
        (None, None) => {
            let since = degrees(stop.last_fired.turn.degrees());
            format!(
                "{since} deg after firing TDC of {}",
                stop.last_fired.cylinder
            )
        }
    };
    let mark = stop.mark.as_ref().map(|label| format!("mark {label:?}, "));
    if stop.watch.is_empty() {
        format!("{turn}: {}{place}", mark.unwrap_or_default())
    } else {
        format!("{turn}: {} (near {place})", stop.watch.join(", "))
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
