//! Many estimates judged in one call, from columns of plain numbers into numbers.

use super::{BandJudge, DecisionRule, Estimate, HasLimits, Limits, ToleranceError, Verdict};

/// What is written for one row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JudgedRow {
    /// [`Verdict::number`], or [`Verdict::REFUSED`].
    pub verdict: u8,
    /// See [`Judgement`](super::Judgement); `false` for a refused row.
    pub provable: bool,
    /// [`Probabilities::ends`](super::Probabilities::ends); not a number for a refused row.
    pub probabilities: [f64; 6],
}

impl JudgedRow {
    /// Numbers of a row where all of them stand side by side: verdict, provable, probabilities.
    pub const NUMBERS: usize = 8;

    const REFUSED: Self = Self {
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
    pub fn numbers(&self) -> [f64; Self::NUMBERS] {
        let [a, b, c, d, e, f] = self.probabilities;
        let provable = f64::from(u8::from(self.provable));
        [f64::from(self.verdict), provable, a, b, c, d, e, f]
    }
}

/// Judges a row of each column after the other against one pair of limits under one rule.
///
/// `low` and `high` are the ends in the base unit of the quantity, infinite where there is no such
/// end; `uncertainty` is the standard uncertainty of the ends. Each row gets what [`judge`] gives for
/// [`Estimate::from_numbers`], to the bit, and is handed to `write` with its number; a row that cannot
/// be judged as well, with the reason. No memory is allocated unless a row is refused.
///
/// # Errors
/// [`ToleranceError::ColumnLengths`] for columns of unequal lengths; nothing is written then.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::{HasLimits, judge_columns};
/// let limits = "at least 0.15 mm".parse()?;
/// let (low, high) = ([0.10, 0.16, 0.3], [0.12, f64::INFINITY, 0.2]);
/// let (mut verdicts, mut refused) = ([9; 3], Vec::new());
/// judge_columns::<Lash>(&low, &high, &[0.001; 3], &limits, &Lash::USUAL_RULE, |row, found, why| {
///     verdicts[row] = found.verdict;
///     refused.extend(why.map(|why| (row, why.code())));
/// })?;
/// assert_eq!((verdicts, refused), ([2, 1, 0], vec![(2, "tolerance.crossed-estimate")]));
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
///
/// [`judge`]: super::judge
#[inline]
pub fn judge_columns<Q: HasLimits>(
    low: &[f64],
    high: &[f64],
    uncertainty: &[f64],
    limits: &Limits<Q>,
    rule: &DecisionRule,
    mut write: impl FnMut(usize, &JudgedRow, Option<ToleranceError>),
) -> Result<(), ToleranceError> {
    if low.len() != high.len() || low.len() != uncertainty.len() {
        return Err(ToleranceError::ColumnLengths {
            low: low.len(),
            high: high.len(),
            uncertainty: uncertainty.len(),
        });
    }
    let mut band = BandJudge::new(limits, rule);
    for (row, ((low, high), u)) in low.iter().zip(high).zip(uncertainty).enumerate() {
        match Estimate::from_numbers(*low, *high, *u) {
            Ok(estimate) => {
                let found = band.judge(&estimate);
                let judged = JudgedRow {
                    verdict: found.verdict.number(),
                    provable: found.provable,
                    probabilities: found.probabilities.ends(),
                };
                write(row, &judged, None);
            }
            Err(why) => write(row, &JudgedRow::REFUSED, Some(why)),
        }
    }
    Ok(())
}
