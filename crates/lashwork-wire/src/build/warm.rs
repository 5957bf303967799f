//! Cooling, tables by temperature and lock nuts of a document.

use super::{is_short, value};
use crate::document::{CoolingDoc, CurveDoc, LockNutDoc};
use lashwork::adjust::{AdjustError, LockNut, LockingPair};
use lashwork::job::{Cooling, LashTable, Metal, Problem};
use lashwork::quantity::Lash;
use lashwork::thermal::{CoolingFit, CoolingReading, TemperatureRange, ThermalError};
use lashwork::tolerance::Uncertainty;

/// How the metal cools, if its rule is known.
pub(super) fn cooling(
    doc: &CoolingDoc,
    metal: &Metal,
    problems: &mut Vec<Problem>,
) -> Option<Cooling> {
    const PLACE: &str = "/metal/cooling";
    if !is_short(&doc.readings, "/metal/cooling/readings", problems) {
        return None;
    }
    if matches!(metal, Metal::At { .. } | Metal::Unstated) {
        problems.push(Problem::new(
            PLACE,
            "thermal.no-rule",
            "nothing says how the lash follows temperature, so no correction gets surer",
            "give \"parts\" or \"measured\" beside \"cooling\"",
        ));
    }
    let readings: Vec<CoolingReading> = doc
        .readings
        .iter()
        .map(|r| CoolingReading {
            after: r.after.0,
            temperature: r.is.0,
        })
        .collect();
    let air = doc.surroundings.map(|t| t.0);
    let fit = CoolingFit::new(&readings, air, doc.thermometer_uncertainty.0);
    let place = match &fit {
        Err(ThermalError::Times { reading, .. }) => format!("{PLACE}/readings/{reading}/after"),
        Err(ThermalError::Uncertainty { .. }) => format!("{PLACE}/thermometer_uncertainty"),
        Err(ThermalError::TooFewReadings { .. } | ThermalError::NotCooling { .. }) => {
            format!("{PLACE}/readings")
        }
        _ => PLACE.into(),
    };
    let fit = value!(problems, place, fit)?;
    value!(
        problems,
        "/metal/cooling/share",
        Cooling::new(fit, doc.share)
    )
}

/// Which table of lash by temperature is wanted.
pub(super) fn curve(doc: CurveDoc, problems: &mut Vec<Problem>) -> Option<LashTable> {
    let range = TemperatureRange::new(doc.from.0, doc.to.0, doc.step.0);
    Some(LashTable {
        range: value!(problems, "/metal/curve", range)?,
        varies: doc.varies,
    })
}

/// What was learned of the lock nut.
pub(super) fn lock_nut(doc: &LockNutDoc, problems: &mut Vec<Problem>) -> Option<LockNut> {
    const PLACE: &str = "/valves/screw/lock_nut/pairs";
    if !is_short(&doc.pairs, PLACE, problems) {
        return None;
    }
    let mut pairs = Vec::new();
    for (i, pair) in doc.pairs.iter().enumerate() {
        let mut lash = |which: &str, gap: lashwork::quantity::Marked| {
            let place = format!("{PLACE}/{i}/{which}");
            value!(problems, place, Lash::from_nominal(gap.nominal()))
        };
        let before = lash("before", pair.before.0);
        let after = lash("after", pair.after.0);
        pairs.push(LockingPair {
            before: before?,
            after: after?,
        });
    }
    let u = Uncertainty::from_mm(doc.uncertainty.0.mm());
    let u = value!(problems, "/valves/screw/lock_nut/uncertainty", u)?;
    let nut = LockNut::learn(&pairs, u);
    let place = match &nut {
        Err(AdjustError::LockingPair { pair, .. }) => format!("{PLACE}/{}", pair.saturating_sub(1)),
        _ => PLACE.into(),
    };
    value!(problems, place, nut)
}
