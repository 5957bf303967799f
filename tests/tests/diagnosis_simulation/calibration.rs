//! Stated probability against the share that is right.
//!
//! Engines of a population are drawn, three in ten with a fault, each of the causes as often as
//! another; what the diagnosis holds most probable is right if it is what was planted. Of the answers
//! stated with 90 %, nine in ten should be right, also for engines the model was not made for.

use crate::engines::{Leaves, PRINTED, Population, draw, evidence};
use crate::faults::exchange;
use fastrand::Rng;
use lashwork::diagnosis::{Evidence, Prior, ReadingFault, diagnose};
use lashwork::engine::CylinderIndex;
use lashwork::quantity::LengthUnit;
use std::fmt::Write as _;

const SEED: u64 = 0x0ca1_1b4a;
/// Engines of a population.
const DRAWN: usize = 120;
/// Lower ends of the bins.
const BINS: [f64; 4] = [0.5, 0.8, 0.95, 0.99];
/// Fewer answers than this say nothing.
const FEWEST: usize = 15;
/// How much rarer right answers may be than stated where a fault is named: about two standard
/// deviations of a share of so many.
const SLACK: f64 = 0.12;

/// An engine with a fault, or with none.
fn drawn(
    rng: &mut Rng,
    population: Population,
    leaves: &Leaves,
) -> (Evidence, Option<ReadingFault>) {
    // Kinds that differ, so that an exchange can show.
    let printed = PRINTED[[0, 1, 2, 4][rng.usize(..4)]];
    let cylinders = [3, 4, 6][rng.usize(..3)];
    let mut engine = draw(rng, population, printed, cylinders);
    if rng.f64() > 0.3 {
        return (evidence(&engine, leaves, LengthUnit::Millimetre), None);
    }
    let planted = [
        ReadingFault::NotCold,
        ReadingFault::UnitSlipAll,
        ReadingFault::SwappedAll,
        ReadingFault::SwappedOneCylinder,
        ReadingFault::OneTurnOut,
    ][rng.usize(..5)];
    let out = evidence(&engine, leaves, LengthUnit::Millimetre).one_turn_out;
    match planted {
        ReadingFault::NotCold => {
            // A smaller shift is no fault.
            let size = 0.06 + 0.14 * rng.f64();
            let shift = if rng.bool() { size } else { -size };
            engine
                .lashes
                .iter_mut()
                .for_each(|(_, lash)| *lash += shift);
        }
        ReadingFault::UnitSlipAll => {
            engine.lashes.iter_mut().for_each(|(_, lash)| *lash *= 2.54);
        }
        ReadingFault::OneTurnOut => {
            let way = &out[rng.usize(..out.len())];
            for (valve, lash) in &mut engine.lashes {
                if way.lifted.contains(valve) {
                    *lash = 0.0;
                }
            }
        }
        _ => {}
    }
    let mut all = evidence(&engine, leaves, LengthUnit::Millimetre);
    match planted {
        ReadingFault::SwappedAll => exchange(&mut all, |_| true),
        ReadingFault::SwappedOneCylinder => {
            let of = CylinderIndex::new(rng.usize(..cylinders));
            exchange(&mut all, |cylinder| cylinder == of);
        }
        _ => {}
    }
    (all, Some(planted))
}

#[test]
fn what_is_stated_is_about_as_often_right() {
    let mut rng = Rng::with_seed(SEED);
    println!("population            stated -> right (answers)");
    for (population, coarse) in [
        (Population::Model, false),
        (Population::LogNormal(10, 0), false),
        (Population::LogNormal(10, 2), true),
        (Population::LogNormal(18, 0), false),
        (Population::LogNormal(18, 2), true),
    ] {
        let mut named = (0.0, 0_usize, 0_usize);
        let mut bins = [(0.0, 0_usize, 0_usize); BINS.len()];
        for _ in 0..DRAWN {
            let leaves = if coarse {
                Leaves::coarse(&mut rng)
            } else {
                Leaves::metric(&mut rng)
            };
            let (mut asked, planted) = drawn(&mut rng, population, &leaves);
            asked.prior = Prior::new(0.3).unwrap();
            let found = diagnose(&asked).unwrap();
            let best = found.causes.first().unwrap();
            let (said, stated) = if best.posterior > found.nothing_special {
                (Some(best.cause), best.posterior)
            } else {
                (None, found.nothing_special)
            };
            if let Some(bin) = BINS.iter().rposition(|from| stated >= *from) {
                bins[bin].0 += stated;
                bins[bin].1 += 1;
                bins[bin].2 += usize::from(said == planted);
                if said.is_some() {
                    named.0 += stated;
                    named.1 += 1;
                    named.2 += usize::from(said == planted);
                }
            }
        }
        let mut line = format!("{:<20}", format!("{population:?}"));
        for (stated, answers, right) in bins.into_iter().filter(|bin| bin.1 > 0) {
            let of = |x: f64| x / answers as f64;
            let (stated, right) = (of(stated), of(right as f64));
            let _ = write!(line, "  {stated:.2} -> {right:.2} ({answers})");
        }
        let (stated, answers, right) = named;
        let of = |x: f64| x / answers as f64;
        let (stated, right) = (of(stated), of(right as f64));
        println!("{line}  faults {stated:.2} -> {right:.2} ({answers})");
        assert!(
            answers >= FEWEST && right >= stated - SLACK,
            "{population:?}: {right:.2} right of {answers} faults stated with {stated:.2}"
        );
    }
}
