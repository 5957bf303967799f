//! Laws of the thermal correction on generated chains.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test fails by panicking"
)]

use approx::abs_diff_eq;
use lashwork::quantity::{Lash, Length, TemperatureDifference};
use lashwork::thermal::{
    Chain, Effect, Follows, Link, MetalTemperature, PartTemperatures, Side, fit_coefficient,
    materials,
};
use lashwork_tests::values::celsius;
use proptest::prelude::*;

const NAMES: [&str; 3] = ["air", "block", "head"];
/// Sums of a few growths of at most 10 mm in different order: some ulps.
const ROUNDING_MM: f64 = 1e-12;

fn a_link() -> impl Strategy<Value = Link> {
    let material = 0..materials().len();
    let follows = prop_oneof![
        (0..NAMES.len()).prop_map(|i| Follows::from(NAMES[i])),
        (0.0..=1.0, 0.0..0.3).prop_map(|(fraction, fraction_u)| Follows::Between {
            cold: "air".into(),
            hot: "head".into(),
            fraction,
            fraction_u,
        }),
    ];
    let (length, u) = (0.0..400.0, 0.0..2.0);
    (material, length, u, any::<bool>(), any::<bool>(), follows).prop_map(
        |(material, length, u, cam, opens, follows)| Link {
            part: format!("part of {length}"),
            material: materials()[material].clone(),
            length: Length::from_mm(length).unwrap(),
            length_uncertainty: Length::from_mm(u).unwrap(),
            side: if cam { Side::Cam } else { Side::Valve },
            effect: if opens { Effect::Opens } else { Effect::Closes },
            follows,
        },
    )
}

fn a_chain() -> impl Strategy<Value = Chain> {
    (proptest::collection::vec(a_link(), 1..6), 0.8..2.0)
        .prop_map(|(links, ratio)| Chain::new(links, ratio).unwrap())
}

fn every(c: f64, u: f64) -> PartTemperatures {
    all([c; 3], u)
}

fn all(c: [f64; 3], u: f64) -> PartTemperatures {
    let u = TemperatureDifference::from_kelvin(u).unwrap();
    NAMES
        .iter()
        .zip(c)
        .map(|(name, c)| ((*name).into(), MetalTemperature::known(celsius(c), u)))
        .collect()
}

proptest! {
    #[test]
    fn there_and_back_changes_nothing(chain in a_chain(), a in -40.0..300.0, b in -40.0..300.0) {
        let there = chain.lash_change(celsius(a), &every(b, 0.0)).unwrap();
        let back = chain.lash_change(celsius(b), &every(a, 0.0)).unwrap();
        prop_assert!(abs_diff_eq!(there.mm(), -back.mm(), epsilon = ROUNDING_MM));
        let correction = chain.correction(celsius(a), &every(b, 0.0)).unwrap();
        let cold = Lash::from_mm(0.2).unwrap();
        let hot = cold + there;
        prop_assert!(abs_diff_eq!(correction.apply(hot).unwrap().mm(), 0.2, epsilon = ROUNDING_MM));
    }

    #[test]
    fn at_the_reference_there_is_nothing_to_correct(chain in a_chain(), c in -40.0..300.0) {
        let change = chain.lash_change(celsius(c), &every(c, 0.0)).unwrap();
        prop_assert!(abs_diff_eq!(change.mm(), 0.0, epsilon = ROUNDING_MM));
    }

    #[test]
    fn uncertainty_is_a_number_and_never_negative(
        chain in a_chain(), reference in -40.0..300.0,
        parts in proptest::array::uniform3(-40.0..300.0), u in 0.0..20.0,
    ) {
        let correction = chain.correction(celsius(reference), &all(parts, u)).unwrap();
        let got = correction.standard_uncertainty_mm();
        prop_assert!(got >= 0.0 && got.is_finite());
    }

    #[test]
    fn double_length_doubles_the_change(
        chain in a_chain(), parts in proptest::array::uniform3(-40.0..300.0),
    ) {
        let mut links = chain.links().to_vec();
        for link in &mut links {
            link.length = Length::from_mm(link.length.mm() * 2.0).unwrap();
        }
        let longer = Chain::new(links, chain.rocker_ratio()).unwrap();
        let temperatures = all(parts, 1.0);
        let once = chain.lash_change(celsius(20.0), &temperatures).unwrap().mm();
        let twice = longer.lash_change(celsius(20.0), &temperatures).unwrap().mm();
        prop_assert!(abs_diff_eq!(twice, 2.0 * once, epsilon = ROUNDING_MM));
    }

    #[test]
    fn order_of_the_links_is_of_no_matter(
        chain in a_chain(), parts in proptest::array::uniform3(-40.0..300.0),
    ) {
        let mut links = chain.links().to_vec();
        links.reverse();
        let turned = Chain::new(links, chain.rocker_ratio()).unwrap();
        let temperatures = all(parts, 3.0);
        let a = chain.correction(celsius(20.0), &temperatures).unwrap();
        let b = turned.correction(celsius(20.0), &temperatures).unwrap();
        prop_assert!(abs_diff_eq!(a.change.mm(), b.change.mm(), epsilon = ROUNDING_MM));
        prop_assert!(abs_diff_eq!(a.standard_uncertainty_mm(), b.standard_uncertainty_mm(), epsilon = ROUNDING_MM));
    }

    #[test]
    fn sensitivity_to_a_temperature_is_the_slope_of_the_change(
        chain in a_chain(), parts in proptest::array::uniform3(-30.0..290.0),
    ) {
        // All temperatures moved together by a small step either way, against the sum of the
        // budget's sensitivities; a knee of a curve may lie within the step.
        let step = 1e-3;
        let moved = |by: f64| {
            chain.lash_change(celsius(20.0), &all(parts.map(|c| c + by), 0.0)).unwrap().mm()
        };
        let slope = (moved(step) - moved(-step)) / (2.0 * step);
        let correction = chain.correction(celsius(20.0), &all(parts, 1.0)).unwrap();
        let sum: f64 = correction.budget.contributions().iter()
            .filter(|line| line.source.starts_with("temperature"))
            .map(|line| line.sensitivity)
            .sum();
        prop_assert!(abs_diff_eq!(slope, sum, epsilon = 2e-3), "{slope} {sum}");
    }

    #[test]
    fn a_fit_finds_the_line_the_readings_lie_on(
        per_kelvin in -0.002..0.002_f64, at_20 in 0.05..0.5_f64,
        warm in proptest::collection::vec(25.0..120.0_f64, 1..6), u in 0.001..0.02_f64,
    ) {
        let readings: Vec<_> = core::iter::once(20.0).chain(warm)
            .map(|c| (celsius(c), Lash::from_mm(at_20 + per_kelvin * (c - 20.0)).unwrap(), u))
            .collect();
        let fit = fit_coefficient(&readings).unwrap();
        prop_assert!(abs_diff_eq!(fit.coefficient.mm_per_kelvin, per_kelvin, epsilon = 1e-12));
        prop_assert!(abs_diff_eq!(fit.at_20.mm(), at_20, epsilon = 1e-12));
        prop_assert!(fit.coefficient.standard_uncertainty > 0.0);
    }
}
