//! One ignition point said every way, against published figures and figures computed here.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::float_cmp,
    reason = "a test stops at the first thing it does not expect; halves and doubles are exact"
)]

use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::engine::{
    CylinderLabel, Engine, LinkRod, LinkRods, PinOffset, Pulley, SliderCrank, layout,
};
use lashwork::ignition::point::{
    Dial, Drive, MarkSide, PairFits, Piston, RimMark, Said, Sparks, Tools, WHEEL_U, every_way,
    flashes, pair_fits,
};
use lashwork::quantity::{Advance, Cycle, DistributorAdvance, Length, PistonTravel};
use lashwork_tests::values::deg;

fn mm(mm: f64) -> Length {
    Length::from_mm(mm).unwrap()
}

fn travel(mm: f64) -> PistonTravel {
    PistonTravel::from_mm(mm).unwrap()
}

fn before(degrees: f64) -> Advance {
    Advance::from_degrees_before(degrees).unwrap()
}

fn piston(stroke: f64, rod: f64) -> Piston<'static> {
    Piston::of_crank(SliderCrank::new(mm(stroke / 2.0), mm(rod), PinOffset::ZERO).unwrap())
}

/// Sign names: A at 10 BTDC comes before B at TDC, C at 10 ATDC after it. Published: TM 9-8000, p. 2-33,
/// figure 2-51.
#[test]
fn btdc_atdc_and_their_marks() {
    let damper = Pulley::new(mm(133.4)).unwrap();
    for (text, degrees, side) in [
        ("10 deg BTDC", 10.0, MarkSide::Ahead),
        ("0 deg BTDC", 0.0, MarkSide::On),
        ("10 deg ATDC", -10.0, MarkSide::Behind),
    ] {
        let point = Advance::parse(text).unwrap();
        assert_eq!(point.degrees_before(), degrees);
        let mark = RimMark::of(damper, point);
        assert_eq!(mark.side, side);
        let back = mark.point(damper).unwrap().degrees_before();
        assert_abs_diff_eq!(back, degrees, epsilon = 1e-12);
    }
}

/// Computed here by `s = r (1 - cos a) + l - sqrt(l^2 - (r sin a)^2)`.
#[test]
fn piston_travel_there_and_back() {
    for (stroke, rod, degrees, down) in [(54.0, 100.0, 22.0, 2.479), (54.5, 110.0, 83.0, 27.306)] {
        let piston = piston(stroke, rod);
        let found = piston.travel(before(degrees)).unwrap();
        assert_abs_diff_eq!(found.mm(), down, epsilon = 5e-4);
        let back = piston.before(found).unwrap().degrees_before();
        assert_abs_diff_eq!(back, degrees, epsilon = 1e-9);
    }
}

/// Published (a damper's page, dino246blog): 40 deg are 46.58 mm on its rim; the diameter of 133.4 mm is
/// computed from them.
#[test]
fn forty_degrees_on_a_damper() {
    let mark = RimMark::of(Pulley::new(mm(133.4)).unwrap(), before(40.0));
    assert_abs_diff_eq!(mark.along_rim.mm(), 46.58, epsilon = 0.02);
}

/// Published: 180 crank degrees are 90 at the distributor (TM 9-8000).
#[test]
fn crank_and_distributor() {
    let half = Drive::once_a_cycle(Cycle::FourStroke);
    assert_eq!(half.rotor(deg(180.0)).unwrap().degrees(), 90.0);
    // A two-stroke engine's turns with the crank, and so does a magneto on it.
    let point = DistributorAdvance::parse("5 deg BTDC").unwrap();
    assert_eq!(half.at_crank(point).unwrap(), before(10.0));
    let two = Drive::once_a_cycle(Cycle::TwoStroke);
    assert_eq!(two.at_crank(point).unwrap(), before(5.0));
    assert_eq!(two, Drive::WITH_CRANK);
    // A distributor's figure where the crank's is asked.
    let twice = half.same_point(
        before(10.0),
        DistributorAdvance::parse("10 deg BTDC").unwrap(),
    );
    assert_eq!(twice.unwrap_err().code(), "ignition.crank-and-distributor");
    assert!(half.same_point(before(10.0), point).is_ok());
}

/// Published: impulse lag of 14 magneto degrees at half crank speed are 28 at the crank.
#[test]
fn impulse_lag_at_half_speed() {
    let magneto = Drive::once_a_cycle(Cycle::FourStroke);
    let lag = DistributorAdvance::parse("14 deg BTDC").unwrap();
    assert_eq!(magneto.at_crank(lag).unwrap(), before(28.0));
}

