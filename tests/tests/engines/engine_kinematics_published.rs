//! Pistons, degree wheels and pulleys against published dimensions.
//!
//! Each check names where its figure is from. "Derived" means worked out from published inputs by
//! the stated rule, not printed by the source.
#![allow(
    clippy::unwrap_used,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::engine::{ArticulatedRod, PinOffset, PistonStops, Pulley, PulleyArc, SliderCrank};
use lashwork::quantity::{AxisAngle, Length};
use lashwork_tests::values::deg;

fn near(got: f64, wanted: f64, slack: f64) {
    assert_abs_diff_eq!(got, wanted, epsilon = slack);
}

/// Slack for sums of parts of a turn, in degrees.
const ROUNDING: f64 = 1e-9;

#[test]
fn degrees_on_a_rim_are_lengths() {
    let inches = |diameter: &str, degrees: f64| {
        let pulley = Pulley::new(Length::parse(diameter).unwrap()).unwrap();
        pulley.arc(deg(degrees)).mm() / 25.4
    };
    // G2: 73-87.com valve lash page: 25.12 in with pi = 3.14; exact 25.1327. Half a digit;
    // the quarter, printed as 6.28, four times.
    near(inches("8 in", 360.0), 25.1327, 5e-5);
    near(inches("8 in", 90.0) * 4.0, 25.12, 2e-2);
    // G3: 60degreev6.com 10641: 6.6875 in, 6 degrees: 0.3501 in; exact 0.35016.
    near(inches("6.6875 in", 6.0), 0.350_16, 5e-6);
    // G4, same page: radius 15 in, 45 degrees: 11.781 in.
    near(inches("30 in", 45.0), 11.781, 5e-4);
    // G6: crankshaftcoalition.com, timing tape: 10 % of the rim is 36 degrees, 5 % 18, 2.5 % 9.
    let pulley = Pulley::new(Length::parse("7 in").unwrap()).unwrap();
    for (share, wanted) in [(0.1, 36.0), (0.05, 18.0), (0.025, 9.0)] {
        let rim = pulley.arc(deg(360.0)).mm();
        let arc = PulleyArc::from_mm(rim * share).unwrap();
        near(pulley.angle(arc).unwrap().degrees(), wanted, ROUNDING);
    }
    assert!(Pulley::new(Length::from_mm(0.0).unwrap()).is_err());
}

#[test]
fn top_dead_centre_is_midway_between_stops() {
    // G7: modernvespa.com post 1831251: wheel at 0 at first contact, R at the other:
    // R + (360 - R) / 2.
    for r in [270.0, 300.0, 340.0] {
        let stops = PistonStops::new(deg(r), deg(0.0), deg(0.5)).unwrap();
        near(stops.tdc().wheel.degrees(), r + (360.0 - r) / 2.0, ROUNDING);
    }
    // G8: 2quicknovas.com: midway between readings either side; also over the wheel's zero.
    for (a, b, wanted) in [
        (-33.0, 27.0, 357.0),
        (327.0, 27.0, 357.0),
        (340.0, 20.0, 0.0),
    ] {
        let found = PistonStops::new(deg(a), deg(b), deg(0.5)).unwrap().tdc();
        near(found.wheel.degrees(), wanted, ROUNDING);
        // Derived: the mean of two readings, u / sqrt 2.
        near(
            found.standard_uncertainty.degrees(),
            0.5 / 2f64.sqrt(),
            1e-15,
        );
    }
}

#[test]
fn stops_that_give_no_answer_are_refused() {
    let code = |a, b, u| PistonStops::new(deg(a), deg(b), deg(u)).unwrap_err().code();
    assert_eq!(code(20.0, 340.0, 0.5), "engine.stops-too-far-apart");
    assert_eq!(code(10.0, 370.0, 0.5), "engine.stops-equal");
    assert_eq!(code(340.0, 20.0, -0.5), "engine.negative-uncertainty");
}

