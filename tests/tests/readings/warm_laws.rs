//! Laws of cooling, of tables by temperature and of lock nuts.
#![allow(
    clippy::unwrap_used,
    reason = "a figure drawn in its range that is refused is a broken test"
)]

use approx::{abs_diff_eq, assert_abs_diff_eq};
use lashwork::Refusal;
use lashwork::adjust::{LockNut, LockingPair};
use lashwork::quantity::{Elapsed, Lash, Temperature};
use lashwork::statistics::RectangularNormal;
use lashwork::thermal::{
    CoolingFit, CoolingReading, LashCoefficient, TemperatureRange, ThermalError, Wait,
};
use lashwork::tolerance::{Limits, Uncertainty};
use lashwork_tests::values::{celsius, kelvin, mark, u};
use proptest::prelude::*;

/// A normal estimate against two limits.
fn conformance(y: f64, u: f64, lower: Option<f64>, upper: Option<f64>) -> (f64, f64, f64) {
    RectangularNormal { a: y, b: y, u }.split(lower, upper)
}

fn reading(minutes: f64, c: f64) -> CoolingReading {
    CoolingReading {
        after: Elapsed::from_minutes(minutes).unwrap(),
        temperature: celsius(c),
    }
}

/// Readings that follow the law exactly.
fn exact(air: f64, start: f64, rate: f64, minutes: &[f64]) -> Vec<CoolingReading> {
    let at = |m: &f64| reading(*m, air + (start - air) * (-rate * m).exp());
    minutes.iter().map(at).collect()
}

fn pairs(shifts: &[f64]) -> Vec<LockingPair> {
    let before = Lash::from_mm(0.3).unwrap();
    let after = |s: &f64| Lash::from_mm(0.3 + s).unwrap();
    shifts
        .iter()
        .map(|s| LockingPair {
            before,
            after: after(s),
        })
        .collect()
}

