//! What can be worked out by hand.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::asked::cause;
use approx::assert_abs_diff_eq;
use lashwork::causes::{Cause, CauseCheck, CauseLook, CausePriors, LashSign};

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
