//! Uncertainty budgets and coverage factors against published examples.
//!
//! Marks: SEEN = read in the source or in a public transcription of it; CALC = computed apart from
//! this library (mpmath, 30 digits and more) from the published inputs.
#![expect(
    clippy::unwrap_used,
    clippy::unreadable_literal,
    clippy::excessive_precision,
    reason = "a test fails by panicking; figures stand as their source prints them"
)]

use lashwork::tolerance::{Budget, BudgetError, Contribution, student_t_quantile};

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
    assert!(
        (got - want).abs() <= relative * want.abs(),
        "got {got}, want {want}"
    );
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
    assert!((k * 32.0 - 93.0).abs() < 0.5);
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
    assert!((budget.coverage_factor(0.95)? * 32.0 - 68.0).abs() < 0.5);
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
    assert!((normal.combined() * normal.coverage_factor(0.95)? - 3.92).abs() < 0.005);
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
    assert!((budget.combined() - 1.76e-6).abs() < 0.005e-6);
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
    assert!((budget.combined() * budget.coverage_factor(0.95)? - 0.0101).abs() < 5e-5);
    Ok(())
}

#[test]
fn gauge_block_by_comparison() -> Result<(), BudgetError> {
    // EA-4/02 S4, 50 mm gauge block: u 36.4 nm (from memory of the source).
    let block = [15.0, 17.3, 5.37, 18.5, 16.6, 11.8, 3.87];
    let budget = Budget::new(block.iter().map(|u| line("x", *u, 1.0, None)).collect())?;
    assert!((budget.combined() - 36.4).abs() < 0.05);
    Ok(())
}

/// Confidence levels of the table's columns.
const LEVELS: [f64; 6] = [0.6827, 0.90, 0.95, 0.9545, 0.99, 0.9973];

/// Degrees of freedom and two-sided factors (CALC; rounded to two decimals they are JCGM 100:2008
/// table G.2).
#[rustfmt::skip]
const TABLE: [(f64, [f64; 6]); 27] = [
    (1.0, [1.8374094294905463, 6.313751514675043, 12.706204736174705, 13.967811487502576, 63.65674116287158, 235.7836871584926]),
    (2.0, [1.321315462445693, 2.9199855803537256, 4.302652729749464, 4.526550760081991, 9.924843200918293, 19.206015887811095]),
    (3.0, [1.1969125599716932, 2.3533634348018238, 3.1824463052837095, 3.3068299207201117, 5.840909309733357, 9.218701822037348]),
    (4.0, [1.1416549872215624, 2.1318467863266504, 2.7764451051977943, 2.869315169696385, 4.604094871349993, 6.62007155118839]),
    (5.0, [1.1105333938140243, 2.0150483733330242, 2.5705818356363155, 2.648654254283119, 4.032142983555228, 5.506984967354847]),
    (6.0, [1.0905949070768344, 1.9431802805153031, 2.44691185114497, 2.516528348121628, 3.70742802132478, 4.903989775692439]),
    (7.0, [1.0767385673224845, 1.8945786050900073, 2.3646242515927853, 2.428809082234241, 3.4994832973504937, 4.529910402646552]),
    (8.0, [1.066553135418285, 1.8595480375308984, 2.3060041352041667, 2.366419499743068, 3.3553873313333953, 4.276576799570584]),
    (9.0, [1.058752015977368, 1.8331129326562372, 2.2621571627982053, 2.3198094410224326, 3.2498355415921263, 4.094204800476575]),
    (10.0, [1.0525864806188514, 1.8124611228116765, 2.228138851986275, 2.283681613299642, 3.1692726726169513, 3.9568899895110383]),
    (11.0, [1.0475913649820725, 1.7958848187040442, 2.2009851600916397, 2.2548660037131225, 3.105806515539281, 3.849892678014355]),
    (12.0, [1.043462512501105, 1.78228755564932, 2.178812829667229, 2.231351317083424, 3.054539589392902, 3.7642352242291297]),
    (14.0, [1.0370358684985483, 1.7613101357748921, 2.144786687917804, 2.1952912869767065, 2.976842734370835, 3.635762867937665]),
    (15.0, [1.0344861529336622, 1.7530503556925734, 2.1314495455597755, 2.1811656819040777, 2.946712883475239, 3.5863863970086127]),
    (16.0, [1.0322649192619047, 1.74588367627625, 2.1199052992212546, 2.1689429956774147, 2.9207816224251, 3.544091856002959]),
    (18.0, [1.0285830442984716, 1.7340636066175388, 2.1009220402410387, 2.148852323637396, 2.878440472738608, 3.475437004820746]),
    (20.0, [1.0256556346041008, 1.7247182429207872, 2.085963447265865, 2.1330283618908976, 2.8453397097861086, 3.422118566681391]),
    (24.0, [1.0212945194233956, 1.7108820799094284, 2.063898561628026, 2.1096988221167194, 2.7969395047744565, 3.3447217413074877]),
    (25.0, [1.0204266000885602, 1.7081407612518993, 2.0595385527532977, 2.105090599989558, 2.7874358136769706, 3.329604096185328]),
    (26.0, [1.019626713512645, 1.7056179197592731, 2.055529438642873, 2.100853741802062, 2.778714533329683, 3.315754233974183]),
    (30.0, [1.0169692106477999, 1.6972608865939578, 2.042272456301238, 2.0868470535366517, 2.7499956535672254, 3.2703047968186074]),
    (40.0, [1.0126794918225306, 1.6838510133356526, 2.0210753903062733, 2.0644621214905725, 2.7044592674331627, 3.198740937825203]),
    (50.0, [1.0101226537731023, 1.6759050251630976, 2.008559112100761, 2.0512507818518824, 2.6777932709408443, 3.157121316107565]),
    (60.0, [1.0084251467794811, 1.6706488649046365, 2.0002978220142604, 2.042533322958588, 2.660283028855037, 3.129908586534055]),
    (100.0, [1.0050469946346865, 1.6602343260853396, 1.9839715185235522, 2.0253116527641986, 2.6258905214380177, 3.0767308989178273]),
    (120.0, [1.0042059593900179, 1.6576508993552357, 1.979930405082441, 2.0210501817554904, 2.617421145106866, 3.0636911827346855]),
    (1000.0, [1.000521985116369, 1.6463788172854648, 1.9623390808264085, 2.002505517218673, 2.580754698065951, 3.007494111288684]),
];

