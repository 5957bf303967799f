//! Cooling against worked examples; figures computed apart (mpmath) from published statements.

use lashwork::Refusal;
use lashwork::quantity::{Temperature, TemperatureDifference};
use lashwork::thermal::{
    CoolDown, LashCoefficient, ThermalError, fit_cool_down, surroundings_from_three,
};
use lashwork_tests::values::celsius;
use proptest::prelude::*;

#[track_caller]
fn close(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "got {got}, want {want}");
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

#[test]
fn rates_from_two_readings() -> Result<(), ThermalError> {
    // 95 to 61 C in 30 min at 20 C (published 0.02); 180 to 120 C in 10 min at 20 C.
    let fit = |surroundings, minutes, from, to| {
        fit_cool_down(
            celsius(surroundings),
            &[(0.0, celsius(from), 0.5), (minutes, celsius(to), 0.5)],
        )
    };
    close(
        fit(20.0, 30.0, 95.0, 61.0)?.per_minute,
        0.020_130_534_894_400_1,
        1e-14,
    );
    let cooling = fit(20.0, 10.0, 180.0, 120.0)?;
    close(cooling.per_minute, 0.047_000_362_924_573_6, 1e-14);
    close(cooling.temperature_at(30.0)?.celsius(), 59.0625, 1e-10);
    close(
        cooling.minutes_until(celsius(40.0)).unwrap(),
        44.243_095_420_708_5,
        1e-10,
    );
    // 180 to 140 F in 20 min at 65 F: 93.0606118482371 F after 66 min.
    let f = |v: f64| (v - 32.0) / 1.8;
    let cooling = fit(f(65.0), 20.0, f(180.0), f(140.0))?;
    close(cooling.per_minute, 0.021_372_200_741_347, 1e-14);
    close(
        cooling.temperature_at(66.0)?.fahrenheit(),
        93.060_611_848_237_1,
        1e-10,
    );
    Ok(())
}

#[test]
fn surroundings_from_equal_steps() -> Result<(), ThermalError> {
    close(
        surroundings_from_three(celsius(70.0), celsius(60.0), celsius(53.0))?.celsius(),
        110.0 / 3.0,
        1e-12,
    );
    let error = surroundings_from_three(celsius(70.0), celsius(60.0), celsius(50.0)).unwrap_err();
    assert_eq!(error.code(), "thermal.not-cooling");
    Ok(())
}

proptest! {
    #[test]
    fn waiting_until_the_widest_rise_gives_the_wanted_uncertainty(
        per_kelvin in 0.0..0.002_f64, u in 1e-5..1e-3_f64, u_at in 0.0..3.0_f64,
        limit in 0.001..0.02_f64, rate in 0.005..0.05_f64,
    ) {
        let coefficient = LashCoefficient {
            mm_per_kelvin: per_kelvin,
            standard_uncertainty: u,
            degrees_of_freedom: None,
        };
        let u_at = TemperatureDifference::from_kelvin(u_at).unwrap();
        let cooling = CoolDown {
            surroundings: celsius(20.0),
            start: celsius(95.0),
            per_minute: rate,
            per_minute_u: 0.0,
        };
        if let Some(rise) = coefficient.widest_rise(u_at, limit).unwrap()
            && let Ok(target) = Temperature::from_celsius(20.0 + rise.kelvin())
            && let Some(minutes) = cooling.minutes_until(target)
        {
            let then = cooling.temperature_at(minutes).unwrap();
            let correction = coefficient.correction(then, u_at, celsius(20.0)).unwrap();
            prop_assert!(correction.standard_uncertainty_mm() <= limit * (1.0 + 1e-9));
        }
    }
}
