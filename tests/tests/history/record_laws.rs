//! What a record refuses, what it says of too few readings, and laws of the drift.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::make::{ENGINE, Plain, between, exact, fitted, record, service, set};
use lashwork::Refusal;
use lashwork::history::{
    CountedBy, Day, DriftAnswer, DriftChoice, HistoryAssumption, HistoryError, Look, NotKnown,
    Record, Reset, Service, Subject, TooFew, Used, Visit, drift,
};
use lashwork::ignition::breaker::Dwell;
use lashwork::quantity::Lash;
use lashwork::tolerance::HasLimits;

fn refused(result: Result<(), HistoryError>, code: &str) {
    let why = result.unwrap_err();
    assert_eq!(why.code(), code);
    assert!(!why.hint().is_empty() && !why.to_string().is_empty());
}

#[test]
fn a_record_takes_only_what_follows() {
    let mut made = record::<Lash>(2);
    let day = |text: &str| Used::on(Day::parse(text).unwrap());
    let at = |used: Used, engine: &str, visits: Vec<(usize, Visit<Lash>)>| Service {
        engine: engine.into(),
        used,
        visits,
    };
    let first = day("2019-04-27").hours(120.0).unwrap();
    made.push(at(first, ENGINE, vec![])).unwrap();
    let later = day("2020-04-27");
    for (service, code) in [
        (
            at(day("2018-04-27"), ENGINE, vec![]),
            "history.time-backwards",
        ),
        // A later day with fewer hours.
        (
            at(later.hours(119.0).unwrap(), ENGINE, vec![]),
            "history.time-backwards",
        ),
        (at(later, "another", vec![]), "history.other-engine"),
        (at(Used::default(), ENGINE, vec![]), "history.no-time"),
        (
            at(later, ENGINE, vec![(2, Visit::unread())]),
            "history.no-subject",
        ),
        (
            at(
                later,
                ENGINE,
                vec![(1, Visit::unread()), (1, Visit::unread())],
            ),
            "history.twice-in-service",
        ),
        (
            at(later, ENGINE, vec![(0, Visit::unread().left(exact(0.2)))]),
            "history.left-without-reset",
        ),
        (
            at(
                later,
                ENGINE,
                vec![(
                    0,
                    Visit::unread()
                        .reset(Reset::Set)
                        .left(exact(0.2))
                        .left_at(first),
                )],
            ),
            "history.read-before-reset",
        ),
    ] {
        refused(made.push(service), code);
        assert_eq!(made.services().len(), 1, "{code}");
    }
    // A count that is left out once is not forgotten.
    made.push(at(later, ENGINE, vec![])).unwrap();
    let fewer = day("2021-04-27").hours(100.0).unwrap();
    refused(
        made.push(at(fewer, ENGINE, vec![])),
        "history.time-backwards",
    );
    // Nor is the time of a reading that came after its service.
    let warm = Visit::unread()
        .reset(Reset::Set)
        .left(exact(0.2))
        .left_at(Used::default().hours(151.0).unwrap());
    let set_at = day("2021-04-27").hours(150.0).unwrap();
    made.push(at(set_at, ENGINE, vec![(0, warm)])).unwrap();
    let between = day("2021-04-27").hours(150.5).unwrap();
    refused(
        made.push(at(between, ENGINE, vec![])),
        "history.time-backwards",
    );
}

#[test]
fn days_are_those_of_the_calendar() {
    let number = |text: &str| Day::parse(text).unwrap().number();
    // Unix time, POSIX.1: 1970-01-01 is day nought; 2000-03-01 is day 11017.
    assert_eq!(number("1970-01-01"), 0);
    assert_eq!(number("2000-03-01"), 11_017);
    assert_eq!(number("1969-12-31"), -1);
    let mut at = number("1800-01-01");
    for year in 1800..2200 {
        for month in 1..=12 {
            for day in 1..=31 {
                let text = format!("{year:04}-{month:02}-{day:02}");
                if let Ok(found) = Day::parse(&text) {
                    assert_eq!((found.number(), found.to_string()), (at, text));
                    at += 1;
                }
            }
        }
    }
    // 400 years of the Gregorian calendar are 146,097 days.
    assert_eq!(at - number("1800-01-01"), 146_097);
    for text in [
        "1900-02-29",
        "2021-13-01",
        "2021-00-10",
        "21-01-01",
        "2021-1-1",
        "2021-01-01-01",
        "",
    ] {
        assert!(Day::parse(text).is_err(), "{text}");
    }
}

