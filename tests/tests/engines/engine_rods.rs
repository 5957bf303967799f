//! Rods and cam rings of whole engines: published rings, laws of link rods, offset and split pins.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::{abs_diff_eq, assert_abs_diff_eq};
use lashwork::Refusal;
use lashwork::engine::layout;
use lashwork::engine::{
    CamRing, CamRingError, Cylinder, CylinderLabel, Engine, Intervals, LinkRod, LinkRods,
    LinkRodsError, PinOffset, RingSense, SliderCrank,
};
use lashwork::quantity::{AxisAngle, Length};
use lashwork_tests::engines::four_stroke;
use proptest::prelude::*;

fn mm(mm: f64) -> Length {
    Length::from_mm(mm).unwrap()
}

fn axis(degrees: f64) -> AxisAngle {
    AxisAngle::from_degrees(degrees).unwrap()
}

fn label(number: usize) -> CylinderLabel {
    CylinderLabel::numbered(number)
}

fn near(got: f64, wanted: f64, slack: f64) {
    assert_abs_diff_eq!(got, wanted, epsilon = slack);
}

fn engine(cylinders: Vec<Cylinder>, order: &[usize], intervals: Intervals) -> Engine {
    four_stroke(cylinders, order, intervals)
}

/// Every second cylinder of one row.
fn radial(n: usize) -> Engine {
    let order: Vec<usize> = (0..n).map(|i| 2 * i % n + 1).collect();
    engine(layout::radial(n), &order, Intervals::Even)
}

/// 1-10-5-14-9-4-13-8-3-12-7-2-11-6: the rule +9 / -5 (O7, FAA powerplant handbook text).
fn fourteen() -> Engine {
    let order: Vec<usize> = (0..14).map(|i| 9 * i % 14 + 1).collect();
    engine(layout::twin_row_radial(14), &order, Intervals::Even)
}

fn rods(master: usize, links: &[usize], sizes: [f64; 4]) -> LinkRods {
    let [r, rod, knuckle, link] = sizes;
    LinkRods {
        master: label(master),
        crank_radius: mm(r),
        master_rod: mm(rod),
        links: links
            .iter()
            .map(|n| LinkRod {
                cylinder: label(*n),
                knuckle_radius: mm(knuckle),
                knuckle: None,
                length: mm(link),
            })
            .collect(),
    }
}

fn shift(engine: &Engine, number: usize) -> f64 {
    let index = engine.index_of(&label(number)).unwrap();
    let fires = engine.firing_position(index);
    let ahead = fires.forward_to(engine.dead_centre(index)).degrees();
    if ahead > 360.0 { ahead - 720.0 } else { ahead }
}

#[test]
fn cam_rings_of_published_engines_serve_their_rows() {
    // O9: experts123.com, number of cam lobes: opposite (n - 1)/2 at 1/(n - 1), same (n + 1)/2 at
    // 1/(n + 1). Wright R-1820: 4 lobes, 1/8, opposite (enginehistory.org bulletin board 61).
    // Le Rhone 9C: 5 lobes, gears 45:50, carrier 9/10, so 1/10 the same way (pjvision.nl).
    let nine = radial(9);
    for (lobes, turns, sense) in [(4, 8.0, RingSense::Opposite), (5, 10.0, RingSense::Same)] {
        let ring = CamRing::new(lobes, turns, sense).unwrap();
        assert_eq!(CamRing::serving(9, sense), Some(ring));
        let with = nine.clone().with_cam_ring(ring).unwrap();
        assert_eq!(with.cam_ring(), Some(ring));
        // Firing positions are the crank's and stay.
        assert_eq!(with.intervals(), nine.intervals());
    }
}

#[test]
fn the_ring_of_the_wright_meets_the_next_cylinder_with_its_next_lobe() {
    // Same page: 80 crank degrees are 10 of the ring, the next lobe is 90 away. Cylinder 3 stands
    // 80 on; the lobe behind it has come back 10 from 90.
    let ring = CamRing::serving(9, RingSense::Opposite).unwrap();
    let turned = 80.0 / ring.crank_turns_per_ring_turn();
    near(turned, 10.0, 1e-12);
    let pitch = 360.0 / f64::from(ring.lobes());
    near(pitch, 90.0, 1e-12);
    near(pitch - turned, 80.0, 1e-12);
}

