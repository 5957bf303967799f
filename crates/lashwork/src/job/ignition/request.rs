//! What the ignition step needs to know, in typed values.

use super::contacts::Contacts;
use super::electrics::Electrics;
use super::evenness::Evenness;
use super::leads::Leads;
use super::magneto::Magneto;
use super::point::IgnitionPoint;
use super::timing::Timing;
use crate::engine::Sense;
use crate::ignition::breaker::CamSpeed;
use crate::quantity::Length;

/// Ignition: what the distributor is like, and a field for each question.
///
/// What is left out is assumed where the kernel can, and listed in
/// [`Report::assumptions`](crate::job::Report::assumptions).
///
/// ```
/// use lashwork::job::ignition::{Ignition, Settled};
/// let asked = Ignition::default().with_valves(Settled::Yes);
/// assert_eq!(asked.valves, Some(Settled::Yes));
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Ignition {
    /// The distributor, or the magneto's breaker.
    pub distributor: Distributor,
    /// Whether the valve clearances are settled; what the clearance section found goes before it.
    pub valves: Option<Settled>,
    /// Which lead goes where, and whether the distributor is in by the right tooth.
    pub leads: Option<Leads>,
    /// The contacts: gap and dwell.
    pub contacts: Option<Contacts>,
    /// Coil, condenser and plugs.
    pub electrics: Option<Electrics>,
    /// Timing and advance.
    pub timing: Option<Timing>,
    /// How evenly the cylinders fire.
    pub evenness: Option<Evenness>,
    /// The magnetos.
    pub magneto: Option<Magneto>,
    /// One ignition point, to be said by every tool at hand.
    pub point: Option<IgnitionPoint>,
}

/// Whether a step that comes before was settled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Settled {
    /// It was, and nothing has been moved since.
    Yes,
    /// It was not.
    No,
}

/// What is known of the distributor.
///
/// ```
/// use lashwork::engine::Sense;
/// use lashwork::job::ignition::Distributor;
/// let mut known = Distributor::default();
/// known.rotor = Some(Sense::Anticlockwise);
/// assert!(known.lobes.is_none());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Distributor {
    /// How its rotor turns, seen from the cap.
    pub rotor: Option<Sense>,
    /// Lobes of its cam; as many as cylinders if not stated.
    pub lobes: Option<u8>,
    /// What turns that cam; once in a cycle if not stated.
    pub cam: Option<CamSpeed>,
    /// Diameter of the body where it is clamped, so that a turn of it can be measured along it.
    pub clamp: Option<Length>,
}

impl Ignition {
    /// With what is known of the distributor.
    #[must_use]
    pub fn with_distributor(self, distributor: Distributor) -> Self {
        Self {
            distributor,
            ..self
        }
    }

    /// With what was found of the leads.
    #[must_use]
    pub fn with_leads(self, leads: Leads) -> Self {
        Self {
            leads: Some(leads),
            ..self
        }
    }

    /// With what was read of the contacts.
    #[must_use]
    pub fn with_contacts(self, contacts: Contacts) -> Self {
        Self {
            contacts: Some(contacts),
            ..self
        }
    }

    /// With what was measured of coil, condenser and plugs.
    #[must_use]
    pub fn with_electrics(self, electrics: Electrics) -> Self {
        Self {
            electrics: Some(electrics),
            ..self
        }
    }

    /// With what was read of the timing.
    #[must_use]
    pub fn with_timing(self, timing: Timing) -> Self {
        Self {
            timing: Some(timing),
            ..self
        }
    }

    /// With what was read of how evenly the cylinders fire.
    #[must_use]
    pub fn with_evenness(self, evenness: Evenness) -> Self {
        Self {
            evenness: Some(evenness),
            ..self
        }
    }

    /// With what was read of the magnetos.
    #[must_use]
    pub fn with_magneto(self, magneto: Magneto) -> Self {
        Self {
            magneto: Some(magneto),
            ..self
        }
    }

    /// With an ignition point to be said by every tool at hand.
    #[must_use]
    pub fn with_point(self, point: IgnitionPoint) -> Self {
        Self {
            point: Some(point),
            ..self
        }
    }

    /// With whether the valve clearances are settled.
    #[must_use]
    pub fn with_valves(self, valves: Settled) -> Self {
        Self {
            valves: Some(valves),
            ..self
        }
    }
}
