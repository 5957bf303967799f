//! Drawn engines show what published figures say engines show, whatever the kernel says of them.

use super::engine::{Engine, Gasket};
use super::mechanic::Mechanic;
use super::physics::{self, crank, exhaust, stands};
use fastrand::Rng;
use lashwork::causes::Cause;

const N: usize = 1500;

fn drawn(seed: u64) -> Vec<(Engine, Rng)> {
    let mut rng = Rng::with_seed(seed);
    (0..N)
        .map(|_| {
            let mut own = Rng::with_seed(rng.u64(..));
            (Engine::draw(&mut own), own)
        })
        .collect()
}

/// Shares of a list for which something holds.
fn share<T>(all: &[T], holds: impl Fn(&T) -> bool) -> f64 {
    all.iter().filter(|own| holds(own)).count() as f64 / all.len().max(1) as f64
}

fn only(all: &[(Engine, Rng)], fault: Option<Cause>) -> Vec<&(Engine, Rng)> {
    let wanted: Vec<Cause> = fault.into_iter().collect();
    all.iter()
        .filter(|(engine, _)| engine.faults == wanted && engine.nuisance.is_none())
        .collect()
}

fn cranked(engine: &Engine) -> Vec<f64> {
    (0..engine.cylinders)
        .map(|at| crank(engine, at, 200.0, 0.0).last)
        .collect()
}

fn evenness(engine: &Engine) -> f64 {
    let all = cranked(engine);
    let (low, high) = all
        .iter()
        .fold((f64::MAX, 0.0_f64), |(l, h), p| (l.min(*p), h.max(*p)));
    low / high
}

/// Two equal nozzles behind 80 psi of supply stand at 61.77 psi, at 5000 ft at 62.24; 1.0586 times the tester's
/// area at 60 psi, 0.4867 at 75 (isentropic flow through two nozzles in a row, worked by hand).
#[test]
fn a_leak_stands_where_two_nozzles_let_it() {
    let psi = 6.894_757;
    for (area, air, psi_shown) in [
        (1.0, 101.325, 61.77),
        (1.0, 84.31, 62.24),
        (1.0586, 101.325, 60.0),
        (0.4867, 101.325, 75.0),
    ] {
        let shown = stands(80.0 * psi, 1.0, area, air) / psi;
        assert!((shown - psi_shown).abs() < 0.02, "{area} {air}: {shown}");
    }
}

/// Sound engines pass what books ask: 60 of 80 psi (FAA AC 43.13-1B), the lowest at 75 % of the highest (Ford 1992-97),
/// 51 to 74 kPa of vacuum at sea level (Ford service text); 0.7 to 1.45 MPa of cranking (printed minima of 690 kPa, GM).
#[test]
fn sound_engines_pass_what_books_ask() {
    let all = drawn(1);
    let sound = only(&all, None);
    assert!(
        (0.35..0.55).contains(&(sound.len() as f64 / N as f64)),
        "{}",
        sound.len()
    );
    let hole = 0.811;
    let least = |engine: &Engine| {
        (0..engine.cylinders)
            .map(|at| stands(551.6, hole, engine.leaks(at).iter().sum(), engine.air()))
            .fold(f64::MAX, f64::min)
    };
    let tight = share(&sound, |own| least(&own.0) > 60.0 * 6.894_757);
    let even = share(&sound, |own| evenness(&own.0) > 0.75);
    let cranks = share(&sound, |own| {
        let sea = 101.325 / own.0.air();
        cranked(&own.0)
            .iter()
            .all(|p| (700.0..1450.0).contains(&(p * sea)))
    });
    let draws = share(&sound, |own| {
        let vacuum = Mechanic::new(&own.0, own.1.clone()).idling.vacuum;
        (51.0..74.0).contains(&(vacuum * 101.325 / own.0.air()))
    });
    assert!(tight > 0.95 && even > 0.97 && cranks > 0.95 && draws > 0.93);
}

/// A gauge at 5000 ft shows 124.8 psi of what it shows 150 of at sea level: absolute pressures go with the air.
#[test]
fn cranking_goes_with_the_air() {
    let (mut engine, _) = drawn(2).swap_remove(0);
    engine.altitude = 0.0;
    let sea = crank(&engine, 0, 200.0, 0.0).last;
    engine.altitude = 1524.0;
    let high = crank(&engine, 0, 200.0, 0.0).last;
    assert!(
        (high / sea - engine.air() / 101.325).abs() < 1e-3,
        "{high} {sea}"
    );
}

