//! Timing against published figures and traps.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::float_cmp,
    reason = "a test stops at the first thing it does not expect; whole degrees are exact"
)]

use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::engine::Sense;
use lashwork::ignition::point::{Drive, Sparks};
use lashwork::ignition::timing::{
    AboveLast, Body, BodyWay, CentrifugalCurve, CrankPoint, DistributorPoint, Hose, LampDelay,
    PrintedTiming, Running, Taken, TimingError, TimingReading, TimingSlip, VacuumCurve,
    VacuumPoint, dialled_back, timing_slips,
};
use lashwork::quantity::{
    Advance, CrankAngle, CrankSpeed, Cycle, DistributorAngle, DistributorSpeed, Length, Vacuum,
};
use lashwork::tolerance::{Estimate, HasLimits, Limits, Uncertainty, Verdict, judge};

pub(crate) fn rpm(rpm: f64) -> CrankSpeed {
    CrankSpeed::from_rpm(rpm).unwrap()
}

pub(crate) fn before(degrees: f64) -> Advance {
    Advance::from_degrees_before(degrees).unwrap()
}

fn span(degrees: f64) -> CrankAngle {
    CrankAngle::from_degrees(degrees).unwrap()
}

pub(crate) fn curve(points: &[(f64, f64, f64)], above: AboveLast) -> CentrifugalCurve {
    try_curve(points, above).unwrap()
}

fn try_curve(
    points: &[(f64, f64, f64)],
    above: AboveLast,
) -> Result<CentrifugalCurve, TimingError> {
    let points: Vec<_> = points
        .iter()
        .map(|(speed, least, most)| CrankPoint {
            speed: rpm(*speed),
            least: span(*least),
            most: span(*most),
        })
        .collect();
    CentrifugalCurve::at_crank(&points, above)
}

fn capsule(points: &[(&str, f64, f64)], above: AboveLast) -> VacuumCurve {
    let points: Vec<_> = points
        .iter()
        .map(|(vacuum, least, most)| VacuumPoint {
            vacuum: Vacuum::parse(vacuum).unwrap(),
            least: span(*least),
            most: span(*most),
        })
        .collect();
    VacuumCurve::new(&points, above).unwrap()
}

pub(crate) fn limits(text: &str) -> Limits<Advance> {
    text.parse().unwrap()
}

fn strobe(degrees: f64, speed: f64, hose: Hose) -> TimingReading {
    TimingReading {
        read: before(degrees),
        u: Uncertainty::from_number(0.5).unwrap(),
        taken: Taken::Running(Running::at(rpm(speed), hose).with_speed_u(0.0).unwrap()),
        lamp: LampDelay::NONE,
    }
}

fn standing(degrees: f64) -> TimingReading {
    TimingReading {
        taken: Taken::Standing,
        ..strobe(degrees, 0.0, Hose::Plugged)
    }
}

fn centre(book: &PrintedTiming<'_>, reading: &TimingReading) -> f64 {
    let found = book.found(reading, &Advance::USUAL_RULE).unwrap();
    found.estimate.centre().unwrap().degrees_before()
}

/// Published inputs (Volvo 240 B23E, a copy): 200 mmHg give 9 to 14 crank degrees on a basic 10; the band of
/// 19 to 24 is computed here.
#[test]
fn vacuum_of_a_least_and_a_most_column() {
    let vacuum = capsule(&[("200 mmHg", 9.0, 14.0)], AboveLast::Ends);
    let at = Vacuum::parse("200 mmHg").unwrap();
    let book = PrintedTiming::new(
        limits("10 deg BTDC to 10 deg BTDC"),
        Taken::Running(Running::at(rpm(750.0), Hose::Plugged)),
        None,
        Some(&vacuum),
    )
    .unwrap();
    let connected = Taken::Running(Running::at(rpm(750.0), Hose::Connected(Some(at))));
    assert_eq!(
        book.must_read(&connected).unwrap(),
        limits("19 deg BTDC to 24 deg BTDC")
    );
    // The same in inches of mercury.
    let inches = Vacuum::parse("7.874 inHg").unwrap();
    assert_abs_diff_eq!(inches.kilopascals(), at.kilopascals(), epsilon = 0.001);
    // And back: 21.5 read with the hose on is the printed 10, give or take half of the table's width.
    let found = book
        .found(
            &strobe(21.5, 750.0, Hose::Connected(Some(at))),
            &Advance::USUAL_RULE,
        )
        .unwrap();
    assert_eq!(found.estimate.low(), Some(before(7.5)));
    assert_eq!(found.estimate.high(), Some(before(12.5)));
    assert!(found.by_vacuum && !found.by_curve);
}

