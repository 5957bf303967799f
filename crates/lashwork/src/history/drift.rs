//! How fast what is read changes, and what it will be.

use super::answer::{Bedding, Departure, Figure, Forecast, NotKnown, TooFew};
use super::course::{Course, Reading, Stretch, counted_by};
use super::mix::Mix;
use super::odd::standings;
use super::posterior::{Axis, NoParts, Part, Scatter, Sizes, parts};
use super::{CountedBy, HistoryAssumption, HistoryError, Record, Standing, Subject};
use crate::statistics::cusum;
use crate::tolerance::{HasLimits, Limits, Measurand, Probabilities, Uncertainty};
use alloc::vec::Vec;
use core::marker::PhantomData;

/// Half of the departure that running sums are to find.
const SLACK: f64 = 0.5;

/// What is to be taken for a fit, where the record does not say.
///
/// ```
/// use lashwork::history::{CountedBy, DriftChoice};
/// let choice = DriftChoice::<lashwork::quantity::Lash> {
///     counted_by: Some(CountedBy::Hours),
///     bedding_in: Some(10.0),
///     ..DriftChoice::default()
/// };
/// assert_eq!(choice.scatter, None);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DriftChoice<Q: Measurand> {
    /// What the record goes by; hours before distance before days if not chosen.
    pub counted_by: Option<CountedBy>,
    /// How long new parts bed in, in that count; up to the first reading if not known.
    pub bedding_in: Option<f64>,
    /// How far readings of one state scatter from service to service, besides what they state of
    /// themselves; seen from the readings if not known.
    pub scatter: Option<Uncertainty<Q>>,
}

impl<Q: Measurand> Default for DriftChoice<Q> {
    fn default() -> Self {
        Self {
            counted_by: None,
            bedding_in: None,
            scatter: None,
        }
    }
}

/// What a record says of the drift of a kind.
#[derive(Clone, Debug)]
pub enum DriftAnswer<Q: Measurand> {
    /// A drift.
    Fitted(Drift<Q>),
    /// Nothing yet.
    TooFew(TooFew),
}

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
    by: CountedBy,
    axis: Axis,
    members: Vec<Member>,
    pool: Vec<Part>,
    /// When the record ends.
    pub(super) end: f64,
    assumptions: Vec<HistoryAssumption>,
    quantity: PhantomData<Q>,
}

/// A subject with what was found out about it.
#[derive(Clone, Debug)]
struct Member {
    /// What it is judged by, and all of it.
    course: Course,
    whole: Course,
    subject: Subject,
    standing: Option<Standing>,
    /// What is said of it, and its place there.
    parts: Parts,
}

#[derive(Clone, Debug)]
enum Parts {
    /// One of the kind.
    Pooled(usize),
    /// Moves on its own.
    Own(Vec<Part>),
}

