//! What holds of any weighing of causes.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::asked::{busy, cause};
use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::causes::{
    Cause, CauseCheck, CauseLook, CausePriors, CauseVerdict, CompressionSign, DwellSign, LashSign,
    LeakSign, MonoxideSign, Place, PlugSign, Seen, TimingSign,
};
use lashwork::mixture::gauge::{GaugeCheck, Movement};

/// Nothing seen: what was believed before, and that is the stated share, but for what three at once would hold.
#[test]
fn nothing_seen_changes_nothing() {
    let answer = CauseCheck::in_line(4).weighed().unwrap();
    assert_eq!(answer.verdict, CauseVerdict::NothingSeen);
    assert_eq!(answer.not_looked_at, CauseLook::WEIGHED);
    let priors = CausePriors::assumed();
    for own in &answer.causes {
        assert_abs_diff_eq!(own.prior, own.probability, epsilon = 1e-12);
        let stated = priors.percent(own.cause) / 100.0;
        assert!((own.prior - stated).abs() < 0.15 * stated, "{own:?}");
        assert!(own.speaks.is_empty());
    }
    assert_abs_diff_eq!(answer.something_else, 0.03, epsilon = 1e-12);
}

/// Decibans of odds add up: what the looks say one after the other is the whole way from before to after (I. J.
/// Good, 1950; the definition).
#[test]
fn what_speaks_adds_up_to_the_whole() {
    let answer = busy().weighed().unwrap();
    let decibans = |p: f64| 10.0 * f64::log10(p / (1.0 - p));
    for own in &answer.causes {
        assert_eq!(own.speaks.len(), 8);
        let sum: f64 = own.speaks.iter().map(|speaks| speaks.adds).sum();
        let whole = decibans(own.probability) - decibans(own.prior);
        assert_abs_diff_eq!(sum, whole, epsilon = 1e-8);
        // The first look has nothing before it.
        assert_abs_diff_eq!(own.speaks[0].adds, own.speaks[0].alone, epsilon = 1e-9);
    }
}

/// Three at once, each with its own signs, are all named; none is left over for want of room.
#[test]
fn three_things_at_once_are_all_named() {
    let mut check = CauseCheck::in_line(4);
    for cylinder in &mut check.cylinders {
        cylinder.lash = Some(LashSign::InLimits.into());
        cylinder.plug = Some(PlugSign::Sooty.into());
    }
    check.cylinders[0].lash = Some(LashSign::Tight.into());
    check.engine.timing = Some(TimingSign::Late.into());
    check.engine.dwell = Some(DwellSign::Large.into());
    check.engine.monoxide = Some(MonoxideSign::High.into());
    let answer = check.weighed().unwrap();
    for named in [Cause::ValveTight, Cause::SparkLate, Cause::MixtureRich] {
        let own = cause(&answer, named);
        assert!(own.probability > 0.5, "{own:?}");
    }
    assert!(answer.several > 0.8, "{answer:?}");
}

/// Renaming the cylinders renames the places and nothing else.
#[test]
fn cylinders_may_be_named_otherwise() {
    let check = busy();
    let mut turned = check.clone();
    turned.cylinders.reverse();
    let (one, other) = (check.weighed().unwrap(), turned.weighed().unwrap());
    for own in &one.causes {
        let same = cause(&other, own.cause);
        assert_abs_diff_eq!(own.probability, same.probability, epsilon = 1e-10);
        let mirrored = match own.places[0].place {
            Place::Engine => Place::Engine,
            Place::Cylinder(at) => Place::Cylinder(3 - at),
            Place::Between(a, b) => Place::Between(3 - b, 3 - a),
        };
        assert_eq!(same.places[0].place, mirrored);
    }
}

/// A finding that is less sure moves less.
#[test]
fn doubt_moves_less() {
    let tight = |chance: f64| {
        let mut check = CauseCheck::in_line(4);
        check.cylinders[1].lash = Some(Seen::with_chance(LashSign::Tight, chance).unwrap());
        let answer = check.weighed().unwrap();
        cause(&answer, Cause::ValveTight).probability
    };
    assert!(tight(0.6) < tight(0.8) && tight(0.8) < tight(0.99));
    let before = CauseCheck::in_line(4).weighed().unwrap();
    assert!(tight(0.6) > cause(&before, Cause::ValveTight).prior);
}