proptest! {
    /// Exact readings give the law back, with or without the air's temperature.
    #[test]
    fn the_law_is_found_again(
        air in -10.0..30.0_f64, above in 30.0..120.0_f64, rate in 0.01..0.08_f64, known: bool,
    ) {
        let readings = exact(air, air + above, rate, &[0.0, 10.0, 20.0, 40.0]);
        let fit = CoolingFit::new(&readings, known.then(|| celsius(air)), kelvin(0.5)).unwrap();
        let law = fit.cooling();
        prop_assert!(abs_diff_eq!(law.per_minute / rate, 1.0, epsilon = 1e-7), "{}", law.per_minute);
        prop_assert!(abs_diff_eq!(law.surroundings.celsius(), air, epsilon = 1e-4));
    }

    /// A watch started earlier changes nothing.
    #[test]
    fn only_times_between_readings_count(rate in 0.01..0.08_f64, later in 0.0..500.0_f64) {
        let readings = exact(20.0, 95.0, rate, &[0.0, 10.0, 25.0]);
        let moved: Vec<CoolingReading> = readings
            .iter()
            .map(|r| reading(r.after.minutes() + later, r.temperature.celsius()))
            .collect();
        let fit = |r: &[CoolingReading]| CoolingFit::new(r, None, kelvin(0.3)).unwrap();
        let (a, b) = (fit(&readings).cooling(), fit(&moved).cooling());
        prop_assert!(abs_diff_eq!(a.per_minute / b.per_minute, 1.0, epsilon = 1e-6));
    }

    /// After the wait the correction is as sure as wanted, and just before it is not.
    #[test]
    fn the_wait_ends_where_the_limit_is_met(
        rate in 0.01..0.06_f64, reference in 0.0..60.0_f64, slope_u in 1e-5..5e-4_f64,
        limit in 0.0005..0.02_f64, own in 0.0..2.0_f64,
    ) {
        let readings = exact(20.0, 110.0, rate, &[0.0, 10.0, 20.0, 30.0]);
        let fit = CoolingFit::new(&readings, Some(celsius(20.0)), kelvin(0.2)).unwrap();
        let rule = LashCoefficient::new(0.001, slope_u, None).unwrap();
        let at = |t: Temperature| -> Result<Uncertainty<Lash>, ThermalError> {
            let correction = rule.correction(t, kelvin(own), celsius(reference))?;
            Ok(Uncertainty::from_mm(correction.standard_uncertainty_mm())?)
        };
        let now = fit.now().unwrap();
        match fit.wait(u(limit), at).unwrap() {
            Wait::Already => prop_assert!(at(now).unwrap().mm() <= limit),
            Wait::Never => {
                // The nearest the metal comes to the reference.
                let nearest = reference.clamp(20.0, now.celsius());
                prop_assert!(at(celsius(nearest)).unwrap().mm() > limit * (1.0 - 1e-9));
            }
            Wait::For { time, at: target, stays, .. } => {
                let then = fit.cooling().temperature_at(30.0 + time.minutes()).unwrap();
                prop_assert!(abs_diff_eq!((then - target).kelvin(), 0.0, epsilon = 1e-6));
                prop_assert!(at(target).unwrap().mm() <= limit * (1.0 + 1e-9));
                let warmer = celsius(target.celsius() + 0.01);
                prop_assert!(at(warmer).unwrap().mm() > limit);
                prop_assert_eq!(stays, at(fit.cooling().surroundings).unwrap().mm() <= limit);
            }
            Wait::BeyondReach { at: target } => {
                prop_assert!(target < now);
                prop_assert!(at(target).unwrap().mm() <= limit * (1.0 + 1e-9));
            }
            other => prop_assert!(false, "{:?}", other),
        }
    }

    /// A stricter limit never makes the wait shorter.
    #[test]
    fn a_stricter_limit_waits_longer(limit in 0.002..0.02_f64, stricter in 0.3..1.0_f64) {
        let readings = exact(20.0, 110.0, 0.03, &[0.0, 10.0, 20.0, 30.0]);
        let fit = CoolingFit::new(&readings, Some(celsius(20.0)), kelvin(0.2)).unwrap();
        let wait = |mm: f64| {
            let wait = fit.wait(u(mm), |t| Ok(u(0.0003 * (t.celsius() - 20.0).abs())));
            match wait.unwrap() {
                Wait::Already => 0.0,
                Wait::For { time, .. } => time.minutes(),
                _ => f64::INFINITY,
            }
        };
        prop_assert!(wait(limit * stricter) >= wait(limit));
    }

    /// The chances of the next gap are chances, and mirror when everything does.
    #[test]
    fn chances_of_the_next_gap_sum_to_one_and_mirror(
        shifts in prop::collection::vec(-0.05..0.05_f64, 2..12), gap_u in 0.0..0.02_f64,
        low in 0.10..0.20_f64, width in 0.005..0.1_f64,
    ) {
        let set = Lash::from_mm(0.2).unwrap();
        let text = |mm: f64| mark(&format!("{mm:.6} mm"));
        let band = Limits::between(text(low), text(low + width)).unwrap();
        let mirrored = Limits::between(text(0.4 - low - width), text(0.4 - low)).unwrap();
        let negated: Vec<f64> = shifts.iter().map(|s| -s).collect();
        let chances = |shifts: &[f64], band: &Limits<Lash>| {
            let nut = LockNut::learn(&pairs(shifts), u(gap_u)).unwrap();
            nut.after(set, Uncertainty::ZERO).unwrap().probabilities(band)
        };
        let (p, q) = (chances(&shifts, &band), chances(&negated, &mirrored));
        let sum = p.below.least + p.in_band.least + p.above.least;
        prop_assert!(abs_diff_eq!(sum, 1.0, epsilon = 1e-11));
        prop_assert!(abs_diff_eq!(p.below.least, q.above.least, epsilon = 1e-5));
        prop_assert!(abs_diff_eq!(p.in_band.least, q.in_band.least, epsilon = 1e-5));
    }

    /// Few pairs promise less than the normal distribution of the same spread would.
    #[test]
    fn a_small_sample_is_never_surer_than_a_known_spread(
        shifts in prop::collection::vec(-0.03..0.03_f64, 2..8), half in 0.01..0.2_f64,
    ) {
        let nut = LockNut::learn(&pairs(&shifts), Uncertainty::ZERO).unwrap();
        let spread = nut.spread().unwrap().mm();
        prop_assume!(spread > 1e-4);
        let set = nut.before(Lash::from_mm(0.3).unwrap());
        let text = |mm: f64| mark(&format!("{mm:.6} mm"));
        let band = Limits::between(text(0.3 - half), text(0.3 + half)).unwrap();
        let next = nut.after(set, Uncertainty::ZERO).unwrap();
        let n = shifts.len() as f64;
        let known = spread * (1.0 + 1.0 / n).sqrt();
        let (_, inside, _) = conformance(0.3, known, Some(0.3 - half), Some(0.3 + half));
        prop_assert!(next.probabilities(&band).in_band.least <= inside + 1e-4);
    }

    /// A table starts at its start, rises by its step and stays within its end and its length.
    #[test]
    fn a_table_of_temperatures_keeps_its_bounds(
        from in -40.0..200.0_f64, span in 0.0..300.0_f64, step in 0.1..80.0_f64,
    ) {
        match TemperatureRange::new(celsius(from), celsius(from + span), kelvin(step)) {
            Ok(range) => {
                let points = range.points().unwrap();
                prop_assert!(abs_diff_eq!(points[0].celsius(), from, epsilon = 1e-9));
                prop_assert!(points.len() <= 200);
                let last = points[points.len() - 1].celsius();
                prop_assert!(last <= from + span + 1e-6 * step && last > from + span - step * 1.000_001);
            }
            Err(error) => {
                prop_assert_eq!(error.code(), "thermal.range-points");
                prop_assert!(span / step >= 199.9);
            }
        }
    }
}

