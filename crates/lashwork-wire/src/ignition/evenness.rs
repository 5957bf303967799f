//! Evenness in a document.

use crate::engine::cylinder;
use crate::problem::{Problem, is_short};
use crate::quantity::Q;
use crate::word::W;
use lashwork::engine::{CylinderIndex, Engine};
use lashwork::ignition::evenness::{CamSection, DwellShown, Flank};
use lashwork::job::ignition::{EvenReadings, EvenWay, Evenness, EvennessField};
use lashwork::quantity::{Advance, CrankAngle, DistributorAngle, Length};

named!(DwellShown as "DwellShownUnderDoc" {
    /// Under the cylinder whose spark ends it.
    BeforeItsSpark = "before_its_spark",
    /// Under the one that fired before, as a trace that begins with its spark shows it.
    AfterItsSpark = "after_its_spark",
});

parts! {
    /// How evenly the cylinders fire: one of timing, ring and dwell, with a reading for each cylinder.
    EvennessDoc {
        /// Read by a lamp, each cylinder at its own mark.
        timing: Option<EvenTimingDoc>,
        /// Where the flashes stand on the ring of a stand.
        ring: Option<EvenRingDoc>,
        /// How long the contacts are closed.
        dwell: Option<EvenDwellDoc>,
        /// How far the book lets each spark be from its place, either way, at the distributor; 2 degrees
        /// are taken, and listed, if not stated.
        tolerance: Option<Q<DistributorAngle>>,
        /// Where the follower runs on the cam, for the run-out as a length.
        cam: Option<CamSectionDoc>,
    }
    /// Read by a lamp, each cylinder at its own mark.
    EvenTimingDoc {
        /// One for each cylinder.
        readings: Vec<EvenTimingReadDoc>,
        /// What all should read; without it the mean is not judged.
        book: Option<Q<Advance>>,
        /// Standard uncertainty of each, independent of the others; 0.5 degrees if not stated.
        uncertainty: Option<Q<CrankAngle>>,
        /// Standard uncertainty that all share, as that of the mark; 0.6 degrees if not stated.
        shared_uncertainty: Option<Q<CrankAngle>>,
    }
    /// The timing of one cylinder.
    EvenTimingReadDoc { cylinder: String, reads: Q<Advance> }
    /// Where the flashes stand on the ring of a stand.
    EvenRingDoc {
        /// One for each cylinder, counted the way the rotor turns from any zero.
        readings: Vec<EvenAngleReadDoc>,
        /// Standard uncertainty of each; 0.5 degrees if not stated.
        uncertainty: Option<Q<DistributorAngle>>,
    }
    /// How long the contacts are closed.
    EvenDwellDoc {
        /// One for each cylinder.
        readings: Vec<EvenAngleReadDoc>,
        /// Under which cylinder the instrument shows it.
        shown: W<DwellShown>,
        /// Standard uncertainty of each; 0.5 degrees if not stated.
        uncertainty: Option<Q<DistributorAngle>>,
    }
    /// An angle of the distributor, of one cylinder.
    EvenAngleReadDoc { cylinder: String, reads: Q<DistributorAngle> }
    /// Where the follower runs on the cam.
    CamSectionDoc {
        /// From the middle of the shaft to where the follower touches as the contacts open.
        radius: Q<Length>,
        /// How far the contacts open in a small angle after they begin to, seen at the follower.
        flank: Option<FlankDoc>,
    }
    /// How steep the flank of a lobe is.
    FlankDoc { angle: Q<DistributorAngle>, opens: Q<Length> }
}

const AT: &str = "/ignition/evenness";

/// Evenness in typed values.
pub(super) fn evenness(
    doc: EvennessDoc,
    engine: &Engine,
    problems: &mut Vec<Problem>,
) -> Option<Evenness> {
    let faults = problems.len();
    let mut made = Evenness::default();
    made.readings = match (doc.timing, doc.ring, doc.dwell) {
        (None, None, None) => None,
        (Some(doc), None, None) => {
            let all = doc
                .readings
                .iter()
                .map(|one| (one.cylinder.as_str(), one.reads.0));
            Some(EvenReadings::Timing {
                read: read(all.collect(), engine, "timing", problems),
                book: doc.book.map(|book| book.0),
                each: doc.uncertainty.map(|u| u.0),
                shared: doc.shared_uncertainty.map(|u| u.0),
            })
        }
        (None, Some(doc), None) => Some(EvenReadings::Ring {
            read: read(angles(&doc.readings), engine, "ring", problems),
            each: doc.uncertainty.map(|u| u.0),
        }),
        (None, None, Some(doc)) => Some(EvenReadings::Dwell {
            read: read(angles(&doc.readings), engine, "dwell", problems),
            shown: doc.shown.0,
            each: doc.uncertainty.map(|u| u.0),
        }),
        _ => {
            problems.push(Problem::new(
                AT,
                "ignition.one-way-of-reading",
                "evenness is read in more than one way",
                "give one of timing, ring and dwell",
            ));
            None
        }
    };
    made.tolerance = doc.tolerance.map(|tolerance| tolerance.0);
    made.cam = doc.cam.map(|cam| CamSection {
        radius: cam.radius.0,
        flank: cam.flank.map(|flank| Flank {
            angle: flank.angle.0,
            opens: flank.opens.0,
        }),
    });
    (problems.len() == faults).then_some(made)
}

fn angles(docs: &[EvenAngleReadDoc]) -> Vec<(&str, DistributorAngle)> {
    let all = docs.iter().map(|one| (one.cylinder.as_str(), one.reads.0));
    all.collect()
}

fn read<T>(
    docs: Vec<(&str, T)>,
    engine: &Engine,
    way: &str,
    problems: &mut Vec<Problem>,
) -> Vec<(CylinderIndex, T)> {
    let place = format!("{AT}/{way}/readings");
    let mut made = Vec::new();
    if is_short(&docs, &place, problems) {
        for (i, (label, reads)) in docs.into_iter().enumerate() {
            let place = format!("{place}/{i}/cylinder");
            let found = cylinder(engine, label, &place, problems);
            made.extend(found.map(|index| (index, reads)));
        }
    }
    made
}

/// Where a field stands in the ignition section.
pub(super) fn pointer(field: EvennessField) -> String {
    use EvennessField as F;
    let rest = match field {
        F::Readings(way) => format!("{}/readings", word(way)),
        F::Reading(way, i) => format!("{}/readings/{i}", word(way)),
        F::Uncertainty(way) => format!("{}/uncertainty", word(way)),
        F::Tolerance => "/tolerance".into(),
        F::Cam => "/cam".into(),
        _ => String::new(),
    };
    format!("/evenness{rest}")
}

const fn word(way: EvenWay) -> &'static str {
    match way {
        EvenWay::Timing => "/timing",
        EvenWay::Ring => "/ring",
        EvenWay::Dwell => "/dwell",
        _ => "",
    }
}
