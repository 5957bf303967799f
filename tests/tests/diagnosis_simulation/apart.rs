//! The probability stated for a valve that is to be measured once more, against the share that is odd.
//!
//! Half of the engines drawn have odd valves, one in ten each; three in a hundred do by the model, and each
//! engine counts by how much rarer or commoner it is there than here.

use crate::engines::{Leaves, PRINTED, Population, SIZES, draw, evidence, normal, of_kind};
use fastrand::Rng;
use lashwork::diagnosis::diagnose;
use lashwork::quantity::LengthUnit;
use std::fmt::Write as _;

const SEED: u64 = 0x0dd5;
/// Engines of a population.
const DRAWN: usize = 150;
/// Share of engines with odd valves: by the model, and as drawn.
const WITH_ODD: (f64, f64) = (0.03, 0.5);
/// Share of odd valves on them.
const ODD: f64 = 0.1;
/// Lower ends of the bins.
const BINS: [f64; 4] = [0.05, 0.1, 0.2, 0.4];

#[test]
fn a_valve_to_measure_again_is_as_often_odd_as_stated() {
    let mut rng = Rng::with_seed(SEED);
    println!("population            stated -> odd (valves, weighted)");
    let (mut stated, mut right) = (0.0, 0.0);
    for population in [
        Population::Model,
        Population::Flat,
        Population::Worn,
        Population::LogNormal(10, 0),
        Population::LogNormal(18, 0),
    ] {
        let mut bins = [(0.0, 0.0, 0.0); BINS.len()];
        for i in 0..DRAWN {
            let printed = PRINTED[i % PRINTED.len()];
            let cylinders = SIZES[rng.usize(..SIZES.len())];
            let mut drawn = draw(&mut rng, population, printed, cylinders);
            let has_odd = rng.f64() < WITH_ODD.1;
            let mut is_odd = vec![false; drawn.lashes.len()];
            for (is_odd, (valve, lash)) in is_odd.iter_mut().zip(&mut drawn.lashes) {
                if has_odd && rng.f64() < ODD {
                    *is_odd = true;
                    let set = of_kind(printed, valve.kind).0;
                    *lash = (set + set.max(0.2) * normal(&mut rng)).max(0.0);
                }
            }
            let leaves = Leaves::metric(&mut rng);
            let said = diagnose(&evidence(&drawn, &leaves, LengthUnit::Millimetre)).unwrap();
            let (rare, drawn) = WITH_ODD;
            let weight = if has_odd {
                rare / drawn
            } else {
                (1.0 - rare) / (1.0 - drawn)
            };
            for apart in &said.apart {
                let odd = if is_odd[apart.valve.reading] {
                    weight
                } else {
                    0.0
                };
                if let Some(bin) = BINS.iter().rposition(|from| apart.chance >= *from) {
                    bins[bin].0 += weight * apart.chance;
                    bins[bin].1 += odd;
                    bins[bin].2 += weight;
                }
            }
        }
        let mut line = format!("{:<20}", format!("{population:?}"));
        for (sum, odd, weight) in bins.into_iter().filter(|bin| bin.2 > 0.0) {
            let _ = write!(
                line,
                "  {:.2} -> {:.2} ({weight:.2})",
                sum / weight,
                odd / weight
            );
            (stated, right) = (stated + sum, right + odd);
        }
        println!("{line}");
    }
    println!("all: {stated:.2} stated, {right:.2} odd");
    assert!(
        stated > 0.0 && right > 0.7 * stated,
        "{right:.2} odd of {stated:.2}"
    );
}
