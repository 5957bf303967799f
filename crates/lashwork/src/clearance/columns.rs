//! Many readings judged in one call, each at the temperature of its metal, from columns of plain numbers.
#![expect(
    clippy::inline_always,
    reason = "what is called elsewhere knows nothing of the registers this processor has"
)]

use super::ClearanceError;
use super::side_by_side::SideBySide;
use crate::quantity::{Lash, LashChange, Nominal, Temperature, TemperatureDifference};
use crate::statistics::{LANES, Lanes, Worked};
use crate::thermal::{LashCoefficient, Metal, MetalTemperature, Reference};
use crate::tolerance::{
    BandJudge, Column, DecisionRule, Estimate, JudgedRow, ToleranceError, Uncertainty, Verdict,
};

/// Readings, one a row. Lengths are millimetres; a column of one number says the same of all rows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadingColumns<'c> {
    /// How many readings.
    pub rows: usize,
    /// Lower ends of the lash as read; minus infinity where there is none.
    pub low: Column<'c>,
    /// Upper ends; infinity where there is none.
    pub high: Column<'c>,
    /// Standard uncertainties of the ends.
    pub uncertainty: Column<'c>,
    /// Lower limits; not finite where there is none.
    pub lower: Column<'c>,
    /// Upper limits, likewise. A row needs one of the two.
    pub upper: Column<'c>,
    /// How warm the metal was; nothing if all readings were taken at the temperature at which the limits
    /// hold.
    pub metal: Option<MetalColumns<'c>>,
}

/// How warm the metal of each reading was, and how its lash follows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MetalColumns<'c> {
    /// Temperature of the metal in degrees Celsius; not a number where it was not taken: [`Metal::Unstated`].
    pub celsius: Column<'c>,
    /// Standard uncertainty of that in kelvin.
    pub uncertainty: Column<'c>,
    /// Temperature in degrees Celsius at which the limits hold. Of limits that are printed for a cold engine,
    /// with no temperature, give 20 and widen `uncertainty` by [`Reference::standard_uncertainty_k`].
    pub reference: Column<'c>,
    /// Change of lash in millimetres for a kelvin, positive if warmth opens the gap; not a number where it is
    /// not known: [`Metal::At`].
    pub mm_per_kelvin: Column<'c>,
    /// Standard uncertainty of that.
    pub mm_per_kelvin_uncertainty: Column<'c>,
}

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

/// Judges every row as [`judge`](super::judge) does, to the bit: brought to the temperature at which the
/// limits hold, then compared with them under the rule. Each row is handed to `write` with its number; a row
/// that cannot be judged as well, with the reason. No memory is allocated unless a row is refused.
///
/// Metal that is neither near the reference nor known to follow a coefficient decides nothing, as for a single
/// reading ([`Metal::not_at`]).
///
/// # Errors
/// [`ToleranceError::ColumnLengths`] for a column of other than [`ReadingColumns::rows`] rows; nothing is
/// written then.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::clearance::{MetalColumns, ReadingColumns, judge_columns};
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::{Column, HasLimits};
/// let columns = ReadingColumns {
///     rows: 4,
///     low: Column::Each(&[0.10, 0.16, 0.3, 0.21]),
///     high: Column::Each(&[0.12, f64::INFINITY, 0.2, 0.23]),
///     uncertainty: Column::All(0.001),
///     lower: Column::Each(&[0.15, 0.15, 0.15, 0.13]),
///     upper: Column::NONE,
///     metal: Some(MetalColumns {
///         celsius: Column::Each(&[20.0, 20.0, 20.0, 70.0]),
///         uncertainty: Column::All(2.0),
///         reference: Column::All(20.0),
///         mm_per_kelvin: Column::All(0.001),
///         mm_per_kelvin_uncertainty: Column::All(0.0002),
///     }),
/// };
/// let (mut verdicts, mut lows, mut refused) = ([9; 4], [0.0; 4], Vec::new());
/// judge_columns(&columns, &Lash::USUAL_RULE, |row, found, why| {
///     (verdicts[row], lows[row]) = (found.judged.verdict, found.low);
///     refused.extend(why.map(|why| (row, why.code())));
/// })?;
/// assert_eq!((verdicts, refused), ([2, 1, 0, 1], vec![(2, "tolerance.crossed-estimate")]));
/// // 50 K opened the last gap by 0.05 mm.
/// assert!((lows[3] - 0.16).abs() < 1e-12);
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
pub fn judge_columns(
    columns: &ReadingColumns<'_>,
    rule: &DecisionRule,
    write: impl FnMut(usize, &ReadingRow, Option<ClearanceError>),
) -> Result<(), ToleranceError> {
    columns.judge(rule, Worked::fill, write)
}

