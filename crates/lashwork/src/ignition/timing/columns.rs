//! Many strobe readings judged in one call, from columns of plain numbers.

use super::{Hose, LampDelay, PrintedTiming, Running, Taken, TimingError, TimingReading};
use crate::quantity::{Advance, CrankSpeed};
use crate::tolerance::{BandJudge, DecisionRule, Estimate, JudgedRow, Judgement, Uncertainty};
use alloc::vec::Vec;

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

impl StrobeColumns<'_> {
    /// Every row as a reading, for what takes all of them together.
    ///
    /// # Errors
    /// The first row that is no reading, counted from 0, and why; [`TimingError::ColumnLengths`] and
    /// [`TimingError::SpeedUncertainty`] at the first row.
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::ignition::timing::{Hose, LampDelay, StrobeColumns};
    /// let mut columns = StrobeColumns {
    ///     read: &[10.0, 21.5], rpm: &[800.0, 1700.0], u: &[0.5, 0.5],
    ///     speed_u: 20.0, hose: Hose::Plugged, lamp: LampDelay::NONE,
    /// };
    /// assert_eq!(columns.readings().map(|all| all.len()), Ok(2));
    /// columns.rpm = &[800.0, -1.0];
    /// let (row, why) = columns.readings().unwrap_err();
    /// assert_eq!((row, why.code()), (1, "quantity.out-of-range"));
    /// ```
    pub fn readings(&self) -> Result<Vec<TimingReading>, (usize, TimingError)> {
        let still = self.still().map_err(|why| (0, why))?;
        let rows = self.read.iter().zip(self.rpm).zip(self.u).enumerate();
        let made = rows.map(|(row, ((read, rpm), u))| {
            self.reading(still, *read, *rpm, *u)
                .map_err(|why| (row, why))
        });
        made.collect()
    }

    /// What is the same for all rows, if the columns are of one length.
    fn still(&self) -> Result<Running, TimingError> {
        let rows = self.read.len();
        for other in [self.rpm.len(), self.u.len()] {
            if other != rows {
                return Err(TimingError::ColumnLengths { first: rows, other });
            }
        }
        Running::at(CrankSpeed::from_rpm(0.0)?, self.hose).with_speed_u(self.speed_u)
    }

    fn reading(
        &self,
        still: Running,
        read: f64,
        rpm: f64,
        u: f64,
    ) -> Result<TimingReading, TimingError> {
        let mut running = still;
        running.speed = CrankSpeed::from_rpm(rpm)?;
        Ok(TimingReading {
            read: Advance::from_degrees_before(read)?,
            u: Uncertainty::from_number(u)?,
            taken: Taken::Running(running),
            lamp: self.lamp,
        })
    }
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
    let still = columns.still()?;
    let mut band = BandJudge::new(book.limits(), rule);
    let numbers = columns.read.iter().zip(columns.rpm).zip(columns.u);
    for (row, ((read, rpm), u)) in numbers.enumerate() {
        let mut one = || -> Result<(Estimate<Advance>, Judgement), TimingError> {
            let brought = book.brought(&columns.reading(still, *read, *rpm, *u)?)?;
            let estimate = brought.estimate()?;
            Ok((estimate, brought.judge(&mut band)?))
        };
        match one() {
            Ok((estimate, found)) => {
                let end = |end: Option<Advance>| end.map_or(f64::NAN, Advance::degrees_before);
                let judged = TimingRow {
                    low: end(estimate.low()),
                    high: end(estimate.high()),
                    u: estimate.normal_uncertainty().number(),
                    judged: JudgedRow::from(&found),
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
    judged: JudgedRow::REFUSED,
};