#[test]
fn too_few_readings_are_said_to_be() {
    let few = |made: &Record<Plain>| match drift(made, "exhaust", &DriftChoice::default()).unwrap()
    {
        DriftAnswer::TooFew(few) => few,
        DriftAnswer::Fitted(drift) => panic!("{:?}", drift.rate()),
    };
    let mut made = record::<Plain>(1);
    assert_eq!(
        few(&made),
        TooFew {
            readings: 0,
            lines: 0,
            more: 2
        }
    );
    made.push(service(0.0, vec![Visit::found(exact(0.3))]))
        .unwrap();
    assert_eq!(
        few(&made),
        TooFew {
            readings: 1,
            lines: 1,
            more: 1
        }
    );
    // Set at the next service: two readings, each on a line of its own.
    let mut reset = made.clone();
    reset
        .push(service(
            50.0,
            vec![Visit::unread().reset(Reset::Set).left(exact(0.3))],
        ))
        .unwrap();
    assert_eq!(
        few(&reset),
        TooFew {
            readings: 2,
            lines: 2,
            more: 2
        }
    );
    // Two exact readings say nothing of how sure the rate is.
    made.push(service(50.0, vec![Visit::found(exact(0.28))]))
        .unwrap();
    assert_eq!(
        few(&made),
        TooFew {
            readings: 2,
            lines: 1,
            more: 1
        }
    );
    made.push(service(100.0, vec![Visit::found(exact(0.27))]))
        .unwrap();
    assert!(matches!(
        drift(&made, "exhaust", &DriftChoice::default()),
        Ok(DriftAnswer::Fitted(_))
    ));
    let why = drift(&made, "intake", &DriftChoice::default()).unwrap_err();
    assert_eq!(why.code(), "history.no-kind");
    let by_days = DriftChoice {
        counted_by: Some(CountedBy::Days),
        ..DriftChoice::default()
    };
    assert_eq!(
        drift(&made, "exhaust", &by_days).unwrap_err().code(),
        "history.not-counted"
    );
    let endless = DriftChoice {
        bedding_in: Some(f64::INFINITY),
        ..DriftChoice::default()
    };
    assert_eq!(
        drift(&made, "exhaust", &endless).unwrap_err().code(),
        "history.bedding-in"
    );
}

/// New parts fall by 0.05 in their first ten hours; the line is that of the steady drift all the same.
#[test]
fn bedding_in_stays_off_the_line() {
    let lash = |since: f64| 0.30 - 0.05 * (since / 10.0).min(1.0) - 0.0002 * since;
    let mut made = record::<Plain>(1);
    let renewed = Visit::unread().reset(Reset::Renewed).left(exact(lash(0.0)));
    made.push(service(100.0, vec![renewed])).unwrap();
    let choice = DriftChoice {
        bedding_in: Some(10.0),
        ..DriftChoice::default()
    };
    for (since, noise) in [
        (5.0, 0.0),
        (50.0, 0.001),
        (100.0, -0.001),
        (150.0, -0.001),
        (200.0, 0.001),
    ] {
        made.push(service(
            100.0 + since,
            vec![Visit::found(exact(lash(since) + noise))],
        ))
        .unwrap();
    }
    let drift = fitted(&made, &choice);
    assert!(
        (drift.rate().value + 0.0002).abs() < 1e-5,
        "{:?}",
        drift.rate()
    );
    let bedding = drift.bedding(0);
    assert_eq!(bedding.len(), 1);
    assert!(
        (bedding[0].amount.value + 0.05).abs() < 0.002,
        "{bedding:?}"
    );
    assert!(bedding[0].amount.low < -0.05 && bedding[0].amount.high > -0.05);
    // Without its length only what was left is off the line: five hours later was still on the way.
    let first = fitted(&made, &DriftChoice::default());
    assert!(
        first
            .assumptions()
            .contains(&HistoryAssumption::BeddingByFirstReading)
    );
    assert!(first.rate().value < drift.rate().value);
    // Renewed once more, and not yet read after ten hours: not known.
    let again = Visit::unread().reset(Reset::Renewed).left(exact(0.3));
    made.push(service(400.0, vec![again])).unwrap();
    let limits = "at least 0.1 mm".parse().unwrap();
    let look = fitted(&made, &choice)
        .look_next(0, &limits, &Plain::USUAL_RULE)
        .unwrap();
    assert_eq!(look, Look::NotKnown(NotKnown::BeddingIn));
    // Set without being read: neither.
    made.push(service(500.0, vec![Visit::unread().reset(Reset::Set)]))
        .unwrap();
    let look = fitted(&made, &choice)
        .look_next(0, &limits, &Plain::USUAL_RULE)
        .unwrap();
    assert_eq!(look, Look::NotKnown(NotKnown::NotRead));
}