/// Fits the drift of a kind.
///
/// # Errors
/// [`HistoryError::NoKind`], [`HistoryError::BeddingIn`], [`HistoryError::NotCounted`],
/// [`HistoryError::NoCommonCount`].
pub fn drift<Q: Measurand>(
    record: &Record<Q>,
    kind: &str,
    choice: &DriftChoice<Q>,
) -> Result<DriftAnswer<Q>, HistoryError> {
    if let Some(got) = choice.bedding_in
        && !(got > 0.0 && got.is_finite())
    {
        return Err(HistoryError::BeddingIn { got });
    }
    let subjects = || record.subjects().iter().enumerate();
    if !subjects().any(|(_, subject)| subject.kind == kind) {
        return Err(HistoryError::NoKind { kind: kind.into() });
    }
    let by = counted_by(record, choice.counted_by)?;
    let of_kind = subjects().filter(|(_, subject)| subject.kind == kind);
    let courses: Vec<Course> = of_kind
        .map(|(at, _)| Course::of(record, at, by, choice.bedding_in))
        .collect();
    let too_few = |more: usize| {
        let counts = courses.iter().map(Course::counts);
        let (readings, lines) = counts.fold((0, 0), |(a, b), (c, d)| (a + c, b + d));
        Ok(DriftAnswer::TooFew(TooFew {
            readings,
            lines,
            more: more.max(1),
        }))
    };
    let counted = |from: usize| {
        let counts = courses.iter().map(Course::counts);
        let (readings, lines) = counts.fold((0, 0), |(a, b), (c, d)| (a + c, b + d));
        (lines.max(1) + from).saturating_sub(readings)
    };
    let Some(axis) = Axis::of(&courses) else {
        return too_few(counted(1));
    };
    let sizes = Sizes::of(&courses, &axis);
    let scatter = match choice.scatter {
        Some(known) => Scatter::Known(known.number()),
        None => Scatter::Seen,
    };
    let standings = standings(&courses, &axis, &sizes);
    let is_odd = |at: usize| {
        let standing = standings.get(at).and_then(|standing| *standing);
        standing.is_some_and(|standing| standing.is_odd)
    };
    let mates: Vec<Course> = courses
        .iter()
        .enumerate()
        .filter(|(at, _)| !is_odd(*at))
        .map(|(_, course)| course.clone())
        .collect();
    let mut all = mates;
    let mut pool = parts(&all, &axis, &Sizes::of(&all, &axis), scatter);
    if pool.is_err() && all.len() < courses.len() {
        // Without the odd ones there is nothing to go by.
        all.clone_from(&courses);
        pool = parts(&all, &axis, &sizes, scatter);
    }
    let pool = match pool {
        Ok(pool) => pool,
        Err(NoParts::NoSlope) => return too_few(counted(1)),
        Err(NoParts::NoScatter) => return too_few(counted(2)),
    };
    let is_apart = all.len() < courses.len();
    let mut members = Vec::new();
    let mut place = 0;
    for (at, course) in courses.iter().enumerate() {
        let Some(subject) = record.subjects().get(course.subject) else {
            continue;
        };
        let standing = standings.get(at).and_then(|standing| *standing);
        let own = standing
            .filter(|standing| is_apart && standing.is_odd)
            .and_then(|standing| apart(course, &standing, &axis, &pool));
        let whole = course.clone();
        let (course, parts) = match own {
            Some((course, own)) => (course, Parts::Own(own)),
            None => (course.clone(), Parts::Pooled(place)),
        };
        if !(is_apart && is_odd(at)) {
            place += 1;
        }
        members.push(Member {
            course,
            whole,
            subject: subject.clone(),
            standing,
            parts,
        });
    }
    let services = record.services().iter();
    let end = services
        .filter_map(|s| s.used.count(by))
        .fold(f64::NEG_INFINITY, f64::max);
    let assumptions = assumptions(choice, &members, &sizes);
    Ok(DriftAnswer::Fitted(Drift {
        by,
        axis,
        members,
        pool,
        end,
        assumptions,
        quantity: PhantomData,
    }))
}

fn assumptions<Q: Measurand>(
    choice: &DriftChoice<Q>,
    members: &[Member],
    sizes: &Sizes,
) -> Vec<HistoryAssumption> {
    let renewed = members
        .iter()
        .flat_map(|m| &m.course.stretches)
        .any(|s| s.is_renewed);
    let odd = members.iter().any(|m| matches!(m.parts, Parts::Own(_)));
    let mut all = alloc::vec![HistoryAssumption::Steady];
    for (holds, assumption) in [
        (members.len() > 1, HistoryAssumption::LikeRates),
        (choice.counted_by.is_none(), HistoryAssumption::CountChosen),
        (
            renewed && choice.bedding_in.is_none(),
            HistoryAssumption::BeddingByFirstReading,
        ),
        (
            choice.scatter.is_none() && sizes.spare == 0,
            HistoryAssumption::ScatterAsStated,
        ),
        (odd, HistoryAssumption::OddOnItsOwn),
    ] {
        if holds {
            all.push(assumption);
        }
    }
    all
}