/// [`judge_columns`] for a processor with AVX2: the same steps on twice as many numbers at once, and so the
/// same bits.
///
/// # Safety
/// Where the compiler does not know that the processor has AVX2, the caller must.
///
/// # Errors
/// As [`judge_columns`].
///
/// ```
/// use lashwork::clearance::{ReadingColumns, judge_columns, judge_columns_by_avx2};
/// use lashwork::quantity::Lash;
/// use lashwork::tolerance::{Column, HasLimits};
/// let columns = ReadingColumns {
///     rows: 2,
///     low: Column::Each(&[0.10, 0.16]),
///     high: Column::Each(&[0.14, 0.19]),
///     uncertainty: Column::All(0.003),
///     lower: Column::All(0.15),
///     upper: Column::All(0.2),
///     metal: None,
/// };
/// let (mut usual, mut wide) = (Vec::new(), Vec::new());
/// judge_columns(&columns, &Lash::USUAL_RULE, |_, found, _| usual.push(*found))?;
/// if std::arch::is_x86_feature_detected!("avx2") {
///     // SAFETY: the processor has it.
///     unsafe {
///         judge_columns_by_avx2(&columns, &Lash::USUAL_RULE, |_, found, _| wide.push(*found))?;
///     }
///     assert_eq!(wide, usual);
/// }
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx2")]
pub fn judge_columns_by_avx2(
    columns: &ReadingColumns<'_>,
    rule: &DecisionRule,
    write: impl FnMut(usize, &ReadingRow, Option<ClearanceError>),
) -> Result<(), ToleranceError> {
    columns.judge(rule, |found, rows| found.fill_by_avx2(rows), write)
}

/// A reading brought to the temperature of its limits, with them.
struct Brought {
    estimate: Estimate<Lash>,
    at_reference: bool,
    lower: Option<f64>,
    upper: Option<f64>,
}

impl ReadingColumns<'_> {
    /// Rows are worked out side by side, and one that is not usual by itself, as a reading alone is.
    #[inline(always)]
    fn judge(
        &self,
        rule: &DecisionRule,
        work_out: impl Fn(&mut Worked, &Lanes),
        mut write: impl FnMut(usize, &ReadingRow, Option<ClearanceError>),
    ) -> Result<(), ToleranceError> {
        self.check()?;
        let mut band = BandJudge::of_rule(rule);
        let (mut side_by_side, mut found) = (SideBySide::new(self.metal.is_some()), Worked::EMPTY);
        for from in (0..self.rows).step_by(LANES) {
            side_by_side.take(self, from);
            work_out(&mut found, &side_by_side.lanes);
            for (row, at) in (from..self.rows).zip(0..LANES) {
                if let Some(judged) = side_by_side.judged(&found, at, &mut band) {
                    write(row, &judged, None);
                } else {
                    let (judged, why) = self.alone(row, &mut band);
                    write(row, &judged, why);
                }
            }
        }
        Ok(())
    }

    /// A row by itself.
    #[cold]
    fn alone(
        &self,
        row: usize,
        band: &mut BandJudge<'_, Lash>,
    ) -> (ReadingRow, Option<ClearanceError>) {
        match self.brought(row) {
            Ok(brought) => (brought.judged(band), None),
            Err(why) => (ReadingRow::REFUSED, Some(why)),
        }
    }

    /// Whether all columns have the rows that are stated.
    fn check(&self) -> Result<(), ToleranceError> {
        let rows = self.rows;
        let metal = self.metal.iter().flat_map(MetalColumns::named);
        let own = [
            ("low", self.low),
            ("high", self.high),
            ("uncertainty", self.uncertainty),
            ("lower", self.lower),
            ("upper", self.upper),
        ];
        let differs = |(column, numbers): (&'static str, Column<'_>)| {
            let got = numbers.rows().filter(|got| *got != rows)?;
            Some(ToleranceError::ColumnLengths { column, got, rows })
        };
        own.into_iter()
            .chain(metal)
            .find_map(differs)
            .map_or(Ok(()), Err)
    }

    fn brought(&self, row: usize) -> Result<Brought, ClearanceError> {
        let (low, high, u) = (
            self.low.at(row),
            self.high.at(row),
            self.uncertainty.at(row),
        );
        let read = Estimate::from_numbers(low, high, u)?;
        let [lower, upper] = [self.lower, self.upper].map(|limit| limit.at(row));
        let limits = limits(lower, upper)?;
        let (estimate, at_reference) = match &self.metal {
            None => (read, true),
            Some(metal) => {
                let (change, extra, at_reference) = metal.warmth(row)?;
                (read.shifted(-change, extra), at_reference)
            }
        };
        Ok(Brought {
            estimate,
            at_reference,
            lower: limits.0,
            upper: limits.1,
        })
    }
}

