//! The head's bolts: whether they are to be tightened, in which order, with what on the wrench, and what that
//! does to the valve clearances.

mod advise;
mod answer;
pub(super) mod sheet;

pub use answer::HeadReport;

use super::place::{ConditionPlace, HeadField};
use crate::condition::head::{
    Adapter, Bolt, HeadError, Preload, RockerPivot, Scatter, Wrench, check_order,
    lash_after_settling, sequence, torques_agree,
};
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Standing, WorkAdvice};
use crate::quantity::{Length, Torque};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Where the head's bolts stand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub enum HeadBolts {
    /// Nothing is said.
    #[default]
    NotStated,
    /// As the book asks, and not touched since the valves were measured.
    Settled,
    /// To be tightened.
    Due,
    /// Tightened after the valves were measured.
    TightenedSince,
}

/// What is known of the head's bolts.
///
/// ```
/// use lashwork::job::condition::{Head, HeadBolts};
/// let mut asked = Head::default();
/// asked.stand = HeadBolts::Due;
/// assert!(asked.torque.is_none());
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Head {
    /// Where they stand.
    pub stand: HeadBolts,
    /// The bolts and where they stand on the head.
    pub bolts: Vec<Bolt>,
    /// The maker's order, by name.
    pub order: Vec<String>,
    /// The printed torque.
    pub torque: Option<Torque>,
    /// The same printed once more, in another unit or another book.
    pub also_printed: Option<Torque>,
    /// The unit in which torques are said.
    pub unit: TorqueUnit,
    /// The wrench.
    pub wrench: Option<Wrench>,
    /// What is between the wrench and the bolt.
    pub adapter: Option<Adapter>,
    /// What is known of a bolt, for the force along it.
    pub bolt: Option<BoltForce>,
    /// How far the head goes down, and how the rockers stand on it.
    pub settling: Option<(Length, RockerPivot)>,
}

/// What the force along a bolt follows from.
///
/// ```
/// use lashwork::condition::head::{Scatter, Tightening};
/// use lashwork::job::condition::BoltForce;
/// use lashwork::quantity::Length;
/// let bolt = BoltForce {
///     diameter: Length::from_mm(10.0)?, nut_factor: 0.15, scatter: Scatter::of(Tightening::OiledTorque),
/// };
/// assert_eq!(bolt.nut_factor, 0.15);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoltForce {
    /// Nominal diameter.
    pub diameter: Length,
    /// Torque over force and diameter.
    pub nut_factor: f64,
    /// How far the force scatters.
    pub scatter: Scatter,
}

/// The unit in which torques are said.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub enum TorqueUnit {
    /// Newton metres.
    #[default]
    NewtonMetre,
    /// Kilogram-force metres.
    KilogramForceMetre,
    /// Pound-force feet.
    PoundFoot,
}

impl TorqueUnit {
    /// A torque in words.
    fn say(self, torque: Torque) -> String {
        let (symbol, decimals) = match self {
            Self::NewtonMetre => ("Nm", 1),
            Self::KilogramForceMetre => ("kgf m", 2),
            Self::PoundFoot => ("lbf ft", 1),
        };
        // Every unit here is one that a torque is read in.
        let one = Torque::from_number(1.0, symbol).map_or(1.0, Torque::newton_metres);
        format!("{:.decimals$} {symbol}", torque.newton_metres() / one)
    }
}

/// Works it out.
pub(super) fn report(
    asked: &Head,
    inches: bool,
    problems: &mut Vec<Problem>,
) -> Option<HeadReport> {
    let count = problems.len();
    let mut note = |field: HeadField, why: &HeadError| {
        problems.push(Problem::at(Place::Condition(at(field)), why));
    };
    let mut faults = Vec::new();
    let mut order = asked.order.clone();
    if !asked.bolts.is_empty() {
        match sequence(&asked.bolts) {
            Ok(found) if order.is_empty() => {
                order = found.iter().map(|bolt| bolt.name.clone()).collect();
            }
            Ok(_) => {
                let names: Vec<&str> = asked.order.iter().map(String::as_str).collect();
                match check_order(&asked.bolts, &names) {
                    Ok(found) => faults = found.iter().map(ToString::to_string).collect(),
                    Err(why) => note(HeadField::Order, &why),
                }
            }
            Err(why) => note(HeadField::Bolts, &why),
        }
    }
    let set = asked.torque.and_then(|torque| {
        let set = asked
            .adapter
            .map_or(Ok(torque), |adapter| adapter.set_for(torque));
        let set = set.map_err(|why| note(HeadField::Torque, &why)).ok()?;
        if let Some(wrench) = &asked.wrench
            && let Err(why) = wrench.leaves(set)
        {
            note(HeadField::Wrench, &why);
        }
        Some(set)
    });
    let agree = asked
        .torque
        .zip(asked.also_printed)
        .and_then(|(one, other)| {
            let found = torques_agree(one, other);
            found.map_err(|why| note(HeadField::AlsoPrinted, &why)).ok()
        });
    let force = asked.torque.zip(asked.bolt).and_then(|(torque, bolt)| {
        let found = Preload::of(torque, bolt.diameter, bolt.nut_factor, bolt.scatter);
        found.map_err(|why| note(HeadField::Bolt, &why)).ok()
    });
    let lash = asked.settling.and_then(|(down, pivot)| {
        let found = lash_after_settling(down, pivot);
        found.map_err(|why| note(HeadField::Settling, &why)).ok()
    });
    if problems.len() > count {
        return None;
    }
    let told = advise::Told {
        asked,
        order,
        faults,
        set,
        agree: agree.map(|(agree, _)| agree),
        force,
        lash,
        inches,
    };
    Some(told.report())
}

const fn at(field: HeadField) -> ConditionPlace {
    ConditionPlace::Head(field)
}

/// How far they are settled, for the order of work.
pub(super) fn standing(asked: &Head, found: &HeadReport) -> (Standing, String) {
    let is_open = !matches!(found.advice, WorkAdvice::Leave { .. });
    let standing = match asked.stand {
        HeadBolts::NotStated => Standing::NotKnown,
        HeadBolts::Due => Standing::NotSettled,
        HeadBolts::Settled | HeadBolts::TightenedSince if is_open => Standing::NotSettled,
        HeadBolts::Settled | HeadBolts::TightenedSince => Standing::Settled,
    };
    (standing, found.verdict_text.clone())
}

/// Why the valve clearances do not stand, if the head's bolts take them back.
pub(in crate::job) const fn takes_valves_back(stand: HeadBolts) -> Option<&'static str> {
    match stand {
        HeadBolts::Due => Some(
            "the head bolts are still to be tightened, which moves the clearances: tighten them first, then measure",
        ),
        HeadBolts::TightenedSince => Some(
            "the head bolts were tightened since the clearances were measured, which moves them: measure again",
        ),
        HeadBolts::NotStated | HeadBolts::Settled => None,
    }
}
