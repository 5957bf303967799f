//! From request to report.

use super::assumptions::Assumptions;
use super::cautions::{Facts, cautions, is_radial, may_be_radial};
use super::clearance::ClearanceReport;
use super::ignition::IgnitionReport;
use super::known::Known;
use super::problem::Problem;
use super::report::Report;
use super::request::Request;
use super::work::{Order, Section, WorkStep};
use super::{causes, clearance, condition, engine, history, ignition, mixture};
use alloc::vec::Vec;

/// Runs a whole job: the engine, and every section that is asked for.
///
/// # Errors
/// Every [`Problem`] found: valves that do not exist or are read twice, temperatures the material
/// data do not cover, no specification that may apply, cam data that make no window.
///
/// # Source
/// The formulas of each step are named where the step lives; this function only joins them.
///
/// # Examples
/// One cylinder, one reading: 0.10 mm goes, 0.12 mm does not, and 0.15 to 0.25 mm is asked for.
/// ```
/// use lashwork::clearance::AsFound;
/// use lashwork::engine::{CylinderIndex, Engine};
/// use lashwork::feeler::{Leaf, LeafSet, Reading, Stack};
/// use lashwork::job::clearance::{Clearance, ValveReading};
/// use lashwork::job::{Request, run};
/// use lashwork::quantity::Marked;
/// use lashwork::tolerance::{Limits, Verdict};
/// use lashwork::valve::{Specification, ValveId, ValveKind, ValveLimits};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let mark = |text| Marked::parse(text);
/// let band = Limits::between(mark("0.15 mm")?, mark("0.25 mm")?)?;
/// let book = Specification::cold("book", "Invented book", ValveLimits::new(mark("0.20 mm")?, band, None)?);
/// let leaves = [mark("0.10 mm")?, mark("0.12 mm")?, mark("0.20 mm")?].map(Leaf::new);
/// let one = |leaf: Leaf| Stack::new(vec![leaf]);
/// let mut read = ValveReading {
///     valve: ValveId { cylinder: CylinderIndex::new(0), kind: ValveKind::Intake, number: 1 },
///     found: AsFound::new(Reading::between(one(leaves[0])?, one(leaves[1])?)?),
///     left: None,
/// };
/// let asked = Clearance::new(vec![book], LeafSet::new(leaves.to_vec())?);
/// let engine = Engine::inline_four_stroke(&[1]).map_err(|refused| format!("{refused:?}"))?;
/// let job = |read: &ValveReading| {
///     let asked = asked.clone().with_readings(vec![read.clone()]);
///     run(&Request::new(engine.clone()).titled("Invented single").with_clearance(asked))
/// };
/// let report = job(&read).map_err(|problems| format!("{problems:?}"))?;
/// let found = report.clearance.as_ref().ok_or("asked for")?;
/// assert_eq!(found.valves[0].judged[0].verdict, Verdict::Below);
/// assert_eq!(found.not_read, ["cylinder 1 exhaust"]);
/// let assumed = |code| report.assumptions.iter().any(|a| a.code == code);
/// assert!(assumed("tolerance.rule") && assumed("engine.rotation"));
/// assert!(report.sheet().contains("reset to 0.20 mm"));
///
/// read.valve.number = 2;
/// assert_eq!(job(&read).unwrap_err()[0].code, "job.no-such-valve");
/// # Ok(())
/// # }
/// ```
pub fn run(request: &Request) -> Result<Report, Vec<Problem>> {
    let mut assumptions = of_engine(request);
    let leaves = request.clearance.as_ref().map(|asked| &asked.leaves);
    let units = request.units.or_of(leaves);
    let mut order = begun(request);
    let valves_back = order.stale(WorkStep::Valves);
    let known = Known {
        engine: &request.engine,
        number: request.engine_number,
        pulley: request.pulley,
        fired_by: request.machine.ignition,
        units: request.units,
        shown: units.shown(),
        valves_back: valves_back.as_deref(),
    };
    let clearance = match &request.clearance {
        Some(asked) => Some(clearance::report(asked, known, &mut assumptions)?),
        None => None,
    };
    if let Some(found) = &clearance {
        order.note(WorkStep::Valves, found.standing());
    }
    let lash = clearance.as_ref().map(ClearanceReport::lash_now);
    let condition = match &request.condition {
        Some(asked) => Some(condition::report(
            asked,
            condition::Elsewhere {
                engine: &request.engine,
                inches: known.shown.inches,
                air: request.mixture.as_ref().and_then(|asked| asked.air),
                lash: lash.as_deref().unwrap_or_default(),
                valves_back: known.valves_back,
                rocker: (request.clearance.as_ref()).and_then(|asked| asked.rocker_ratio),
                printed: request.clearance.as_ref().and_then(|asked| asked.events),
            },
            &mut order,
            &mut assumptions,
        )?),
        None => None,
    };
    let ignition = match &request.ignition {
        Some(asked) => Some(ignition::report(
            asked,
            known,
            &mut order,
            &mut assumptions,
        )?),
        None => None,
    };
    // What is to be read again is no evidence.
    let compression = match order.stale(WorkStep::Compression) {
        Some(_) => condition::CompressionKnown::default(),
        None => condition::compression_known(request.condition.as_ref(), condition.as_ref()),
    };
    let mixture = match &request.mixture {
        Some(asked) => Some(mixture::report(
            asked,
            mixture::Elsewhere {
                inches: known.shown.inches,
                cylinders: request.engine.cylinders().len(),
                lash: clearance.as_ref().and_then(ClearanceReport::lash_found),
                compression: &compression,
                timing: ignition.as_ref().and_then(IgnitionReport::timing_found),
            },
            &mut order,
            &mut assumptions,
        )?),
        None => None,
    };
    let now = history::Now {
        record: &request.record,
        engine: &request.engine,
        order: &order,
        clearance: request.clearance.as_ref().zip(clearance.as_ref()),
        condition: request.condition.as_ref().zip(condition.as_ref()),
        ignition: request.ignition.as_ref().zip(ignition.as_ref()),
    };
    let history = match &request.history {
        Some(asked) => Some(history::report(asked, now, known, &mut assumptions)?),
        None => None,
    };
    let mut report = Report {
        title: request.title.clone(),
        note: request.note.clone(),
        record: request.record.clone(),
        units,
        service: order.service(&sections(request)),
        engine: engine::report(&request.engine, request.engine_number, request.pulley),
        cautions: cautions(facts(request)),
        clearance,
        condition,
        ignition,
        mixture,
        history,
        causes: None,
        assumptions: Vec::new(),
    };
    report.causes = causes::report(request, &report, &mut assumptions)?;
    report.assumptions = assumptions.list();
    Ok(report)
}