/// Four valves; one was set at the last service and has a single reading since: it borrows its rate.
fn four() -> Record<Lash> {
    let mut made = record::<Lash>(4);
    for at in 0..5_u32 {
        let hours = 100.0 * f64::from(at);
        let visits = (0..4).map(|valve| {
            let wobble = f64::from((at * 7 + valve * 3) % 5) * 0.001;
            let found = exact(0.30 - (0.008 + 0.001 * f64::from(valve)) * f64::from(at) + wobble);
            if at == 4 && valve == 3 {
                set(found, exact(0.31))
            } else {
                Visit::found(found)
            }
        });
        made.push(service(hours, visits.collect())).unwrap();
    }
    made
}

#[test]
fn a_valve_just_set_borrows_the_rate_of_its_mates() {
    let made = four();
    let drift = fitted(&made, &DriftChoice::default());
    let next = drift.predicted(3, 600.0).unwrap().unwrap();
    let rate = drift.rate_of(3).unwrap();
    assert!((next.line.value - (0.31 + 200.0 * rate.value)).abs() < 0.003);
    // Its own readings before the setting count for its rate, its mates' do as well.
    let (own, kind) = (rate.value, drift.rate().value);
    assert!(own < kind && own > -0.000_12, "{own} of {kind}");
    // The first valve is the slowest; it is drawn towards the others, not to them.
    let slow = drift.rate_of(0).unwrap().value;
    assert!(slow > kind, "{slow} of {kind}");
}

#[test]
fn shifts_of_time_and_of_order_change_nothing() {
    let made = four();
    let answer = |record: &Record<Lash>, place: usize, shift: f64| {
        let drift = fitted(record, &DriftChoice::default());
        let next = drift
            .predicted(place, 600.0 + shift)
            .unwrap()
            .unwrap()
            .found;
        [
            next.low,
            next.value,
            next.high,
            drift.rate().low,
            drift.spread(),
        ]
    };
    let plain = answer(&made, 1, 0.0);
    let (mut later, mut turned) = (record::<Lash>(4), record::<Lash>(4));
    for at in made.services() {
        let hours = at.used.count(CountedBy::Hours).unwrap();
        let visits: Vec<Visit<Lash>> = at.visits.iter().map(|(_, visit)| *visit).collect();
        later.push(service(hours + 5000.0, visits.clone())).unwrap();
        turned
            .push(service(hours, visits.into_iter().rev().collect()))
            .unwrap();
    }
    for (got, wanted) in answer(&later, 1, 5000.0).into_iter().zip(plain) {
        assert!((got - wanted).abs() < 1e-7, "{got} is not {wanted}");
    }
    for (got, wanted) in answer(&turned, 2, 0.0).into_iter().zip(plain) {
        assert!((got - wanted).abs() < 1e-7, "{got} is not {wanted}");
    }
    // And nothing is drawn: the same bits each time.
    assert_eq!(
        answer(&made, 1, 0.0).map(f64::to_bits),
        plain.map(f64::to_bits)
    );
}

/// Leaves of no width are exact readings; finer leaves come close to them.
#[test]
fn finer_leaves_come_to_the_exact_reading() {
    let made = |step: f64| {
        let mut made = record::<Plain>(1);
        for (at, y) in [
            (0.0, 0.3012),
            (50.0, 0.2871),
            (100.0, 0.2804),
            (150.0, 0.2655),
            (200.0, 0.2601),
        ] {
            let low = if step > 0.0 {
                (y / step).floor() * step
            } else {
                y
            };
            made.push(service(
                at,
                vec![Visit::found(between(low, low + step, 0.0))],
            ))
            .unwrap();
        }
        fitted(&made, &DriftChoice::default())
            .predicted(0, 300.0)
            .unwrap()
            .unwrap()
            .found
    };
    let (exact, fine, coarse) = (made(0.0), made(0.0005), made(0.02));
    let width = exact.high - exact.low;
    assert!(
        (fine.low - exact.low).abs() < 0.03 * width,
        "{fine:?} {exact:?}"
    );
    assert!(
        (fine.high - exact.high).abs() < 0.03 * width,
        "{fine:?} {exact:?}"
    );
    assert!(coarse.high - coarse.low > width, "{coarse:?} {exact:?}");
}

