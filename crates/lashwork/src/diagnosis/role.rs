//! What a way makes of one reading.

use super::evidence::{Evidence, Seen};
use super::reading_fault::{Slip, Way};
use alloc::vec::Vec;

/// What a valve follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Follows {
    /// The set value of its kind.
    Own,
    /// That of the other kind.
    OtherKind,
    /// That of its kind, but its number slipped.
    Slipped(Slip),
    /// That of its kind, 2.54 times too wide or too tight.
    SetWrong { wider: bool },
}

/// One reading under a way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Role {
    pub(super) follows: Follows,
    /// Whether the valve was off its base circle.
    pub(super) lifted: bool,
}

impl Role {
    /// A valve of its kind.
    pub(super) const ORDINARY: Self = Self {
        follows: Follows::Own,
        lifted: false,
    };

    const fn following(follows: Follows) -> Self {
        Self {
            follows,
            lifted: false,
        }
    }

    /// Two things at once.
    fn and(self, other: Self) -> Self {
        Self {
            follows: if self.follows == Follows::Own {
                other.follows
            } else {
                self.follows
            },
            lifted: self.lifted || other.lifted,
        }
    }
}

/// What a way makes of every reading.
pub(super) fn roles(way: &Way, evidence: &Evidence) -> Vec<Role> {
    let readings = evidence.readings.iter().enumerate();
    readings
        .map(|(i, seen)| role(way, evidence, i, seen))
        .collect()
}

fn role(way: &Way, evidence: &Evidence, place: usize, seen: &Seen) -> Role {
    match way {
        Way::SlipOne { reading, slip } if *reading == place => {
            Role::following(Follows::Slipped(*slip))
        }
        Way::SlipAll { inches, slip } if seen.in_inches() == *inches => {
            Role::following(Follows::Slipped(*slip))
        }
        Way::SetAll { wider } => Role::following(Follows::SetWrong { wider: *wider }),
        Way::SwappedAll => Role::following(Follows::OtherKind),
        Way::SwappedCylinder(cylinder) if *cylinder == seen.valve.cylinder => {
            Role::following(Follows::OtherKind)
        }
        Way::WrongStroke(at) => Role {
            lifted: evidence
                .one_turn_out
                .get(*at)
                .is_some_and(|out| out.lifted.contains(&seen.valve)),
            ..Role::ORDINARY
        },
        Way::Two(parts) => {
            let each = parts.map(|part| role(&part.way(), evidence, place, seen));
            each.into_iter().fold(Role::ORDINARY, Role::and)
        }
        _ => Role::ORDINARY,
    }
}
