//! Timing and advance in a document.

use crate::band::band;
use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::ignition::point::Drive;
use lashwork::ignition::timing::{
    AboveLast, CentrifugalCurve, CrankPoint, DistributorPoint, DistributorVacuumPoint, Hose,
    LampDelay, Running, Taken, VacuumCurve, VacuumPoint,
};
use lashwork::job::ignition::{Timing, TimingField, TimingRead};
use lashwork::quantity::{
    Advance, CrankAngle, CrankSpeed, DistributorAngle, DistributorSpeed, Vacuum,
};
use lashwork::tolerance::Uncertainty;

/// What became of the vacuum hose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum HoseWord {
    NotFitted,
    Plugged,
    Connected,
}

named!(HoseWord as "VacuumHoseDoc" {
    /// The distributor has no vacuum capsule.
    NotFitted = "not_fitted",
    /// Pulled off at the distributor and plugged.
    Plugged = "plugged",
    /// Left on.
    Connected = "connected",
});

parts! {
    /// Timing: what the book prints and what was read.
    TimingDoc {
        /// The book's ignition point; one end may be open.
        limits: TimingLimitsDoc,
        /// The running engine that it is printed for; if not stated, the engine standing.
        printed_for: Option<RunningDoc>,
        /// Where to set it; the middle of the limits if not stated.
        set_to: Option<Q<Advance>>,
        /// Advance by speed.
        centrifugal: Option<CentrifugalDoc>,
        /// Advance by vacuum.
        vacuum: Option<VacuumAdvanceDoc>,
        /// What was read.
        reading: Option<TimingReadDoc>,
        /// What was read at several speeds, the hose off and plugged.
        curve: Option<Vec<TimingReadDoc>>,
    }
    /// The book's ignition point.
    TimingLimitsDoc { from: Option<Q<Advance>>, to: Option<Q<Advance>> }
    /// A running engine.
    RunningDoc {
        /// Speed of the crank.
        speed: Q<CrankSpeed>,
        /// Its standard uncertainty; 50 rpm is assumed, and listed, if not stated.
        speed_uncertainty: Option<Q<CrankSpeed>>,
        /// What became of the vacuum hose: it is worth up to 30 degrees, and nothing is assumed of it.
        vacuum_hose: W<HoseWord>,
        /// Vacuum at the capsule, with the hose connected.
        vacuum: Option<Q<Vacuum>>,
    }
    /// An ignition point as read.
    TimingReadDoc {
        /// What the mark showed.
        read: Q<Advance>,
        /// Standard uncertainty of reading the mark; 1 degree either way is assumed, and listed, if not
        /// stated.
        uncertainty: Option<Q<CrankAngle>>,
        /// How the engine ran; standing if not stated.
        running: Option<RunningDoc>,
        /// How late the lamp flashes, in microseconds; not at all, and listed, if not stated.
        lamp_delay_us: Option<f64>,
    }
    /// Advance by speed: points at the crank, at the distributor, or both, which must then agree.
    CentrifugalDoc {
        crank: Option<Vec<CrankPointDoc>>,
        distributor: Option<Vec<DistributorPointDoc>>,
        /// Whether the book says that the advance goes no further than the last point.
        ends: bool,
    }
    /// A point of the advance, at the crank; one printed figure is both the least and the most.
    CrankPointDoc { speed: Q<CrankSpeed>, least: Q<CrankAngle>, most: Q<CrankAngle> }
    /// A point of the advance, at the distributor.
    DistributorPointDoc { speed: Q<DistributorSpeed>, least: Q<DistributorAngle>, most: Q<DistributorAngle> }
    /// Advance by vacuum: points at the crank or at the distributor.
    VacuumAdvanceDoc {
        crank: Option<Vec<VacuumPointDoc>>,
        distributor: Option<Vec<DistributorVacuumPointDoc>>,
        /// Whether the book says that the advance goes no further than the last point.
        ends: bool,
    }
    /// A point of the vacuum advance, at the crank.
    VacuumPointDoc { vacuum: Q<Vacuum>, least: Q<CrankAngle>, most: Q<CrankAngle> }
    /// A point of the vacuum advance, at the distributor.
    DistributorVacuumPointDoc { vacuum: Q<Vacuum>, least: Q<DistributorAngle>, most: Q<DistributorAngle> }
}

const AT: &str = "/ignition/timing";

/// Timing in typed values; `drive` is how fast the distributor turns.
pub(super) fn timing(doc: TimingDoc, drive: Drive, problems: &mut Vec<Problem>) -> Option<Timing> {
    let faults = problems.len();
    let (from, to) = (doc.limits.from, doc.limits.to);
    let limits = band(from, to, format!("{AT}/limits"), problems);
    let centrifugal = doc
        .centrifugal
        .map(|doc| centrifugal(&doc, drive, AT, problems));
    let vacuum = doc.vacuum.map(|doc| vacuum(&doc, drive, problems));
    let printed_for = doc.printed_for.map(|doc| {
        let place = format!("{AT}/printed_for");
        running(&doc, &place, problems).map(Taken::Running)
    });
    let reading = doc
        .reading
        .map(|doc| read(&doc, &format!("{AT}/reading"), problems));
    let mut curve = Vec::new();
    let docs = doc.curve.unwrap_or_default();
    if is_short(&docs, &format!("{AT}/curve"), problems) {
        for (i, doc) in docs.iter().enumerate() {
            curve.extend(read(doc, &format!("{AT}/curve/{i}"), problems));
        }
    }
    if problems.len() > faults {
        return None;
    }
    let mut made = Timing::of(limits?);
    made.printed_for = printed_for.flatten();
    made.set_to = doc.set_to.map(|set_to| set_to.0);
    made.centrifugal = centrifugal.flatten();
    made.vacuum = vacuum.flatten();
    made.reading = reading.flatten();
    made.curve = curve;
    Some(made)
}

