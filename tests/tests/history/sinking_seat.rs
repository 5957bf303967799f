//! An invented engine with five services over nine years, in which one exhaust seat begins to sink.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first thing it does not expect"
)]

use super::make::{ENGINE, between};
use lashwork::history::{
    CountedBy, Day, Drift, DriftAnswer, DriftChoice, Look, Record, SeatFact, SeatFacts, Service,
    Subject, Used, Visit, drift, recession,
};
use lashwork::quantity::Lash;
use lashwork::tolerance::{HasLimits, Limits};

const DAYS: [(&str, f64); 5] = [
    ("2016-04-30", 41_200.0),
    ("2018-05-12", 45_300.0),
    ("2020-05-02", 49_100.0),
    ("2022-04-23", 53_400.0),
    ("2025-05-10", 58_000.0),
];

/// Lash of four exhaust valves and four intake valves, which fall by 0.003 and 0.001 mm in 1000 km, but the third
/// exhaust valve by 0.020 mm since the third service; read with leaves 0.02 mm apart.
fn made(services: usize, sinks: bool) -> Record<Lash> {
    let subjects = (1..=4)
        .map(|at| Subject::new(&format!("{at} exhaust"), "exhaust"))
        .chain((1..=4).map(|at| Subject::new(&format!("{at} intake"), "intake")))
        .collect();
    let mut made = Record::new(ENGINE, subjects).unwrap();
    for (day, kilometres) in DAYS.into_iter().take(services) {
        let run = (kilometres - DAYS[0].1) / 1000.0;
        let sunk = (kilometres - DAYS[2].1).max(0.0) / 1000.0;
        let lash = |place: u32| {
            let first = 0.31 + 0.003 * f64::from(place % 3);
            match place {
                2 if sinks => first - 0.003 * run - 0.017 * sunk,
                0..=3 => first - 0.003 * run,
                _ => first - 0.001 * run,
            }
        };
        let read = |place: u32| {
            let low = (lash(place) / 0.02).floor() * 0.02;
            (
                place as usize,
                Visit::found(between(low, low + 0.02, 0.003)),
            )
        };
        let used = Used::on(Day::parse(day).unwrap());
        made.push(Service {
            engine: ENGINE.into(),
            used: used.kilometres(kilometres).unwrap(),
            visits: (0..8).map(read).collect(),
        })
        .unwrap();
    }
    made
}

fn fitted(record: &Record<Lash>, kind: &str) -> Drift<Lash> {
    match drift(record, kind, &DriftChoice::default()).unwrap() {
        DriftAnswer::Fitted(drift) => drift,
        DriftAnswer::TooFew(few) => panic!("{few:?}"),
    }
}

#[test]
fn it_is_named_before_it_is_tight() {
    let (record, limits): (_, Limits<Lash>) = (made(5, true), "at least 0.06 mm".parse().unwrap());
    let exhaust = fitted(&record, "exhaust");
    assert_eq!(exhaust.counted_by(), CountedBy::Distance);
    let odd: Vec<_> = exhaust.standings().filter(|s| s.is_odd).collect();
    assert_eq!(
        odd.len(),
        1,
        "{:?}",
        exhaust.standings().collect::<Vec<_>>()
    );
    let (own, since) = odd.first().map(|s| (s.subject, s.since)).unwrap();
    assert_eq!((own, since), (2, Some(2)));
    // It is not tight now, and the next look at it comes before it is, long before that at the others.
    let due = |subject: usize| {
        exhaust
            .look_next(subject, &limits, &Lash::USUAL_RULE)
            .unwrap()
    };
    let Look::At(own) = due(2) else {
        panic!("{:?}", due(2));
    };
    // True: 0.316 - 0.003 * 16.8 - 0.017 * 8.9 = 0.114 at 58,000 km; 0.06 at 60,700 km.
    assert!(own.at > 58_000.0 && own.at < 60_700.0, "{own:?}");
    match due(0) {
        Look::At(other) => assert!(other.at > 70_000.0, "{other:?}"),
        Look::NotBefore(far) => assert!(far > 100_000.0),
        other => panic!("{other:?}"),
    }
    let reaches = (own.reaches.from.unwrap(), own.reaches.to.unwrap());
    assert!(reaches.0 < 60_700.0 && reaches.1 > 60_700.0, "{own:?}");
    // The chart falls for it alone.
    let last = |subject: usize| exhaust.departures(subject).last().copied().unwrap();
    assert!(
        last(2).below > 3.0 && last(0).below < 2.0,
        "{:?} {:?}",
        last(2),
        last(0)
    );
}

#[test]
fn without_it_none_is_named() {
    for services in 3..=5 {
        let exhaust = fitted(&made(services, false), "exhaust");
        assert!(exhaust.standings().all(|s| !s.is_odd));
    }
}

#[test]
fn want_of_lead_is_weighed_by_what_is_known() {
    let (exhaust, intake) = (
        fitted(&made(5, false), "exhaust"),
        fitted(&made(5, false), "intake"),
    );
    let facts = SeatFacts {
        is_unleaded: Some(true),
        has_hard_seats: Some(false),
        runs_fast: Some(false),
    };
    let found = recession(&exhaust, Some(&intake), &facts);
    let wanted = [
        SeatFact::Closes,
        SeatFact::FasterThanIntake,
        SeatFact::Alike,
        SeatFact::Fuel,
        SeatFact::Seats,
    ];
    assert_eq!(
        (found.speaks_for.as_slice(), found.speaks_against.as_slice()),
        (&wanted[..], &[SeatFact::Speed][..])
    );
    // One valve that sinks alone speaks against the fuel, which reaches all.
    let alone = recession(
        &fitted(&made(5, true), "exhaust"),
        None,
        &SeatFacts::default(),
    );
    assert!(alone.speaks_against.contains(&SeatFact::Alike), "{alone:?}");
    assert!(
        alone.not_known.contains(&SeatFact::FasterThanIntake)
            && alone.not_known.contains(&SeatFact::Fuel)
    );
    // The other way round it does not close faster.
    let turned = recession(&intake, Some(&exhaust), &facts);
    assert!(turned.speaks_against.contains(&SeatFact::FasterThanIntake));
}
