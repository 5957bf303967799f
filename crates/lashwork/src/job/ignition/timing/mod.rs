//! Timing: where the spark comes against the book, which way to turn the body, and how the advance follows
//! its curve.

mod advance;
mod advise;
mod answer;
pub(super) mod sheet;
mod words;

pub use answer::{
    AdvanceBandReport, AdvanceLineReport, AdvanceReport, AdvanceRowReport, BodyTurnReport,
    CurveCauseReport, TimingReport, TimingSlipReport,
};

use super::cam::drive;
use super::mark::assume_mark;
use super::request::Distributor;
use super::{IgnitionPlace, TimingField};
use crate::ignition::point::DistributorLimits;
use crate::ignition::timing::{
    CentrifugalCurve, Hose, LampDelay, PrintedTiming, Running, Taken, TimingError, TimingReading,
    VacuumCurve, timing_slips,
};
use crate::job::assumptions::Assumptions;
use crate::job::known::Known;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Before, Sides, Standing, WorkAdvice, told};
use crate::quantity::Advance;
use crate::tolerance::{Estimate, HasLimits, Limits, Uncertainty, Verdict};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Timing: what the book prints and what was read.
///
/// ```
/// use lashwork::job::ignition::{Timing, TimingRead};
/// use lashwork::ignition::timing::Taken;
/// use lashwork::quantity::Advance;
/// let mut asked = Timing::of("8 deg BTDC to 12 deg BTDC".parse()?);
/// asked.reading = Some(TimingRead::of(Advance::parse("6 deg BTDC")?, Taken::Standing));
/// assert!(asked.centrifugal.is_none());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Timing {
    /// The book's ignition point.
    pub limits: Limits<Advance>,
    /// The same as printed at the distributor, for the eye; `limits` is worked with.
    pub as_printed: Option<DistributorLimits>,
    /// What it is printed for; with the engine standing, and listed, if not stated.
    pub printed_for: Option<Taken>,
    /// Where to set it; the middle of the limits if not stated.
    pub set_to: Option<Advance>,
    /// Advance by speed.
    pub centrifugal: Option<CentrifugalCurve>,
    /// Advance by vacuum.
    pub vacuum: Option<VacuumCurve>,
    /// What was read.
    pub reading: Option<TimingRead>,
    /// What was read at several speeds, the hose off and plugged.
    pub curve: Vec<TimingRead>,
}

impl Timing {
    /// The book's ignition point, the rest not stated.
    #[must_use]
    pub const fn of(limits: Limits<Advance>) -> Self {
        Self {
            limits,
            as_printed: None,
            printed_for: None,
            set_to: None,
            centrifugal: None,
            vacuum: None,
            reading: None,
            curve: Vec::new(),
        }
    }
}

impl Timing {
    /// Where to set it: as stated, else the middle of the limits, or the only one.
    pub(super) fn aim(&self) -> Option<Advance> {
        let printed_for = self.printed_for.unwrap_or(Taken::Standing);
        let book = PrintedTiming::new(self.limits, printed_for, None, self.vacuum.as_ref()).ok();
        self.set_to.or_else(|| book?.aim())
    }
}

/// An ignition point as read.
///
/// ```
/// use lashwork::job::ignition::TimingRead;
/// use lashwork::ignition::timing::Taken;
/// use lashwork::quantity::Advance;
/// let read = TimingRead::of(Advance::parse("6 deg BTDC")?, Taken::Standing);
/// assert!(read.uncertainty.is_none() && read.lamp.is_none());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct TimingRead {
    /// What the mark showed.
    pub read: Advance,
    /// How it was taken; a running engine with what became of the vacuum hose.
    pub taken: Taken,
    /// Standard uncertainty of reading the mark; 1 degree either way is assumed, and listed, if not stated.
    pub uncertainty: Option<Uncertainty<Advance>>,
    /// How late the lamp flashes; not at all, and listed, if not stated.
    pub lamp: Option<LampDelay>,
}

impl TimingRead {
    /// What the mark showed and how it was taken, the rest not stated.
    #[must_use]
    pub const fn of(read: Advance, taken: Taken) -> Self {
        Self {
            read,
            taken,
            uncertainty: None,
            lamp: None,
        }
    }
}

pub(super) const SIDES: Sides = Sides {
    below: "too late",
    above: "too early",
};

/// The limits as printed; those of the distributor with what they are at the crank.
fn limits_said(asked: &Timing) -> String {
    asked.as_printed.map_or_else(
        || asked.limits.to_string(),
        |printed| {
            format!(
                "{printed} at the distributor, {} at the crank",
                asked.limits
            )
        },
    )
}

/// What was read, with what is assumed of it listed.
fn taken(read: &TimingRead, assumptions: &mut Assumptions) -> Result<TimingReading, TimingError> {
    let u = if let Some(u) = read.uncertainty {
        u
    } else {
        assume_mark(assumptions);
        TimingReading::usual_u()?
    };
    if let Taken::Running(running) = read.taken {
        if !running.is_speed_u_stated() {
            let text = format!(
                "uncertainty of the speed not stated: {} rpm taken",
                Running::USUAL_SPEED_U
            );
            assumptions.bears_on_verdict("ignition.speed-uncertainty", text);
        }
        if read.lamp.is_none() {
            assumptions.bears_on_verdict(
                "ignition.lamp-delay",
                "delay of the lamp not stated: none taken; a late lamp makes the spark look late, by 0.6 deg at 1000 rpm for each 100 us",
            );
        }
    }
    Ok(TimingReading {
        read: read.read,
        u,
        taken: read.taken,
        lamp: read.lamp.unwrap_or(LampDelay::NONE),
    })
}

