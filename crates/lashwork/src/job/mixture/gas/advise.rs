//! What to do about the exhaust gas.

use super::answer::{GasCauseReport, GasDoubtReport, GasJudgedReport, GasLambdaReport, GasReport};
use super::reckon::{LambdaBy, Reckoned};
use super::{Gas, GasReadAt, words};
use crate::job::work::{Before, MeasuredReport, Sides, WorkAdvice, told};
use crate::mixture::gas::{GasCause, GasDoubt};
use crate::mixture::idle::{MixtureScrew, Side};
use crate::quantity::Lambda;
use crate::statistics::student_t_quantile;
use crate::tolerance::{Uncertainty, Verdict};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// The part of intervals that holds the value.
const CONFIDENCE: f64 = 0.95;

const LAMBDA: Sides = Sides {
    below: "too rich",
    above: "too lean",
};
const SHARE: Sides = Sides {
    below: "too low",
    above: "too high",
};

/// What the advice rests on.
pub(super) struct Found<'r> {
    pub(super) asked: &'r Gas,
    pub(super) screw: Option<MixtureScrew>,
    /// Whether the mixture screw stands where the speed wants it, or is left to the gas against the speed.
    pub(super) is_idle_left: bool,
    pub(super) before: &'r Before,
    pub(super) reckoned: Reckoned,
}

/// What there is to say before anything was read.
pub(super) fn not_read(before: &Before) -> GasReport {
    let text = "engine warm, choke off, probe deep in the tail pipe: read CO, and CO2, O2 and HC if the tester \
                shows them, once they stand";
    GasReport {
        verdict_text: String::from("not read"),
        lambda: None,
        contradictions: Vec::new(),
        co_without_air: None,
        spoilt: None,
        is_judged: false,
        judged: GasJudgedReport::default(),
        turn_toward: None,
        advice: match &before.settle {
            Some(text) => WorkAdvice::SettleFirst { text: text.clone() },
            None => WorkAdvice::Measure {
                text: String::from(text),
            },
        },
    }
}

