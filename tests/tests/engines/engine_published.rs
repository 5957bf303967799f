//! The engine against published firing orders, intervals and dimensions.
//!
//! Each check names where its figure is from. "Derived" means worked out from published inputs by
//! the stated rule, not printed by the source.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::float_cmp,
    reason = "a test stops at the first thing it does not expect; whole degrees are exact"
)]

use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::engine::layout::{self, BankNumbering};
use lashwork::engine::{
    Cylinder, CylinderLabel, End, Engine, EngineAssumption, EngineError, EngineParts, Intervals,
    Numbering, Rotation, Sense,
};
use lashwork::quantity::{AxisAngle, Cycle, CyclePosition};
use lashwork_tests::values::deg;

const RUNNING: Rotation = Rotation {
    sense: Sense::Clockwise,
    seen_from: End::Free,
};

fn pins(degrees: &[f64]) -> Vec<AxisAngle> {
    degrees
        .iter()
        .map(|d| AxisAngle::from_degrees(*d).unwrap())
        .collect()
}

fn axis(degrees: f64) -> AxisAngle {
    AxisAngle::from_degrees(degrees).unwrap()
}

fn label(number: usize) -> CylinderLabel {
    CylinderLabel::numbered(number)
}

fn parts(cylinders: Vec<Cylinder>, order: &[usize], intervals: Intervals) -> EngineParts {
    EngineParts {
        cycle: Cycle::FourStroke,
        cylinders,
        order: order.iter().copied().map(label).collect(),
        intervals,
        rotation: RUNNING,
        numbering: Numbering::FromFreeEnd,
    }
}

fn engine(cylinders: Vec<Cylinder>, order: &[usize], intervals: Intervals) -> Engine {
    Engine::new(parts(cylinders, order, intervals)).unwrap()
}

fn even(order: &[usize]) -> Engine {
    engine(layout::inline(order.len(), &[]), order, Intervals::Even)
}

fn intervals(engine: &Engine) -> Vec<f64> {
    engine.intervals().iter().map(|i| i.degrees()).collect()
}

fn near(got: f64, wanted: f64, slack: f64) {
    assert_abs_diff_eq!(got, wanted, epsilon = slack);
}

/// Slack for sums of thirds and sevenths of a turn, in degrees.
const ROUNDING: f64 = 1e-9;

fn all_near(got: &[f64], wanted: f64) {
    for one in got {
        near(*one, wanted, ROUNDING);
    }
}

fn companion(engine: &Engine, number: usize) -> Option<String> {
    let index = engine.companion(engine.index_of(&label(number))?)?;
    Some(engine.cylinder(index)?.label.to_string())
}

fn companions(engine: &Engine, pairs: &[(usize, usize)]) {
    for (one, other) in pairs {
        assert_eq!(companion(engine, *one), Some(other.to_string()));
        assert_eq!(companion(engine, *other), Some(one.to_string()));
    }
}

fn counting(n: usize) -> Vec<usize> {
    (1..=n).collect()
}

// Cross-plane V8, alternating numbers: pins of the pairs 1-2, 3-4, 5-6, 7-8 at 0, 90, 270, 180.
const CROSS_PLANE: [f64; 8] = [0.0, 0.0, 90.0, 90.0, 270.0, 270.0, 180.0, 180.0];

fn v8(order: &[usize]) -> Engine {
    engine(
        layout::vee(
            BankNumbering::Alternating,
            ["left", "right"],
            axis(90.0),
            &pins(&CROSS_PLANE),
        ),
        order,
        Intervals::FromGeometry,
    )
}

#[test]
fn even_four_stroke_interval_is_720_over_n() {
    // F1: CPL technical exam cards, "720/n"; Holoman, Odd-Fire V6 Engines, n = 6: 120.
    // F2: TM 9-8000 p. 2-18, n = 4: 180; 73-87.com valve lash page, n = 8: 90.
    for (n, wanted) in [(4, 180.0), (6, 120.0), (8, 90.0)] {
        let got = intervals(&even(&counting(n)));
        assert_eq!(got.len(), n);
        all_near(&got, wanted);
    }
}

