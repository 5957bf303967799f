//! Leads and distributor drive: which lead goes where, what is most probably wrong, and what to look at next.

mod advise;
mod answer;
pub(super) mod sheet;
mod words;

pub use answer::{LeadGroupReport, LeadStateReport, LeadsReport, NextLookReport};

use super::request::Distributor;
use super::{IgnitionPlace, LeadsField};
use crate::engine::CylinderLabel;
use crate::ignition::leads::{
    Delivery, LeadCheck, LeadError, LeadFault, LeadPriors, LeadVerdict, Look, MisreadChance,
};
use crate::job::assumptions::Assumptions;
use crate::job::known::Known;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Before, Standing};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use words::Words;

/// Explanations less probable than this are not told.
const TOLD: f64 = 0.01;
/// Most towers that are weighed: the states grow with their square. No cap in use has more.
/// Common practice, no source.
const MOST_TOWERS: usize = 28;

/// The leads: how sparks get to the plugs, and what was found of them.
///
/// ```
/// use lashwork::engine::Engine;
/// use lashwork::ignition::leads::Look;
/// use lashwork::job::ignition::Leads;
/// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).expect("an engine");
/// let mut asked = Leads::default();
/// asked.looks.push(Look::Lead { tower: 0, cylinder: engine.order()[0] });
/// assert!(asked.delivery.is_none() && asked.also_orders.is_empty());
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Leads {
    /// How sparks get to the plugs; a distributor whose teeth were not counted, and listed, if not stated.
    pub delivery: Option<Delivery>,
    /// What was found.
    pub looks: Vec<Look>,
    /// Firing orders somebody may have had in mind instead.
    pub also_orders: Vec<Vec<CylinderLabel>>,
    /// The chance of a wrong look; 0.03 is assumed, and listed, if not stated.
    pub misread: Option<MisreadChance>,
    /// How much each fault is believed in before anything is found; assumed, and listed, if not stated.
    pub priors: Option<LeadPriors>,
}

/// Works it out.
pub(super) fn report(
    asked: &Leads,
    known: Known<'_>,
    distributor: &Distributor,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<LeadsReport> {
    let engine = known.engine;
    let towers = engine.order().len();
    if towers > MOST_TOWERS {
        problems.push(Problem::new(
            Place::Ignition(IgnitionPlace::Leads(LeadsField::Section)),
            "ignition.too-many-towers",
            format!(
                "leads of {towers} cylinders are more than one cap carries, {MOST_TOWERS} at most"
            ),
            "ask for each distributor with its own cylinders",
        ));
        return None;
    }
    let delivery = asked.delivery.unwrap_or_else(|| {
        assumptions.add(
            "ignition.delivery",
            "how sparks get to the plugs is not stated: a distributor with a tower for each cylinder taken",
        );
        Delivery::Distributor { teeth: None }
    });
    let check = LeadCheck {
        delivery,
        looks: asked.looks.clone(),
        also_orders: asked.also_orders.clone(),
        misread: asked.misread,
        priors: asked.priors,
    };
    let answer = match check.weigh(engine) {
        Ok(answer) => answer,
        Err(refused) => {
            let noted = refused.iter().map(|why| Problem::at(place(why), why));
            problems.extend(noted);
            return None;
        }
    };
    assumptions.add_all(&answer.assumptions);
    let words = Words {
        engine,
        rotor: distributor.rotor,
        orders: &asked.also_orders,
    };
    let likely = answer.groups.iter().enumerate();
    let likely = likely.filter(|(at, group)| *at == 0 || group.probability >= TOLD);
    let explanations: Vec<LeadGroupReport> = likely.map(|(_, g)| words.group(g)).collect();
    let next = answer.next.map(|next| NextLookReport {
        text: words.look(next.at),
        bits: next.bits,
    });
    let advice = advise::advise(&answer, &words, next.as_ref(), before);
    let verdict_text = advise::verdict(answer.verdict, explanations.first());
    Some(LeadsReport {
        verdict: answer.verdict,
        verdict_text,
        explanations,
        next,
        advice,
    })
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &LeadsReport) -> (Standing, String) {
    let fault = found
        .explanations
        .first()
        .and_then(|group| group.states.first());
    let is_right = |fault| matches!(fault, LeadFault::AsItShould | LeadFault::MovedToSuit);
    let standing = match found.verdict {
        LeadVerdict::NothingSeen => Standing::NotKnown,
        LeadVerdict::Settled if fault.is_some_and(|state| is_right(state.fault)) => {
            Standing::Settled
        }
        _ => Standing::NotSettled,
    };
    (standing, found.verdict_text.clone())
}

/// Where a refusal belongs.
fn place(why: &LeadError) -> Place {
    use LeadError as E;
    Place::Ignition(IgnitionPlace::Leads(match why {
        E::NoSuchCylinder { look } | E::NoSuchTower { look, .. } | E::NoRotor { look } => {
            LeadsField::Look(*look)
        }
        E::Contradiction { second, .. } => LeadsField::Look(*second),
        E::Order { order } | E::SameOrder { order } => LeadsField::OtherOrder(*order),
        E::Teeth { .. } => LeadsField::Teeth,
        E::NoPair { .. } => LeadsField::Delivery,
        E::Misread { .. } => LeadsField::Misread,
        E::Prior { .. } => LeadsField::Priors,
        E::OneCylinder { .. } => LeadsField::Section,
    }))
}
