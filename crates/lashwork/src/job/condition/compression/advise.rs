//! What to do about what compression says.

use super::answer::{
    CompressionCylinderReport, CompressionGasketReport, CompressionNextReport, CompressionReport,
    CompressionRuleReport,
};
use super::{Compression, words};
use crate::condition::compression::{
    CompressionAnswer, CompressionCause, CompressionLook, CylinderAnswer,
};
use crate::engine::CylinderLabel;
use crate::job::work::{Before, Standing, WorkAdvice};
use crate::quantity::GaugePressure;
use crate::tolerance::Verdict;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What was found, on its way into words.
pub(super) struct Told<'r> {
    pub(super) asked: &'r Compression,
    pub(super) answer: &'r CompressionAnswer,
    /// The same without what oil did.
    pub(super) dry_only: &'r CompressionAnswer,
    /// Where the valve clearances stand.
    pub(super) valves: Option<Standing>,
    /// Where the head's bolts stand.
    pub(super) head: Option<Standing>,
    pub(super) before: &'r Before,
    /// Cylinders that are compared by where their own intake closes.
    pub(super) own_closing: Vec<&'r CylinderLabel>,
    /// Cylinders of which leak-down was read.
    pub(super) leak_read: &'r [&'r CylinderLabel],
    /// Cylinders without a reading.
    pub(super) not_read: Vec<String>,
}

impl Told<'_> {
    pub(super) fn report(self) -> CompressionReport {
        let cylinders: Vec<CompressionCylinderReport> = (self.asked.readings.iter())
            .zip(&self.answer.cylinders)
            .zip(&self.dry_only.cylinders)
            .map(|((read, found), dry_only)| self.cylinder(read, found, dry_only))
            .collect();
        let gaskets: Vec<CompressionGasketReport> = self.gaskets();
        let rules: Vec<CompressionRuleReport> =
            self.answer.rules.iter().map(|one| self.rule(one)).collect();
        let low = self.low();
        let next = self.answer.next.map(|look| CompressionNextReport {
            look,
            text: if self.is_leak_known(look) {
                format!("the leak-down of {low} was read: what it says of them stands there")
            } else {
                words::look(look, &low)
            },
        });
        let advice = self.advice(next.as_ref(), &rules);
        CompressionReport {
            verdict_text: self.verdict(&cylinders, &rules, &low),
            provisional: self.provisional(),
            level: self.level(),
            level_text: self.level_text(),
            standard: self
                .answer
                .standard
                .iter()
                .flat_map(|standard| {
                    standard
                        .members
                        .iter()
                        .map(|label| format!("cylinder {label}"))
                })
                .collect(),
            rules,
            cylinders,
            gaskets,
            faults: self.answer.faults.clone(),
            fault_texts: self.answer.faults.iter().map(ToString::to_string).collect(),
            not_read: self.not_read,
            next,
            advice,
        }
    }

    pub(super) fn say(&self, pressure: GaugePressure) -> String {
        self.asked.unit.shown(pressure)
    }

    /// Why it holds for now only.
    fn provisional(&self) -> Option<String> {
        if let Some(settle) = &self.before.settle {
            return Some(format!("{settle}; then crank again"));
        }
        (self.valves != Some(Standing::Settled)).then(|| {
            String::from(
                "nothing says that the valve clearances were settled: a tight valve alone lowers a cylinder",
            )
        })
    }

    /// Whether the look is a leak-down that was done.
    fn is_leak_known(&self, look: CompressionLook) -> bool {
        let mut unsound = self.answer.cylinders.iter().filter(|one| !is_sound(one));
        look == CompressionLook::LeakDown
            && unsound.all(|one| self.leak_read.contains(&&one.cylinder))
    }

    fn advice(
        &self,
        next: Option<&CompressionNextReport>,
        rules: &[CompressionRuleReport],
    ) -> WorkAdvice {
        let is_missed = rules
            .iter()
            .any(|one| one.judged.verdict != Verdict::InBand);
        if let Some(settle) = &self.before.settle
            && (next.is_some() || is_missed)
        {
            return WorkAdvice::SettleFirst {
                text: format!("{settle}; then crank again"),
            };
        }
        match next {
            Some(next) if next.look == CompressionLook::Clearances => WorkAdvice::SettleFirst {
                text: next.text.clone(),
            },
            Some(next) if next.look == CompressionLook::ValveTiming => WorkAdvice::FindCause {
                text: String::from("no cylinder is unlike the others, and all are low"),
                causes: Vec::from([next.text.clone()]),
            },
            Some(next) if self.is_leak_known(next.look) => WorkAdvice::FindCause {
                text: format!("{}{}", self.bolts(), next.text),
                causes: Vec::new(),
            },
            Some(next) => WorkAdvice::Measure {
                text: format!("{}{}", self.bolts(), next.text),
            },
            None if !self.answer.faults.is_empty() => WorkAdvice::Measure {
                text: words::look(CompressionLook::CrankAgain, ""),
            },
            None if is_missed => WorkAdvice::FindCause {
                text: String::from(
                    "no cylinder is unlike the others, yet a printed rule is not shown to be met",
                ),
                causes: Vec::from([
                    String::from("the gauge and its hose, against another"),
                    String::from("the cranking: battery, throttle, strokes, a warm engine"),
                    words::look(CompressionLook::LeakDown, "every cylinder"),
                ]),
            },
            None if !self.not_read.is_empty() => WorkAdvice::Measure {
                text: format!("read {} too", self.not_read.join(", ")),
            },
            None => WorkAdvice::Leave { text: self.leave() },
        }
    }

    /// A gasket that leaks, under bolts of which nothing says that they are tight.
    fn bolts(&self) -> &'static str {
        let firsts = self
            .answer
            .cylinders
            .iter()
            .filter_map(|one| one.causes.first());
        let mut firsts = firsts.map(|first| first.cause);
        let is_gasket = firsts.any(|cause| cause == CompressionCause::Gasket);
        if is_gasket && self.head.is_none_or(|head| head == Standing::NotKnown) {
            "the torque of the head bolts first, by the maker's manual; then "
        } else {
            ""
        }
    }

    fn leave(&self) -> String {
        if self.before.settle.is_some() {
            return String::from(
                "nothing to do on its account for now; crank again when the steps before it are settled",
            );
        }
        String::from("nothing to do on its account")
    }
}

pub(super) fn is_sound(one: &CylinderAnswer) -> bool {
    let first = one.causes.first();
    first.is_none_or(|w| w.cause == CompressionCause::Sound)
}
