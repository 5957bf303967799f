//! Lash and events against published signs and rows computed apart.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::read::{PSI, about, crank};
use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::condition::compression::{Cranking, Exponent};
use lashwork::engine::CompressionRatio;
use lashwork::events::{EventsAssumption, EventsError, Flank, RunningEvents, RunningValve};
use lashwork::quantity::{CrankAngle, Lash, Length};
use lashwork::tolerance::{Estimate, Uncertainty};
use lashwork::valve::{CamEvents, EventsAt};
use proptest::prelude::*;

fn mm(mm: f64) -> Length {
    Length::from_mm(mm).unwrap()
}

fn lash(mm: f64) -> Lash {
    Lash::from_mm(mm).unwrap()
}

fn deg(degrees: f64) -> CrankAngle {
    CrankAngle::from_degrees(degrees).unwrap()
}

fn ramp(height: f64, slope: f64) -> Flank {
    Flank::ramp(mm(height), mm(slope)).unwrap()
}

fn valve(flank: Flank, printed: f64, running: f64, u: f64) -> RunningValve {
    RunningValve {
        lash: about(running, u),
        holds_at: EventsAt::Lash(lash(printed)),
        opening: flank,
        closing: flank,
        rocker: 1.0,
    }
}

fn engine(angles: [f64; 4], valve: RunningValve) -> RunningEvents {
    let [a, b, c, d] = angles.map(deg);
    RunningEvents {
        printed: CamEvents::new(a, b, c, d).unwrap(),
        intake: valve,
        exhaust: valve,
        ratio: None,
        crank: None,
    }
}

fn middle(estimate: &Estimate<CrankAngle>) -> f64 {
    estimate.centre().unwrap().degrees()
}

/// 0.01 mm of lash at the follower moves an event by 0.02 over the rise of a cam degree, and the duration by twice
/// that: rows of 0.005 to 0.0254 mm a cam degree (geometry, computed apart; ramps from memory).
#[test]
fn a_hundredth_of_lash() {
    for (slope, event, duration) in [
        (0.005, 4.0, 8.0),
        (0.010, 2.0, 4.0),
        (0.0127, 1.575, 3.150),
        (0.020, 1.0, 2.0),
        (0.0254, 0.787, 1.575),
    ] {
        let found = engine(
            [15.0, 50.0, 50.0, 15.0],
            valve(ramp(0.4, slope), 0.10, 0.11, 0.0),
        )
        .found()
        .unwrap();
        for at in &found.events {
            assert_abs_diff_eq!(at.lost.degrees(), event, epsilon = 6e-4);
        }
        assert_abs_diff_eq!(
            middle(&found.intake_duration),
            245.0 - duration,
            epsilon = 6e-4
        );
    }
}

/// Less lash opens earlier and closes later, more the reverse (two published texts): each way, for every event.
#[test]
fn which_way() {
    let angles = [15.0, 50.0, 48.0, 12.0];
    for (running, sign) in [(0.25, -1.0), (0.15, 1.0)] {
        let found = engine(angles, valve(ramp(0.4, 0.02), 0.20, running, 0.0))
            .found()
            .unwrap();
        for (event, printed) in found.events.iter().zip(angles) {
            // Counted away from the dead centre: larger is open for longer, on both sides.
            assert_abs_diff_eq!(middle(&event.running) - printed, 5.0 * sign, epsilon = 1e-9);
            assert_abs_diff_eq!(event.printed.degrees(), printed, epsilon = 1e-9);
        }
        assert_abs_diff_eq!(
            middle(&found.exhaust_duration),
            240.0 + 10.0 * sign,
            epsilon = 1e-9
        );
    }
}

/// A lobe without a ramp, 9 mm of lift over 290 crank degrees: what is left at 0.10 to 0.40 mm (geometry, computed
/// apart).
#[test]
fn a_lobe_without_a_ramp() {
    let lobe = Flank::harmonic(mm(9.0), deg(290.0)).unwrap();
    for (running, left) in [
        (0.10, 270.503),
        (0.15, 266.099),
        (0.20, 262.376),
        (0.25, 259.086),
        (0.30, 256.103),
        (0.40, 250.785),
    ] {
        let found = engine([50.0, 60.0, 60.0, 50.0], valve(lobe, 0.0, running, 0.0)).found();
        assert_abs_diff_eq!(
            middle(&found.unwrap().intake_duration),
            left,
            epsilon = 6e-4
        );
    }
}

