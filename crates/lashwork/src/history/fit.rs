//! Fits the drift of a kind to a record.

use super::answer::TooFew;
use super::course::{Course, Stretch, counted_by};
use super::drift::{Drift, Member, Parts};
use super::odd::standings;
use super::posterior::{Axis, NoParts, Part, Scatter, Sizes, parts};
use super::{CountedBy, HistoryAssumption, HistoryError, Record, Standing};
use crate::tolerance::{Measurand, Uncertainty};
use alloc::vec::Vec;
use core::marker::PhantomData;

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

impl<Q: Measurand> DriftChoice<Q> {
    /// Refuses what cannot be chosen.
    pub(super) fn checked(&self) -> Result<(), HistoryError> {
        self.bedding_in.map_or(Ok(()), bedding_in)
    }
}

/// By itself, so that no amount is looked at where there is none.
#[inline(never)]
fn bedding_in(got: f64) -> Result<(), HistoryError> {
    if got > 0.0 && got.is_finite() {
        Ok(())
    } else {
        Err(HistoryError::BeddingIn { got })
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

/// By itself, so that nothing of a standing is read where there is none.
#[inline(never)]
fn stands_apart(standing: &Standing) -> bool {
    standing.is_odd
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
    choice.checked()?;
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
        let standing = standings.get(at).and_then(Option::as_ref);
        standing.is_some_and(stands_apart)
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
            .filter(|standing| is_apart && stands_apart(standing))
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