/// The book, with what is assumed of it listed.
fn printed<'a>(
    asked: &'a Timing,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<PrintedTiming<'a>> {
    let printed_for = asked.printed_for.unwrap_or_else(|| {
        assumptions.bears_on_verdict(
            "ignition.printed-for",
            "what the book's ignition point is printed for not stated: the engine standing taken",
        );
        Taken::Standing
    });
    if let Some(set_to) = asked.set_to
        && !asked.limits.contains(set_to)
    {
        problems.push(Problem::new(
            place(TimingField::SetTo),
            "ignition.set-to-outside",
            format!(
                "the point to set, {set_to}, lies outside the limits, {}",
                asked.limits
            ),
            "give a point within the limits",
        ));
        return None;
    }
    let (centrifugal, vacuum) = (asked.centrifugal.as_ref(), asked.vacuum.as_ref());
    let book = PrintedTiming::new(asked.limits, printed_for, centrifugal, vacuum);
    noted(book, TimingField::Limits, problems)
}

/// Works it out.
pub(super) fn report(
    asked: &Timing,
    known: Known<'_>,
    distributor: &Distributor,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<TimingReport> {
    let book = printed(asked, assumptions, problems)?;
    let curve = if asked.curve.is_empty() {
        None
    } else {
        let curve = advance::report(asked, &book, assumptions);
        Some(noted(curve, TimingField::Curve, problems)?)
    };
    let made = TimingReport {
        found: None,
        sparks: None,
        point: None,
        point_u_deg: None,
        slips: Vec::new(),
        advice: WorkAdvice::Measure {
            text: String::from(
                "read the point: with the engine standing, or with a lamp, the vacuum hose off and plugged",
            ),
        },
        turn: None,
        curve,
    };
    let Some(read) = &asked.reading else {
        return Some(made);
    };
    let reading = noted(taken(read, assumptions), TimingField::Reading, problems)?;
    let found = book.found(&reading, &Advance::USUAL_RULE);
    let found = noted(found, TimingField::Reading, problems)?;
    let slips = noted(
        timing_slips(&book, &reading, &found),
        TimingField::Reading,
        problems,
    )?;
    let slips: Vec<TimingSlipReport> = slips
        .into_iter()
        .map(|slip| TimingSlipReport {
            slip,
            text: String::from(words::slip(slip)),
        })
        .collect();
    let drive = drive(known, distributor);
    let with = advise::With {
        reading: &reading,
        found: &found,
        slips: &slips,
        curve: made.curve.as_ref(),
        stop: stop(asked),
        before,
        inches: known.shown.inches,
    };
    let (advice, turn) = match advise::advise(&with, asked.aim(), drive, distributor) {
        Ok(advised) => advised,
        Err(why) => {
            let place = Place::Ignition(IgnitionPlace::Distributor);
            problems.push(Problem::at(place, &why));
            return None;
        }
    };
    if turn.is_some() && distributor.cam.is_none() {
        let turns = drive.crank_turns();
        let text = format!(
            "how fast the distributor turns not stated: one turn for {turns} of the crank taken"
        );
        assumptions.add("ignition.cam-speed", text);
    }
    let said = words::found(&found);
    Some(TimingReport {
        found: Some(told(said, limits_said(asked), &found.judgement, SIDES)),
        sparks: Some(found.sparks),
        point: found.estimate.centre(),
        point_u_deg: found.u().map(Uncertainty::number),
        slips,
        advice,
        turn,
        ..made
    })
}

fn place(field: TimingField) -> Place {
    Place::Ignition(IgnitionPlace::Timing(field))
}

/// The value, or its refusal noted where it belongs.
fn noted<T>(
    made: Result<T, TimingError>,
    field: TimingField,
    problems: &mut Vec<Problem>,
) -> Option<T> {
    made.map_err(|why| problems.push(Problem::at(place(field), &why)))
        .ok()
}

/// What takes back the amount to turn: a point that was read with the vacuum hose connected, while the book
/// prints it without.
pub(super) fn stop(asked: &Timing) -> Option<String> {
    let connected = |taken: &Taken| match taken {
        Taken::Standing => false,
        Taken::Running(running) => matches!(running.hose, Hose::Connected(_)),
    };
    let read = asked.reading.as_ref()?;
    let printed = asked.printed_for.as_ref().is_some_and(connected);
    (connected(&read.taken) && !printed).then(|| {
        String::from(
            "the ignition point was read with the vacuum hose connected, which is worth up to 30 degrees: pull it off at the distributor, plug it and read again before the body is turned",
        )
    })
}

/// The point at what the book prints it for, for the record of the years, or why it does not go there.
pub(in crate::job) fn point_read(
    asked: &Timing,
    found: &TimingReport,
) -> Option<Result<Estimate<Advance>, String>> {
    let (point, u) = found.point.zip(found.point_u_deg)?;
    if let Some(why) = stop(asked) {
        return Some(Err(why));
    }
    let u = Uncertainty::from_number(u).ok()?;
    Estimate::between(point, point, u).ok().map(Ok)
}

/// How far the point is settled, for the order of work.
pub(super) fn standing(found: &TimingReport) -> (Standing, String) {
    match &found.found {
        None => (Standing::NotKnown, String::from("not read")),
        Some(one) if one.shown() == Verdict::InBand => {
            (Standing::Settled, one.verdict_text.clone())
        }
        Some(one) => (Standing::NotSettled, one.verdict_text.clone()),
    }
}

/// How far the advance is settled.
pub(super) fn advance_standing(found: &AdvanceReport) -> (Standing, String) {
    let settled = found.sound >= advance::SETTLED;
    let standing = if settled {
        Standing::Settled
    } else {
        Standing::NotSettled
    };
    (standing, found.summary.clone())
}
