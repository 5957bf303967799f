//! What was read of the contacts and what the book prints, as estimates and limits.

use super::{Contacts, ContactsField, ContactsReport, DwellRead, PrintedPair, place};
use crate::ignition::breaker::{
    Agreement, BreakerCam, BreakerError, Dwell, DwellChange, DwellShown, GapAndDwell, GapEvidence,
    GapSizes, LobeModel, Lobes, SecondPair,
};
use crate::job::assumptions::Assumptions;
use crate::job::ignition::IgnitionPlace;
use crate::job::ignition::leaves::evidence;
use crate::job::problem::Problem;
use crate::quantity::ContactGap;
use crate::tolerance::{Estimate, Limits, Uncertainty};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Standard uncertainty of a dwell where none is stated, in degrees. Common practice, no source.
const METER: f64 = 1.0;

/// What was read and printed.
pub(super) struct Found {
    pub(super) cam: BreakerCam,
    pub(super) gap: Option<GapEvidence>,
    pub(super) gap_limits: Option<Limits<ContactGap>>,
    pub(super) dwell: Option<Estimate<Dwell>>,
    pub(super) dwell_limits: Option<Limits<Dwell>>,
    pub(super) faster: Option<Estimate<Dwell>>,
    pub(super) lobe: Option<LobeModel>,
    pub(super) test: Option<SecondPair>,
}

/// Reads all of it; what cannot be is reported where it stands.
pub(super) fn all(
    asked: &Contacts,
    cam: BreakerCam,
    inches: bool,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Found {
    let sizes = if asked.gap_unusual {
        GapSizes::StatedUnusual
    } else {
        GapSizes::Usual
    };
    let gap_limits = asked.gap_limits.filter(|limits| {
        let ends = [limits.lower(), limits.upper()];
        ends.into_iter().flatten().all(|end| {
            let held = ContactGap::from_nominal(end.nominal()).map_err(BreakerError::from);
            let held = held.and_then(|gap| sizes.check(gap));
            noted(held, ContactsField::GapLimits, problems).is_some()
        })
    });
    let dwell_limits = asked.dwell_limits.and_then(|(low, high)| {
        let limits = dwell_limits(low, high, cam);
        noted(limits, ContactsField::DwellLimits, problems)
    });
    let gap = asked.gap.as_ref().and_then(|reading| {
        let place = IgnitionPlace::Contacts(ContactsField::Gap);
        evidence(reading, asked.look, inches, place, assumptions, problems)
    });
    let mut meter = |read: &DwellRead, field| {
        let made = dwell(read, cam, assumptions);
        noted(made, field, problems)
    };
    let idle = asked.dwell.as_ref();
    let idle = idle.and_then(|read| meter(read, ContactsField::Dwell));
    let faster = asked.dwell_faster.as_ref();
    let faster = faster.and_then(|read| meter(read, ContactsField::DwellFaster));
    let mut found = Found {
        cam,
        gap,
        gap_limits,
        dwell: idle,
        dwell_limits,
        faster,
        lobe: None,
        test: None,
    };
    let first = match &asked.pair {
        Some(pair) => noted(printed(pair, cam), ContactsField::Pair, problems),
        None => of_limits(&found, assumptions),
    };
    let lobe = first.and_then(|pair| {
        let lobe = LobeModel::from_pair(&pair, cam.lobes, sizes);
        noted(lobe, ContactsField::Pair, problems)
    });
    if let (Some(lobe), Some(second)) = (&lobe, &asked.second_pair) {
        let test = printed(second, cam).and_then(|pair| lobe.test(&pair));
        found.test = noted(test, ContactsField::SecondPair, problems);
    }
    let contradicted = |test: &SecondPair| test.agreement == Agreement::Contradicts;
    if !found.test.as_ref().is_some_and(contradicted) {
        found.lobe = lobe;
    }
    found
}

/// The value, or the refusal noted at its field.
fn noted<T>(
    made: Result<T, BreakerError>,
    field: ContactsField,
    problems: &mut Vec<Problem>,
) -> Option<T> {
    made.map_err(|refused| problems.push(Problem::at(place(field), &refused)))
        .ok()
}

fn dwell_limits(
    low: DwellShown,
    high: DwellShown,
    cam: BreakerCam,
) -> Result<Limits<Dwell>, BreakerError> {
    let (low, high) = (low.dwell(None, cam.lobes)?, high.dwell(None, cam.lobes)?);
    Ok(Limits::between(low, high)?)
}

fn dwell(
    read: &DwellRead,
    cam: BreakerCam,
    assumptions: &mut Assumptions,
) -> Result<Estimate<Dwell>, BreakerError> {
    if read.uncertainty.is_none() {
        let text = format!(
            "uncertainty of the dwell not stated: {METER} deg (standard) taken; common practice, no source"
        );
        assumptions.add("ignition.meter", text);
    }
    estimate(read, cam.lobes)
}

fn estimate(read: &DwellRead, lobes: Lobes) -> Result<Estimate<Dwell>, BreakerError> {
    let dwell = read.shown.dwell(read.scale, lobes)?;
    let u = read.uncertainty.map_or(METER, DwellChange::degrees);
    let u = Uncertainty::from_number(u)?;
    Ok(Estimate::between(dwell, dwell, u)?)
}

/// The dwell that was read, for the record of the years, or why it does not go there.
pub(in crate::job) fn dwell_read(
    asked: &Contacts,
    found: &ContactsReport,
) -> Option<Result<Estimate<Dwell>, String>> {
    let read = asked.dwell.as_ref()?;
    if let Some(other) = found.other_scales.first() {
        return Some(Err(format!(
            "the meter may have stood on another scale: {}",
            other.text
        )));
    }
    let lobes = Lobes::new(found.lobes).ok()?;
    estimate(read, lobes).ok().map(Ok)
}

/// A printed pair, right to its last digit.
fn printed(pair: &PrintedPair, cam: BreakerCam) -> Result<GapAndDwell, BreakerError> {
    let dwell = pair.dwell.dwell(None, cam.lobes)?;
    Ok(GapAndDwell::printed(pair.gap, dwell)?)
}

/// The middles of gap and dwell of the book as a pair, if both have two limits.
fn of_limits(found: &Found, assumptions: &mut Assumptions) -> Option<GapAndDwell> {
    let (gap, dwell) = (found.gap_limits?, found.dwell_limits?);
    let low = ContactGap::from_nominal(gap.lower()?.nominal()).ok()?;
    let high = ContactGap::from_nominal(gap.upper()?.nominal()).ok()?;
    let pair = GapAndDwell {
        gap: Estimate::between(low, high, Uncertainty::ZERO).ok()?,
        dwell: Estimate::between(dwell.lower()?, dwell.upper()?, Uncertainty::ZERO).ok()?,
    };
    assumptions.add(
        "ignition.pair-of-middles",
        "gap and dwell of the book are taken to belong together in the middle of their bands",
    );
    Some(pair)
}
