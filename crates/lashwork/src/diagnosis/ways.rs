//! Which ways could show in the readings at hand, and how probable each is before them.

use super::WrongStroke;
use super::evidence::{Evidence, Prior};
use super::fit::Fit;
use super::model::{TOGETHER, warmth_shift};
use super::reading_fault::{ReadingFault, Slip, Way, Whole};
use crate::quantity::LashChange;
use alloc::vec::Vec;

/// Every way that could show in these readings.
pub(super) fn ways(evidence: &Evidence, fit: &Fit, others: &[Fit]) -> Vec<Way> {
    let mut all = Vec::new();
    for slip in Slip::BOTH {
        all.extend(
            fit.closed(None)
                .map(|reading| Way::SlipOne { reading, slip }),
        );
        for inches in [true, false] {
            if fit.closed(Some(inches)).count() > 1 {
                all.push(Way::SlipAll { inches, slip });
            }
        }
    }
    all.extend([true, false].map(|wider| Way::SetAll { wider }));
    if !fit.model.kinds_alike() {
        all.push(Way::SwappedAll);
        let cylinders = fit.cylinders();
        if cylinders.len() > 1 {
            all.extend(cylinders.into_iter().map(Way::SwappedCylinder));
        }
    }
    let differs = |other: &Fit| {
        let (a, b) = (&fit.model, &other.model);
        a.intake != b.intake || a.exhaust != b.exhaust
    };
    let sources = others.iter().enumerate().filter(|(_, o)| differs(o));
    all.extend(sources.map(|(i, _)| Way::OtherSource(i + 1)));
    let seen = |out: &WrongStroke| {
        let mut readings = evidence.readings.iter();
        readings.any(|r| out.lifted.contains(&r.valve))
    };
    let turned = evidence.one_turn_out.iter().enumerate();
    let turned: Vec<(usize, &WrongStroke)> = turned.filter(|(_, out)| seen(out)).collect();
    all.extend(turned.iter().map(|(i, _)| Way::WrongStroke(*i)));
    let drifts_less = warmth_shift(evidence.warming).1 > fit.model.drift_mm;
    if drifts_less {
        all.push(Way::NotCold(LashChange::ZERO));
    }
    // Of what concerns the whole engine, two at once; a way that concerns a part of it, or odd valves beside
    // any other, shows all the same.
    let swapped = (!fit.model.kinds_alike()).then_some(Whole::Swapped);
    let everywhere = turned.iter().filter(|(_, out)| out.cylinder.is_none());
    let turned: Vec<Whole> = everywhere.map(|(i, _)| Whole::Turned(*i)).collect();
    let shifted = drifts_less.then_some(Whole::Shifted(LashChange::ZERO));
    let whole: Vec<Whole> = swapped.into_iter().chain(turned).chain(shifted).collect();
    for (i, first) in whole.iter().enumerate() {
        let rest = whole.iter().skip(i + 1);
        let two = rest.filter(|second| first.can_be_with(second));
        all.extend(two.map(|second| Way::Two([*first, *second])));
    }
    all.push(Way::Disarray);
    all
}

/// The probability of every way before the readings.
pub(super) fn priors(ways: &[Way], special: Prior) -> Vec<f64> {
    let of = |cause: ReadingFault| ways.iter().filter(|w| w.cause() == cause).count();
    let causes = ReadingFault::ALL.into_iter().filter(|c| of(*c) > 0).count();
    let share = special.value() / causes as f64;
    let alone = |way: &Way| share / of(way.cause()) as f64;
    // Never more probable than either part: of two that explain the readings as well as one, one is enough.
    let two = |parts: &[Whole; 2]| -> f64 {
        let each = parts.iter().map(|part| alone(&part.way()));
        each.product()
    };
    let twos: f64 = ways
        .iter()
        .filter_map(|way| match way {
            Way::Two(parts) => Some(two(parts)),
            _ => None,
        })
        .sum();
    // Where faults are all but certain, half of the share is left for what is not weighed.
    let times = TOGETHER.min(0.5 * share / twos.max(f64::MIN_POSITIVE));
    let each = ways.iter().map(|way| match way {
        Way::Two(parts) => times * two(parts),
        Way::Disarray => share - times * twos,
        other => alone(other),
    });
    each.collect()
}
