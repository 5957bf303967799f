//! What is asked, and whether it can be.

use super::{LeadPriors, Look};
use crate::Refusal;
use crate::engine::{CylinderIndex, CylinderLabel, Engine};
use alloc::borrow::Cow;
use alloc::vec::Vec;
use core::fmt;
use serde::Serialize;

/// How sparks get to the plugs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Delivery {
    /// By a rotor under a cap, a tower for each cylinder.
    Distributor {
        /// Teeth of the gear on its shaft, if they were counted.
        teeth: Option<u16>,
    },
    /// By coils with two ends: both cylinders of a pair, which fire a turn apart, get each spark.
    DoubleEndedCoils,
}

/// The chance that one look is misread: above 0 and below one half.
///
/// ```
/// use lashwork::ignition::leads::MisreadChance;
/// assert_eq!(MisreadChance::new(0.02)?.get(), 0.02);
/// assert!(MisreadChance::new(0.5).is_err() && MisreadChance::new(f64::NAN).is_err());
/// # Ok::<(), lashwork::ignition::leads::LeadError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(transparent)]
pub struct MisreadChance(f64);

impl MisreadChance {
    /// Takes a chance.
    ///
    /// # Errors
    /// [`LeadError::Misread`] unless above 0 and below one half.
    pub fn new(chance: f64) -> Result<Self, LeadError> {
        if chance > 0.0 && chance < 0.5 {
            Ok(Self(chance))
        } else {
            Err(LeadError::Misread { got: chance })
        }
    }

    /// Three looks in a hundred, for when none is stated. This library's choice, to be listed as an
    /// assumption.
    #[must_use]
    pub const fn assumed() -> Self {
        Self(0.03)
    }

    /// The chance.
    #[must_use]
    pub const fn get(self) -> f64 {
        self.0
    }
}

/// What is asked: the engine's sparks and what was found of them.
#[derive(Clone, Debug, PartialEq)]
pub struct LeadCheck {
    /// How sparks get to the plugs.
    pub delivery: Delivery,
    /// What was found.
    pub looks: Vec<Look>,
    /// Firing orders somebody may have had in mind instead.
    pub also_orders: Vec<Vec<CylinderLabel>>,
    /// The chance of a wrong look; [`MisreadChance::assumed`] if not stated.
    pub misread: Option<MisreadChance>,
    /// The shares of belief before anything was found; [`LeadPriors::assumed`] if not stated.
    pub priors: Option<LeadPriors>,
}

/// What was taken for granted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum LeadAssumption {
    /// The chance of a wrong look was not stated.
    MisreadAssumed,
    /// The shares of belief were not stated.
    PriorsAssumed,
    /// The teeth of the drive gear were not stated.
    TeethNotStated,
}

impl LeadAssumption {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::ignition::leads::LeadAssumption;
    /// assert_eq!(LeadAssumption::TeethNotStated.code(), "ignition.teeth-not-stated");
    /// ```
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::MisreadAssumed => "ignition.misread-assumed",
            Self::PriorsAssumed => "ignition.priors-assumed",
            Self::TeethNotStated => "ignition.teeth-not-stated",
        }
    }
}

impl fmt::Display for LeadAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::MisreadAssumed => "three looks in a hundred are taken to be misread",
            Self::PriorsAssumed => {
                "how often each fault is met is taken from this library's list, not from a source"
            }
            Self::TeethNotStated => {
                "the teeth of the drive gear are not stated, so a distributor a few teeth out is weighed only \
                 as something else"
            }
        })
    }
}