/// Published as a rule (TM 9-8000, p. 2-36): in the last 15 to 20 degrees the piston hardly moves; so 0.2 mm
/// of a dial is over a degree at 10 BTDC and a third of that at 38 (computed here).
#[test]
fn a_dial_is_the_surer_the_farther_from_the_top() {
    let piston = piston(80.0, 140.0);
    let near = piston.degrees_of(before(10.0), 0.2).unwrap();
    let far = piston.degrees_of(before(38.0), 0.2).unwrap();
    assert!(near > 1.0 && far < near / 3.0 && far > near / 5.0);
    // At the top itself it is finite, and about the angle of so much travel.
    let top = piston.degrees_of(before(0.0), 0.2).unwrap();
    let reach = piston.before(travel(0.2)).unwrap().degrees_before();
    assert_abs_diff_eq!(top, reach, epsilon = 1e-9);
}

#[test]
fn the_surest_way_changes_with_the_point() {
    let tools = Tools {
        wheel: Some(WHEEL_U),
        rim: Some((Pulley::new(mm(150.0)).unwrap(), true)),
        rotor: Some(Drive::once_a_cycle(Cycle::FourStroke)),
        dial: Some((piston(54.0, 100.0), Dial::new(None, 0.0).unwrap())),
    };
    let ways = every_way(before(22.0), &tools).unwrap();
    assert_eq!(ways.len(), 4);
    assert!(matches!(ways[0].said, Said::PistonTravel { .. }));
    // Doubled from the distributor's scale it is the least sure.
    assert!(matches!(ways[3].said, Said::DistributorDegrees(_)));
    assert_eq!(ways[3].crank_degrees_u, 2.0);
    let near = every_way(before(1.0), &tools).unwrap();
    assert!(matches!(near[0].said, Said::CrankDegrees(_)));
    assert!(matches!(near[3].said, Said::PistonTravel { .. }));
    let refused = every_way(before(10.0), &Tools::default()).unwrap_err();
    assert_eq!(refused.code(), "ignition.no-tool");
}

/// The radius for the stroke (27 for 54 mm) is found by the book's pair of angle and travel; so is an angle
/// that counts at the distributor. A travel beyond the stroke is refused with that hint.
#[test]
fn radius_for_stroke_and_distributor_for_crank() {
    let fits = |piston: &Piston<'_>, degrees, down| {
        pair_fits(piston, before(degrees), travel(down), 0.5, 0.03).unwrap()
    };
    assert_eq!(fits(&piston(54.0, 100.0), 22.0, 2.48)[0], PairFits::AsGiven);
    let slip = piston(27.0, 100.0);
    assert_eq!(fits(&slip, 22.0, 2.48), [PairFits::RadiusGivenForStroke]);
    assert_eq!(
        fits(&piston(54.0, 100.0), 11.0, 2.48),
        [PairFits::DistributorDegrees]
    );
    assert_eq!(
        fits(&piston(54.0, 100.0), 44.0, 2.48),
        [PairFits::HalfTheAngle]
    );
    assert!(fits(&piston(54.0, 100.0), 22.0, 15.0).is_empty());
    let beyond = piston(27.25, 110.0).before(travel(27.306)).unwrap_err();
    assert_eq!(beyond.code(), "ignition.travel-beyond-stroke");
    assert!(beyond.hint().contains("half the stroke"));
}

#[test]
fn a_leaning_plug_hole_shows_more() {
    let dial = Dial::new(Some(0.02), 30.0).unwrap();
    let shown = dial.reading(travel(2.0)).unwrap().mm();
    assert_abs_diff_eq!(shown, 4.0 / 3.0_f64.sqrt(), epsilon = 1e-12);
    assert!(Dial::new(Some(-0.1), 0.0).is_err() && Dial::new(None, f64::NAN).is_err());
}

/// An offset pin: the point counts from true top dead centre, and both sides of it differ.
#[test]
fn an_offset_pin_tells_before_from_after() {
    let crank = SliderCrank::new(mm(40.0), mm(130.0), PinOffset::from_mm(3.0).unwrap()).unwrap();
    let piston = Piston::of_crank(crank);
    for degrees in [2.0, 12.0, 35.0] {
        let early = piston.travel(before(degrees)).unwrap();
        let late = piston.travel(before(-degrees)).unwrap();
        assert!(early.mm() != late.mm());
        assert_abs_diff_eq!(
            piston.before(early).unwrap().degrees_before(),
            degrees,
            epsilon = 1e-6
        );
        assert_abs_diff_eq!(
            piston.after(late).unwrap().degrees_before(),
            -degrees,
            epsilon = 1e-6
        );
    }
    assert_eq!(piston.travel(before(0.0)).unwrap().mm(), 0.0);
}

