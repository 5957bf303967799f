//! What must hold of jets whatever the numbers.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::float_cmp,
    reason = "a figure written in a test that is refused is a broken test"
)]

use lashwork::mixture::jets::{Circuit, JetNumbering, JetQuestion, JetSeries, JetTable, rejet};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};
use proptest::prelude::*;

fn about<Q: Measurand>(number: f64, u: f64) -> Estimate<Q> {
    let value = Q::from_number(number).unwrap();
    Estimate::between(value, value, Uncertainty::from_number(u).unwrap()).unwrap()
}

fn numberings() -> impl Strategy<Value = JetNumbering> {
    prop_oneof![
        Just(JetNumbering::Flow),
        Just(JetNumbering::Diameter),
        Just(JetNumbering::Table(
            JetTable::new(&[(10.0, 5.0), (100.0, 90.0), (150.0, 160.0), (400.0, 900.0)]).unwrap()
        )),
    ]
}

proptest! {
    #[test]
    fn number_and_flow_there_and_back(numbering in numberings(), number in 10.0..400.0) {
        let back = numbering.number(numbering.flow(number).unwrap()).unwrap();
        prop_assert!((back - number).abs() < 1e-10 * number, "{back}");
    }

    #[test]
    fn the_size_of_the_theory_keeps_lambda_by_theory(ratio in 0.6..1.6, lambda in 0.7..1.2) {
        let numbering = JetNumbering::Flow;
        let wanted = 150.0 * f64::sqrt(ratio);
        let numbers = [wanted];
        let found = rejet(&JetQuestion {
            circuit: Circuit::Main,
            fitted: 150.0,
            numbering: &numbering,
            lambda: Some(about(lambda, 0.01)),
            from: about(1.2, 0.0),
            to: about(1.2 * ratio, 0.0),
            steps: None,
            series: JetSeries::new(Circuit::Main, &numbers).unwrap(),
        }).unwrap();
        let size = found.sizes.iter().find(|size| size.number == wanted).unwrap().lambda;
        let ends = [size.low().unwrap().ratio(), size.high().unwrap().ratio()];
        prop_assert!(ends.iter().any(|end| (end - lambda).abs() < 1e-9), "{ends:?}");
    }

    #[test]
    fn there_and_back_is_the_same_jet(numbering in numberings(), ratio in 0.7..1.4) {
        let numbers = [120.0];
        let ask = |fitted: f64, from: f64, to: f64| {
            rejet(&JetQuestion {
                circuit: Circuit::Main,
                fitted,
                numbering: &numbering,
                lambda: Some(about(0.9, 0.01)),
                from: about(from, 0.0),
                to: about(to, 0.0),
                steps: None,
                series: JetSeries::new(Circuit::Main, &numbers).unwrap(),
            }).unwrap().rules
        };
        for rule in 0..2 {
            let there = ask(120.0, 1.2, 1.2 * ratio)[rule].number;
            let back = ask(there, 1.2 * ratio, 1.2)[rule].number;
            prop_assert!((back - 120.0).abs() < 1e-9, "{back}");
        }
    }

    #[test]
    fn what_is_fitted_is_rich_enough_by_both_rules(ratio in 0.6..1.2, fitted in 110.0..190.0) {
        let numbering = JetNumbering::Flow;
        let numbers: Vec<f64> = (80..=250).step_by(5).map(f64::from).collect();
        let found = rejet(&JetQuestion {
            circuit: Circuit::Main,
            fitted,
            numbering: &numbering,
            lambda: Some(about(0.9, 0.0)),
            from: about(1.2, 0.0),
            to: about(1.2 * ratio, 0.0),
            steps: None,
            series: JetSeries::new(Circuit::Main, &numbers).unwrap(),
        }).unwrap();
        let fit = found.fit.unwrap();
        // What is fitted is a size that there is, and stands in the table.
        prop_assert!(found.sizes.contains(&found.kept));
        let size = found.sizes.iter().find(|size| size.number == fit).unwrap();
        prop_assert!(size.lambda.high().unwrap().ratio() <= 0.9 + 1e-9);
        // The next smaller one would be lean by one of them.
        let under = found.sizes.iter().rev().find(|size| size.number < fit);
        if let Some(under) = under {
            prop_assert!(under.lambda.high().unwrap().ratio() > 0.9 - 1e-9);
        }
    }
}
