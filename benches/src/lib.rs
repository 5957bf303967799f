//! Work for the benchmarks, made from typed values so that only the kernel is timed.

pub mod fleet;
pub mod largest;
pub mod plans;
pub mod shims;

use lashwork::diagnosis::{Evidence, Prior, Seen, Source, Warming, WrongStroke};
use lashwork::engine::CylinderIndex;
use lashwork::quantity::{
    Lash, LashChange, Length, LengthUnit, Marked, Temperature, TemperatureDifference,
};
use lashwork::thermal::{Chain, Effect, Link, MetalTemperature, PartTemperatures, Side, material};
use lashwork::tolerance::{Estimate, Limits, Uncertainty};
use lashwork::valve::ValveLimits;
use lashwork::valve::{ValveId, ValveKind};
use std::error::Error;

/// What a maker might print: 0.15 to 0.20 mm.
///
/// # Errors
/// None with these values.
pub fn limits() -> Result<Limits<Lash>, Box<dyn Error>> {
    let (low, high) = (Marked::parse("0.15 mm")?, Marked::parse("0.20 mm")?);
    Ok(Limits::between(low, high)?)
}

/// So many readings between neighbouring leaves, spread over 0.05 to 0.30 mm.
///
/// # Errors
/// None up to some ten thousand readings.
pub fn estimates(count: u32) -> Result<Vec<Estimate<Lash>>, Box<dyn Error>> {
    let mut made = Vec::new();
    for i in 0..count {
        let low = 0.05 + 0.25 * f64::from(i) / f64::from(count);
        made.push(Estimate::between(
            Lash::from_mm(low)?,
            Lash::from_mm(low + 0.05)?,
            Uncertainty::from_mm(0.005)?,
        )?);
    }
    Ok(made)
}

/// An aluminium cylinder over a steel pushrod, and the engine at 80 C.
///
/// # Errors
/// None with these values.
pub fn warm_engine() -> Result<(Chain, Temperature, PartTemperatures), Box<dyn Error>> {
    let link = |part: &str, of: &str, effect| -> Result<Link, Box<dyn Error>> {
        Ok(Link {
            part: part.into(),
            material: material(of).ok_or("not in the table")?.clone(),
            length: Length::from_mm(200.0)?,
            length_uncertainty: Length::from_mm(0.5)?,
            side: Side::Valve,
            effect,
            follows: "engine".into(),
        })
    };
    let links = vec![
        link("cylinder", "aluminium 356", Effect::Opens)?,
        link("pushrod", "steel 1020", Effect::Closes)?,
    ];
    let mut temperatures = PartTemperatures::new();
    let spread = TemperatureDifference::from_kelvin(3.0)?;
    temperatures.insert(
        "engine".into(),
        MetalTemperature::known(Temperature::from_celsius(80.0)?, spread),
    );
    Ok((
        Chain::new(links, 1.0)?,
        Temperature::from_celsius(20.0)?,
        temperatures,
    ))
}

/// Good readings of two valves in each of so many cylinders, with a second source at hand and every
/// stop one turn out as a way.
///
/// # Errors
/// None with these values.
pub fn evidence(cylinders: usize) -> Result<Evidence, Box<dyn Error>> {
    let source = |intake: &str, exhaust: &str| -> Result<Source, Box<dyn Error>> {
        let limits = |set: &str| -> Result<ValveLimits, Box<dyn Error>> {
            let mark = Marked::parse(set)?;
            Ok(ValveLimits::new(mark, Limits::between(mark, mark)?, None)?)
        };
        Ok(Source {
            intake: limits(intake)?,
            exhaust: limits(exhaust)?,
            warmth: LashChange::ZERO,
            warmth_uncertainty: Uncertainty::ZERO,
        })
    };
    let mut readings = Vec::new();
    for cylinder in 0..cylinders {
        for (kind, low) in [(ValveKind::Intake, 0.19), (ValveKind::Exhaust, 0.29)] {
            readings.push(Seen {
                valve: ValveId {
                    cylinder: CylinderIndex::new(cylinder),
                    kind,
                    number: 1,
                },
                felt: Estimate::between(
                    Lash::from_mm(low)?,
                    Lash::from_mm(low + 0.02)?,
                    Uncertainty::from_mm(0.003)?,
                )?,
                marked_in: LengthUnit::Millimetre,
            });
        }
    }
    Ok(Evidence {
        one_turn_out: vec![WrongStroke {
            cylinder: None,
            two_position: false,
            lifted: readings.iter().map(|r| r.valve).collect(),
        }],
        readings,
        sources: vec![source("0.20 mm", "0.30 mm")?, source("0.15 mm", "0.25 mm")?],
        warming: Warming::Unknown(Uncertainty::from_mm(0.1)?),
        prior: Prior::usual(),
    })
}