#[test]
fn a_ring_is_refused_with_what_the_row_asks_for() {
    let ring = CamRing::new(4, 10.0, RingSense::Same).unwrap();
    let problem = radial(9).with_cam_ring(ring).unwrap_err();
    assert_eq!(problem.code(), "engine.cam-ring-numbers");
    assert_eq!(
        problem.to_string(),
        "a ring of 4 lobes at 1/10 of the crank's speed, with the crank does not serve a row of 9"
    );
    assert_eq!(
        problem.hint(),
        "expected 4 lobes at 1/8 of the crank's speed, opposite to the crank; or 5 lobes at 1/10 \
         of the crank's speed, with the crank"
    );
}

#[test]
fn twin_rows_have_a_ring_for_each_row() {
    // Seven in each row: 3 lobes at 1/6 opposite by the rule of O9.
    let ring = CamRing::new(3, 6.0, RingSense::Opposite).unwrap();
    assert!(fourteen().with_cam_ring(ring).is_ok());
    let whole = CamRing::new(7, 14.0, RingSense::Opposite).unwrap();
    let problem = fourteen().with_cam_ring(whole).unwrap_err();
    assert!(matches!(problem, CamRingError::Numbers { count: 7, .. }));
}

#[test]
fn a_ring_finds_an_order_it_does_not_go_with() {
    // Firing one after the other suits no ring of the rule: cylinder 2 fires after 144 degrees.
    let five = engine(layout::radial(5), &[1, 2, 3, 4, 5], Intervals::FromGeometry);
    let ring = CamRing::serving(5, RingSense::Opposite).unwrap();
    let problem = five.with_cam_ring(ring).unwrap_err();
    assert_eq!(problem.code(), "engine.cam-ring-order");
    // Two opposed cylinders on one pin are an even row.
    let pins = [AxisAngle::ZERO, AxisAngle::ZERO];
    let two = engine(layout::inline(2, &pins), &[1, 2], Intervals::FromGeometry);
    let problem = two.with_cam_ring(ring).unwrap_err();
    assert_eq!(problem.code(), "engine.cam-ring-even-row");
    let bare = engine(layout::inline(3, &[]), &[1, 2, 3], Intervals::Even);
    let problem = bare.with_cam_ring(ring).unwrap_err();
    assert_eq!(problem.code(), "engine.cam-ring-no-geometry");
}

#[test]
fn link_rods_move_dead_centres_and_leave_the_firing() {
    // Derived from geometry, no published figures found: crank 3, master 12, knuckle 3, link 9.
    let links: Vec<usize> = (2..=9).collect();
    let plain = radial(9);
    let nine = plain
        .clone()
        .with_link_rods(&[rods(1, &links, [3.0, 12.0, 3.0, 9.0])])
        .unwrap();
    for (number, wanted, stroke) in [
        (1, 0.0, 6.0),
        (2, 0.5713, 6.0005),
        (3, 3.1474, 6.0144),
        (4, 4.4924, 6.0406),
        (5, 2.0364, 6.0131),
        (6, -2.0364, 6.0131),
        (7, -4.4924, 6.0406),
        (8, -3.1474, 6.0144),
        (9, -0.5713, 6.0005),
    ] {
        let index = nine.index_of(&label(number)).unwrap();
        assert_eq!(nine.firing_position(index), plain.firing_position(index));
        // Half a printed digit.
        near(shift(&nine, number), wanted, 5.1e-5);
        near(
            nine.dead_centres(index).unwrap().stroke.mm(),
            stroke,
            5.1e-5,
        );
        near(shift(&plain, number), 0.0, 0.0);
        assert_eq!(plain.dead_centres(index), None);
    }
    assert!(
        nine.assumptions()
            .iter()
            .any(|a| a.code() == "engine.knuckles")
    );
}