/// 0.10 mm more on both valves of 0.010 mm a cam degree: 20 degrees each, overlap 40 less, which is larger than most
/// overlaps (-5 to 30 of published engines): so it is capped at the ramp, beyond which the flank is steeper.
#[test]
fn capped_at_the_ramp() {
    let angles = [15.0, 35.0, 40.0, 10.0];
    let on_ramp = engine(angles, valve(ramp(0.3, 0.010), 0.15, 0.25, 0.0))
        .found()
        .unwrap();
    assert_abs_diff_eq!(middle(&on_ramp.overlap), 25.0 - 40.0, epsilon = 1e-9);
    // The ramp ends at 0.20: ten degrees at least, how far beyond is not known.
    let beyond = engine(angles, valve(ramp(0.2, 0.010), 0.15, 0.25, 0.0))
        .found()
        .unwrap();
    assert_eq!(beyond.overlap.low(), None);
    assert_abs_diff_eq!(
        beyond.overlap.high().unwrap().degrees(),
        25.0 - 20.0,
        epsilon = 1e-9
    );
    assert_eq!(beyond.events[1].running.low(), None);
    assert_abs_diff_eq!(
        beyond.events[1].running.high().unwrap().degrees(),
        25.0,
        epsilon = 1e-9
    );
    // With the flank's slope known: half a degree more.
    let steep = ramp(0.2, 0.010).then(mm(0.2)).unwrap();
    let known = engine(angles, valve(steep, 0.15, 0.25, 0.0))
        .found()
        .unwrap();
    assert_abs_diff_eq!(middle(&known.overlap), 25.0 - 21.0, epsilon = 1e-9);
    // Printed for 0.25 beyond the ramp, run at 0.15: at least ten degrees more open.
    let back = engine(angles, valve(ramp(0.2, 0.010), 0.25, 0.15, 0.0))
        .found()
        .unwrap();
    assert_eq!(back.events[0].running.high(), None);
    assert_abs_diff_eq!(
        back.events[0].running.low().unwrap().degrees(),
        25.0,
        epsilon = 1e-9
    );
    // Both beyond: nothing can be said.
    let both = engine(angles, valve(ramp(0.2, 0.010), 0.25, 0.30, 0.0)).found();
    assert_eq!(both.unwrap_err().code(), "events.both-beyond-ramp");
}

/// Ratio 8, intake closing 60 degrees after bottom dead centre; 0.05 mm more lash on 0.010 mm a cam degree closes it
/// at 50: 142.3 becomes 154.5 psi at an exponent of 1.25 (computed apart). More lash raises cranking pressure.
#[test]
fn lash_and_compression() {
    let mut running = engine(
        [20.0, 60.0, 60.0, 20.0],
        valve(ramp(0.3, 0.010), 0.10, 0.15, 0.01),
    );
    running.ratio = Some(CompressionRatio::new(8.0).unwrap());
    running.crank = Some(crank(90.0, 150.0));
    let found = running.found().unwrap();
    let ratio = found.effective_ratio.unwrap();
    assert_abs_diff_eq!(ratio.printed, 6.6506, epsilon = 5e-5);
    let closes = found.events[1].running;
    assert_abs_diff_eq!(middle(&closes), 50.0, epsilon = 1e-9);
    assert_abs_diff_eq!(
        closes.standard_uncertainty().unwrap().number(),
        2.0,
        epsilon = 1e-9
    );
    // One lash moves both ends of a valve; the overlap has one end of each.
    let u = |found: &Estimate<CrankAngle>| found.standard_uncertainty().unwrap().number();
    assert_abs_diff_eq!(u(&found.intake_duration), 4.0, epsilon = 1e-9);
    assert_abs_diff_eq!(u(&found.overlap), 8.0_f64.sqrt(), epsilon = 1e-9);
    let shows = |closes: Estimate<CrankAngle>| {
        let engine = Cranking {
            ratio: CompressionRatio::new(8.0).unwrap(),
            ratio_u: 0.0,
            crank: Some(crank(90.0, 150.0)),
            intake_closes_abdc: Some(closes),
            air: Some(about(101.325, 0.0)),
        };
        let expected = engine
            .expected(Exponent::between(1.25, 1.25).unwrap())
            .unwrap();
        expected.centre().unwrap().kilopascals() / PSI
    };
    assert_abs_diff_eq!(shows(closes), 154.5, epsilon = 0.05);
    assert_abs_diff_eq!(shows(about(60.0, 0.0)), 142.3, epsilon = 0.05);
    // Two degrees of closing: the ratio's slope by a difference.
    let at = |closes: f64| {
        CompressionRatio::new(8.0)
            .unwrap()
            .effective(&crank(90.0, 150.0), deg(closes))
            .unwrap()
    };
    let u = (at(49.0) - at(51.0)).abs();
    assert_abs_diff_eq!(ratio.running_u, u, epsilon = 1e-3);
    assert_eq!(found.assumptions, [EventsAssumption::OneFlank]);
    running.crank = None;
    assert!(
        running
            .found()
            .unwrap()
            .assumptions
            .contains(&EventsAssumption::RodRatio)
    );
}

/// Events printed for a lift hold at the running lash and so much more.
#[test]
fn events_at_a_lift() {
    let mut one = valve(ramp(0.5, 0.02), 0.0, 0.10, 0.01);
    one.holds_at = EventsAt::Lift(mm(0.20));
    let found = engine([10.0, 40.0, 40.0, 10.0], one).found().unwrap();
    assert_abs_diff_eq!(middle(&found.events[0].running), 30.0, epsilon = 1e-9);
    // Lash moves both places alike, so none of its uncertainty is left.
    let u = found.events[0].running.standard_uncertainty().unwrap();
    assert!(u.number() < 1e-12);
}

