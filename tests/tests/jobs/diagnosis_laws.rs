//! Laws of the diagnosis on generated readings, and one Bayes factor worked by hand.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "an index out of the causes found fails the test as it should"
)]

use approx::{abs_diff_eq, assert_abs_diff_eq};
use lashwork::diagnosis::{
    Diagnosis, Evidence, Prior, ReadingFault, Seen, Source, Status, Warming, diagnose,
};
use lashwork::engine::CylinderIndex;
use lashwork::quantity::{Lash, LashChange, LengthUnit};
use lashwork::tolerance::{Estimate, Uncertainty};
use lashwork::valve::ValveLimits;
use lashwork::valve::{ValveId, ValveKind};
use lashwork_tests::values::{band, mark, u};
use proptest::prelude::*;

fn source() -> Source {
    let limits = |set, low, high| ValveLimits::new(mark(set), band(low, high), None).unwrap();
    Source {
        intake: limits("0.20 mm", "0.17 mm", "0.23 mm"),
        exhaust: limits("0.30 mm", "0.27 mm", "0.33 mm"),
        warmth: LashChange::ZERO,
        warmth_uncertainty: Uncertainty::ZERO,
    }
}

/// Readings of valves in turn, intake first; in hundredths of a millimetre, 0.02 mm wide.
fn evidence(hundredths: &[u8], doubt: f64) -> Evidence {
    let readings = hundredths.iter().enumerate().map(|(i, low)| {
        let low = f64::from(*low) / 100.0;
        let felt = Estimate::between(
            Lash::from_mm(low).unwrap(),
            Lash::from_mm(low + 0.02).unwrap(),
            u(doubt),
        );
        Seen {
            valve: ValveId {
                cylinder: CylinderIndex::new(i / 2),
                kind: [ValveKind::Intake, ValveKind::Exhaust][i % 2],
                number: 1,
            },
            felt: felt.unwrap(),
            marked_in: LengthUnit::Millimetre,
        }
    });
    Evidence {
        readings: readings.collect(),
        sources: vec![source()],
        one_turn_out: vec![],
        warming: Warming::Unknown(Uncertainty::from_mm(0.1).unwrap()),
        prior: Prior::usual(),
    }
}

fn factor(diagnosis: &Diagnosis, cause: ReadingFault) -> f64 {
    let found = diagnosis.causes.iter().find(|c| c.cause == cause);
    found.unwrap().log10_bayes_factor
}

/// Four light drags felt with a spread of 10 mm, so that wear, drift and band are lost in it: what
/// is left of 'one number in the wrong unit' for a reading is a ratio of two normals at the set
/// value, the Jacobian times `u` over `k u` with `k u` the scaled doubt: 1 exactly. A valve unlike
/// the rest is the ratio of two normals at their means, as near 1.
#[test]
fn readings_that_tell_nothing_leave_every_factor_at_one() {
    let mut vague = evidence(&[20, 30, 20, 30], 0.0);
    for reading in &mut vague.readings {
        let centre = reading.felt.centre().unwrap();
        reading.felt = Estimate::between(centre, centre, u(10.0)).unwrap();
    }
    let found = diagnose(&vague).unwrap();
    for cause in &found.causes {
        // The greatest shift, 0.25 mm times 24.4 against 254 mm, moves a logarithm by under 1e-3.
        assert!(cause.log10_bayes_factor.abs() < 1e-3, "{cause:?}");
    }
    assert_abs_diff_eq!(found.nothing_special, 0.9, epsilon = 1e-3);
}

/// By hand, for a valve far from its kind. Intake set to 0.20 mm, half band 0.03 mm: the spread is
/// sqrt(0.03^2 / 3 + 0.015^2 + 0.02^2) = sqrt(0.000925) = 0.030414 mm. Three valves sit on their set
/// values, so the middle is 0 and the engine spreads no wider than its band; a drag at 0.60 mm is
/// 0.40 / 0.030414 = 13.15 spreads away.
#[test]
fn a_loose_valve_is_as_many_spreads_away_as_worked_by_hand() {
    let mut job = evidence(&[20, 30, 20, 30], 0.0);
    for (reading, mm) in job.readings.iter_mut().zip([0.20, 0.30, 0.60, 0.30]) {
        let at = Lash::from_mm(mm).unwrap();
        reading.felt = Estimate::between(at, at, Uncertainty::ZERO).unwrap();
    }
    let found = diagnose(&job).unwrap();
    assert_eq!(found.status, Status::OddValves);
    let [odd] = found.odd_valves.as_slice() else {
        panic!("{:?}", found.odd_valves);
    };
    assert_eq!(odd.reading, 2);
    assert!(odd.is_looser());
    assert_abs_diff_eq!(odd.off.mm(), 0.40, epsilon = 1e-9);
    assert_abs_diff_eq!(odd.spreads, 13.15, epsilon = 0.01);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// What moves all valves of a kind alike makes none of them odd.
    #[test]
    fn valves_that_moved_alike_are_not_odd(cylinders in 3_usize..9, by in 0_u8..40) {
        let marks: Vec<u8> = [20 + by, 30].repeat(cylinders);
        let found = diagnose(&evidence(&marks, 0.003)).unwrap();
        prop_assert!(found.odd_valves.is_empty(), "{:?}", found.odd_valves);
    }
}