#[test]
fn coverage_factors_of_the_table() -> Result<(), BudgetError> {
    for (dof, row) in TABLE {
        for (level, want) in LEVELS.into_iter().zip(row) {
            close(student_t_quantile(level, dof)?, want, 2e-12);
        }
    }
    Ok(())
}

#[test]
fn coverage_factors_between_whole_degrees() -> Result<(), BudgetError> {
    // CALC.
    for (dof, row) in [
        (
            2.5,
            [
                2.558_218_614_135_936_6,
                3.574_654_842_003_683_2,
                7.163_728_138_948_785_5,
            ],
        ),
        (
            16.7,
            [
                1.741_406_427_129_482_7,
                2.112_706_420_659_590_8,
                2.904_680_938_429_359,
            ],
        ),
    ] {
        for (level, want) in [0.90, 0.95, 0.99].into_iter().zip(row) {
            close(student_t_quantile(level, dof)?, want, 2e-12);
        }
    }
    Ok(())
}

#[test]
fn endless_degrees_of_freedom_are_normal() -> Result<(), BudgetError> {
    // Normal quantiles at 0.95, 0.975, 0.995 (standard tables, 15 digits).
    for (level, want) in [
        (0.90, 1.644_853_626_951_472_2),
        (0.95, 1.959_963_984_540_054),
        (0.99, 2.575_829_303_548_901),
    ] {
        close(student_t_quantile(level, f64::INFINITY)?, want, 1e-14);
    }
    // The two methods meet where one takes over from the other.
    let below = student_t_quantile(0.99, 9_999.999_999)?;
    let above = student_t_quantile(0.99, 10_000.0)?;
    close(below, above, 1e-11);
    Ok(())
}

#[test]
fn one_degree_of_freedom_has_a_closed_form() -> Result<(), BudgetError> {
    // Cauchy distribution: k = tan(pi p / 2).
    for level in [0.1, 0.5, 0.9, 0.999, 0.999_999] {
        close(
            student_t_quantile(level, 1.0)?,
            (std::f64::consts::FRAC_PI_2 * level).tan(),
            1e-9,
        );
    }
    Ok(())
}

#[test]
fn unusable_input_is_refused_with_a_code_and_a_hint() {
    let refused = [
        student_t_quantile(1.0, 5.0),
        student_t_quantile(f64::NAN, 5.0),
        student_t_quantile(0.95, 0.5),
        student_t_quantile(0.95, f64::NAN),
        Budget::new(vec![]).map(|b| b.combined()),
        Budget::new(vec![line("x", -1.0, 1.0, None)]).map(|b| b.combined()),
        Budget::new(vec![line("x", 1.0, f64::INFINITY, None)]).map(|b| b.combined()),
        Budget::new(vec![line("x", 1.0, 1.0, Some(0.0))]).map(|b| b.combined()),
        Budget::new(vec![line("x", 1e300, 1e300, None)]).map(|b| b.combined()),
    ];
    for outcome in refused {
        let error = outcome.unwrap_err();
        assert!(error.code().starts_with("tolerance."));
        assert!(!error.hint().is_empty());
    }
}