fn slider(r: f64, l: f64, e: f64) -> SliderCrank {
    SliderCrank::new(
        Length::from_mm(r).unwrap(),
        Length::from_mm(l).unwrap(),
        PinOffset::from_mm(e).unwrap(),
    )
    .unwrap()
}

#[test]
fn piston_drop_follows_the_slider_crank_formula() {
    // G10, derived; formula also on the MathWorks combustion cylinder page. Half a printed digit.
    let crank = slider(50.0, 200.0, 0.0);
    for (at, wanted) in [
        (0.0, 0.0),
        (10.0, 0.948_16),
        (30.0, 8.267_38),
        (60.0, 29.743_76),
        (90.0, 56.350_83),
        (120.0, 79.743_76),
        (150.0, 94.869_92),
        (180.0, 100.0),
    ] {
        near(crank.piston_drop(deg(at)).mm(), wanted, 5.1e-6);
    }
    // G12: TM 9-8000 p. 2-36: almost no movement near the end of a stroke; under 4 % in 20 degrees.
    assert!(crank.piston_drop(deg(20.0)).mm() < 4.0);
}

/// Slack for double precision on lengths of 130 mm.
const BITS: f64 = 2e-13;

#[test]
fn piston_drop_with_an_offset_pin_follows_the_formula() {
    // r 29, l 100; derived with 50 digits from the formula in the Cornell KMODDL tutorial.
    let (plain, offset) = (slider(29.0, 100.0, 0.0), slider(29.0, 100.0, 1.5));
    for (at, without, with) in [
        (0.0, 0.0, 0.002_529_407_845_848_082),
        (30.0, 4.942_097_786_008_39, 4.725_142_680_232_479),
        (60.0, 17.705_113_771_439_35, 17.319_553_411_411_84),
        (90.0, 33.297_335_460_291_39, 32.846_856_159_815_09),
        (120.0, 46.705_113_771_439_35, 46.319_553_411_411_84),
        (150.0, 55.171_571_205_505_83, 54.954_616_099_729_92),
        (180.0, 58.0, 58.002_529_407_845_85),
        (210.0, 55.171_571_205_505_83, 55.394_314_050_686_34),
        (240.0, 46.705_113_771_439_35, 47.098_043_587_679_66),
        (270.0, 33.297_335_460_291_39, 33.756_043_698_862_29),
        (300.0, 17.705_113_771_439_35, 18.098_043_587_679_66),
        (330.0, 4.942_097_786_008_39, 5.164_840_631_188_898),
    ] {
        near(plain.piston_drop(deg(at)).mm(), without, BITS);
        near(offset.piston_drop(deg(at)).mm(), with, BITS);
    }
    near(offset.stroke().mm(), 58.007_125_613_851_6, BITS);
    near(plain.stroke().mm(), 58.0, BITS);
    near(offset.tdc_angle().degrees(), 0.666_245_008_547_051_9, BITS);
    near(offset.bdc_angle().degrees(), 181.210_564_280_335_4, BITS);
    let (tdc, bdc) = (offset.tdc_angle(), offset.bdc_angle());
    near((bdc - tdc).degrees(), 180.544_319_271_788_4, BITS);
    for (from_tdc, before, after) in [
        (5.0, 0.142_352_045_490_969_3, 0.142_268_363_923_760_8),
        (10.0, 0.567_823_439_137_791_3, 0.567_157_952_125_948_6),
        (20.0, 2.244_778_334_445_995, 2.239_580_419_969_034),
        (28.0, 4.332_881_608_582_309, 4.319_054_957_761_472),
    ] {
        near(offset.piston_drop(tdc - deg(from_tdc)).mm(), before, BITS);
        near(offset.piston_drop(tdc + deg(from_tdc)).mm(), after, BITS);
    }
}

