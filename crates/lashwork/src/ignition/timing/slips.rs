//! A single reading far off: slips that leave just such a number.

use super::{Hose, PrintedTiming, Taken, TimingError, TimingFound, TimingReading};
use crate::quantity::Advance;
use crate::tolerance::{Uncertainty, Verdict};
use alloc::vec::Vec;
use serde::Serialize;

/// A slip that a single reading may show.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum TimingSlip {
    /// Late by as much as a vacuum capsule gives: it was set with the hose connected.
    SetWithVacuum,
    /// Called static, and early by as much as the weights add: it was read, or is printed, for a running
    /// engine.
    RunningReadingAsStatic,
    /// Late by as much as the weights add: the static figure was set at speed.
    StaticFigureSetAtSpeed,
    /// Twice the printed figure: that counts at the distributor.
    PrintedAtDistributor,
    /// Half the printed figure: the reading counts at the distributor.
    ReadAtDistributor,
}

/// Least that a slip with the vacuum or the weights is looked for at, in crank degrees.
const LEAST: f64 = 6.0;
/// How far whoever set it so may have been off besides, in crank degrees. This library's choice.
const BESIDES: f64 = 4.0;
/// What a capsule gives where no table says it, in crank degrees. Common practice, no source.
const CAPSULE: (f64, f64) = (9.0, 34.0);

/// Slips that explain a reading outside its limits, within twice its uncertainty; with vacuum or weights
/// within 4 degrees more. None for one that was not
/// called below or above.
///
/// # Errors
/// [`TimingError`] of a table.
///
/// ```
/// use lashwork::ignition::timing::{
///     LampDelay, PrintedTiming, Taken, TimingReading, TimingSlip, timing_slips,
/// };
/// use lashwork::quantity::Advance;
/// use lashwork::tolerance::HasLimits;
/// let limits = "9 deg BTDC to 11 deg BTDC".parse()?;
/// let book = PrintedTiming::new(limits, Taken::Standing, None, None)?;
/// let reading = TimingReading {
///     read: Advance::parse("20 deg BTDC")?,
///     u: TimingReading::usual_u()?,
///     taken: Taken::Standing,
///     lamp: LampDelay::NONE,
/// };
/// let found = book.found(&reading, &Advance::USUAL_RULE)?;
/// assert_eq!(timing_slips(&book, &reading, &found)?, [TimingSlip::PrintedAtDistributor]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn timing_slips(
    book: &PrintedTiming<'_>,
    reading: &TimingReading,
    found: &TimingFound,
) -> Result<Vec<TimingSlip>, TimingError> {
    let mut slips = Vec::new();
    let decided = matches!(found.judgement.verdict, Verdict::Below | Verdict::Above);
    let (true, Some(aim), Some(centre)) = (decided, book.aim(), found.estimate.centre()) else {
        return Ok(slips);
    };
    let u = found.u().map_or(0.0, Uncertainty::number);
    let (low, high) = ends(book, aim);
    // How early or late it is beyond the nearer limit, give or take.
    let early = centre.degrees_before() - aim.degrees_before();
    let slack = 2.0 * u + (high - low) / 2.0 + BESIDES;
    let within = |x: f64, least: f64, most: f64| least - slack <= x && x <= most + slack;
    let (least, most) = match book.vacuum() {
        Some(vacuum) => (LEAST, vacuum.most()?.degrees()),
        None => CAPSULE,
    };
    let no_capsule = matches!(&reading.taken, Taken::Running(at) if at.hose == Hose::NotFitted);
    if !no_capsule && -early >= LEAST && within(-early, least, most) {
        slips.push(TimingSlip::SetWithVacuum);
    }
    let weights = match book.centrifugal() {
        Some(curve) => curve.most()?.degrees(),
        None => 0.0,
    };
    if weights > 0.0 && early.abs() >= LEAST && early.abs() <= weights + slack {
        if early < 0.0 {
            slips.push(TimingSlip::StaticFigureSetAtSpeed);
        } else if reading.taken == Taken::Standing {
            slips.push(TimingSlip::RunningReadingAsStatic);
        }
    }
    let printed = aim.degrees_before();
    if printed.abs() >= 2.0 {
        if (centre.degrees_before() - 2.0 * printed).abs() <= 2.0 * u {
            slips.push(TimingSlip::PrintedAtDistributor);
        } else if (2.0 * centre.degrees_before() - printed).abs() <= 2.0 * u {
            slips.push(TimingSlip::ReadAtDistributor);
        }
    }
    Ok(slips)
}

fn ends(book: &PrintedTiming<'_>, aim: Advance) -> (f64, f64) {
    let of = |end: Option<Advance>| end.unwrap_or(aim).degrees_before();
    (of(book.limits().lower()), of(book.limits().upper()))
}