#[test]
fn each_row_of_a_twin_row_hangs_on_its_own_master() {
    let sizes = [3.0, 12.0, 3.0, 9.0];
    let odd = rods(1, &[3, 5, 7, 9, 11, 13], sizes);
    let even = rods(8, &[2, 4, 6, 10, 12, 14], sizes);
    let both = fourteen().with_link_rods(&[odd.clone(), even]).unwrap();
    for number in 1..=7 {
        // Cylinder 8 stands where the odd row's master is, half a turn on.
        near(shift(&both, number), shift(&both, number + 7), 1e-9);
    }
    let index = both.index_of(&label(8)).unwrap();
    assert_eq!(both.row_of(index), [2, 4, 6, 8, 10, 12, 14].map(label));
    // Hung on the wrong master, on none, or twice.
    let wrong = rods(8, &[2, 4, 6, 10, 12, 14, 3], sizes);
    let rest = rods(1, &[5, 5, 7, 9, 11, 20], sizes);
    let problems = fourteen().with_link_rods(&[wrong, rest]).unwrap_err();
    let mut found: Vec<(&str, String)> =
        problems.iter().map(|p| (p.code(), p.to_string())).collect();
    found.sort();
    let codes: Vec<&str> = found.iter().map(|(code, _)| *code).collect();
    assert_eq!(
        codes,
        [
            "engine.link-rods-crankpin",
            "engine.link-rods-missing",
            "engine.link-rods-twice",
            "engine.link-rods-unknown"
        ]
    );
    assert!(
        found[0].1.contains("stand 180.00 deg apart"),
        "{}",
        found[0].1
    );
    assert!(matches!(&problems[0], LinkRodsError::Twice { cylinder } if *cylinder == label(5)));
    // A cylinder of its own crank takes no link rod; rods that cannot turn are named.
    let short = rods(1, &[3, 5, 7, 9, 11, 13], [3.0, 12.0, 3.0, 6.0]);
    let codes: Vec<&str> = fourteen()
        .with_link_rods(&[short, rods(8, &[2, 4, 6, 10, 12, 14], [3.0, 3.0, 1.0, 9.0])])
        .unwrap_err()
        .iter()
        .map(LinkRodsError::code)
        .collect();
    assert!(codes.contains(&"engine.link-rod-too-short"), "{codes:?}");
    assert!(codes.contains(&"engine.rod-too-short"), "{codes:?}");
    let own = SliderCrank::new(mm(3.0), mm(12.0), PinOffset::ZERO).unwrap();
    let cylinders = layout::radial(3)
        .into_iter()
        .map(|c| c.with_crank(own))
        .collect();
    let three = engine(cylinders, &[1, 3, 2], Intervals::Even);
    let problems = three
        .with_link_rods(&[rods(1, &[2, 3], sizes)])
        .unwrap_err();
    assert!(problems.iter().all(|p| p.code() == "engine.two-rods"));
}

/// A narrow V with offset bores: banks 15 degrees apart, split pins 22 degrees apart. Derived: the
/// pins must be split by the bank angle and both offsets' shifts for even firing.
#[test]
fn split_pins_and_offset_bores_together_fire_evenly() {
    let (r, l, e) = (47.95, 164.0, 12.5_f64);
    let own = (e / (l + r)).asin().to_degrees();
    let crank = |e| SliderCrank::new(mm(r), mm(l), PinOffset::from_mm(e).unwrap()).unwrap();
    let split = 15.0 + 2.0 * own;
    // Odd numbers in the bank ahead, offset back; even ones behind, offset forward.
    let order = [1, 5, 3, 6, 2, 4];
    let cylinders: Vec<Cylinder> = (1..=6)
        .map(|number| {
            let ahead = number % 2 == 1;
            let (bank, e, pin) = if ahead {
                (7.5, -12.5, 0.0)
            } else {
                (-7.5, 12.5, -15.0 + 2.0 * own)
            };
            let place = order.iter().position(|n| *n == number).unwrap();
            let pin = pin - 120.0 * place as f64;
            Cylinder::new(label(number))
                .at(axis(bank), axis(pin))
                .with_crank(crank(e))
        })
        .collect();
    let six = engine(cylinders.clone(), &order, Intervals::FromGeometry);
    for interval in six.intervals() {
        near(interval.degrees(), 120.0, 1e-9);
    }
    // The same pins without the offset fire unevenly by twice the shift.
    let bare: Vec<Cylinder> = cylinders
        .into_iter()
        .map(|c| Cylinder { crank: None, ..c })
        .collect();
    let uneven = engine(bare, &order, Intervals::FromGeometry);
    let off = uneven
        .intervals()
        .iter()
        .map(|i| (i.degrees() - 120.0).abs())
        .fold(0.0, f64::max);
    near(off, 2.0 * own, 1e-9);
    assert!(abs_diff_eq!(split, 21.8, epsilon = 0.1), "{split}");
}