#[test]
fn readings_that_no_cooling_makes_are_refused() {
    let air = Some(celsius(20.0));
    let one = kelvin(1.0);
    let code = |r: &[CoolingReading], air, u| CoolingFit::new(r, air, u).unwrap_err().code();
    let hot = reading(0.0, 90.0);
    let cases = [
        (vec![hot], air, one, "thermal.too-few-readings"),
        (
            vec![hot, reading(9.0, 70.0)],
            None,
            one,
            "thermal.too-few-readings",
        ),
        (vec![hot, reading(0.0, 70.0)], air, one, "thermal.times"),
        (
            vec![reading(9.0, 90.0), reading(0.0, 70.0)],
            air,
            one,
            "thermal.times",
        ),
        (
            vec![hot, reading(9.0, 95.0)],
            air,
            one,
            "thermal.not-cooling",
        ),
        (
            vec![hot, reading(9.0, 14.0)],
            air,
            one,
            "thermal.not-cooling",
        ),
        (
            vec![hot, reading(9.0, 70.0)],
            air,
            kelvin(0.0),
            "thermal.uncertainty",
        ),
        (
            vec![hot, reading(10.0, 80.0), reading(20.0, 70.0)],
            None,
            one,
            "thermal.no-bend",
        ),
    ];
    for (readings, air, u, expected) in cases {
        assert_eq!(code(&readings, air, u), expected, "{readings:?}");
    }
    let many: Vec<CoolingReading> = (0..1001_u32).map(|i| reading(f64::from(i), 90.0)).collect();
    assert_eq!(code(&many, air, one), "thermal.too-many-readings");
}

/// Published: 95 to 61 C in 30 minutes in air of 20 C, a rate of 0.02 a minute (a textbook's worked
/// example of Newton's law); 0.0201305348944001 computed from it.
#[test]
fn two_readings_and_the_air_give_the_published_rate() {
    let readings = [reading(0.0, 95.0), reading(30.0, 61.0)];
    let fit = CoolingFit::new(&readings, Some(celsius(20.0)), kelvin(0.5)).unwrap();
    assert_abs_diff_eq!(
        fit.cooling().per_minute,
        0.020_130_534_894_400_1,
        epsilon = 1e-14
    );
    assert_eq!((fit.degrees_of_freedom(), fit.scatter()), (0, None));
}

/// Published: 70, 60 and 53 C at equal times lead to surroundings of 110/3 C.
#[test]
fn three_readings_find_the_surroundings() {
    let readings = [reading(0.0, 70.0), reading(10.0, 60.0), reading(20.0, 53.0)];
    let fit = CoolingFit::new(&readings, None, kelvin(0.5)).unwrap();
    assert_abs_diff_eq!(
        fit.cooling().surroundings.celsius(),
        110.0 / 3.0,
        epsilon = 1e-9
    );
}

/// Nothing known, a shift without spread, and both: what may be said grows with the pairs.
#[test]
fn no_pair_one_pair_and_two() {
    let learn = |shifts: &[f64]| LockNut::learn(&pairs(shifts), u(0.01)).unwrap();
    let target = Lash::from_mm(0.2).unwrap();
    let none = learn(&[]);
    assert_eq!(
        (none.mean(), none.spread(), none.before(target)),
        (None, None, target)
    );
    let one = learn(&[0.02]);
    assert_abs_diff_eq!(one.before(target).mm(), 0.18, epsilon = 1e-12);
    assert_eq!((one.spread(), one.half_width(0.95)), (None, None));
    assert!(one.after(target, Uncertainty::ZERO).is_none());
    // Alike pairs are no certainty: what each gap is good for stays.
    let alike = learn(&[0.02, 0.02]);
    let band = Limits::between(mark("0.19 mm"), mark("0.21 mm")).unwrap();
    let p = alike
        .after(alike.before(target), Uncertainty::ZERO)
        .unwrap()
        .probabilities(&band);
    // 0.01 mm over 0.01 times the root of 2.
    let (_, inside, _) = conformance(0.2, 0.01 * 2.0_f64.sqrt(), Some(0.19), Some(0.21));
    assert_abs_diff_eq!(p.in_band.least, inside, epsilon = 1e-12);
    let unit_slip = LockNut::learn(&pairs(&[0.6]), u(0.01)).unwrap_err();
    assert_eq!(unit_slip.code(), "adjust.locking-pair");
}

#[test]
fn a_refusal_names_the_reading_and_how_many_are_needed() {
    let hot = reading(0.0, 90.0);
    let refused = |r: &[CoolingReading], air| CoolingFit::new(r, air, kelvin(1.0)).unwrap_err();
    let early = [hot, reading(9.0, 70.0), reading(5.0, 65.0)];
    let error = refused(&early, Some(celsius(20.0)));
    assert!(matches!(error, ThermalError::Times { reading: 2, .. }));
    let two = refused(&[hot, reading(9.0, 70.0)], None);
    assert!(two.hint().contains("three times"), "{}", two.hint());
    let one = refused(&[hot], Some(celsius(20.0)));
    assert!(one.hint().contains("two temperatures"), "{}", one.hint());
}
