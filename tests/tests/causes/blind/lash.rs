//! How the lash came to be what it is: services that set it, and wear between them.

use super::chance::{between, happens, normal};
use super::engine::Engine;
use fastrand::Rng;

/// What the book sets, and from where to where it leaves a valve alone: intake, exhaust, in mm.
pub(super) const SET: [f64; 2] = [0.20, 0.30];
pub(super) const ALONE: f64 = 0.05;

/// A past service: what was found, and what was left where a valve was set.
#[derive(Clone, Debug)]
pub(super) struct Service {
    /// Thousands of kilometres.
    pub at: f64,
    pub found: Vec<[f64; 2]>,
    pub left: Vec<[Option<f64>; 2]>,
}

/// The past services, oldest first, and where the distance stands today.
#[derive(Clone, Debug, Default)]
pub(super) struct Past {
    pub services: Vec<Service>,
    pub today: f64,
}

/// Whether a valve that has not sunk stands under the book's least.
pub(super) fn is_tight(lash: &[[f64; 2]], sunk: Option<(usize, usize, bool)>) -> bool {
    lash.iter().enumerate().any(|(cylinder, own)| {
        (0..2).any(|valve| {
            let other = sunk.is_none_or(|(c, v, _)| (c, v) != (cylinder, valve));
            other && own[valve] < SET[valve] - ALONE - 0.015
        })
    })
}

fn reads(true_lash: f64, rng: &mut Rng) -> f64 {
    // Read by leaves of a twentieth: to 0.01 mm, by a hand of 0.012 mm.
    (100.0 * (true_lash + 0.012 * normal(rng))).round().max(0.0) / 100.0
}

/// Lets the engine run from service to service; changes its lash to that of today.
pub(super) fn wear(
    rng: &mut Rng,
    engine: &mut Engine,
    sunk: Option<(usize, usize, bool)>,
    worn: Option<(usize, usize)>,
    tight: bool,
) -> Past {
    let n = engine.cylinders;
    let past = rng.usize(2..7);
    let mut rates: Vec<[f64; 2]> = (0..n)
        .map(|_| {
            [
                0.000_6 + 0.001 * normal(rng),
                -0.000_6 + 0.001_2 * normal(rng),
            ]
        })
        .collect();
    let set = |rng: &mut Rng, valve: usize| SET[valve] + 0.012 * normal(rng);
    let mut lash: Vec<[f64; 2]> = (0..n).map(|_| [set(rng, 0), set(rng, 1)]).collect();
    let begins = rng.usize(0..past.min(3));
    let mut services = Vec::new();
    let mut at = between(rng, 20.0, 90.0);
    for service in 0..=past {
        if service + begins == past {
            if let Some((cylinder, valve, true)) = sunk {
                rates[cylinder][valve] = -between(rng, 0.008, 0.035);
            }
            if let Some((cylinder, valve)) = worn {
                rates[cylinder][valve] = between(rng, 0.006, 0.04);
            }
        }
        let since = between(rng, 4.0, 9.0);
        at += since;
        for (own, rate) in lash.iter_mut().zip(&rates) {
            for valve in 0..2 {
                own[valve] += rate[valve] * since;
            }
        }
        if service == past {
            break;
        }
        let found: Vec<[f64; 2]> = lash
            .iter()
            .map(|own| [reads(own[0], rng), reads(own[1], rng)])
            .collect();
        let mut left = vec![[None; 2]; n];
        for cylinder in 0..n {
            for valve in 0..2 {
                if (found[cylinder][valve] - SET[valve]).abs() > ALONE {
                    lash[cylinder][valve] = set(rng, valve);
                    left[cylinder][valve] = Some(reads(lash[cylinder][valve], rng));
                }
            }
        }
        services.push(Service { at, found, left });
    }
    if tight {
        // Set wrong at the last service, by a wrong place of the crank or on hot metal: one valve or several.
        let recorded = happens(rng, 0.5);
        let several = if happens(rng, 0.35) {
            rng.usize(2..5)
        } else {
            1
        };
        for _ in 0..several {
            let mut valve = usize::from(happens(rng, 0.6));
            let cylinder = rng.usize(0..n);
            if sunk.is_some_and(|(c, v, _)| (c, v) == (cylinder, valve)) {
                valve = 1 - valve;
            }
            let now = SET[valve] - ALONE - between(rng, 0.02, 0.16);
            lash[cylinder][valve] = now;
            let left = services.last_mut().map(|last| &mut last.left);
            if let Some(left) = left.filter(|_| recorded) {
                left[cylinder][valve] = Some(reads(now.max(0.0), rng));
            }
        }
    }
    engine.lash = lash;
    Past {
        services,
        today: at,
    }
}
