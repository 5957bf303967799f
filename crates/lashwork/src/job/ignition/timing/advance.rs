//! Readings at several speeds against the curve.

use super::answer::{
    AdvanceBandReport, AdvanceLineReport, AdvanceReport, AdvanceRowReport, CurveCauseReport,
};
use super::{SIDES, Timing, taken, words};
use crate::ignition::timing::{
    CurveCauses, CurveFit, CurveReadings, PrintedTiming, Taken, TimingError, TimingReading,
};
use crate::job::assumptions::Assumptions;
use crate::job::text::percent;
use crate::job::work::{WorkAdvice, told};
use crate::quantity::{Advance, CrankAngle, CrankSpeed};
use crate::tolerance::{Estimate, HasLimits, Limits, judge};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Probability of any fault before the readings; listed.
const FAULT: f64 = 0.5;
/// From here on the advance counts as settled.
pub(super) const SETTLED: f64 = 0.8;
/// Causes less probable than this are not told.
const TOLD: f64 = 0.05;

pub(super) fn report(
    asked: &Timing,
    book: &PrintedTiming<'_>,
    assumptions: &mut Assumptions,
) -> Result<AdvanceReport, TimingError> {
    let readings: Result<Vec<TimingReading>, TimingError> = asked
        .curve
        .iter()
        .map(|read| taken(read, assumptions))
        .collect();
    let readings = readings?;
    let ready = CurveReadings::new(book, &readings)?;
    let rows: Result<Vec<_>, _> = readings.iter().map(|one| row(book, one)).collect();
    assumptions.add(
        "ignition.curve-prior",
        format!(
            "chance of a fault of the advance before it was read: {} taken, shared equally among the causes",
            percent(FAULT)
        ),
    );
    // An idling engine draws the vacuum at which a capsule gives all it has.
    let capsule = match &asked.vacuum {
        Some(vacuum) => {
            let all = vacuum.all()?;
            let (least, most) = (all.least.degrees(), all.most.degrees());
            let middle = CrankAngle::from_degrees(f64::midpoint(least, most))?;
            Some((middle, (most - least) / libm::sqrt(12.0)))
        }
        None => None,
    };
    let found = CurveCauses::weigh(&ready, capsule, FAULT)?;
    let causes: Vec<CurveCauseReport> = found
        .causes
        .iter()
        .filter(|one| one.posterior >= TOLD)
        .map(|one| CurveCauseReport {
            cause: one.cause,
            probability: one.posterior,
            text: words::cause(one.cause).to_string(),
        })
        .collect();
    let look = || {
        let said = causes
            .iter()
            .map(|one| format!("{} ({})", one.text, percent(one.probability)));
        said.collect::<Vec<String>>()
    };
    let (summary, advice) = if found.sound >= SETTLED {
        let text = String::from("the advance follows its curve: leave it");
        (
            String::from("follows the curve"),
            WorkAdvice::Leave { text },
        )
    } else if found.turning_helps(SETTLED) {
        let text = String::from(
            "the advance itself follows its curve; what is off is where the body stands",
        );
        (
            String::from("follows the curve, from another point"),
            WorkAdvice::Leave { text },
        )
    } else if found
        .causes
        .first()
        .is_some_and(|c| c.posterior > found.sound)
    {
        let text =
            String::from("the advance does not follow its curve; turning the body would hide it");
        let causes = look();
        (
            String::from("does not follow the curve"),
            WorkAdvice::FindCause { text, causes },
        )
    } else {
        let text = String::from(
            "read at more speeds: below where the advance begins, twice on its rise, above its end",
        );
        (String::from("not decided"), WorkAdvice::Measure { text })
    };
    let rows = rows?;
    let fastest = rows.iter().map(|row| row.speed);
    let fastest = fastest.fold(CrankSpeed::from_rpm(0.0)?, |a, b| if b > a { b } else { a });
    let fit = CurveFit::new(&ready).ok();
    Ok(AdvanceReport {
        rows,
        band: band(book, fastest)?,
        line: match &fit {
            Some(fit) => line(fit, &ready, fastest)?,
            None => Vec::new(),
        },
        fitted: fit.map_or_else(Vec::new, |fit| fitted(&fit)),
        sound: found.sound,
        causes,
        not_weighed: found.not_weighed,
        summary,
        advice,
    })
}

/// The book's band, to be drawn.
fn band(
    book: &PrintedTiming<'_>,
    fastest: CrankSpeed,
) -> Result<Vec<AdvanceBandReport>, TimingError> {
    let corners = book.band(fastest)?.into_iter();
    let told = corners.map(|corner| AdvanceBandReport {
        speed: corner.speed,
        least: corner.least,
        most: corner.most,
    });
    Ok(told.collect())
}

/// The fitted curve, to be drawn.
fn line(
    fit: &CurveFit,
    readings: &CurveReadings,
    fastest: CrankSpeed,
) -> Result<Vec<AdvanceLineReport>, TimingError> {
    let corners = fit.line(readings, fastest)?.into_iter();
    let told = corners.map(|corner| AdvanceLineReport {
        speed: corner.speed,
        sparks: corner.sparks,
    });
    Ok(told.collect())
}

/// One reading against what the book makes of its speed.
fn row(book: &PrintedTiming<'_>, reading: &TimingReading) -> Result<AdvanceRowReport, TimingError> {
    let (speed, late) = match reading.taken {
        Taken::Standing => (CrankSpeed::from_rpm(0.0)?, 0.0),
        Taken::Running(running) => (running.speed, reading.lamp.at(running.speed)?.degrees()),
    };
    let sparks = Advance::from_degrees_before(reading.read.degrees_before() + late)?;
    let estimate = Estimate::between(sparks, sparks, reading.u)?;
    let limits = book.must_read(&reading.taken)?;
    let said = format!("{}, u {:.1} deg", sparks.show(1), reading.u.number());
    let judged = judge(&estimate, &limits, &Advance::USUAL_RULE);
    Ok(AdvanceRowReport {
        speed,
        sparks,
        uncertainty_deg: reading.u.number(),
        least: limits.lower(),
        most: limits.upper(),
        judged: told(said, said_limits(&limits), &judged, SIDES),
    })
}

/// Limits that were worked out, no finer than a lamp shows.
fn said_limits(limits: &Limits<Advance>) -> String {
    match (limits.lower(), limits.upper()) {
        (Some(low), Some(high)) => format!("{} to {}", low.show(1), high.show(1)),
        (Some(low), None) => format!("at least {}", low.show(1)),
        (None, Some(high)) => format!("at most {}", high.show(1)),
        (None, None) => String::from("not printed"),
    }
}

fn fitted(fit: &CurveFit) -> Vec<String> {
    let start = fit.static_point();
    let mut said = Vec::from([format!(
        "static point {}, u {:.1} deg",
        start.value.show(1),
        start.u
    )]);
    if let Some(scale) = fit.scale() {
        said.push(format!(
            "on the rise {:.2} times the printed advance, u {:.2}",
            scale.value, scale.u
        ));
    }
    if let Some(end) = fit.end() {
        said.push(format!(
            "it ends {:.1} deg over the static point, u {:.1} deg",
            end.value.degrees(),
            end.u
        ));
    }
    said
}