impl Found<'_> {
    /// The report.
    pub(super) fn told(&self) -> GasReport {
        let mut lambda = self.lambda();
        let is_off = self.asked.is_air_injection_off == Some(true);
        let told = |one| doubt(one, is_off);
        let doubts: Vec<GasDoubtReport> = self.reckoned.doubts.iter().map(told).collect();
        let spoilt = words::spoilt(self.asked);
        let counts = doubts.is_empty() && spoilt.is_none();
        let judged = if counts {
            self.judged()
        } else {
            lambda
                .text
                .push_str("; not to be taken for the engine's mixture");
            GasJudgedReport::default()
        };
        let is_judged = each(&judged).next().is_some();
        let (turn_toward, advice) = match spoilt {
            Some((_, again)) => (
                None,
                WorkAdvice::Measure {
                    text: String::from(again),
                },
            ),
            None if counts => self.advice(&judged),
            None => (None, unsettled(&doubts)),
        };
        GasReport {
            verdict_text: self.said(&doubts, spoilt.map(|(why, _)| why), &judged),
            lambda: Some(lambda),
            contradictions: doubts,
            co_without_air: self.reckoned.co_without_air,
            spoilt: spoilt.map(|(why, _)| String::from(why)),
            is_judged,
            judged,
            turn_toward,
            advice,
        }
    }

    fn lambda(&self) -> GasLambdaReport {
        let found = &self.reckoned.lambda;
        let value = found.centre();
        // Of a range its ends are widened as if each were the value: 95 % or more.
        let k = student_t_quantile(CONFIDENCE, f64::INFINITY).unwrap_or(2.0);
        let by = k * found.normal_uncertainty().number();
        let moved = |end: Option<Lambda>, by: f64| Lambda::from_ratio(end?.ratio() + by).ok();
        let (from, to) = (moved(found.low(), -by), moved(found.high(), by));
        let (is_from_co_alone, burnt_out, spindt) = match &self.reckoned.by {
            LambdaBy::Gases { spindt } => (false, None, *spindt),
            LambdaBy::CoAlone { burnt_out } => (true, Some(*burnt_out), None),
        };
        GasLambdaReport {
            value,
            u: found.standard_uncertainty().map(Uncertainty::number),
            from,
            to,
            is_from_co_alone,
            burnt_out,
            spindt,
            air_fuel_ratio: value.map(|value| value.ratio() * self.reckoned.fuel_ratio),
            fuel_air_fuel_ratio: self.reckoned.fuel_ratio,
            text: words::how(&self.reckoned, from, to),
        }
    }

    pub(super) fn judged(&self) -> GasJudgedReport {
        let (book, found) = (&self.asked.limits, &self.reckoned);
        let lambda = book.lambda.as_ref().map(|limits| {
            let (said, printed) = (words::lambda(&found.lambda), words::lambda_limits(limits));
            told(said, printed, &found.lambda.judged_by(limits), LAMBDA)
        });
        let co = book.co.as_ref().map(|limits| {
            let said = words::co(&found.co);
            told(said, limits.to_string(), &found.co.judged_by(limits), SHARE)
        });
        let hc = book.hc.as_ref().zip(found.hc.as_ref()).map(|(limits, hc)| {
            let (said, printed) = (words::hc(hc), words::hc_limits(limits));
            told(said, printed, &hc.judged_by(limits), SHARE)
        });
        GasJudgedReport { lambda, co, hc }
    }

    /// Whether the book prints a limit of hydrocarbons and none were read.
    const fn lacks_hc(&self) -> bool {
        self.asked.limits.hc.is_some() && self.asked.hc.is_none()
    }

    fn said(
        &self,
        doubts: &[GasDoubtReport],
        spoilt: Option<&str>,
        judged: &GasJudgedReport,
    ) -> String {
        if let Some(why) = spoilt {
            return format!("{why}; nothing is judged");
        }
        if !doubts.is_empty() {
            let what: Vec<&str> = doubts.iter().map(|one| words::doubt(&one.what)).collect();
            return format!(
                "the gases do not fit together ({}); nothing is judged",
                what.join(", ")
            );
        }
        let mut all: Vec<String> = each(judged)
            .map(|one| format!("{}: {}", one.found, one.verdict_text))
            .collect();
        if judged.lambda.is_none() {
            all.push(words::lambda(&self.reckoned.lambda));
        }
        if self.lacks_hc() {
            all.push(String::from("HC not read"));
        }
        if each(judged).next().is_none() {
            all.push(String::from("no limit stated"));
        }
        all.join("; ")
    }

    /// Which way the mixture is to go, and what to do.
    fn advice(&self, judged: &GasJudgedReport) -> (Option<Side>, WorkAdvice) {
        if let Some(text) = &self.before.settle {
            return (None, WorkAdvice::SettleFirst { text: text.clone() });
        }
        let toward = match out(judged) {
            (true, true) => return (None, opposite()),
            (true, false) => Side::Lean,
            (false, true) => Side::Rich,
            (false, false) => return (None, self.not_out(judged)),
        };
        match self.asked.ran() {
            GasReadAt::Idle => (Some(toward), self.set(toward, judged)),
            GasReadAt::RaisedSpeed => (None, off_idle(toward)),
        }
    }

    /// What to do where neither lambda nor carbon monoxide is out.
    fn not_out(&self, judged: &GasJudgedReport) -> WorkAdvice {
        let measure = |text: String| WorkAdvice::Measure { text };
        if judged
            .hc
            .as_ref()
            .is_some_and(|hc| hc.verdict == Verdict::Above)
        {
            return WorkAdvice::FindCause {
                text: String::from(
                    "fuel goes through unburnt, and the mixture is not shown to be the cause: leave its screw",
                ),
                causes: strings(&[
                    "plugs, leads and contacts: a cylinder that misses now and then",
                    "valve clearances and compression: a valve that does not close",
                    "the ignition point: too early leaves more unburnt",
                    "oil that is burnt: rings and valve guides",
                ]),
            };
        }
        let open = each(judged).find(|one| one.shown() == Verdict::CannotSay);
        if let Some(one) = open {
            let never = if one.provable {
                ""
            } else {
                "; no reading of this tester can prove it good"
            };
            return measure(format!(
                "{} against {} does not decide it: zero the tester, read again, or take one of a better class{never}",
                one.found, one.limits
            ));
        }
        if self.lacks_hc() {
            return measure(String::from("the book has a limit of HC: read it too"));
        }
        if each(judged).next().is_none() {
            return measure(String::from(
                "give the book's limits of CO, lambda or HC: without them the mixture is not judged",
            ));
        }
        let text = match self.reckoned.by {
            LambdaBy::Gases { .. } => "the gases are as the book asks: leave the mixture",
            LambdaBy::CoAlone { .. } => {
                "CO is as the book asks: leave the mixture; it alone shows neither a leak of the exhaust nor a cylinder \
                 that misses"
            }
        };
        WorkAdvice::Leave {
            text: String::from(text),
        }
    }

    fn set(&self, toward: Side, judged: &GasJudgedReport) -> WorkAdvice {
        let mut first = self.before.sure.clone();
        let mut sure = |is_open: bool, text: &str| {
            if is_open {
                first.push(String::from(text));
            }
        };
        let asked = self.asked;
        sure(
            asked.is_warm.is_none(),
            "the engine was warm and the choke off",
        );
        sure(asked.read_at.is_none(), "the gases were read at idle");
        sure(
            asked.is_probe_deep.is_none(),
            "the probe is as deep in the tail pipe as the tester asks",
        );
        sure(
            asked.is_air_injection_off.is_none(),
            "no pump or valve puts air into the exhaust",
        );
        sure(
            matches!(self.reckoned.by, LambdaBy::CoAlone { .. }),
            "the exhaust does not leak and every cylinder fires: CO alone cannot show it",
        );
        match toward {
            Side::Rich => sure(
                true,
                "no air gets in behind the throttle: hoses, gaskets and spindles; more fuel would hide it",
            ),
            Side::Lean => sure(true, "the air filter is clean and the float needle shuts"),
        }
        sure(
            self.is_idle_left,
            "the book means this CO or lambda for idle: the gas takes the screw away from where the speed wants it, and \
             both cannot be had; the gas goes first, it shows the mixture itself; air leaks, uneven cylinders and the \
             tester are ruled out",
        );
        let reads: Vec<String> = [
            ("lambda", &judged.lambda),
            ("CO", &judged.co),
            ("HC", &judged.hc),
        ]
        .into_iter()
        .filter_map(|(name, one)| Some(format!("{name} {}", one.as_ref()?.limits)))
        .collect();
        WorkAdvice::Set {
            first,
            text: words::turn(toward, self.screw),
            then_reads: format!("{}, at the book's idle speed", reads.join(", ")),
        }
    }
}

