//! Magnetos against published figures, and what is refused.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::engine::Sense;
use lashwork::ignition::magneto::{
    ContactsAdvice, DropFinding, DropTest, ExternalTiming, ImpulseCoupling, InternalTiming,
    MagnetoCaution, MagnetoSpeed, Pair, SpeedDrop, Which,
};
use lashwork::quantity::{Advance, CrankSpeed, Cycle, MagnetoAngle};
use lashwork::tolerance::{Estimate, HasLimits, Verdict};
use lashwork_tests::values::deg;
use proptest::prelude::*;

fn mag(degrees: f64) -> MagnetoAngle {
    MagnetoAngle::from_degrees(degrees).unwrap()
}

fn at<Q: HasLimits>(number: f64, u: f64) -> Estimate<Q> {
    Estimate::from_numbers(number, number, u).unwrap()
}

fn before(degrees: f64) -> Advance {
    Advance::from_degrees_before(degrees).unwrap()
}

/// Published: the US power plant handbook's text (flight-mechanic.com, bench timing of a magneto without
/// marks): contacts open 10 degrees past neutral; their gap then is 0.018 in +- 0.006 in; outside it they are
/// set and the opening checked again; contacts that cannot be set to open at the right time are replaced.
/// The band of the 10 degrees, +- 2, is from memory.
#[test]
fn opening_and_gap_are_two_conditions() {
    let advice = |e_gap: f64, gap_in: f64| {
        let timing = InternalTiming {
            e_gap: at(e_gap, 0.2),
            e_gap_limits: "8 deg to 12 deg".parse().unwrap(),
            gap: at(gap_in * 25.4, 0.01),
            gap_limits: "0.012 in to 0.024 in".parse().unwrap(),
        };
        timing.judged().advice
    };
    assert_eq!(advice(10.0, 0.018), ContactsAdvice::Leave);
    // Opening at the right place with a gap outside: replaced, never moved.
    assert_eq!(advice(10.0, 0.010), ContactsAdvice::Replace);
    assert_eq!(advice(10.0, 0.026), ContactsAdvice::Replace);
    // No room left: setting it right would take the gap further out.
    assert_eq!(advice(14.0, 0.026), ContactsAdvice::Replace);
    assert_eq!(advice(5.0, 0.010), ContactsAdvice::Replace);
    // Published (themagnetoguys.co.uk, points gap): closing the gap retards, opening it advances.
    assert_eq!(advice(14.0, 0.018), ContactsAdvice::SetWider);
    assert_eq!(advice(14.0, 0.010), ContactsAdvice::SetWider);
    assert_eq!(advice(5.0, 0.018), ContactsAdvice::SetCloser);
    assert_eq!(advice(5.0, 0.026), ContactsAdvice::SetCloser);
    // The printed millimetres of the same page, 0.46 +- 0.15, are its inches rounded.
    assert_abs_diff_eq!(0.018 * 25.4, 0.46, epsilon = 0.005);
    assert_abs_diff_eq!(0.006 * 25.4, 0.15, epsilon = 0.005);
}

/// Published: a tractor owners' board (yesterdaystractors.com, farmall 467601): 14 magneto degrees at half
/// crank speed are 28 of the crank running, if the coupling trips at top dead centre.
#[test]
fn impulse_lag_at_half_speed_doubles() {
    let half = ImpulseCoupling::new(mag(14.0), MagnetoSpeed::HALF).unwrap();
    assert_eq!(half.running_from(Advance::TDC).unwrap(), before(28.0));
    assert_eq!(half.trips_at(before(28.0)).unwrap(), Advance::TDC);
    // The same magneto at crank speed: half as much.
    let full = ImpulseCoupling::new(mag(14.0), MagnetoSpeed::FULL).unwrap();
    assert_eq!(full.running_from(Advance::TDC).unwrap(), before(14.0));
    // 22 running with 14 at crank speed trips 8 before: by hand it kicks back.
    let trips = full.trips_at(before(22.0)).unwrap();
    assert_eq!(full.caution(trips), Some(MagnetoCaution::KicksBack));
    assert_eq!(full.caution(Advance::TDC), None);
    // 28 taken for magneto degrees at half speed with a book point of 20: nobody runs at 76.
    let slip = ImpulseCoupling::new(mag(28.0), MagnetoSpeed::HALF).unwrap();
    let refused = slip.running_from(before(20.0)).unwrap_err();
    assert_eq!(refused.code(), "ignition.running-point");
    for lag in [0.0, -5.0, 61.0] {
        let refused = ImpulseCoupling::new(mag(lag), MagnetoSpeed::HALF).unwrap_err();
        assert_eq!(refused.code(), "ignition.impulse-lag");
    }
}

