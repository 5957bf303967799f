//! The next gap after locking against quadrature at 30 digits and scipy's Student t
//! (data: `tests/oracles/locking.json`).

use lashwork::adjust::{LockNut, LockingPair};
use lashwork::quantity::Lash;
use lashwork_tests::values::{band, u};
use lashwork_tests::{Differences, number, numbers, oracle, text};

/// What the kernel promises of the chances.
const CHANCE: f64 = 1e-11;

#[test]
fn mean_spread_and_chances_of_the_next_locking() {
    let mut differences = Differences::default();
    let zero = Lash::from_mm(0.0).unwrap();
    let half = Lash::from_mm(0.5).unwrap();
    for case in oracle("locking") {
        let place = |what: &str| format!("{} {what}", text(&case, "id"));
        let pairs: Vec<LockingPair> = numbers(&case, "shifts_mm")
            .iter()
            .map(|shift| {
                // A gap is never below zero, so closing shifts start higher.
                let before = if *shift < 0.0 { half } else { zero };
                let after = Lash::from_mm(before.mm() + shift).unwrap();
                LockingPair { before, after }
            })
            .collect();
        let nut = LockNut::learn(&pairs, u(number(&case, "gap_u_mm"))).unwrap();
        let set = Lash::from_mm(number(&case, "set_mm")).unwrap();
        let next = nut.after(set, u(number(&case, "extra_u_mm"))).unwrap();
        let low = format!("{} mm", text(&case, "low_mm"));
        let high = format!("{} mm", text(&case, "high_mm"));
        let p = next.probabilities(&band(&low, &high));
        let want = |name: &str| number(&case, name);
        let mm = 1e-15;
        differences.compare(
            &place("mean"),
            nut.mean().unwrap().mm(),
            want("mean_mm"),
            mm,
            1e-12,
        );
        differences.compare(
            &place("spread"),
            nut.spread().unwrap().mm(),
            want("spread_mm"),
            mm,
            1e-11,
        );
        let width = nut.half_width(0.95).unwrap().mm();
        differences.compare(&place("width"), width, want("half_width_95_mm"), mm, 1e-10);
        for (what, chance) in [
            ("below", p.below),
            ("in_band", p.in_band),
            ("above", p.above),
        ] {
            differences.compare(&place(what), chance.least, want(what), CHANCE, 0.0);
            assert!(chance.least.to_bits() == chance.most.to_bits());
        }
    }
    differences.settle();
}
