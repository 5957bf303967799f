//! The breaker's cam of the engine asked about.

use super::place::IgnitionPlace;
use super::request::{Distributor, Ignition};
use crate::ignition::breaker::{BreakerCam, CamSpeed, Lobes};
use crate::ignition::point::Drive;
use crate::job::assumptions::Assumptions;
use crate::job::known::Known;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::request::Request;
use crate::job::work::Linked;
use crate::quantity::Cycle;
use alloc::format;
use alloc::vec::Vec;

/// How far the spark moves with the dwell, by what is stated of the breaker's cam.
pub(in crate::job) fn linked(request: &Request) -> Linked {
    let asked = request.ignition.as_ref();
    let usual = once_a_cycle(request.engine.cycle());
    match asked {
        Some(asked) => of_section(asked, usual),
        None => Linked {
            cam: usual,
            flanks: None,
        },
    }
}

/// By itself, so that nothing of a section is read where there is none.
#[inline(never)]
fn of_section(asked: &Ignition, usual: CamSpeed) -> Linked {
    Linked {
        cam: asked.distributor.cam.unwrap_or(usual),
        flanks: asked.contacts.as_ref().and_then(|asked| asked.flanks),
    }
}

/// How fast a cam turns that turns once in a cycle.
const fn once_a_cycle(cycle: Cycle) -> CamSpeed {
    match cycle {
        Cycle::FourStroke => CamSpeed::HalfCrank,
        Cycle::TwoStroke => CamSpeed::Crank,
    }
}

/// The cam; what is not stated of it is taken and listed.
pub(super) fn cam(
    known: Known<'_>,
    distributor: &Distributor,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<BreakerCam> {
    let speed = distributor.cam.unwrap_or_else(|| {
        let speed = once_a_cycle(known.engine.cycle());
        let words = match speed {
            CamSpeed::HalfCrank => "half the speed of the crank",
            CamSpeed::Crank => "the speed of the crank",
        };
        let text = format!("what turns the breaker's cam is not stated: {words} taken");
        assumptions.add("ignition.cam-speed", text);
        speed
    });
    let cylinders = known.engine.cylinders().len();
    let count = distributor.lobes.unwrap_or_else(|| {
        let text =
            format!("lobes of the breaker's cam not stated: {cylinders} taken, one a cylinder");
        assumptions.add("ignition.lobes-taken", text);
        u8::try_from(cylinders).unwrap_or(u8::MAX)
    });
    match Lobes::new(count) {
        Ok(lobes) => Some(BreakerCam { lobes, speed }),
        Err(refused) => {
            let place = Place::Ignition(IgnitionPlace::Distributor);
            problems.push(Problem::at(place, &refused));
            None
        }
    }
}

/// How fast the rotor turns; once in a cycle if not stated.
pub(super) fn drive(known: Known<'_>, distributor: &Distributor) -> Drive {
    let of_cycle = Drive::once_a_cycle(known.engine.cycle());
    distributor.cam.map_or(of_cycle, Drive::of_cam)
}
