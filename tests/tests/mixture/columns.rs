//! Columns give what single readings give, to the bit.
#![allow(
    clippy::unwrap_used,
    clippy::float_cmp,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a figure written in a test that is refused is a broken test"
)]

use lashwork::Refusal;
use lashwork::mixture::air::{AirColumns, AirReading, density, density_columns};
use lashwork::mixture::gas::{
    AnalyserClass, ExhaustGas, Fuel, GasColumns, HydrocarbonFactor, Hydrocarbons, lambda,
    lambda_columns,
};
use lashwork::quantity::{Altitude, VolumeShare};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};
use lashwork_tests::values::{celsius, kelvin};

fn about<Q: Measurand>(number: f64, u: f64) -> Estimate<Q> {
    let value = Q::from_number(number).unwrap();
    Estimate::between(value, value, Uncertainty::from_number(u).unwrap()).unwrap()
}

#[test]
fn lambda_by_column_is_lambda_one_by_one() {
    let mut draw = fastrand::Rng::with_seed(13);
    let rows = 300;
    let mut column = |most: f64| -> Vec<f64> { (0..rows).map(|_| most * draw.f64()).collect() };
    let (co2, co, o2, ppm) = (column(17.5), column(8.0), column(22.0), column(3000.0));
    let columns = GasColumns {
        co2: &co2,
        co: &co,
        o2: &o2,
        hc_ppm: &ppm,
        factor: HydrocarbonFactor::Hexane,
        class: AnalyserClass::ClassI,
        fuel: Fuel::PETROL,
    };
    let (mut seen, mut refused, mut doubtful) = (0, 0, 0);
    lambda_columns(&columns, |row, found, why| {
        seen += 1;
        let share = |of: &[f64]| VolumeShare::from_percent(*of.get(row).unwrap()).unwrap();
        let hc = Hydrocarbons {
            read: VolumeShare::from_percent(1e-4 * ppm.get(row).unwrap()).unwrap(),
            factor: HydrocarbonFactor::Hexane,
        };
        match ExhaustGas::new(share(&co2), share(&co), share(&o2), Some(hc)) {
            Err(one) => {
                refused += 1;
                assert_eq!(why.unwrap().code(), one.code());
                assert!(found.lambda.is_nan());
            }
            Ok(gas) => {
                assert!(why.is_none());
                let u = AnalyserClass::ClassI.uncertainty(&gas).unwrap();
                let one = lambda(&gas, &u, &Fuel::PETROL).unwrap();
                let centre = one.lambda.centre().unwrap().ratio();
                assert_eq!(found.lambda.to_bits(), centre.to_bits());
                let blur = one.lambda.normal_uncertainty().number();
                assert_eq!(found.u.to_bits(), blur.to_bits());
                let first = one.contradictions.first().map(|doubt| doubt.what);
                doubtful += usize::from(first.is_some());
                assert_eq!(found.contradiction, first);
            }
        }
    })
    .unwrap();
    assert_eq!(seen, rows);
    assert!(refused > 10 && doubtful > 10 && refused + doubtful <= rows);
    let short = GasColumns {
        co: co.get(1..).unwrap(),
        ..columns
    };
    let why = lambda_columns(&short, |_, _, _| panic!("written")).unwrap_err();
    assert_eq!(why.code(), "mixture.column-lengths");
}