#[test]
fn three_readings_are_too_few() {
    let found = diagnose(&evidence(&[30, 20, 30], 0.003)).unwrap();
    assert_eq!(found.status, Status::TooFewReadings);
    assert!(found.causes.is_empty());
}

#[test]
fn a_smaller_prior_asks_for_more_evidence() {
    let mut job = evidence(&[27, 18, 30, 20], 0.003);
    let posterior = |job: &Evidence| 1.0 - diagnose(job).unwrap().nothing_special;
    let usual = posterior(&job);
    job.prior = Prior::new(0.001).unwrap();
    assert!(posterior(&job) < usual);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn probabilities_sum_to_one(marks in prop::collection::vec(0_u8..200, 4..12)) {
        let found = diagnose(&evidence(&marks, 0.003)).unwrap();
        let special: f64 = found.causes.iter().map(|c| c.posterior).sum();
        prop_assert!(abs_diff_eq!(found.nothing_special + special, 1.0, epsilon = 1e-9));
        let prior: f64 = found.causes.iter().map(|c| c.prior).sum();
        prop_assert!(abs_diff_eq!(prior, 0.1, epsilon = 1e-12));
        prop_assert!(found.causes.iter().all(|c| c.log10_bayes_factor.is_finite()));
    }

    /// The order in which valves were read says nothing.
    #[test]
    fn the_order_of_readings_does_not_matter(
        marks in prop::collection::vec(5_u8..60, 4..10),
        turn in 1_usize..4,
    ) {
        let job = evidence(&marks, 0.003);
        let mut turned = job.clone();
        turned.readings.rotate_left(turn);
        let (a, b) = (diagnose(&job).unwrap(), diagnose(&turned).unwrap());
        prop_assert!(abs_diff_eq!(a.nothing_special, b.nothing_special, epsilon = 1e-9));
        for cause in &a.causes {
            let other = factor(&b, cause.cause);
            prop_assert!(abs_diff_eq!(cause.log10_bayes_factor, other, epsilon = 1e-8));
        }
    }

    /// Exchanged readings that fit perfectly speak less for an exchange the more doubtful they are.
    #[test]
    fn doubt_brings_a_factor_nearer_to_one(cylinders in 2_usize..6, doubt in 0.02_f64..0.2) {
        let marks: Vec<u8> = [29, 19].repeat(cylinders);
        let sure = diagnose(&evidence(&marks, 0.003)).unwrap();
        let vague = diagnose(&evidence(&marks, doubt)).unwrap();
        let (sure, vague) = (factor(&sure, ReadingFault::SwappedAll), factor(&vague, ReadingFault::SwappedAll));
        prop_assert!(0.0 < vague && vague < sure, "{} {}", vague, sure);
    }

    /// Readings thousands of spreads out, where every probability underflows.
    #[test]
    fn deep_tails_stay_numbers(mm in 1.0_f64..19.0, marks in prop::collection::vec(5_u8..60, 4..8)) {
        let mut job = evidence(&marks, 0.0);
        let at = |x: f64| Lash::from_mm(x).unwrap();
        job.readings[0].felt = Estimate::between(at(mm), at(mm + 0.01), u(0.0)).unwrap();
        job.readings[1].felt = Estimate::at_least(at(mm), u(0.0));
        job.readings[2].felt = Estimate::at_most(at(-mm), u(0.0));
        let found = diagnose(&job).unwrap();
        prop_assert!(found.nothing_special.is_finite());
        prop_assert!(found.causes.iter().all(|c| c.log10_bayes_factor.is_finite()));
    }
}

/// A band says what is allowed, not how closely valves were set: an engine set well within a wide
/// band does not follow another source because that one's band is narrow.
#[test]
fn a_narrower_band_alone_does_not_make_another_source_fit_better() {
    let mut job = evidence(&[19_u8, 29].repeat(12), 0.003);
    let limits = |set, low, high| ValveLimits::new(mark(set), band(low, high), None).unwrap();
    job.sources.push(Source {
        intake: limits("0.20 mm", "0.195 mm", "0.205 mm"),
        exhaust: limits("0.30 mm", "0.295 mm", "0.305 mm"),
        ..source()
    });
    let same = diagnose(&job).unwrap();
    assert!(same.not_weighed.contains(&ReadingFault::OtherSpecification));
    job.sources[1].intake = limits("0.17 mm", "0.165 mm", "0.175 mm");
    job.sources[1].exhaust = limits("0.27 mm", "0.265 mm", "0.275 mm");
    let less = diagnose(&job).unwrap();
    assert!(factor(&less, ReadingFault::OtherSpecification) < 0.0);
    assert_ne!(less.status, Status::WorthChecking);
}
