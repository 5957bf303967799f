//! How evenly the cylinders fire: each against its place, what may be the matter, and what would tell.

mod advise;
mod answer;
pub(super) mod sheet;
mod words;

pub use answer::{
    EvennessReport, LobeFiringReport, OnceRoundReport, UnevenGroupReport, UnevenReport,
};

use super::cam::drive;
use super::request::Distributor;
use super::{EvenWay, EvennessField, IgnitionPlace};
use crate::engine::CylinderIndex;
use crate::ignition::evenness::{
    self, CamSection, DwellShown, EvennessCheck, EvennessError, LobeReadings, UnevenCause,
    UnevenVerdict,
};
use crate::ignition::point::Drive;
use crate::job::assumptions::Assumptions;
use crate::job::known::Known;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Before, Sides, Standing, told};
use crate::quantity::{Advance, CrankAngle, DistributorAngle, QuantityError};
use crate::tolerance::Verdict;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use words::Words;

/// Explanations less probable than this are not told.
const TOLD: f64 = 0.01;
/// Standard uncertainty of a reading where none is stated, in degrees of what it is read at; and that of the
/// mark, which all share. Common practice, no source.
const EACH: f64 = 0.5;
const SHARED: f64 = 0.6;
/// How far a spark may be from its place where the book does not say, in distributor degrees: a figure of a
/// bench manual, named in the tests.
const TOLERANCE: f64 = 2.0;

/// How evenly the cylinders fire: what was read of each, and what the book lets them differ by.
///
/// ```
/// use lashwork::job::ignition::Evenness;
/// let asked = Evenness::default();
/// assert!(asked.readings.is_none() && asked.tolerance.is_none());
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Evenness {
    /// What was read, one reading for each cylinder.
    pub readings: Option<EvenReadings>,
    /// How far the book lets each spark be from its place, either way; 2 degrees of the distributor are
    /// taken, and listed, if not stated.
    pub tolerance: Option<DistributorAngle>,
    /// Where the follower runs on the cam, for the run-out as a length.
    pub cam: Option<CamSection>,
}

/// What was read, one reading for each cylinder; uncertainties are assumed, and listed, if not stated.
///
/// ```
/// use lashwork::engine::Engine;
/// use lashwork::job::ignition::EvenReadings;
/// use lashwork::quantity::Advance;
/// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).expect("an engine");
/// let read = engine.order().iter().map(|cylinder| (*cylinder, Advance::TDC)).collect();
/// let asked = EvenReadings::Timing { read, book: None, each: None, shared: None };
/// assert!(matches!(asked, EvenReadings::Timing { .. }));
/// ```
#[derive(Clone, Debug, PartialEq)]
pub enum EvenReadings {
    /// By a lamp, each cylinder at its own mark.
    Timing {
        /// Where each sparks.
        read: Vec<(CylinderIndex, Advance)>,
        /// What all should read; without it the mean is not judged.
        book: Option<Advance>,
        /// Standard uncertainty of each reading; 0.5 degrees if not stated.
        each: Option<CrankAngle>,
        /// Standard uncertainty that all share, as that of the mark; 0.6 degrees if not stated.
        shared: Option<CrankAngle>,
    },
    /// Where the flashes stand on the ring of a stand, counted the way the rotor turns from any zero.
    Ring {
        /// Where each stands.
        read: Vec<(CylinderIndex, DistributorAngle)>,
        /// Standard uncertainty of each; 0.5 degrees if not stated.
        each: Option<DistributorAngle>,
    },
    /// How long the contacts are closed.
    Dwell {
        /// The closed angle of each.
        read: Vec<(CylinderIndex, DistributorAngle)>,
        /// Under which cylinder the instrument shows it.
        shown: DwellShown,
        /// Standard uncertainty of each; 0.5 degrees if not stated.
        each: Option<DistributorAngle>,
    },
}

const SIDES: Sides = Sides {
    below: "early",
    above: "late",
};

