//! Cranking compression of all cylinders of an engine: which are low, by a printed rule and by their mates, and why.

use crate::boundary::{Outcome, boundary};
use crate::columns::{Column, enough};
use crate::compression::lw_cranking;
use crate::compression_readings::{lw_compression_readings, lw_compression_rule};
use crate::error::lw_error;
use crate::pointers::{Record, optional_room, record, record_place, room, seen, spare};
use crate::status::lw_status;
use lashwork::condition::compression::{
    CompressionAnswer, CompressionCause, CompressionLook, CylinderAnswer,
};
use lashwork::quantity::GaugePressure;

/// What to do next about low compression.
#[repr(u32)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum lw_compression_next {
    /// Crank again, as it should be.
    CrankAgain = 1,
    /// Valve clearances: a tight valve alone lowers a cylinder.
    Clearances = 2,
    /// The low cylinders again with oil.
    Oil = 3,
    /// Leak-down of the low cylinders.
    LeakDown = 4,
    /// Valve timing, since all cylinders are low alike.
    ValveTiming = 5,
}

/// What the readings say of the engine.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_compression_verdict {
    /// Size of this structure, `sizeof(lw_compression_verdict)`.
    pub struct_size: usize,
    /// The least that a cylinder may show here by the rule, in kilopascals; NaN without a rule.
    pub limit_kpa: f64,
    /// The probability that no cylinder is under it; NaN without a rule.
    pub within: f64,
    /// What the good cylinders show, in kilopascals; NaN if none is.
    pub standard_kpa: f64,
    /// Its standard uncertainty; NaN likewise.
    pub standard_uncertainty_kpa: f64,
    /// The exponent of compression that they imply; NaN without an engine.
    pub exponent: f64,
    /// Its standard uncertainty; NaN without an engine.
    pub exponent_uncertainty: f64,
    /// The verdict on the engine by the rule: a value of `lw_verdict`; 0 without a rule.
    pub verdict: u32,
    /// What to do next: a value of `lw_compression_next`; 0 if every cylinder is sound.
    pub next: u32,
}

/// Where the cylinders go, one per row. Every column except `share` may be NULL.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct lw_cylinder_columns {
    /// Size of this structure, `sizeof(lw_cylinder_columns)`.
    pub struct_size: usize,
    /// How many rows there is room for, in every column.
    pub rows: usize,
    /// What it shows over what it should show by the good cylinders beside it; NaN if there is none. So is all that
    /// follows from it.
    pub share: *mut f64,
    /// Its standard uncertainty.
    pub share_uncertainty: *mut f64,
    /// What it should show, in kilopascals.
    pub expected_kpa: *mut f64,
    /// Its standard uncertainty in kilopascals.
    pub expected_uncertainty_kpa: *mut f64,
    /// The probability that it is within the rule; NaN without a rule.
    pub within: *mut f64,
    /// The verdict by the rule: values of `lw_verdict`; 0 without a rule.
    pub verdict: *mut u8,
    /// How probable it is that nothing is wrong with it. The shares of causes are not calibrated.
    pub sound: *mut f64,
    /// Rings, piston or bore.
    pub rings: *mut f64,
    /// A valve that does not close.
    pub valve: *mut f64,
    /// The head gasket to a neighbour.
    pub gasket: *mut f64,
    /// Something that is not weighed here.
    pub something_else: *mut f64,
}

// SAFETY: repr(C), the size in front, integers and floats only.
unsafe impl Record for lw_compression_verdict {
    const FIRST_SIZE: usize = size_of::<Self>();
}
// SAFETY: repr(C), the size in front, integers and raw pointers only.
unsafe impl Record for lw_cylinder_columns {
    const FIRST_SIZE: usize = size_of::<Self>();
}

const fn next(look: CompressionLook) -> lw_compression_next {
    match look {
        CompressionLook::CrankAgain => lw_compression_next::CrankAgain,
        CompressionLook::Clearances => lw_compression_next::Clearances,
        CompressionLook::Oil => lw_compression_next::Oil,
        CompressionLook::LeakDown => lw_compression_next::LeakDown,
        CompressionLook::ValveTiming => lw_compression_next::ValveTiming,
    }
}

impl From<&CompressionAnswer> for lw_compression_verdict {
    fn from(found: &CompressionAnswer) -> Self {
        let rule = found.rules.first();
        let standard = found.standard.as_ref().map(|standard| standard.shown);
        let middle = standard.and_then(|shown| shown.centre());
        let level = found.level;
        Self {
            struct_size: 0,
            limit_kpa: rule.map_or(f64::NAN, |it| it.limit.kilopascals()),
            within: rule.map_or(f64::NAN, |it| it.engine.probabilities.in_band.least),
            standard_kpa: middle.map_or(f64::NAN, GaugePressure::kilopascals),
            standard_uncertainty_kpa: standard
                .map_or(f64::NAN, |shown| shown.normal_uncertainty().number()),
            exponent: level.map_or(f64::NAN, |it| it.exponent),
            exponent_uncertainty: level.map_or(f64::NAN, |it| it.exponent_u),
            verdict: rule.map_or(0, |it| it.engine.verdict.number().into()),
            next: found.next.map_or(0, |look| next(look) as u32),
        }
    }
}

