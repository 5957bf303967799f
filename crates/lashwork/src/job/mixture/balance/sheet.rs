//! Balance on the sheet.

use super::BalanceReport;
use crate::job::page::wrap;
use crate::job::work::{WorkAdvice, write_amounts, write_further};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Writes it.
pub(in crate::job::mixture) fn write(out: &mut String, found: &BalanceReport) {
    wrap::write(out, "", &format!("Balance: {}", found.verdict_text));
    let is_read_again = matches!(
        found.advice,
        WorkAdvice::Set { .. } | WorkAdvice::Measure { .. }
    );
    for one in &found.throttles {
        let verdict = one
            .judged
            .as_ref()
            .map(|judged| format!(": {}", judged.verdict_text));
        let text = format!("{}{}", one.text, verdict.unwrap_or_default());
        wrap::write(out, "  ", &text);
        if is_read_again {
            wrap::room(out, "then");
        }
    }
    for one in &found.shafts {
        wrap::write(out, "  ", &one.text);
    }
    for one in &found.cylinders {
        wrap::write(out, "  ", &one.text);
    }
    let turns = found.turns.iter().enumerate();
    let turns = turns.map(|(i, one)| match i {
        0 => one.text.clone(),
        _ => format!("then the {}", one.text),
    });
    write_amounts(out, &found.advice, &turns.collect::<Vec<_>>());
    if let Some(next) = &found.next {
        write_further(out, "  next reading: ", next, &found.advice);
    }
}
