//! What comes of rows of columns: of one, and of those that are worked out side by side.
#![expect(
    clippy::inline_always,
    reason = "what is called elsewhere knows nothing of the registers this processor has"
)]

use super::ClearanceError;
use crate::statistics::{LANES, Worked};
use crate::tolerance::JudgedRow;

/// What is written for one reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadingRow {
    /// The lash at the temperature of the limits, in millimetres: from here, minus infinity where there is no
    /// such end; not a number for a refused row.
    pub low: f64,
    /// To here, infinity where there is no such end.
    pub high: f64,
    /// Standard uncertainty of both ends.
    pub u: f64,
    /// Whether the ends hold at the temperature of the limits. If not, nothing says how the lash follows, `u`
    /// has what that may do to it, and the verdict is that it cannot be said.
    pub at_reference: bool,
    /// The verdict.
    pub judged: JudgedRow,
}

impl ReadingRow {
    /// Numbers of a row where all of them stand side by side: those of [`JudgedRow`], then low, high, u and
    /// whether they are at the reference, 1 or 0.
    pub const NUMBERS: usize = JudgedRow::NUMBERS + 4;

    /// A row that was refused.
    pub const REFUSED: Self = Self {
        low: f64::NAN,
        high: f64::NAN,
        u: f64::NAN,
        at_reference: false,
        judged: JudgedRow::REFUSED,
    };

    /// All numbers of the row.
    ///
    /// ```
    /// use lashwork::clearance::ReadingRow;
    /// use lashwork::tolerance::JudgedRow;
    /// let judged = JudgedRow { verdict: 1, provable: true, probabilities: [0.0, 0.0, 1.0, 1.0, 0.0, 0.0] };
    /// let row = ReadingRow { low: 0.16, high: 0.18, u: 0.002, at_reference: true, judged };
    /// assert_eq!(row.numbers()[8..], [0.16, 0.18, 0.002, 1.0]);
    /// ```
    #[must_use]
    #[inline]
    pub fn numbers(&self) -> [f64; Self::NUMBERS] {
        let [a, b, c, d, e, f, g, h] = self.judged.numbers();
        let at_reference = f64::from(u8::from(self.at_reference));
        [
            a,
            b,
            c,
            d,
            e,
            f,
            g,
            h,
            self.low,
            self.high,
            self.u,
            at_reference,
        ]
    }
}

/// Most rows of a [`ReadingRows`].
pub const ROWS_AT_ONCE: usize = LANES;

/// What is written for the readings of a stretch of rows, a column each.
///
/// ```
/// use lashwork::clearance::{ReadingColumns, judge_columns};
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::{Column, HasLimits};
/// let columns = ReadingColumns {
///     rows: 50,
///     low: Column::All(0.16),
///     high: Column::All(0.18),
///     uncertainty: Column::All(0.002),
///     lower: Column::All(0.15),
///     upper: Column::All(0.2),
///     metal: None,
/// };
/// let mut written = [9; 50];
/// judge_columns(&columns, &Lash::USUAL_RULE, |rows| {
///     written[rows.from..][..rows.count].copy_from_slice(&rows.verdict[..rows.count]);
/// })?;
/// assert_eq!(written, [1; 50]);
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct ReadingRows<'r> {
    /// The number of the first row.
    pub from: usize,
    /// How many rows: as many as the columns have room for, except at the end.
    pub count: usize,
    /// [`JudgedRow::verdict`] of each.
    pub verdict: &'r [u8; ROWS_AT_ONCE],
    /// [`JudgedRow::provable`].
    pub provable: &'r [bool; ROWS_AT_ONCE],
    /// [`JudgedRow::probabilities`], a column each.
    pub probabilities: [&'r [f64; ROWS_AT_ONCE]; 6],
    /// [`ReadingRow::low`].
    pub low: &'r [f64; ROWS_AT_ONCE],
    /// [`ReadingRow::high`].
    pub high: &'r [f64; ROWS_AT_ONCE],
    /// [`ReadingRow::u`].
    pub u: &'r [f64; ROWS_AT_ONCE],
    /// [`ReadingRow::at_reference`].
    pub at_reference: &'r [bool; ROWS_AT_ONCE],
    /// The numbers of rows that are refused, in order, with the reason.
    pub refused: &'r [(usize, ClearanceError)],
}

impl<'r> ReadingRows<'r> {
    /// All rows of a stretch, as they come side by side.
    #[inline(always)]
    pub(super) fn usual(
        from: usize,
        count: usize,
        found: &'r Worked,
        verdict: &'r [u8; LANES],
        provable: &'r [bool; LANES],
    ) -> Self {
        let [below, inside, above] = [&found.below, &found.inside, &found.above];
        Self {
            from,
            count,
            verdict,
            provable,
            probabilities: [below, below, inside, inside, above, above],
            low: &found.a,
            high: &found.b,
            u: &found.u,
            at_reference: &[true; LANES],
            refused: &[],
        }
    }

    /// Row after row: its number, what is written for it, and why it is refused if it is.
    ///
    /// ```
    /// use lashwork::clearance::{ReadingColumns, judge_columns};
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Column, HasLimits};
    /// let columns = ReadingColumns {
    ///     rows: 2,
    ///     low: Column::Each(&[0.16, 0.16]),
    ///     high: Column::Each(&[0.18, 0.10]),
    ///     uncertainty: Column::All(0.002),
    ///     lower: Column::All(0.15),
    ///     upper: Column::NONE,
    ///     metal: None,
    /// };
    /// judge_columns(&columns, &Lash::USUAL_RULE, |rows| {
    ///     let found: Vec<_> = rows.each().map(|(row, found, why)| (row, found.low, why.is_some())).collect();
    ///     assert_eq!(found[0], (0, 0.16, false));
    ///     assert!(found[1].1.is_nan() && found[1].2);
    /// })?;
    /// # Ok::<(), lashwork::tolerance::ToleranceError>(())
    /// ```
    pub fn each(&self) -> impl Iterator<Item = (usize, ReadingRow, Option<&ClearanceError>)> {
        (0..self.count.min(LANES)).map(|at| {
            let row = self.from + at;
            let why = self.refused.iter().find(|(refused, _)| *refused == row);
            (row, self.row(at), why.map(|(_, why)| why))
        })
    }

    #[expect(clippy::indexing_slicing, reason = "a place of so many")]
    fn row(&self, at: usize) -> ReadingRow {
        ReadingRow {
            low: self.low[at],
            high: self.high[at],
            u: self.u[at],
            at_reference: self.at_reference[at],
            judged: JudgedRow {
                verdict: self.verdict[at],
                provable: self.provable[at],
                probabilities: self.probabilities.map(|column| column[at]),
            },
        }
    }
}