/// Why leads cannot be weighed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LeadError {
    /// One cylinder, one lead.
    #[error("an engine with {got} cylinder has no leads to mix up")]
    OneCylinder {
        /// How many it has.
        got: usize,
    },
    /// A chance of a wrong look at which nothing follows from one.
    #[error("a chance of a wrong look of {got} is not above 0 and below 0.5")]
    Misread {
        /// The refused chance.
        got: f64,
    },
    /// Shares of belief that are none.
    #[error(
        "{got} as the share of belief in {fault} is negative or not finite, or all shares are nought"
    )]
    Prior {
        /// The fault's name.
        fault: &'static str,
        /// The refused share.
        got: f64,
    },
    /// A gear with too few teeth.
    #[error("a drive gear with {got} teeth is none")]
    Teeth {
        /// The refused number.
        got: u16,
    },
    /// Coils with two ends need pairs.
    #[error(
        "cylinder {cylinder} has none that fires a turn away, so no coil with two ends serves it"
    )]
    NoPair {
        /// Its name.
        cylinder: CylinderLabel,
    },
    /// A look at a cylinder the engine does not have.
    #[error("look {} is at no cylinder of the engine", .look + 1)]
    NoSuchCylinder {
        /// Its place in the list, from 0.
        look: usize,
    },
    /// A look at a tower the cap does not have.
    #[error("look {} is at tower {tower}, counted from 0, of a cap with {towers}", .look + 1)]
    NoSuchTower {
        /// Its place in the list, from 0.
        look: usize,
        /// The tower.
        tower: usize,
        /// How many there are.
        towers: usize,
    },
    /// A look at a rotor where there is none.
    #[error("look {} is at a rotor, and coils with two ends have none", .look + 1)]
    NoRotor {
        /// Its place in the list, from 0.
        look: usize,
    },
    /// Two looks of which one must be wrong: a lead in two towers, or two in one.
    #[error("looks {} and {} put one lead in two towers, or two in one", .first + 1, .second + 1)]
    Contradiction {
        /// The place of one in the list, from 0.
        first: usize,
        /// The place of the other.
        second: usize,
    },
    /// Another firing order that names not just the engine's cylinders, each once.
    #[error("other firing order {} does not name each cylinder of the engine once", .order + 1)]
    Order {
        /// Its place in the list, from 0.
        order: usize,
    },
    /// Another firing order that is none.
    #[error(
        "other firing order {} is the engine's own, or listed before, only started from another cylinder",
        .order + 1
    )]
    SameOrder {
        /// Its place in the list, from 0.
        order: usize,
    },
}

impl Refusal for LeadError {
    fn code(&self) -> &'static str {
        match self {
            Self::OneCylinder { .. } => "ignition.one-cylinder",
            Self::Misread { .. } => "ignition.misread",
            Self::Prior { .. } => "ignition.prior",
            Self::Teeth { .. } => "ignition.teeth",
            Self::NoPair { .. } => "ignition.no-pair",
            Self::NoSuchCylinder { .. } => "ignition.no-such-cylinder",
            Self::NoSuchTower { .. } => "ignition.no-such-tower",
            Self::NoRotor { .. } => "ignition.no-rotor",
            Self::Contradiction { .. } => "ignition.lead-twice",
            Self::Order { .. } => "ignition.other-order",
            Self::SameOrder { .. } => "ignition.same-order",
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::OneCylinder { .. } => "check its timing alone",
            Self::Misread { .. } => "give a chance such as 0.03: three looks in a hundred",
            Self::Prior { .. } => {
                "give shares of zero or more, such as per cent, not all of them zero"
            }
            Self::Teeth { .. } => {
                "count the teeth of the gear on the distributor's shaft, or leave it out"
            }
            Self::NoPair { .. } => {
                "describe the delivery as it is: with a distributor, or a coil for each cylinder"
            }
            Self::NoSuchCylinder { .. } => "check the cylinder's name",
            Self::NoSuchTower { .. } => {
                "count towers from 0 at the first cylinder's, in the rotor's sense"
            }
            Self::NoRotor { .. } => "look at the leads, or with a lamp at the sparks",
            Self::Contradiction { .. } => {
                "follow both leads again, from tower to plug, and correct the look"
            }
            Self::Order { .. } => "list the cylinders as the engine names them, each once",
            Self::SameOrder { .. } => "list only orders that differ",
        })
    }
}

