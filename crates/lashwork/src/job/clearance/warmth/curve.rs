//! Lash by temperature, as a table that can be plotted.

use super::answer::{LashCurve, LashPoint};
use super::ask::LashTable;
use crate::job::clearance::metals::Metals;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::quantity::{Lash, LashChange, Marked, Quoted, Temperature};
use crate::thermal::{Correction, Metal, ThermalError};
use crate::valve::{Specification, ValveKind, ValveLimits};
use alloc::format;
use alloc::vec::Vec;

/// The thermal change at a temperature, with its standard uncertainty in millimetres.
struct Added {
    temperature: Temperature,
    change: LashChange,
    uncertainty_mm: f64,
}

/// The curves of each specification and kind of valve, intake then exhaust.
pub(super) fn curves<'r>(
    table: &LashTable,
    metals: Metals<'_>,
    candidates: impl Iterator<Item = (&'r Specification, Temperature)>,
) -> Result<Vec<LashCurve>, Problem> {
    for metal in metals.each() {
        check(table, metal)?;
    }
    let refused = |e| Problem::at(Place::LashTable, &e);
    let mut curves = Vec::new();
    for (specification, reference) in candidates {
        for kind in [ValveKind::Intake, ValveKind::Exhaust] {
            let added = added(table, metals.of(kind), reference).map_err(refused)?;
            curves.push(LashCurve {
                specification: specification.id.clone(),
                kind,
                varies: table.varies.clone(),
                points: points(&added, specification.limits(kind)).map_err(refused)?,
            });
        }
    }
    Ok(curves)
}

/// A table needs a rule, and what varies must be a temperature of the chain.
fn check(table: &LashTable, metal: &Metal) -> Result<(), Problem> {
    match (metal, &table.varies) {
        (Metal::Unstated | Metal::At { .. }, _) => Err(Problem::new(
            Place::LashTable,
            "thermal.no-rule",
            "nothing says how the lash follows temperature",
            "describe the parts that expand, or lash measured at several temperatures",
        )),
        (Metal::Coefficient { .. }, Some(name)) => Err(Problem::new(
            Place::LashTableVaries,
            "thermal.varies",
            format!(
                "{} cannot vary alone: a fitted coefficient knows one temperature",
                Quoted(name)
            ),
            "leave out what varies",
        )),
        (Metal::Chain { temperatures, .. }, Some(name)) if temperatures.get(name).is_none() => {
            let known: Vec<&str> = temperatures.iter().map(|(name, _)| name).collect();
            Err(Problem::new(
                Place::LashTableVaries,
                "thermal.varies",
                format!("there is no temperature {}", Quoted(name)),
                format!("name one of: {}", known.join(", ")),
            ))
        }
        _ => Ok(()),
    }
}

fn added(
    table: &LashTable,
    metal: &Metal,
    reference: Temperature,
) -> Result<Vec<Added>, ThermalError> {
    let mut all = Vec::new();
    for temperature in table.range.points()? {
        let varied = |name: &str, stated: Temperature| {
            let varies = table.varies.as_deref().is_none_or(|one| one == name);
            Ok(if varies { temperature } else { stated })
        };
        let correction = metal.at_other_temperatures(varied)?.correction(reference)?;
        all.push(Added {
            temperature,
            change: correction.as_ref().map_or(LashChange::ZERO, |c| c.change),
            uncertainty_mm: correction.map_or(0.0, |c: Correction| c.standard_uncertainty_mm()),
        });
    }
    Ok(all)
}

fn points(added: &[Added], limits: &ValveLimits) -> Result<Vec<LashPoint>, ThermalError> {
    let mut points = Vec::new();
    for at in added {
        let lash = |mark: Marked| -> Result<Lash, ThermalError> {
            Ok(Lash::from_nominal(mark.nominal())? + at.change)
        };
        points.push(LashPoint {
            temperature: at.temperature,
            change: at.change,
            uncertainty_mm: at.uncertainty_mm,
            lash: lash(limits.set_to())?,
            low: limits.set().lower().map(lash).transpose()?,
            high: limits.set().upper().map(lash).transpose()?,
        });
    }
    Ok(points)
}
