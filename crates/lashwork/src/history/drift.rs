//! How fast what is read changes, and what it will be.

use super::answer::{Figure, Forecast, NotKnown};
use super::course::Course;
use super::mix::Mix;
use super::posterior::{Axis, Part};
use super::ray::Ray;
use super::{CountedBy, HistoryAssumption, HistoryError, Standing, Subject};
use crate::tolerance::{HasLimits, Limits, Measurand, Probabilities};
use alloc::vec::Vec;
use core::marker::PhantomData;

/// The drift of a kind of subjects.
///
/// ```
/// use lashwork::history::{DriftAnswer, DriftChoice, Record, Service, Subject, Used, Visit, drift};
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::Estimate;
/// # fn example() -> Result<(), Box<dyn std::error::Error>> {
/// let mut record = Record::<Lash>::new("barn engine", vec![Subject::new("1 exhaust", "exhaust")])?;
/// for (hours, mm) in [(0.0, 0.300), (50.0, 0.281), (100.0, 0.262), (150.0, 0.239)] {
///     record.push(Service {
///         engine: "barn engine".into(),
///         used: Used::default().hours(hours)?,
///         visits: vec![(0, Visit::found(Estimate::from_numbers(mm, mm, 0.0)?))],
///     })?;
/// }
/// let DriftAnswer::Fitted(drift) = drift(&record, "exhaust", &DriftChoice::default())? else {
///     return Err("four readings are enough".into());
/// };
/// assert!((drift.rate().value + 0.000404).abs() < 1e-6);
/// let next = drift.predicted(0, 200.0)?.map_err(|_| "it was read")?;
/// assert!((next.found.value - 0.220).abs() < 1e-3);
/// # Ok(())
/// # }
/// # example().unwrap();
/// ```
#[derive(Clone, Debug)]
pub struct Drift<Q: Measurand> {
    pub(super) by: CountedBy,
    pub(super) axis: Axis,
    pub(super) members: Vec<Member>,
    pub(super) pool: Vec<Part>,
    /// When the record ends.
    pub(super) end: f64,
    pub(super) assumptions: Vec<HistoryAssumption>,
    pub(super) quantity: PhantomData<Q>,
}

/// A subject with what was found out about it.
#[derive(Clone, Debug)]
pub(super) struct Member {
    /// What it is judged by, and all of it.
    pub(super) course: Course,
    pub(super) whole: Course,
    pub(super) subject: Subject,
    pub(super) standing: Option<Standing>,
    /// What is said of it, and its place there.
    pub(super) parts: Parts,
}

#[derive(Clone, Debug)]
pub(super) enum Parts {
    /// One of the kind.
    Pooled(usize),
    /// Moves on its own.
    Own(Vec<Part>),
}
impl<Q: Measurand> Drift<Q> {
    /// What the record goes by.
    #[must_use]
    pub const fn counted_by(&self) -> CountedBy {
        self.by
    }

    /// The rate of the kind, for a unit of the count; odd ones do not count.
    #[must_use]
    pub fn rate(&self) -> Figure {
        Figure::of(&self.rate_mix())
    }

    pub(super) fn rate_mix(&self) -> Mix {
        let part = |p: &Part| (p.weight, p.pooled.slope, libm::sqrt(p.pooled.variance));
        self.per_count(self.pool.iter().map(part).collect())
    }

    /// The rate of one subject; nothing if it is not of the kind.
    #[must_use]
    pub fn rate_of(&self, subject: usize) -> Option<Figure> {
        let member = self.member(subject)?;
        let (parts, place) = self.parts(member);
        let part = |p: &Part| {
            let (slope, variance) = p.pooled.slopes.get(place)?;
            Some((p.weight, *slope, libm::sqrt(*variance)))
        };
        Some(Figure::of(
            &self.per_count(parts.iter().filter_map(part).collect()),
        ))
    }

    /// Its middle and its standard uncertainty, without an interval.
    pub(super) fn middle_rate(&self) -> (f64, f64) {
        let mix = self.rate_mix();
        (mix.quantile(0.5), mix.sd())
    }

    fn per_count(&self, mut parts: Vec<(f64, f64, f64)>) -> Mix {
        for (_, slope, sd) in &mut parts {
            *slope /= self.axis.span;
            *sd /= self.axis.span;
        }
        Mix { parts }
    }

