//! Weighted straight lines against 50-digit arithmetic, itself checked with numpy
//! (data: `tests/oracles/fit.json`).

use lashwork::statistics::straight_line;
use lashwork_tests::{Differences, number, numbers, oracle, text};

/// Four readings within 0.3 K around 20 C lose two digits in the differences of temperatures and two
/// more in the differences of lash.
const SHARE: f64 = 1e-11;

#[test]
fn slope_and_intercept_with_uncertainty() {
    let mut differences = Differences::default();
    for case in oracle("fit") {
        let line = straight_line(
            &numbers(&case, "celsius"),
            &numbers(&case, "lash_mm"),
            &numbers(&case, "normal_mm"),
        )
        .unwrap();
        let freedom = line.degrees_of_freedom as f64;
        let chi_square = line.residual_sd.map(|sd| sd * sd * freedom);
        for (name, got) in [
            ("slope_mm_per_k", Some(line.slope)),
            ("at_zero_celsius_mm", Some(line.intercept)),
            ("sd_slope", Some(line.slope_u)),
            ("sd_at_zero_celsius", Some(line.intercept_u)),
            ("chi_square", chi_square),
        ] {
            let Some(got) = got else { continue };
            let place = format!("{} {name}", text(&case, "id"));
            differences.compare(&place, got, number(&case, name), 0.0, SHARE);
        }
        // The line scaled by its own scatter is the same uncertainty times that scatter.
        if let (Some(scatter), Some(sd)) = (line.residual_sd, line.slope_sd) {
            let place = format!("{} slope by scatter", text(&case, "id"));
            differences.compare(&place, sd, number(&case, "sd_slope") * scatter, 0.0, SHARE);
        }
    }
    differences.settle();
}
