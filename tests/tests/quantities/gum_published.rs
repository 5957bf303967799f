//! Uncertainty budgets against published examples.
//!
//! Marks: SEEN = read in the source or in a public copy of it; CALC = computed apart from
//! this library (mpmath, 30 digits and more) from the published inputs.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use approx::{assert_abs_diff_eq, assert_relative_eq};
use lashwork::Refusal;
use lashwork::statistics::student_t_quantile;
use lashwork::tolerance::{Budget, BudgetError, Contribution};

/// `u` in the unit of the input, `c` its sensitivity.
fn line(source: &str, u: f64, c: f64, dof: Option<f64>) -> Contribution {
    Contribution {
        source: source.into(),
        standard_uncertainty: u,
        sensitivity: c,
        degrees_of_freedom: dof,
    }
}

#[track_caller]
fn close(got: f64, want: f64, relative: f64) {
    assert_relative_eq!(got, want, epsilon = 0.0, max_relative = relative);
}

/// JCGM 100:2008 H.1: length of the standard in nm, its coefficient, the temperature off 20 C.
const STANDARD: f64 = 50.000_623e6;
const COEFFICIENT: f64 = 11.5e-6;
const OFF: f64 = -0.1;

fn end_gauge(
    d: f64,
    d_dof: f64,
    coefficients: f64,
    temperatures: f64,
) -> Result<Budget, BudgetError> {
    Budget::new(vec![
        line("length of the standard", 25.0, 1.0, Some(18.0)),
        line("measured difference", d, 1.0, Some(d_dof)),
        line("coefficient of the standard", 1.2e-6, 0.0, None),
        line("temperature", 0.41, 0.0, None),
        line(
            "difference of coefficients",
            coefficients,
            -STANDARD * OFF,
            Some(50.0),
        ),
        line(
            "difference of temperatures",
            temperatures,
            -STANDARD * COEFFICIENT,
            Some(2.0),
        ),
    ])
}

/// Published: u_c 32 nm, nu_eff 16 (16.7), k99 2.92, U99 93 nm (SEEN).
#[track_caller]
fn as_published(budget: &Budget) {
    assert!((31.6..31.8).contains(&budget.combined()));
    let dof = budget.effective_degrees_of_freedom().unwrap();
    assert!((16.0..17.0).contains(&dof), "{dof}");
    let k = budget.coverage_factor(0.99).unwrap();
    // CALC t99(16).
    close(k, 2.920_781_622_425_10, 1e-12);
    // Published 93 nm is from u_c rounded to 32; unrounded it is 92.5 to 92.6 (CALC).
    assert!((92.4..93.5).contains(&(k * budget.combined())));
    assert_abs_diff_eq!(k * 32.0, 93.0, epsilon = 0.5);
}

#[test]
fn end_gauge_from_rounded_inputs() -> Result<(), BudgetError> {
    let budget = end_gauge(9.7, 25.6, 0.58e-6, 0.029)?;
    as_published(&budget);
    // CALC route A.
    close(budget.combined(), 31.710_609_640_431_8, 1e-12);
    close(
        budget.effective_degrees_of_freedom().unwrap(),
        16.656_062_703_003_9,
        1e-9,
    );
    close(
        budget.combined() * budget.coverage_factor(0.99)?,
        92.619_765_873_669_5,
        1e-11,
    );
    Ok(())
}

#[test]
fn end_gauge_unrounded() -> Result<(), BudgetError> {
    // Combined difference CALC from 13/sqrt 5 (24), 10/2.57 (5), 20/3 (8).
    let difference = Budget::new(vec![
        line("mean of five", 13.0 / 5.0_f64.sqrt(), 1.0, Some(24.0)),
        line("comparator, random", 10.0 / 2.57, 1.0, Some(5.0)),
        line("comparator, systematic", 20.0 / 3.0, 1.0, Some(8.0)),
    ])?;
    close(difference.combined(), 9.663_576_930_362_10, 1e-12);
    let dof = difference.effective_degrees_of_freedom().unwrap();
    close(dof, 25.621_942_909_295_4, 1e-12);
    let budget = end_gauge(
        difference.combined(),
        dof,
        1e-6 / 3.0_f64.sqrt(),
        0.05 / 3.0_f64.sqrt(),
    )?;
    as_published(&budget);
    // CALC route B.
    close(budget.combined(), 31.658_268_421_466_1, 1e-12);
    close(
        budget.effective_degrees_of_freedom().unwrap(),
        16.741_366_263_306_9,
        1e-12,
    );
    Ok(())
}

#[test]
fn end_gauge_from_rounded_contributions() -> Result<(), BudgetError> {
    let budget = Budget::new(vec![
        line("length of the standard", 25.0, 1.0, Some(18.0)),
        line("measured difference", 9.7, 1.0, Some(25.6)),
        line("difference of coefficients", 2.9, 1.0, Some(50.0)),
        line("difference of temperatures", 16.6, 1.0, Some(2.0)),
    ])?;
    as_published(&budget);
    // CALC route C.
    close(budget.combined(), 31.671_122_493_527_1, 1e-12);
    close(
        budget.effective_degrees_of_freedom().unwrap(),
        16.764_553_980_917_2,
        1e-9,
    );
    close(
        budget.combined() * budget.coverage_factor(0.99)?,
        92.504_432_540_668_2,
        1e-11,
    );
    // Published 95 %: t95(16) 2.12, U95 68 nm (SEEN).
    close(budget.coverage_factor(0.95)?, 2.119_905_299_221_25, 1e-12);
    assert_abs_diff_eq!(budget.coverage_factor(0.95)? * 32.0, 68.0, epsilon = 0.5);
    Ok(())
}

