//! Laws of the vacuum gauge: nothing said is nothing known, and what is refused.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::gauge_published::{inhg, level};
use lashwork::Refusal;
use lashwork::mixture::gauge::{
    Blip, CompressionFound, GaugeAssumption, GaugeCause, GaugeCheck, GaugeError, GaugeLook,
    GaugePriors, GaugeVerdict, LashFound, Movement, TimingFound, WithSpeed,
};
use lashwork::quantity::AbsolutePressure;

/// Nothing said, nothing known: the prior stays, whatever is known of the engine.
#[test]
fn nothing_said_is_nothing_known() {
    for cylinders in [None, Some(4), Some(8)] {
        let check = GaugeCheck {
            cylinders,
            high_overlap: true,
            ..GaugeCheck::default()
        };
        let answer = check.weighed().unwrap();
        assert_eq!(answer.verdict, GaugeVerdict::NothingSeen);
        for weighed in &answer.causes {
            assert!((weighed.probability - weighed.prior).abs() < 1e-14);
        }
        assert!(answer.next.is_some());
        assert!(
            !answer
                .assumptions
                .contains(&GaugeAssumption::AmbientAssumed)
        );
    }
}

#[test]
fn probabilities_and_chances_make_one() {
    for cause in GaugeCause::ALL {
        for cylinders in [None, Some(4), Some(6), Some(8)] {
            let sum: f64 = cause.movements(cylinders).iter().sum();
            assert!((sum - 1.0).abs() < 1e-12, "{cause:?}");
        }
        let sum: f64 = cause.with_speed().iter().sum();
        assert!((sum - 1.0).abs() < 1e-12, "{cause:?}");
    }
    let all: f64 = GaugeCause::ALL
        .iter()
        .map(|cause| GaugePriors::assumed().percent(*cause))
        .sum();
    assert!((all - 100.0).abs() < 1e-12);
    for movement in Movement::ALL {
        for with_speed in WithSpeed::ALL {
            let check = GaugeCheck {
                movement: Some(movement),
                with_speed: Some(with_speed),
                level: Some(level(16.0)),
                ..GaugeCheck::default()
            };
            let answer = check.weighed().unwrap();
            let sum: f64 = answer
                .causes
                .iter()
                .map(|weighed| weighed.probability)
                .sum();
            assert!((sum - 1.0).abs() < 1e-12);
            let sorted = answer.causes.windows(2);
            assert!(
                sorted
                    .into_iter()
                    .all(|w| w[0].probability >= w[1].probability)
            );
        }
    }
}

/// Bayes' rule by hand for one sign: two causes, shares 3 to 1, a chance of a wrong look of one in ten.
#[test]
fn one_sign_by_hand() {
    let mut priors = GaugePriors::assumed();
    for cause in GaugeCause::ALL {
        priors = priors
            .with(
                cause,
                if cause == GaugeCause::Sound {
                    75.0
                } else {
                    0.0
                },
            )
            .unwrap();
    }
    priors = priors.with(GaugeCause::ValveTight, 25.0).unwrap();
    let check = GaugeCheck {
        lash: Some(LashFound::TooSmall),
        misread: Some(0.1),
        priors: Some(priors),
        ..GaugeCheck::default()
    };
    // 0.12 and 0.9 by the table, one in ten of anything mixed in.
    let (sound, tight) = (
        0.75 * (0.9 * 0.12 + 0.1 / 3.0),
        0.25 * (0.9 * 0.9 + 0.1 / 3.0),
    );
    let answer = check.weighed().unwrap();
    assert_eq!(answer.causes[0].cause, GaugeCause::ValveTight);
    assert!((answer.causes[0].probability - tight / (sound + tight)).abs() < 1e-12);
}

#[test]
fn what_cannot_be_is_refused() {
    let code = |check: GaugeCheck| check.weighed().unwrap_err().code();
    let of = |change: &dyn Fn(&mut GaugeCheck)| {
        let mut check = GaugeCheck::default();
        change(&mut check);
        code(check)
    };
    // 24.90 inHg is all the air there is at 5000 ft, 29.92 at sea level.
    let high = AbsolutePressure::parse("24.90 inHg").unwrap();
    assert_eq!(
        of(&|check| {
            check.ambient = Some(high);
            check.level = Some(level(25.0));
        }),
        "mixture.vacuum-above-ambient"
    );
    assert_eq!(
        of(&|check| check.level = Some(level(30.0))),
        "mixture.vacuum-above-ambient"
    );
    assert_eq!(
        of(&|check| check.level = Some(level(26.5))),
        "mixture.no-idle-vacuum"
    );
    assert_eq!(
        of(&|check| {
            check.ambient = Some(high);
            check.blip = Some(Blip {
                opened: inhg(2.0),
                shut: inhg(25.5),
            });
        }),
        "mixture.vacuum-above-ambient"
    );
    assert_eq!(
        of(&|check| check.drop = Some(inhg(4.0))),
        "mixture.drop-without-movement"
    );
    assert_eq!(
        of(&|check| {
            check.movement = Some(Movement::Steady);
            check.drop = Some(inhg(4.0));
        }),
        "mixture.drop-without-movement"
    );
    assert_eq!(
        of(&|check| check.cylinders = Some(0)),
        "mixture.no-cylinders"
    );
    for wrong in [0.0, 0.5, -0.1, f64::NAN] {
        assert_eq!(
            of(&|check| check.misread = Some(wrong)),
            "mixture.gauge-misread"
        );
    }
    let thin = AbsolutePressure::parse("20 kPa").unwrap();
    assert_eq!(
        of(&|check| check.ambient = Some(thin)),
        "mixture.ambient-pressure"
    );
    let none = GaugePriors::assumed().with(GaugeCause::Sound, f64::NAN);
    assert!(matches!(none, Err(GaugeError::Prior { .. })));
}

/// The next look is one that was not taken, and in the end there is none.
#[test]
fn the_next_look_is_a_new_one() {
    let mut check = GaugeCheck::default();
    let mut taken = Vec::new();
    while let Some(next) = check.weighed().unwrap().next {
        assert!(!taken.contains(&next.at) && next.bits > 0.0);
        taken.push(next.at);
        match next.at {
            GaugeLook::Level => check.level = Some(level(16.5)),
            GaugeLook::Movement => check.movement = Some(Movement::SmallFlick),
            GaugeLook::WithSpeed => check.with_speed = Some(WithSpeed::Same),
            GaugeLook::Blip => {
                check.blip = Some(Blip {
                    opened: inhg(1.0),
                    shut: inhg(23.0),
                });
            }
            GaugeLook::Timing => check.timing = Some(TimingFound::Right),
            GaugeLook::Compression => check.compression = Some(CompressionFound::Even),
            GaugeLook::Lash => check.lash = Some(LashFound::TooSmall),
        }
    }
    assert_eq!(taken.len(), 7);
    let answer = check.weighed().unwrap();
    assert_eq!(answer.causes[0].cause, GaugeCause::ValveTight);
    assert!(answer.causes[0].probability > 0.8 && answer.verdict == GaugeVerdict::Open);
    // After somebody set the valves it is settled.
    let set = GaugePriors::assumed().with(GaugeCause::ValveTight, 40.0);
    check.priors = Some(set.unwrap());
    assert_eq!(check.weighed().unwrap().verdict, GaugeVerdict::Settled);
}
