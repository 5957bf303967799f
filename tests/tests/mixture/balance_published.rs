//! Balance against published linkages, limits and figures.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::assert_abs_diff_eq;
use lashwork::mixture::balance::{
    BalanceCheck, Before, Beforehand, Choked, CylinderCause, CylinderCheck, CylinderFindings,
    Joint, Linkage, Matter, Opening, Stands, ThrottleReading, TrialTurn, flow_of_drop, flow_share,
};
use lashwork::quantity::{AbsolutePressure, PressureDifference, ScrewAngle, Vacuum};
use lashwork::tolerance::{Uncertainty, Verdict};

fn kpa(number: f64) -> Vacuum {
    Vacuum::from_kilopascals(number).unwrap()
}

fn check(vacuum: &[f64], allowed: &str) -> BalanceCheck<Vacuum> {
    let reading = |(throttle, shown): (usize, &f64)| ThrottleReading {
        throttle,
        shown: vec![kpa(*shown)],
    };
    BalanceCheck {
        readings: vacuum.iter().enumerate().map(reading).collect(),
        scatter: Some(Uncertainty::from_number(0.05).unwrap()),
        between_gauges: None,
        trials: vec![],
        allowed: Some(PressureDifference::parse(allowed).unwrap()),
        rule: None,
        ambient: None,
    }
}

fn tried(joint: usize, by: f64) -> TrialTurn<Vacuum> {
    TrialTurn {
        joint,
        turn: ScrewAngle::from_degrees(90.0).unwrap(),
        before: kpa(26.0),
        after: kpa(26.0 + by),
        unmoved: None,
    }
}

/// Four linked carburettors, one without a screw as the reference; the left screw sets one pair, the right
/// screw the other, the one between sets pair to pair; pairs first, then the one between: hondanighthawks.net,
/// carb11. From the reference outwards the turns are the same and the end is the same.
#[test]
fn two_pairs_and_a_screw_between() {
    let joints = [Joint::screw(0, 1), Joint::screw(2, 3), Joint::screw(1, 2)];
    let four = Linkage::new(4, &[1], &joints).unwrap();
    assert_eq!(four.beyond(0), [0]);
    assert_eq!(four.beyond(1), [3]);
    assert_eq!(four.beyond(2), [2, 3]);

    let mut asked = check(&[27.0, 26.0, 29.0, 25.0], "20 mmHg");
    // A quarter turn lowers the vacuum by 2 kPa.
    asked.trials = vec![tried(0, -2.0), tried(1, -2.0), tried(2, -2.0)];
    let answer = asked.worked_out(&four).unwrap();
    let turns: Vec<(usize, f64)> = answer
        .moves
        .iter()
        .map(|m| (m.joint, m.turn.unwrap().turn.degrees()))
        .collect();
    let at = |joint: usize| turns.iter().find(|(own, _)| *own == joint).unwrap().1;
    // By hand: 1 kPa of throttle 1 over 2; 3 kPa of 3 over 2; 4 kPa of 4 under 3.
    for (joint, degrees) in [(0, 45.0), (2, 135.0), (1, -180.0)] {
        assert_abs_diff_eq!(at(joint), degrees, epsilon = 1e-9);
    }
    for order in [[0, 1, 2], [0, 2, 1]] {
        let mut vacuum = [27.0, 26.0, 29.0, 25.0];
        for joint in order {
            for throttle in four.beyond(joint) {
                vacuum[*throttle] -= 2.0 * at(joint) / 90.0;
            }
        }
        for shown in vacuum {
            assert_abs_diff_eq!(shown, 26.0, epsilon = 1e-9);
        }
    }
}

/// Idle speed and valve clearances set before (studfile.net 15058854, a manual's text); valves adjusted and
/// sealing checked first (hondanighthawks.net, carb11). Compression out of its limits is carried along: common
/// practice, no source.
#[test]
fn what_stands_before_the_balance() {
    let nothing = Beforehand::default().unsettled();
    let what: Vec<Before> = nothing.iter().map(|(what, _)| *what).collect();
    for before in [Before::Clearances, Before::Sealing, Before::IdleSpeed] {
        assert!(what.contains(&before));
    }
    assert_eq!(what[0], Before::Clearances);
    let low = Beforehand {
        clearances: Some(true),
        compression: Some(false),
        sealing: Some(true),
        ignition: Some(true),
        float_level: Some(true),
        idle_speed: Some(true),
    };
    assert_eq!(low.unsettled(), [(Before::Compression, Stands::NotRight)]);
}

