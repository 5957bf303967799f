//! The leads in a document.

use crate::engine::cylinder;
use crate::problem::{Problem, is_short, is_within, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::engine::{CylinderIndex, CylinderLabel, Engine};
use lashwork::ignition::leads::{
    Delivery, LeadFault, LeadPriors, Look, MisreadChance, Points, Running,
};
use lashwork::job::ignition::{Leads, LeadsField};
use lashwork::quantity::{Advance, CrankAngle, CyclePosition, DistributorAngle};

/// How sparks get to the plugs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum DeliveryWord {
    Distributor,
    DoubleEndedCoils,
}

named!(DeliveryWord as "SparkDeliveryDoc" {
    /// By a rotor under a cap, a tower for each cylinder.
    Distributor = "distributor",
    /// By coils with two ends: both cylinders of a pair get each spark.
    DoubleEndedCoils = "double_ended_coils",
});

named!(Running as "RunningCylinderDoc" {
    /// It pulls: taking its lead off slows the engine.
    Fires = "fires",
    /// It spits back through the intake.
    SpitsBack = "spits_back",
    /// It bangs in the exhaust.
    BangsInExhaust = "bangs_in_exhaust",
    /// It does nothing.
    Dead = "dead",
});

named!(LeadFault as "LeadFaultDoc" {
    /// None.
    AsItShould = "as_it_should",
    /// The distributor is in by a wrong tooth.
    TeethOut = "teeth_out",
    /// The distributor is in half a turn out.
    HalfTurnOut = "half_turn_out",
    /// Two leads are exchanged.
    TwoExchanged = "two_exchanged",
    /// All leads are some towers along.
    AllShifted = "all_shifted",
    /// The leads follow the order against the way the rotor turns.
    AgainstRotor = "against_rotor",
    /// The leads follow another firing order.
    OtherOrder = "other_order",
    /// Distributor and leads are both along by as many towers.
    MovedToSuit = "moved_to_suit",
    /// Something else, or more than one of these.
    SomethingElse = "something_else",
});

parts! {
    /// The leads: how sparks get to the plugs, and what was found. A tower is named by the cylinder it
    /// belongs to by the firing order, counted from that of the first the way the rotor turns.
    LeadsDoc {
        /// How sparks get to the plugs; a distributor if not stated.
        delivery: Option<W<DeliveryWord>>,
        /// Teeth of the gear on the distributor's shaft, if they were counted.
        teeth: Option<u8>,
        /// What was found.
        looks: Option<Vec<LookDoc>>,
        /// Firing orders somebody may have had in mind instead.
        also_orders: Option<Vec<Vec<String>>>,
        /// The chance of a wrong look, above 0 and below 0.5; 0.03 is assumed, and listed, if not stated.
        wrong_look: Option<f64>,
        /// How much faults are believed in before anything is found, where it differs from what is usual.
        priors: Option<Vec<LeadPriorDoc>>,
    }
    /// Something that was found; one of the four.
    LookDoc {
        /// Where the lead in a tower goes.
        lead: Option<LeadLookDoc>,
        /// Where the rotor points.
        rotor: Option<RotorLookDoc>,
        /// Where the crank stands when a lamp on a lead flashes.
        spark: Option<SparkLookDoc>,
        /// What a cylinder of the running engine does.
        runs: Option<RunsLookDoc>,
    }
    /// Where the lead in a tower goes.
    LeadLookDoc {
        /// The cylinder whose tower it is.
        tower_of: String,
        /// The cylinder at whose plug the lead ends.
        goes_to: String,
    }
    /// Where the rotor points.
    RotorLookDoc {
        /// With the crank at firing top dead centre of this cylinder.
        at_tdc_of: String,
        /// So far past it; not at all if not stated.
        past_tdc: Option<Q<CrankAngle>>,
        /// Whether it was made sure that the cylinder is on its compression; by a mark alone it may be the
        /// other turn.
        stroke_checked: bool,
        /// The cylinder at whose tower it points; or its angle.
        points_to: Option<String>,
        /// How far it points past the tower of the first cylinder, the way it turns.
        points_at: Option<Q<DistributorAngle>>,
    }
    /// Where the crank stands when a lamp on a lead flashes.
    SparkLookDoc {
        /// Whose lead.
        cylinder: String,
        /// Where the crank stands.
        comes: Q<Advance>,
        /// Of which cylinder that is the dead centre.
        tdc_of: String,
        /// Whether it was made sure on which turn that is.
        stroke_checked: bool,
    }
    /// What a cylinder of the running engine does.
    RunsLookDoc { cylinder: String, does: W<Running> }
    /// How much a fault is believed in before anything is found.
    LeadPriorDoc {
        fault: W<LeadFault>,
        /// Its share in per cent; only the shares against each other matter.
        percent: f64,
    }
}

const AT: &str = "/ignition/leads";
/// Most other firing orders: each is one more state to weigh.
const MAX_ORDERS: usize = 20;

/// The leads in typed values.
pub(super) fn leads(doc: LeadsDoc, engine: &Engine, problems: &mut Vec<Problem>) -> Option<Leads> {
    let faults = problems.len();
    let mut made = Leads::default();
    made.delivery = delivery(&doc, problems);
    let looks = doc.looks.unwrap_or_default();
    if is_short(&looks, &format!("{AT}/looks"), problems) {
        for (i, doc) in looks.iter().enumerate() {
            made.looks
                .extend(look(doc, engine, &format!("{AT}/looks/{i}"), problems));
        }
    }
    let orders = doc.also_orders.unwrap_or_default();
    if is_within(
        orders.len(),
        MAX_ORDERS,
        &format!("{AT}/also_orders"),
        problems,
    ) {
        for (i, order) in orders.iter().enumerate() {
            let place = format!("{AT}/also_orders/{i}");
            let labels = order.iter().map(|label| CylinderLabel::new(label));
            made.also_orders.extend(value(
                problems,
                place,
                labels.collect::<Result<Vec<_>, _>>(),
            ));
        }
    }
    if let Some(chance) = doc.wrong_look {
        let place = format!("/ignition{}", pointer(LeadsField::Misread));
        made.misread = value(problems, place, MisreadChance::new(chance));
    }
    if let Some(shares) = doc.priors {
        made.priors = priors(&shares, problems);
    }
    (problems.len() == faults).then_some(made)
}

