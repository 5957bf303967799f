//! Coil, condenser and plugs on the sheet.

use super::ElectricsReport;
use crate::job::page::wrap;
use crate::job::work::{MeasuredReport, write_advice};
use alloc::format;
use alloc::string::String;

/// Writes them.
pub(in crate::job::ignition) fn write(out: &mut String, found: &ElectricsReport) {
    wrap::write(out, "", "Coil, condenser and plugs:");
    let words =
        |one: &MeasuredReport| format!("{}, book {}: {}", one.found, one.limits, one.verdict_text);
    for one in &found.resistors {
        let judged = one.judged.as_ref().map(&words);
        let judged = judged.unwrap_or_else(|| format!("{:.2} ohm", one.resistance.ohms()));
        let text = format!("{judged} ({})", one.text);
        wrap::write(out, &format!("  {}: ", one.name), &text);
    }
    if let Some(condenser) = &found.condenser {
        let said = [
            condenser.judged.as_ref().map(&words),
            condenser.contacts.clone(),
        ];
        for text in said.into_iter().flatten() {
            wrap::write(out, "  condenser: ", &text);
        }
    }
    for charge in &found.charges {
        wrap::write(out, "  coil ", &charge.text);
    }
    if let Some(weak) = &found.weak {
        wrap::write(out, "  coil ", &weak.text);
    }
    if let Some(plug) = &found.plug {
        let gap = plug.gap.as_ref().map(words);
        for text in gap.iter().chain(&plug.text) {
            wrap::write(out, "  plug: ", text);
        }
    }
    for advice in &found.advice {
        write_advice(out, advice);
    }
}
