//! How one quantity drifts: what is said of its subjects, whatever it is.

mod advise;
mod alike;
mod answer;
pub(super) mod sheet;
mod words;

pub use answer::{
    AlikeReport, BeddingReport, KindDriftReport, LookReport, OddDriftReport, QuantityHistoryReport,
    SubjectDriftReport,
};

use super::HistoryPlace;
use super::time::Times;
use crate::history::{
    CountedBy, Drift, DriftAnswer, DriftChoice, HistoryError, Record, TooFew, Used, drift,
};
use crate::job::assumptions::Assumptions;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::Sides;
use crate::tolerance::{DecisionRule, HasLimits, Limits};
use alloc::boxed::Box;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// The words of a quantity.
pub(super) struct Words {
    /// What stands behind the name of a kind.
    pub(super) of_kind: &'static str,
    pub(super) falls: &'static str,
    pub(super) falling: &'static str,
    pub(super) fell: &'static str,
    pub(super) rises: &'static str,
    pub(super) rising: &'static str,
    pub(super) rose: &'static str,
    /// What it is out of its limits.
    pub(super) sides: Sides,
    /// What must be sure before any of it is relied on.
    pub(super) sure: &'static [&'static str],
    /// Where to look at one that falls unlike its mates, and at one that rises so.
    pub(super) falls_causes: &'static [&'static str],
    pub(super) rises_causes: &'static [&'static str],
    /// What to do about an odd one, behind when.
    pub(super) odd: &'static str,
    /// How to read it so that there is a forecast.
    pub(super) read: &'static str,
    /// That it is to be read now.
    pub(super) read_now: &'static str,
}

/// How a quantity is said.
#[derive(Clone, Copy)]
pub(super) struct Say<'r> {
    pub(super) words: &'static Words,
    /// How many of the quantity's unit one is in which it is said, and its symbol.
    pub(super) unit: (f64, &'static str),
    /// A change, by its size.
    pub(super) amount: &'r dyn Fn(f64) -> String,
    /// A value.
    pub(super) value: &'r dyn Fn(f64) -> String,
}

/// Limits of a kind.
pub(super) struct Band<'r, Q: HasLimits> {
    pub(super) kind: &'r str,
    /// Whose they are.
    pub(super) name: String,
    /// As printed.
    pub(super) text: String,
    pub(super) limits: &'r Limits<Q>,
}

/// Where a subject is, beside its name.
#[derive(Clone, Default)]
pub(super) struct Whose {
    pub(super) cylinder: Option<String>,
    pub(super) number: Option<u8>,
}

/// The record of a quantity and what is known beside it.
pub(super) struct Kept<'r, Q: HasLimits> {
    pub(super) record: &'r Record<Q>,
    /// A subject each.
    pub(super) whose: Vec<Whose>,
    pub(super) bands: Vec<Band<'r, Q>>,
    pub(super) rule: DecisionRule,
    pub(super) times: &'r Times,
    pub(super) bedding_in: Option<Used>,
    pub(super) say: Say<'r>,
}

/// The drift of a kind, or nothing.
pub(super) enum Fit<Q: HasLimits> {
    Fitted(Box<Drift<Q>>),
    TooFew(TooFew),
}

/// The kinds of a record, in its order, each with its drift.
pub(super) struct Fits<Q: HasLimits>(Vec<(String, Fit<Q>)>);

impl<Q: HasLimits> Fits<Q> {
    /// The drift of a kind, if there is one.
    pub(super) fn of(&self, kind: &str) -> Option<&Drift<Q>> {
        self.0.iter().find_map(|(own, fit)| match fit {
            Fit::Fitted(drift) if own == kind => Some(&**drift),
            _ => None,
        })
    }
}

/// Works it out.
pub(super) fn report<Q: HasLimits>(
    kept: &Kept<'_, Q>,
    assumptions: &mut Assumptions,
) -> Result<(QuantityHistoryReport, Fits<Q>), Vec<Problem>> {
    let mut fits = Fits(Vec::new());
    for subject in kept.record.subjects() {
        if fits.0.iter().all(|(kind, _)| *kind != subject.kind) {
            let fit = fitted(kept, &subject.kind).map_err(|problem| Vec::from([problem]))?;
            if let Fit::Fitted(drift) = &fit {
                assumptions.add_all(drift.assumptions());
            }
            fits.0.push((subject.kind.clone(), fit));
        }
    }
    let mut told = Vec::new();
    for (place, subject) in kept.record.subjects().iter().enumerate() {
        let one = advise::subject(kept, place, fits.of(&subject.kind));
        told.push(one.map_err(|why| {
            Vec::from([Problem::at(Place::History(HistoryPlace::Section), &why)])
        })?);
    }
    let kinds = fits.0.iter();
    let report = QuantityHistoryReport {
        next: advise::next(&told, kept),
        sure: kept.say.words.sure.into(),
        unit: Q::UNIT,
        kinds: kinds
            .map(|(kind, fit)| advise::kind(kind, fit, kept))
            .collect(),
        alike: alike::report(&told, kept),
        subjects: told,
    };
    Ok((report, fits))
}

/// How long a bedding-in is on what time is counted by. By itself, so that nothing of it is read where there is none.
#[inline(never)]
fn counted(bedding_in: &Used, by: CountedBy) -> Result<f64, Problem> {
    bedding_in.count(by).ok_or_else(|| {
        Problem::new(
            Place::History(HistoryPlace::BeddingIn),
            "history.bedding-in-count",
            format!("the bedding-in is not stated on what time is counted by, {by}"),
            format!(
                "state it in {}, or choose what time is counted by",
                by.unit()
            ),
        )
    })
}

fn fitted<Q: HasLimits>(kept: &Kept<'_, Q>, kind: &str) -> Result<Fit<Q>, Problem> {
    let by = kept.times.by;
    let at = |place, why| Problem::at(Place::History(place), &why);
    let bedding_in = kept.bedding_in.as_ref().map(|used| counted(used, by));
    let bedding_in = bedding_in.transpose()?;
    let choice = DriftChoice {
        counted_by: Some(by),
        bedding_in,
        scatter: None,
    };
    match drift(kept.record, kind, &choice) {
        Ok(DriftAnswer::Fitted(drift)) => Ok(Fit::Fitted(Box::new(drift))),
        Ok(DriftAnswer::TooFew(few)) => Ok(Fit::TooFew(few)),
        Err(why @ HistoryError::BeddingIn { .. }) => Err(at(HistoryPlace::BeddingIn, why)),
        Err(why) => Err(at(HistoryPlace::Section, why)),
    }
}