/// Works it out.
pub(super) fn report(
    asked: &Evenness,
    known: Known<'_>,
    distributor: &Distributor,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<EvennessReport> {
    let Some(read) = &asked.readings else {
        return Some(advise::not_read(before));
    };
    if drive(known, distributor) != Drive::once_a_cycle(known.engine.cycle()) {
        problems.push(Problem::new(
            Place::Ignition(IgnitionPlace::Distributor),
            "ignition.evenness-cam",
            "evenness is worked out for a cam that turns once a cycle, and this one does not",
            "read the timing of each cylinder on its own mark, and judge each by the timing",
        ));
        return None;
    }
    let refused = |why: &EvennessError| Problem::at(place(why, read, known), why);
    let check = match check(asked, read, assumptions) {
        Ok(check) => check,
        Err(why) => {
            problems.push(refused(&EvennessError::Estimate(why.into())));
            return None;
        }
    };
    let answer = match check.worked_out(known.engine) {
        Ok(answer) => answer,
        Err(whys) => {
            problems.extend(whys.iter().map(refused));
            return None;
        }
    };
    assumptions.add_all(&answer.assumptions);
    assumptions.add(
        "ignition.evenness-priors",
        "how often each cause of uneven sparks is met is taken from this library's list, not from a source",
    );
    let words = Words {
        engine: known.engine,
        inches: known.shown.inches,
    };
    let limits = format!("within {} deg (distributor)", check.tolerance.degrees());
    let lobes = answer.lobes.iter().map(|lobe| LobeFiringReport {
        cylinder: words.label(lobe.cylinder),
        place: lobe.place,
        late_deg: lobe.error.degrees_late(),
        uncertainty_deg: lobe.error_u.degrees(),
        residual_deg: lobe.residual.degrees_late(),
        judged: told(words.lobe(lobe), limits.clone(), &lobe.judgement, SIDES),
    });
    let lobes: Vec<LobeFiringReport> = lobes.collect();
    let likely = answer.groups.iter().enumerate();
    let likely = likely.filter(|(at, group)| *at == 0 || group.probability >= TOLD);
    let explanations: Vec<UnevenGroupReport> = likely.map(|(_, g)| words.group(g)).collect();
    let looks: Vec<String> = answer.looks.iter().map(|look| words.look(*look)).collect();
    let verdict_text = words.verdict(answer.verdict, explanations.first());
    let advice = advise::advise(answer.verdict, &lobes, &explanations, &looks, before);
    Some(EvennessReport {
        mean: answer
            .mean
            .as_ref()
            .map(|mean| told(words.mean(mean), limits, &mean.judgement, SIDES)),
        parts: words.parts(&answer),
        spread: Some(answer.spread),
        tolerance: Some(check.tolerance.at_crank(known.engine.cycle())),
        once_round: answer.harmonic.as_ref().map(|wave| OnceRoundReport {
            amplitude: wave.amplitude,
            amplitude_u: wave.amplitude_u,
            latest_at: wave.latest_at_u.map(|_| wave.latest_at),
            latest_at_u: wave.latest_at_u,
            chance_by_reading: wave.chance_by_reading,
        }),
        lobes,
        verdict: Some(answer.verdict),
        verdict_text,
        explanations,
        looks,
        first: before.sure.clone(),
        advice,
    })
}

/// The check, with what is assumed of the readings listed.
fn check(
    asked: &Evenness,
    read: &EvenReadings,
    assumptions: &mut Assumptions,
) -> Result<EvennessCheck, QuantityError> {
    let mut assumed = |is_stated: bool, number: f64, of: &str| {
        if !is_stated {
            let text = format!(
                "standard uncertainty of {of} not stated: {number} deg taken; common practice, no source"
            );
            assumptions.bears_on_verdict("ignition.evenness-uncertainty", text);
        }
    };
    let readings = match read {
        EvenReadings::Timing {
            read,
            book,
            each,
            shared,
        } => {
            assumed(each.is_some(), EACH, "the timing of each cylinder");
            assumed(book.is_none() || shared.is_some(), SHARED, "the mark");
            LobeReadings::Timing {
                read: read.clone(),
                book: *book,
                each: each.map_or_else(|| CrankAngle::from_degrees(EACH), Ok)?,
                shared: shared.map_or_else(|| CrankAngle::from_degrees(SHARED), Ok)?,
            }
        }
        EvenReadings::Ring { read, each } => {
            assumed(each.is_some(), EACH, "each flash on the ring");
            LobeReadings::Ring {
                read: read.clone(),
                each: each.map_or_else(|| DistributorAngle::from_degrees(EACH), Ok)?,
            }
        }
        EvenReadings::Dwell { read, shown, each } => {
            assumed(each.is_some(), EACH, "the dwell of each cylinder");
            LobeReadings::Dwell {
                read: read.clone(),
                shown: *shown,
                each: each.map_or_else(|| DistributorAngle::from_degrees(EACH), Ok)?,
            }
        }
    };
    let tolerance = if let Some(stated) = asked.tolerance {
        stated
    } else {
        let text = format!(
            "how far a spark may be from its place not stated: {TOLERANCE} distributor deg either way taken"
        );
        assumptions.bears_on_verdict("ignition.evenness-tolerance", text);
        DistributorAngle::from_degrees(TOLERANCE)?
    };
    Ok(EvennessCheck {
        readings,
        tolerance,
        cam: asked.cam,
    })
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &EvennessReport) -> (Standing, String) {
    let standing = match found.verdict {
        None => Standing::NotKnown,
        Some(verdict) if advise::is_even(verdict, &found.lobes, &found.explanations) => {
            Standing::Settled
        }
        Some(_) => Standing::NotSettled,
    };
    (standing, found.verdict_text.clone())
}

/// Where a refusal belongs.
fn place(why: &EvennessError, read: &EvenReadings, known: Known<'_>) -> Place {
    use EvennessError as E;
    let (way, cylinders): (EvenWay, Vec<CylinderIndex>) = match read {
        EvenReadings::Timing { read, .. } => (EvenWay::Timing, whose(read)),
        EvenReadings::Ring { read, .. } => (EvenWay::Ring, whose(read)),
        EvenReadings::Dwell { read, .. } => (EvenWay::Dwell, whose(read)),
    };
    let field = match why {
        E::NoSuchCylinder { reading } => EvennessField::Reading(way, *reading),
        E::Twice { cylinder } | E::AnotherPlace { cylinder, .. } | E::Dwell { cylinder, .. } => {
            let index = known.engine.index_of(cylinder);
            let at = cylinders.iter().rposition(|of| Some(*of) == index);
            at.map_or(EvennessField::Readings(way), |at| {
                EvennessField::Reading(way, at)
            })
        }
        E::Tolerance { .. } => EvennessField::Tolerance,
        E::CamSection { .. } => EvennessField::Cam,
        E::Uncertainty { .. } => EvennessField::Uncertainty(way),
        _ => EvennessField::Readings(way),
    };
    Place::Ignition(IgnitionPlace::Evenness(field))
}

fn whose<T>(read: &[(CylinderIndex, T)]) -> Vec<CylinderIndex> {
    read.iter().map(|(of, _)| *of).collect()
}
