//! Columns of plain numbers, and what is written for a row of them.

use super::{Judgement, Verdict};

/// Numbers of many rows: one for each, or one for all.
///
/// ```
/// use lashwork::tolerance::Column;
/// let (each, all) = (Column::Each(&[0.1, 0.2]), Column::All(0.3));
/// assert_eq!((each.at(1), all.at(1)), (0.2, 0.3));
/// assert!(each.at(2).is_nan() && Column::NONE.at(0).is_nan());
/// assert!(each.is_for(2) && !each.is_for(3) && all.is_for(3));
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Column<'c> {
    /// A number for each row.
    Each(&'c [f64]),
    /// The same for all rows.
    All(f64),
}

impl<'c> Column<'c> {
    /// Not stated for any row.
    pub const NONE: Self = Self::All(f64::NAN);

    /// The number of a row; not a number beyond the last.
    #[must_use]
    #[inline]
    pub fn at(self, row: usize) -> f64 {
        match self {
            Self::Each(numbers) => numbers.get(row).copied().unwrap_or(f64::NAN),
            Self::All(number) => number,
        }
    }

    /// The number of all rows in each place; not a number if each has its own, which [`Self::lane`] finds.
    pub(crate) fn of_all<const N: usize>(self) -> [f64; N] {
        match self {
            Self::Each(_) => [f64::NAN; N],
            Self::All(number) => [number; N],
        }
    }

    /// The numbers from a row on, not a number beyond the last; `room` is that of the column alone, and begins
    /// as [`Self::of_all`].
    #[inline]
    pub(crate) fn lane<'l, const N: usize>(self, row: usize, room: &'l mut [f64; N]) -> &'l [f64; N]
    where
        'c: 'l,
    {
        if let Self::Each(numbers) = self {
            let rest = numbers.get(row..).unwrap_or_default();
            if let Some(whole) = rest.first_chunk() {
                return whole;
            }
            *room = [f64::NAN; N];
            for (to, number) in room.iter_mut().zip(rest) {
                *to = *number;
            }
        }
        room
    }

    /// Whether it has so many rows.
    #[must_use]
    pub const fn is_for(self, rows: usize) -> bool {
        match self {
            Self::Each(numbers) => numbers.len() == rows,
            Self::All(_) => true,
        }
    }

    /// How many rows it has; any number if it is the same for all.
    #[must_use]
    pub const fn rows(self) -> Option<usize> {
        match self {
            Self::Each(numbers) => Some(numbers.len()),
            Self::All(_) => None,
        }
    }
}

/// What is written for one row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JudgedRow {
    /// [`Verdict::number`], or [`Verdict::REFUSED`].
    pub verdict: u8,
    /// See [`Judgement`]; `false` for a refused row.
    pub provable: bool,
    /// [`Probabilities::ends`](super::Probabilities::ends); not a number for a refused row.
    pub probabilities: [f64; 6],
}

impl JudgedRow {
    /// Numbers of a row where all of them stand side by side: verdict, provable, probabilities.
    pub const NUMBERS: usize = 8;

    /// A row that was refused.
    pub const REFUSED: Self = Self {
        verdict: Verdict::REFUSED,
        provable: false,
        probabilities: [f64::NAN; 6],
    };

    /// All numbers of the row, provable as 1 or 0.
    ///
    /// ```
    /// use lashwork::tolerance::JudgedRow;
    /// let row = JudgedRow { verdict: 2, provable: true, probabilities: [1.0, 1.0, 0.0, 0.0, 0.0, 0.0] };
    /// assert_eq!(row.numbers(), [2.0, 1.0, 1.0, 1.0, 0.0, 0.0, 0.0, 0.0]);
    /// ```
    #[must_use]
    #[inline]
    pub fn numbers(&self) -> [f64; Self::NUMBERS] {
        let [a, b, c, d, e, f] = self.probabilities;
        let provable = f64::from(u8::from(self.provable));
        [f64::from(self.verdict), provable, a, b, c, d, e, f]
    }
}

impl From<&Judgement> for JudgedRow {
    #[inline]
    fn from(found: &Judgement) -> Self {
        Self {
            verdict: found.verdict.number(),
            provable: found.provable,
            probabilities: found.probabilities.ends(),
        }
    }
}
