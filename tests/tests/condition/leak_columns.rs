//! Columns of leaks give what single readings give, to the bit.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::read::about;
use lashwork::Refusal;
use lashwork::condition::leak::{LeakColumns, Tester, leak_columns};
use lashwork::quantity::Length;
use lashwork::tolerance::Uncertainty;

#[test]
fn leaks_by_column_are_leaks_one_by_one() {
    let mut draw = fastrand::Rng::with_seed(4313);
    let rows = 300;
    let mut column = |low: f64, high: f64| -> Vec<f64> {
        (0..rows).map(|_| low + (high - low) * draw.f64()).collect()
    };
    let (shown, air) = (column(-20.0, 600.0), column(20.0, 112.0));
    let mm = |mm| Length::from_mm(mm).unwrap();
    let tester = Tester::of_diameter(about(551.58, 3.0), mm(1.016), mm(0.01)).unwrap();
    let columns = LeakColumns {
        tester,
        shown: &shown,
        air: &air,
        shown_u: Uncertainty::from_number(4.0).unwrap(),
        air_u: Uncertainty::from_number(0.5).unwrap(),
    };
    let (mut found_rows, mut refused) = (0, 0);
    leak_columns(&columns, |row, found, why| {
        match tester.leak(&about(shown[row], 4.0), &about(air[row], 0.5)) {
            Err(one) => {
                refused += 1;
                assert_eq!(why.unwrap().code(), one.code());
                assert!(found.area.is_nan() && found.u.is_nan() && found.hole.is_nan());
            }
            Ok(one) => {
                found_rows += 1;
                assert!(why.is_none());
                let area = one.area.centre().unwrap().square_millimetres();
                assert_eq!(found.area.to_bits(), area.to_bits());
                let u = one.area.normal_uncertainty().number();
                assert_eq!(found.u.to_bits(), u.to_bits());
                assert_eq!(found.hole.to_bits(), one.hole.mm().to_bits());
            }
        }
    })
    .unwrap();
    assert!(refused > 30 && found_rows > 150, "{refused} {found_rows}");
    let short = LeakColumns {
        air: &air[1..],
        ..columns
    };
    let why = leak_columns(&short, |_, _, _| panic!("written")).unwrap_err();
    assert_eq!(why.code(), "condition.leak-column-lengths");
}

/// A standard uncertainty may be as large as the pressure itself: then the least supply that is weighed is not below
/// nothing, and an answer or a refusal comes.
#[test]
fn an_uncertainty_over_the_pressure_is_no_panic() {
    let mm = |mm| Length::from_mm(mm).unwrap();
    for u in [100.0, 190.7, 551.0, 990.0] {
        let tester = Tester::of_diameter(about(186.9, u), mm(1.0), mm(0.01)).unwrap();
        for (shown, air_u) in [(100.0, 0.5), (186.0, 500.0), (4.0, u)] {
            if let Ok(leak) = tester.leak(&about(shown, u), &about(101.3, air_u)) {
                assert!(leak.over_orifice.is_finite(), "{u} {shown}");
            }
        }
    }
}
