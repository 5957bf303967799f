//! A turn in words must do to the lash what the degrees do.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use approx::assert_abs_diff_eq;
use lashwork::adjust::{Adjuster, ScrewSeat, Thread, TurnDirection, screw_turn};
use lashwork::clearance::{AsFound, Setting, judge};
use lashwork::feeler::{GaugeUse, Leaf, LeafSet, Reading, Stack};
use lashwork::quantity::{Lash, LashChange, Length};
use lashwork::tolerance::{HasLimits, Limits};
use lashwork::valve::ValveLimits;
use lashwork_tests::values::mark;
use proptest::prelude::{Strategy, prop_assert, prop_assume, proptest};

/// The degrees that words in brackets stand for: a part of a turn, clock minutes, flats of a nut.
/// `None` if there are none and the degrees are all that is said.
fn degrees_of(words: &str) -> Option<f64> {
    let inner = words.split_once('(')?.1.split_once(')')?.0;
    let inner = inner.strip_prefix("about ").unwrap_or(inner);
    let number = |text: &str| -> f64 {
        let one = |part: &str| match part.split_once('/') {
            Some((n, d)) => n.parse::<f64>().unwrap() / d.parse::<f64>().unwrap(),
            None => part.parse().unwrap(),
        };
        text.split(' ').map(one).sum()
    };
    let (turns, rest) = match inner.split_once(" and ") {
        Some((turns, rest)) => (turns, Some(rest)),
        None if inner.contains(" turn") => (inner, None),
        None => ("0 turns", Some(inner)),
    };
    let turns = number(turns.split(" turn").next()?);
    let rest = rest.map_or(0.0, |rest| {
        if let Some(minutes) = rest
            .split(" clock")
            .next()
            .filter(|_| rest.contains("minute"))
        {
            6.0 * number(minutes)
        } else {
            60.0 * number(rest.split(" flat").next().unwrap())
        }
    });
    Some(360.0 * turns + rest)
}

/// What one valve is found and asked for.
#[derive(Clone, Copy, Debug)]
struct Valve {
    found: f64,
    set_to: f64,
    low: f64,
    high: f64,
    pitch: f64,
    seat: ScrewSeat,
    ratio: f64,
}

/// The lash that the degrees lead to, and the one that the words lead to.
fn followed(valve: Valve) -> Option<(f64, f64, String)> {
    let exact = |mm: f64| mark(&format!("{mm:.6} mm"));
    let set = Limits::between(exact(valve.low), exact(valve.high)).unwrap();
    let limits = ValveLimits::new(exact(valve.set_to), set, None).unwrap();
    let leaf = |mm: f64| Leaf {
        mark: exact(mm),
        tolerance: Some(exact(0.0)),
    };
    let (thin, thick) = (valve.found - 0.000_5, valve.found + 0.000_5);
    let one = |mm| Stack::new(vec![leaf(mm)]).unwrap();
    let found = AsFound::new(Reading::between(one(thin), one(thick)).unwrap());
    let leaves = LeafSet::new(vec![leaf(thin), leaf(thick)]).unwrap();
    let adjuster = Adjuster::Screw {
        thread: Thread::metric(Length::from_mm(valve.pitch).unwrap()).unwrap(),
        seat: valve.seat,
        inward_closes: Some(true),
        lock_nut: None,
    };
    // Felt without a doubt, so that the printed value is the aim.
    let used = GaugeUse {
        hand: Some(exact(0.0)),
        ..GaugeUse::default()
    };
    let setting = Setting {
        limits: &limits,
        correction: None,
        not_at_reference: None,
        adjuster: &adjuster,
        kind: None,
        rocker_ratio: Some(valve.ratio),
        leaves: &leaves,
        rule: &Lash::USUAL_RULE,
    };
    let felt = found.reading.estimate_with(&used, None).unwrap();
    let judged = judge(&found, &felt, &setting).unwrap();
    let reset = judged.advice.reset()?;
    let turn = *reset.screw()?;
    let gap = match valve.seat {
        ScrewSeat::ValveSide => 1.0,
        ScrewSeat::CamSide => valve.ratio,
        ScrewSeat::Pivot => 1.0 + valve.ratio,
    };
    let lash = |degrees: f64| valve.found - degrees / 360.0 * valve.pitch * gap;
    let sign = if turn.direction == TurnDirection::In {
        1.0
    } else {
        -1.0
    };
    let by_degrees = turn.angle.degrees();
    let by_words = degrees_of(&reset.amount).map_or(by_degrees, |degrees| sign * degrees);
    Some((lash(by_degrees), lash(by_words), reset.amount.clone()))
}