    /// How far readings scatter about lines, besides what they state: the mean over what may be.
    #[must_use]
    pub fn scatter(&self) -> f64 {
        self.pool.iter().map(|p| p.weight * p.scatter).sum()
    }

    /// How far the rates of the kind lie apart, as a standard deviation for a unit of the count: the value as
    /// likely to be passed as not. Nought for a single subject.
    #[must_use]
    pub fn spread(&self) -> f64 {
        let mut spreads: Vec<(f64, f64)> = self.pool.iter().map(|p| (p.spread, p.weight)).collect();
        spreads.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut sum = 0.0;
        let half = spreads.iter().find(|(_, weight)| {
            sum += weight;
            sum >= 0.5
        });
        half.map_or(0.0, |(spread, _)| spread / self.axis.span)
    }

    /// The subjects of the kind, by place in the record.
    pub fn subjects(&self) -> impl Iterator<Item = (usize, &Subject)> {
        self.members.iter().map(|m| (m.course.subject, &m.subject))
    }

    /// How each subject compares with its mates, where there are enough to say.
    pub fn standings(&self) -> impl Iterator<Item = Standing> {
        self.members.iter().filter_map(|member| member.standing)
    }

    /// From the first reading to the last, in the unit of the count.
    #[must_use]
    pub const fn length(&self) -> f64 {
        self.axis.span
    }

    /// What was taken for granted.
    #[must_use]
    pub fn assumptions(&self) -> &[HistoryAssumption] {
        &self.assumptions
    }

    pub(super) fn member(&self, subject: usize) -> Option<&Member> {
        self.members.iter().find(|m| m.course.subject == subject)
    }

    pub(super) fn parts<'a>(&'a self, member: &'a Member) -> (&'a [Part], usize) {
        match &member.parts {
            Parts::Pooled(place) => (&self.pool, *place),
            Parts::Own(own) => (own, 0),
        }
    }

    /// Where a line is at a time, and where a reading would be; `stretch` counts those with a level.
    pub(super) fn at(&self, member: &Member, stretch: usize, at: f64) -> (Mix, Mix) {
        Ray::of(self, member, stretch).at(at)
    }

    /// The line of a subject as it is now, which reaches to a time.
    ///
    /// # Errors
    /// [`HistoryError::NoSubject`], [`HistoryError::At`] before the line begins.
    pub(super) fn now(
        &self,
        subject: usize,
        at: f64,
    ) -> Result<Result<Ray, NotKnown>, HistoryError> {
        let Some(member) = self.member(subject) else {
            return Err(HistoryError::NoSubject {
                service: 0,
                subject,
                count: self.members.len(),
            });
        };
        let Some(last) = member.course.last().filter(|last| last.has_level()) else {
            let last = member.course.last();
            let is_bedding = last.is_some_and(|last| last.is_renewed);
            return Ok(Err(if is_bedding {
                NotKnown::BeddingIn
            } else {
                NotKnown::NotRead
            }));
        };
        let from = last.readings.first().map_or(self.end, |reading| reading.at);
        if !(at >= from && at.is_finite()) {
            return Err(HistoryError::At { got: at, from });
        }
        let stretches = member.course.stretches.iter();
        let with_level = stretches.filter(|stretch| stretch.has_level()).count();
        Ok(Ok(Ray::of(self, member, with_level - 1)))
    }

    /// What a subject will be at a time, in the unit of the count, from the first reading since it was set.
    ///
    /// # Errors
    /// [`HistoryError::NoSubject`], [`HistoryError::At`].
    pub fn predicted(
        &self,
        subject: usize,
        at: f64,
    ) -> Result<Result<Forecast, NotKnown>, HistoryError> {
        Ok(self.now(subject, at)?.map(|ray| {
            let (line, found) = ray.at(at);
            Forecast::of(at, &line, &found)
        }))
    }
}

impl<Q: HasLimits> Drift<Q> {
    /// How probable it is that a subject will be found below, in or above a band at a time.
    ///
    /// # Errors
    /// [`HistoryError::NoSubject`], [`HistoryError::At`].
    pub fn probabilities(
        &self,
        subject: usize,
        at: f64,
        limits: &Limits<Q>,
    ) -> Result<Result<Probabilities, NotKnown>, HistoryError> {
        Ok(self.now(subject, at)?.map(|ray| ray.chances(at, limits)))
    }
}
