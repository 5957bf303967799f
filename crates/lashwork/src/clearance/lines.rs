//! Advice as a sheet says it, a line for each thing to do.

use super::advice::Advice;
use super::reset::Reset;
use crate::quantity::shown::by_hand;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

impl Advice {
    /// Everything to do, in order, a line each; the gaps to feel in inches if asked.
    pub(crate) fn lines(&self, inches: bool) -> Vec<String> {
        let mut lines = Vec::new();
        for step in self.first() {
            lines.push(format!("first {}", step.text));
        }
        match self {
            Self::Reset(reset) => reset.lines(inches, &mut lines),
            Self::FindCause { text, causes, .. } => {
                lines.push(text.clone());
                let causes: Vec<&str> = causes.iter().map(|cause| cause.text).collect();
                if !causes.is_empty() {
                    lines.push(format!("look at: {}", causes.join("; ")));
                }
            }
            Self::Leave { text, .. } | Self::Measure { text, .. } | Self::SettleFirst { text } => {
                lines.push(text.clone());
            }
        }
        lines
    }
}

impl Reset {
    fn lines(&self, inches: bool, lines: &mut Vec<String>) {
        let then = if self.first.is_empty() {
            ""
        } else {
            "only then "
        };
        let because = self.because.as_ref().map(|why| format!("; {why}"));
        lines.push(format!(
            "{then}{}{}",
            self.amount,
            because.unwrap_or_default()
        ));
        lines.extend(self.aim_text.clone());
        if let Some(before) = &self.before_locking {
            lines.push(before.line(inches));
        }
        if let Some(feel) = self.feel_now {
            let feel = by_hand(feel.mm(), inches);
            let now = format!("{feel} at the present temperature");
            lines.push(match &self.leaves {
                Some(leaves) => format!("it must then be so: {} ({now})", leaves.text),
                None => format!("it must then be {now}"),
            });
        }
    }
}
