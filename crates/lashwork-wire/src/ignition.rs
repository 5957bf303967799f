//! The ignition section of a document.

mod check;
mod contacts;
mod electrics;
mod evenness;
mod leads;
mod magneto;
mod point;
mod timing;

pub use check::ignition_check;
#[cfg(feature = "schema")]
pub(crate) use check::{IgnitionCheckDoc, IgnitionCheckReport};

use crate::problem::Problem;
use crate::quantity::Q;
use crate::section::Section;
use crate::word::W;
use contacts::{ContactsDoc, contacts};
use electrics::{ElectricsDoc, electrics};
use evenness::{EvennessDoc, evenness};
use lashwork::engine::{Engine, Sense};
use lashwork::ignition::breaker::CamSpeed;
use lashwork::ignition::point::Drive;
use lashwork::job::ignition::{Distributor, Ignition, IgnitionPlace, Settled};
use lashwork::quantity::Length;
use leads::{LeadsDoc, leads};
use magneto::{MagnetoDoc, magneto};
use point::{PointDoc, point};
use timing::{TimingDoc, timing};

named!(Settled as "SettledDoc" {
    /// Settled, and nothing has been moved since.
    Yes = "settled",
    /// Not settled.
    No = "not_settled",
});

named!(CamSpeed as "CamSpeedDoc" {
    /// Once in two turns of the crank, as a distributor.
    HalfCrank = "half_crank",
    /// Once a turn of the crank.
    Crank = "crank",
});

parts! {
    /// Ignition: the distributor, what was read, and what the book asks for.
    IgnitionSectionDoc {
        /// The distributor, or the magneto's breaker.
        #[cfg_attr(feature = "schema", schemars(default))]
        distributor: Option<DistributorDoc>,
        /// Whether the valve clearances are settled; what the clearance section finds goes before it.
        valves: Option<W<Settled>>,
        /// Which lead goes where, and whether the distributor is in by the right tooth.
        #[cfg_attr(feature = "schema", schemars(default))]
        leads: Option<LeadsDoc>,
        /// The contacts: gap and dwell.
        #[cfg_attr(feature = "schema", schemars(default))]
        contacts: Option<ContactsDoc>,
        /// Coil, condenser and plugs.
        #[cfg_attr(feature = "schema", schemars(default))]
        electrics: Option<ElectricsDoc>,
        /// Timing and advance.
        #[cfg_attr(feature = "schema", schemars(default))]
        timing: Option<TimingDoc>,
        /// How evenly the cylinders fire.
        #[cfg_attr(feature = "schema", schemars(default))]
        evenness: Option<EvennessDoc>,
        /// The magnetos.
        #[cfg_attr(feature = "schema", schemars(default))]
        magneto: Option<MagnetoDoc>,
        /// One ignition point, to be said by every tool at hand.
        #[cfg_attr(feature = "schema", schemars(default))]
        point: Option<PointDoc>,
    }
    /// What is known of the distributor.
    DistributorDoc {
        /// How its rotor turns, seen from the cap.
        rotor: Option<W<Sense>>,
        /// Lobes of its cam; as many as cylinders if not stated.
        lobes: Option<u8>,
        /// What turns that cam; once in a cycle if not stated.
        cam: Option<W<CamSpeed>>,
        /// Diameter of the body where it is clamped.
        clamp: Option<Q<Length>>,
    }
}

/// The section in typed values.
pub(crate) fn ignition(
    Section(doc): Section<IgnitionSectionDoc>,
    engine: &Engine,
    problems: &mut Vec<Problem>,
) -> Option<Ignition> {
    let mut made = Ignition::default();
    if let Some(doc) = doc.distributor {
        made.distributor = distributor(&doc);
    }
    made.valves = doc.valves.map(|word| word.0);
    if let Some(doc) = doc.leads {
        made.leads = Some(leads(doc, engine, problems)?);
    }
    if let Some(doc) = doc.contacts {
        made.contacts = Some(contacts(doc, problems)?);
    }
    if let Some(doc) = doc.electrics {
        made.electrics = Some(electrics(doc, problems)?);
    }
    if let Some(doc) = doc.timing {
        let drive = made
            .distributor
            .cam
            .map_or_else(|| Drive::once_a_cycle(engine.cycle()), Drive::of_cam);
        made.timing = Some(timing(doc, drive, problems)?);
    }
    if let Some(doc) = doc.evenness {
        made.evenness = Some(evenness(doc, engine, problems)?);
    }
    if let Some(doc) = doc.magneto {
        made.magneto = Some(magneto(doc, problems)?);
    }
    if let Some(doc) = doc.point {
        made.point = Some(point(doc, engine, problems)?);
    }
    Some(made)
}

fn distributor(doc: &DistributorDoc) -> Distributor {
    let mut known = Distributor::default();
    known.rotor = doc.rotor.map(|word| word.0);
    known.lobes = doc.lobes;
    known.cam = doc.cam.map(|word| word.0);
    known.clamp = doc.clamp.map(|length| length.0);
    known
}

/// Where a place of the section stands in it.
pub(crate) fn pointer(place: IgnitionPlace) -> String {
    use IgnitionPlace as P;
    match place {
        P::Distributor => "/distributor".into(),
        P::Leads(field) => leads::pointer(field),
        P::Contacts(field) => contacts::pointer(field),
        P::Electrics(field) => electrics::pointer(field),
        P::Timing(field) => timing::pointer(field),
        P::Evenness(field) => evenness::pointer(field),
        P::Magneto(field) => magneto::pointer(field),
        P::Point => "/point".into(),
        _ => String::new(),
    }
}
