//! Where a refusal of the balance belongs.

use super::cylinders::{Cylinders, OpeningKnown};
use crate::job::mixture::place::{BalanceField, BalanceWay, CylindersField};
use crate::mixture::balance::{BalanceCheck, BalanceError, Shown};

/// One of the linkage.
pub(super) const fn of_linkage(why: &BalanceError) -> BalanceField {
    use BalanceError as E;
    match why {
        E::Count { .. } => BalanceField::Throttles,
        E::NoReference | E::TwoReferences { .. } => BalanceField::Reference,
        E::JoinedToItself { joint } | E::Loop { joint, .. } => BalanceField::Joint(*joint),
        E::NoPath { .. } => BalanceField::Joints,
        _ => BalanceField::Section,
    }
}

/// One of what was read.
pub(super) fn of_readings<R: Shown>(
    why: &BalanceError,
    check: &BalanceCheck<R>,
    way: BalanceWay,
) -> BalanceField {
    use BalanceError as E;
    use BalanceField as F;
    let mut readings = check.readings.iter();
    let mut trials = check.trials.iter();
    match why {
        E::NoTurn { trial } => F::Trial(way, *trial),
        E::AgainstSense { joint } | E::NoSuchScrew { joint } => trials
            .position(|trial| trial.joint == *joint)
            .map_or(F::Trials(way), |trial| F::Trial(way, trial)),
        E::Allowed { .. } => F::Allowed(way),
        // The second of the two is the one too many.
        E::ReadTwice { throttle } => readings
            .rposition(|reading| reading.throttle == *throttle)
            .map_or(F::Readings(way), |reading| F::Reading(way, reading)),
        E::BeyondAmbient {
            throttle, shown, ..
        } => readings
            .enumerate()
            .filter(|(_, reading)| reading.throttle == *throttle)
            .find_map(|(i, reading)| {
                let is_it = |value: &R| value.number().to_bits() == shown.to_bits();
                Some(F::Shown(way, i, reading.shown.iter().position(is_it)?))
            })
            .unwrap_or(F::Readings(way)),
        E::NoSuchThrottle { .. } | E::NotRead { .. } | E::NoScatter | E::Nothing { .. } => {
            F::Readings(way)
        }
        _ => F::Section,
    }
}

/// One of what is known of openings and cylinders.
pub(super) fn of_cylinders(why: &BalanceError, asked: &Cylinders) -> BalanceField {
    use BalanceError as E;
    use CylindersField as F;
    let OpeningKnown::Flow(flows) = &asked.opening else {
        let is_its = |got: f64| {
            asked
                .matters_from
                .is_some_and(|own| own.to_bits() == got.to_bits())
        };
        return BalanceField::Cylinders(match why {
            E::Share { got } if is_its(*got) => F::MattersFrom,
            E::Share { .. } => F::SetAlike,
            _ => F::Section,
        });
    };
    let mut flows = flows.iter();
    BalanceField::Cylinders(match why {
        E::Share { .. } => F::MattersFrom,
        E::NotRead { .. } => F::Flows,
        // The second of two is the one too many.
        E::ReadTwice { throttle } => flows
            .rposition(|flow| flow.throttle == *throttle)
            .map_or(F::Flows, F::Flow),
        E::Nothing { throttle } => flows
            .position(|flow| flow.throttle == *throttle && flow.flow.kilograms_per_hour() <= 0.0)
            .map_or(F::Section, F::Flow),
        _ => F::Section,
    })
}