fn drops(both: f64, left: f64, right: f64, u: f64) -> DropTest {
    let rpm = |rpm| CrankSpeed::from_rpm(rpm).unwrap();
    DropTest {
        both: rpm(both),
        left_alone: rpm(left),
        right_alone: rpm(right),
        reading: rpm(u),
        most_drop: None,
        most_difference: SpeedDrop::from_rpm(75.0).unwrap(),
    }
}

/// Published: a 1968 two-seater's owner's handbook, p. 18 (manualshive.com): at 1700 rpm the two drops
/// differ by at most 75 rpm; no drop at all means a side that is not grounded, or timing too far advanced.
#[test]
fn drops_differ_by_at_most_75() {
    let good = drops(1700.0, 1625.0, 1600.0, 5.0).judged().unwrap();
    assert!(good.findings.is_empty());
    assert_abs_diff_eq!(good.difference.rpm(), 25.0);
    assert_eq!(good.difference_judgement.verdict, Verdict::InBand);
    assert_eq!(good.cautions, [MagnetoCaution::PropellerIsLive]);
    let edge = drops(1700.0, 1675.0, 1600.0, 5.0).judged().unwrap();
    assert_eq!(edge.difference_judgement.verdict, Verdict::InBand);
    let apart = drops(1700.0, 1675.0, 1590.0, 5.0).judged().unwrap();
    let weaker = Which::Right;
    assert_eq!(apart.findings, [DropFinding::Apart { weaker }]);
    // Two readings of 5 rpm: the one on both is in both drops and falls out of their difference.
    assert_abs_diff_eq!(
        apart.difference_uncertainty.rpm(),
        50.0_f64.sqrt(),
        epsilon = 1e-12
    );

    // On the left one alone nothing changes: the right one still sparks.
    let hot = drops(1700.0, 1700.0, 1640.0, 5.0).judged().unwrap();
    let not_earthed = Which::Right;
    assert_eq!(hot.findings, [DropFinding::NoDrop { not_earthed }]);
    assert!(hot.cautions.contains(&MagnetoCaution::SwitchMayNotEarth));
    // A drop no larger than the readings err is none; with a finer tachometer it is one.
    let small = |u| drops(1700.0, 1692.0, 1640.0, u).judged().unwrap().findings;
    assert_eq!(small(10.0), [DropFinding::NoDrop { not_earthed }]);
    assert!(small(2.0).is_empty());
    // The dangerous one stands first, whatever else there is.
    let two = drops(1700.0, 1700.0, 1500.0, 5.0).judged().unwrap();
    assert!(matches!(two.findings[0], DropFinding::NoDrop { .. }));
    assert_eq!(two.findings.len(), 2);
    let mut limited = drops(1700.0, 1500.0, 1480.0, 5.0);
    limited.most_drop = Some(SpeedDrop::from_rpm(150.0).unwrap());
    let too_much = [Which::Left, Which::Right].map(|alone| DropFinding::TooMuch { alone });
    assert_eq!(limited.judged().unwrap().findings, too_much);
}

#[test]
fn drop_tests_that_cannot_be_are_refused() {
    let code = |test: DropTest| test.judged().unwrap_err().code();
    assert_eq!(
        code(drops(1700.0, 0.0, 1600.0, 5.0)),
        "ignition.not-running"
    );
    assert_eq!(
        code(drops(1700.0, 1800.0, 1600.0, 5.0)),
        "ignition.faster-on-one"
    );
    let mut none = drops(1700.0, 1620.0, 1600.0, 5.0);
    none.most_difference = SpeedDrop::from_rpm(0.0).unwrap();
    assert_eq!(code(none), "ignition.allowed-difference");
}

