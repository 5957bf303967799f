//! Cooling, comparison and lash by temperature on the job sheet.

use super::answer::{LashCurve, LashPoint, WarmthReport};
use crate::job::text::{line, section};
use crate::job::units::Shown;
use crate::quantity::Lash;
use crate::quantity::shown::{by_hand, reckoned};
use alloc::format;
use alloc::string::String;

/// Most rows of a table on the sheet; the report holds all of them.
const ROWS: usize = 12;

/// Writes the metal temperature and what follows from it.
pub(in crate::job) fn write(out: &mut String, report: &WarmthReport, shown: Shown) {
    section(out, "Metal temperature");
    for fact in &report.metal {
        line(out, fact);
    }
    for comparison in &report.comparisons {
        line(out, &comparison.line(shown));
    }
    if let Some(cooling) = &report.cooling {
        for fact in cooling.lines(shown) {
            line(out, &fact);
        }
    }
    for pair in report.lash_curves.chunks(2) {
        if let [intake, exhaust] = pair {
            table(out, intake, exhaust, shown);
        }
    }
}

/// Intake and exhaust of one specification side by side.
fn table(out: &mut String, intake: &LashCurve, exhaust: &LashCurve, shown: Shown) {
    let what = match &intake.varies {
        Some(name) => format!("{name} varies, the rest as stated"),
        None => String::from("the whole engine at one temperature"),
    };
    section(
        out,
        &format!("Lash by temperature [{}], {what}", intake.specification),
    );
    line(
        out,
        &format!(
            "in {}: thermal change (u), then the lash of a valve at the set value (at the ends of the set \
             band)",
            if shown.inches { "inches" } else { "mm" }
        ),
    );
    line(
        out,
        &format!(
            "  {:>5}  {:>7} {:<8}  {:<26} {}",
            "metal", "change", "(u)", "intake", "exhaust"
        ),
    );
    let count = intake.points.len();
    let every = count.div_ceil(ROWS).max(1);
    for (i, (a, b)) in intake.points.iter().zip(&exhaust.points).enumerate() {
        if i % every == 0 || i + 1 == count {
            let u = reckoned(a.uncertainty_mm, shown.inches);
            let u = format!("({})", number(&u));
            let row = format!(
                "  {:>5}  {:>7} {:<8}  {:<26} {}",
                a.temperature.show(shown.temperature, 0),
                number(&shown.signed(a.change.mm())),
                u,
                lash(a, shown),
                lash(b, shown)
            );
            line(out, &row);
        }
    }
    let points = intake.points.iter().chain(&exhaust.points);
    let closed = |p: &LashPoint| {
        [Some(p.lash), p.low]
            .into_iter()
            .flatten()
            .any(|l| l.mm() < 0.0)
    };
    if points.into_iter().any(closed) {
        line(
            out,
            "  below zero there is no gap left: the valve would be held off its seat",
        );
    }
    if every > 1 {
        line(
            out,
            &format!("  {count} temperatures in the full report, one in {every} shown here"),
        );
    }
}

/// Without its unit, which stands above the table.
fn number(text: &str) -> &str {
    text.split(' ').next().unwrap_or(text)
}

/// What a hand will find.
fn lash(point: &LashPoint, shown: Shown) -> String {
    let one = |lash: Lash| String::from(number(&by_hand(lash.mm(), shown.inches)));
    let end = |lash: Option<Lash>| lash.map_or_else(|| String::from("open"), one);
    let (low, high) = (end(point.low), end(point.high));
    format!("{} ({low} to {high})", one(point.lash))
}
