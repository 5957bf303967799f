//! Head bolts against published figures, worked examples and laws.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::condition::head::{
    Adapter, Bolt, Friction, HeadError, OrderFault, Preload, RockerPivot, Scatter, Tightening,
    Wrench, check_order, lash_after_settling, nut_factor, sequence, torques_agree,
};
use lashwork::quantity::{Area, AxisAngle, Force, Length, Torque, Volume};
use proptest::prelude::*;

fn nm(number: f64) -> Torque {
    Torque::from_newton_metres(number).unwrap()
}

fn mm(number: f64) -> Length {
    Length::from_mm(number).unwrap()
}

fn turned(degrees: f64) -> AxisAngle {
    AxisAngle::from_degrees(degrees).unwrap()
}

/// Rows of bolts, named by number along each row.
fn rows(along: usize, across: usize) -> Vec<Bolt> {
    let mut bolts = Vec::new();
    for row in 0..across {
        for place in 0..along {
            let name = (bolts.len() + 1).to_string();
            bolts.push(Bolt::new(&name, 95.0 * place as f64, 88.0 * row as f64));
        }
    }
    bolts
}

fn names(bolts: &[Bolt]) -> Vec<String> {
    sequence(bolts)
        .unwrap()
        .iter()
        .map(|b| b.name.clone())
        .collect()
}

/// A wrench of 16 in with an adapter of 2 in: 44.44 for 50 (a wrench's manual; the formula in US Army TM 9-254,
/// figure 46).
#[test]
fn a_wrench_with_an_adapter() {
    let inch = |number| Length::from_number(number, "in").unwrap();
    let adapter = Adapter::new(inch(16.0), inch(2.0), AxisAngle::ZERO).unwrap();
    let set = adapter.set_for(nm(50.0)).unwrap().newton_metres();
    assert_abs_diff_eq!(set, 44.44, epsilon = 5e-3);
    assert_abs_diff_eq!(
        adapter.at_bolt(nm(set)).unwrap().newton_metres(),
        50.0,
        epsilon = 1e-9
    );
    // Square it changes nothing, folded back it is the other way round: 16 over 14.
    let at = |degrees: f64| {
        let adapter = Adapter::new(inch(16.0), inch(2.0), turned(degrees)).unwrap();
        adapter.set_for(nm(50.0)).unwrap().newton_metres()
    };
    assert_abs_diff_eq!(at(90.0), 50.0, epsilon = 1e-9);
    assert_abs_diff_eq!(at(180.0), 50.0 * 16.0 / 14.0, epsilon = 1e-9);
    assert_abs_diff_eq!(at(60.0), 50.0 * 16.0 / 17.0, epsilon = 1e-9);
}

/// Scatter of the force by the way of tightening: VDI 2230 (1986) in a bolt dealer's table, 23 and 28 % are 1.597
/// and 1.778 from least to most; NASA's 35 and 25 % in a paper, 2.077 and 1.667.
#[test]
fn published_scatter() {
    for (tightening, percent, ratio) in [
        (Tightening::YieldOrAngle, [5.0, 12.0], 1.273),
        (Tightening::Elongation, [9.0, 23.0], 1.597),
        (Tightening::TorqueTuned, [17.0, 23.0], 1.597),
        (Tightening::TorqueEstimated, [23.0, 28.0], 1.778),
        (Tightening::PowerDriver, [26.0, 43.0], 2.509),
        (Tightening::DryTorque, [35.0, 35.0], 2.077),
        (Tightening::OiledTorque, [25.0, 25.0], 1.667),
    ] {
        let scatter = Scatter::of(tightening);
        for (got, want) in scatter.percent().iter().zip(percent) {
            assert_abs_diff_eq!(*got, want, epsilon = 1e-12);
        }
        assert_abs_diff_eq!(scatter.most_over_least(), ratio, epsilon = 5e-4);
    }
}

