//! What can be worked out by hand.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::asked::cause;
use approx::assert_abs_diff_eq;
use lashwork::causes::{
    Cause, CauseCheck, CauseLook, CausePriors, DriftSign, LashSign, OxygenSign, SeatSign,
};

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

/// Percent of each outcome, that of a sound engine first.
type Row = &'static [f64];

/// What a look shows of one cause: of an engine without it, of something else, and of each of its forms.
struct Shown {
    sound: Row,
    other: Row,
    forms: &'static [Row],
    /// Whether it shows so however slight it is.
    at_once: bool,
    /// Which outcome is found.
    found: usize,
}

/// How far a cause that every other engine has is to be believed after such looks, by hand; `parts` says how much of it is
/// of each form. Each is slight or plain, and all looks know which; a slight one shows in 35 of 100.
fn believed(parts: &[f64], looks: &[Shown]) -> f64 {
    let mut cases = vec![(0.97 * 0.5, None), (0.03, None)];
    for (form, part) in parts.iter().enumerate() {
        let graded = [0.35, 1.0].map(|shows| (0.97 * 0.25 * part, Some((form, shows))));
        cases.extend(graded);
    }
    let mut weights: Vec<f64> = cases.iter().map(|(prior, _)| *prior).collect();
    for look in looks {
        let percent = |at: usize, there: Option<(usize, f64)>| match there {
            None if at == 1 => look.other[look.found],
            None => look.sound[look.found],
            Some((form, shows)) => {
                let shows = if look.at_once { 1.0 } else { shows };
                shows * look.forms[form][look.found] + (1.0 - shows) * look.sound[look.found]
            }
        };
        let wrong = 0.01 / (look.sound.len() - 1) as f64;
        let seen: Vec<f64> = cases
            .iter()
            .enumerate()
            .map(|(at, (_, there))| percent(at, *there) / 100.0)
            .map(|p| 0.99 * p + wrong * (1.0 - p))
            .collect();
        let mean: f64 = cases
            .iter()
            .zip(&seen)
            .map(|((prior, _), p)| prior * p)
            .sum();
        for (weight, p) in weights.iter_mut().zip(&seen) {
            *weight *= 0.97 * p + 0.03 * mean;
        }
    }
    weights.iter().skip(2).sum::<f64>() / weights.iter().sum::<f64>()
}

/// Holds it against an engine of one cylinder where nothing else is met.
fn holds(own: Cause, say: &dyn Fn(&mut CauseCheck), parts: &[f64], looks: &[Shown]) {
    let mut priors = CausePriors::assumed();
    for cause in Cause::ALL {
        let percent = if cause == own { 50.0 } else { 0.0 };
        priors = priors.with(cause, percent).unwrap();
    }
    let mut check = CauseCheck::in_line(1);
    check.priors = Some(priors);
    say(&mut check);
    let found = cause(&check.weighed().unwrap(), own).probability;
    assert_abs_diff_eq!(found, believed(parts, looks), epsilon = 1e-12);
}

