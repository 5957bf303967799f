//! What comes of rows of columns: of one, and of those that are worked out side by side.

use super::ClearanceError;
use crate::statistics::LANES;
use crate::tolerance::JudgedRow;
use alloc::vec::Vec;

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
#[derive(Clone, Debug)]
pub struct ReadingRows {
    /// The number of the first row.
    pub from: usize,
    /// How many rows: as many as the columns have room for, except at the end.
    pub count: usize,
    /// [`JudgedRow::verdict`] of each.
    pub verdict: [u8; Self::ROOM],
    /// [`JudgedRow::provable`].
    pub provable: [bool; Self::ROOM],
    /// [`JudgedRow::probabilities`], a column each.
    pub probabilities: [[f64; Self::ROOM]; 6],
    /// [`ReadingRow::low`].
    pub low: [f64; Self::ROOM],
    /// [`ReadingRow::high`].
    pub high: [f64; Self::ROOM],
    /// [`ReadingRow::u`].
    pub u: [f64; Self::ROOM],
    /// [`ReadingRow::at_reference`].
    pub at_reference: [bool; Self::ROOM],
    /// The numbers of rows that are refused, in order, with the reason.
    pub refused: Vec<(usize, ClearanceError)>,
}

impl ReadingRows {
    /// Most rows of a stretch.
    pub const ROOM: usize = LANES;

    pub(super) const EMPTY: Self = Self {
        from: 0,
        count: 0,
        verdict: [0; LANES],
        provable: [false; LANES],
        probabilities: [[0.0; LANES]; 6],
        low: [0.0; LANES],
        high: [0.0; LANES],
        u: [0.0; LANES],
        at_reference: [false; LANES],
        refused: Vec::new(),
    };

    /// Writes one row.
    #[expect(clippy::indexing_slicing, reason = "a place of so many")]
    pub(super) fn put(&mut self, at: usize, row: &ReadingRow) {
        self.verdict[at] = row.judged.verdict;
        self.provable[at] = row.judged.provable;
        for (column, chance) in self.probabilities.iter_mut().zip(row.judged.probabilities) {
            column[at] = chance;
        }
        (self.low[at], self.high[at], self.u[at]) = (row.low, row.high, row.u);
        self.at_reference[at] = row.at_reference;
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
                probabilities: self.probabilities.each_ref().map(|column| column[at]),
            },
        }
    }
}
