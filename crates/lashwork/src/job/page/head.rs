//! Top of the page: which job, what has to be settled first, what the books ask for, what can hurt.

use super::wrap;
use crate::job::clearance::{ClearanceReport, SpecificationReport};
use crate::job::record::Record;
use crate::job::report::Report;
use crate::job::units::Units;
use crate::valve::{Applicability, Condition};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

pub(super) fn write(out: &mut String, report: &Report, found: &ClearanceReport) {
    title(out, "VALVE CLEARANCES", report);
    for one in &found.stop_work {
        wrap::write(out, "STOP WORK: ", &one.text);
        if one.valves.len() == found.valves.len() {
            wrap::write(out, "    concerns ", "every valve read");
        } else if !one.valves.is_empty() {
            wrap::write(out, "    concerns ", &one.valves.join(", "));
        }
    }
    if found.stop_work.is_empty() && !found.valves.is_empty() {
        wrap::write(
            out,
            "STOP WORK: ",
            "nothing found that must be settled before setting.",
        );
    }
    let may_apply = |s: &&SpecificationReport| {
        s.applicability != Applicability::DoesNotApply && s.used_instead.is_none()
    };
    for book in found.specifications.iter().filter(may_apply) {
        specification(out, book, report.units);
    }
    let temperatures = found.warmth.temperatures.iter();
    let temperatures: Vec<&str> = temperatures.map(|one| one.text.as_str()).collect();
    if !temperatures.is_empty() {
        wrap::write(out, "", &temperatures.join("; "));
    }
    for caution in &report.cautions {
        wrap::write(out, "! ", caution);
    }
}

/// Which step of the service of which engine, and its record.
pub(super) fn title(out: &mut String, step: &str, report: &Report) {
    let title = report.title.as_deref().unwrap_or("untitled engine");
    wrap::write(out, "", &format!("{step}: {title}"));
    if let Some(note) = &report.note {
        wrap::write(out, "Note: ", note);
    }
    record(out, report.engine.number, &report.record);
}

/// What makes the page a record; a blank to fill in for what is not said.
fn record(out: &mut String, number: Option<u64>, record: &Record) {
    let number = number.map(|n| format!("{n}"));
    let parts = [
        ("Engine no.", number.as_ref()),
        ("machine", record.machine.as_ref()),
        ("date", record.date.as_ref()),
        ("run", record.hours.as_ref().or(record.distance.as_ref())),
        ("gauge", record.gauge.as_ref()),
        ("by", record.by.as_ref()),
    ];
    let said = parts.map(|(word, said)| match said {
        Some(text) => format!("{word} {text}"),
        None => format!("{word} _________"),
    });
    wrap::write(out, "", &said.join("   "));
}

fn specification(out: &mut String, book: &SpecificationReport, units: Units) {
    let condition = match book.condition {
        Condition::Cold => "cold",
        Condition::Hot => "hot",
    };
    let at = match book.reference {
        Some(at) => format!("{condition}, at {}", at.show(units.temperature.unit(), 0)),
        None => format!("{condition}, temperature not stated"),
    };
    wrap::write(
        out,
        &format!("[{}] ", book.id),
        &format!("{}; {at}", book.provenance),
    );
    if let Some(place) = &book.measured_at {
        wrap::write(out, "    leaf goes: ", place);
    }
    wrap::write(out, "    intake:  ", &book.intake);
    wrap::write(out, "    exhaust: ", &book.exhaust);
}