/// Published: static 10 BTDC and 20 of centrifugal advance at 2200 rpm, no vacuum: 30.
#[test]
fn static_and_full_advance() {
    let curve = curve(&[(900.0, 0.0, 0.0), (2200.0, 20.0, 20.0)], AboveLast::Ends);
    let book = PrintedTiming::new(
        limits("10 deg BTDC to 10 deg BTDC"),
        Taken::Standing,
        Some(&curve),
        None,
    )
    .unwrap();
    let full = Taken::Running(Running::at(rpm(2200.0), Hose::NotFitted));
    assert_eq!(
        book.must_read(&full).unwrap(),
        limits("30 deg BTDC to 30 deg BTDC")
    );
    assert_eq!(centre(&book, &strobe(30.0, 2200.0, Hose::NotFitted)), 10.0);
    // Flat above, because the book says that it ends there.
    assert_eq!(centre(&book, &strobe(30.0, 3500.0, Hose::Plugged)), 10.0);
}

/// Published inputs: initial 12, centrifugal 24 all in at 2400 rpm, vacuum 30 at the crank at 20 inHg. Set at
/// 8 BTDC with full vacuum connected it is 22 ATDC without, 34 late (computed here).
#[test]
fn the_vacuum_trap() {
    let curve = curve(&[(900.0, 0.0, 0.0), (2400.0, 24.0, 24.0)], AboveLast::Ends);
    let vacuum = capsule(
        &[("5 inHg", 0.0, 0.0), ("20 inHg", 30.0, 30.0)],
        AboveLast::Ends,
    );
    let book = PrintedTiming::new(
        limits("11 deg BTDC to 13 deg BTDC"),
        Taken::Standing,
        Some(&curve),
        Some(&vacuum),
    )
    .unwrap();
    let full = Vacuum::parse("20 inHg").unwrap();
    let reading = strobe(8.0, 700.0, Hose::Connected(Some(full)));
    let found = book.found(&reading, &Advance::USUAL_RULE).unwrap();
    assert_eq!(found.estimate.centre(), Some(before(-22.0)));
    assert_eq!(found.judgement.verdict, Verdict::Below);
    assert!(found.is_far_off());
    let slips = timing_slips(&book, &reading, &found).unwrap();
    assert!(slips.contains(&TimingSlip::SetWithVacuum));
    let turn = Body::new(Drive::once_a_cycle(Cycle::FourStroke), None, None)
        .unwrap()
        .turn(before(-22.0), before(12.0), reading.read)
        .unwrap();
    assert_eq!((turn.earlier.degrees(), turn.body.degrees()), (34.0, 17.0));
    // Read with the hose off and plugged it shows at once: late by what the capsule gives.
    let plugged = strobe(-22.0, 700.0, Hose::Plugged);
    let found = book.found(&plugged, &Advance::USUAL_RULE).unwrap();
    let slips = timing_slips(&book, &plugged, &found).unwrap();
    assert_eq!(slips, [TimingSlip::SetWithVacuum]);
    // With the hose on and the vacuum not read, all that can be said is a span of 30 degrees.
    let unread = strobe(20.0, 700.0, Hose::Connected(None));
    let found = book.found(&unread, &Advance::USUAL_RULE).unwrap();
    assert_eq!(found.judgement.verdict, Verdict::CannotSay);
    assert_eq!(found.estimate.low(), Some(before(-10.0)));
    assert_eq!(found.estimate.high(), Some(before(20.0)));
    // With no table of the capsule nothing at all.
    let bare = PrintedTiming::new(*book.limits(), Taken::Standing, Some(&curve), None).unwrap();
    let refused = bare.found(&unread, &Advance::USUAL_RULE).unwrap_err();
    assert_eq!(refused, TimingError::VacuumNotKnown);
    assert!(refused.hint().contains("plug"));
}

