//! Laws of timing on generated input.
#![allow(
    clippy::unwrap_used,
    clippy::float_cmp,
    reason = "a test stops at the first thing it does not expect; doubling is exact"
)]

use crate::timing_published::{before, curve, limits, rpm};
use lashwork::ignition::point::Drive;
use lashwork::ignition::timing::{
    AboveLast, Body, CentrifugalCurve, CurveCause, CurveCauses, CurveFit, CurveReadings,
    DistributorPoint, Hose, LampDelay, LineCorner, PrintedTiming, Running, StrobeColumns, Taken,
    TimingReading, judge_strobe_columns,
};
use lashwork::quantity::{Advance, Cycle, DistributorAngle, DistributorSpeed};
use lashwork::tolerance::{HasLimits, Uncertainty, Verdict};
use proptest::prelude::*;

const POINTS: [(f64, f64, f64); 3] = [(1000.0, 0.0, 0.0), (1400.0, 6.0, 8.0), (2400.0, 18.0, 22.0)];

fn reading(read: f64, speed: f64, u: f64) -> TimingReading {
    TimingReading {
        read: before(read),
        u: Uncertainty::from_number(u).unwrap(),
        taken: Taken::Running(Running::at(rpm(speed), Hose::Plugged)),
        lamp: LampDelay::from_microseconds(20.0).unwrap(),
    }
}

/// Ten thousand readings in columns get what each alone gets, to the bit, refusals as well.
#[test]
fn columns_are_as_one_by_one() {
    let curve = curve(&POINTS, AboveLast::NotSaid);
    let band = limits("8 deg BTDC to 12 deg BTDC");
    let book = PrintedTiming::new(band, Taken::Standing, Some(&curve), None).unwrap();
    let mut rng = fastrand::Rng::with_seed(12);
    let draw = |rng: &mut fastrand::Rng, from: f64, to: f64| from + (to - from) * rng.f64();
    let read: Vec<f64> = (0..10_000).map(|_| draw(&mut rng, -10.0, 61.0)).collect();
    let speeds: Vec<f64> = (0..10_000).map(|_| draw(&mut rng, 500.0, 2600.0)).collect();
    let u: Vec<f64> = (0..10_000).map(|_| draw(&mut rng, 0.2, 1.5)).collect();
    let columns = StrobeColumns {
        read: &read,
        rpm: &speeds,
        u: &u,
        speed_u: Running::USUAL_SPEED_U,
        hose: Hose::Plugged,
        lamp: LampDelay::from_microseconds(20.0).unwrap(),
    };
    let mut rows = Vec::new();
    judge_strobe_columns(&book, &columns, &Advance::USUAL_RULE, |row, found, why| {
        rows.push((row, *found, why));
    })
    .unwrap();
    assert_eq!(rows.len(), 10_000);
    let (mut refused, mut verdicts) = (0, [0; 5]);
    for (row, found, why) in rows {
        let at = |column: &[f64]| column.get(row).copied().unwrap();
        let one = reading(at(&read), at(&speeds), at(&u));
        verdicts[usize::from(found.judged.verdict)] += 1;
        match book.found(&one, &Advance::USUAL_RULE) {
            Ok(alone) => {
                assert_eq!(found.judged.verdict, alone.judgement.verdict.number());
                assert_eq!(
                    found.judged.probabilities,
                    alone.judgement.probabilities.ends()
                );
                assert_eq!(Some(before(found.low)), alone.estimate.low());
                assert_eq!(Some(before(found.high)), alone.estimate.high());
                assert_eq!(found.u, alone.estimate.normal_uncertainty().number());
                assert_eq!(why, None);
            }
            Err(alone) => {
                refused += 1;
                assert_eq!(why, Some(alone));
                assert_eq!(found.judged.verdict, Verdict::REFUSED);
                assert!(found.low.is_nan());
            }
        }
    }
    assert!(
        refused > 100 && verdicts.iter().all(|n| *n > 50),
        "{verdicts:?}"
    );
    let short = StrobeColumns {
        u: &[0.5],
        ..columns
    };
    assert!(judge_strobe_columns(&book, &short, &Advance::USUAL_RULE, |_, _, _| ()).is_err());
}

