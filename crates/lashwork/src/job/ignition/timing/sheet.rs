//! Timing on the sheet.

use super::TimingReport;
use crate::job::page::wrap;
use crate::job::text::percent;
use crate::job::work::write_advice;
use alloc::format;
use alloc::string::String;

/// Writes it.
pub(in crate::job::ignition) fn write(out: &mut String, found: &TimingReport) {
    wrap::write(out, "", "Timing:");
    if let Some(one) = &found.found {
        let text = format!("{}, book {}: {}", one.found, one.limits, one.verdict_text);
        wrap::write(out, "  spark: ", &text);
    }
    for slip in &found.slips {
        wrap::write(out, "  slip? ", &slip.text);
    }
    write_advice(out, &found.advice);
    let Some(curve) = &found.curve else { return };
    wrap::write(out, "", &format!("Advance: {}", curve.summary));
    for row in &curve.rows {
        let (speed, one) = (row.speed, &row.judged);
        let text = format!("{}, book {}: {}", one.found, one.limits, one.verdict_text);
        wrap::write(out, &format!("  {:>5.0} rpm: ", speed.rpm()), &text);
    }
    for text in &curve.fitted {
        wrap::write(out, "  ", text);
    }
    for cause in &curve.causes {
        let lead = format!("  {:>5} ", percent(cause.probability));
        wrap::write(out, &lead, &cause.text);
    }
    write_advice(out, &curve.advice);
}