/// A reading with one end: the thinnest leaf does not go in. It only speaks against a slower rate.
#[test]
fn a_reading_with_one_end_counts() {
    let made = |last: Option<f64>| {
        let mut made = record::<Plain>(1);
        for (at, low) in [(0.0, 0.30), (50.0, 0.25), (100.0, 0.20)] {
            made.push(service(
                at,
                vec![Visit::found(between(low, low + 0.05, 0.003))],
            ))
            .unwrap();
        }
        if let Some(most) = last {
            let read = between(f64::NEG_INFINITY, most, 0.003);
            made.push(service(150.0, vec![Visit::found(read)])).unwrap();
        }
        fitted(&made, &DriftChoice::default()).rate()
    };
    let (without, with, idle) = (made(None), made(Some(0.15)), made(Some(0.60)));
    assert!(
        with.value < without.value && with.high < without.high,
        "{with:?} {without:?}"
    );
    assert!((idle.value - without.value).abs() < 0.02 * (without.high - without.low));
}

/// A thickest leaf that goes is the mirror of a thinnest that does not: turned over, readings with either end open
/// say the same of a rate turned over.
#[test]
fn an_open_end_counts_alike_on_both_sides() {
    let made = |sign: f64| {
        let read = |low: f64, high: f64| {
            let ends = (sign * low, sign * high);
            between(ends.0.min(ends.1), ends.0.max(ends.1), 0.003)
        };
        let mut made = record::<Plain>(1);
        for (at, low) in [(0.0, 0.30), (50.0, 0.25), (100.0, 0.20)] {
            made.push(service(at, vec![Visit::found(read(low, low + 0.05))]))
                .unwrap();
        }
        for (at, most) in [(150.0, 0.15), (200.0, 0.08)] {
            let found = read(f64::NEG_INFINITY, most);
            made.push(service(at, vec![Visit::found(found)])).unwrap();
        }
        let drift = fitted(&made, &DriftChoice::default());
        let next = drift.predicted(0, 300.0).unwrap().unwrap().found;
        (drift.rate(), next)
    };
    let ((rate, next), (turned, turned_next)) = (made(1.0), made(-1.0));
    let close = |got: f64, wanted: f64, unit: f64| {
        assert!(
            (got + wanted).abs() < 1e-6 * unit,
            "{got} is not {wanted} turned over"
        );
    };
    let width = rate.high - rate.low;
    close(turned.value, rate.value, width);
    close(turned.low, rate.high, width);
    close(turned.high, rate.low, width);
    let width = next.high - next.low;
    close(turned_next.low, next.high, width);
    close(turned_next.high, next.low, width);
}

/// The dwell of contacts grows as their heel wears; a quantity of its own, with limits on both sides.
#[test]
fn dwell_grows_out_of_its_band() {
    let subject = vec![Subject::new("contacts", "contacts")];
    let mut made = Record::<Dwell>::new(ENGINE, subject).unwrap();
    for (at, deg) in [
        (0.0, 58.0),
        (1000.0, 58.6),
        (2000.0, 59.5),
        (3000.0, 60.1),
        (4000.0, 60.8),
    ] {
        made.push(Service {
            engine: ENGINE.into(),
            used: Used::default().kilometres(at).unwrap(),
            visits: vec![(0, Visit::found(exact(deg)))],
        })
        .unwrap();
    }
    let DriftAnswer::Fitted(drift) = drift(&made, "contacts", &DriftChoice::default()).unwrap()
    else {
        panic!("five readings are enough");
    };
    assert_eq!(drift.counted_by(), CountedBy::Distance);
    assert!(
        (drift.rate().value * 1000.0 - 0.71).abs() < 0.01,
        "{:?}",
        drift.rate()
    );
    let limits = "57 deg to 63 deg".parse().unwrap();
    let Look::At(due) = drift.look_next(0, &limits, &Dwell::USUAL_RULE).unwrap() else {
        panic!("in band now");
    };
    assert_eq!(due.side, lashwork::tolerance::DecidingSide::Above);
    let reached = due.reaches.middle.unwrap();
    assert!((reached - 7110.0).abs() < 60.0, "{reached}");
    // Further ahead than twice the record is said to be far, and further than ten times is not said.
    assert!(!due.is_far);
    let far = drift.look_next(0, &"57 deg to 75 deg".parse().unwrap(), &Dwell::USUAL_RULE);
    assert!(matches!(far, Ok(Look::At(due)) if due.is_far), "{far:?}");
    let never = drift.look_next(0, &"at least 20 deg".parse().unwrap(), &Dwell::USUAL_RULE);
    assert_eq!(never, Ok(Look::NotBefore(44_000.0)));
    // Out of the band already.
    let now = drift.look_next(0, &"57 deg to 60 deg".parse().unwrap(), &Dwell::USUAL_RULE);
    assert!(
        matches!(now, Ok(Look::Now(due)) if due.at <= 4000.0),
        "{now:?}"
    );
}
