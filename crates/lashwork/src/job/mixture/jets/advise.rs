//! Which jet to fit.

use super::answer::{JetCautionReport, JetReport, JetSizeReport, JetsReport};
use super::{FittedJet, words};
use crate::job::mixture::air::{self, Around};
use crate::job::work::{Before, WorkAdvice};
use crate::mixture::jets::{JetAnswer, JetCaution};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What the advice rests on.
pub(super) struct Found<'r> {
    pub(super) from: &'r Around,
    pub(super) to: &'r Around,
    pub(super) before: &'r Before,
}

impl Found<'_> {
    /// The report.
    pub(super) fn told<'r>(
        &self,
        jets: impl Iterator<Item = (&'r FittedJet, &'r JetAnswer)> + Clone,
    ) -> JetsReport {
        let first = jets.clone().next();
        let (ratio, ratio_u) = first.map_or((1.0, 0.0), |(_, one)| (one.ratio, one.ratio_u));
        let jets: Vec<JetReport> = jets.map(|(jet, answer)| self.jet(jet, answer)).collect();
        let each = jets.iter().map(|jet| jet.verdict_text.as_str());
        let each: Vec<&str> = each.collect();
        JetsReport {
            verdict_text: format!(
                "the air is {ratio:.3} times as dense as where they were set, u {ratio_u:.3}; {}",
                each.join("; ")
            ),
            set_for: air::told(self.from),
            ratio,
            ratio_u,
            jets,
        }
    }

    fn jet(&self, jet: &FittedJet, answer: &JetAnswer) -> JetReport {
        let is_lambda_known = jet.lambda.is_some();
        let size = |size| words::size(size, is_lambda_known);
        let sizes: Vec<JetSizeReport> = answer.sizes.iter().map(size).collect();
        let kept = size(&answer.kept);
        let name = words::jet(jet);
        // An amount from a doubtful barometer is none.
        let doubt = self.from.doubt.as_ref().or(self.to.doubt.as_ref());
        let is_ready = self.before.settle.is_none() && doubt.is_none();
        let verdict = match answer.fit {
            _ if !is_ready => "no size yet, something else comes first".to_string(),
            None => "no size that was named is large enough".to_string(),
            Some(fit) if words::is_same(fit, jet.number) => format!("{fit} is right as it is"),
            Some(fit) => format!("{fit} in place of {}", jet.number),
        };
        let advice = match (&self.before.settle, doubt) {
            (Some(text), _) => WorkAdvice::SettleFirst { text: text.clone() },
            (None, Some(doubt)) => WorkAdvice::Measure {
                text: format!("settle the barometer before any jet is changed: {doubt}"),
            },
            (None, None) => self.advice(jet, answer, &kept, &sizes),
        };
        let cautions = answer.cautions.iter();
        JetReport {
            circuit: answer.circuit,
            fitted: jet.number,
            verdict_text: format!("{name}: {verdict}"),
            rules: answer
                .rules
                .iter()
                .map(|said| words::rule(said, jet.number))
                .collect(),
            rules_text: rules_text(answer),
            is_lambda_known,
            fit: answer.fit.filter(|_| is_ready),
            cautions: cautions
                .map(|caution| JetCautionReport {
                    caution: *caution,
                    text: caution.to_string(),
                })
                .collect(),
            advice,
            kept,
            sizes,
            name,
        }
    }

    fn advice(
        &self,
        jet: &FittedJet,
        answer: &JetAnswer,
        kept: &JetSizeReport,
        sizes: &[JetSizeReport],
    ) -> WorkAdvice {
        let (name, number) = (words::jet(jet), jet.number);
        let Some(fit) = answer.fit else {
            return WorkAdvice::Measure {
                text: format!(
                    "{name}: look for larger sizes and name them; until one is fitted do not load the engine in this \
                     air"
                ),
            };
        };
        if words::is_same(fit, number) {
            return WorkAdvice::Leave {
                text: format!("{name}: leave {number} in"),
            };
        }
        let made = sizes.iter().find(|size| words::is_same(size.number, fit));
        let lambda = made.map(|size| {
            let range = format!("{:.2} to {:.2}", size.lambda_from, size.lambda_to);
            let said = words::lambda(&range, jet.lambda.is_some());
            format!("{said}, u {:.3}, ", size.lambda_u)
        });
        let mut text = format!("{name}: fit {fit} in place of {number}");
        if fit < number {
            let back = made.map_or(1.0, |size| size.back);
            text = format!(
                "{text}; {number} may as well stay in: it runs rich here, which costs power and plugs, no piston; \
                 before the engine goes back to denser air {number} goes back in, with {fit} it would run there at {}",
                words::lambda(&format!("{back:.2}"), jet.lambda.is_some())
            );
        }
        WorkAdvice::Set {
            first: self.first(kept),
            text,
            then_reads: format!(
                "{}and the plugs look as they did where it was set, {}",
                lambda.unwrap_or_default(),
                words::where_seen(jet.circuit)
            ),
        }
    }

    fn first(&self, kept: &JetSizeReport) -> Vec<String> {
        let mut first = self.before.sure.clone();
        first.push(format!(
            "the engine ran right with {} in the air it was set for, the carburettors balanced then if there is more \
             than one: a jet does not mend what was wrong there",
            kept.number
        ));
        first.push(String::from(
            "the engine is cold, the fuel shut off, no flame near: fuel runs out of an open bowl",
        ));
        first
    }
}

/// How the rules stand to each other.
fn rules_text(answer: &JetAnswer) -> String {
    let mut sizes = answer.rules.iter().map(|said| said.size);
    let first = sizes.next().flatten();
    if sizes.all(|size| size == first) {
        return String::from("the rules ask for the same size");
    }
    let is_book = answer
        .cautions
        .iter()
        .any(|caution| matches!(caution, JetCaution::BookIsRicher | JetCaution::BookIsLeaner));
    let why = if is_book {
        "the book's steps go their own way"
    } else {
        "how much a carburettor makes up for by itself is not settled"
    };
    format!("the rules disagree: {why}; none is averaged, the richest is taken")
}
