//! What the vacuum gauge says: causes, and where to look next.

mod advise;
mod answer;
pub(super) mod sheet;
mod words;

pub use answer::{GaugeCauseReport, GaugeReport, NextGaugeLookReport};

use super::VacuumUnit;
use super::place::{GaugeField, MixturePlace};
use crate::job::assumptions::Assumptions;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Before, Standing};
use crate::mixture::gauge::{
    CompressionFound, GaugeCause, GaugeCheck, GaugeError, GaugeVerdict, LashFound, TimingFound,
};
use crate::quantity::AbsolutePressure;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// What was seen at the gauge.
///
/// ```
/// use lashwork::job::mixture::Gauge;
/// use lashwork::mixture::gauge::Movement;
/// let mut asked = Gauge::default();
/// asked.seen.movement = Some(Movement::RegularDrop);
/// assert!(asked.seen.ambient.is_none());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Gauge {
    /// What was seen. Where no air is stated, that around is taken; where nothing is said of timing or
    /// clearances, that they are right, if their steps are settled.
    pub seen: GaugeCheck,
    /// The unit in which vacuum is said.
    pub unit: VacuumUnit,
}

/// What the rest of the document says.
#[derive(Clone, Copy, Default)]
pub(super) struct Elsewhere {
    pub(super) ambient: Option<AbsolutePressure>,
    /// Cylinders of the engine, where one throttle serves them all.
    pub(super) cylinders: Option<usize>,
    pub(super) valves: Option<Standing>,
    pub(super) timing: Option<Standing>,
    /// What the clearance section found.
    pub(super) lash: Option<LashFound>,
    /// What the condition section found.
    pub(super) compression: Option<CompressionFound>,
    /// What the ignition section found.
    pub(super) timing_found: Option<TimingFound>,
}

/// Works it out.
pub(super) fn report(
    asked: &Gauge,
    elsewhere: Elsewhere,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<GaugeReport> {
    let mut check = asked.seen;
    check.ambient = check.ambient.or(elsewhere.ambient);
    if check.cylinders.is_none()
        && let Some(count) = elsewhere.cylinders
    {
        check.cylinders = Some(count);
        assumptions.add(
            "mixture.gauge-cylinders-of-engine",
            format!(
                "the gauge is taken to be on a manifold of all {count} cylinders of the engine"
            ),
        );
    }
    if check.timing.is_none()
        && let Some(found) = elsewhere.timing_found
    {
        check.timing = Some(found);
        assumptions.add(
            "mixture.gauge-timing-found",
            format!(
                "the timing counts as found {}, as the ignition section reads it",
                words::timing(found)
            ),
        );
    }
    if check.lash.is_none()
        && let Some(found) = elsewhere.lash
    {
        check.lash = Some(found);
        assumptions.add(
            "mixture.gauge-lash-found",
            format!(
                "the valve clearances count as found {}, as the clearance section reads them",
                words::lash(found)
            ),
        );
    }
    if check.compression.is_none()
        && let Some(found) = elsewhere.compression
    {
        check.compression = Some(found);
        assumptions.add(
            "mixture.gauge-compression-found",
            format!(
                "the compression counts as found {}, as the condition section reads it",
                words::compression(found)
            ),
        );
    }
    // That a step is not settled does not say which way it is out, so only a settled one is evidence.
    if check.timing.is_none() && elsewhere.timing == Some(Standing::Settled) {
        check.timing = Some(TimingFound::Right);
        assumptions.add(
            "mixture.gauge-timing-settled",
            "the timing counts as found right, because its step is settled",
        );
    }
    if check.lash.is_none() && elsewhere.valves == Some(Standing::Settled) {
        check.lash = Some(LashFound::InLimits);
        assumptions.add(
            "mixture.gauge-lash-settled",
            "the valve clearances count as found within their limits, because their step is settled",
        );
    }
    let answer = check.weighed();
    let answer = answer.map_err(|why| problems.push(Problem::at(place(&why), &why)));
    let answer = answer.ok()?;
    assumptions.add_all(&answer.assumptions);
    // What other steps say alone is nothing seen at the gauge.
    let is_seen = asked.seen.level.is_some()
        || asked.seen.movement.is_some()
        || asked.seen.with_speed.is_some()
        || asked.seen.blip.is_some();
    Some(advise::told(&answer, &check, is_seen, asked.unit, before))
}

/// Whether compression was found even, if that is said.
pub(super) fn compression(asked: &Gauge) -> Option<bool> {
    let found = asked.seen.compression;
    found.map(|found| found == CompressionFound::Even)
}

/// How far it is settled, for the order of work; a gauge that shows no fault settles nothing where compression was
/// found low.
pub(super) fn standing(
    found: &GaugeReport,
    is_compression_even: Option<bool>,
) -> (Standing, String) {
    let likely = found.causes.first().map(|one| one.cause);
    let standing = match found.verdict {
        GaugeVerdict::Settled if likely == Some(GaugeCause::Sound) => match is_compression_even {
            Some(false) => {
                let text = format!("{}; compression found low", found.verdict_text);
                return (Standing::NotSettled, text);
            }
            _ => Standing::Settled,
        },
        GaugeVerdict::Settled | GaugeVerdict::NothingFits => Standing::NotSettled,
        GaugeVerdict::NothingSeen | GaugeVerdict::Open => Standing::NotKnown,
    };
    (standing, found.verdict_text.clone())
}

/// The fault the gauge settled on, if it is no fault of the mixture: turning the mixture would hide it.
pub(super) fn fault(found: &GaugeReport) -> Option<&'static str> {
    let first = found.causes.first()?;
    let is_fault = !matches!(first.cause, GaugeCause::Sound | GaugeCause::MixtureWrong);
    (found.verdict == GaugeVerdict::Settled && is_fault).then_some(first.text)
}

/// Whether it says what to do next: a fault to see to, or a further look at a gauge that was looked at.
pub(super) fn has_next(found: &GaugeReport) -> bool {
    match found.verdict {
        GaugeVerdict::Settled => true,
        GaugeVerdict::Open => found.next.is_some(),
        GaugeVerdict::NothingSeen | GaugeVerdict::NothingFits => false,
    }
}

/// Where a refusal belongs.
const fn place(why: &GaugeError) -> Place {
    use GaugeError as E;
    Place::Mixture(MixturePlace::Gauge(match why {
        E::BeyondAmbient { .. } | E::NoIdle { .. } => GaugeField::Level,
        E::DropOfNothing { .. } => GaugeField::Drop,
        E::NoCylinders => GaugeField::Cylinders,
        E::Misread { .. } => GaugeField::Misread,
        _ => GaugeField::Section,
    }))
}