/// Whether the mixture is too rich, and whether it is too lean; by lambda and CO it may be both.
pub(super) fn out(judged: &GasJudgedReport) -> (bool, bool) {
    let is = |one: &Option<MeasuredReport>, verdict| {
        one.as_ref().is_some_and(|one| one.verdict == verdict)
    };
    let rich = is(&judged.lambda, Verdict::Below) || is(&judged.co, Verdict::Above);
    let lean = is(&judged.lambda, Verdict::Above) || is(&judged.co, Verdict::Below);
    (rich, lean)
}

fn each(judged: &GasJudgedReport) -> impl Iterator<Item = &MeasuredReport> {
    [&judged.lambda, &judged.co, &judged.hc]
        .into_iter()
        .flatten()
}

fn strings(all: &[&str]) -> Vec<String> {
    all.iter().map(ToString::to_string).collect()
}

/// A doubt with its causes, without that which is stated not to be there.
fn doubt(doubt: &GasDoubt, is_injection_off: bool) -> GasDoubtReport {
    let may_be = |cause: &&GasCause| !(is_injection_off && **cause == GasCause::AirInjection);
    let causes = doubt.causes.iter().filter(may_be);
    let causes = causes.map(|cause| GasCauseReport {
        cause: *cause,
        text: cause.to_string(),
        look: words::look(cause),
    });
    GasDoubtReport {
        what: doubt.what,
        text: doubt.what.to_string(),
        causes: causes.collect(),
    }
}

/// Where gases do not fit together.
fn unsettled(doubts: &[GasDoubtReport]) -> WorkAdvice {
    let mut looks: Vec<String> = Vec::new();
    for cause in doubts.iter().flat_map(|one| &one.causes) {
        if !looks.iter().any(|look| look == cause.look) {
            looks.push(String::from(cause.look));
        }
    }
    WorkAdvice::FindCause {
        text: String::from(
            "leave the mixture: the gases do not say how rich it is; find what is behind them, then read again",
        ),
        causes: looks,
    }
}

/// Where lambda and carbon monoxide are out to opposite sides.
fn opposite() -> WorkAdvice {
    WorkAdvice::FindCause {
        text: String::from(
            "lambda and CO are out to opposite sides: leave the mixture until that is cleared up",
        ),
        causes: strings(&[
            "the cylinders beside each other: some rich, others lean",
            "the tester: zero it in fresh air and read again",
            "the book's limits: both of this engine, at this speed, and for this fuel",
        ]),
    }
}

/// Where the mixture screw does not reach.
fn off_idle(toward: Side) -> WorkAdvice {
    match toward {
        Side::Lean => WorkAdvice::FindCause {
            text: String::from("too rich at raised speed, where the mixture screw hardly reaches"),
            causes: strings(&[
                "the choke or starter: fully off",
                "the air filter: clean",
                "the fuel level and the float needle",
                "main jet, needle and air jets: size, wear and dirt",
            ]),
        },
        Side::Rich => WorkAdvice::FindCause {
            text: String::from(
                "too lean at raised speed, where the mixture screw hardly reaches; do not load the engine until \
                 that is cured",
            ),
            causes: strings(&[
                "air that gets in behind the throttle: hoses, gaskets, spindles",
                "the fuel's way: tap, filter, pump, float needle and level",
                "main jet and needle: dirt and size",
            ]),
        },
    }
}