/// Twin carburettors: usual vacuum 0.15 to 0.40 bar, at most 0.01 bar from each other: a forum's text. A limit
/// of 20 mmHg between carburettors of a motorcycle: from memory.
#[test]
fn limits_between_carburettors() {
    let twin = Linkage::new(2, &[0], &[Joint::screw(0, 1)]).unwrap();
    for (other, verdict) in [(25.5, Verdict::InBand), (26.5, Verdict::Above)] {
        let answer = check(&[25.0, other], "0.01 bar").worked_out(&twin).unwrap();
        let found = answer.judgement.unwrap();
        assert_eq!(found.verdict, verdict);
        let sure = found.probabilities.in_band.least;
        assert!(if verdict == Verdict::InBand {
            sure > 0.999
        } else {
            sure < 0.001
        });
    }
    let twenty = check(&[25.0, 26.5], "20 mmHg").worked_out(&twin).unwrap();
    assert_eq!(twenty.judgement.unwrap().verdict, Verdict::InBand);
}

/// A spread of 2, 5 and 10 % in the drop of a flow meter is 1.0, 2.5 and 4.9 % of flow: computed from the root.
#[test]
fn a_meter_that_works_by_a_drop() {
    for (drop, flow) in [(1.02, 1.0), (1.05, 2.5), (1.10, 4.9)] {
        assert_abs_diff_eq!(100.0 * (flow_of_drop(drop) - 1.0), flow, epsilon = 0.05);
    }
}

/// Critical ratio 0.528282 and greatest flow number 0.684731 of air: computed from the formula of St Venant.
#[test]
fn a_choked_throttle() {
    assert_abs_diff_eq!(Choked::critical(), 0.528_282, epsilon = 5e-7);
    // The other side of the formula: psi(0.75) over its greatest value.
    let psi = |r: f64| f64::sqrt(7.0 * (r.powf(2.0 / 1.4) - r.powf(2.4 / 1.4)));
    assert_abs_diff_eq!(psi(Choked::critical()), 0.684_731, epsilon = 5e-7);
    assert_abs_diff_eq!(flow_share(0.75), psi(0.75) / 0.684_731, epsilon = 1e-6);
    // Over 48 kPa of vacuum a throttle at sea level is choked (computed, 101.325 x 0.4717).
    let air = AbsolutePressure::from_kilopascals(101.325).unwrap();
    assert_eq!(Choked::at(kpa(48.0), air), Choked::Choked);
    assert_eq!(Choked::at(kpa(47.5), air), Choked::NotChoked);
}

/// A cylinder with nine tenths of the charge needs no throttle: common practice, no source. What was found
/// wrong comes first, what was found right is left out.
#[test]
fn a_weak_cylinder_is_no_matter_of_the_throttle() {
    // Choked throttles open alike: the pressure behind goes as one over the charge.
    let behind = 40.0;
    let read = |kpa: f64| {
        let vacuum = Vacuum::from_kilopascals(101.325 - kpa).unwrap();
        (vacuum, Uncertainty::from_number(0.1).unwrap())
    };
    let mut asked = CylinderCheck {
        ambient: AbsolutePressure::from_kilopascals(101.325).unwrap(),
        vacuum: vec![read(behind), read(behind / 0.9), read(behind), read(behind)],
        opening: Opening::Alike { share: 0.01 },
        findings: vec![],
        matters_from: None,
    };
    let found = asked.worked_out().unwrap();
    let weak = &found.cylinders[1];
    assert_abs_diff_eq!(weak.breathing.value, -0.1, epsilon = 1e-9);
    assert_eq!(weak.matter, Matter::Cylinder);
    assert_eq!(weak.causes.len(), 3);
    asked.findings = vec![CylinderFindings::default(); 4];
    asked.findings[1] = CylinderFindings {
        compression_wrong: Some(false),
        lash_wrong: None,
        leak_found: Some(true),
    };
    let found = asked.worked_out().unwrap();
    let causes = &found.cylinders[1].causes;
    assert_eq!(*causes, [CylinderCause::Leak, CylinderCause::Lash]);
}