#[test]
fn lecture_example_with_the_other_sign_of_offset() {
    // A lecture text with r 5, l 15, e 3 and the offset's sign turned round; heights above the
    // crank's centre, so only differences of drops are compared.
    let crank = slider(5.0, 15.0, -3.0);
    let drop = |at| crank.piston_drop(deg(at)).mm();
    near(
        drop(30.0) - drop(0.0),
        19.696_938_456_699_1 - 18.285_412_755_875_1,
        1e-12,
    );
    near(
        drop(90.0) - drop(0.0),
        19.696_938_456_699_1 - 12.688_577_540_449_5,
        1e-12,
    );
}

#[test]
fn one_millimetre_down_is_not_symmetrical_with_an_offset_pin() {
    // Derived with 50 digits, r 29, l 100.
    let one = Length::from_mm(1.0).unwrap();
    let (before, after) = slider(29.0, 100.0, 0.0).angles_at_drop(one).unwrap();
    near(before.degrees(), -13.295_972_048_249_35, 1e-12);
    near(after.degrees(), 13.295_972_048_249_35, 1e-12);
    let (before, after) = slider(29.0, 100.0, 1.5).angles_at_drop(one).unwrap();
    near(before.degrees(), -12.624_065_843_526_24, 1e-12);
    near(after.degrees(), 13.966_965_698_755_03, 1e-12);
}

#[test]
fn middle_of_the_stops_is_corrected_for_the_offset_pin() {
    // Derived: middle 0.67145, true top dead centre 0.66625.
    let stops = PistonStops::new(
        deg(-12.624_065_843_526_24),
        deg(13.966_965_698_755_03),
        deg(0.5),
    )
    .unwrap();
    near(stops.tdc().wheel.degrees(), 0.671_449_927_614_393_1, 1e-12);
    let corrected = stops.tdc_with(&slider(29.0, 100.0, 1.5));
    near(corrected.wheel.degrees(), 0.666_245_008_547_051_9, 1e-12);
    assert_eq!(stops.tdc_with(&slider(29.0, 100.0, 0.0)), stops.tdc());
}

#[test]
fn impossible_cranks_are_refused() {
    let code = |r, l, e| {
        SliderCrank::new(
            Length::from_mm(r).unwrap(),
            Length::from_mm(l).unwrap(),
            PinOffset::from_mm(e).unwrap(),
        )
        .unwrap_err()
        .code()
    };
    assert_eq!(code(0.0, 100.0, 0.0), "engine.crank-radius");
    assert_eq!(code(29.0, 29.0, 0.0), "engine.rod-too-short");
    assert_eq!(code(29.0, 30.0, -1.0), "engine.rod-too-short");
}

fn link(cylinder: f64) -> ArticulatedRod {
    let mm = |mm| Length::from_mm(mm).unwrap();
    let cylinder = AxisAngle::from_degrees(cylinder).unwrap();
    ArticulatedRod::new(mm(3.0), mm(12.0), mm(3.0), mm(9.0), cylinder).unwrap()
}

#[test]
fn link_rods_shift_the_dead_centres() {
    // Derived separately from geometry, no published figures found: crank 3, master 12,
    // knuckle 3, link 9. Half a printed digit.
    for (cylinder, shift) in [
        (0.0, 0.0),
        (40.0, 0.5713),
        (80.0, 3.1474),
        (120.0, 4.4924),
        (160.0, 2.0364),
    ] {
        near(link(cylinder).tdc_shift().degrees(), shift, 5.1e-5);
        // Mirrored across the master cylinder: the same, the other way.
        near(link(-cylinder).tdc_shift().degrees(), -shift, 5.1e-5);
    }
    for (cylinder, stroke) in [
        (0.0, 6.0),
        (40.0, 6.0005),
        (80.0, 6.0144),
        (120.0, 6.0406),
        (160.0, 6.0131),
    ] {
        near(link(cylinder).stroke().mm(), stroke, 5.1e-5);
        near(link(-cylinder).stroke().mm(), stroke, 5.1e-5);
    }
}