/// Published: the maximum advance of a distributor is 15 to 19 crank degrees at 2000 rpm (TM 10-3930-623-12,
/// paragraph 4-22); the same pages name 42 as the most of any engine.
#[test]
fn a_printed_band_of_advance() {
    let curve = curve(
        &[(800.0, 0.0, 0.0), (2000.0, 15.0, 19.0)],
        AboveLast::NotSaid,
    );
    let at = curve.at(rpm(2000.0)).unwrap();
    assert_eq!((at.least, at.most), (span(15.0), span(19.0)));
    let book = PrintedTiming::new(
        limits("4 deg BTDC to 6 deg BTDC"),
        Taken::Standing,
        Some(&curve),
        None,
    )
    .unwrap();
    let must = book
        .must_read(&Taken::Running(Running::at(rpm(2000.0), Hose::Plugged)))
        .unwrap();
    assert_eq!(must, limits("19 deg BTDC to 25 deg BTDC"));
    let beyond = book.found(&strobe(22.0, 2100.0, Hose::Plugged), &Advance::USUAL_RULE);
    assert_eq!(beyond.unwrap_err().code(), "ignition.beyond-curve");
    // 42 is taken on a static 5, 60 in all is the most.
    let most = |advance: f64| {
        let curve = try_curve(
            &[(800.0, 0.0, 0.0), (3000.0, advance, advance)],
            AboveLast::Ends,
        );
        let band = limits("4 deg BTDC to 6 deg BTDC");
        PrintedTiming::new(band, Taken::Standing, Some(&curve.unwrap()), None).map(|_| ())
    };
    assert!(most(42.0).is_ok() && most(54.0).is_ok());
    assert_eq!(most(55.0).unwrap_err().code(), "ignition.total-advance");
}

/// Published: a magneto fires typically 20 to 24 before top dead centre, set within 1 to 2 degrees (external
/// timing). A reading of usual uncertainty can accept the wider band and cannot accept one degree.
#[test]
fn a_magneto_set_within_two_degrees() {
    let at = |degrees: f64, u: f64| {
        let point = before(degrees);
        Estimate::between(point, point, Uncertainty::from_number(u).unwrap()).unwrap()
    };
    let rule = Advance::USUAL_RULE;
    let band = limits("20 deg BTDC to 24 deg BTDC");
    assert_eq!(judge(&at(22.0, 0.5), &band, &rule).verdict, Verdict::InBand);
    // Early is guarded, late is not: half a degree from either end.
    assert_eq!(
        judge(&at(23.7, 0.5), &band, &rule).verdict,
        Verdict::CannotSay
    );
    assert_eq!(judge(&at(20.3, 0.5), &band, &rule).verdict, Verdict::InBand);
    assert_eq!(judge(&at(25.0, 0.5), &band, &rule).verdict, Verdict::Above);
}