impl LeadCheck {
    /// Every problem of what is asked, before anything is weighed.
    pub(super) fn problems(&self, engine: &Engine) -> Vec<LeadError> {
        let count = engine.order().len();
        let mut found = Vec::new();
        if count < 2 {
            return alloc::vec![LeadError::OneCylinder { got: count }];
        }
        let coils = self.delivery == Delivery::DoubleEndedCoils;
        if let Delivery::Distributor { teeth: Some(got) } = self.delivery
            && got < 3
        {
            found.push(LeadError::Teeth { got });
        }
        if coils
            && let Some(lone) = engine.indices().find(|i| engine.companion(*i).is_none())
            && let Some(cylinder) = engine.cylinder(lone)
        {
            found.push(LeadError::NoPair {
                cylinder: cylinder.label.clone(),
            });
        }
        for (look, seen) in self.looks.iter().enumerate() {
            let tower = match seen {
                Look::Rotor { .. } if coils => {
                    found.push(LeadError::NoRotor { look });
                    None
                }
                other => other.tower(),
            };
            if let Some(tower) = tower.filter(|tower| *tower >= count) {
                found.push(LeadError::NoSuchTower {
                    look,
                    tower,
                    towers: count,
                });
            }
            if seen
                .cylinder()
                .is_some_and(|i| engine.cylinder(i).is_none())
            {
                found.push(LeadError::NoSuchCylinder { look });
            }
        }
        found.extend(self.contradictions());
        found.extend(self.wrong_orders(engine));
        found
    }

    fn contradictions(&self) -> impl Iterator<Item = LeadError> {
        let leads = |(at, look): (usize, &Look)| match look {
            Look::Lead { tower, cylinder } => Some((at, *tower, *cylinder)),
            _ => None,
        };
        let all: Vec<(usize, usize, CylinderIndex)> =
            self.looks.iter().enumerate().filter_map(leads).collect();
        let mut found = Vec::new();
        for (place, (first, tower, cylinder)) in all.iter().enumerate() {
            for (second, other, to) in all.iter().skip(place + 1) {
                if (tower == other) != (cylinder == to) {
                    found.push(LeadError::Contradiction {
                        first: *first,
                        second: *second,
                    });
                }
            }
        }
        found.into_iter()
    }

    fn wrong_orders(&self, engine: &Engine) -> Vec<LeadError> {
        let own: Vec<usize> = (0..engine.order().len()).collect();
        let mut known = alloc::vec![own.clone()];
        let mut found = Vec::new();
        for order in 0..self.also_orders.len() {
            match self.other_order(engine, order) {
                None => found.push(LeadError::Order { order }),
                Some(places) if known.contains(&places) => {
                    found.push(LeadError::SameOrder { order });
                }
                Some(places) => known.push(places),
            }
        }
        found
    }

    /// A listed order as places in the engine's own, begun with its first cylinder; none if it does not
    /// name each cylinder once.
    pub(super) fn other_order(&self, engine: &Engine, order: usize) -> Option<Vec<usize>> {
        let listed = self.also_orders.get(order)?;
        let place = |label: &CylinderLabel| {
            let index = engine.index_of(label)?;
            engine.order().iter().position(|i| *i == index)
        };
        let mut places: Vec<usize> = listed.iter().map(place).collect::<Option<_>>()?;
        let first = places.iter().position(|at| *at == 0)?;
        places.rotate_left(first);
        let mut sorted = places.clone();
        sorted.sort_unstable();
        let each_once = sorted.into_iter().eq(0..engine.order().len());
        each_once.then_some(places)
    }

    /// What had to be taken for granted.
    pub(super) fn assumptions(&self) -> Vec<LeadAssumption> {
        let mut found = Vec::new();
        if self.misread.is_none() {
            found.push(LeadAssumption::MisreadAssumed);
        }
        if self.priors.is_none() {
            found.push(LeadAssumption::PriorsAssumed);
        }
        if self.delivery == (Delivery::Distributor { teeth: None }) {
            found.push(LeadAssumption::TeethNotStated);
        }
        found
    }
}
