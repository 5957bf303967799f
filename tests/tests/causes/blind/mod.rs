//! Engines that were drawn without a look at how the kernel weighs causes: old engines that come to a service,
//! with none to three faults, whose readings follow from gas dynamics, chemistry and wear, and are taken by a
//! mechanic with scatter and gaps. Each goes through the kernel as a whole document.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a test stops at the first thing it does not expect"
)]

mod chance;
mod document;
mod engine;
mod lash;
mod mechanic;
mod physics;
mod plausible;
mod running;

use fastrand::Rng;
use lashwork::causes::Cause;

/// What the mechanic takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Taken {
    /// What a service usually reads: a third to two thirds of the kinds are missing.
    Usual,
    /// Everything.
    Everything,
}

/// One drawn engine and what the kernel stated of it.
pub(super) struct Stated {
    pub faults: Vec<Cause>,
    /// Causes that the report lists, with their probability.
    pub causes: Vec<(Cause, f64)>,
    /// That nothing is the matter.
    pub nothing: f64,
}

impl Stated {
    /// Every cause, what was stated of it, and whether it is there; those not listed with 0.
    pub(super) fn pairs(&self) -> impl Iterator<Item = (Cause, f64, bool)> + '_ {
        engine::every_cause().map(|cause| {
            let own = self.causes.iter().find(|(listed, _)| *listed == cause);
            let stated = own.map_or(0.0, |(_, probability)| *probability);
            (cause, stated, self.faults.contains(&cause))
        })
    }

    /// Whether the engine is sound and some cause is called more likely than not.
    pub(super) fn false_alarm(&self) -> bool {
        self.faults.is_empty() && self.causes.iter().any(|(_, stated)| *stated > 0.5)
    }
}

/// Draws `n` engines from a seed and lets the kernel judge each.
pub(super) fn stated(n: usize, taken: Taken, seed: u64) -> Vec<Stated> {
    let mut rng = Rng::with_seed(seed);
    (0..n)
        .map(|_| document::judged(Rng::with_seed(rng.u64(..)), taken))
        .collect()
}

/// Bands of stated probability.
pub(super) const BANDS: [(f64, f64); 6] = [
    (0.02, 0.1),
    (0.1, 0.3),
    (0.3, 0.5),
    (0.5, 0.7),
    (0.7, 0.9),
    (0.9, 1.01),
];

/// Of a band: how many, the mean of what was stated, and how many of them are there.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Band {
    pub count: usize,
    pub stated: f64,
    pub there: usize,
}

/// What was stated against what was there, by band.
pub(super) fn by_band(pairs: impl Iterator<Item = (f64, bool)>) -> [Band; 6] {
    let mut bands = [Band::default(); 6];
    for (stated, there) in pairs {
        let at = BANDS
            .iter()
            .position(|(from, to)| stated >= *from && stated < *to);
        if let Some(at) = at {
            bands[at].count += 1;
            bands[at].stated += stated;
            bands[at].there += usize::from(there);
        }
    }
    bands
}

fn print(title: &str, bands: &[Band; 6]) {
    println!("{title}");
    for (band, (from, to)) in bands.iter().zip(BANDS) {
        let n = band.count.max(1) as f64;
        println!(
            "  {from:.2}-{to:.2}: {:6} stated {:.3} there {:.3}",
            band.count,
            band.stated / n,
            band.there as f64 / n
        );
    }
}

/// Prints the tables: `cargo test -p lashwork-tests --test quantities blind -- --ignored --nocapture`.
#[test]
#[ignore = "prints tables and takes long"]
fn blind_tables() {
    let n = std::env::var("LASHWORK_ENGINES").map_or(1000, |own| own.parse().unwrap());
    for taken in [Taken::Usual, Taken::Everything] {
        let all = stated(n, taken, 0x0b11_4d00);
        let faulty = |k: usize| all.iter().filter(|own| own.faults.len() == k).count();
        println!(
            "{taken:?}, {n} engines: faults 0/1/2/3/4 {:?}",
            [0, 1, 2, 3, 4].map(faulty)
        );
        let pairs: Vec<_> = all.iter().flat_map(Stated::pairs).collect();
        print(
            "all causes",
            &by_band(pairs.iter().map(|&(_, p, is)| (p, is))),
        );
        for cause in engine::every_cause() {
            let own: Vec<_> = pairs.iter().filter(|(of, ..)| *of == cause).collect();
            let there = own.iter().filter(|own| own.2).count();
            let below = own.iter().filter(|own| own.1 < 0.02);
            let missed = below.clone().filter(|own| own.2).count();
            print(
                &format!(
                    "{cause:?}: there {there}, not listed {} of which there {missed}",
                    below.count()
                ),
                &by_band(own.iter().map(|own| (own.1, own.2))),
            );
        }
        let sound = faulty(0).max(1) as f64;
        let alarms = all.iter().filter(|own| own.false_alarm()).count() as f64;
        let nothing = all.iter().map(|own| own.nothing).sum::<f64>() / n as f64;
        println!("false alarms {:.4} of sound engines", alarms / sound);
        println!(
            "nothing: stated {nothing:.3}, met {:.3}",
            faulty(0) as f64 / n as f64
        );
    }
}

/// Every document of a drawn engine is taken, and something is said of each.
#[test]
fn blind_documents_are_taken() {
    for taken in [Taken::Usual, Taken::Everything] {
        let all = stated(10, taken, 0x0b11_4d01);
        assert!(all.iter().all(|own| (0.0..=1.0).contains(&own.nothing)));
        let pairs = all.iter().flat_map(Stated::pairs);
        let called = by_band(pairs.map(|(_, stated, there)| (stated, there)));
        assert!(called.iter().map(|band| band.count).sum::<usize>() > 10);
    }
}
