//! Coverage factors of Student's t against 50-digit arithmetic (data: `tests/oracles/student_t.json`).

use lashwork::statistics::student_t_quantile;
use lashwork_tests::{Differences, number, oracle, text};

/// The incomplete beta function behind it is good to about 1e-12, and coverage factors are used with
/// three digits.
const SHARE: f64 = 1e-10;

#[test]
fn coverage_factors() {
    let mut differences = Differences::default();
    for case in oracle("student_t") {
        let (p, freedom) = (number(&case, "coverage"), number(&case, "freedom"));
        let place = format!("{} p {p} freedom {freedom}", text(&case, "id"));
        let got = student_t_quantile(p, freedom).unwrap();
        differences.compare(&place, got, number(&case, "factor"), 0.0, SHARE);
    }
    differences.settle();
}
