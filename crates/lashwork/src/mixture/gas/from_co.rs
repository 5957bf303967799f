//! Lambda from carbon monoxide alone.

use super::atoms::Atoms;
use super::{Fuel, GasAssumption, GasError};
use crate::quantity::{Lambda, VolumeShare};
use crate::tolerance::{Estimate, Uncertainty};
use alloc::vec;
use alloc::vec::Vec;
use serde::Serialize;

/// Oxygen that a good burn leaves at most, in per cent; and hydrocarbons, as hexane. Common practice, no
/// source.
pub(super) const LEFT_OXYGEN: f64 = 1.0;
const LEFT_HEXANE: f64 = 0.02;
/// Up to so much carbon monoxide, in per cent, it says only that the mixture is not rich. Common practice,
/// no source.
const SAYS_LITTLE: f64 = 0.5;
/// Most that is accepted, in per cent: lambda is then under 0.6.
const MOST: f64 = 16.0;
/// Halvings of the interval in which carbon dioxide lies: to the last bit.
const HALVINGS: usize = 60;

/// Lambda from carbon monoxide alone.
///
/// ```
/// use lashwork::mixture::gas::{Fuel, lambda_from_co};
/// use lashwork::quantity::VolumeShare;
/// use lashwork::tolerance::Uncertainty;
/// let co = VolumeShare::parse("3.7 %")?;
/// let found = lambda_from_co(co, Uncertainty::from_number(0.1)?, &Fuel::PETROL)?;
/// assert!((found.burnt_out.ratio() - 0.90).abs() < 0.005);
/// let lean = lambda_from_co(VolumeShare::parse("0.1 %")?, Uncertainty::ZERO, &Fuel::PETROL)?;
/// assert!(lean.lambda.high().is_none(), "how lean, carbon monoxide does not say");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LambdaFromCo {
    /// Between a burn that leaves hydrocarbons and one that leaves oxygen; without an upper end where there
    /// is little carbon monoxide.
    pub lambda: Estimate<Lambda>,
    /// With neither oxygen nor hydrocarbons left.
    pub burnt_out: Lambda,
    /// Carbon dioxide that goes with it.
    pub co2: VolumeShare,
    /// What was taken for granted.
    pub assumptions: Vec<GasAssumption>,
}

/// Lambda from carbon monoxide alone: carbon dioxide, hydrogen and nitrogen follow from the fuel, the
/// water-gas equilibrium and a total of 100 %.
///
/// # Errors
/// [`GasError::TooMuchCarbonMonoxide`] over 16 %.
pub fn lambda_from_co(
    co: VolumeShare,
    u: Uncertainty<VolumeShare>,
    fuel: &Fuel,
) -> Result<LambdaFromCo, GasError> {
    let read = co.percent();
    if read > MOST {
        return Err(GasError::TooMuchCarbonMonoxide {
            got: read,
            most: MOST,
        });
    }
    let at = |read: f64, o2: f64, hc: f64| solved(read, o2, hc, fuel);
    let (plain, lean) = (at(read, 0.0, 0.0), at(read, LEFT_OXYGEN, 0.0));
    let rich = at(read, 0.0, LEFT_HEXANE);
    // The slope by carbon monoxide, carbon dioxide following so that the total stays at 100.
    let (lambda, total) = (plain.lambda(), plain.total());
    let slope = lambda.slope(1) - lambda.slope(0) * total.slope(1) / total.slope(0);
    let blur = Uncertainty::from_number(slope.abs() * u.number())?;
    let low = Lambda::from_ratio(rich.lambda().value)?;
    let lambda_found = if read > SAYS_LITTLE {
        Estimate::between(low, Lambda::from_ratio(lean.lambda().value)?, blur)?
    } else {
        Estimate::at_least(low, blur)
    };
    Ok(LambdaFromCo {
        lambda: lambda_found,
        burnt_out: Lambda::from_ratio(lambda.value)?,
        co2: VolumeShare::from_percent(plain.co2)?,
        assumptions: vec![
            GasAssumption::WaterGas,
            GasAssumption::LeftAtMost {
                oxygen: VolumeShare::from_percent(LEFT_OXYGEN)?,
                hexane: VolumeShare::from_percent(LEFT_HEXANE)?,
            },
            GasAssumption::NoAirAdded,
        ],
    })
}

/// The gas whose total is 100 %, by halving.
fn solved(co: f64, o2: f64, hc: f64, fuel: &Fuel) -> Atoms {
    let with = |co2: f64| Atoms {
        co2,
        co,
        o2,
        hc,
        no: 0.0,
        factor: 6.0,
        fuel: *fuel,
    };
    let (mut low, mut high) = (0.0, 100.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if with(middle).total().value > 100.0 {
            high = middle;
        } else {
            low = middle;
        }
    }
    with(0.5 * (low + high))
}
