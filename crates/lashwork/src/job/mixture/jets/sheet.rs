//! Jets on the sheet.

use super::JetsReport;
use crate::job::page::wrap;
use crate::job::work::write_advice;
use alloc::format;
use alloc::string::String;

/// Writes it.
pub(in crate::job::mixture) fn write(out: &mut String, found: &JetsReport) {
    wrap::write(out, "", &format!("Jets: {}", found.verdict_text));
    wrap::write(out, "  set for: ", &found.set_for.text);
    if let Some(doubt) = &found.set_for.doubt {
        wrap::write(out, "  ? ", doubt);
    }
    for jet in &found.jets {
        let name = &jet.name;
        wrap::write(out, "  ", &format!("{name} {}:", jet.fitted));
        for rule in &jet.rules {
            wrap::write(out, "    ", &rule.text);
        }
        wrap::write(out, "    ", &jet.rules_text);
        for size in &jet.sizes {
            let head = if *size == jet.kept {
                "    as it is, "
            } else {
                "    "
            };
            wrap::write(out, head, &size.text);
        }
        write_advice(out, &jet.advice);
        for caution in &jet.cautions {
            wrap::write(out, "  ! ", &caution.text);
        }
    }
}