/// A link rod tops its piston after its cylinder fires by order; the travel there and back agree all the
/// same, and the master's is that of a plain crank.
#[test]
fn link_rods() {
    let link = |cylinder| LinkRod {
        cylinder: CylinderLabel::numbered(cylinder),
        knuckle_radius: mm(50.0),
        knuckle: None,
        length: mm(200.0),
    };
    let rods = LinkRods {
        master: CylinderLabel::numbered(1),
        crank_radius: mm(60.0),
        master_rod: mm(250.0),
        links: (2..=5).map(link).collect(),
    };
    let five = Engine::builder(layout::radial(5))
        .order([1, 3, 5, 2, 4])
        .build()
        .unwrap();
    let five = five.with_link_rods(&[rods]).unwrap();
    let of = |n| Piston::of_engine(&five, five.index_of(&CylinderLabel::numbered(n)).unwrap());
    let plain = piston(120.0, 250.0);
    let (master, three) = (of(1).unwrap(), of(3).unwrap());
    let point = before(25.0);
    assert_abs_diff_eq!(
        master.travel(point).unwrap().mm(),
        plain.travel(point).unwrap().mm(),
        epsilon = 1e-9
    );
    let down = three.travel(point).unwrap();
    assert!((down.mm() - plain.travel(point).unwrap().mm()).abs() > 0.2);
    let back = three.before(down).unwrap().degrees_before();
    assert_abs_diff_eq!(back, 25.0, epsilon = 1e-6);
    let unknown = Engine::inline_four_stroke(&[1, 2]).unwrap();
    let refused = Piston::of_engine(&unknown, unknown.order()[0]).unwrap_err();
    assert_eq!(refused.code(), "ignition.no-rod");
}

/// An odd-fire twin: the second cylinder's lamp shows another mark; on a wasted spark the lamp shows both,
/// each at its overlap as well.
#[test]
fn flashes_of_an_odd_fire_twin() {
    let twin = Engine::builder(layout::inline(2, &[]))
        .order([1, 2])
        .intervals([deg(405.0), deg(315.0)])
        .build()
        .unwrap();
    let drive = Drive::once_a_cycle(Cycle::FourStroke);
    let all = flashes(&twin, before(10.0), drive, Sparks::OnceACycle).unwrap();
    let behind: Vec<_> = all.iter().map(|f| f.behind_first_mark.degrees()).collect();
    assert_eq!(behind, [0.0, 45.0]);
    assert!(all[0].at_first_mark && !all[1].at_first_mark);
    assert_eq!(all[0].crank.degrees(), 710.0);
    assert_eq!(all[1].crank.degrees(), 395.0);
    assert_eq!(all[1].rotor.degrees(), 202.5);
    let wasted = flashes(&twin, before(10.0), drive, Sparks::OnceATurn).unwrap();
    let order: Vec<_> = wasted
        .iter()
        .map(|f| (f.cylinder.get(), f.is_wasted))
        .collect();
    assert_eq!(order, [(0, false), (1, true), (0, true), (1, false)]);
    // A magneto on the crank points the same way at both.
    let with_crank = flashes(&twin, before(10.0), Drive::WITH_CRANK, Sparks::OnceATurn).unwrap();
    assert!(
        with_crank.iter().all(|f| f.rotor == f.rotor
            && (f.rotor.degrees() - f.behind_first_mark.degrees()).abs() < 1e-9)
    );
    // A two-stroke engine fires at every turn: no spark is wasted.
    let two = Engine::builder(layout::inline(2, &[]))
        .two_stroke()
        .order([1, 2])
        .build()
        .unwrap();
    let each = flashes(&two, before(20.0), Drive::WITH_CRANK, Sparks::OnceATurn).unwrap();
    assert!(each.len() == 2 && each.iter().all(|f| !f.is_wasted));
}

/// A side that contradicts the distance is refused, not guessed.
#[test]
fn a_mark_on_the_tdc_mark_is_not_away_from_it() {
    let pulley = Pulley::new(mm(150.0)).unwrap();
    let on = |along| RimMark {
        along_rim: mm(along),
        side: MarkSide::On,
    };
    assert_eq!(on(0.0).point(pulley), Ok(Advance::TDC));
    let refused = on(10.0).point(pulley).unwrap_err();
    assert_eq!(refused.code(), "quantity.out-of-range");
    assert!(refused.to_string().contains("10 mm"), "{refused}");
}
