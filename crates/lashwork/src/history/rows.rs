//! A record out of columns of plain numbers, a reading a row.

use super::{CountedBy, Day, HistoryError, Record, Reset, Service, Subject, Used, Visit};
use crate::tolerance::{Estimate, Measurand};
use alloc::string::ToString;
use alloc::vec::Vec;

/// What the engine of such a record is called.
const ENGINE: &str = "engine of the columns";

/// What a row is.
///
/// ```
/// use lashwork::history::{PastState, Reset};
/// assert_ne!(PastState::Found, PastState::Left(Reset::Set));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PastState {
    /// Before anything was done.
    Found,
    /// After that was done.
    Left(Reset),
}

/// Readings of one quantity, one a row, in the order of time; rows of one time are one service.
///
/// # Units
/// Times in the unit of the count, days since 1 January 1970; values in [`Measurand::UNIT`].
///
/// ```
/// use lashwork::history::{CountedBy, PastReadings};
/// use lashwork::quantity::Lash;
/// let readings = PastReadings {
///     by: CountedBy::Hours,
///     at: &[0.0, 50.0, 50.0],
///     low: &[0.300, 0.281, 0.310],
///     high: &[0.300, 0.281, 0.310],
///     u: &[0.0; 3],
///     subject: Some(&[0, 0, 1]),
///     state: None,
/// };
/// let record = readings.record::<Lash>(2).map_err(|(_, why)| why)?;
/// assert_eq!((record.services().len(), record.subjects().len()), (2, 2));
/// // The second row is refused: it lies before the first.
/// let backwards = PastReadings { at: &[50.0, 0.0, 50.0], ..readings };
/// assert_eq!(backwards.record::<Lash>(2).unwrap_err().0, 1);
/// # Ok::<(), lashwork::history::HistoryError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PastReadings<'c> {
    /// What the times count.
    pub by: CountedBy,
    /// When.
    pub at: &'c [f64],
    /// Lower ends; minus infinity where there is none.
    pub low: &'c [f64],
    /// Upper ends; infinity where there is none. With neither end it was set, but not read.
    pub high: &'c [f64],
    /// Standard uncertainties of the ends.
    pub u: &'c [f64],
    /// Which subject, from 0; all the same if not stated.
    pub subject: Option<&'c [u32]>,
    /// What each row is; all found if not stated.
    pub state: Option<&'c [PastState]>,
}

/// One row of them.
struct Row {
    at: f64,
    low: f64,
    high: f64,
    u: f64,
    subject: usize,
    state: PastState,
}