proptest! {
    /// A table at the distributor, doubled, is the table at the crank at twice the speed, exactly.
    #[test]
    fn doubling_is_exact(first in 200.0..800.0_f64, width in 50.0..900.0_f64, most in 1.0..20.0_f64, at in 0.0..1.0_f64) {
        let point = |speed, degrees| DistributorPoint {
            speed: DistributorSpeed::from_rpm(speed).unwrap(),
            least: DistributorAngle::from_degrees(degrees).unwrap(),
            most: DistributorAngle::from_degrees(degrees).unwrap(),
        };
        let points = [point(first, 0.0), point(first + width, most)];
        let of = |cycle| {
            let drive = Drive::once_a_cycle(cycle);
            CentrifugalCurve::at_distributor(&points, drive, AboveLast::Ends).unwrap()
        };
        let (four, two) = (of(Cycle::FourStroke), of(Cycle::TwoStroke));
        let speed = first + at * width;
        let (doubled, same) = (four.at(rpm(2.0 * speed)).unwrap(), two.at(rpm(speed)).unwrap());
        prop_assert_eq!(doubled.most.degrees(), 2.0 * same.most.degrees());
    }

    /// After the body was turned as said, the reading at that speed is in the limits again.
    #[test]
    fn turned_as_said_it_is_right(read in -5.0..40.0_f64, speed in 600.0..2400.0_f64) {
        let curve = curve(&POINTS, AboveLast::NotSaid);
        let band = limits("8 deg BTDC to 12 deg BTDC");
        let book = PrintedTiming::new(band, Taken::Standing, Some(&curve), None).unwrap();
        let found = book.found(&reading(read, speed, 0.3), &Advance::USUAL_RULE).unwrap();
        let body = Body::new(Drive::once_a_cycle(Cycle::FourStroke), None, None).unwrap();
        let aim = book.aim().unwrap();
        let turn = body.turn(found.estimate.centre().unwrap(), aim, before(read)).unwrap();
        let again = TimingReading { read: turn.then_reads, ..reading(read, speed, 0.3) };
        let then = book.found(&again, &Advance::USUAL_RULE).unwrap().estimate.centre().unwrap();
        prop_assert!((then.degrees_before() - aim.degrees_before()).abs() < 1e-9);
        // Earlier where the spark came late.
        let late = found.estimate.centre().unwrap() < aim;
        prop_assert_eq!(late, turn.earlier.degrees() > 0.0);
    }

    /// What must be read holds what a right distributor shows, anywhere in the table.
    #[test]
    fn what_must_read_holds_the_right(static_at in 8.0..12.0_f64, share in 0.0..1.0_f64, speed in 600.0..2400.0_f64) {
        let curve = curve(&POINTS, AboveLast::NotSaid);
        let band = limits("8 deg BTDC to 12 deg BTDC");
        let book = PrintedTiming::new(band, Taken::Standing, Some(&curve), None).unwrap();
        let at = curve.at(rpm(speed)).unwrap();
        let advance = at.least.degrees() + share * (at.most.degrees() - at.least.degrees());
        let taken = Taken::Running(Running::at(rpm(speed), Hose::Plugged));
        let must = book.must_read(&taken).unwrap();
        let slack = Uncertainty::<Advance>::from_number(1e-9).unwrap().number();
        let shown = static_at + advance;
        prop_assert!(must.lower().unwrap().degrees_before() - slack <= shown);
        prop_assert!(shown <= must.upper().unwrap().degrees_before() + slack);
    }
}

/// Where a drawn line stands at a speed; after a jump where it has two corners.
fn drawn(line: &[LineCorner], speed: f64) -> Option<f64> {
    let corners = line
        .iter()
        .map(|c| (c.speed.rpm(), c.sparks.degrees_before()));
    let corners: Vec<(f64, f64)> = corners.collect();
    let mut pairs = corners.iter().zip(corners.iter().skip(1)).rev();
    let (from, to) = pairs.find(|(from, to)| from.0 <= speed && speed <= to.0)?;
    let share = (speed - from.0) / (to.0 - from.0);
    Some(if speed == to.0 {
        to.1
    } else {
        from.1 + share * (to.1 - from.1)
    })
}

