//! Lash by temperature, as a table that can be plotted.

use super::warm::{LashTable, at_other_temperatures, refused, warmth};
use super::{LashCurve, LashPoint, Metal, Problem, Request};
use crate::quantity::{Lash, LashChange, Marked, Temperature};
use crate::thermal::{Correction, ThermalError};
use crate::tolerance::Specification;
use crate::valve::ValveKind;
use alloc::format;
use alloc::vec::Vec;

const PLACE: &str = "/metal/curve";

/// The curves of each specification and kind of valve, if they were asked for.
pub(super) fn lash_curves(
    request: &Request,
    candidates: &[&Specification],
) -> Result<Vec<LashCurve>, Problem> {
    let Some(table) = &request.warm.curve else {
        return Ok(Vec::new());
    };
    check(table, &request.metal)?;
    let mut curves = Vec::new();
    for specification in candidates {
        for kind in [ValveKind::Intake, ValveKind::Exhaust] {
            let curve = curve(table, &request.metal, specification, kind);
            curves.push(curve.map_err(refused(PLACE))?);
        }
    }
    Ok(curves)
}

/// A table needs a rule, and what varies must be a temperature of the chain.
fn check(table: &LashTable, metal: &Metal) -> Result<(), Problem> {
    match (metal, &table.varies) {
        (Metal::Unstated | Metal::At { .. }, _) => Err(Problem::new(
            PLACE,
            "thermal.no-rule",
            "nothing says how the lash follows temperature",
            "give \"parts\" or \"measured\"",
        )),
        (Metal::Coefficient { .. }, Some(name)) => Err(Problem::new(
            format!("{PLACE}/varies"),
            "thermal.varies",
            format!("{name:?} cannot vary alone: a fitted coefficient knows one temperature"),
            "leave \"varies\" out",
        )),
        (Metal::Chain { temperatures, .. }, Some(name)) if temperatures.get(name).is_none() => {
            let known: Vec<&str> = temperatures.iter().map(|(name, _)| name).collect();
            Err(Problem::new(
                format!("{PLACE}/varies"),
                "thermal.varies",
                format!("there is no temperature {name:?}"),
                format!("name one of: {}", known.join(", ")),
            ))
        }
        _ => Ok(()),
    }
}

fn curve(
    table: &LashTable,
    metal: &Metal,
    specification: &Specification,
    kind: ValveKind,
) -> Result<LashCurve, ThermalError> {
    let limits = match kind {
        ValveKind::Intake => &specification.intake,
        ValveKind::Exhaust => &specification.exhaust,
    };
    let mut points = Vec::new();
    for temperature in table.range.points()? {
        let varied = |name: &str, stated: Temperature| {
            let varies = table.varies.as_deref().is_none_or(|one| one == name);
            Ok(if varies { temperature } else { stated })
        };
        let then = at_other_temperatures(metal, varied)?;
        let correction = warmth(&then, specification.reference)?;
        let change = correction.as_ref().map_or(LashChange::ZERO, |c| c.change);
        let lash = |mark: Marked| -> Result<Lash, ThermalError> {
            Ok(Lash::from_nominal(mark.nominal())? + change)
        };
        points.push(LashPoint {
            temperature,
            change,
            uncertainty_mm: correction.map_or(0.0, |c: Correction| c.standard_uncertainty_mm()),
            lash: lash(limits.set_to())?,
            low: limits.set().lower().map(lash).transpose()?,
            high: limits.set().upper().map(lash).transpose()?,
        });
    }
    Ok(LashCurve {
        specification: specification.id.clone(),
        kind,
        varies: table.varies.clone(),
        points,
    })
}
