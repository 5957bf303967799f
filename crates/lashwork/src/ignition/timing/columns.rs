//! Many strobe readings judged in one call, from columns of plain numbers.

use super::{Hose, LampDelay, PrintedTiming, Running, Taken, TimingError, TimingReading};
use crate::quantity::{Advance, CrankSpeed};
use crate::tolerance::{
    BandJudge, DecisionRule, Estimate, JudgedRow, Judgement, Uncertainty, Verdict,
};

/// What is written for one reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TimingRow {
    /// The point at what the figure is printed for: from here, in crank degrees before top dead centre; not
    /// a number for a refused row.
    pub low: f64,
    /// To here.
    pub high: f64,
    /// Standard uncertainty of both ends.
    pub u: f64,
    /// The verdict.
    pub judged: JudgedRow,
}

/// What all readings of the columns share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StrobeColumns<'c> {
    /// What the mark shows, in crank degrees before top dead centre.
    pub read: &'c [f64],
    /// Speed of the crank in turns a minute.
    pub rpm: &'c [f64],
    /// Standard uncertainty of reading the mark, in crank degrees.
    pub u: &'c [f64],
    /// Standard uncertainty of the speeds, in turns a minute.
    pub speed_u: f64,
    /// The vacuum hose.
    pub hose: Hose,
    /// The lamp.
    pub lamp: LampDelay,
}

/// Judges every row as [`PrintedTiming::found`] does, to the bit, and hands it to `write` with its number; a
/// row that cannot be judged as well, with the reason. No memory is allocated unless a row is refused.
///
/// # Errors
/// [`TimingError::ColumnLengths`] for columns of unequal lengths; [`TimingError::SpeedUncertainty`]; nothing
/// is written then.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::timing::{
///     AboveLast, CentrifugalCurve, CrankPoint, Hose, LampDelay, PrintedTiming, StrobeColumns, Taken,
///     judge_strobe_columns,
/// };
/// use lashwork::quantity::{Advance, CrankAngle, CrankSpeed};
/// use lashwork::tolerance::HasLimits;
/// let point = |rpm, advance| -> Result<_, lashwork::quantity::QuantityError> {
///     let advance = CrankAngle::from_degrees(advance)?;
///     Ok(CrankPoint { speed: CrankSpeed::from_rpm(rpm)?, least: advance, most: advance })
/// };
/// let curve = CentrifugalCurve::at_crank(&[point(1000.0, 0.0)?, point(2200.0, 20.0)?], AboveLast::NotSaid)?;
/// let book = PrintedTiming::new(
///     "8 deg BTDC to 12 deg BTDC".parse()?, Taken::Standing, Some(&curve), None)?;
/// let columns = StrobeColumns {
///     read: &[10.0, 20.0, 36.0],
///     rpm: &[800.0, 1600.0, 3000.0],
///     u: &[0.5; 3],
///     speed_u: 0.0,
///     hose: Hose::Plugged,
///     lamp: LampDelay::NONE,
/// };
/// let (mut found, mut refused) = (Vec::new(), Vec::new());
/// judge_strobe_columns(&book, &columns, &Advance::USUAL_RULE, |_, row, why| {
///     found.push((row.low, row.judged.verdict));
///     refused.extend(why.map(|why| why.code()));
/// })?;
/// assert_eq!(found[..2], [(10.0, 1), (10.0, 1)]);
/// assert_eq!(refused, ["ignition.beyond-curve"]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn judge_strobe_columns(
    book: &PrintedTiming<'_>,
    columns: &StrobeColumns<'_>,
    rule: &DecisionRule,
    mut write: impl FnMut(usize, &TimingRow, Option<TimingError>),
) -> Result<(), TimingError> {
    let rows = columns.read.len();
    for other in [columns.rpm.len(), columns.u.len()] {
        if other != rows {
            return Err(TimingError::ColumnLengths { first: rows, other });
        }
    }
    let still = Running::at(CrankSpeed::from_rpm(0.0)?, columns.hose);
    let still = still.with_speed_u(columns.speed_u)?;
    let mut band = BandJudge::new(book.limits(), rule);
    let numbers = columns.read.iter().zip(columns.rpm).zip(columns.u);
    for (row, ((read, rpm), u)) in numbers.enumerate() {
        let mut one = || -> Result<(Estimate<Advance>, Judgement), TimingError> {
            let mut running = still;
            running.speed = CrankSpeed::from_rpm(*rpm)?;
            let brought = book.brought(&TimingReading {
                read: Advance::from_degrees_before(*read)?,
                u: Uncertainty::from_number(*u)?,
                taken: Taken::Running(running),
                lamp: columns.lamp,
            })?;
            let estimate = brought.estimate()?;
            Ok((estimate, brought.judge(&mut band)?))
        };
        match one() {
            Ok((estimate, found)) => {
                let end = |end: Option<Advance>| end.map_or(f64::NAN, Advance::degrees_before);
                let judged = JudgedRow {
                    verdict: found.verdict.number(),
                    provable: found.provable,
                    probabilities: found.probabilities.ends(),
                };
                let judged = TimingRow {
                    low: end(estimate.low()),
                    high: end(estimate.high()),
                    u: estimate.normal_uncertainty().number(),
                    judged,
                };
                write(row, &judged, None);
            }
            Err(why) => write(row, &REFUSED, Some(why)),
        }
    }
    Ok(())
}

const REFUSED: TimingRow = TimingRow {
    low: f64::NAN,
    high: f64::NAN,
    u: f64::NAN,
    judged: JudgedRow {
        verdict: Verdict::REFUSED,
        provable: false,
        probabilities: [f64::NAN; 6],
    },
};
