//! The engine as a whole: by its dimensions, by each printed rule, and what came out.

use super::advise::{Told, is_sound};
use super::answer::{CompressionCylinderReport, CompressionLevelReport, CompressionRuleReport};
use super::words;
use crate::condition::compression::{CylinderAnswer, RuleVerdict};
use crate::job::text::percent;
use crate::job::work::{Sides, told};
use crate::tolerance::Verdict;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// A cause from here on is named without "most probably".
const SURE: f64 = 0.95;
/// What a rule calls a cylinder that is under its limit, or over it.
const SIDES: Sides = Sides {
    below: "not met",
    above: "over",
};

impl Told<'_> {
    pub(super) fn verdict(
        &self,
        cylinders: &[CompressionCylinderReport],
        rules: &[CompressionRuleReport],
        low: &str,
    ) -> String {
        let unsound: Vec<&CylinderAnswer> = (self.answer.cylinders.iter())
            .filter(|one| !is_sound(one))
            .collect();
        let is_low = |one: &&CompressionRuleReport| one.judged.verdict != Verdict::InBand;
        let missed = rules.iter().filter(is_low).count();
        let all_low = (self.answer.level).is_some_and(|l| l.judgement.verdict == Verdict::Below);
        let of_rules = match missed {
            0 => String::new(),
            n => format!("; {n} of {} rules not shown to be met", rules.len()),
        };
        if let Some(one) = unsound.first() {
            let firsts = unsound.iter().filter_map(|one| one.causes.first());
            let is_one = firsts
                .clone()
                .all(|w| Some(w.cause) == one.causes.first().map(|w| w.cause));
            let least = firsts.map(|w| w.probability).fold(1.0, f64::min);
            let why = match one.causes.first() {
                Some(first) if is_one => format!(
                    ": {}{} ({})",
                    if least < SURE { "most probably " } else { "" },
                    words::cause(first.cause),
                    percent(least)
                ),
                _ => String::from(", by more than one cause"),
            };
            return format!("{low} low{why}{of_rules}");
        }
        if all_low {
            return format!("all cylinders lower than the engine's dimensions give{of_rules}");
        }
        let sound = cylinders.iter().filter_map(|one| one.causes.first());
        let least = sound.map(|one| one.probability).fold(1.0, f64::min);
        if cylinders.iter().any(|one| one.causes.is_empty()) {
            return format!("no other good cylinder to compare with{of_rules}");
        }
        let doubt = if least < SURE { "probably " } else { "" };
        format!(
            "every cylinder read is {doubt}sound ({} or more){of_rules}",
            percent(least)
        )
    }

    pub(super) fn level(&self) -> Option<CompressionLevelReport> {
        let level = self.answer.level.as_ref()?;
        Some(CompressionLevelReport {
            expected_from: level.expected.low(),
            expected_to: level.expected.high(),
            expected_u: level.expected.normal_uncertainty().number(),
            exponent: level.exponent,
            exponent_u: level.exponent_u,
            verdict: level.judgement.verdict,
            low: level.judgement.probabilities.below.least,
            doubt: self.answer.doubt,
        })
    }

    pub(super) fn level_text(&self) -> String {
        let shown = self.answer.standard.as_ref().and_then(|s| s.shown.centre());
        let shown = shown.map(|shown| self.say(shown));
        let Some(level) = &self.answer.level else {
            return match shown {
                Some(shown) => format!(
                    "the good cylinders show {shown}; whether the engine should show more cannot be told without its compression ratio"
                ),
                None => String::from("no cylinder is good enough to compare the others with"),
            };
        };
        let ends = level.expected.low().zip(level.expected.high());
        let ends = ends.map(|(low, high)| format!("{} to {}", self.say(low), self.say(high)));
        let u = self
            .asked
            .unit
            .say(level.expected.normal_uncertainty().number());
        let p = &level.judgement.probabilities;
        let (side, chance) = match (self.answer.doubt, level.judgement.verdict) {
            (Some(doubt), Verdict::Above) => (words::doubt(doubt), p.above),
            (Some(doubt), _) => (words::doubt(doubt), p.below),
            (None, Verdict::Below) => ("all are low alike", p.below),
            (None, Verdict::Above) => (
                "all are high alike: carbon, a skimmed head, or ratio, closing or gauge are not as stated",
                p.above,
            ),
            (None, Verdict::InBand) => ("as it should be", p.in_band),
            (None, Verdict::CannotSay) => {
                ("whether that is as it should be cannot be said", p.in_band)
            }
        };
        format!(
            "expected by the engine's dimensions: {}, u {u}; the good cylinders show {}: {side} ({})",
            ends.unwrap_or_default(),
            shown.unwrap_or_default(),
            percent(chance.most)
        )
    }

    pub(super) fn rule(&self, one: &RuleVerdict) -> CompressionRuleReport {
        let lowest = self
            .asked
            .readings
            .iter()
            .find(|r| r.cylinder == one.lowest);
        let lowest = lowest.map(|read| self.say(read.dry)).unwrap_or_default();
        let found = format!(
            "here {}, cylinder {} shows {lowest}",
            self.say(one.limit),
            one.lowest
        );
        let printed = words::rule(&one.rule, self.asked.unit);
        let each = self.asked.readings.iter().zip(&one.cylinders);
        let low = each.filter(|(_, judged)| judged.verdict == Verdict::Below);
        let judged = told(found, printed, &one.engine, SIDES);
        let p = percent(one.engine.probabilities.below.most);
        let chance = match one.engine.verdict {
            Verdict::Below => p,
            _ => format!("{p} that it is not met"),
        };
        CompressionRuleReport {
            limit: one.limit,
            lowest: format!("cylinder {}", one.lowest),
            text: format!(
                "{}: {}: {} ({chance})",
                judged.limits,
                judged.found,
                judged.verdict_text.replace("in band", "met")
            ),
            judged,
            low: low
                .map(|(read, _)| format!("cylinder {}", read.cylinder))
                .collect(),
        }
    }
}