#[test]
fn even_two_stroke_interval_is_360_over_n() {
    // F3: common knowledge, no source at hand.
    for (n, wanted) in [(2, 180.0), (3, 120.0), (4, 90.0), (6, 60.0), (8, 45.0)] {
        let engine = Engine::new(EngineParts {
            cycle: Cycle::TwoStroke,
            ..parts(layout::inline(n, &[]), &counting(n), Intervals::Even)
        })
        .unwrap();
        all_near(&intervals(&engine), wanted);
        assert_eq!(companion(&engine, 1), None);
    }
}

fn twin(v: f64) -> Engine {
    // The rear cylinder, passed first by the crank, is No. 1.
    let cylinders = layout::vee(
        BankNumbering::Alternating,
        ["rear", "front"],
        axis(v),
        &pins(&[0.0, 0.0]),
    );
    engine(cylinders, &[1, 2], Intervals::FromGeometry)
}

#[test]
fn v_twin_on_one_pin_fires_unevenly() {
    // F5: jalopnik 1962281 and encyclopedia.kids.net.au V-twin, 45 degrees: 315 then 405.
    assert_eq!(intervals(&twin(45.0)), [315.0, 405.0]);
    // F6: Kohler SV710 manual text, 90 degrees: 270; 450 derived.
    assert_eq!(intervals(&twin(90.0)), [270.0, 450.0]);
    // F7, derived from F5 and F6: 360 - V, then 360 + V.
    assert_eq!(intervals(&twin(60.0)), [300.0, 420.0]);
    assert_eq!(intervals(&twin(75.0)), [285.0, 435.0]);
}

#[test]
fn v_twin_numbered_from_the_front_fires_the_same_engine_the_other_way_round() {
    // F5 with the numbers exchanged, derived: 405 then 315, not 45 then 675.
    assert_eq!(intervals(&twin(-45.0)), [405.0, 315.0]);
}

#[test]
fn rounded_sevenths_agree_with_exact_geometry_and_are_named() {
    let listed = Intervals::Listed(vec![deg(102.857); 7]);
    let seven = engine(layout::radial(7), &[1, 3, 5, 7, 2, 4, 6], listed);
    let [EngineAssumption::IntervalsRounded { rest }] = seven.assumptions() else {
        panic!("{:?}", seven.assumptions());
    };
    near(rest.degrees(), 0.001, ROUNDING);
    near(intervals(&seven).iter().sum(), 720.0, ROUNDING);
}

#[test]
fn pin_a_hair_short_of_a_whole_turn_still_agrees() {
    let crank = layout::inline(4, &pins(&[0.0, 180.0, 180.0, 0.05]));
    assert!(Engine::new(parts(crank, &[1, 3, 4, 2], Intervals::Even)).is_ok());
}

#[test]
fn geometry_of_some_cylinders_only_is_not_compared_and_that_is_said() {
    let crank = layout::inline(4, &pins(&[0.0, 180.0]));
    let four = engine(crank, &[1, 3, 4, 2], Intervals::Even);
    let [assumption] = four.assumptions() else {
        panic!("{:?}", four.assumptions());
    };
    assert!(assumption.to_string().contains("cylinder 3"));
}

#[test]
fn v_twin_names_the_turn_it_did_not_choose() {
    let twin = twin(45.0);
    let [
        EngineAssumption::TurnChosen {
            chosen,
            other,
            tied,
            ..
        },
    ] = twin.assumptions()
    else {
        panic!("{:?}", twin.assumptions());
    };
    assert_eq!(
        (chosen.degrees(), other.degrees(), *tied),
        (315.0, 675.0, false)
    );
}

