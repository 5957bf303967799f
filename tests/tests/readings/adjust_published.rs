//! Screws and shims against published figures.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::adjust::{
    ScrewSeat, ScrewTurn, ShimFit, ShimRounding, ShimSeries, Thread, TurnDirection, TurnRoom,
    screw_turn,
};
use lashwork::quantity::{
    Lash, LashChange, Length, LengthUnit, Nominal, ScrewAngle, ShimThickness,
};
use lashwork_tests::values::mark as marked;

fn turn(change: &str, thread: Thread, seat: ScrewSeat, ratio: f64, inward: bool) -> ScrewTurn {
    let change = LashChange::parse(change).unwrap();
    screw_turn(change, thread, seat, ratio, inward).unwrap()
}

fn fit(old: &str, measured: &str, target: &str) -> ShimFit {
    ShimFit {
        old: ShimThickness::parse(old).unwrap(),
        measured: Lash::parse(measured).unwrap(),
        target: Lash::parse(target).unwrap(),
        ratio_from_shim_to_gap: 1.0,
    }
}

fn toyota() -> ShimSeries {
    ShimSeries::new(marked("2.50 mm"), marked("3.30 mm"), marked("0.05 mm")).unwrap()
}

fn travel_inches(thread: Thread, degrees: f64) -> f64 {
    let angle = ScrewAngle::from_degrees(degrees).unwrap();
    thread.travel(angle).unwrap().mm() / 25.4
}

/// 26 per inch: a turn 0.03846 in, a quarter 0.009615 in; the page rounds to 0.040, 0.010 and
/// (half) 0.020. Source: classicenglishbikes.com 35_Valve_Adjustment, exact quarter derived.
#[test]
fn one_turn_of_26_per_inch() {
    let thread = Thread::per_inch(26).unwrap();
    // Printed to five and six decimals.
    assert_abs_diff_eq!(travel_inches(thread, 360.0), 0.03846, epsilon = 0.000_005);
    assert_abs_diff_eq!(
        travel_inches(thread, 90.0),
        0.009_615,
        epsilon = 0.000_000_5
    );
    // The page's round numbers are 4 % large.
    assert_abs_diff_eq!(travel_inches(thread, 180.0), 0.020, epsilon = 0.001);
    assert_abs_diff_eq!(travel_inches(thread, 90.0), 0.010, epsilon = 0.0005);
}

/// M6 x 1.0, 0.008 in: 73.15 degrees. Source: ls1tech.com thread 274125.
#[test]
fn m6_screw_for_eight_thou() {
    let m6 = Thread::metric(Length::parse("1.0 mm").unwrap()).unwrap();
    let turn = turn("0.008 in", m6, ScrewSeat::ValveSide, 1.5, true);
    assert_abs_diff_eq!(turn.angle.degrees(), -73.152, epsilon = 1e-9);
    let room = ScrewAngle::from_degrees(2.0).unwrap();
    let room = TurnRoom {
        short: room,
        over: room,
    };
    assert_eq!(
        turn.words(ScrewSeat::ValveSide, room),
        "out 73 deg (about 12 clock minutes)"
    );
}

/// 18 per inch, 0.008 in: 51.84 degrees exactly. The page prints 52.36 because it rounds the pitch
/// to 0.055 in; that must not come out. Source: ls1tech.com thread 274125.
#[test]
fn eighteen_per_inch_is_not_rounded_to_55_thou() {
    let thread = Thread::per_inch(18.0).unwrap();
    let turn = turn("-0.008 in", thread, ScrewSeat::ValveSide, 1.0, true);
    assert_eq!(turn.direction, TurnDirection::In);
    assert_abs_diff_eq!(turn.angle.degrees(), 51.84, epsilon = 1e-9);
    assert!((turn.angle.degrees() - 52.36).abs() > 0.5);
}

/// 20, 24, 28 and 32 per inch: 0.0500, 0.041667, 0.035714, 0.03125 in a turn. Derived: 1 / tpi.
#[test]
fn inch_threads_by_the_turn() {
    for (threads, inches) in [
        (20, 0.0500),
        (24, 0.041_667),
        (28, 0.035_714),
        (32, 0.03125),
    ] {
        let thread = Thread::per_inch(threads).unwrap();
        assert_abs_diff_eq!(travel_inches(thread, 360.0), inches, epsilon = 0.000_000_5);
    }
}

/// A screw on the push-rod side moves the gap by its travel times the ratio. Source: definition of
/// the rocker ratio; 0.15 mm / 1.5 = 0.10 mm, on a 1 mm pitch 36 degrees.
#[test]
fn cam_side_screw_turns_less_by_the_rocker_ratio() {
    let m6 = Thread::metric(Length::parse("1 mm").unwrap()).unwrap();
    let t = turn("-0.15 mm", m6, ScrewSeat::CamSide, 1.5, true);
    assert_abs_diff_eq!(t.angle.degrees(), 36.0, epsilon = 1e-9);
    assert_abs_diff_eq!(t.travel.mm(), 0.1, epsilon = 1e-12);
    // A tappet screw that lengthens when turned out goes the other way; it still moves into the gap.
    let tappet = turn("-0.15 mm", m6, ScrewSeat::CamSide, 1.5, false);
    assert_eq!(tappet.direction, TurnDirection::Out);
    assert_abs_diff_eq!(tappet.angle.degrees(), -36.0, epsilon = 1e-9);
    assert_abs_diff_eq!(tappet.travel.mm(), 0.1, epsilon = 1e-12);
}

/// The number of a size in that series, as the manual counts.
fn number(size: Nominal) -> Option<usize> {
    let at = toyota().sizes().iter().position(|one| *one == size);
    at.map(|at| at + 1)
}