impl PastReadings<'_> {
    /// What the subjects of a record made of rows are all called: its one kind.
    pub const KIND: &'static str = "one kind";
    /// Most subjects of a record made of rows; without a bound a short request could ask for all memory.
    pub const MAX_SUBJECTS: usize = 1_024;

    /// How many rows there are.
    ///
    /// # Errors
    /// [`HistoryError::ColumnLengths`].
    pub(super) fn rows(&self) -> Result<usize, HistoryError> {
        let first = self.at.len();
        let subject = self.subject.map_or(first, <[u32]>::len);
        let state = self.state.map_or(first, <[PastState]>::len);
        let others = [
            self.low.len(),
            self.high.len(),
            self.u.len(),
            subject,
            state,
        ];
        match others.into_iter().find(|other| *other != first) {
            Some(other) => Err(HistoryError::ColumnLengths { first, other }),
            None => Ok(first),
        }
    }

    /// Some of the rows, as those of one subject.
    pub(super) fn part(&self, from: usize, to: usize) -> Self {
        fn cut<T>(column: &[T], from: usize, to: usize) -> &[T] {
            column.get(from..to).unwrap_or_default()
        }
        Self {
            by: self.by,
            at: cut(self.at, from, to),
            low: cut(self.low, from, to),
            high: cut(self.high, from, to),
            u: cut(self.u, from, to),
            subject: None,
            state: self.state.map(|state| cut(state, from, to)),
        }
    }

    fn row(&self, row: usize) -> Option<Row> {
        let number = |column: &[f64]| column.get(row).copied();
        Some(Row {
            at: number(self.at)?,
            low: number(self.low)?,
            high: number(self.high)?,
            u: number(self.u)?,
            subject: match self.subject {
                Some(subject) => usize::try_from(*subject.get(row)?).unwrap_or(usize::MAX),
                None => 0,
            },
            state: match self.state {
                Some(state) => *state.get(row)?,
                None => PastState::Found,
            },
        })
    }

    /// The record that they make, of so many subjects of one kind, named by their numbers from 1.
    ///
    /// # Errors
    /// The row that is refused, with [`HistoryError::TooManySubjects`], [`HistoryError::ColumnLengths`], [`HistoryError::Count`],
    /// [`HistoryError::Day`], [`HistoryError::Tolerance`], or what [`Record::push`] refuses; of a service that is
    /// refused its first row.
    pub fn record<Q: Measurand>(
        &self,
        subjects: usize,
    ) -> Result<Record<Q>, (usize, HistoryError)> {
        let (rows, max) = (self.rows().map_err(|why| (0, why))?, Self::MAX_SUBJECTS);
        if subjects > max {
            let got = subjects;
            return Err((0, HistoryError::TooManySubjects { got, max }));
        }
        let names = (1..=subjects).map(|number| Subject::new(&number.to_string(), Self::KIND));
        let mut record = Record::new(ENGINE, names.collect()).map_err(|why| (0, why))?;
        let mut open: Option<(usize, Service<Q>)> = None;
        for (at, row) in (0..rows).filter_map(|at| Some((at, self.row(at)?))) {
            let refused = |why| (at, why);
            let used = Used::counted(self.by, row.at).map_err(refused)?;
            let (first, mut service) = match open.take() {
                Some((first, service)) if service.used == used => (first, service),
                before => {
                    if let Some((first, service)) = before {
                        record.push(service).map_err(|why| (first, why))?;
                    }
                    let engine = ENGINE.into();
                    let visits = Vec::new();
                    (
                        at,
                        Service {
                            engine,
                            used,
                            visits,
                        },
                    )
                }
            };
            row.visit(&mut service).map_err(refused)?;
            open = Some((first, service));
        }
        if let Some((first, service)) = open {
            record.push(service).map_err(|why| (first, why))?;
        }
        Ok(record)
    }
}

impl Row {
    /// Adds what was found, or what was left after it, to the service.
    fn visit<Q: Measurand>(&self, service: &mut Service<Q>) -> Result<(), HistoryError> {
        let is_read = self.low > f64::NEG_INFINITY || self.high < f64::INFINITY;
        let is_slip = self.low.is_nan() || self.high.is_nan();
        let estimate = || Estimate::from_numbers(self.low, self.high, self.u);
        let PastState::Left(reset) = self.state else {
            let visit = Visit::found(estimate()?);
            service.visits.push((self.subject, visit));
            return Ok(());
        };
        let left = (is_read || is_slip).then(estimate).transpose()?;
        let last = service.visits.last_mut();
        if let Some((_, visit)) =
            last.filter(|(own, visit)| *own == self.subject && visit.reset.is_none())
        {
            (visit.reset, visit.left) = (Some(reset), left);
        } else {
            let mut visit = Visit::unread().reset(reset);
            visit.left = left;
            service.visits.push((self.subject, visit));
        }
        Ok(())
    }
}

impl Used {
    /// So far on one count alone; days are whole, since 1 January 1970.
    ///
    /// # Errors
    /// [`HistoryError::Count`], [`HistoryError::Day`].
    ///
    /// ```
    /// use lashwork::history::{CountedBy, Used};
    /// assert_eq!(Used::counted(CountedBy::Days, 18_321.0)?.count(CountedBy::Days), Some(18_321.0));
    /// assert!(Used::counted(CountedBy::Days, 18_321.5).is_err());
    /// # Ok::<(), lashwork::history::HistoryError>(())
    /// ```
    pub fn counted(by: CountedBy, count: f64) -> Result<Self, HistoryError> {
        match by {
            CountedBy::Hours => Self::default().hours(count),
            CountedBy::Distance => Self::default().kilometres(count),
            CountedBy::Days => {
                let day = Day::numbered(count)?;
                if count > libm::floor(count) {
                    let text = alloc::format!("{count} days");
                    return Err(HistoryError::Day { text });
                }
                Ok(Self::on(day))
            }
        }
    }
}