#[test]
fn inline_twin_with_opposite_pins_fires_180_then_540() {
    // F8: Yanmar 2TNV70 service manual p. 6-32, order 1-2: 180 then 540.
    let twin = engine(
        layout::inline(2, &pins(&[0.0, 180.0])),
        &[1, 2],
        Intervals::FromGeometry,
    );
    assert_eq!(intervals(&twin), [180.0, 540.0]);
    // 540 then 180 is spaced as widely; the earlier was taken and that is said.
    assert!(matches!(
        twin.assumptions(),
        [EngineAssumption::TurnChosen { tied: true, .. }]
    ));
    assert_eq!(companion(&twin, 1), None);
}

// 90-degree V6, order 1-6-5-4-3-2, three pairs of pins 120 apart.
fn v6(split: f64) -> Engine {
    let crankpins = pins(&[0.0, split, 240.0, 240.0 + split, 120.0, 120.0 + split]);
    let cylinders = layout::vee(
        BankNumbering::Alternating,
        ["left", "right"],
        axis(90.0),
        &crankpins,
    );
    engine(cylinders, &[1, 6, 5, 4, 3, 2], Intervals::FromGeometry)
}

#[test]
fn shared_pins_make_a_90_degree_v6_uneven() {
    // F10: Buick V6 1962-76, three shared pins at 120 (liquisearch); 90/150 without source.
    let got = intervals(&v6(0.0));
    let wanted = [150.0, 90.0, 150.0, 90.0, 150.0, 90.0];
    for (got, wanted) in got.iter().zip(wanted) {
        near(*got, wanted, ROUNDING);
    }
}

#[test]
fn pins_split_by_30_make_it_even() {
    // F11: Buick V6 1977 on, pins split 30 (liquisearch): even 120.
    all_near(&intervals(&v6(30.0)), 120.0);
}

#[test]
fn distributor_of_an_even_six_has_contacts_60_apart() {
    // F13, G1: Holoman, Odd-Fire V6 Engines: 120 at the crank, 60 at the distributor.
    let six = even(&[1, 5, 3, 6, 2, 4]);
    let rotor = |n| six.rotor_angle(six.index_of(&label(n)).unwrap()).degrees();
    near(rotor(5) - rotor(1), 60.0, ROUNDING);
    // Odd-fire, derived: 45 and 75.
    let odd = v6(0.0);
    let rotor = |n| odd.rotor_angle(odd.index_of(&label(n)).unwrap()).degrees();
    near(rotor(6), 75.0, ROUNDING);
    near(rotor(5) - rotor(6), 45.0, ROUNDING);
}

#[test]
fn half_turn_of_crank_is_quarter_turn_of_cam_and_rotor() {
    // G1: Honda Civic 1.6 1993 workshop text: 180 crank, 90 cam.
    assert_eq!(deg(180.0).at_cam(Cycle::FourStroke).degrees(), 90.0);
    assert_eq!(deg(180.0).at_distributor(Cycle::FourStroke).degrees(), 90.0);
}

#[test]
fn single_row_radials_fire_every_other_cylinder_evenly() {
    // O6: FAA powerplant handbook (FAA-H-8083-32) text; F14: 9 cylinders, 80 degrees
    // (enginehistory.org t=61).
    let orders: [(&[usize], f64); 3] = [
        (&[1, 3, 5, 2, 4], 144.0),
        (&[1, 3, 5, 7, 2, 4, 6], 720.0 / 7.0),
        (&[1, 3, 5, 7, 9, 2, 4, 6, 8], 80.0),
    ];
    for (order, wanted) in orders {
        let radial = engine(layout::radial(order.len()), order, Intervals::FromGeometry);
        all_near(&intervals(&radial), wanted);
        assert_eq!(radial.assumptions(), []);
        // An odd number of even firings leaves no companion.
        assert!(radial.indices().all(|i| radial.companion(i).is_none()));
    }
}