/// New = old + measured - specified: 2.80, 0.45, 0.20 -> 3.05, No. 12.
/// Source: Toyota 3MZ-FE intake, workshop-manuals.com pp. 1140-1141, 1616-1617.
#[test]
fn intake_shim_is_number_12() {
    for rounding in [ShimRounding::Nearest, ShimRounding::NeverTighter] {
        let fit = fit("2.80 mm", "0.45 mm", "0.20 mm");
        let choice = toyota().nearest(&fit, rounding).unwrap();
        assert_eq!(choice.size, marked("3.05 mm").nominal());
        assert_eq!(number(choice.size), Some(12));
        assert_eq!(
            choice.predicted_lash.show(LengthUnit::Millimetre, 9),
            "0.200000000 mm"
        );
    }
}

/// 2.80, 0.45, 0.30 -> 2.95, No. 10. Source: Toyota 3MZ-FE exhaust, workshop-manuals.com pp. 1140-1141, 1616-1617.
#[test]
fn exhaust_shim_is_number_10() {
    for rounding in [ShimRounding::Nearest, ShimRounding::NeverTighter] {
        let fit = fit("2.80 mm", "0.45 mm", "0.30 mm");
        let choice = toyota().nearest(&fit, rounding).unwrap();
        assert_eq!(choice.size, marked("2.95 mm").nominal());
        assert_eq!(number(choice.size), Some(10));
    }
}

/// 2.50 to 3.30 by 0.05 is 17 sizes, numbered 1 to 17. Source: Toyota, workshop-manuals.com pp. 1140-1141, 1616-1617.
#[test]
fn toyota_series_has_17_sizes() {
    let sizes = toyota().sizes();
    assert_eq!((sizes.len(), toyota().count()), (17, 17));
    assert_eq!(sizes[0], marked("2.50 mm").nominal());
    assert_eq!(sizes[16], marked("3.30 mm").nominal());
}

/// N = R + (M - 0.37); 1.96 to 2.68 by 0.02, 37 sizes (count derived).
/// Source: Nissan KA24DE, manuals.autorepairshq.com, 1994 240SX.
#[test]
fn nissan_series_has_37_sizes_and_its_formula() {
    let series = ShimSeries::new(marked("1.96 mm"), marked("2.68 mm"), marked("0.02 mm")).unwrap();
    assert_eq!(series.count(), 37);
    // R = 2.20, M = 0.45: 2.20 + 0.08 = 2.28, a size of the series.
    let choice = series
        .nearest(
            &fit("2.20 mm", "0.45 mm", "0.37 mm"),
            ShimRounding::NeverTighter,
        )
        .unwrap();
    assert_eq!(choice.size, marked("2.28 mm").nominal());
    assert_abs_diff_eq!(choice.error.mm(), 0.0, epsilon = 1e-12);
}

/// Tappet = measured + base - desired; the number 3.310 means 3.31 mm.
/// Source: Ford 2021 Explorer 3.3 valve clearance (fixxvault).
#[test]
fn ford_tappet_number_is_its_thickness() {
    // Base 3.26, measured 0.30, desired 0.25.
    let wanted = fit("3.260 mm", "0.30 mm", "0.25 mm").wanted().unwrap();
    assert_eq!(wanted, marked("3.310 mm").nominal());
    assert_eq!(wanted, Nominal::from_nanometres(3_310_000).unwrap());
}

/// Every hundredth of wanted thickness in the series is met by a size that is never tighter than the
/// target, and by less than one step. Own law, on the Toyota series.
#[test]
fn never_tighter_is_never_tighter() {
    for hundredths in 0..=50 {
        let measured = format!("0.{:02} mm", 20 + hundredths);
        let wanted = fit("2.80 mm", &measured, "0.20 mm");
        let choice = toyota()
            .nearest(&wanted, ShimRounding::NeverTighter)
            .unwrap();
        // Predicted gaps carry f64 rounding of sums of a few millimetres.
        assert!(choice.error.mm() > -1e-12, "{measured}: {choice:?}");
        assert!(choice.error.mm() < 0.05 - 1e-3, "{measured}: {choice:?}");
        let near = toyota().nearest(&wanted, ShimRounding::Nearest).unwrap();
        assert_abs_diff_eq!(near.error.mm(), 0.0, epsilon = 0.025 + 1e-12);
    }
}

/// Outside the series the refusal names its range. Own rule.
#[test]
fn shim_outside_the_series_is_refused_with_its_range() {
    let wanted = fit("3.20 mm", "0.45 mm", "0.20 mm");
    let error = toyota()
        .nearest(&wanted, ShimRounding::Nearest)
        .unwrap_err();
    assert_eq!(error.code(), "adjust.outside-series");
    assert!(error.to_string().contains("2.50 mm to 3.30 mm"), "{error}");
}

/// Impossible inputs are refused, not computed. Own rule.
#[test]
fn ratios_and_threads_out_of_range_are_refused() {
    let m6 = Thread::metric(Length::parse("1 mm").unwrap()).unwrap();
    let change = LashChange::parse("0.1 mm").unwrap();
    for ratio in [0.29, 4.01, f64::NAN, 0.0, -1.5] {
        let error = screw_turn(change, m6, ScrewSeat::ValveSide, ratio, true).unwrap_err();
        assert_eq!(error.code(), "adjust.ratio");
    }
    for threads in [0.0, -26.0, f64::NAN, f64::INFINITY, 5.0, 255.0] {
        assert_eq!(
            Thread::per_inch(threads).unwrap_err().code(),
            "adjust.pitch"
        );
    }
}
