//! Records made in few words.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first thing it does not expect"
)]

use lashwork::history::{
    Drift, DriftAnswer, DriftChoice, Record, Reset, Service, Subject, Used, Visit, drift,
};
use lashwork::quantity::QuantityError;
use lashwork::tolerance::{DecisionRule, Estimate, HasLimits, Measurand};

pub(super) const ENGINE: &str = "invented engine";

/// Any number, so that published examples of other trades can be read as they are printed.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub(super) struct Plain(pub(super) f64);

impl Measurand for Plain {
    const UNIT: &'static str = "1";
    const MAX_UNCERTAINTY: f64 = 1e9;
    fn number(self) -> f64 {
        self.0
    }
    fn from_number(number: f64) -> Result<Self, QuantityError> {
        Ok(Self(number))
    }
}

impl std::fmt::Display for Plain {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.0)
    }
}

impl HasLimits for Plain {
    type Printed = Self;
    const USUAL_RULE: DecisionRule = DecisionRule::simple();
    fn printed_number(printed: Self) -> f64 {
        printed.0
    }
    fn read_printed(text: &str) -> Result<Self, QuantityError> {
        lashwork::quantity::Lash::parse(text).map(|lash| Self(lash.mm()))
    }
}

pub(super) fn exact<Q: Measurand>(value: f64) -> Estimate<Q> {
    Estimate::from_numbers(value, value, 0.0).unwrap()
}

pub(super) fn between<Q: Measurand>(low: f64, high: f64, u: f64) -> Estimate<Q> {
    Estimate::from_numbers(low, high, u).unwrap()
}

/// A record of so many subjects of one kind.
pub(super) fn record<Q: Measurand>(subjects: usize) -> Record<Q> {
    let subject = |at: usize| Subject::new(&format!("{} exhaust", at + 1), "exhaust");
    Record::new(ENGINE, (0..subjects).map(subject).collect()).unwrap()
}

pub(super) fn service<Q: Measurand>(hours: f64, visits: Vec<Visit<Q>>) -> Service<Q> {
    Service {
        engine: ENGINE.into(),
        used: Used::default().hours(hours).unwrap(),
        visits: visits.into_iter().enumerate().collect(),
    }
}

/// One subject, exact readings, without a setting.
pub(super) fn series<Q: Measurand>(x: &[f64], y: &[f64]) -> Record<Q> {
    let mut made = record(1);
    for (x, y) in x.iter().zip(y) {
        made.push(service(*x, vec![Visit::found(exact(*y))]))
            .unwrap();
    }
    made
}

pub(super) fn set<Q: Measurand>(found: Estimate<Q>, left: Estimate<Q>) -> Visit<Q> {
    Visit::found(found).reset(Reset::Set).left(left)
}

pub(super) fn fitted<Q: Measurand>(record: &Record<Q>, choice: &DriftChoice<Q>) -> Drift<Q> {
    match drift(record, "exhaust", choice).unwrap() {
        DriftAnswer::Fitted(drift) => drift,
        DriftAnswer::TooFew(few) => panic!("{few:?}"),
    }
}
