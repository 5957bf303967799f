//! Areas of many leaks in one call, from columns of plain numbers.

use super::{LeakError, Tester};
use crate::quantity::{AbsolutePressure, Area, GaugePressure};
use crate::tolerance::Uncertainty;
use crate::tolerance::known::{known, normal};

/// What is written for one reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeakRow {
    /// The area in square millimetres; not a number for a refused row.
    pub area: f64,
    /// Its standard uncertainty; likewise.
    pub u: f64,
    /// The diameter in millimetres of one round hole as large; likewise.
    pub hole: f64,
}

/// Readings with one tester, each in the air of its day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeakColumns<'c> {
    /// The tester.
    pub tester: Tester,
    /// What stood in the cylinder, in kilopascals over the air around.
    pub shown: &'c [f64],
    /// The pressure of the air around, in kilopascals.
    pub air: &'c [f64],
    /// Standard uncertainty of what is shown.
    pub shown_u: Uncertainty<GaugePressure>,
    /// Standard uncertainty of the pressures of the air.
    pub air_u: Uncertainty<AbsolutePressure>,
}

/// Reckons every row as [`Tester::leak`] does, to the bit, and hands it to `write` with its number; a row that is
/// refused as well, with the reason. No memory is allocated unless a row is refused.
///
/// # Errors
/// [`LeakError::ColumnLengths`] for columns of unequal lengths; nothing is written then.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::condition::leak::{LeakColumns, Tester, leak_columns};
/// use lashwork::quantity::{GaugePressure, Length};
/// use lashwork::tolerance::{Estimate, Uncertainty};
/// let supply = GaugePressure::from_kilopascals(551.58)?;
/// let supply = Estimate::between(supply, supply, Uncertainty::from_number(3.0)?)?;
/// let tester = Tester::of_diameter(supply, Length::from_mm(1.016)?, Length::from_mm(0.01)?)?;
/// let columns = LeakColumns {
///     tester,
///     shown: &[413.69, 600.0],
///     air: &[101.325, 101.325],
///     shown_u: Uncertainty::from_number(4.0)?,
///     air_u: Uncertainty::from_number(0.5)?,
/// };
/// let (mut found, mut refused) = (Vec::new(), Vec::new());
/// leak_columns(&columns, |_, row, why| {
///     found.push(row.area);
///     refused.extend(why.map(|why| why.code()));
/// })?;
/// assert!((found[0] - 0.858_19).abs() < 1e-5 && found[1].is_nan());
/// assert_eq!(refused, ["condition.leak-over-supply"]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn leak_columns(
    columns: &LeakColumns<'_>,
    mut write: impl FnMut(usize, &LeakRow, Option<LeakError>),
) -> Result<(), LeakError> {
    let (first, other) = (columns.shown.len(), columns.air.len());
    if first != other {
        return Err(LeakError::ColumnLengths { first, other });
    }
    let (shown_u, air_u) = (columns.shown_u.number(), columns.air_u.number());
    for (row, (shown, air)) in columns.shown.iter().zip(columns.air).enumerate() {
        let one = || -> Result<LeakRow, LeakError> {
            let shown = normal::<GaugePressure>(*shown, shown_u)?;
            let air = normal::<AbsolutePressure>(*air, air_u)?;
            let leak = columns.tester.leak(&shown, &air)?;
            let what = "the leak";
            let (area, u) = known::<Area>(&leak.area).ok_or(LeakError::OneSided { what })?;
            let hole = leak.hole.mm();
            Ok(LeakRow { area, u, hole })
        };
        match one() {
            Ok(found) => write(row, &found, None),
            Err(why) => write(row, &REFUSED, Some(why)),
        }
    }
    Ok(())
}

const REFUSED: LeakRow = LeakRow {
    area: f64::NAN,
    u: f64::NAN,
    hole: f64::NAN,
};
