//! Cooling against worked examples; figures computed apart (mpmath) from published statements.

use approx::assert_abs_diff_eq;
use lashwork::quantity::{Elapsed, Temperature, TemperatureDifference};
use lashwork::thermal::{CoolDown, CoolingFit, CoolingReading, ThermalError};
use lashwork_tests::values::celsius;

#[track_caller]
fn close(got: f64, want: f64, within: f64) {
    assert_abs_diff_eq!(got, want, epsilon = within);
}

/// The law through readings of minutes and degrees Celsius; thermometer 0.5 K.
fn fit(air: Option<f64>, readings: &[(f64, f64)]) -> Result<CoolingFit, ThermalError> {
    let readings: Vec<CoolingReading> = readings
        .iter()
        .map(|(minutes, at)| {
            let after = Elapsed::from_minutes(*minutes)?;
            let temperature = celsius(*at);
            Ok(CoolingReading { after, temperature })
        })
        .collect::<Result<_, ThermalError>>()?;
    let half_a_kelvin = TemperatureDifference::from_kelvin(0.5)?;
    CoolingFit::new(&readings, air.map(celsius), half_a_kelvin)
}

#[test]
fn ten_minutes_from_68_c() -> Result<(), ThermalError> {
    // Exact 60.6522463800300; a step-by-step sum of one-minute steps would give 60.594.
    let cooling = CoolDown {
        surroundings: celsius(21.0),
        start: celsius(68.0),
        per_minute: 0.017,
        per_minute_u: 0.0,
    };
    close(
        cooling.temperature_at(10.0)?.celsius(),
        60.652_246_380_030,
        1e-10,
    );
    Ok(())
}

/// The rate is searched by halving, to about twelve digits.
#[test]
fn rates_from_two_readings() -> Result<(), ThermalError> {
    let air = Some(20.0);
    // 95 to 61 C in 30 min at 20 C (published 0.02); 180 to 120 C in 10 min at 20 C.
    close(
        fit(air, &[(0.0, 95.0), (30.0, 61.0)])?.cooling().per_minute,
        0.020_130_534_894_400_1,
        1e-13,
    );
    let cooling = fit(air, &[(0.0, 180.0), (10.0, 120.0)])?.cooling();
    close(cooling.per_minute, 0.047_000_362_924_573_6, 1e-13);
    close(cooling.temperature_at(30.0)?.celsius(), 59.0625, 1e-9);
    close(
        cooling.minutes_until(celsius(40.0)).unwrap(),
        44.243_095_420_708_5,
        1e-9,
    );
    // 180 to 140 F in 20 min at 65 F: 93.0606118482371 F after 66 min.
    let f = |text: &str| Temperature::parse(text).map(Temperature::celsius);
    let (air, hot, warm) = (f("65 F")?, f("180 F")?, f("140 F")?);
    let cooling = fit(Some(air), &[(0.0, hot), (20.0, warm)])?.cooling();
    close(cooling.per_minute, 0.021_372_200_741_347, 1e-13);
    close(
        cooling.temperature_at(66.0)?.fahrenheit(),
        93.060_611_848_237_1,
        1e-9,
    );
    Ok(())
}

/// Equal times leave equal shares: (53 - 110/3) / (60 - 110/3) is (60 - 110/3) / (70 - 110/3).
#[test]
fn surroundings_from_equal_steps() -> Result<(), ThermalError> {
    let found = fit(None, &[(0.0, 70.0), (10.0, 60.0), (20.0, 53.0)])?.cooling();
    close(found.surroundings.celsius(), 110.0 / 3.0, 1e-9);
    let straight = fit(None, &[(0.0, 70.0), (10.0, 60.0), (20.0, 50.0)]);
    assert_eq!(straight.err(), Some(ThermalError::NoBend));
    Ok(())
}
