//! What may be the matter with leads and distributor, each with what it does to the sparks.
//!
//! # Source
//! Geometry of rotation. Which faults are weighed, and their shares, are this library's choice.

use super::wiring::Wiring;
use super::{Delivery, LeadCheck, LeadError};
use crate::engine::{CylinderIndex, Engine};
use alloc::vec::Vec;
use serde::Serialize;

/// Teeth out that are weighed, with their shares of that fault: the next one is the usual slip.
const TEETH: [(i16, f64); 6] = [
    (1, 7.0),
    (-1, 7.0),
    (2, 2.0),
    (-2, 2.0),
    (3, 1.0),
    (-3, 1.0),
];
/// How much likelier leads are one tower along than any other number. This library's choice.
const ONE_TOWER: f64 = 4.0;

/// A kind of fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum LeadFault {
    /// None.
    AsItShould,
    /// The distributor is in by a wrong tooth.
    TeethOut,
    /// The distributor is in half a turn out: the crank stood one turn out when it went in.
    HalfTurnOut,
    /// Two leads are exchanged.
    TwoExchanged,
    /// All leads are so many towers along.
    AllShifted,
    /// The leads follow the order against the rotor's sense.
    AgainstRotor,
    /// The leads follow another firing order.
    OtherOrder,
    /// Distributor and leads are both along by as many towers: the engine runs right, the marks do not fit.
    MovedToSuit,
    /// Something that is not weighed here, or more than one of these.
    SomethingElse,
}

impl LeadFault {
    /// A short name.
    #[must_use]
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::AsItShould => "as it should",
            Self::TeethOut => "teeth out",
            Self::HalfTurnOut => "half a turn out",
            Self::TwoExchanged => "two leads exchanged",
            Self::AllShifted => "all leads shifted",
            Self::AgainstRotor => "leads against the rotor",
            Self::OtherOrder => "another order",
            Self::MovedToSuit => "moved to suit",
            Self::SomethingElse => "something else",
        }
    }
}

/// The shares of belief in each kind of fault before anything is found; several states of one kind share
/// its own.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::ignition::leads::{LeadFault, LeadPriors};
/// let usual = LeadPriors::assumed();
/// assert_eq!(usual.percent(LeadFault::AsItShould), 55.0);
/// // After somebody had the distributor out.
/// let out = usual.with(LeadFault::HalfTurnOut, 40.0)?.with(LeadFault::TeethOut, 30.0)?;
/// assert_eq!(out.percent(LeadFault::HalfTurnOut), 40.0);
/// assert_eq!(usual.with(LeadFault::TeethOut, -1.0).unwrap_err().code(), "ignition.prior");
/// # Ok::<(), lashwork::ignition::leads::LeadError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(transparent)]
pub struct LeadPriors([(LeadFault, f64); 9]);

impl LeadPriors {
    /// This library's choice, to be listed as an assumption.
    #[must_use]
    pub const fn assumed() -> Self {
        Self([
            (LeadFault::AsItShould, 55.0),
            (LeadFault::TeethOut, 10.0),
            (LeadFault::HalfTurnOut, 10.0),
            (LeadFault::TwoExchanged, 10.0),
            (LeadFault::AllShifted, 5.0),
            (LeadFault::AgainstRotor, 3.0),
            (LeadFault::OtherOrder, 2.0),
            (LeadFault::MovedToSuit, 3.0),
            (LeadFault::SomethingElse, 2.0),
        ])
    }

    /// With another share of one kind; only the shares against each other matter.
    ///
    /// # Errors
    /// [`LeadError::Prior`] if negative or not finite, or if none of belief is left.
    pub fn with(mut self, fault: LeadFault, percent: f64) -> Result<Self, LeadError> {
        for (kind, share) in &mut self.0 {
            if *kind == fault {
                *share = percent;
            }
        }
        let all: f64 = self.0.iter().map(|(_, share)| share).sum();
        if percent >= 0.0 && all > 0.0 && all.is_finite() {
            Ok(self)
        } else {
            Err(LeadError::Prior {
                fault: fault.name(),
                got: percent,
            })
        }
    }

    /// The share of one kind.
    #[must_use]
    pub fn percent(&self, fault: LeadFault) -> f64 {
        let found = self.0.iter().find(|(kind, _)| *kind == fault);
        found.map_or(0.0, |(_, percent)| *percent)
    }
}

/// One way in which things may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LeadState {
    /// As it should be.
    AsItShould,
    /// The rotor is so many teeth ahead of its place, behind it if negative.
    TeethOut {
        /// How many.
        ahead: i16,
    },
    /// Half a turn of the distributor out.
    HalfTurnOut,
    /// The leads of two cylinders are exchanged.
    TwoExchanged {
        /// One of them.
        first: CylinderIndex,
        /// The other.
        second: CylinderIndex,
    },
    /// Every lead is so many towers further along in the rotor's sense than its own.
    AllShifted {
        /// How many.
        towers: usize,
    },
    /// The leads follow the order against the rotor's sense.
    AgainstRotor,
    /// The leads follow a listed order.
    OtherOrder {
        /// Its place in the list, from 0.
        listed: usize,
    },
    /// The rotor is so many towers ahead and so are the leads.
    MovedToSuit {
        /// How many.
        towers: usize,
    },
    /// Something else.
    SomethingElse,
}

