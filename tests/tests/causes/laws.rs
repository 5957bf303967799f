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
    CompressionSign, DriftSign, DwellSign, LambdaSign, LashSign, LeakSign, MonoxideSign,
    OxygenSign, Place, PlugSign, Seen, TimingSign, UnburntSign,
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

/// One cylinder, one sign: by hand. Odds of a cause among engines are p/(1-p); two together have the product; 3 % is
/// something else; a tight valve is tight however slightly; the leaf is right 99 times in 100; and in 3 of 100 looks
/// what is found has nothing to do with what is there.
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
    let seen = |tight: f64| 0.99 * tight + 0.005 * (1.0 - tight);
    let [sound, plain, other] = [0.004, 0.97, 0.06].map(seen);
    // A leak that may pass, met in 3 %, and a late spark are not to be seen in the clearances.
    let (odds_tight, odds_late, odds_passing) = (1.0 / 9.0, 0.25, 0.03 / 0.97);
    let before = [
        1.0 + odds_passing,
        (1.0 + odds_passing) * odds_tight,
        (1.0 + odds_passing) * odds_late,
        (1.0 + odds_passing) * odds_tight * odds_late,
    ];
    let odds: f64 = before.iter().sum();
    let before = before.map(|p| 0.97 * p / odds);
    let shown = [sound, plain, sound, plain];
    let each = before.iter().zip(shown);
    let mean = each.map(|(p, shown)| p * shown).sum::<f64>() + 0.03 * other;
    let doubted = |shown: f64| 0.97 * shown + 0.03 * mean;
    let both = before.iter().zip(shown);
    let after: Vec<f64> = both.map(|(p, shown)| p * doubted(shown) / mean).collect();
    assert_abs_diff_eq!(
        cause(&answer, Cause::ValveTight).probability,
        after[1] + after[3],
        epsilon = 1e-12
    );
    assert_abs_diff_eq!(answer.nothing, after[0], epsilon = 1e-12);
    assert_abs_diff_eq!(answer.several, after[3], epsilon = 1e-12);
    assert_abs_diff_eq!(
        answer.something_else,
        0.03 * doubted(other) / mean,
        epsilon = 1e-12
    );
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

/// The information expected of a look, by hand: of one cylinder where the spark alone may be late, the entropy of what
/// the lamp will show, less what it has left once it is known what is the matter (C. E. Shannon, 1948; the definition).
#[test]
fn expected_information_by_hand() {
    let mut priors = CausePriors::assumed();
    for cause in Cause::ALL {
        priors = priors.with(cause, 0.0).unwrap();
    }
    let mut check = CauseCheck::in_line(1);
    check.priors = Some(priors.with(Cause::SparkLate, 20.0).unwrap());
    let answer = check.weighed().unwrap();
    let timing = answer.next.iter().find(|next| next.at == CauseLook::Timing);
    // Right, late, early, in percent: sound, late, something else; the lamp is right 99 times in 100.
    let seen = |percent: f64| 0.99 * percent / 100.0 + 0.005 * (1.0 - percent / 100.0);
    let shown = [[99.4, 0.4, 0.2], [2.0, 97.0, 1.0], [74.0, 13.0, 13.0]];
    let shown = shown.map(|row| row.map(seen));
    let there = [0.97 * 0.8, 0.97 * 0.2, 0.03];
    let entropy = |row: [f64; 3]| -row.iter().map(|p| p * p.log2()).sum::<f64>();
    let mixed: [f64; 3] =
        core::array::from_fn(|at| there.iter().zip(&shown).map(|(p, row)| p * row[at]).sum());
    let left: f64 = there
        .iter()
        .zip(shown)
        .map(|(p, row)| p * entropy(row))
        .sum();
    assert_abs_diff_eq!(timing.unwrap().bits, entropy(mixed) - left, epsilon = 1e-9);
    assert_abs_diff_eq!(timing.unwrap().minutes, 6.0);
}

/// How far a burnt valve stands above nothing, in decibans.
fn burnt_above_nothing(say: &dyn Fn(&mut CauseCheck)) -> f64 {
    let mut check = CauseCheck::in_line(4);
    say(&mut check);
    let answer = check.weighed().unwrap();
    let burnt = cause(&answer, Cause::ValveBurnt).probability;
    10.0 * f64::log10(burnt / answer.nothing)
}

