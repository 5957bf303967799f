//! Lambda of many readings in one call, from columns of plain numbers.

use super::answer::lambda_numbers;
use super::contradiction::what_does_not_fit;
use super::{
    AnalyserClass, ExhaustGas, Fuel, GasContradiction, GasError, HydrocarbonFactor, Hydrocarbons,
};
use crate::quantity::{Lambda, VolumeShare};
use crate::tolerance::known::normal;

/// What is written for one reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LambdaRow {
    /// Lambda; not a number for a refused row.
    pub lambda: f64,
    /// Its standard uncertainty.
    pub u: f64,
    /// The first thing that does not fit, if any.
    pub contradiction: Option<GasContradiction>,
}

/// Readings of one tester on one fuel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GasColumns<'c> {
    /// Carbon dioxide in per cent.
    pub co2: &'c [f64],
    /// Carbon monoxide in per cent.
    pub co: &'c [f64],
    /// Oxygen in per cent.
    pub o2: &'c [f64],
    /// Hydrocarbons in ppm, as shown.
    pub hc_ppm: &'c [f64],
    /// What was counted as one of them.
    pub factor: HydrocarbonFactor,
    /// Class of the tester.
    pub class: AnalyserClass,
    /// The fuel.
    pub fuel: Fuel,
}

/// Reckons every row as [`lambda`](super::lambda) does, to the bit, and hands it to `write` with its number; a
/// row that is refused as well, with the reason. No memory is allocated unless a row is refused.
///
/// # Errors
/// [`GasError::ColumnLengths`] for columns of unequal lengths; nothing is written then.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::mixture::gas::{AnalyserClass, Fuel, GasColumns, HydrocarbonFactor, lambda_columns};
/// let columns = GasColumns {
///     co2: &[14.7, 12.7, 0.0],
///     co: &[0.5, 3.3, 0.0],
///     o2: &[0.5, 2.6, 20.9],
///     hc_ppm: &[100.0, 250.0, 0.0],
///     factor: HydrocarbonFactor::Hexane,
///     class: AnalyserClass::Class0,
///     fuel: Fuel::PETROL,
/// };
/// let mut said = Vec::new();
/// lambda_columns(&columns, |_, row, why| {
///     said.push(match (row.contradiction, why) {
///         (_, Some(why)) => why.code(),
///         (Some(doubt), None) => doubt.code(),
///         (None, None) => "",
///     });
/// })?;
/// assert_eq!(said, ["", "mixture.oxygen-with-co", "mixture.no-carbon-dioxide"]);
/// # Ok::<(), lashwork::mixture::gas::GasError>(())
/// ```
pub fn lambda_columns(
    columns: &GasColumns<'_>,
    mut write: impl FnMut(usize, &LambdaRow, Option<GasError>),
) -> Result<(), GasError> {
    let first = columns.co2.len();
    for other in [columns.co.len(), columns.o2.len(), columns.hc_ppm.len()] {
        if other != first {
            return Err(GasError::ColumnLengths { first, other });
        }
    }
    let pairs = columns.co2.iter().zip(columns.co);
    let rows = pairs.zip(columns.o2.iter().zip(columns.hc_ppm));
    for (row, ((co2, co), (o2, ppm))) in rows.enumerate() {
        let one = || -> Result<LambdaRow, GasError> {
            let share = VolumeShare::from_percent;
            let hc = Hydrocarbons {
                read: share(1e-4 * ppm)?,
                factor: columns.factor,
            };
            let gas = ExhaustGas::new(share(*co2)?, share(*co)?, share(*o2)?, Some(hc))?;
            let u = columns.class.uncertainty(&gas)?;
            let (lambda, blur) = lambda_numbers(&gas, &u, &columns.fuel);
            normal::<Lambda>(lambda, blur)?;
            let doubts = what_does_not_fit(&gas, &u, &columns.fuel, lambda);
            Ok(LambdaRow {
                lambda,
                u: blur,
                contradiction: doubts.into_iter().flatten().next(),
            })
        };
        match one() {
            Ok(found) => write(row, &found, None),
            Err(why) => write(row, &REFUSED, Some(why)),
        }
    }
    Ok(())
}

const REFUSED: LambdaRow = LambdaRow {
    lambda: f64::NAN,
    u: f64::NAN,
    contradiction: None,
};