/// 100 Nm with a factor of 0.20 on 10 mm: 50 kN. M10 x 1.5 with the head bearing at 13.5 mm, friction 0.10 to 0.20:
/// factors and the force of 50 Nm (computed apart by VDI 2230's formula, from memory).
#[test]
fn torque_and_force() {
    let none = Scatter::stated(0.0).unwrap();
    let plain = Preload::of(nm(100.0), mm(10.0), 0.20, none).unwrap();
    assert_abs_diff_eq!(plain.middle.kilonewtons(), 50.0, epsilon = 1e-9);
    for (friction, factor, force) in [
        (0.10, 0.1439, 34.76),
        (0.12, 0.1678, 29.79),
        (0.14, 0.1918, 26.07),
        (0.16, 0.2158, 23.17),
        (0.20, 0.2637, 18.96),
    ] {
        let bolt = Friction {
            diameter: mm(10.0),
            pitch: mm(1.5),
            bearing: mm(13.5),
            thread: friction,
            head: friction,
        };
        // The reference's 0.16 and 0.58 are rounded: 1 / 2 pi and 1 / sqrt 3.
        let got = nut_factor(&bolt).unwrap();
        assert!((got / factor - 1.0).abs() < 5e-3, "{got} {factor}");
        let found = Preload::of(nm(50.0), mm(10.0), got, none).unwrap();
        assert!((found.middle.kilonewtons() / force - 1.0).abs() < 5e-3);
    }
    // Oil for dry, the factor from 0.20 to 0.15, is a third more force.
    let oiled = Preload::of(
        nm(100.0),
        mm(10.0),
        0.15,
        Scatter::of(Tightening::OiledTorque),
    );
    let oiled = oiled.unwrap();
    assert_abs_diff_eq!(oiled.middle.kilonewtons() / 50.0, 4.0 / 3.0, epsilon = 1e-9);
    assert!(oiled.may_pass(Force::from_kilonewtons(80.0).unwrap()));
    assert!(!oiled.may_pass(Force::from_kilonewtons(84.0).unwrap()));
}

/// 35 lbf ft printed as 47 Nm in one manual and as 48 in another (two Chrysler texts): 47.454 is the figure, 47 within
/// a newton metre of it and 48 within it too; 49 is not. The exact factors are those of NIST SP 811.
#[test]
fn printed_torques() {
    let exact = Torque::parse("35 lbf ft").unwrap();
    assert_abs_diff_eq!(exact.newton_metres(), 47.454, epsilon = 5e-4);
    assert!(torques_agree(exact, nm(47.0)).unwrap().0);
    assert_abs_diff_eq!(
        torques_agree(exact, nm(48.0)).unwrap().1,
        0.546,
        epsilon = 5e-4
    );
    assert!(!torques_agree(exact, nm(49.0)).unwrap().0);
    let one = |text: &str| Torque::parse(text).unwrap().newton_metres();
    assert_abs_diff_eq!(one("1 kgf m"), 9.806_65, epsilon = 1e-12);
    assert_abs_diff_eq!(one("1 lbf ft"), 1.355_818, epsilon = 5e-7);
    assert_abs_diff_eq!(one("1 lbf in"), 0.112_984_8, epsilon = 5e-8);
    assert_abs_diff_eq!(one("100 kgf cm"), 9.806_65, epsilon = 1e-12);
}

/// Pound-force, kilogram-force, square and cubic inch (NIST SP 811).
#[test]
fn units_of_force_area_and_volume() {
    let force = |text: &str| Force::parse(text).unwrap().kilonewtons();
    assert_abs_diff_eq!(force("1 lbf"), 4.448_222e-3, epsilon = 5e-10);
    assert_abs_diff_eq!(force("1 kgf"), 9.806_65e-3, epsilon = 1e-15);
    assert_abs_diff_eq!(force("1500 N"), 1.5, epsilon = 1e-12);
    let area = |text: &str| Area::parse(text).unwrap().square_millimetres();
    assert_abs_diff_eq!(area("1 in2"), 645.16, epsilon = 1e-9);
    assert_abs_diff_eq!(area("0.01 cm2"), 1.0, epsilon = 1e-12);
    let volume = |text: &str| Volume::parse(text).unwrap().millilitres();
    assert_abs_diff_eq!(volume("1 in3"), 16.387_064, epsilon = 1e-9);
    assert_abs_diff_eq!(volume("0.35 l"), 350.0, epsilon = 1e-9);
}

