//! Causes: what may be the matter with the engine, by all that the sections of the document found. It takes no step
//! of the service and asks for no work of its own: one list beside the advice of the sections.

mod answer;
mod found;
mod place;
pub(in crate::job) mod sheet;
mod told;
mod words;

pub use answer::{CausePlaceReport, CauseReport, CausesNextReport, CausesReport, SpeaksReport};
pub use place::CausesPlace;

use super::assumptions::Assumptions;
use super::condition::Condition;
use super::place::Place;
use super::problem::Problem;
use super::report::Report;
use super::request::Request;
use crate::causes::{Cause, CauseCheck, CausePriors, PlugSign};
use crate::engine::{CylinderIndex, CylinderLabel, Engine};
use crate::quantity::Cycle;
use alloc::format;
use alloc::vec::Vec;

/// A plug as seen.
#[derive(Clone, Debug, PartialEq)]
pub struct PlugSeen {
    /// Of which cylinder.
    pub cylinder: CylinderLabel,
    /// How it looks.
    pub seen: PlugSign,
}

/// What may be the matter: asked for by being there; what the sections found goes into it.
///
/// ```
/// use lashwork::causes::PlugSign;
/// use lashwork::engine::CylinderLabel;
/// use lashwork::job::causes::{Causes, PlugSeen};
/// let mut asked = Causes::default();
/// asked.plugs = vec![PlugSeen { cylinder: CylinderLabel::numbered(2), seen: PlugSign::Wet }];
/// assert_eq!(asked.plugs.len(), 1);
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Causes {
    /// Plugs as seen.
    pub plugs: Vec<PlugSeen>,
}

/// Weighs what the sections of a report found, if that is asked for.
pub(super) fn report(
    request: &Request,
    sections: &Report,
    assumptions: &mut Assumptions,
) -> Result<Option<CausesReport>, Vec<Problem>> {
    let Some(asked) = &request.causes else {
        return Ok(None);
    };
    let engine = &request.engine;
    let mut check = CauseCheck::in_line(engine.cylinders().len());
    check.neighbours = neighbours(engine, request.condition.as_ref());
    check.priors = priors(engine);
    let mut problems = plugs(asked, engine, &mut check);
    let remarks = found::gather(request, sections, &mut check);
    match check.weighed() {
        Ok(answer) if problems.is_empty() => {
            assumptions.add_all(&answer.assumptions);
            Ok(Some(told::told(&answer, engine, remarks)))
        }
        Ok(_) => Err(problems),
        Err(why) => {
            problems.push(Problem::at(Place::Causes(CausesPlace::Section), &why));
            Err(problems)
        }
    }
}

/// Which cylinders lie side by side under one gasket.
fn neighbours(engine: &Engine, stated: Option<&Condition>) -> Vec<[usize; 2]> {
    let rows = match stated.and_then(|stated| stated.heads.as_ref()) {
        Some(heads) => heads.rows().to_vec(),
        None => engine.rows(),
    };
    let at = |label: &CylinderLabel| engine.index_of(label).map(CylinderIndex::get);
    let pairs = rows
        .iter()
        .flat_map(|row| row.iter().zip(row.iter().skip(1)));
    pairs
        .filter_map(|(one, other)| Some([at(one)?, at(other)?]))
        .collect()
}

/// A two-stroke has no valves and no camshaft; all others as usual.
fn priors(engine: &Engine) -> Option<CausePriors> {
    if engine.cycle() != Cycle::TwoStroke {
        return None;
    }
    let of_valves = [
        Cause::ValveBurnt,
        Cause::ValveTight,
        Cause::CamWorn,
        Cause::CamToothOut,
    ];
    let without = |priors: CausePriors, cause: &Cause| priors.with(*cause, 0.0).ok();
    of_valves.iter().try_fold(CausePriors::assumed(), without)
}

/// Enters the plugs; what does not fit is returned.
fn plugs(asked: &Causes, engine: &Engine, check: &mut CauseCheck) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (i, plug) in asked.plugs.iter().enumerate() {
        let place = Place::Causes(CausesPlace::Plug(i));
        let at = engine.index_of(&plug.cylinder).map(CylinderIndex::get);
        let Some(signs) = at.and_then(|at| check.cylinders.get_mut(at)) else {
            let known = engine.cylinders().iter().map(|c| c.label.as_str());
            let known: Vec<&str> = known.collect();
            problems.push(Problem::new(
                place,
                "job.no-such-cylinder",
                format!("there is no cylinder {}", plug.cylinder),
                format!("known: {}", known.join(", ")),
            ));
            continue;
        };
        if signs.plug.is_some() {
            problems.push(Problem::new(
                place,
                "causes.plug-seen-twice",
                format!("a second plug of cylinder {} is given", plug.cylinder),
                "keep one plug a cylinder, of two in one cylinder the worse",
            ));
        }
        signs.plug = Some(plug.seen.into());
    }
    problems
}
