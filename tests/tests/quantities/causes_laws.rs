//! What holds of any weighing of causes.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use approx::assert_abs_diff_eq;
use lashwork::Refusal;
use lashwork::causes::{
    Cause, CauseAnswer, CauseAssumption, CauseCheck, CauseLook, CausePriors, CauseVerdict,
    CompressionSign, DriftSign, LambdaSign, LashSign, LeakSign, MonoxideSign, OxygenSign, Place,
    PlugSign, PressureSign, Seen, TimingSign,
};
use lashwork::mixture::gauge::{GaugeCheck, LashFound, Movement, TimingFound};

fn cause(answer: &CauseAnswer, cause: Cause) -> &lashwork::causes::LikelyCause {
    answer.causes.iter().find(|own| own.cause == cause).unwrap()
}

/// An engine with something to see of every kind.
fn busy() -> CauseCheck {
    let mut check = CauseCheck::in_line(4);
    check.cylinders[0].lash = Some(LashSign::InLimits.into());
    check.cylinders[1].lash = Some(LashSign::Tight.into());
    check.cylinders[1].drift = Some(DriftSign::Closing.into());
    check.cylinders[1].compression = Some(CompressionSign::Low.into());
    check.cylinders[3].compression = Some(CompressionSign::AsItsMates.into());
    check.cylinders[1].leak = Some(LeakSign::AtExhaust.into());
    check.cylinders[2].plug = Some(PlugSign::Sooty.into());
    check.engine.timing = Some(TimingSign::Late.into());
    check.engine.monoxide = Some(MonoxideSign::High.into());
    check.engine.gauge = Some(GaugeCheck {
        movement: Some(Movement::RegularDrop),
        ..GaugeCheck::default()
    });
    check
}

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

/// One cylinder, one sign: by hand. Odds of a cause among engines are p/(1-p), half of what sits in all or one in
/// either; two together have the product; 3 % is something else; a slight cause shows 35 % of what a plain one does;
/// the leaf is right 98 times in 100.
#[test]
fn one_sign_of_one_cylinder_by_hand() {
    let mut priors = CausePriors::assumed();
    for cause in Cause::ALL {
        priors = priors.with(cause, 0.0).unwrap();
    }
    let priors = priors
        .with(Cause::ValveTight, 10.0)
        .unwrap()
        .with(Cause::SparkLate, 20.0)
        .unwrap();
    let mut check = CauseCheck::in_line(1);
    check.priors = Some(priors);
    check.cylinders[0].lash = Some(LashSign::Tight.into());
    let answer = check.weighed().unwrap();
    let seen = |tight: f64| 0.98 * tight + 0.01 * (1.0 - tight);
    let (sound, plain) = (0.06, 0.94);
    let slight = 0.35 * plain + 0.65 * sound;
    // A leak that may pass, met in 3 %, and a late spark are not to be seen in the clearances.
    let (odds_tight, odds_late, odds_passing) = (1.0 / 9.0, 0.25, 0.03 / 0.97);
    let shown = 0.5 * (seen(plain) + seen(slight));
    let none = (1.0 + odds_passing) * seen(sound);
    let tight = (1.0 + odds_passing) * odds_tight * shown;
    let late = (1.0 + odds_passing) * odds_late * seen(sound);
    let both = odds_tight * odds_late * shown;
    let odds = (1.0 + odds_passing) * (1.0 + odds_tight + odds_late) + odds_tight * odds_late;
    let other = odds * 0.03 / 0.97 * seen(0.12);
    let all = none + tight + late + both + other;
    assert_abs_diff_eq!(
        cause(&answer, Cause::ValveTight).probability,
        (tight + both) / all,
        epsilon = 1e-12
    );
    assert_abs_diff_eq!(answer.nothing, none / all, epsilon = 1e-12);
    assert_abs_diff_eq!(answer.two, both / all, epsilon = 1e-12);
    assert_abs_diff_eq!(answer.something_else, other / all, epsilon = 1e-12);
}

/// Low compression and a leak of one cylinder are not two strangers: carbon under a valve shows in both. Where a
/// burnt valve is rare, that is believed first, and the valve is not.
#[test]
fn signs_of_one_leak_are_not_counted_as_strangers() {
    let mut rare = CausePriors::assumed();
    for cause in Cause::ALL {
        rare = rare.with(cause, 0.0).unwrap();
    }
    let mut check = CauseCheck::in_line(4);
    check.priors = Some(rare.with(Cause::ValveBurnt, 0.001).unwrap());
    let before = check.weighed().unwrap();
    check.cylinders[1].compression = Some(CompressionSign::LowOilNoHelp.into());
    check.cylinders[1].leak = Some(LeakSign::AtExhaust.into());
    let after = check.weighed().unwrap();
    assert!(before.passing < 0.04 && after.passing > 0.3, "{after:?}");
    assert!(cause(&after, Cause::ValveBurnt).probability < 0.01);
}

/// What is read off another says nothing more: lambda beside its gases, and timing or clearances given again with
/// the gauge.
#[test]
fn what_is_reckoned_of_others_is_left_out() {
    let mut check = busy();
    check.engine.oxygen = Some(OxygenSign::Right.into());
    let without = check.weighed().unwrap();
    check.engine.lambda = Some(LambdaSign::Rich.into());
    let gauge = check.engine.gauge.as_mut().unwrap();
    gauge.timing = Some(TimingFound::Late);
    gauge.lash = Some(LashFound::TooSmall);
    let with = check.weighed().unwrap();
    assert_eq!(with.causes, without.causes);
    for said in [CauseAssumption::LambdaLeftOut, CauseAssumption::GaugeAlone] {
        assert!(with.assumptions.contains(&said) && !without.assumptions.contains(&said));
    }
    // By itself it speaks.
    let mut alone = CauseCheck::in_line(4);
    alone.engine.lambda = Some(LambdaSign::Rich.into());
    assert_eq!(alone.weighed().unwrap().causes[0].cause, Cause::MixtureRich);
}

/// Low is low with oil tried or not: on average over what oil may do, oil changes no probability.
#[test]
fn oil_moves_nothing_on_average() {
    let low = |sign: CompressionSign| {
        let mut check = CauseCheck::in_line(4);
        // Sure enough for wrong findings to play no part.
        check.cylinders[1].compression = Some(Seen::with_chance(sign, 1.0 - 1e-9).unwrap());
        check.weighed().unwrap()
    };
    let [before, helps, not] = [
        CompressionSign::Low,
        CompressionSign::LowOilHelps,
        CompressionSign::LowOilNoHelp,
    ]
    .map(low);
    // The same share of answers fits all causes.
    let part = |c: Cause| {
        let [b, h, n] = [&before, &helps, &not].map(|answer| cause(answer, c).probability);
        (b - n) / (h - n)
    };
    let of_rings = part(Cause::RingsWorn);
    assert!(of_rings > 0.05 && of_rings < 0.95);
    for c in [
        Cause::ValveBurnt,
        Cause::HeadGasket,
        Cause::ValveTight,
        Cause::CamWorn,
    ] {
        assert_abs_diff_eq!(part(c), of_rings, epsilon = 1e-5);
    }
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
            (CauseLook::Records, Some(at)) => {
                check.cylinders[at].drift = Some(DriftSign::AsItsMates.into());
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