impl LeadState {
    /// Its kind.
    ///
    /// ```
    /// use lashwork::ignition::leads::{LeadFault, LeadState};
    /// assert_eq!(LeadState::TeethOut { ahead: -1 }.fault(), LeadFault::TeethOut);
    /// ```
    #[must_use]
    pub const fn fault(&self) -> LeadFault {
        match self {
            Self::AsItShould => LeadFault::AsItShould,
            Self::TeethOut { .. } => LeadFault::TeethOut,
            Self::HalfTurnOut => LeadFault::HalfTurnOut,
            Self::TwoExchanged { .. } => LeadFault::TwoExchanged,
            Self::AllShifted { .. } => LeadFault::AllShifted,
            Self::AgainstRotor => LeadFault::AgainstRotor,
            Self::OtherOrder { .. } => LeadFault::OtherOrder,
            Self::MovedToSuit { .. } => LeadFault::MovedToSuit,
            Self::SomethingElse => LeadFault::SomethingElse,
        }
    }
}

/// A state with its prior and what it does.
pub(super) struct Candidate {
    pub(super) state: LeadState,
    pub(super) prior: f64,
    /// None for something else: anything may be found.
    pub(super) wiring: Option<Wiring>,
}

/// Every state that is weighed.
pub(super) fn candidates(
    engine: &Engine,
    check: &LeadCheck,
    priors: &LeadPriors,
) -> Vec<Candidate> {
    let count = engine.order().len();
    let right = Wiring::right(engine, check.delivery);
    let with = |ahead: f64, leads: Vec<usize>| Some(right.with(ahead, leads));
    let own = || (0..count).collect::<Vec<usize>>();
    let along = |towers: usize| {
        (0..count)
            .map(|tower| (tower + count - towers) % count)
            .collect()
    };
    let mut found: Vec<(LeadState, f64, Option<Wiring>)> =
        alloc::vec![(LeadState::AsItShould, 1.0, with(0.0, own()))];
    if let Delivery::Distributor { teeth } = check.delivery {
        if let Some(teeth) = teeth {
            for (ahead, share) in TEETH {
                let angle = f64::from(ahead) * 360.0 / f64::from(teeth);
                if angle.abs() < 180.0 - 1e-9 {
                    found.push((LeadState::TeethOut { ahead }, share, with(angle, own())));
                }
            }
        }
        found.push((LeadState::HalfTurnOut, 1.0, with(180.0, own())));
        for towers in 1..count {
            if let Some(angle) = right.turned_onto_itself(towers) {
                let share = if towers == 1 || towers == count - 1 {
                    ONE_TOWER
                } else {
                    1.0
                };
                let state = LeadState::MovedToSuit { towers };
                found.push((state, share, with(angle, along(towers))));
            }
        }
    }
    for first in 0..count {
        for second in first + 1..count {
            // Both ends of a coil are one.
            if right.share_a_coil(first, second) {
                continue;
            }
            let mut leads = own();
            leads.swap(first, second);
            let at = |place: usize| engine.order().get(place).copied();
            if let Some((first, second)) = at(first).zip(at(second)) {
                let state = LeadState::TwoExchanged { first, second };
                found.push((state, 1.0, with(0.0, leads)));
            }
        }
    }
    if count > 2 {
        for towers in 1..count {
            let share = if towers == 1 || towers == count - 1 {
                ONE_TOWER
            } else {
                1.0
            };
            let wiring = right.with(0.0, along(towers));
            // On coils a whole turn of the crank along is no shift.
            if !wiring.same_as(&right) {
                found.push((LeadState::AllShifted { towers }, share, Some(wiring)));
            }
        }
        let leads = (0..count).map(|tower| (count - tower) % count).collect();
        let wiring = right.with(0.0, leads);
        if check.delivery != Delivery::DoubleEndedCoils && !wiring.same_as(&right) {
            found.push((LeadState::AgainstRotor, 1.0, Some(wiring)));
        }
    }
    for listed in 0..check.also_orders.len() {
        if let Some(leads) = check.other_order(engine, listed) {
            found.push((LeadState::OtherOrder { listed }, 1.0, with(0.0, leads)));
        }
    }
    found.push((LeadState::SomethingElse, 1.0, None));
    shared(found, priors)
}

/// Each state's part of the share of its kind, all together one.
fn shared(found: Vec<(LeadState, f64, Option<Wiring>)>, priors: &LeadPriors) -> Vec<Candidate> {
    let of_kind = |kind: LeadFault| -> f64 {
        let own = found.iter().filter(|(state, ..)| state.fault() == kind);
        own.map(|(_, share, _)| share).sum()
    };
    let prior = |(state, share, _): &(LeadState, f64, Option<Wiring>)| {
        let kind = state.fault();
        priors.percent(kind) * share / of_kind(kind)
    };
    let each: Vec<f64> = found.iter().map(prior).collect();
    let all: f64 = each.iter().sum();
    found
        .into_iter()
        .zip(each)
        .map(|((state, _, wiring), prior)| Candidate {
            state,
            prior: prior / all,
            wiring,
        })
        .collect()
}