/// The limits of a row, at least one of them.
fn limits(lower: f64, upper: f64) -> Result<(Option<f64>, Option<f64>), ToleranceError> {
    let limit = |mm: f64| -> Result<Option<f64>, ToleranceError> {
        if mm.is_finite() {
            return Ok(Some(Nominal::checked_mm(mm)?));
        }
        Ok(None)
    };
    match (limit(lower)?, limit(upper)?) {
        (None, None) => Err(ToleranceError::NoLimit),
        (Some(low), Some(high)) if low > high => Err(ToleranceError::CrossedLimits {
            low: alloc::format!("{low} mm"),
            high: alloc::format!("{high} mm"),
        }),
        both => Ok(both),
    }
}

impl<'c> MetalColumns<'c> {
    fn named(&self) -> [(&'static str, Column<'c>); 5] {
        [
            ("temperature", self.celsius),
            ("uncertainty of the temperature", self.uncertainty),
            ("reference", self.reference),
            ("lash coefficient", self.mm_per_kelvin),
            (
                "uncertainty of the lash coefficient",
                self.mm_per_kelvin_uncertainty,
            ),
        ]
    }

    /// What the metal's temperature added to the lash, the standard uncertainty of that, and whether the lash
    /// without it is that at the reference.
    fn warmth(&self, row: usize) -> Result<(LashChange, Uncertainty<Lash>, bool), ClearanceError> {
        let reference = Temperature::from_celsius(self.reference.at(row))?;
        let (celsius, coefficient) = (self.celsius.at(row), self.mm_per_kelvin.at(row));
        if celsius.is_nan() {
            return not_followed(&Metal::Unstated, reference);
        }
        let at = Temperature::from_celsius(celsius)?;
        let u_at = TemperatureDifference::from_kelvin(self.uncertainty.at(row))?;
        if coefficient.is_nan() {
            return not_followed(&Metal::At(MetalTemperature::known(at, u_at)), reference);
        }
        let u = self.mm_per_kelvin_uncertainty.at(row);
        let (change, u) = LashCoefficient::new(coefficient, u, None)?.shift(at, u_at, reference)?;
        Ok((change, u, true))
    }
}

/// Metal of which nothing says how the lash follows its temperature.
fn not_followed(
    metal: &Metal,
    reference: Temperature,
) -> Result<(LashChange, Uncertainty<Lash>, bool), ClearanceError> {
    let off = metal.not_at(Reference::At(reference))?;
    let u = Uncertainty::from_mm(off.map_or(0.0, |off| off.uncertainty_mm))?;
    Ok((LashChange::ZERO, u, off.is_none()))
}

impl Brought {
    fn judged(&self, band: &mut BandJudge<'_, Lash>) -> ReadingRow {
        band.turn_to(self.lower, self.upper);
        let mut found = band.judge(&self.estimate);
        if !self.at_reference {
            found.verdict = Verdict::CannotSay;
        }
        ReadingRow {
            low: self.estimate.low().map_or(f64::NEG_INFINITY, Lash::mm),
            high: self.estimate.high().map_or(f64::INFINITY, Lash::mm),
            u: self.estimate.normal_uncertainty().mm(),
            at_reference: self.at_reference,
            judged: JudgedRow::from(&found),
        }
    }
}