/// Hardly any carbon dioxide, fuels that bring oxygen along, much air behind them: what is no exhaust gas of an
/// engine, but what numbers can say.
#[test]
fn lambda_by_column_refuses_what_one_by_one_refuses() {
    let some_co2 = [5e-324, 1e-310, 3e-295, 1e-160, 1e-9, 0.4, 16.5];
    let some_co = [0.0, 1e-300, 0.762, 16.0];
    let some_o2 = [0.0, 1.051, 20.95];
    let mut rows = Vec::new();
    for co2 in some_co2 {
        for co in some_co {
            rows.extend(some_o2.map(|o2| (co2, co, o2)));
        }
    }
    let co2: Vec<f64> = rows.iter().map(|row| row.0).collect();
    let co: Vec<f64> = rows.iter().map(|row| row.1).collect();
    let o2: Vec<f64> = rows.iter().map(|row| row.2).collect();
    let (mut refused, mut found_rows) = (0, 0);
    for fuel in [Fuel::PETROL, Fuel::METHANOL, Fuel::NITROMETHANE] {
        for ppm in [0.0, 1000.0] {
            let hc_ppm = vec![ppm; rows.len()];
            let columns = GasColumns {
                co2: &co2,
                co: &co,
                o2: &o2,
                hc_ppm: &hc_ppm,
                factor: HydrocarbonFactor::Hexane,
                class: AnalyserClass::Class0,
                fuel,
            };
            lambda_columns(&columns, |row, found, why| {
                let share = |of: &[f64]| VolumeShare::from_percent(of[row]).unwrap();
                let hc = Hydrocarbons {
                    read: VolumeShare::from_percent(1e-4 * ppm).unwrap(),
                    factor: HydrocarbonFactor::Hexane,
                };
                let one = ExhaustGas::new(share(&co2), share(&co), share(&o2), Some(hc));
                let one = one
                    .and_then(|gas| lambda(&gas, &AnalyserClass::Class0.uncertainty(&gas)?, &fuel));
                let row = (fuel, ppm, rows[row]);
                match one {
                    Err(one) => {
                        refused += 1;
                        assert_eq!(why.map(|why| why.code()), Some(one.code()), "{row:?}");
                        assert!(found.lambda.is_nan() && found.u.is_nan(), "{row:?}");
                    }
                    Ok(one) => {
                        found_rows += 1;
                        assert_eq!(why.map(|why| why.code()), None, "{row:?}");
                        let centre = one.lambda.centre().unwrap().ratio();
                        assert_eq!(found.lambda.to_bits(), centre.to_bits(), "{row:?}");
                        let first = one.contradictions.first().map(|doubt| doubt.what);
                        assert_eq!(found.contradiction, first, "{row:?}");
                    }
                }
            })
            .unwrap();
        }
    }
    assert!(refused > 10 && found_rows > 100, "{refused} {found_rows}");
}

#[test]
fn density_by_column_is_density_one_by_one() {
    let mut draw = fastrand::Rng::with_seed(2533);
    let rows = 200;
    let mut column = |low: f64, high: f64| -> Vec<f64> {
        (0..rows).map(|_| low + (high - low) * draw.f64()).collect()
    };
    let (kpa, degrees, percent) = (column(60.0, 130.0), column(-20.0, 90.0), column(0.0, 100.0));
    let columns = AirColumns {
        kpa: &kpa,
        celsius: &degrees,
        percent: &percent,
        pressure_u: Uncertainty::from_number(0.2).unwrap(),
        temperature_u: kelvin(1.0),
        humidity_u: Uncertainty::from_number(5.0).unwrap(),
    };
    let (mut found_rows, mut refused) = (0, 0);
    density_columns(&columns, |row, found, why| {
        let one = density(&AirReading {
            pressure: about(*kpa.get(row).unwrap(), 0.2),
            temperature: celsius(*degrees.get(row).unwrap()),
            temperature_u: kelvin(1.0),
            humidity: Some(about(*percent.get(row).unwrap(), 5.0)),
        });
        match one {
            Err(one) => {
                refused += 1;
                assert_eq!(why.unwrap().code(), one.code());
                assert!(found.density.is_nan() && found.u.is_nan());
            }
            Ok(one) => {
                found_rows += 1;
                let centre = one.density.centre().unwrap().kilograms_per_cubic_metre();
                assert_eq!(found.density.to_bits(), centre.to_bits());
                let blur = one.density.normal_uncertainty().number();
                assert_eq!(found.u.to_bits(), blur.to_bits());
                let altitude = one.altitude.map_or(f64::NAN, Altitude::metres);
                assert_eq!(found.altitude.to_bits(), altitude.to_bits());
            }
        }
    })
    .unwrap();
    assert!(refused > 10 && found_rows > 100);
}

#[test]
fn settings_with_a_thermometer_off_by_less_than_nothing_are_refused_at_their_place() {
    let settings =
        br#"{"uncertainty": {"pressure": "0.1 kPa", "temperature": "-1 K", "humidity": "5 %"}}"#;
    let mut out = [9.0; lashwork_wire::DENSITY_OUTPUTS];
    let refused =
        lashwork_wire::density_columns(settings, [&[101.325], &[20.0], &[50.0]], &mut out);
    let refused = refused.unwrap_err();
    let (place, code) = (refused[0].place.as_str(), refused[0].code.as_str());
    assert_eq!(
        (place, code),
        (
            "/uncertainty/temperature",
            "mixture.air-temperature-uncertainty"
        )
    );
}