/// A drift is reckoned of the clearance that was found: a valve that closed since it was set and one that is tight
/// now say far less together than two strangers would, and one that was found in limits and closes says more of itself.
#[test]
fn history_and_clearance_are_not_counted_twice() {
    let before = burnt_above_nothing(&|_| ());
    let lash = burnt_above_nothing(&|check| check.cylinders[1].lash = Some(LashSign::Tight.into()));
    let drift = burnt_above_nothing(&|check| {
        check.cylinders[1].drift = Some(DriftSign::Closing.into());
    });
    let both = burnt_above_nothing(&|check| {
        check.cylinders[1].lash = Some(LashSign::Tight.into());
        check.cylinders[1].drift = Some(DriftSign::Closing.into());
    });
    let [lash, drift, both] = [lash, drift, both].map(|after| after - before);
    assert!(lash > 3.0 && drift > 3.0, "{lash} {drift}");
    assert!(
        both > lash.max(drift) && both < 0.75 * (lash + drift),
        "{lash} {drift} {both}"
    );
}

/// Compression, leak and vacuum of one leaking cylinder are three looks at one leak: together they say less than
/// three strangers, since carbon under a valve shows in all of them.
#[test]
fn three_looks_at_one_leak_say_less_than_three() {
    let before = burnt_above_nothing(&|_| ());
    let low = |check: &mut CauseCheck| {
        check.cylinders[1].compression = Some(CompressionSign::LowOilNoHelp.into());
    };
    let hiss = |check: &mut CauseCheck| check.cylinders[1].leak = Some(LeakSign::AtExhaust.into());
    let drops = |check: &mut CauseCheck| {
        check.engine.gauge = Some(GaugeCheck {
            movement: Some(Movement::RegularDrop),
            ..GaugeCheck::default()
        });
    };
    let all = burnt_above_nothing(&|check| {
        low(check);
        hiss(check);
        drops(check);
    });
    let alone = [&low as &dyn Fn(&mut CauseCheck), &hiss, &drops]
        .map(|say| burnt_above_nothing(say) - before);
    let sum: f64 = alone.iter().sum();
    assert!(alone.iter().all(|own| *own > 2.0), "{alone:?}");
    assert!(all - before < sum - 2.0, "{alone:?} {}", all - before);
}

/// No look decides by itself: what one says is bounded, however often it is said.
#[test]
fn one_look_alone_never_settles_what_is_rare() {
    let mut check = CauseCheck::in_line(8);
    for cylinder in &mut check.cylinders {
        cylinder.plug = Some(Seen::with_chance(PlugSign::Sooty, 0.999_999).unwrap());
    }
    let answer = check.weighed().unwrap();
    let rich = cause(&answer, Cause::MixtureRich);
    // The mean of all, in 3 of 100: odds rise by no more than 97 to 3 over what they were, over what is left of it.
    let most = 10.0 * f64::log10((0.97 / rich.prior + 0.03) / 0.03);
    assert!(
        rich.speaks[0].alone > 10.0 && rich.speaks[0].alone < most + 1e-9,
        "{rich:?}"
    );
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
        // But for which three suspects are weighed together.
        assert_abs_diff_eq!(part(c), of_rings, epsilon = 0.01);
    }
}

/// What is likely to be found adds up to one whatever is the matter, three things at once too: on average over what may be
/// found, looking changes no probability, by the same share of findings for all causes.
#[test]
fn looking_moves_nothing_on_average() {
    let there = [
        Cause::MixtureRich,
        Cause::MixtureLean,
        Cause::SparkWeak,
        Cause::CamToothOut,
    ];
    let mut priors = CausePriors::assumed();
    for cause in Cause::ALL {
        let percent = if there.contains(&cause) { 40.0 } else { 0.0 };
        priors = priors.with(cause, percent).unwrap();
    }
    let with = |sign: Option<UnburntSign>| {
        let mut check = CauseCheck::in_line(1);
        check.priors = Some(priors);
        // Sure enough for wrong findings to play no part.
        let seen = sign.map(|sign| Seen::with_chance(sign, 1.0 - 1e-12).unwrap());
        check.engine.unburnt = seen;
        check.weighed().unwrap()
    };
    let [before, right, high] = [None, Some(UnburntSign::Right), Some(UnburntSign::High)].map(with);
    assert!(before.several > 0.3, "{before:?}");
    let part = |c: Cause| {
        let [b, r, h] = [&before, &right, &high].map(|answer| cause(answer, c).probability);
        (b - h) / (r - h)
    };
    let nothing = (before.nothing - high.nothing) / (right.nothing - high.nothing);
    for c in there {
        assert_abs_diff_eq!(part(c), nothing, epsilon = 1e-7);
    }
}

/// A record weighs as its readings do, but never more than a finding whose doubt is not stated.
#[test]
fn a_record_is_no_surer_than_a_finding() {
    let chance = |evidence: f64| Seen::of_evidence(evidence, true).unwrap().chance();
    assert!(chance(5.0) < chance(50.0));
    let usual = Seen::from(DriftSign::Closing).chance();
    for evidence in [1e3, 1e200] {
        assert_abs_diff_eq!(chance(evidence), usual, epsilon = 1e-12);
    }
    assert_eq!(
        Seen::of_evidence(1e9, false).unwrap().found(),
        DriftSign::Opening
    );
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