proptest! {
    /// The drawn line stands where the readings were taken from, also where springs or stop are not as in the
    /// book: an end above what the springs reach at the last speed of the table, or long before it.
    #[test]
    fn the_drawn_line_goes_through_readings_without_error(
        start in 4.0..16.0_f64, scale in 0.6..1.6_f64, end in 12.0..26.0_f64,
    ) {
        let curve = curve(&POINTS, AboveLast::Ends);
        let band = limits("8 deg BTDC to 12 deg BTDC");
        let book = PrintedTiming::new(band, Taken::Standing, Some(&curve), None).unwrap();
        let taken_at = [700.0, 1200.0, 1400.0, 1500.0, 1600.0, 2400.0, 2600.0, 3200.0];
        let sparks = |speed: f64| {
            let at = curve.at(rpm(speed)).unwrap();
            let middle = f64::midpoint(at.least.degrees(), at.most.degrees());
            start + if speed < 2400.0 { (scale * middle).min(end) } else { end }
        };
        let all = taken_at.map(|speed| TimingReading {
            lamp: LampDelay::NONE,
            ..reading(sparks(speed), speed, 0.5)
        });
        let readings = CurveReadings::new(&book, &all).unwrap();
        let line = CurveFit::new(&readings).unwrap().line(&readings, rpm(3200.0)).unwrap();
        prop_assert!(line.is_sorted_by_key(|corner| corner.speed.rpm()));
        for speed in taken_at {
            let at = drawn(&line, speed).unwrap();
            prop_assert!((at - sparks(speed)).abs() < 1e-6, "{at} at {speed}: {line:?}");
        }
    }
}

/// Readings below the first point alone cannot tell springs or stop, and say so.
#[test]
fn what_cannot_show_is_not_weighed() {
    let curve = curve(&POINTS, AboveLast::Ends);
    let band = limits("8 deg BTDC to 12 deg BTDC");
    let book = PrintedTiming::new(band, Taken::Standing, Some(&curve), None).unwrap();
    let idle = [reading(10.0, 650.0, 0.5), reading(10.0, 700.0, 0.5)];
    let found = CurveCauses::weigh(&CurveReadings::new(&book, &idle).unwrap(), None, 0.5).unwrap();
    assert_eq!(
        found.not_weighed,
        [
            CurveCause::SpringsWeak,
            CurveCause::SpringsStrong,
            CurveCause::EndWrong,
            CurveCause::UsedUpAtIdle
        ]
    );
    assert!(found.turning_helps(0.5));
    let none = CurveCauses::weigh(&CurveReadings::new(&book, &idle).unwrap(), None, 1.0);
    assert!(none.is_err());
}

/// A worn distributor, right at idle and short at speed, is never to be cured by turning the body.
#[test]
fn advance_used_up_at_idle_is_not_turned_away() {
    let curve = curve(&POINTS, AboveLast::Ends);
    let band = limits("8 deg BTDC to 12 deg BTDC");
    let book = PrintedTiming::new(band, Taken::Standing, Some(&curve), None).unwrap();
    let lamp = LampDelay::NONE;
    let at = |read, speed| TimingReading {
        lamp,
        ..reading(read, speed, 0.5)
    };
    let worn = [
        at(10.0, 700.0),
        at(10.0, 1400.0),
        at(14.0, 1800.0),
        at(18.0, 2100.0),
        at(22.0, 2600.0),
    ];
    let readings = CurveReadings::new(&book, &worn).unwrap();
    let found = CurveCauses::weigh(&readings, None, 0.5).unwrap();
    assert_eq!(found.causes[0].cause, CurveCause::UsedUpAtIdle);
    assert!(
        found.causes[0].posterior > 0.7 && !found.turning_helps(0.5),
        "{found:?}"
    );
}
