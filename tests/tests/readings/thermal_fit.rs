//! Lines through readings: certified values, and uncertainties worked out by hand.

use approx::assert_abs_diff_eq;
use lashwork::quantity::{Lash, QuantityError};
use lashwork::statistics::straight_line;
use lashwork::thermal::{ThermalError, fit_coefficient};
use lashwork_tests::values::celsius;

#[track_caller]
fn close(got: f64, want: f64, within: f64) {
    assert_abs_diff_eq!(got, want, epsilon = within);
}

const NORRIS_X: [f64; 36] = [
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5,
    666.9, 338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2,
    999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
];
const NORRIS_Y: [f64; 36] = [
    0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1,
    668.8, 339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0,
    998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
];

#[test]
fn line_through_the_norris_set() -> Result<(), ThermalError> {
    // NIST Statistical Reference Datasets, Norris, certified values (SEEN).
    let line = straight_line(&NORRIS_X, &NORRIS_Y, &[1.0; 36])?;
    close(line.intercept, -0.262_323_073_774_029, 1e-12);
    close(line.slope, 1.002_116_818_020_45, 2e-14);
    close(line.residual_sd.unwrap(), 0.884_796_396_144_373, 1e-13);
    close(line.intercept_sd.unwrap(), 0.232_818_234_301_152, 1e-13);
    close(line.slope_sd.unwrap(), 0.000_429_796_848_199_937, 1e-16);
    assert_eq!(line.degrees_of_freedom, 34);
    Ok(())
}

#[test]
fn two_readings_give_the_uncertainty_that_was_stated() -> Result<(), ThermalError> {
    let readings = [
        (celsius(20.0), Lash::from_mm(0.20)?, 0.003),
        (celsius(70.0), Lash::from_mm(0.25)?, 0.004),
    ];
    let fit = fit_coefficient(&readings)?;
    close(fit.coefficient.mm_per_kelvin, 0.001, 1e-12);
    // sqrt(0.003^2 + 0.004^2) / 50 K.
    close(fit.coefficient.standard_uncertainty, 0.0001, 1e-12);
    assert_eq!(fit.coefficient.degrees_of_freedom, None);
    close(fit.at_20_uncertainty, 0.003, 1e-12);
    Ok(())
}

#[test]
fn readings_that_scatter_more_than_stated_widen_the_uncertainty() -> Result<(), ThermalError> {
    let reading = |c, mm, u| Ok::<_, QuantityError>((celsius(c), Lash::from_mm(mm)?, u));
    let readings = [
        reading(20.0, 0.20, 0.001)?,
        reading(50.0, 0.26, 0.001)?,
        reading(80.0, 0.26, 0.001)?,
    ];
    let fit = fit_coefficient(&readings)?;
    assert!(fit.coefficient.standard_uncertainty > fit.line.slope_u * 10.0);
    assert_eq!(fit.coefficient.degrees_of_freedom, Some(1.0));
    Ok(())
}