/// Published: a maker's distributor table doubled, 6 + 21 = 27 degrees at 3000 rpm (fordsix 27815): 10.5
/// distributor degrees at 1500.
#[test]
fn a_distributor_table_doubled() {
    let point = |speed, degrees| DistributorPoint {
        speed: DistributorSpeed::from_rpm(speed).unwrap(),
        least: DistributorAngle::from_degrees(degrees).unwrap(),
        most: DistributorAngle::from_degrees(degrees).unwrap(),
    };
    let points = [point(450.0, 0.0), point(1500.0, 10.5)];
    let four = Drive::once_a_cycle(Cycle::FourStroke);
    let doubled = CentrifugalCurve::at_distributor(&points, four, AboveLast::Ends).unwrap();
    assert_eq!(doubled.at(rpm(3000.0)).unwrap().most.degrees(), 21.0);
    assert_eq!(doubled.first_speed().unwrap(), rpm(900.0));
    let book = PrintedTiming::new(
        limits("6 deg BTDC to 6 deg BTDC"),
        Taken::Standing,
        Some(&doubled),
        None,
    )
    .unwrap();
    assert_eq!(centre(&book, &strobe(27.0, 3000.0, Hose::Plugged)), 6.0);
    // On a two-stroke engine nothing is doubled.
    let two = Drive::once_a_cycle(Cycle::TwoStroke);
    let same = CentrifugalCurve::at_distributor(&points, two, AboveLast::Ends).unwrap();
    assert_eq!(same.at(rpm(1500.0)).unwrap().most.degrees(), 10.5);
    // Both columns printed must be exactly two apart.
    let crank = |speed, degrees| CrankPoint {
        speed: rpm(speed),
        least: span(degrees),
        most: span(degrees),
    };
    let right = [crank(900.0, 0.0), crank(3000.0, 21.0)];
    assert!(CentrifugalCurve::both(&right, &points, four, AboveLast::Ends).is_ok());
    for wrong in [
        [crank(900.0, 0.0), crank(3000.0, 20.5)],
        [crank(900.0, 0.0), crank(2900.0, 21.0)],
        [crank(450.0, 0.0), crank(1500.0, 10.5)],
    ] {
        let refused = CentrifugalCurve::both(&wrong, &points, four, AboveLast::Ends).unwrap_err();
        assert_eq!(refused.code(), "ignition.not-double");
    }
}

/// Below the first point nothing acts and a strobe reading is static; above it the table is taken off. A
/// first point that already prints an advance leaves open what happens below it.
#[test]
fn static_by_strobe_below_the_first_point_alone() {
    let rises = curve(
        &[(1100.0, 0.0, 0.0), (2200.0, 18.0, 22.0)],
        AboveLast::NotSaid,
    );
    let book = |curve| {
        PrintedTiming::new(
            limits("8 deg BTDC to 12 deg BTDC"),
            Taken::Standing,
            curve,
            None,
        )
        .unwrap()
    };
    let idle = strobe(10.0, 800.0, Hose::Plugged);
    let found = book(Some(&rises))
        .found(&idle, &Advance::USUAL_RULE)
        .unwrap();
    assert!(!found.by_curve && rises.is_at_rest(rpm(800.0)));
    assert_eq!(found.estimate.low(), found.estimate.high());
    // Half way up: 9 to 11 are taken off, and the width stays as doubt.
    let found = book(Some(&rises))
        .found(&strobe(20.0, 1650.0, Hose::Plugged), &Advance::USUAL_RULE)
        .unwrap();
    assert_eq!(found.estimate.low(), Some(before(9.0)));
    assert_eq!(found.estimate.high(), Some(before(11.0)));
    // Without the table the running reading says nothing of the static point.
    let refused = book(None).found(&idle, &Advance::USUAL_RULE).unwrap_err();
    assert_eq!(refused.code(), "ignition.no-curve");
    let begun = curve(
        &[(1100.0, 1.0, 3.0), (2200.0, 18.0, 22.0)],
        AboveLast::NotSaid,
    );
    assert!(!begun.is_at_rest(rpm(800.0)));
    let found = book(Some(&begun))
        .found(&idle, &Advance::USUAL_RULE)
        .unwrap();
    assert_eq!(found.estimate.low(), Some(before(7.0)));
    assert_eq!(found.estimate.high(), Some(before(10.0)));
}

