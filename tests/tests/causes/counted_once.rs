//! Nothing is counted twice, and looking by itself moves nothing.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::asked::{busy, cause};
use approx::assert_abs_diff_eq;
use lashwork::causes::{
    Cause, CauseAssumption, CauseCheck, CausePriors, CompressionSign, DriftSign, LambdaSign,
    LashSign, LeakSign, OxygenSign, PlugSign, Seen, UnburntSign,
};
use lashwork::mixture::gauge::{GaugeCheck, LashFound, Movement, TimingFound};

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