/// Published: the firing point of external timing is typically 20 to 24 degrees before top dead centre, held
/// to 1 or 2 degrees (the same handbook's text, external timing).
#[test]
fn external_timing_within_a_degree_or_two() {
    for (speed, turn) in [(0.5, 1.5), (1.0, 3.0), (1.5, 4.5)] {
        let timing = ExternalTiming {
            read: at(25.0, 0.3),
            limits: "21 deg BTDC to 23 deg BTDC".parse().unwrap(),
            speed: MagnetoSpeed::new(speed).unwrap(),
            rotor: Sense::Clockwise,
        };
        let early = timing.judged().unwrap();
        assert_eq!(early.judgement.verdict, Verdict::Above);
        let found = early.turn.unwrap();
        assert_abs_diff_eq!(found.angle.degrees(), turn, epsilon = 1e-12);
        assert_abs_diff_eq!(
            found.standard_uncertainty.degrees(),
            0.3 * speed,
            epsilon = 1e-12
        );
        // Later: with the rotor.
        assert_eq!(found.sense, Sense::Clockwise);
        let right = ExternalTiming {
            read: at(22.0, 0.3),
            ..timing
        };
        assert!(right.judged().unwrap().turn.is_none());
        let code = |timing: ExternalTiming| timing.judged().unwrap_err().code();
        let far = ExternalTiming {
            read: at(50.0, 0.3),
            ..timing
        };
        assert_eq!(code(far), "ignition.running-point");
        let one = "at least 21 deg BTDC".parse().unwrap();
        let open = ExternalTiming {
            limits: one,
            ..timing
        };
        assert_eq!(code(open), "ignition.one-end");
    }
}

#[test]
fn two_magnetos_are_timed_alike() {
    let pair = |left: f64, right: f64| Pair {
        left: at(left, 0.3),
        right: at(right, 0.4),
        most_apart: deg(2.0),
    };
    let alike = pair(22.0, 21.0).judged().unwrap();
    assert_eq!(
        (alike.difference.degrees_late(), alike.earlier),
        (1.0, None)
    );
    assert_abs_diff_eq!(alike.standard_uncertainty.degrees(), 0.5, epsilon = 1e-12);
    let apart = pair(20.0, 24.0).judged().unwrap();
    assert_eq!(apart.earlier, Some(Which::Right));
    let none = Pair {
        most_apart: deg(0.0),
        ..pair(22.0, 22.0)
    };
    assert_eq!(
        none.judged().unwrap_err().code(),
        "ignition.allowed-difference"
    );
}

/// Published: sparks a minute of a four-stroke are cylinders times crank speed over two; from memory: a
/// four with two sparks a magneto turn runs at crank speed, a six with two at one and a half.
#[test]
fn speed_follows_from_the_sparks() {
    let speed = |cylinders, cycle, sparks| MagnetoSpeed::for_sparks(cylinders, cycle, sparks);
    assert_eq!(speed(4, Cycle::FourStroke, 2), Ok(MagnetoSpeed::FULL));
    assert_eq!(speed(4, Cycle::FourStroke, 4), Ok(MagnetoSpeed::HALF));
    assert_eq!(speed(6, Cycle::FourStroke, 2), MagnetoSpeed::new(1.5));
    assert_eq!(speed(1, Cycle::TwoStroke, 1), Ok(MagnetoSpeed::FULL));
    for refused in [
        speed(4, Cycle::FourStroke, 0),
        speed(0, Cycle::FourStroke, 2),
    ] {
        assert_eq!(refused.unwrap_err().code(), "ignition.magneto-speed");
    }
    assert!(MagnetoSpeed::new(f64::NAN).is_err());
}

proptest! {
    /// There and back: trips and running point, crank and magneto.
    #[test]
    fn there_and_back(lag in 1.0..30.0_f64, ratio in 0.5..3.0_f64, running in 0.0..45.0_f64) {
        let speed = MagnetoSpeed::new(ratio).unwrap();
        let coupling = ImpulseCoupling::new(mag(lag), speed).unwrap();
        let trips = coupling.trips_at(before(running)).unwrap();
        let back = coupling.running_from(trips).unwrap();
        prop_assert!((back - before(running)).degrees().abs() < 1e-9);
        let angle = speed.at_magneto(speed.at_crank(mag(lag)));
        prop_assert!((angle.degrees() - lag).abs() < 1e-9);
    }
}