/// A figure printed for a speed is held against a reading at that speed without any table.
#[test]
fn a_figure_printed_for_a_speed() {
    let at = Taken::Running(Running::at(rpm(3000.0), Hose::Plugged));
    let band = limits("28 deg BTDC to 32 deg BTDC");
    let book = PrintedTiming::new(band, at, None, None).unwrap();
    assert_eq!(centre(&book, &strobe(29.0, 3000.0, Hose::Plugged)), 29.0);
    let slower = book.found(&strobe(20.0, 2000.0, Hose::Plugged), &Advance::USUAL_RULE);
    assert_eq!(slower.unwrap_err().code(), "ignition.no-curve");
    let curve = curve(&[(1000.0, 0.0, 0.0), (3000.0, 20.0, 20.0)], AboveLast::Ends);
    let book = PrintedTiming::new(band, at, Some(&curve), None).unwrap();
    assert_eq!(centre(&book, &strobe(20.0, 2000.0, Hose::Plugged)), 30.0);
    assert_eq!(centre(&book, &standing(10.0)), 30.0);
}

/// A lamp of 100 us at 3000 rpm hides 1.8 degrees (computed here: 6 x rpm x delay).
#[test]
fn a_late_lamp_is_put_right() {
    let at = Taken::Running(Running::at(rpm(3000.0), Hose::Plugged));
    let book = PrintedTiming::new(limits("28 deg BTDC to 32 deg BTDC"), at, None, None).unwrap();
    let reading = TimingReading {
        lamp: LampDelay::from_microseconds(100.0).unwrap(),
        ..strobe(27.0, 3000.0, Hose::Plugged)
    };
    assert_abs_diff_eq!(centre(&book, &reading), 28.8, epsilon = 1e-12);
    let late = LampDelay::from_microseconds(100.0).unwrap().at(rpm(3000.0));
    assert_abs_diff_eq!(late.unwrap().degrees(), 1.8, epsilon = 1e-12);
    let double = dialled_back(
        before(24.0),
        Cycle::FourStroke,
        Sparks::OnceACycle,
        Sparks::OnceATurn,
    );
    assert_eq!(double.unwrap(), before(12.0));
}

/// Refused ranges: static beyond 45 BTDC or 20 ATDC, falling speeds, crossed columns, a total over 60.
#[test]
fn refused_ranges() {
    let book = PrintedTiming::new(
        limits("8 deg BTDC to 12 deg BTDC"),
        Taken::Standing,
        None,
        None,
    );
    let book = book.unwrap();
    for (degrees, fine) in [(45.0, true), (45.5, false), (-20.0, true), (-20.5, false)] {
        let found = book.found(&standing(degrees), &Advance::USUAL_RULE);
        assert_eq!(found.is_ok(), fine, "{degrees}");
        let band = Limits::at_most(before(degrees));
        let printed = PrintedTiming::new(band, Taken::Standing, None, None);
        assert_eq!(printed.is_ok(), fine, "{degrees}");
    }
    let code = |points: &[(f64, f64, f64)]| try_curve(points, AboveLast::Ends).unwrap_err().code();
    assert_eq!(
        code(&[(1000.0, 0.0, 0.0), (900.0, 5.0, 6.0)]),
        "ignition.curve-not-rising"
    );
    assert_eq!(
        code(&[(1000.0, 0.0, 0.0), (1000.0, 5.0, 6.0)]),
        "ignition.curve-not-rising"
    );
    assert_eq!(
        code(&[(1000.0, 6.0, 6.0), (2000.0, 5.0, 6.0)]),
        "ignition.curve-falls"
    );
    assert_eq!(code(&[(1000.0, 6.0, 5.0)]), "ignition.curve-columns");
    assert_eq!(code(&[(1000.0, -1.0, 5.0)]), "ignition.curve-columns");
    assert_eq!(code(&[]), "ignition.curve-rows");
    let at = Taken::Running(Running::at(rpm(3000.0), Hose::Plugged));
    let running = PrintedTiming::new(limits("28 deg BTDC to 61 deg BTDC"), at, None, None);
    assert_eq!(running.unwrap_err().code(), "ignition.total-advance");
    let book = PrintedTiming::new(limits("28 deg BTDC to 32 deg BTDC"), at, None, None).unwrap();
    let over = book.found(&strobe(61.0, 3000.0, Hose::Plugged), &Advance::USUAL_RULE);
    assert_eq!(over.unwrap_err().code(), "ignition.total-advance");
}

