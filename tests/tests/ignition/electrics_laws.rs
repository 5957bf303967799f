//! Laws of coil and plug on generated input.
#![allow(
    clippy::unwrap_used,
    reason = "a figure drawn in its range that is refused is a broken test"
)]

use approx::assert_relative_eq;
use lashwork::ignition::breaker::{BreakerCam, CamSpeed, Dwell, Lobes};
use lashwork::ignition::electrics::{
    Compression, Conductor, Paschen, PrimaryCircuit, Weak, linear_breakdown, resistance_at,
    voltage_reserve,
};
use lashwork::quantity::{AbsolutePressure, Advance, CrankSpeed, PlugGap, Temperature, Voltage};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};
use lashwork_tests::values::{celsius, kelvin};
use proptest::prelude::*;

fn about<Q: Measurand>(number: f64, u: f64) -> Estimate<Q> {
    let value = Q::from_number(number).unwrap();
    Estimate::between(value, value, Uncertainty::from_number(u).unwrap()).unwrap()
}

fn cam(lobes: u8) -> BreakerCam {
    BreakerCam {
        lobes: Lobes::new(lobes).unwrap(),
        speed: CamSpeed::HalfCrank,
    }
}

proptest! {
    #[test]
    fn a_resistance_there_and_back(ohms in 0.5..20_000.0_f64, from in -20.0..120.0_f64, to in -20.0..120.0_f64) {
        let at = |read: &Estimate<_>, from, to| {
            resistance_at(read, celsius(from), kelvin(0.0), celsius(to), Conductor::Copper).unwrap().resistance
        };
        let back = at(&at(&about(ohms, 0.0), from, to), to, from);
        assert_relative_eq!(back.centre().unwrap().ohms(), ohms, max_relative = 1e-13);
    }

    #[test]
    fn weak_speed_gives_back_what_was_wanted(
        volts in 5.0..15.0_f64, ohms in 0.5..5.0_f64, mh in 3.0..20.0_f64, lobes in 1_u8..=8, share in 0.3..0.95_f64,
    ) {
        let circuit = PrimaryCircuit { supply: about(volts, 0.0), resistance: about(ohms, 0.0), inductance: about(mh, 0.0) };
        let dwell = about::<Dwell>(0.6 * 360.0 / f64::from(lobes), 0.0);
        let weak = circuit.speed_at(Weak::BelowShareOfCurrent(share), cam(lobes), &dwell);
        prop_assume!(weak.is_ok());
        let speed = weak.unwrap().centre().unwrap();
        let found = circuit.at_speed(cam(lobes), &dwell, speed).unwrap();
        assert_relative_eq!(found.share_of_current, share, max_relative = 1e-10);
        // The same speed for the same current and the same energy.
        for same in [
            Weak::BelowCurrent(found.current.centre().unwrap()),
            Weak::BelowEnergy(found.energy.centre().unwrap()),
            Weak::BelowShareOfEnergy(found.share_of_energy),
        ] {
            let again = circuit.speed_at(same, cam(lobes), &dwell).unwrap();
            assert_relative_eq!(again.centre().unwrap().rpm(), speed.rpm(), max_relative = 1e-9);
        }
    }

    #[test]
    fn a_coil_holds_less_the_faster_it_runs(rpm in 100.0..9000.0_f64, mh in 3.0..20.0_f64) {
        let circuit = PrimaryCircuit { supply: about(12.0, 0.2), resistance: about(3.0, 0.1), inductance: about(mh, 0.3) };
        let at = |rpm: f64| circuit.at_speed(cam(4), &about::<Dwell>(55.0, 1.0), CrankSpeed::from_rpm(rpm).unwrap()).unwrap();
        let (slow, fast) = (at(rpm), at(rpm * 1.05));
        prop_assert!(fast.current.centre() <= slow.current.centre());
        prop_assert!(fast.energy.centre() <= slow.energy.centre());
        prop_assert!(slow.share_of_current > 0.0 && slow.share_of_current <= 1.0);
        // Never less uncertain than by the supply alone.
        let share = slow.current.standard_uncertainty().unwrap().number() / slow.current.centre().unwrap().amperes();
        prop_assert!(share >= 0.2 / 12.0 - 1e-12);
    }

    #[test]
    fn breakdown_grows_with_gap_and_pressure(mm in 0.2..1.2_f64, kpa in 90.0..2000.0_f64) {
        let gap = |mm| PlugGap::from_mm(mm).unwrap();
        let p = |kpa| AbsolutePressure::from_kilopascals(kpa).unwrap();
        let law = |mm: f64, kpa: f64| Paschen::AIR.breakdown(gap(mm), p(kpa)).unwrap();
        prop_assert!(law(mm * 1.01, kpa) > law(mm, kpa));
        // Only the product counts.
        assert_relative_eq!(law(mm * 1.5, kpa).volts(), law(mm, kpa * 1.5).volts(), max_relative = 1e-12);
        let line = linear_breakdown(gap(mm), p(kpa)).unwrap();
        prop_assert!(linear_breakdown(gap(mm), p(kpa * 1.01)).unwrap() > line);
        // Never below the least of the law.
        prop_assert!(law(mm, kpa).volts() > Paschen::AIR.minimum().0);
    }

    #[test]
    fn pressure_falls_with_advance_and_grows_with_ratio(ratio in 4.0..14.0_f64, before in 0.0..60.0_f64) {
        let at = |ratio: f64, before: f64| {
            let spark = Advance::from_degrees_before(before).unwrap();
            let charge = Compression::new(ratio, 1.3, 0.02, about(100.0, 2.0)).unwrap();
            let hot = charge.temperature_at(spark, Temperature::ISO_1).unwrap();
            (charge.pressure_at(spark).unwrap().0.centre().unwrap(), hot)
        };
        let ((near, hot), (far, warm)) = (at(ratio, before), at(ratio, before + 1.0));
        prop_assert!(far < near && warm < hot);
        prop_assert!(at(ratio * 1.01, before).0 > near);
    }

    #[test]
    fn more_voltage_is_never_less_likely_to_suffice(have in 5.0..40.0_f64, need in 8.0..30.0_f64) {
        let chance = |kv: f64| {
            let needed = Estimate::between(
                Voltage::from_volts(800.0 * need).unwrap(),
                Voltage::from_volts(1200.0 * need).unwrap(),
                Uncertainty::from_number(300.0).unwrap(),
            );
            voltage_reserve(&about(1000.0 * kv, 500.0), &needed.unwrap(), &Paschen::AIR).unwrap()
        };
        let (less, more) = (chance(have), chance(have + 0.5));
        prop_assert!(more.enough >= less.enough && more.volts > less.volts);
        prop_assert!((0.0..=1.0).contains(&less.enough));
    }
}