/// What is taken for granted of the engine.
fn of_engine(request: &Request) -> Assumptions {
    let mut assumptions = Assumptions::default();
    assumptions.add_all(request.engine.assumptions());
    if request.clearance.is_some() && may_be_radial(&request.engine) {
        assumptions.add(
            "engine.layout",
            "how the cylinders stand not stated: taken as in-line; a radial goes cylinder by cylinder",
        );
    }
    assumptions
}

/// The order of work, with what the head's bolts take back.
fn begun(request: &Request) -> Order {
    let mut order = Order::new(request.log.clone(), ignition::linked(request));
    let bolts = request.condition.as_ref();
    if let Some(why) = bolts.and_then(condition::takes_valves_back) {
        order.take_back(WorkStep::Valves, why);
    }
    order
}

/// The sections that are asked for.
fn sections(request: &Request) -> Vec<Section> {
    let asked = [
        (request.clearance.is_some(), Section::Clearance),
        (request.condition.is_some(), Section::Condition),
        (request.ignition.is_some(), Section::Ignition),
        (request.mixture.is_some(), Section::Mixture),
    ];
    let asked = asked.into_iter().filter(|(is_asked, _)| *is_asked);
    asked.map(|(_, section)| section).collect()
}

/// What is done, for the cautions.
fn facts(request: &Request) -> Facts {
    Facts {
        machine: request.machine,
        radial: is_radial(&request.engine),
        valves: request.clearance.as_ref().map(clearance::valve_work),
        condition: request.condition.as_ref().map(condition::work),
        ignition: request.ignition.is_some(),
        mixture: request.mixture.is_some(),
    }
}