#[test]
fn fourteen_in_two_rows_follow_the_plus_nine_minus_five_rule() {
    // O7: FAA powerplant handbook text, rule +9 / -5; O7d, derived by it, from 1.
    let order = [1, 10, 5, 14, 9, 4, 13, 8, 3, 12, 7, 2, 11, 6];
    for pair in order.windows(2) {
        assert!(pair[1] == pair[0] + 9 || pair[1] + 5 == pair[0]);
    }
    let radial = engine(layout::twin_row_radial(14), &order, Intervals::FromGeometry);
    all_near(&intervals(&radial), 720.0 / 14.0);
    assert_eq!(radial.assumptions(), []);
}

#[test]
fn published_orders_fire_each_cylinder_once_in_a_cycle() {
    let orders: [&[usize]; 9] = [
        &[1, 5, 3, 6, 2, 4], // O1: aircraft inline six, FAA powerplant handbook text
        &[1, 4, 5, 2, 3, 6], // O2: opposed six, same
        &[1, 4, 2, 3],       // O3: opposed four, one maker, same
        &[1, 3, 2, 4],       // O3, O5: opposed four, another maker; Subaru manuals
        &[1, 4, 3, 2],       // O4: opposed four, another numbering, no source
        &[1, 5, 4, 2, 6, 3, 7, 8], // O13: Ford 302
        &[1, 3, 4, 2],       // O18: Caterpillar 3114, TM 5-3895-383-24
        &[1, 8, 3, 6, 4, 5, 2, 7], // O22: flat-plane V8, no source
        &[1, 7, 5, 11, 3, 9, 6, 12, 2, 8, 4, 10], // O22: V12, woiweb.com Firing_order
    ];
    for order in orders {
        let engine = even(order);
        let named: Vec<String> = engine
            .order()
            .iter()
            .map(|i| engine.cylinder(*i).unwrap().label.to_string())
            .collect();
        let wanted: Vec<String> = order.iter().map(ToString::to_string).collect();
        assert_eq!(named, wanted);
        near(intervals(&engine).iter().sum(), 720.0, ROUNDING);
    }
}

#[test]
fn flat_four_order_goes_with_its_crank() {
    // O5: Subaru OHV 1970-87 (jdmfsm.info) and 2005 2.5 (charm): 1-3-2-4, 180 apart.
    // Pins of a boxer: partners 1-2 and 3-4 opposite.
    let four = engine(
        layout::opposed(
            BankNumbering::Alternating,
            ["right", "left"],
            &pins(&[0.0, 180.0, 180.0, 0.0]),
        ),
        &[1, 3, 2, 4],
        Intervals::FromGeometry,
    );
    assert_eq!(intervals(&four), [180.0; 4]);
    companions(&four, &[(1, 2), (3, 4)]);
}

#[test]
fn cross_plane_v8_order_goes_with_its_crank() {
    // O10: GM V8, odd numbers on the left bank, 1-8-4-3-6-5-7-2 (73-87.com; charm G30 7.4).
    let engine = v8(&[1, 8, 4, 3, 6, 5, 7, 2]);
    assert_eq!(intervals(&engine), [90.0; 8]);
    assert_eq!(engine.assumptions(), []);
    // No. 1 and No. 6: 73-87.com valve lash page.
    companions(&engine, &[(1, 6)]);
}

#[test]
fn companions_are_one_turn_away() {
    // Inline six: 1-6, 5-2, 3-4 (mopar1973man r297; Volvo DH10A p. 39).
    let six = even(&[1, 5, 3, 6, 2, 4]);
    companions(&six, &[(1, 6), (5, 2), (3, 4)]);
    // Inline four 1-3-4-2: derived.
    companions(&even(&[1, 3, 4, 2]), &[(1, 4), (3, 2)]);
    // V6, 1-6-5-4-3-2 and 1-2-3-4-5-6: 1-4 (charm GM 4.3; nimurano 555).
    companions(&even(&[1, 6, 5, 4, 3, 2]), &[(1, 4)]);
    companions(&even(&[1, 2, 3, 4, 5, 6]), &[(1, 4)]);
}

