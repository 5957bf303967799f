//! What must hold of air whatever the numbers.
#![allow(
    clippy::unwrap_used,
    clippy::float_cmp,
    reason = "a figure written in a test that is refused is a broken test"
)]

use lashwork::Refusal;
use lashwork::mixture::air::{
    AirColumns, AirReading, Barometer, MoistAir, absolute, absolute_under, density,
    density_altitude, density_at_temperature, density_columns, sea_level_setting, standard_air,
    station_pressure,
};
use lashwork::quantity::{
    AbsolutePressure, Altitude, GaugePressure, RelativeHumidity, Temperature,
    TemperatureDifference, Vacuum,
};
use lashwork::tolerance::{Estimate, Uncertainty};
use proptest::prelude::*;

fn kpa(number: f64) -> AbsolutePressure {
    AbsolutePressure::from_kilopascals(number).unwrap()
}

fn moist(p: f64, t: f64, h: f64) -> f64 {
    let (t, h) = (
        Temperature::from_celsius(t).unwrap(),
        RelativeHumidity::from_percent(h).unwrap(),
    );
    let air = MoistAir::new(kpa(p), t, h).unwrap();
    air.density().unwrap().kilograms_per_cubic_metre()
}

proptest! {
    #[test]
    fn hot_thin_and_moist_air_is_light(p in 40.0..110.0, t in -30.0..50.0, h in 0.0..90.0) {
        let here = moist(p, t, h);
        prop_assert!(moist(p + 0.1, t, h) > here);
        prop_assert!(moist(p, t + 0.1, h) < here);
        prop_assert!(moist(p, t, h + 1.0) < here);
    }

    #[test]
    fn a_barometer_there_and_back(p in 60.0..108.0, metres in -400.0..4000.0) {
        let at = Altitude::from_metres(metres).unwrap();
        let back = station_pressure(sea_level_setting(kpa(p), at).unwrap(), at).unwrap();
        prop_assert!((back.kilopascals() - p).abs() < 1e-11);
    }

    #[test]
    fn the_standard_atmosphere_has_its_own_density_altitude(metres in -1500.0..6000.0) {
        let air = standard_air(Altitude::from_metres(metres).unwrap()).unwrap();
        let back = density_altitude(air.density).unwrap().metres();
        prop_assert!((back - metres).abs() < 1e-8, "{back}");
    }

    #[test]
    fn weather_at_any_height_is_believed(sea in 95.5..105.0, metres in 0.0..4000.0) {
        let at = Altitude::from_metres(metres).unwrap();
        let here = station_pressure(kpa(sea), at).unwrap();
        prop_assert_eq!(Barometer::Station(here).station(Some(at)).unwrap(), (here, None));
        prop_assert_eq!(Barometer::SetToSeaLevel(kpa(sea)).station(Some(at)).unwrap(), (here, None));
    }

    #[test]
    fn the_trap_is_seen_from_a_thousand_metres(sea in 97.5..105.0, metres in 1000.0..4000.0) {
        let at = Altitude::from_metres(metres).unwrap();
        let (_, doubt) = Barometer::Station(kpa(sea)).station(Some(at)).unwrap();
        prop_assert!(doubt.is_some());
    }

    #[test]
    fn a_gauge_and_a_vacuum_add_up(ambient in 70.0..105.0, by in 0.0..60.0) {
        let over = absolute(GaugePressure::from_kilopascals(by).unwrap(), kpa(ambient)).unwrap();
        let under = absolute_under(Vacuum::from_kilopascals(by).unwrap(), kpa(ambient)).unwrap();
        prop_assert!((over.kilopascals() + under.kilopascals() - 2.0 * ambient).abs() < 1e-11);
    }
}

/// A difference of temperatures may be under nought, how far a thermometer may be off may not: one by one, from
/// a height and in columns.
#[test]
fn a_thermometer_is_not_off_by_less_than_nothing() {
    let celsius = Temperature::from_celsius(20.0).unwrap();
    let code = |kelvin: f64| {
        let temperature_u = TemperatureDifference::from_kelvin(kelvin).unwrap();
        let reading = AirReading {
            pressure: Estimate::from_numbers(101.0, 101.0, 0.1).unwrap(),
            temperature: celsius,
            temperature_u,
            humidity: None,
        };
        let height = Altitude::from_metres(500.0).unwrap();
        let columns = AirColumns {
            kpa: &[101.0],
            celsius: &[20.0],
            percent: &[50.0],
            pressure_u: Uncertainty::ZERO,
            temperature_u,
            humidity_u: Uncertainty::ZERO,
        };
        let mut written = 0;
        let by_columns = density_columns(&columns, |_, _, _| written += 1);
        assert_eq!(written, usize::from(by_columns.is_ok()));
        [
            density(&reading).err(),
            density_at_temperature(height, celsius, temperature_u, None).err(),
            by_columns.err(),
        ]
        .map(|refused| refused.map(|why| why.code()))
    };
    assert_eq!(code(-0.5), [Some("mixture.air-temperature-uncertainty"); 3]);
    assert_eq!(code(0.0), [None; 3]);
}