/// Ten bolts in two rows: the middle pair, then pairs of ends across. From the middle outward: common practice, no
/// source.
#[test]
fn ten_bolts() {
    let order = names(&rows(5, 2));
    let rings: Vec<Vec<&str>> = vec![
        vec!["3", "8"],
        vec!["2", "4", "7", "9"],
        vec!["1", "5", "6", "10"],
    ];
    let mut from = 0;
    for ring in rings {
        let mut part: Vec<&str> = order[from..from + ring.len()]
            .iter()
            .map(String::as_str)
            .collect();
        from += ring.len();
        // Across and to the other end in turn.
        if ring.len() == 4 {
            let place = |name: &str| name.parse::<usize>().unwrap() - 1;
            for pair in part.chunks(2) {
                assert_ne!(place(pair[0]) / 5, place(pair[1]) / 5, "{order:?}");
                assert_ne!(place(pair[0]) % 5 < 2, place(pair[1]) % 5 < 2, "{order:?}");
            }
        }
        part.sort_unstable();
        let mut ring = ring;
        ring.sort_unstable();
        assert_eq!(part, ring, "{order:?}");
    }
}

/// Long bolts 1 to 8 before short ones 9 to 11 (a Chrysler 2.7 text of 2001).
#[test]
fn long_before_short() {
    let mut bolts = rows(4, 2);
    for n in 9..=11 {
        let short = Bolt::new(&n.to_string(), 95.0 * f64::from(n - 9) + 47.0, 130.0);
        bolts.push(Bolt { group: 1, ..short });
    }
    let order = names(&bolts);
    assert!(
        order[..8]
            .iter()
            .all(|name| name.parse::<u8>().unwrap() <= 8),
        "{order:?}"
    );
    let mixed = ["9", "2", "3", "6", "7", "1", "4", "5", "8", "10", "11"];
    let faults = check_order(&bolts, &mixed).unwrap();
    assert!(faults.contains(&OrderFault::ShortBeforeLong { long: "2".into() }));
    let text: Vec<&str> = order.iter().map(String::as_str).collect();
    assert_eq!(check_order(&bolts, &text).unwrap(), []);
}

/// An order with two figures exchanged is found.
#[test]
fn a_slip_in_an_order() {
    let bolts = rows(5, 2);
    let mut order: Vec<String> = names(&bolts);
    order.swap(1, 9);
    let text: Vec<&str> = order.iter().map(String::as_str).collect();
    let faults = check_order(&bolts, &text).unwrap();
    assert!(
        matches!(faults[0], OrderFault::ComesBack { .. }),
        "{faults:?}"
    );
    order.swap(0, 1);
    let text: Vec<&str> = order.iter().map(String::as_str).collect();
    let faults = check_order(&bolts, &text).unwrap();
    assert!(
        matches!(faults[0], OrderFault::BeginsOutside { .. }),
        "{faults:?}"
    );
    assert!(!faults[0].to_string().is_empty());
}

/// A head that goes down by 0.05 mm closes a pushrod engine's lash by the rocker's ratio times as much, an overhead
/// camshaft's not (geometry).
#[test]
fn a_head_that_settles() {
    let change = |pivot| lash_after_settling(mm(0.05), pivot).unwrap().mm();
    assert_abs_diff_eq!(
        change(RockerPivot::PushrodsFromBlock { ratio: 1.5 }),
        -0.075,
        epsilon = 1e-12
    );
    assert_abs_diff_eq!(change(RockerPivot::CamInHead), 0.0, epsilon = 1e-15);
}