#[test]
fn companion_is_at_overlap_when_its_partner_fires() {
    let four = even(&[1, 3, 4, 2]);
    let one = four.index_of(&label(1)).unwrap();
    let at = four.firing_position(one);
    let partner = four.companion(one).unwrap();
    assert_eq!(four.own_phase(partner, at).degrees(), 360.0);
    assert_eq!(
        four.own_phase(one, at),
        CyclePosition::new(Cycle::FourStroke, deg(0.0))
    );
}

#[test]
fn crank_of_another_order_is_refused_with_both_angles() {
    // Order 1-2-4-3 is right on this crank too; 1-4-3-2 is not.
    let crank = layout::inline(4, &pins(&[0.0, 180.0, 180.0, 0.0]));
    assert!(Engine::new(parts(crank.clone(), &[1, 2, 4, 3], Intervals::Even)).is_ok());
    let problems = Engine::new(parts(crank.clone(), &[1, 4, 3, 2], Intervals::Even)).unwrap_err();
    assert!(problems.contains(&EngineError::GeometryDisagrees {
        cylinder: label(4),
        first: label(1),
        by_order: deg(180.0),
        by_geometry: deg(0.0),
    }));
    let text = problems[0].to_string();
    assert!(text.contains("cylinder 4") && text.contains("180.00") && text.contains("0.00"));
}

#[test]
fn order_no_crank_turn_can_give_is_refused() {
    // Even nine on one pin, taken round the other way, needs more than two turns.
    let order = [1, 8, 6, 4, 2, 9, 7, 5, 3];
    let problems =
        Engine::new(parts(layout::radial(9), &order, Intervals::FromGeometry)).unwrap_err();
    assert_eq!(problems[0].code(), "engine.order-against-geometry");
}

#[test]
fn every_problem_is_named_at_once() {
    let mut bad = parts(
        layout::inline(3, &[]),
        &[1, 1, 7],
        Intervals::Listed(vec![deg(300.0), deg(-5.0)]),
    );
    bad.cylinders[2].label = label(2);
    let mut codes: Vec<_> = Engine::new(bad)
        .unwrap_err()
        .iter()
        .map(EngineError::code)
        .collect();
    codes.sort_unstable();
    assert_eq!(
        codes,
        [
            "engine.interval-count",
            "engine.interval-not-positive",
            "engine.interval-sum",
            "engine.label-twice",
            "engine.order-missing",
            "engine.order-twice",
            "engine.order-unknown",
        ]
    );
    let none = parts(vec![], &[], Intervals::Even);
    assert_eq!(Engine::new(none).unwrap_err(), [EngineError::NoCylinders]);
    let unknown = parts(layout::inline(2, &[]), &[1, 2], Intervals::FromGeometry);
    assert_eq!(Engine::new(unknown).unwrap_err().len(), 2);
}

#[test]
fn misprinted_interval_is_refused_with_its_sum() {
    // F5: one page prints 305 for 315; 305 + 405 is no cycle.
    let listed = Intervals::Listed(vec![deg(305.0), deg(405.0)]);
    let problems = Engine::new(parts(layout::inline(2, &[]), &[1, 2], listed)).unwrap_err();
    assert!(problems[0].to_string().contains("710"), "{}", problems[0]);
}

#[test]
fn numbering_and_rotation_turn_over_with_the_end() {
    // N2: DIN 73021 (oldtimer-markt.de, Drehrichtung): clockwise is seen from the end opposite
    // the power output; the same turning is anticlockwise from the output end.
    assert_eq!(
        RUNNING.seen_from_end(End::Output).sense,
        Sense::Anticlockwise
    );
    // N2b, N3b, no source at hand: No. 1 from the free end is No. n from the output end.
    let (din, iso) = (Numbering::FromFreeEnd, Numbering::FromOutputEnd);
    for n in 1..=12 {
        assert_eq!(din.convert(1, n, &iso), Some(n));
        assert_eq!(iso.convert(n, n, &din), Some(1));
    }
    let words = Numbering::Stated("bank by bank".into());
    assert_eq!(din.convert(1, 6, &words), None);
    assert_eq!(words.convert(2, 6, &words), Some(2));
}
