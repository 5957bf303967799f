//! What to do about what compression says.

use super::answer::{
    CompressionCauseReport, CompressionCylinderReport, CompressionGasketReport,
    CompressionLevelReport, CompressionNextReport, CompressionReport, CompressionRuleReport,
};
use super::{Compression, words};
use crate::condition::compression::{
    CompressionAnswer, CompressionCause, CompressionLook, CylinderAnswer, CylinderReading,
    RuleVerdict, WeighedCause,
};
use crate::job::text::percent;
use crate::job::work::{Before, Sides, Standing, WorkAdvice, told};
use crate::quantity::GaugePressure;
use crate::tolerance::Verdict;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Causes less probable than this are not told.
const TOLD: f64 = 0.01;
/// A cause from here on is named without "most probably".
const SURE: f64 = 0.95;
/// What a rule calls a cylinder that is under its limit, or over it.
const SIDES: Sides = Sides {
    below: "not met",
    above: "over",
};

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
            text: words::look(look, &low),
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

    fn say(&self, pressure: GaugePressure) -> String {
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

    /// The cylinders that are not sound.
    fn low(&self) -> String {
        let unsound = self.answer.cylinders.iter().filter(|one| !is_sound(one));
        let labels: Vec<&str> = unsound.map(|one| one.cylinder.as_str()).collect();
        match labels.as_slice() {
            [one] => format!("cylinder {one}"),
            [all @ .., last] => format!("cylinders {} and {last}", all.join(", ")),
            [] => String::from("every cylinder"),
        }
    }

    fn verdict(
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

    fn level(&self) -> Option<CompressionLevelReport> {
        let level = self.answer.level.as_ref()?;
        Some(CompressionLevelReport {
            expected_from: level.expected.low(),
            expected_to: level.expected.high(),
            expected_u: level.expected.normal_uncertainty().number(),
            exponent: level.exponent,
            exponent_u: level.exponent_u,
            verdict: level.judgement.verdict,
            doubt: self.answer.doubt,
        })
    }

    fn level_text(&self) -> String {
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

    fn rule(&self, one: &RuleVerdict) -> CompressionRuleReport {
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

    fn cylinder(
        &self,
        read: &CylinderReading,
        found: &CylinderAnswer,
        dry_only: &CylinderAnswer,
    ) -> CompressionCylinderReport {
        let expected = found.expected.and_then(|it| it.centre());
        let likely = found.causes.iter().filter(|one| one.probability >= TOLD);
        let causes: Vec<CompressionCauseReport> = likely.map(of_cause).collect();
        let said = causes
            .iter()
            .map(|one| format!("{} {}", one.text, percent(one.probability)));
        let said: Vec<String> = said.collect();
        let wet = read.wet.map(|wet| format!(", {} with oil", self.say(wet)));
        let by = expected.map(|by| format!("; by the others {}", self.say(by)));
        let text = format!(
            "{}{}{}: {}",
            self.say(read.dry),
            wet.unwrap_or_default(),
            by.unwrap_or_default(),
            if said.is_empty() {
                String::from("nothing to compare with")
            } else {
                said.join(", ")
            }
        );
        CompressionCylinderReport {
            name: format!("cylinder {}", read.cylinder),
            dry: read.dry,
            wet: read.wet,
            build_up: read.build_up,
            expected,
            expected_u: found.expected.map(|it| it.normal_uncertainty().number()),
            share: found.share,
            share_u: found.share_u,
            causes,
            text,
            oil_text: self.oil(read, found, dry_only),
        }
    }

    /// What oil said of a cylinder: how far it moved the belief in rings.
    fn oil(
        &self,
        read: &CylinderReading,
        found: &CylinderAnswer,
        dry_only: &CylinderAnswer,
    ) -> Option<String> {
        let wet = read.wet?;
        let rose = wet.kilopascals() - read.dry.kilopascals();
        let rose = self.asked.unit.say(rose.max(0.0));
        let rings = |one: &CylinderAnswer| {
            let rings = one
                .causes
                .iter()
                .find(|w| w.cause == CompressionCause::Rings);
            rings.map(|w| w.probability)
        };
        let (before, after) = (rings(dry_only)?, rings(found)?);
        if is_sound(found) && is_sound(dry_only) {
            return Some(format!(
                "{rose} more; oil takes room and raises a sound cylinder too"
            ));
        }
        let speaks = if after > before { "for" } else { "against" };
        Some(format!(
            "{rose} more, which speaks {speaks} the rings: {} before, {} after",
            percent(before),
            percent(after)
        ))
    }

    fn gaskets(&self) -> Vec<CompressionGasketReport> {
        let likely = self
            .answer
            .gaskets
            .iter()
            .filter(|one| one.probability >= TOLD);
        let told = |one: &crate::condition::compression::GasketBetween| CompressionGasketReport {
            between: [one.first.to_string(), one.second.to_string()],
            probability: one.probability,
            text: format!(
                "head gasket between cylinders {} and {}: leaks with {}",
                one.first,
                one.second,
                percent(one.probability)
            ),
        };
        likely.map(told).collect()
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

fn is_sound(one: &CylinderAnswer) -> bool {
    let first = one.causes.first();
    first.is_none_or(|w| w.cause == CompressionCause::Sound)
}

fn of_cause(one: &WeighedCause) -> CompressionCauseReport {
    CompressionCauseReport {
        cause: one.cause,
        probability: one.probability,
        text: words::cause(one.cause),
    }
}