/// What past services say of a valve, by itself and beside the clearance it was reckoned of.
#[test]
fn records_by_hand() {
    const LASH: Row = &[96.5, 0.4, 3.1];
    const SOUND: Row = &[99.6, 0.2, 0.2];
    const TIGHT: Row = &[2.0, 97.0, 1.0];
    const CLOSED: Row = &[12.0, 86.0, 2.0];
    const OPENED: Row = &[10.0, 2.0, 88.0];
    const OF_TIGHT: Row = &[75.0, 24.5, 0.5];
    const OF_LOOSE: Row = &[75.0, 0.5, 24.5];
    let causes: [(Cause, &[f64], &'static [Row]); 3] = [
        (Cause::ValveBurnt, &[0.5, 0.5], &[SOUND, CLOSED]),
        (Cause::ValveTight, &[0.6, 0.4], &[SOUND, CLOSED]),
        (Cause::CamWorn, &[0.4, 0.6], &[SOUND, OPENED]),
    ];
    for (own, parts, forms) in causes {
        for (found, sign) in DriftSign::ALL.into_iter().enumerate() {
            let drift = Shown {
                sound: SOUND,
                other: &[90.0, 5.0, 5.0],
                forms,
                at_once: false,
                found,
            };
            let say = |check: &mut CauseCheck| check.cylinders[0].drift = Some(sign.into());
            holds(own, &say, parts, &[drift]);
        }
    }
    for (found, sign) in DriftSign::ALL.into_iter().enumerate() {
        let lash = |forms, at_once, found| Shown {
            sound: LASH,
            other: &[86.0, 6.0, 8.0],
            forms,
            at_once,
            found,
        };
        let drift = |sound, forms| Shown {
            sound,
            other: sound,
            forms,
            at_once: false,
            found,
        };
        let say = |lash: LashSign| {
            move |check: &mut CauseCheck| {
                check.cylinders[0].lash = Some(lash.into());
                check.cylinders[0].drift = Some(sign.into());
            }
        };
        let tight = lash(&[TIGHT, TIGHT], true, 1);
        let looks = [tight, drift(OF_TIGHT, &[OF_TIGHT, CLOSED])];
        holds(
            Cause::ValveTight,
            &say(LashSign::Tight),
            &[0.6, 0.4],
            &looks,
        );
        let loose = lash(&[LASH, OPENED], false, 2);
        let looks = [loose, drift(OF_LOOSE, &[OF_LOOSE, OPENED])];
        holds(Cause::CamWorn, &say(LashSign::Loose), &[0.4, 0.6], &looks);
    }
}

/// How the exhaust valves went together.
#[test]
fn seats_by_hand() {
    const SOUND: Row = &[90.0, 10.0];
    const SINK: Row = &[55.0, 45.0];
    for (own, parts) in [
        (Cause::ValveBurnt, [0.5, 0.5]),
        (Cause::ValveTight, [0.6, 0.4]),
    ] {
        for (found, sign) in SeatSign::ALL.into_iter().enumerate() {
            let seats = Shown {
                sound: SOUND,
                other: SOUND,
                forms: &[SOUND, SINK],
                at_once: false,
                found,
            };
            let say = |check: &mut CauseCheck| check.engine.seats = Some(sign.into());
            holds(own, &say, &parts, &[seats]);
        }
    }
}

/// Oxygen in the exhaust, which no document gives by itself.
#[test]
fn oxygen_by_hand() {
    const LEAKS: Row = &[30.0, 70.0];
    const WEAK: Row = &[65.0, 35.0];
    const AIR: Row = &[17.0, 83.0];
    const UNLIT: Row = &[13.0, 87.0];
    const SOUND: Row = &[92.0, 8.0];
    let causes: [(Cause, &[f64], &'static [Row]); 10] = [
        (Cause::ValveBurnt, &[0.5, 0.5], &[LEAKS, LEAKS]),
        (Cause::HeadGasket, &[1.0], &[LEAKS]),
        (Cause::ValveTight, &[0.6, 0.4], &[WEAK, WEAK]),
        (Cause::CamWorn, &[0.4, 0.6], &[WEAK, WEAK]),
        (Cause::RingsWorn, &[0.6, 0.4], &[SOUND, WEAK]),
        (Cause::IntakeLeak, &[0.6, 0.4], &[AIR, AIR]),
        (Cause::SparkWeak, &[0.3, 0.7], &[UNLIT, UNLIT]),
        (Cause::MixtureLean, &[1.0], &[UNLIT]),
        (Cause::MixtureRich, &[1.0], &[&[96.0, 4.0]]),
        (Cause::SparkLate, &[1.0], &[SOUND]),
    ];
    for (own, parts, forms) in causes {
        for (found, sign) in OxygenSign::ALL.into_iter().enumerate() {
            let oxygen = Shown {
                sound: SOUND,
                other: WEAK,
                forms,
                at_once: false,
                found,
            };
            let say = |check: &mut CauseCheck| check.engine.oxygen = Some(sign.into());
            holds(own, &say, parts, &[oxygen]);
        }
    }
}
