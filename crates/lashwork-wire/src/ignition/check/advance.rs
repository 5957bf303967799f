//! The advance at a speed, and a strobe reading brought to what the book prints.

use super::super::timing::{CentrifugalDoc, HoseWord, TimingLimitsDoc, centrifugal};
use super::found::Judged;
use crate::band::band;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::ignition::point::Drive;
use lashwork::ignition::timing::{
    CentrifugalCurve, Hose, LampDelay, PrintedTiming, Running, Taken, TimingReading,
};
use lashwork::quantity::{Advance, CrankAngle, CrankSpeed};
use lashwork::tolerance::{HasLimits, Uncertainty};
use serde::Serialize;

parts! {
    /// The book's advance, what is asked of it, and what was read.
    AdvanceCheckDoc {
        /// Advance by speed.
        centrifugal: Option<CentrifugalDoc>,
        /// Turns of the crank for one turn of the distributor; needed with a table at the distributor.
        crank_turns: Option<f64>,
        /// A speed of the crank, to be told the advance there.
        speed: Option<Q<CrankSpeed>>,
        /// The book's ignition point; needed with `reading`.
        limits: Option<TimingLimitsDoc>,
        /// The speed of the crank that it is printed for, without vacuum; if not stated, the engine standing.
        printed_for: Option<Q<CrankSpeed>>,
        /// What a stroboscopic lamp shows.
        reading: Option<StrobeDoc>,
    }
    /// What a stroboscopic lamp shows.
    StrobeDoc {
        /// What the mark shows.
        read: Q<Advance>,
        /// Standard uncertainty of reading the mark.
        uncertainty: Q<CrankAngle>,
        /// Speed of the crank.
        speed: Q<CrankSpeed>,
        /// Its standard uncertainty.
        speed_uncertainty: Q<CrankSpeed>,
        /// What became of the vacuum hose; what it gives while connected, only a whole document can say.
        vacuum_hose: W<HoseWord>,
        /// How late the lamp flashes, in microseconds.
        lamp_delay_us: f64,
    }
}

/// The advance that the book allows, and what the reading comes to.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct AdvanceFound {
    /// What the book allows at the speed that was asked for.
    allowed: Option<AllowedAdvance>,
    /// The point that was read, at what the figure is printed for.
    point: Option<PointRead>,
}

/// The least and the most advance.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct AllowedAdvance {
    /// The least.
    least: CrankAngle,
    /// The most.
    most: CrankAngle,
}

/// A point that was read, brought to what the figure is printed for.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub(crate) struct PointRead {
    /// The latest it may be.
    low: Advance,
    /// The earliest.
    high: Advance,
    /// Standard uncertainty of both, in crank degrees.
    uncertainty_deg: f64,
    /// Against the book: below is too late, above too early.
    judged: Judged,
    /// How much earlier the spark must come to be where to set it, in crank degrees; negative is later.
    to_set: CrankAngle,
}

const AT: &str = "/advance";

pub(super) fn found(doc: AdvanceCheckDoc, problems: &mut Vec<Problem>) -> Option<AdvanceFound> {
    let curve = match &doc.centrifugal {
        Some(table) => Some(curve(table, doc.crank_turns, problems)?),
        None => None,
    };
    let needs = |field: &str, problems: &mut Vec<Problem>| {
        problems.push(Problem::new(
            format!("{AT}/{field}"),
            "document.missing-field",
            format!("\"{field}\" is missing beside what is asked"),
            format!("add \"{field}\""),
        ));
        None
    };
    let allowed = match (doc.speed, &curve) {
        (None, _) => None,
        (Some(_), None) => return needs("centrifugal", problems),
        (Some(speed), Some(curve)) => {
            let at = value(problems, format!("{AT}/speed"), curve.at(speed.0))?;
            Some(AllowedAdvance {
                least: at.least,
                most: at.most,
            })
        }
    };
    let point = match (doc.reading, doc.limits) {
        (None, _) => None,
        (Some(_), None) => return needs("limits", problems),
        (Some(reading), Some(limits)) => {
            let printed_for = match doc.printed_for {
                None => Taken::Standing,
                Some(speed) => Taken::Running(Running::at(speed.0, Hose::Plugged)),
            };
            let limits = band(limits.from, limits.to, format!("{AT}/limits"), problems)?;
            let book = PrintedTiming::new(limits, printed_for, curve.as_ref(), None);
            let book = value(problems, format!("{AT}/limits"), book)?;
            Some(read(&reading, &book, problems)?)
        }
    };
    if allowed.is_none() && point.is_none() {
        return needs("speed", problems);
    }
    Some(AdvanceFound { allowed, point })
}

fn curve(
    table: &CentrifugalDoc,
    crank_turns: Option<f64>,
    problems: &mut Vec<Problem>,
) -> Option<CentrifugalCurve> {
    let drive = match crank_turns {
        Some(turns) => value(problems, format!("{AT}/crank_turns"), Drive::new(turns))?,
        None if table.distributor.is_none() => Drive::WITH_CRANK,
        None => {
            problems.push(Problem::new(
                format!("{AT}/crank_turns"),
                "document.missing-field",
                "a table at the distributor needs \"crank_turns\", which is missing",
                "add \"crank_turns\": 2 on a four-stroke engine",
            ));
            return None;
        }
    };
    centrifugal(table, drive, AT, problems)
}

fn read(
    doc: &StrobeDoc,
    book: &PrintedTiming<'_>,
    problems: &mut Vec<Problem>,
) -> Option<PointRead> {
    let place = format!("{AT}/reading");
    let hose = match doc.vacuum_hose.0 {
        HoseWord::NotFitted => Hose::NotFitted,
        HoseWord::Plugged => Hose::Plugged,
        HoseWord::Connected => Hose::Connected(None),
    };
    let running = Running::at(doc.speed.0, hose).with_speed_u(doc.speed_uncertainty.0.rpm());
    let running = value(problems, format!("{place}/speed_uncertainty"), running);
    let u = Uncertainty::from_number(doc.uncertainty.0.degrees());
    let u = value(problems, format!("{place}/uncertainty"), u);
    let lamp = LampDelay::from_microseconds(doc.lamp_delay_us);
    let lamp = value(problems, format!("{place}/lamp_delay_us"), lamp);
    let reading = TimingReading {
        read: doc.read.0,
        u: u?,
        taken: Taken::Running(running?),
        lamp: lamp?,
    };
    let found = value(problems, place, book.found(&reading, &Advance::USUAL_RULE))?;
    Some(PointRead {
        low: found.estimate.low()?,
        high: found.estimate.high()?,
        uncertainty_deg: found.estimate.normal_uncertainty().number(),
        judged: found.judgement.into(),
        to_set: book.aim()? - found.estimate.centre()?,
    })
}