#[test]
fn an_offset_turns_the_crank_past_the_bore_at_both_ends() {
    // r 29, l 100, e 1.5: derived with 50 digits; the shifts are asin(e/(l + r)), asin(e/(l - r)).
    let crank = SliderCrank::new(mm(29.0), mm(100.0), PinOffset::from_mm(1.5).unwrap()).unwrap();
    let cylinders = layout::inline(4, &[])
        .into_iter()
        .map(|c| c.with_crank(crank))
        .collect();
    let four = engine(cylinders, &[1, 3, 4, 2], Intervals::Even);
    for index in four.indices() {
        let found = four.dead_centres(index).unwrap();
        near(found.top.degrees(), 0.666_245_008_547_051_9, 2e-13);
        near(found.bottom.degrees(), 1.210_564_280_335_4, 2e-13);
        near(found.stroke.mm(), 58.007_125_613_851_6, 2e-13);
        // Timed from its true dead centre.
        assert_eq!(four.dead_centre(index), four.firing_position(index));
    }
}

/// Rods of any radial: a link rod outlasts crank and knuckle radius together, the master both.
fn sizes() -> impl Strategy<Value = [f64; 4]> {
    (20.0_f64..120.0, 0.3_f64..1.2, 1.2_f64..4.0, 0.0_f64..1.0).prop_map(|(r, k, ratio, more)| {
        let knuckle = r * k;
        let link = (r + knuckle) * ratio;
        [r, link + knuckle * (0.5 + more), knuckle, link]
    })
}

proptest! {
    #[test]
    fn master_is_zero_and_mirrored_cylinders_are_opposite(
        sizes in sizes(), half in 1_usize..10, master in 0_usize..19,
    ) {
        let n = 2 * half + 1;
        let master = master % n;
        let number = |places: usize| (master + places) % n + 1;
        let links: Vec<usize> = (1..n).map(number).collect();
        let engine = radial(n).with_link_rods(&[rods(number(0), &links, sizes)]).unwrap();
        prop_assert!(abs_diff_eq!(shift(&engine, number(0)), 0.0, epsilon = 1e-12));
        for places in 1..=half {
            let sum = shift(&engine, number(places)) + shift(&engine, number(n - places));
            prop_assert!(abs_diff_eq!(sum, 0.0, epsilon = 1e-9), "{sum}");
        }
        // Knuckle pins at the bank angles: no link stroke is below the master's.
        for index in engine.indices() {
            let stroke = engine.dead_centres(index).unwrap().stroke.mm();
            prop_assert!(stroke >= 2.0 * sizes[0] - 1e-9, "{stroke}");
        }
    }

    #[test]
    fn rows_are_served_by_the_rings_of_the_rule_and_by_no_other(
        half in 1_usize..9, lobes in 1_u8..12, turns in 1_u8..24, same: bool,
    ) {
        let n = 2 * half + 1;
        let sense = if same { RingSense::Same } else { RingSense::Opposite };
        // The rule, written out: (n + 1)/2 at 1/(n + 1) with the crank, (n - 1)/2 at 1/(n - 1) against.
        let m = if same { n + 1 } else { n - 1 };
        let of_rule = usize::from(lobes) == m / 2 && usize::from(turns) == m;
        let ring = CamRing::new(lobes, f64::from(turns), sense).unwrap();
        prop_assert_eq!(radial(n).with_cam_ring(ring).is_ok(), of_rule);
        let served = CamRing::new(u8::try_from(m / 2).unwrap(), m as f64, sense).unwrap();
        prop_assert!(radial(n).with_cam_ring(served).is_ok());
    }
}
