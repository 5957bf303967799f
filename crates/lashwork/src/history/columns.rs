//! The drift of many subjects in one call, each by itself, from columns of plain numbers.

use super::{DriftAnswer, DriftChoice, HistoryError, PastReadings, drift};
use crate::tolerance::{DecisionRule, HasLimits, Limits};

/// When to look next, in one word.
///
/// ```
/// use lashwork::history::WhenToLook;
/// assert_eq!(WhenToLook::Now.number(), 1);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhenToLook {
    /// The rule does not accept it even now.
    Now,
    /// At the time that is given.
    At,
    /// Not before the time that is given, which is as far as is looked ahead.
    NotBefore,
    /// It was not read since it was last set, or from one side only.
    NotKnown,
    /// Fewer readings than a drift takes.
    TooFew,
}

impl WhenToLook {
    /// The number of a refused row in what a binding hands over.
    pub const REFUSED: u8 = 0;

    /// The number by which bindings hand it over.
    #[must_use]
    pub const fn number(self) -> u8 {
        match self {
            Self::Now => 1,
            Self::At => 2,
            Self::NotBefore => 3,
            Self::NotKnown => 4,
            Self::TooFew => 5,
        }
    }
}

/// What is written for one subject.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DriftRow {
    /// The rate for a unit of the count, as likely passed as not; not a number where there is none.
    pub rate: f64,
    /// Its standard uncertainty; likewise.
    pub u: f64,
    /// When to look; nothing for a refused row.
    pub look: Option<WhenToLook>,
    /// The time that goes with it, in the unit of the count; not a number where none does.
    pub at: f64,
}

impl DriftRow {
    const REFUSED: Self = Self {
        rate: f64::NAN,
        u: f64::NAN,
        look: None,
        at: f64::NAN,
    };

    /// [`WhenToLook::number`], or [`WhenToLook::REFUSED`].
    ///
    /// ```
    /// use lashwork::history::{DriftRow, WhenToLook};
    /// let row = DriftRow { rate: -4e-4, u: 1e-5, look: Some(WhenToLook::At), at: 230.0 };
    /// assert_eq!(row.look_number(), 2);
    /// ```
    #[must_use]
    pub fn look_number(&self) -> u8 {
        self.look.map_or(WhenToLook::REFUSED, WhenToLook::number)
    }
}

/// Works out the drift of each of so many subjects by its own readings alone, and when the chance of being out of one
/// band passes what one rule allows: what [`drift`] says of a record of that subject, to the bit. It is handed to
/// `write` with its number; a subject whose readings are refused as well, with the reason.
///
/// Rows of a subject stand together, in the order of time, and the subjects in the order of their numbers; one
/// without rows has too few. What `choice` says of the count is not asked: the readings say it.
///
/// # Errors
/// [`HistoryError::ColumnLengths`], [`HistoryError::NotTogether`], [`HistoryError::BeddingIn`]; nothing is written
/// then.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::history::{CountedBy, DriftChoice, PastReadings, WhenToLook, drift_columns};
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::HasLimits;
/// let mm = [0.300, 0.281, 0.262, 0.239, 0.300, 0.299, 0.300];
/// let readings = PastReadings {
///     by: CountedBy::Hours,
///     at: &[0.0, 50.0, 100.0, 150.0, 0.0, 50.0, 40.0],
///     low: &mm,
///     high: &mm,
///     u: &[0.0; 7],
///     subject: Some(&[0, 0, 0, 0, 1, 2, 2]),
///     state: None,
/// };
/// let (limits, choice) = ("at least 0.20 mm".parse()?, DriftChoice::default());
/// let mut said = Vec::new();
/// drift_columns::<Lash>(&readings, 3, &limits, &Lash::USUAL_RULE, &choice, |_, row, why| {
///     said.push((row.look, why.map(|why| why.code())));
///     if row.look == Some(WhenToLook::At) {
///         assert!((row.rate + 0.000404).abs() < 1e-6 && row.at > 210.0 && row.at < 240.0);
///     }
/// })?;
/// assert_eq!(said, [
///     (Some(WhenToLook::At), None),
///     (Some(WhenToLook::TooFew), None),
///     (None, Some("history.time-backwards")),
/// ]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn drift_columns<Q: HasLimits>(
    readings: &PastReadings<'_>,
    subjects: usize,
    limits: &Limits<Q>,
    rule: &DecisionRule,
    choice: &DriftChoice<Q>,
    mut write: impl FnMut(usize, &DriftRow, Option<HistoryError>),
) -> Result<(), HistoryError> {
    let rows = readings.rows()?;
    together(readings.subject, subjects)?;
    choice.checked()?;
    let choice = DriftChoice {
        counted_by: Some(readings.by),
        ..*choice
    };
    let mut from = 0;
    for number in 0..subjects {
        let is_own = |at: &usize| {
            let own = readings.subject.and_then(|all| all.get(*at));
            own.is_none_or(|own| usize::try_from(*own) == Ok(number))
        };
        let to = (from..rows).find(|at| !is_own(at)).unwrap_or(rows);
        match one(&readings.part(from, to), limits, rule, &choice) {
            Ok(found) => write(number, &found, None),
            Err(why) => write(number, &DriftRow::REFUSED, Some(why)),
        }
        from = to;
    }
    Ok(())
}

/// Whether rows stand together, and name subjects that are there.
fn together(subject: Option<&[u32]>, subjects: usize) -> Result<(), HistoryError> {
    let mut before = 0;
    for (row, own) in subject.unwrap_or_default().iter().enumerate() {
        if *own < before || usize::try_from(*own).map_or(true, |own| own >= subjects) {
            return Err(HistoryError::NotTogether {
                row,
                subject: *own,
                before,
                count: subjects,
            });
        }
        before = *own;
    }
    Ok(())
}

fn one<Q: HasLimits>(
    readings: &PastReadings<'_>,
    limits: &Limits<Q>,
    rule: &DecisionRule,
    choice: &DriftChoice<Q>,
) -> Result<DriftRow, HistoryError> {
    let record = readings.record::<Q>(1).map_err(|(_, why)| why)?;
    let found = match drift(&record, PastReadings::KIND, choice)? {
        DriftAnswer::Fitted(found) => found,
        DriftAnswer::TooFew(_) => {
            return Ok(DriftRow {
                look: Some(WhenToLook::TooFew),
                ..DriftRow::REFUSED
            });
        }
    };
    let (look, at) = match found.now(0, found.end)? {
        Err(_) => (WhenToLook::NotKnown, f64::NAN),
        Ok(ray) => match found.passed(&ray, limits, rule) {
            None => (WhenToLook::NotBefore, found.horizon()),
            Some(at) if at <= found.end => (WhenToLook::Now, at),
            Some(at) => (WhenToLook::At, at),
        },
    };
    let (rate, u) = found.middle_rate();
    Ok(DriftRow {
        rate,
        u,
        look: Some(look),
        at,
    })
}
