//! Lambda and density of many readings in one call: columns of numbers in, columns of numbers out.

use crate::columns::Filled;
use crate::json;
use crate::place::Place;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::read::Read;
use crate::word::W;
use lashwork::mixture::air::{AirColumns, AirError, DensityRow, density_columns as densities};
use lashwork::mixture::gas::{
    AnalyserClass, Fuel, GasColumns, GasContradiction, HydrocarbonFactor, LambdaRow,
    lambda_columns as lambdas,
};
use lashwork::quantity::{AbsolutePressure, RelativeHumidity, TemperatureDifference};
use lashwork::tolerance::{Measurand, Uncertainty};

/// Numbers of a row in the output of [`lambda_columns`]: lambda, its standard uncertainty, and the first thing
/// that does not fit.
pub const LAMBDA_OUTPUTS: usize = 3;
/// Numbers of a row in the output of [`density_columns`]: density, its standard uncertainty, density altitude.
pub const DENSITY_OUTPUTS: usize = 3;

parts! {
    /// What all analyses share.
    AnalysesDoc {
        /// The fuel: E0 to E100 by its ethanol, LPG, or a formula as in C8H18.
        fuel: String,
        /// The class on the tester's plate.
        class: W<AnalyserClass>,
        /// What a molecule of hydrocarbon counts for.
        shown_as: W<HydrocarbonFactor>,
    }
    /// What all readings of the air share.
    AirReadingsDoc {
        /// Standard uncertainties of the instruments.
        uncertainty: AirInstrumentsDoc,
    }
    /// Standard uncertainties of barometer, thermometer and hygrometer.
    AirInstrumentsDoc {
        pressure: Q<AbsolutePressure>,
        temperature: Q<TemperatureDifference>,
        humidity: Q<RelativeHumidity>,
    }
}

/// A contradiction by its place in the list that documentation gives; 0 if there is none.
fn number(found: Option<&GasContradiction>) -> f64 {
    match found {
        None => 0.0,
        Some(GasContradiction::OxygenWithCarbonMonoxide { .. }) => 1.0,
        Some(GasContradiction::OxygenWithHydrocarbons { .. }) => 2.0,
        Some(GasContradiction::TooLeanToBurn) => 3.0,
        Some(GasContradiction::BeyondRunning) => 4.0,
        Some(GasContradiction::TotalOff { .. }) => 5.0,
        Some(_) => 6.0,
    }
}

fn settings<T: Read>(text: &[u8]) -> Result<T, Vec<Problem>> {
    json::read(text, |json, problems| {
        T::read(json, &Place::Document, problems)
    })
}

/// Lambda of many analyses by one tester on one fuel.
///
/// `settings` is JSON, `{"fuel": "E10", "class": "0", "shown_as": "hexane"}`; all are needed. The columns are carbon
/// dioxide, carbon monoxide and oxygen in per cent, and hydrocarbons in ppm. `out` takes [`LAMBDA_OUTPUTS`]
/// columns one after the other: lambda, its standard uncertainty, and the first thing that does not fit (0 nothing,
/// 1 oxygen beside carbon monoxide, 2 oxygen beside hydrocarbons, 3 too lean to burn, 4 beyond where engines run, 5
/// the total is off, 6 another): [`lambda_columns`](lashwork::mixture::gas::lambda_columns).
///
/// The list names the first 100 rows that are refused, at places such as `/rows/17`; their lambda is not a number.
///
/// # Errors
/// Every [`Problem`] of the settings, and columns of unequal lengths; `out` is then untouched.
///
/// ```
/// let settings = br#"{ "fuel": "E0", "class": "0", "shown_as": "hexane" }"#;
/// let (co2, co) = ([14.7, 12.7, 0.0], [0.5, 3.3, 0.0]);
/// let (o2, hc_ppm) = ([0.5, 2.6, 20.9], [100.0, 250.0, 0.0]);
/// let mut out = [9.0; 3 * lashwork_wire::LAMBDA_OUTPUTS];
/// let refused = lashwork_wire::lambda_columns(settings, [&co2, &co, &o2, &hc_ppm], &mut out)
///     .map_err(|problems| format!("{problems:?}"))?;
/// assert!((out[0] - 1.0042).abs() < 5e-5 && out[2].is_nan());
/// // The second says rich and lean at once.
/// assert_eq!(out[6..], [0.0, 1.0, 0.0]);
/// assert_eq!((refused[0].place.as_str(), refused[0].code.as_str()),
///     ("/rows/2", "mixture.no-carbon-dioxide"));
/// # Ok::<(), String>(())
/// ```
pub fn lambda_columns(
    settings: &[u8],
    columns: [&[f64]; 4],
    out: &mut [f64],
) -> Result<Vec<Problem>, Vec<Problem>> {
    let doc: AnalysesDoc = self::settings(settings)?;
    let fuel = Fuel::named(&doc.fuel).map_err(|why| vec![Problem::at("/fuel", &why)])?;
    let mut filled = Filled::new(&columns, LAMBDA_OUTPUTS, out)?;
    let [co2, co, o2, hc_ppm] = columns;
    let columns = GasColumns {
        co2,
        co,
        o2,
        hc_ppm,
        factor: doc.shown_as.0,
        class: doc.class.0,
        fuel,
    };
    lambdas(&columns, |row, found: &LambdaRow, why| {
        let doubt = number(found.contradiction.as_ref());
        filled.write(row, [found.lambda, found.u, doubt], why.as_ref());
    })
    .map_err(|why| vec![Problem::at("", &why)])?;
    Ok(filled.refused())
}

