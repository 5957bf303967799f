//! Refits how much of the evidence is borne out, and holds the constants of the library against it.
#![allow(
    clippy::indexing_slicing,
    reason = "a test stops at the first thing it does not expect"
)]

use super::super::asked::reckoned;
use super::super::table::{EVERYTHING, SERVICE, engines};
use super::{FITTED, answered};
use lashwork::causes::BORNE_OUT;

/// One cause of one engine: what was taken before, in natural units of odds; how much of each piece of the line the model
/// reckons, in decibans; and whether the cause is there.
struct Tried {
    before: f64,
    pieces: [f64; 3],
    is_there: bool,
}

fn tried(taken: &super::Taken, count: u64) -> Vec<Tried> {
    let ln_odds = |p: f64| (p / (1.0 - p)).ln();
    let decibans = 10.0 / std::f64::consts::LN_10;
    let mut all = Vec::new();
    for at in 0..engines(count) {
        let (engine, answer) = answered(taken, FITTED + at);
        for own in &answer.causes {
            let prior = ln_odds(own.prior);
            let rose = decibans * (ln_odds(reckoned(own)) - prior);
            let [_, (second, _), (third, _)] = BORNE_OUT;
            all.push(Tried {
                before: prior + rose.min(0.0) / decibans,
                pieces: [
                    rose.clamp(0.0, second),
                    (rose.min(third) - second).max(0.0),
                    (rose - third).max(0.0),
                ]
                .map(|part| part / decibans),
                is_there: engine.has(own.cause),
            });
        }
    }
    all
}

/// Solves three equations by elimination, and returns with it the diagonal of what the matrix is turned round.
fn solved(mut rows: [[f64; 3]; 3], right: [f64; 3]) -> ([f64; 3], [f64; 3]) {
    let mut beside = [[0.0; 4]; 3];
    for at in 0..3 {
        beside[at] = [right[at], 0.0, 0.0, 0.0];
        beside[at][1 + at] = 1.0;
    }
    for at in 0..3 {
        let lead = rows[at][at];
        rows[at] = rows[at].map(|x| x / lead);
        beside[at] = beside[at].map(|x| x / lead);
        for other in (0..3).filter(|other| *other != at) {
            let times = rows[other][at];
            rows[other] = core::array::from_fn(|k| rows[other][k] - times * rows[at][k]);
            beside[other] = core::array::from_fn(|k| beside[other][k] - times * beside[at][k]);
        }
    }
    (
        beside.map(|row| row[0]),
        core::array::from_fn(|at| beside[at][1 + at]),
    )
}

/// Slopes of greatest likelihood by Newton's steps, each with its standard uncertainty.
fn fitted(all: &[Tried]) -> [(f64, f64); 3] {
    let mut slopes = [1.0; 3];
    let mut variances = [0.0; 3];
    for _ in 0..12 {
        let (mut gradient, mut bend) = ([0.0; 3], [[0.0; 3]; 3]);
        for one in all {
            let raised: f64 = slopes.iter().zip(one.pieces).map(|(s, x)| s * x).sum();
            let p = 1.0 / (1.0 + (-(one.before + raised)).exp());
            let off = f64::from(u8::from(one.is_there)) - p;
            for (i, piece) in one.pieces.iter().enumerate() {
                gradient[i] += off * piece;
                for (bend, other) in bend[i].iter_mut().zip(one.pieces) {
                    *bend += p * (1.0 - p) * piece * other;
                }
            }
        }
        let (step, diagonal) = solved(bend, gradient);
        slopes = core::array::from_fn(|at| slopes[at] + step[at]);
        variances = diagonal;
    }
    core::array::from_fn(|at| (slopes[at], variances[at].sqrt()))
}

/// The constants are those of greatest likelihood on the engines they were fitted on; here on the first of them, so within
/// what so few leave open.
#[test]
fn the_evidence_is_borne_out_as_the_library_says() {
    let mut all = tried(&SERVICE, 250);
    all.extend(tried(&EVERYTHING, 250));
    for ((slope, u), (_, constant)) in fitted(&all).into_iter().zip(BORNE_OUT) {
        println!("{slope} with {u}, the library {constant}");
        assert!(
            u < 0.9 && (slope - constant).abs() < 3.0 * u,
            "{slope} with {u}, the library {constant}"
        );
    }
}