/// A rocker of 1.5: 0.15 mm at the valve are 0.10 at the follower. A measured slope has it in it.
#[test]
fn at_the_valve_and_at_the_follower() {
    let taken = |flank: Flank, rocker: f64| flank.taken(lash(0.15), rocker).unwrap().turned;
    assert_abs_diff_eq!(taken(ramp(0.3, 0.02), 1.5).degrees(), 10.0, epsilon = 1e-9);
    let measured = Flank::measured(lash(0.10), lash(0.20), deg(8.0)).unwrap();
    assert_abs_diff_eq!(taken(measured, 1.5).degrees(), 12.0, epsilon = 1e-9);
    assert_abs_diff_eq!(taken(measured, 1.0).degrees(), 12.0, epsilon = 1e-9);
}

#[test]
fn what_is_refused() {
    let code = |refused: EventsError| {
        assert!(!refused.hint().is_empty() && !refused.to_string().is_empty());
        refused.code()
    };
    assert_eq!(
        code(Flank::ramp(mm(0.01), mm(0.01)).unwrap_err()),
        "events.ramp-height"
    );
    assert_eq!(
        code(Flank::ramp(mm(0.3), mm(0.4)).unwrap_err()),
        "events.slope"
    );
    let flat = ramp(0.3, 0.02).then(mm(0.01)).unwrap_err();
    assert_eq!(code(flat), "events.flank-under-ramp");
    let crossed = Flank::measured(lash(0.2), lash(0.1), deg(8.0)).unwrap_err();
    assert_eq!(code(crossed), "events.leaves");
    let none = Flank::measured(lash(0.1), lash(0.2), deg(0.0)).unwrap_err();
    assert_eq!(code(none), "events.leaves");
    assert_eq!(
        code(Flank::harmonic(mm(0.5), deg(290.0)).unwrap_err()),
        "events.lobe"
    );
    let far = Flank::harmonic(mm(9.0), deg(290.0))
        .unwrap()
        .taken(lash(2.5), 1.0);
    assert_eq!(code(far.unwrap_err()), "events.lash");
    assert_eq!(
        code(ramp(0.3, 0.02).taken(lash(-0.1), 1.0).unwrap_err()),
        "events.lash"
    );
    assert_eq!(
        code(ramp(0.3, 0.02).taken(lash(0.1), 14.0).unwrap_err()),
        "events.rocker"
    );
    let mut open = engine(
        [15.0, 50.0, 50.0, 15.0],
        valve(ramp(0.3, 0.02), 0.1, 0.1, 0.0),
    );
    open.intake.lash = Estimate::at_least(lash(0.2), Uncertainty::ZERO);
    assert_eq!(code(open.found().unwrap_err()), "events.one-sided");
    let slow = engine(
        [-30.0, -30.0, -30.0, -30.0],
        valve(ramp(1.0, 0.02), 0.1, 0.6, 0.0),
    );
    assert_eq!(code(slow.found().unwrap_err()), "events.never-opens");
}

proptest! {
    /// Lash in small steps adds up, and a wider gap never opens a valve for longer.
    #[test]
    fn lash_adds_up(
        a in 0.0..0.6_f64, b in 0.0..0.6_f64, c in 0.0..0.6_f64,
        height in 0.05..0.4_f64, slope in 0.004..0.03_f64,
    ) {
        let flank = ramp(height, slope).then(mm(0.1)).unwrap();
        let lost = |from: f64, to: f64| {
            let found = engine([50.0, 80.0, 80.0, 50.0], valve(flank, from, to, 0.0)).found();
            found.map(|f| f.events[0].lost.degrees())
        };
        if let (Ok(ab), Ok(bc), Ok(ac)) = (lost(a, b), lost(b, c), lost(a, c)) {
            prop_assert!((ab + bc - ac).abs() < 1e-9);
            prop_assert!(ab * (b - a) >= -1e-12);
        }
    }

    /// The stated slope is the slope.
    #[test]
    fn the_slope_is_the_slope(at in 0.02..0.5_f64, rocker in 0.8..1.6_f64) {
        let flanks = [
            ramp(0.25, 0.012).then(mm(0.08)).unwrap(),
            Flank::measured(lash(0.1), lash(0.2), deg(7.0)).unwrap(),
            Flank::harmonic(mm(9.0), deg(290.0)).unwrap(),
        ];
        for flank in flanks {
            let turned = |at: f64| flank.taken(lash(at), rocker).unwrap().turned.degrees();
            let by = (turned(at + 1e-6) - turned(at - 1e-6)) / 2e-6;
            // Not across the end of the ramp.
            if (at / rocker - 0.25).abs() > 1e-5 {
                let got = flank.taken(lash(at), rocker).unwrap().per_mm;
                prop_assert!((got / by - 1.0).abs() < 1e-4, "{got} {by}");
            }
        }
    }
}