/// The columns to write, checked.
struct Output<'a> {
    numbers: [Column<'a, f64>; 10],
    verdict: Column<'a, u8>,
}

impl lw_cylinder_columns {
    /// # Safety
    /// The columns are as the structure describes them.
    unsafe fn checked<'a>(&self, rows: usize) -> Outcome<Output<'a>> {
        enough("cylinders.rows", self.rows, rows)?;
        // SAFETY: passed on under the same contract.
        unsafe {
            let number = |name, data| optional_room(name, data, rows).map(Column);
            Ok(Output {
                numbers: [
                    Column(Some(room("cylinders.share", self.share, rows)?)),
                    number("cylinders.share_uncertainty", self.share_uncertainty)?,
                    number("cylinders.expected_kpa", self.expected_kpa)?,
                    number(
                        "cylinders.expected_uncertainty_kpa",
                        self.expected_uncertainty_kpa,
                    )?,
                    number("cylinders.within", self.within)?,
                    number("cylinders.sound", self.sound)?,
                    number("cylinders.rings", self.rings)?,
                    number("cylinders.valve", self.valve)?,
                    number("cylinders.gasket", self.gasket)?,
                    number("cylinders.something_else", self.something_else)?,
                ],
                verdict: Column(optional_room("cylinders.verdict", self.verdict, rows)?),
            })
        }
    }
}

impl Output<'_> {
    fn write(&mut self, found: &CompressionAnswer) {
        let judged = found.rules.first().map(|rule| &rule.cylinders);
        for (row, one) in found.cylinders.iter().enumerate() {
            let by_rule = judged.and_then(|all| all.get(row));
            let within = by_rule.map_or(f64::NAN, |it| it.probabilities.in_band.least);
            for (column, number) in self.numbers.iter_mut().zip(numbers(one, within)) {
                column.set(row, number);
            }
            let verdict = by_rule.map_or(0, |it| it.verdict.number());
            self.verdict.set(row, verdict);
        }
    }
}

/// The numbers of a cylinder in the order of the columns.
fn numbers(one: &CylinderAnswer, within: f64) -> [f64; 10] {
    let expected = one.expected;
    let middle = expected.and_then(|it| it.centre());
    let of = |cause: CompressionCause| {
        let weighed = one.causes.iter().find(|weighed| weighed.cause == cause);
        weighed.map_or(f64::NAN, |weighed| weighed.probability)
    };
    let [sound, rings, valve, gasket, other] = CompressionCause::ALL.map(of);
    [
        one.share.unwrap_or(f64::NAN),
        one.share_u.unwrap_or(f64::NAN),
        middle.map_or(f64::NAN, GaugePressure::kilopascals),
        expected.map_or(f64::NAN, |it| it.normal_uncertainty().number()),
        within,
        sound,
        rings,
        valve,
        gasket,
        other,
    ]
}

/// Judges the cranking compression of all cylinders of an engine: by a printed rule, against the good ones beside each,
/// and what may be the matter.
///
/// `engine` may be NULL, and so may `rule`. Keep the ignition from firing and clear of plug holes and of what turns. A
/// row that is no reading refuses the call, and the error names it (`lw_error_row`). Taken for granted: a warm
/// engine, all plugs out, throttle open, a good battery; that good cylinders differ by 3 %; and how often each cause
/// is met, so that their shares are not calibrated. `error` may be NULL. Any thread.
///
/// # Safety
/// The structures state their size, or are NULL, and so does the crank of the engine; their columns have the rows they
/// say; `error` is NULL or writable.
#[must_use]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn lw_judge_compression(
    readings: *const lw_compression_readings,
    engine: *const lw_cranking,
    rule: *const lw_compression_rule,
    verdict: *mut lw_compression_verdict,
    cylinders: *const lw_cylinder_columns,
    error: *mut *mut lw_error,
) -> lw_status {
    let work = || {
        // SAFETY: null is refused here where it is not allowed; the rest is the caller's part of the contract.
        let (mut test, verdict, mut output) = unsafe {
            let given = record("readings", readings)?;
            let mut test = given.typed()?;
            if !engine.is_null() {
                test.engine = Some(seen("engine", engine, &mut spare())?.typed()?);
            }
            (
                test,
                record_place("verdict", verdict)?,
                record("cylinders", cylinders)?.checked(given.rows)?,
            )
        };
        if !rule.is_null() {
            // SAFETY: as above.
            let rule = unsafe { seen("rule", rule, &mut spare())?.typed()? };
            test.rules.push(rule);
        }
        let found = test.weighed()?;
        output.write(&found);
        verdict.write(&(&found).into());
        Ok(())
    };
    // SAFETY: the contract of `error` is passed on.
    unsafe { boundary(error, work) }
}