/// A look is not proposed twice, and most information for a minute comes first.
#[test]
fn the_next_look_is_new_and_worth_its_minutes() {
    let mut check = CauseCheck::in_line(4);
    let mut seen: Vec<(CauseLook, Option<usize>)> = Vec::new();
    for _ in 0..4 {
        let answer = check.weighed().unwrap();
        assert_eq!(answer.next.len(), 3);
        let worth = |at: usize| answer.next[at].bits / answer.next[at].minutes;
        assert!(worth(0) >= worth(1) && worth(1) >= worth(2));
        let next = answer.next[0];
        assert!(next.bits > 0.0 && next.bits < 7.0);
        assert!(!seen.contains(&(next.at, next.cylinder)));
        seen.push((next.at, next.cylinder));
        match (next.at, next.cylinder) {
            (CauseLook::Plugs, Some(at)) => {
                check.cylinders[at].plug = Some(PlugSign::Normal.into());
            }
            (CauseLook::Timing, None) => check.engine.timing = Some(TimingSign::Right.into()),
            (CauseLook::Gauge, None) => {
                check.engine.gauge = Some(GaugeCheck {
                    movement: Some(Movement::Steady),
                    ..GaugeCheck::default()
                });
            }
            (CauseLook::Gas, None) => check.engine.monoxide = Some(MonoxideSign::Right.into()),
            other => unimplemented!("{other:?}"),
        }
    }
}

/// Refused: with a code, and what to do.
#[test]
fn what_cannot_be_weighed_is_refused() {
    let code = |say: &dyn Fn(&mut CauseCheck)| {
        let mut check = CauseCheck::in_line(4);
        say(&mut check);
        let why = check.weighed().unwrap_err();
        assert!(!why.hint().is_empty());
        why.code()
    };
    assert_eq!(code(&|c| c.cylinders.clear()), "causes.no-cylinders");
    assert_eq!(
        code(&|c| c.cylinders.resize(29, c.cylinders[0])),
        "causes.too-many-cylinders"
    );
    assert_eq!(code(&|c| c.neighbours.push([0, 4])), "causes.neighbours");
    assert_eq!(code(&|c| c.neighbours.push([1, 0])), "causes.neighbours");
    assert_eq!(code(&|c| c.neighbours.push([2, 2])), "causes.neighbours");
    assert_eq!(
        code(&|c| {
            c.engine.gauge = Some(GaugeCheck {
                cylinders: Some(0),
                ..GaugeCheck::default()
            });
        }),
        "mixture.no-cylinders"
    );
    for chance in [0.4, 1.0, f64::NAN] {
        let why = Seen::with_chance(LashSign::Tight, chance).unwrap_err();
        assert_eq!(why.code(), "causes.sure");
    }
    for percent in [-1.0, 100.0, f64::NAN, f64::INFINITY] {
        let why = CausePriors::assumed().with(Cause::RingsWorn, percent);
        assert_eq!(why.unwrap_err().code(), "causes.prior");
    }
}

/// The largest engine with everything seen is weighed, and probabilities stay such.
#[test]
fn the_largest_engine_is_weighed() {
    let mut check = CauseCheck::in_line(28);
    for (at, cylinder) in check.cylinders.iter_mut().enumerate() {
        cylinder.lash = Some(LashSign::ALL[at % 3].into());
        cylinder.compression = Some(CompressionSign::ALL[at % 3].into());
        cylinder.leak = Some(LeakSign::ALL[at % 5].into());
    }
    let answer = check.weighed().unwrap();
    for own in &answer.causes {
        assert!((0.0..=1.0).contains(&own.probability), "{own:?}");
        assert!(
            own.speaks
                .iter()
                .all(|s| s.adds.is_finite() && s.alone.is_finite())
        );
    }
}