/// Lambda of the gas by Brettschneider (Bosch Technische Berichte 6, 1979) is the one burnt; carbon monoxide is about
/// 1.9 % at 0.95 and 3.7 % at 0.90 (a forum's table, weak); a missed spark shows in oxygen and hydrocarbons.
#[test]
fn gas_says_what_was_burnt() {
    let burns = |lambda: f64, missed: f64| {
        exhaust(&physics::Idling {
            vacuum: 60.0,
            drop: 0.0,
            often: 0.0,
            steadies: false,
            lambda: vec![lambda],
            missed: vec![missed],
        })
    };
    for lambda in [0.75, 0.85, 0.95, 1.0, 1.1, 1.2] {
        let gas = burns(lambda, 0.0);
        let (co, co2, o2, hc) = (gas.co, gas.co2, gas.o2, gas.hc);
        let hydrogen = 1.85 / 4.0 * 3.5 / (3.5 + co / co2);
        let found = (co2 + co / 2.0 + o2 + hydrogen * (co2 + co))
            / ((1.0 + 1.85 / 4.0) * (co2 + co + 6.0 * hc));
        assert!((found - lambda).abs() < 0.02, "{lambda}: {found}");
    }
    assert!((burns(0.95, 0.0).co - 0.019).abs() < 0.006);
    assert!((burns(0.90, 0.0).co - 0.037).abs() < 0.008);
    let (fires, misses) = (burns(0.94, 0.0), burns(0.94, 0.25));
    assert!(misses.o2 > fires.o2 + 0.03 && misses.hc > 5.0 * fires.hc && misses.co < fires.co);
}

/// What the books name as the signs of a fault is what most engines with it show (compression tests of GM and Ford
/// service texts, OD 1001 for the needle).
#[test]
fn faults_show_their_signs() {
    let all = drawn(3);
    let sound = only(&all, None);
    let vacuum = |own: &(Engine, Rng)| {
        Mechanic::new(&own.0, own.1.clone()).idling.vacuum * 101.325 / own.0.air()
    };
    let mean =
        |own: &[&(Engine, Rng)]| own.iter().map(|e| vacuum(e)).sum::<f64>() / own.len() as f64;
    let usual = mean(&sound);
    for fault in [
        Cause::RingsWorn,
        Cause::SparkLate,
        Cause::IntakeLeak,
        Cause::CamToothOut,
    ] {
        let own = only(&all, Some(fault));
        assert!(mean(&own) < usual - 1.0, "{fault:?}");
    }
    let burnt = only(&all, Some(Cause::ValveBurnt));
    let uneven = share(&burnt, |own| evenness(&own.0) < 0.85);
    // Oil helps rings and not valves.
    let oil = |engine: &Engine| {
        let at = (0..engine.cylinders)
            .min_by(|a, b| {
                crank(engine, *a, 200.0, 0.0)
                    .last
                    .total_cmp(&crank(engine, *b, 200.0, 0.0).last)
            })
            .unwrap();
        crank(engine, at, 200.0, 4000.0).last / crank(engine, at, 200.0, 0.0).last
    };
    let rise =
        |all: &[&(Engine, Rng)]| all.iter().map(|own| oil(&own.0)).sum::<f64>() / all.len() as f64;
    let rings = only(&all, Some(Cause::RingsWorn));
    assert!(uneven > 0.35 && rise(&rings) > rise(&burnt) + 0.08);
    let gaskets: Vec<_> = only(&all, Some(Cause::HeadGasket))
        .into_iter()
        .filter(|own| matches!(own.0.gasket, Some((Gasket::Neighbour(_), _))))
        .collect();
    let pairs = share(&gaskets, |own| {
        let Some((Gasket::Neighbour(at), _)) = own.0.gasket else {
            return false;
        };
        let all = cranked(&own.0);
        let others = (0..all.len())
            .filter(|i| *i != at && *i != at + 1)
            .map(|i| all[i]);
        let lowest = others.fold(f64::MAX, f64::min);
        all[at] < lowest && all[at + 1] < lowest
    });
    assert!(pairs > 0.8);
}