#[test]
fn four_equal_inputs_double_the_uncertainty() -> Result<(), BudgetError> {
    // JCGM 101:2008 9.2.2: four normal inputs, u 2.0, 95 % +-3.92 (SEEN).
    let normal = Budget::new(
        (1..=4)
            .map(|i| line(&format!("X{i}"), 1.0, 1.0, None))
            .collect(),
    )?;
    close(normal.combined(), 2.0, 1e-15);
    assert_abs_diff_eq!(
        normal.combined() * normal.coverage_factor(0.95)?,
        3.92,
        epsilon = 0.005
    );
    // 9.2.3: four rectangles of half-width sqrt 3, u 2.0 (SEEN).
    let half_width = 3.0_f64.sqrt();
    let rectangles =
        (1..=4).map(|i| line(&format!("X{i}"), half_width / 3.0_f64.sqrt(), 1.0, None));
    close(Budget::new(rectangles.collect())?.combined(), 2.0, 1e-15);
    Ok(())
}

#[test]
fn expansion_coefficient_of_a_copper_bar() -> Result<(), BudgetError> {
    // NIST TN 1900 example E13: alpha 1.7266e-5 per kelvin, u 1.76e-6 (SEEN; CALC below).
    let (l0, l1, t0, t1) = (1.4999, 1.5021, 288.15, 373.10);
    let rise = t1 - t0;
    let alpha = (l1 - l0) / (l0 * rise);
    close(alpha, 1.726_620_895_777_98e-5, 1e-12);
    let budget = Budget::new(vec![
        line("L0", 0.0001, -l1 / (l0 * l0 * rise), None),
        line("L1", 0.0002, 1.0 / (l0 * rise), None),
        line("T0", 0.02, alpha / rise, None),
        line("T1", 0.05, -alpha / rise, None),
    ])?;
    close(budget.combined(), 1.755_477_280_812_58e-6, 1e-12);
    assert_abs_diff_eq!(budget.combined(), 1.76e-6, epsilon = 0.005e-6);
    Ok(())
}

#[test]
fn welch_satterthwaite_of_two_inputs() -> Result<(), BudgetError> {
    // Published 12.8 (SEEN in a public test), CALC 12.7956490341371.
    let budget = Budget::new(vec![
        line("a", 0.57, 1.0, Some(9.0)),
        line("b", 0.25, 1.0, None),
    ])?;
    close(
        budget.effective_degrees_of_freedom().unwrap(),
        12.795_649_034_137_1,
        1e-12,
    );
    Ok(())
}

#[test]
fn welch_satterthwaite_of_a_ratio() -> Result<(), BudgetError> {
    // y = X1 / X2 * Y: published 0.6967, u 0.00494, 27.7, U95 0.0101 (SEEN), CALC below.
    let (x1, x2, y) = (0.1820, 0.1823, 0.6978);
    let value = x1 / x2 * y;
    let budget = Budget::new(vec![
        line("X1", 0.00093, value / x1, Some(9.0)),
        line("X2", 0.00058, -value / x2, Some(19.0)),
        line("Y", 0.0026, value / y, Some(19.0)),
    ])?;
    close(value, 0.696_651_673_066_374, 1e-12);
    close(budget.combined(), 0.004_931_801_999_129_71, 1e-12);
    close(
        budget.effective_degrees_of_freedom().unwrap(),
        27.512_731_755_714_1,
        1e-12,
    );
    assert_abs_diff_eq!(
        budget.combined() * budget.coverage_factor(0.95)?,
        0.0101,
        epsilon = 5e-5
    );
    Ok(())
}

#[test]
fn gauge_block_by_comparison() -> Result<(), BudgetError> {
    // EA-4/02 S4, 50 mm gauge block: u 36.4 nm (from memory of the source).
    let block = [15.0, 17.3, 5.37, 18.5, 16.6, 11.8, 3.87];
    let budget = Budget::new(block.iter().map(|u| line("x", *u, 1.0, None)).collect())?;
    assert_abs_diff_eq!(budget.combined(), 36.4, epsilon = 0.05);
    Ok(())
}

#[test]
fn unusable_input_is_refused_with_a_code_and_a_hint() {
    let refused = [
        student_t_quantile(1.0, 5.0).map_err(BudgetError::from),
        student_t_quantile(f64::NAN, 5.0).map_err(BudgetError::from),
        student_t_quantile(0.95, 0.5).map_err(BudgetError::from),
        student_t_quantile(0.95, f64::NAN).map_err(BudgetError::from),
        Budget::new(vec![]).map(|b| b.combined()),
        Budget::new(vec![line("x", -1.0, 1.0, None)]).map(|b| b.combined()),
        Budget::new(vec![line("x", 1.0, f64::INFINITY, None)]).map(|b| b.combined()),
        Budget::new(vec![line("x", 1.0, 1.0, Some(0.0))]).map(|b| b.combined()),
        Budget::new(vec![line("x", 1e300, 1e300, None)]).map(|b| b.combined()),
    ];
    for outcome in refused {
        let error = outcome.unwrap_err();
        let area = error.code().split('.').next();
        assert!(matches!(area, Some("tolerance" | "statistics")), "{error}");
        assert!(!error.hint().is_empty());
    }
}