fn delivery(doc: &LeadsDoc, problems: &mut Vec<Problem>) -> Option<Delivery> {
    let teeth = doc.teeth.map(u16::from);
    match doc.delivery.map(|word| word.0) {
        None if teeth.is_none() => None,
        None | Some(DeliveryWord::Distributor) => Some(Delivery::Distributor { teeth }),
        Some(DeliveryWord::DoubleEndedCoils) => {
            if teeth.is_some() {
                problems.push(Problem::new(
                    format!("{AT}/teeth"),
                    "ignition.teeth-without-distributor",
                    "teeth of a distributor's gear are given, but the sparks come from coils with two ends",
                    "leave the teeth out, or write \"distributor\"",
                ));
            }
            Some(Delivery::DoubleEndedCoils)
        }
    }
}

fn priors(shares: &[LeadPriorDoc], problems: &mut Vec<Problem>) -> Option<LeadPriors> {
    let mut made = LeadPriors::assumed();
    for (i, share) in shares.iter().enumerate() {
        let place = format!("{AT}/priors/{i}");
        made = value(problems, place, made.with(share.fault.0, share.percent))?;
    }
    Some(made)
}

fn look(doc: &LookDoc, engine: &Engine, place: &str, problems: &mut Vec<Problem>) -> Option<Look> {
    match (&doc.lead, &doc.rotor, &doc.spark, &doc.runs) {
        (Some(doc), None, None, None) => {
            let place = format!("{place}/lead");
            let of = named(engine, &doc.tower_of, &place, "tower_of", problems);
            let to = named(engine, &doc.goes_to, &place, "goes_to", problems);
            let tower = tower(engine, of?)?;
            Some(Look::Lead {
                tower,
                cylinder: to?,
            })
        }
        (None, Some(doc), None, None) => rotor(doc, engine, &format!("{place}/rotor"), problems),
        (None, None, Some(doc), None) => {
            let place = format!("{place}/spark");
            let lead = named(engine, &doc.cylinder, &place, "cylinder", problems);
            let of = named(engine, &doc.tdc_of, &place, "tdc_of", problems);
            let late = CrankAngle::from_degrees(-doc.comes.0.degrees_before());
            let late = value(problems, format!("{place}/comes"), late);
            Some(Look::Spark {
                cylinder: lead?,
                crank: crank(engine, of?, late?),
                stroke_checked: doc.stroke_checked,
            })
        }
        (None, None, None, Some(doc)) => {
            let place = format!("{place}/runs");
            let cylinder = named(engine, &doc.cylinder, &place, "cylinder", problems)?;
            Some(Look::Runs {
                cylinder,
                does: doc.does.0,
            })
        }
        _ => {
            problems.push(Problem::new(
                place,
                "ignition.one-look",
                "a look is one of lead, rotor, spark and runs, and no more",
                "give each look an entry of its own",
            ));
            None
        }
    }
}

fn rotor(
    doc: &RotorLookDoc,
    engine: &Engine,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Look> {
    let of = named(engine, &doc.at_tdc_of, place, "at_tdc_of", problems);
    let points = match (&doc.points_to, doc.points_at) {
        (Some(label), None) => {
            let whose = named(engine, label, place, "points_to", problems)?;
            Points::Tower(tower(engine, whose)?)
        }
        (None, Some(angle)) => Points::At(angle.0),
        _ => {
            problems.push(Problem::new(
                place,
                "ignition.rotor-points",
                "where the rotor points is not said, or said twice",
                "give \"points_to\", a cylinder's tower, or \"points_at\", an angle",
            ));
            return None;
        }
    };
    let past = doc.past_tdc.map_or(CrankAngle::ZERO, |past| past.0);
    Some(Look::Rotor {
        crank: crank(engine, of?, past),
        stroke_checked: doc.stroke_checked,
        points,
    })
}

/// So far past firing top dead centre of a cylinder.
fn crank(engine: &Engine, of: CylinderIndex, past: CrankAngle) -> CyclePosition {
    engine.firing_position(of).turned(past)
}

fn tower(engine: &Engine, cylinder: CylinderIndex) -> Option<usize> {
    engine.order().iter().position(|index| *index == cylinder)
}

fn named(
    engine: &Engine,
    label: &str,
    place: &str,
    field: &str,
    problems: &mut Vec<Problem>,
) -> Option<CylinderIndex> {
    cylinder(engine, label, &format!("{place}/{field}"), problems)
}

/// Where a field stands in the ignition section.
pub(super) fn pointer(field: LeadsField) -> String {
    use LeadsField as F;
    let rest = match field {
        F::Look(i) => format!("/looks/{i}"),
        F::OtherOrder(i) => format!("/also_orders/{i}"),
        F::Delivery => "/delivery".into(),
        F::Teeth => "/teeth".into(),
        F::Misread => "/wrong_look".into(),
        F::Priors => "/priors".into(),
        _ => String::new(),
    };
    format!("/leads{rest}")
}