/// 15 to 36 too far where a running reading is called static (computed in the sources' fault table).
#[test]
fn slips_of_a_single_reading() {
    let curve = curve(&[(900.0, 0.0, 0.0), (2400.0, 24.0, 24.0)], AboveLast::Ends);
    let book = PrintedTiming::new(
        limits("8 deg BTDC to 12 deg BTDC"),
        Taken::Standing,
        Some(&curve),
        None,
    )
    .unwrap();
    let slips = |reading: &TimingReading| {
        let found = book.found(reading, &Advance::USUAL_RULE).unwrap();
        timing_slips(&book, reading, &found).unwrap()
    };
    assert_eq!(slips(&standing(34.0)), [TimingSlip::RunningReadingAsStatic]);
    assert_eq!(slips(&standing(10.0)), []);
    assert_eq!(
        slips(&standing(5.0)),
        [TimingSlip::ReadAtDistributor],
        "5 at the distributor are 10 at the crank"
    );
    assert!(
        slips(&strobe(-10.0, 700.0, Hose::Plugged)).contains(&TimingSlip::StaticFigureSetAtSpeed)
    );
}

/// Against the rotor is earlier, whichever way it turns (geometry: the cam meets the contacts sooner).
#[test]
fn which_way_the_body_turns() {
    let circle = Some(Length::from_mm(70.0).unwrap());
    for (rotor, earlier, later) in [
        (Sense::Clockwise, Sense::Anticlockwise, Sense::Clockwise),
        (Sense::Anticlockwise, Sense::Clockwise, Sense::Anticlockwise),
    ] {
        let body = Body::new(Drive::once_a_cycle(Cycle::FourStroke), Some(rotor), circle).unwrap();
        let advance = body.turn(before(4.0), before(10.0), before(24.0)).unwrap();
        assert_eq!(advance.way, BodyWay::AgainstRotor);
        assert_eq!(advance.seen_from_cap, Some(earlier));
        let along = advance.along_circle.unwrap().mm();
        assert_abs_diff_eq!(
            along,
            70.0 * std::f64::consts::PI * 3.0 / 360.0,
            epsilon = 1e-12
        );
        assert_eq!(advance.then_reads, before(30.0));
        let retard = body.turn(before(10.0), before(4.0), before(30.0)).unwrap();
        assert_eq!(
            (retard.way, retard.seen_from_cap),
            (BodyWay::WithRotor, Some(later))
        );
        assert_eq!(retard.then_reads, before(24.0));
        let stay = body.turn(before(10.0), before(10.0), before(10.0)).unwrap();
        assert_eq!((stay.way, stay.seen_from_cap), (BodyWay::Stay, None));
    }
    // On the crank a degree of the body is a degree of the crank.
    let magneto = Body::new(Drive::WITH_CRANK, None, None).unwrap();
    let turn = magneto
        .turn(before(20.0), before(23.0), before(20.0))
        .unwrap();
    assert_eq!((turn.body.degrees(), turn.seen_from_cap), (3.0, None));
}

/// Gap before timing: the spark moves one crank degree for a degree of dwell, so that a static point found
/// before the dwell is set is off by as much (computed here for n = 4: 1.103 degrees for 0.001 in).
#[test]
fn a_later_change_of_dwell_moves_the_point() {
    let book = PrintedTiming::new(
        limits("9 deg BTDC to 11 deg BTDC"),
        Taken::Standing,
        None,
        None,
    );
    let book = book.unwrap();
    let verdict = |degrees| {
        let found = book.found(&standing(degrees), &Advance::USUAL_RULE);
        found.unwrap().judgement.verdict
    };
    assert_eq!(verdict(9.6), Verdict::InBand);
    assert_eq!(verdict(9.6 + 2.0 * 1.103), Verdict::Above);
}