/// The density of the air of many readings with the same instruments, by CIPM-2007.
///
/// `settings` is JSON, `{"uncertainty": {"pressure": "0.3 kPa", "temperature": "1 K", "humidity": "5 %"}}`, all
/// standard and all needed. The columns are the pressure of the place in kilopascals, degrees Celsius and per cent of
/// relative humidity. `out` takes [`DENSITY_OUTPUTS`] columns one after the other: kilograms a cubic metre, their
/// standard uncertainty, and density altitude in metres, which is not a number outside -1524 to 6096 m:
/// [`density_columns`](lashwork::mixture::air::density_columns).
///
/// The list names the first 100 rows that are refused, at places such as `/rows/17`; their numbers are none.
///
/// # Errors
/// Every [`Problem`] of the settings, and columns of unequal lengths; `out` is then untouched.
///
/// ```
/// let settings = br#"{ "uncertainty": { "pressure": "0.1 kPa", "temperature": "1 K", "humidity": "5 %" } }"#;
/// let mut out = [9.0; 2 * lashwork_wire::DENSITY_OUTPUTS];
/// let columns: [&[f64]; 3] = [&[101.325, 101.325], &[20.0, 200.0], &[50.0, 50.0]];
/// let refused = lashwork_wire::density_columns(settings, columns, &mut out)
///     .map_err(|problems| format!("{problems:?}"))?;
/// assert!((out[0] - 1.199_314).abs() < 1e-6 && out[1].is_nan());
/// assert_eq!((refused[0].place.as_str(), refused[0].code.as_str()),
///     ("/rows/1", "mixture.air-temperature"));
/// # Ok::<(), String>(())
/// ```
pub fn density_columns(
    settings: &[u8],
    columns: [&[f64]; 3],
    out: &mut [f64],
) -> Result<Vec<Problem>, Vec<Problem>> {
    let doc: AirReadingsDoc = self::settings(settings)?;
    let of = doc.uncertainty;
    let mut problems = Vec::new();
    let pressure_u = Uncertainty::from_number(of.pressure.0.number());
    let pressure_u = value(&mut problems, "/uncertainty/pressure", pressure_u);
    let humidity_u = Uncertainty::from_number(of.humidity.0.number());
    let humidity_u = value(&mut problems, "/uncertainty/humidity", humidity_u);
    let Some((pressure_u, humidity_u)) = pressure_u.zip(humidity_u) else {
        return Err(problems);
    };
    let mut filled = Filled::new(&columns, DENSITY_OUTPUTS, out)?;
    let [kpa, celsius, percent] = columns;
    let columns = AirColumns {
        kpa,
        celsius,
        percent,
        pressure_u,
        temperature_u: of.temperature.0,
        humidity_u,
    };
    densities(&columns, |row, found: &DensityRow, why| {
        filled.write(row, [found.density, found.u, found.altitude], why.as_ref());
    })
    .map_err(|why| {
        let place = match why {
            AirError::TemperatureUncertainty { .. } => "/uncertainty/temperature",
            _ => "",
        };
        vec![Problem::at(place, &why)]
    })?;
    Ok(filled.refused())
}
