//! The specifications on the sheet.

use super::answer::SpecificationReport;
use crate::job::text::{line, section};
use crate::job::units::Shown;
use crate::valve::{Applicability, Condition};
use alloc::format;
use alloc::string::String;

/// Writes what each asks for and where they disagree.
pub(in crate::job) fn write(
    out: &mut String,
    specifications: &[SpecificationReport],
    disagreements: &[String],
    shown: Shown,
) {
    section(out, "Specifications");
    for s in specifications {
        let applies = match s.applicability {
            Applicability::Applies => "applies to this engine number",
            Applicability::DoesNotApply => "DOES NOT APPLY to this engine number: not used",
            Applicability::CannotTell => "may apply: engine number not given",
            Applicability::NotStated => "states no engine numbers",
        };
        let condition = match s.condition {
            Condition::Cold => "cold",
            Condition::Hot => "hot",
        };
        line(out, &format!("[{}] {}: {applies}", s.id, s.provenance));
        let at = s.reference.map_or_else(
            || String::from("temperature not stated"),
            |reference| format!("at {}", reference.show(shown.temperature, 0)),
        );
        line(out, &format!("    {condition}, {at}"));
        if let Some(place) = &s.measured_at {
            line(out, &format!("    leaf: {place}"));
        }
        if let Some(other) = &s.used_instead {
            line(
                out,
                &format!("    not used: [{other}] of the same book fits the metal's temperature"),
            );
        } else if let Some(off) = &s.not_at_reference {
            line(out, &format!("    ! {}", off.text()));
        }
        line(out, &format!("    intake:  {}", s.intake));
        line(out, &format!("    exhaust: {}", s.exhaust));
    }
    for disagreement in disagreements {
        line(out, &format!("! {disagreement}"));
    }
}