#[test]
fn what_is_refused() {
    let code = |refused: HeadError| {
        assert!(!refused.hint().is_empty() && !refused.to_string().is_empty());
        refused.code()
    };
    let bolts = rows(2, 2);
    let mut twice = bolts.clone();
    twice[3].name = "1".into();
    assert_eq!(
        code(sequence(&twice).unwrap_err()),
        "condition.head-bolt-twice"
    );
    let mut near = bolts.clone();
    near[1].along = 2.0;
    assert_eq!(
        code(sequence(&near).unwrap_err()),
        "condition.head-one-place"
    );
    let mut nowhere = bolts.clone();
    nowhere[1].along = f64::NAN;
    assert_eq!(
        code(sequence(&nowhere).unwrap_err()),
        "quantity.out-of-range"
    );
    for order in [
        &["1", "2", "3"][..],
        &["1", "2", "3", "3"],
        &["1", "2", "3", "9"],
    ] {
        let refused = check_order(&bolts, order).unwrap_err();
        assert_eq!(code(refused), "condition.head-other-bolts");
    }
    let short = Adapter::new(mm(10.0), mm(0.0), AxisAngle::ZERO).unwrap_err();
    assert_eq!(code(short), "condition.head-length");
    let back = Adapter::new(mm(100.0), mm(90.0), turned(180.0)).unwrap_err();
    assert_eq!(code(back), "condition.head-folded-back");
    assert_eq!(
        code(Wrench::new(nm(200.0), 0.1).unwrap_err()),
        "condition.head-wrench-class"
    );
    let wrench = Wrench::new(nm(200.0), 4.0).unwrap();
    for torque in [39.0, 201.0] {
        assert_eq!(
            code(wrench.leaves(nm(torque)).unwrap_err()),
            "condition.head-wrench-range"
        );
    }
    let fine = wrench
        .keeps(&"78 Nm to 82 Nm".parse().unwrap())
        .unwrap_err();
    assert_eq!(code(fine), "condition.head-finer-than-wrench");
    assert!(wrench.keeps(&"96 Nm to 104 Nm".parse().unwrap()).is_ok());
    let open = wrench
        .keeps(&"at least 80 Nm".parse().unwrap())
        .unwrap_err();
    assert_eq!(code(open), "condition.head-no-torque");
    let none = Scatter::stated(0.0).unwrap();
    for (factor, d) in [(0.05, 10.0), (0.2, 1.0), (f64::NAN, 10.0)] {
        let refused = Preload::of(nm(50.0), mm(d), factor, none).unwrap_err();
        assert_eq!(code(refused), "condition.head-number");
    }
    assert_eq!(
        code(torques_agree(nm(0.0), nm(1.0)).unwrap_err()),
        "condition.head-no-torque"
    );
    let far = lash_after_settling(mm(3.0), RockerPivot::CamInHead).unwrap_err();
    assert_eq!(code(far), "condition.head-number");
}

proptest! {
    /// Every bolt once; the distance from the middle never falls by more than a pitch; no fault is found in it, and
    /// neither the zero of the places nor the order of the list moves a bolt to another ring.
    #[test]
    fn from_the_middle_outward(along in 1_usize..9, across in 1_usize..4, pitch in 40.0..120.0_f64, zero in -500.0..500.0_f64) {
        let mut bolts = Vec::new();
        for x in 0..along {
            for y in 0..across {
                bolts.push(Bolt::new(&format!("{x}-{y}"), zero + pitch * x as f64, 80.0 * y as f64 - zero));
            }
        }
        let order = sequence(&bolts).unwrap();
        prop_assert_eq!(order.len(), bolts.len());
        let (mid_x, mid_y) = (zero + pitch * (along - 1) as f64 / 2.0, 40.0 * (across - 1) as f64 - zero);
        let out: Vec<f64> = order.iter().map(|b| (b.along - mid_x).hypot(b.across - mid_y)).collect();
        let least = pitch.min(80.0);
        for pair in out.windows(2) {
            prop_assert!(pair[1] >= pair[0] - least);
        }
        let names: Vec<&str> = order.iter().map(|b| b.name.as_str()).collect();
        prop_assert_eq!(check_order(&bolts, &names).unwrap(), vec![]);
        bolts.reverse();
        let again: Vec<f64> = sequence(&bolts)
            .unwrap()
            .iter()
            .map(|b| (b.along - mid_x).hypot(b.across - mid_y))
            .collect();
        for (a, b) in out.iter().zip(again) {
            prop_assert!((a - b).abs() < 0.25 * least + 1e-9);
        }
    }
}
