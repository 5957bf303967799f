//! Laws that hold for every engine and every crank.
#![allow(
    clippy::unwrap_used,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::abs_diff_eq;
use lashwork::engine::{
    CamRing, CylinderLabel, End, Engine, EngineParts, Intervals, Numbering, PinOffset, PistonStops,
    Pulley, RingSense, Rotation, Sense, SliderCrank, layout,
};
use lashwork::quantity::{AxisAngle, Cycle, CyclePosition, Length};
use lashwork_tests::values::deg;
use proptest::prelude::*;

fn cycles() -> impl Strategy<Value = Cycle> {
    prop_oneof![Just(Cycle::TwoStroke), Just(Cycle::FourStroke)]
}

fn orders() -> impl Strategy<Value = Vec<usize>> {
    (1_usize..=18).prop_flat_map(|n| Just((1..=n).collect::<Vec<_>>()).prop_shuffle())
}

fn parts(cycle: Cycle, order: &[usize], intervals: Intervals) -> EngineParts {
    EngineParts {
        cycle,
        cylinders: layout::inline(order.len(), &[]),
        order: order.iter().copied().map(CylinderLabel::numbered).collect(),
        intervals,
        rotation: Rotation {
            sense: Sense::Clockwise,
            seen_from: End::Free,
        },
        numbering: Numbering::FromFreeEnd,
    }
}

/// Any engine: shares of the cycle in proportion to the weights.
fn engines() -> impl Strategy<Value = Engine> {
    (cycles(), orders()).prop_flat_map(|(cycle, order)| {
        prop::collection::vec(0.1_f64..1.0, order.len()).prop_map(move |weights| {
            let sum: f64 = weights.iter().sum();
            let listed = weights
                .iter()
                .map(|w| deg(w / sum * cycle.degrees()))
                .collect();
            Engine::new(parts(cycle, &order, Intervals::Listed(listed))).unwrap()
        })
    })
}

fn sliders() -> impl Strategy<Value = SliderCrank> {
    (10.0_f64..100.0, 1.1_f64..6.0, -0.9_f64..0.9).prop_map(|(r, ratio, share)| {
        let l = r * ratio;
        SliderCrank::new(
            Length::from_mm(r).unwrap(),
            Length::from_mm(l).unwrap(),
            PinOffset::from_mm((l - r) * share).unwrap(),
        )
        .unwrap()
    })
}