/// Five turns for which the nearest of a short list of parts led out of the band, one of them into the tight.
#[test]
fn small_turns_are_said_so_that_following_the_words_lands_where_the_degrees_do() {
    let four = |found, set_to| Valve {
        found,
        set_to,
        low: set_to - 0.02,
        high: set_to + 0.02,
        pitch: 1.0,
        seat: ScrewSeat::CamSide,
        ratio: 1.45,
    };
    let twin = Valve {
        found: 0.06,
        set_to: 0.10,
        low: 0.08,
        high: 0.12,
        pitch: 0.75,
        seat: ScrewSeat::ValveSide,
        ratio: 1.0,
    };
    let rows = [
        (
            four(0.135_65, 0.20),
            "out 16 deg (about 2 1/2 clock minutes)",
        ),
        (
            four(0.235_65, 0.30),
            "out 16 deg (about 2 1/2 clock minutes)",
        ),
        (four(0.375_65, 0.30), "in 19 deg (about 3 clock minutes)"),
        (twin, "out 19 deg (about 3 clock minutes)"),
        (
            four(0.264_35, 0.20),
            "in 16 deg (about 2 1/2 clock minutes)",
        ),
    ];
    for (valve, words) in rows {
        let (degrees, said, amount) = followed(valve).unwrap();
        assert!(amount.contains(words), "{amount}");
        assert_abs_diff_eq!(degrees, valve.set_to, epsilon = 1e-6);
        assert_abs_diff_eq!(said, degrees, epsilon = 0.005);
        assert!(amount.ends_with("to start, the leaf decides"), "{amount}");
    }
}

fn valves() -> impl Strategy<Value = Valve> {
    let seats = [ScrewSeat::ValveSide, ScrewSeat::CamSide, ScrewSeat::Pivot];
    (
        0.1..0.5_f64,
        0.002..0.06_f64,
        0.0..1.0_f64,
        -0.25..0.25_f64,
        0.4..1.5_f64,
        0..3_usize,
        1.0..2.0_f64,
    )
        .prop_map(move |(low, width, at, off, pitch, seat, ratio)| {
            let round = |mm: f64| (mm * 1e6).round() / 1e6;
            let (low, high) = (round(low), round(low + width));
            Valve {
                found: round(low + off).max(0.01),
                set_to: round(low + at * (high - low)).clamp(low, high),
                low,
                high,
                pitch: round(pitch),
                seat: seats.get(seat).copied().unwrap_or(ScrewSeat::Pivot),
                ratio,
            }
        })
}

proptest! {
    /// Following the words keeps the lash in the set band, as following the degrees does, and within a
    /// quarter of its half-width of where they lead.
    #[test]
    fn words_never_leave_the_set_band(valve in valves()) {
        let followed = followed(valve);
        prop_assume!(followed.is_some());
        let (degrees, said, amount) = followed.unwrap();
        let inside = |lash: f64| valve.low - 1e-9 <= lash && lash <= valve.high + 1e-9;
        prop_assert!(!inside(degrees) || inside(said), "{degrees} {said} {amount}");
        let quarter = 0.25 * 0.5 * (valve.high - valve.low);
        prop_assert!((said - degrees).abs() <= quarter + 1e-9, "{degrees} {said} {amount}");
    }
}

/// r = 1.5, 3/8-24: 0.10 mm is 13.6 degrees of the stud nut, which moves both arms of the rocker.
/// Source: geometry of a lever; the thread is 24 to the inch.
#[test]
fn a_nut_on_the_stud_moves_both_arms() {
    let thread = Thread::per_inch(24).unwrap();
    let change = LashChange::from_mm(0.10).unwrap();
    let turn = |seat| screw_turn(change, thread, seat, 1.5, true).unwrap();
    assert_abs_diff_eq!(
        turn(ScrewSeat::Pivot).angle.degrees(),
        -13.606_3,
        epsilon = 1e-4
    );
    assert_abs_diff_eq!(
        turn(ScrewSeat::CamSide).angle.degrees(),
        -22.677_2,
        epsilon = 1e-4
    );
    // The gap by the heights: what the pivot rises, less what the push rod's end is held.
    let (rise, ratio) = (-turn(ScrewSeat::Pivot).travel.mm(), 1.5);
    let gap = |pivot: f64, rod: f64, valve: f64| (1.0 + ratio) * pivot - ratio * rod - valve;
    assert_abs_diff_eq!(
        gap(rise, 0.0, 0.0) - gap(0.0, 0.0, 0.0),
        0.10,
        epsilon = 1e-12
    );
}