fn running(doc: &RunningDoc, place: &str, problems: &mut Vec<Problem>) -> Option<Running> {
    let vacuum = doc.vacuum.map(|vacuum| vacuum.0);
    let hose = match (doc.vacuum_hose.0, vacuum) {
        (HoseWord::Connected, vacuum) => Hose::Connected(vacuum),
        (HoseWord::Plugged, None) => Hose::Plugged,
        (HoseWord::NotFitted, None) => Hose::NotFitted,
        (_, Some(_)) => {
            problems.push(Problem::new(
                format!("{place}/vacuum"),
                "ignition.vacuum-without-hose",
                "a vacuum at the capsule is given, but no hose was connected to it",
                "leave the vacuum out, or write \"connected\"",
            ));
            return None;
        }
    };
    let running = Running::at(doc.speed.0, hose);
    match doc.speed_uncertainty {
        None => Some(running),
        Some(u) => {
            let place = format!("{place}/speed_uncertainty");
            value(problems, place, running.with_speed_u(u.0.rpm()))
        }
    }
}

fn read(doc: &TimingReadDoc, place: &str, problems: &mut Vec<Problem>) -> Option<TimingRead> {
    let taken = match &doc.running {
        None => Taken::Standing,
        Some(doc) => Taken::Running(running(doc, &format!("{place}/running"), problems)?),
    };
    let mut made = TimingRead::of(doc.read.0, taken);
    if let Some(u) = doc.uncertainty {
        let u = Uncertainty::from_number(u.0.degrees());
        made.uncertainty = Some(value(problems, format!("{place}/uncertainty"), u)?);
    }
    if let Some(late) = doc.lamp_delay_us {
        let late = LampDelay::from_microseconds(late);
        made.lamp = Some(value(problems, format!("{place}/lamp_delay_us"), late)?);
    }
    Some(made)
}

const fn above(ends: bool) -> AboveLast {
    if ends {
        AboveLast::Ends
    } else {
        AboveLast::NotSaid
    }
}

fn no_points<T>(place: String, problems: &mut Vec<Problem>) -> Option<T> {
    problems.push(Problem::new(
        place,
        "ignition.curve-rows",
        "the table has no points",
        "list them under \"crank\" or \"distributor\"",
    ));
    None
}

/// The table in typed values; `at` is where it stands.
pub(super) fn centrifugal(
    doc: &CentrifugalDoc,
    drive: Drive,
    at: &str,
    problems: &mut Vec<Problem>,
) -> Option<CentrifugalCurve> {
    let place = format!("{at}/centrifugal");
    let crank = doc.crank.as_ref().map(|points| {
        let made = points.iter().map(|point| CrankPoint {
            speed: point.speed.0,
            least: point.least.0,
            most: point.most.0,
        });
        made.collect::<Vec<_>>()
    });
    let distributor = doc.distributor.as_ref().map(|points| {
        let made = points.iter().map(|point| DistributorPoint {
            speed: point.speed.0,
            least: point.least.0,
            most: point.most.0,
        });
        made.collect::<Vec<_>>()
    });
    let above = above(doc.ends);
    let made = match (crank, distributor) {
        (Some(crank), Some(distributor)) => {
            CentrifugalCurve::both(&crank, &distributor, drive, above)
        }
        (Some(crank), None) => CentrifugalCurve::at_crank(&crank, above),
        (None, Some(distributor)) => CentrifugalCurve::at_distributor(&distributor, drive, above),
        (None, None) => return no_points(place, problems),
    };
    value(problems, place, made)
}

fn vacuum(
    doc: &VacuumAdvanceDoc,
    drive: Drive,
    problems: &mut Vec<Problem>,
) -> Option<VacuumCurve> {
    let place = format!("{AT}/vacuum");
    let above = above(doc.ends);
    let made = match (&doc.crank, &doc.distributor) {
        (Some(points), None) => {
            let made = points.iter().map(|point| VacuumPoint {
                vacuum: point.vacuum.0,
                least: point.least.0,
                most: point.most.0,
            });
            VacuumCurve::new(&made.collect::<Vec<_>>(), above)
        }
        (None, Some(points)) => {
            let made = points.iter().map(|point| DistributorVacuumPoint {
                vacuum: point.vacuum.0,
                least: point.least.0,
                most: point.most.0,
            });
            VacuumCurve::at_distributor(&made.collect::<Vec<_>>(), drive, above)
        }
        _ => return no_points(place, problems),
    };
    value(problems, place, made)
}

/// Where a field stands in the ignition section.
pub(super) fn pointer(field: TimingField) -> String {
    use TimingField as F;
    let rest = match field {
        F::Limits => "/limits",
        F::SetTo => "/set_to",
        F::Reading => "/reading",
        F::Curve => "/curve",
        _ => "",
    };
    format!("/timing{rest}")
}
