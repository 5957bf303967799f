//! Many readings judged in one call, each at the temperature of its metal, from columns of plain numbers.
#![expect(
    clippy::inline_always,
    reason = "what is called elsewhere knows nothing of the registers this processor has"
)]

use super::mixed_rows::MixedRows;
use super::reading_rows::ReadingRows;
use super::side_by_side::SideBySide;
use crate::quantity::Lash;
use crate::statistics::{LANES, Lanes, Worked};
#[cfg(doc)]
use crate::thermal::{Metal, Reference};
use crate::tolerance::{BandJudge, Column, DecisionRule, ToleranceError};

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

/// Judges every row as [`judge`](super::judge) does, to the bit: brought to the temperature at which the
/// limits hold, then compared with them under the rule. Rows are handed to `write` in order, a stretch at a time;
/// a row that cannot be judged as well, with the reason. No memory is allocated unless a row is refused.
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
/// judge_columns(&columns, &Lash::USUAL_RULE, |rows| {
///     for (row, found, why) in rows.each() {
///         (verdicts[row], lows[row]) = (found.judged.verdict, found.low);
///         refused.extend(why.map(|why| (row, why.code())));
///     }
/// })?;
/// assert_eq!((verdicts, refused), ([2, 1, 0, 1], vec![(2, "tolerance.crossed-estimate")]));
/// // 50 K opened the last gap by 0.05 mm.
/// assert!((lows[3] - 0.16).abs() < 1e-12);
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
pub fn judge_columns(
    columns: &ReadingColumns<'_>,
    rule: &DecisionRule,
    write: impl FnMut(&ReadingRows<'_>),
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
/// judge_columns(&columns, &Lash::USUAL_RULE, |rows| usual.extend(rows.each().map(|row| row.1)))?;
/// if std::arch::is_x86_feature_detected!("avx2") {
///     // SAFETY: the processor has it.
///     unsafe {
///         judge_columns_by_avx2(&columns, &Lash::USUAL_RULE, |rows| wide.extend(rows.each().map(|row| row.1)))?;
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
    write: impl FnMut(&ReadingRows<'_>),
) -> Result<(), ToleranceError> {
    columns.judge(rule, |found, rows| found.fill_by_avx2(rows), write)
}

/// [`judge_columns`] for a processor with AVX-512: the same steps on four times as many numbers at once, and so the
/// same bits. Used as [`judge_columns_by_avx2`].
///
/// # Safety
/// Where the compiler does not know that the processor has what is enabled here, the caller must.
///
/// # Errors
/// As [`judge_columns`].
#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx512f,avx512bw,avx512dq,avx512vl")]
pub fn judge_columns_by_avx512(
    columns: &ReadingColumns<'_>,
    rule: &DecisionRule,
    write: impl FnMut(&ReadingRows<'_>),
) -> Result<(), ToleranceError> {
    columns.judge(rule, |found, rows| found.fill_by_avx512(rows), write)
}

impl ReadingColumns<'_> {
    /// Rows are worked out side by side, and one that is not usual by itself, as a reading alone is.
    #[inline(always)]
    fn judge(
        &self,
        rule: &DecisionRule,
        work_out: impl Fn(&mut Worked, &Lanes<'_>),
        mut write: impl FnMut(&ReadingRows<'_>),
    ) -> Result<(), ToleranceError> {
        self.check()?;
        let mut band = BandJudge::of_rule(rule);
        let (mut side_by_side, mut found) = (SideBySide::of(self), Worked::EMPTY);
        let (mut verdict, mut provable) = ([0; LANES], [false; LANES]);
        for from in (0..self.rows).step_by(LANES) {
            side_by_side.work_out(self, from, &mut found, &work_out);
            let limits = side_by_side.limits();
            band.judge_each(&found, limits, &mut verdict, &mut provable);
            let count = (self.rows - from).min(LANES);
            let rows = ReadingRows::usual(from, count, &found, &verdict, &provable);
            if found.usual.iter().fold(true, |all, usual| all & usual) {
                write(&rows);
            } else {
                self.judge_rest(&rows, &found.usual, &mut band, &mut write);
            }
        }
        Ok(())
    }

    /// Puts rows that are not usual in their places, each judged by itself.
    #[cold]
    fn judge_rest(
        &self,
        rows: &ReadingRows<'_>,
        usual: &[bool; LANES],
        band: &mut BandJudge<'_, Lash>,
        write: &mut impl FnMut(&ReadingRows<'_>),
    ) {
        let mut mixed = MixedRows::of(rows);
        for (at, usual) in usual.iter().enumerate().take(rows.count) {
            if !usual {
                let row = rows.from + at;
                mixed.put(at, row, self.alone(row, band));
            }
        }
        write(&mixed.lent(rows.from, rows.count));
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
}