/// An odd one by its own readings since it is odd, with the scatter of the others.
fn apart(
    course: &Course,
    standing: &Standing,
    axis: &Axis,
    pool: &[Part],
) -> Option<(Course, Vec<Part>)> {
    let mut scatters: Vec<(f64, f64)> = Vec::new();
    for part in pool {
        match scatters
            .iter_mut()
            .find(|(scatter, _)| scatter.to_bits() == part.scatter.to_bits())
        {
            Some((_, weight)) => *weight += part.weight,
            None => scatters.push((part.scatter, part.weight)),
        }
    }
    let fitted = |course: Course| {
        let alone = [course];
        let sizes = Sizes::of(&alone, axis);
        let mut own = Vec::new();
        for (scatter, weight) in &scatters {
            for mut part in parts(&alone, axis, &sizes, Scatter::Known(*scatter)).ok()? {
                part.weight = libm::log(*weight) + part.pooled.ln_z;
                own.push(part);
            }
        }
        super::posterior::weigh(&mut own);
        let [course] = alone;
        Some((course, own))
    };
    let since = course.since(standing.since.unwrap_or(0));
    let since = since
        .last()
        .is_some_and(Stretch::has_level)
        .then_some(since);
    since.and_then(fitted).or_else(|| fitted(course.clone()))
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

    fn member(&self, subject: usize) -> Option<&Member> {
        self.members.iter().find(|m| m.course.subject == subject)
    }

    fn parts<'a>(&'a self, member: &'a Member) -> (&'a [Part], usize) {
        match &member.parts {
            Parts::Pooled(place) => (&self.pool, *place),
            Parts::Own(own) => (own, 0),
        }
    }

    /// Where a line is at a time, and where a reading would be; `stretch` counts those with a level.
    fn at(&self, member: &Member, stretch: usize, at: f64) -> (Mix, Mix) {
        let (parts, place) = self.parts(member);
        let x = self.axis.place(at);
        let (mut line, mut found) = (Vec::new(), Vec::new());
        for part in parts {
            let slope = part.pooled.slopes.get(place);
            let level = part
                .levels
                .get(place)
                .and_then(|levels| levels.get(stretch));
            let (Some((slope, variance)), Some(level)) = (slope, level) else {
                continue;
            };
            let (mean, variance) = level.at(x, *slope, *variance);
            line.push((part.weight, mean, libm::sqrt(variance)));
            let with = variance + part.scatter * part.scatter;
            found.push((part.weight, mean, libm::sqrt(with)));
        }
        (Mix { parts: line }, Mix { parts: found })
    }

    /// The line of a subject as it is now, at a time: where it is, and where a reading would be.
    ///
    /// # Errors
    /// [`HistoryError::NoSubject`], [`HistoryError::At`] before the line begins.
    pub(super) fn now(
        &self,
        subject: usize,
        at: f64,
    ) -> Result<Result<(Mix, Mix), NotKnown>, HistoryError> {
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
        Ok(Ok(self.at(member, with_level - 1, at)))
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
        Ok(self.now(subject, at)?.map(|(line, found)| Forecast {
            at,
            line: Figure::of(&line),
            found: Figure::of(&found),
        }))
    }

    /// How far a subject departs from the rate of its kind between services, and the running sums of that (CUSUM,
    /// slack one half): for a chart. Whether it is odd, [`Self::standings`] say. Empty for one not of the kind.
    #[must_use]
    pub fn departures(&self, subject: usize) -> Vec<Departure> {
        let Some(member) = self.member(subject) else {
            return Vec::new();
        };
        let (rate, scatter) = (self.rate().value, self.scatter());
        let spread = self.spread();
        let mut found: Vec<(f64, f64)> = Vec::new();
        for stretch in &member.whole.stretches {
            let both: Vec<&Reading> = stretch
                .readings
                .iter()
                .filter(|r| r.has_both_ends())
                .collect();
            for (a, b) in both.iter().zip(both.iter().skip(1)) {
                let time = b.at - a.at;
                let own = a.variance() + b.variance() + 2.0 * scatter * scatter;
                let sd = libm::hypot(libm::sqrt(own), time * spread);
                if sd > 0.0 {
                    found.push((b.at, (b.middle() - a.middle() - rate * time) / sd));
                }
            }
        }
        let values: Vec<f64> = found.iter().map(|(_, off)| *off).collect();
        let sums = cusum(&values, 0.0, SLACK).unwrap_or_default();
        let both = found.into_iter().zip(sums);
        both.map(|((at, off), (above, below))| Departure {
            at,
            off,
            above,
            below,
        })
        .collect()
    }

    /// By how much new parts moved while they bedded in: from what was left to where the line begins.
    /// Nothing for a subject without such parts, or not read before and after.
    #[must_use]
    pub fn bedding(&self, subject: usize) -> Vec<Bedding> {
        let Some(member) = self.member(subject) else {
            return Vec::new();
        };
        let with_level = member.course.stretches.iter().filter(|s| s.has_level());
        let of = |(place, stretch): (usize, &Stretch)| {
            let set_at = stretch.begin?;
            let left = stretch
                .bedding
                .iter()
                .find(|reading| reading.has_both_ends())?;
            let (_, mut moved) = self.at(member, place, set_at);
            for (_, mean, sd) in &mut moved.parts {
                *mean -= left.middle();
                *sd = libm::hypot(*sd, libm::sqrt(Reading::variance(left)));
            }
            Some(Bedding {
                set_at,
                amount: Figure::of(&moved),
            })
        };
        with_level.enumerate().filter_map(of).collect()
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
        Ok(self
            .now(subject, at)?
            .map(|(_, found)| chances(&found, limits)))
    }
}

pub(super) fn chances<Q: HasLimits>(mix: &Mix, limits: &Limits<Q>) -> Probabilities {
    let (lower, upper) = limits.numbers();
    let below: f64 = lower.map_or(0.0, |limit| mix.below(limit));
    let above: f64 = upper.map_or(0.0, |limit| mix.above(limit));
    Probabilities::known((below, (1.0 - below - above).max(0.0), above))
}