proptest! {
    #[test]
    fn what_a_label_or_a_ring_shows_is_read_back(
        name in "[A-Za-z0-9][A-Za-z0-9 ]{0,6}[A-Za-z0-9]",
        lobes in 1_u8..=CamRing::MAX_LOBES,
        turns in 1.0_f64..CamRing::MAX_CRANK_TURNS,
        same in any::<bool>(),
    ) {
        let label = CylinderLabel::new(&name).unwrap();
        prop_assert_eq!(label.to_string().parse(), Ok(label));
        let sense = if same { RingSense::Same } else { RingSense::Opposite };
        let ring = CamRing::new(lobes, turns, sense).unwrap();
        prop_assert_eq!(ring.to_string().parse(), Ok(ring));
    }

    #[test]
    fn intervals_fill_the_cycle(engine in engines()) {
        let all = engine.intervals();
        prop_assert_eq!(all.len(), engine.cylinders().len());
        let sum: f64 = all.iter().map(|i| i.degrees()).sum();
        // Rounding of 18 additions of degrees.
        prop_assert!(abs_diff_eq!(sum, engine.cycle().degrees(), epsilon = 1e-9));
        prop_assert!(all.iter().all(|i| i.degrees() > 0.0));
    }

    #[test]
    fn order_is_a_permutation(engine in engines()) {
        let mut seen: Vec<_> = engine.order().to_vec();
        seen.sort_unstable();
        prop_assert_eq!(seen, engine.indices().collect::<Vec<_>>());
    }

    #[test]
    fn own_phase_is_zero_where_the_cylinder_fires(engine in engines()) {
        for index in engine.indices() {
            let fires = engine.firing_position(index);
            prop_assert!(abs_diff_eq!(engine.own_phase(index, fires).degrees(), 0.0, epsilon = 1e-9));
        }
    }

    #[test]
    fn own_phase_and_crank_position_go_both_ways(engine in engines(), at in 0.0_f64..720.0) {
        let place = CyclePosition::new(engine.cycle(), deg(at));
        for index in engine.indices() {
            let back = engine.crank_at(index, engine.own_phase(index, place));
            let apart = place.forward_to(back).degrees();
            prop_assert!(apart.min(engine.cycle().degrees() - apart) < 1e-9);
        }
    }

    #[test]
    fn own_phase_turns_with_the_crank(
        engine in engines(), at in 0.0_f64..720.0, by in 0.0_f64..720.0,
    ) {
        let place = CyclePosition::new(engine.cycle(), deg(at));
        for index in engine.indices() {
            let moved = engine.own_phase(index, place).turned(deg(by));
            let again = engine.own_phase(index, place.turned(deg(by)));
            let apart = moved.forward_to(again).degrees();
            prop_assert!(apart.min(engine.cycle().degrees() - apart) < 1e-9);
        }
    }

    #[test]
    fn companionship_is_mutual(order in orders()) {
        let engine = Engine::new(parts(Cycle::FourStroke, &order, Intervals::Even)).unwrap();
        for index in engine.indices() {
            let there = engine.companion(index);
            prop_assert_eq!(there.is_some(), order.len() % 2 == 0);
            if let Some(other) = there {
                prop_assert_eq!(engine.companion(other), Some(index));
            }
        }
    }

    #[test]
    fn pins_made_from_an_even_order_give_it_back(order in orders()) {
        let n = order.len();
        let mut pins = vec![AxisAngle::ZERO; n];
        for (place, number) in order.iter().enumerate() {
            let pin = -720.0 * place as f64 / n as f64;
            *pins.get_mut(number - 1).unwrap() = AxisAngle::from_degrees(pin).unwrap();
        }
        let with_pins = |intervals| EngineParts {
            cylinders: layout::inline(n, &pins),
            ..parts(Cycle::FourStroke, &order, intervals)
        };
        let geometry = Engine::new(with_pins(Intervals::FromGeometry)).unwrap();
        let even = Engine::new(with_pins(Intervals::Even)).unwrap();
        for index in even.indices() {
            let apart = geometry.firing_position(index).degrees()
                - even.firing_position(index).degrees();
            prop_assert!(abs_diff_eq!(apart, 0.0, epsilon = 1e-6));
        }
    }

    #[test]
    fn seen_from_there_and_back_is_the_same(clockwise: bool, free: bool, to_free: bool) {
        let end = |free| if free { End::Free } else { End::Output };
        let sense = if clockwise { Sense::Clockwise } else { Sense::Anticlockwise };
        let rotation = Rotation { sense, seen_from: end(free) };
        let there = rotation.seen_from_end(end(to_free));
        prop_assert_eq!(there.seen_from_end(end(free)), rotation);
        prop_assert_eq!(there.sense == sense, free == to_free);
    }

    #[test]
    fn numbering_there_and_back_is_the_same(count in 1_usize..20, number in 1_usize..20) {
        let (free, output) = (Numbering::FromFreeEnd, Numbering::FromOutputEnd);
        let there = free.convert(number, count, &output);
        prop_assert_eq!(there.is_some(), number <= count);
        if let Some(there) = there {
            prop_assert_eq!(output.convert(there, count, &free), Some(number));
        }
    }

    #[test]
    fn drop_and_angle_are_inverse(slider in sliders(), share in 0.0_f64..=1.0) {
        let drop = Length::from_mm(slider.stroke().mm() * share).unwrap();
        let (before, after) = slider.angles_at_drop(drop).unwrap();
        let tdc = slider.tdc_angle().degrees();
        prop_assert!(before.degrees() <= tdc + 1e-6 && tdc <= after.degrees() + 1e-6);
        for angle in [before, after] {
            let again = slider.piston_drop(angle).mm();
            // Double precision on rods up to 600 mm.
            prop_assert!(abs_diff_eq!(again, drop.mm(), epsilon = 1e-10), "{} {}", again, drop.mm());
        }
    }

    #[test]
    fn drop_lies_within_the_stroke(slider in sliders(), at in -1000.0_f64..1000.0) {
        let drop = slider.piston_drop(deg(at));
        prop_assert!(drop.mm() >= 0.0 && drop <= slider.stroke());
        prop_assert!(slider.piston_drop(slider.tdc_angle()).mm() < 1e-10);
        let bottom = slider.piston_drop(slider.bdc_angle()).mm();
        prop_assert!(abs_diff_eq!(bottom, slider.stroke().mm(), epsilon = 1e-10));
    }

    #[test]
    fn corrected_stops_find_the_true_dead_centre(
        slider in sliders(), share in 0.01_f64..0.3, wheel in 0.0_f64..360.0,
    ) {
        let drop = Length::from_mm(slider.stroke().mm() * share).unwrap();
        let (before, after) = slider.angles_at_drop(drop).unwrap();
        prop_assume!((after - before).degrees() < 179.0);
        let stops = PistonStops::new(before + deg(wheel), after + deg(wheel), deg(0.1)).unwrap();
        let found = stops.tdc_with(&slider).wheel.degrees();
        let off = (found - wheel - slider.tdc_angle().degrees()).rem_euclid(360.0);
        prop_assert!(off.min(360.0 - off) < 1e-8, "{}", off);
    }

    #[test]
    fn rim_and_angle_are_inverse(mm in 1.0_f64..2000.0, at in -720.0_f64..720.0) {
        let pulley = Pulley::new(Length::from_mm(mm).unwrap()).unwrap();
        let again = pulley.angle(pulley.arc(deg(at))).unwrap();
        prop_assert!(abs_diff_eq!(again.degrees(), at, epsilon = 1e-9));
    }
}

/// Sevenths, elevenths and thirteenths of a cycle, as a book prints them.
#[test]
fn rounded_intervals_name_the_companions_of_the_even_engine() {
    for count in [14, 22, 26, 28] {
        let order: Vec<usize> = (1..=count).collect();
        let even = Engine::new(parts(Cycle::FourStroke, &order, Intervals::Even)).unwrap();
        for decimals in 3..=6 {
            let step = 10_f64.powi(decimals);
            let printed = (720.0 / count as f64 * step).round() / step;
            let listed = Intervals::Listed(vec![deg(printed); count]);
            let rounded = Engine::new(parts(Cycle::FourStroke, &order, listed)).unwrap();
            for index in even.indices() {
                assert!(even.companion(index).is_some());
                assert_eq!(
                    rounded.companion(index),
                    even.companion(index),
                    "{count}, {decimals}"
                );
            }
        }
    }
}
