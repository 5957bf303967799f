//! Names and summaries of what a request holds, as the report shows them.

use super::{EngineReport, Metal, Request, SpecificationReport, crank_train};
use crate::engine::{CylinderIndex, Engine, Numbering};
use crate::quantity::{LengthUnit, Temperature, TemperatureDifference};
use crate::thermal::Effect;
use crate::tolerance::{Provenance, Specification, ValveLimits, disagreements};
use crate::valve::{ValveId, ValveKind};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

pub(super) fn name(engine: &Engine, valve: ValveId, numbered: bool) -> String {
    let label = engine
        .cylinder(valve.cylinder)
        .map_or("?", |c| c.label.as_str());
    let word = valve.kind.word();
    if numbered {
        format!("cylinder {label} {word} {}", valve.number)
    } else {
        format!("cylinder {label} {word}")
    }
}

pub(super) fn valve_name(request: &Request, valve: ValveId) -> String {
    let count = match valve.kind {
        ValveKind::Intake => request.intake_valves,
        ValveKind::Exhaust => request.exhaust_valves,
    };
    name(&request.engine, valve, count > 1)
}

pub(super) fn engine_report(engine: &Engine) -> EngineReport {
    let label = |c: &CylinderIndex| engine.cylinder(*c).map(|c| c.label.to_string());
    EngineReport {
        cycle: engine.cycle(),
        firing_order: engine.order().iter().filter_map(label).collect(),
        intervals: engine.intervals(),
        rotation: engine.rotation(),
        numbering: match engine.numbering() {
            Numbering::FromFreeEnd => "cylinder 1 at the free end (SAE J824, DIN 73021)".into(),
            Numbering::FromOutputEnd => "cylinder 1 at the output end (ISO 1204)".into(),
            Numbering::Stated(text) => text.clone(),
        },
        dead_centres: crank_train::dead_centres(engine),
        cam_ring: crank_train::cam_ring(engine),
    }
}

fn provenance(p: &Provenance) -> String {
    let mut text = p.document.clone();
    for part in [&p.edition, &p.applies_to].into_iter().flatten() {
        text.push_str(", ");
        text.push_str(part);
    }
    if let Some(range) = &p.engine_numbers {
        let (first, last) = (range.first(), range.last());
        text = format!("{text}, engine numbers {first} to {last}");
    }
    text
}

fn limits_words(limits: &ValveLimits) -> String {
    let set = format!("set to {}, band {}", limits.set_to(), limits.set());
    match limits.leave_alone() {
        Some(alone) => format!("{set}; leave alone within {alone}"),
        None => set,
    }
}

pub(super) fn specification_report(
    s: &Specification,
    engine_number: Option<u64>,
) -> SpecificationReport {
    SpecificationReport {
        id: s.id.clone(),
        provenance: provenance(&s.provenance),
        applicability: s.applicability(engine_number),
        condition: s.condition,
        reference: s.reference,
        intake: limits_words(&s.intake),
        exhaust: limits_words(&s.exhaust),
    }
}

pub(super) fn all_disagreements(candidates: &[&Specification]) -> Vec<String> {
    let mut all = Vec::new();
    for (i, a) in candidates.iter().enumerate() {
        for b in candidates.iter().skip(i + 1) {
            for d in disagreements(a, b) {
                let size = d
                    .size
                    .map(|n| format!(" ({} apart)", n.show(LengthUnit::Millimetre, 4)));
                all.push(format!(
                    "{}: {} says {}, {} says {}{}",
                    d.field,
                    a.id,
                    d.first,
                    b.id,
                    d.second,
                    size.unwrap_or_default()
                ));
            }
        }
    }
    all
}

/// How warm the metal is and how the lash follows, one line for each fact.
pub(super) fn metal_words(metal: &Metal) -> Vec<String> {
    let at = |t: Temperature, u: TemperatureDifference| {
        format!("{:.1} C (u {:.1} K)", t.celsius(), u.kelvin())
    };
    match metal {
        Metal::Unstated => alloc::vec!["temperature not stated".to_string()],
        Metal::At {
            temperature,
            uncertainty,
        } => {
            alloc::vec![format!("metal at {}", at(*temperature, *uncertainty))]
        }
        Metal::Coefficient {
            coefficient,
            temperature,
            uncertainty,
        } => {
            let (slope, u) = (coefficient.mm_per_kelvin, coefficient.standard_uncertainty);
            alloc::vec![
                format!("metal at {}", at(*temperature, *uncertainty)),
                format!("lash changes by {slope:+.6} mm/K (u {u:.6} mm/K), fitted from readings"),
            ]
        }
        Metal::Chain {
            chain,
            temperatures,
        } => {
            let named = temperatures
                .iter()
                .map(|(name, (t, u))| format!("{name} at {}", at(t, u)));
            let parts = chain.links().iter().map(|link| {
                let effect = match link.effect {
                    Effect::Opens => "opens",
                    Effect::Closes => "closes",
                };
                let length = link.length.show(LengthUnit::Millimetre, 1);
                format!(
                    "{}: {length} of {}, growth {effect} the gap",
                    link.part, link.material.name
                )
            });
            named.chain(parts).collect()
        }
    }
}
