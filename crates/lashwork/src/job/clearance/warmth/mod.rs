//! How warm the metal is, how the lash follows, and what is asked about that.

pub(in crate::job) mod answer;
pub(in crate::job) mod ask;
mod comparison;
mod cooling;
mod curve;
pub(in crate::job) mod sheet;

use crate::job::assumptions::Assumptions;
use crate::job::clearance::metals::Metals;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::units::Shown;
use crate::quantity::shown::{part, reckoned};
use crate::quantity::{Temperature, TemperatureDifference};
use crate::thermal::{
    COLD_HALF_WIDTH, Effect, Metal, MetalTemperature, NEAR_REFERENCE, UNSTATED_HALF_WIDTH,
};
use crate::valve::{Specification, ValveKind};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use answer::{TemperatureReport, WarmthReport};
use ask::WarmQuestions;

/// Works out what is asked; each specification that may apply with the temperature it holds at.
pub(in crate::job) fn report(
    metals: Metals<'_>,
    asked: &WarmQuestions,
    candidates: &[(&Specification, Temperature)],
    shown: Shown,
    problems: &mut Vec<Problem>,
) -> WarmthReport {
    let all = || candidates.iter().copied();
    let comparisons = asked.compared.as_ref().map(|other| {
        let references = all().map(|(_, reference)| reference);
        comparison::comparisons(metals.intake, other, references, shown)
            .map_err(|e| Problem::at(Place::Metal, &e))
    });
    let cooling = asked.cooling.as_ref().map(|cooling| {
        cooling::report(metals, cooling, all(), shown.temperature)
            .map_err(|e| Problem::at(Place::Cooling, &e))
    });
    let curves = asked
        .curve
        .as_ref()
        .map(|table| curve::curves(table, metals, all()));
    WarmthReport {
        metal: words(metals, shown),
        temperatures: temperatures(metals, shown),
        comparisons: kept(comparisons, problems).unwrap_or_default(),
        cooling: kept(cooling, problems),
        lash_curves: kept(curves, problems).unwrap_or_default(),
    }
}

/// Over which a change of the lash by the degree is said: some warm-up, so that it has digits of a lash.
const SPAN: TemperatureDifference = TemperatureDifference::of_kelvin::<50>();

/// The value, or the problem noted.
fn kept<T>(result: Option<Result<T, Problem>>, problems: &mut Vec<Problem>) -> Option<T> {
    result?.map_err(|problem| problems.push(problem)).ok()
}

/// What is taken of the metal and its temperatures.
pub(in crate::job) fn assume(
    metals: Metals<'_>,
    asked: &WarmQuestions,
    shown: Shown,
    assumptions: &mut Assumptions,
) {
    for metal in metals.each() {
        assume_metal(metal, shown, assumptions);
    }
    metals.assume(shown, assumptions);
    if let Some(other) = &asked.compared {
        thermometers(other, shown, assumptions);
        assumptions.bears_on_verdict(
            "thermal.comparison",
            "parts and measured lash are compared as independent results",
        );
    }
    if asked.cooling.is_some() {
        assumptions.bears_on_verdict(
            "thermal.cooling",
            "the stated temperatures are assumed to be those of the last cooling reading, and to \
             fall together, each keeping its share of the difference from the surroundings",
        );
    }
}

fn thermometers(metal: &Metal, shown: Shown, assumptions: &mut Assumptions) {
    for (name, temperature) in metal.temperatures() {
        let name = if name.is_empty() { "the metal" } else { name };
        let with = temperature.taken_with.unwrap_or_default();
        let u = temperature.standard_uncertainty();
        let taken = u.show(shown.temperature);
        if temperature.taken_with.is_none() {
            assumptions.bears_on_verdict(
                "thermal.taken-with",
                format!(
                    "how the temperature of {name} was taken not stated: {} assumed",
                    with.words()
                ),
            );
        }
        match temperature.uncertainty {
            None => assumptions.bears_on_verdict(
                "thermal.thermometer",
                format!("uncertainty of the temperature of {name} not stated: {taken} taken"),
            ),
            Some(stated) if stated < u => assumptions.bears_on_verdict(
                "thermal.bare-metal",
                format!(
                    "the temperature of {name} was taken with {}: {taken} taken instead of {}; aim it at \
                     tape or paint",
                    with.words(),
                    stated.show(shown.temperature)
                ),
            ),
            Some(_) => {}
        }
    }
}

/// What is taken of the metal itself.
pub(in crate::job) fn assume_metal(metal: &Metal, shown: Shown, assumptions: &mut Assumptions) {
    thermometers(metal, shown, assumptions);
    match metal {
        Metal::Unstated => assumptions.bears_on_verdict(
            "thermal.unstated",
            "metal temperature not stated: the engine is assumed to be cold",
        ),
        Metal::At(temperature) => {
            assumptions.bears_on_verdict(
                "thermal.no-rule",
                format!(
                    "metal at {}, but neither parts nor a coefficient say how the lash \
                     follows temperature: readings not corrected; up to {} from a printed \
                     reference, {} from one that only says cold, are taken as none",
                    temperature.is.show(shown.temperature, 0),
                    NEAR_REFERENCE.show(shown.temperature),
                    COLD_HALF_WIDTH.show(shown.temperature)
                ),
            );
        }
        Metal::Chain { .. } => {
            let percent = UNSTATED_HALF_WIDTH * 100.0;
            assumptions.bears_on_verdict(
                "thermal.coefficients",
                format!(
                    "expansion coefficients whose source states no uncertainty: half-width \
                     {percent:.0} % taken"
                ),
            );
        }
        Metal::Coefficient { .. } => {}
    }
}

/// The metal of each kind of valve, or that of both; which kind it is where they differ.
fn by_kind(metals: Metals<'_>) -> Vec<(Option<ValveKind>, &Metal)> {
    match metals.exhaust {
        None => alloc::vec![(None, metals.intake)],
        Some(exhaust) => alloc::vec![
            (Some(ValveKind::Intake), metals.intake),
            (Some(ValveKind::Exhaust), exhaust),
        ],
    }
}

/// A line, and which valves it is about where not all.
fn of_valves(kind: Option<ValveKind>, line: String) -> String {
    match kind {
        Some(kind) => format!("{} valves: {line}", kind.word()),
        None => line,
    }
}

/// How warm the metal is and how the lash follows, of both kinds of valve.
fn words(metals: Metals<'_>, shown: Shown) -> Vec<String> {
    let lines = by_kind(metals).into_iter().flat_map(|(kind, metal)| {
        let lines = metal_words(metal, shown).into_iter();
        lines.map(move |line| of_valves(kind, line))
    });
    lines.collect()
}

/// Every temperature that is stated.
fn temperatures(metals: Metals<'_>, shown: Shown) -> Vec<TemperatureReport> {
    let all = by_kind(metals).into_iter().flat_map(|(kind, metal)| {
        let stated = metal.temperatures().into_iter();
        stated.map(move |(name, t)| TemperatureReport {
            valves: kind,
            name: (!name.is_empty()).then(|| name.to_string()),
            temperature: t.is,
            uncertainty_k: t.standard_uncertainty().kelvin(),
            text: of_valves(kind, temperature_words(name, t, shown)),
        })
    });
    all.collect()
}

fn temperature_words(name: &str, t: MetalTemperature, shown: Shown) -> String {
    let name = if name.is_empty() { "metal" } else { name };
    let u = t.standard_uncertainty();
    let (is, u) = (t.is.show(shown.temperature, 0), u.show(shown.temperature));
    format!("{name} at {is} (u {u})")
}

/// How warm the metal is and how the lash follows, one line for each fact.
pub(in crate::job) fn metal_words(metal: &Metal, shown: Shown) -> Vec<String> {
    let stated = metal.temperatures().into_iter();
    let mut lines: Vec<String> = stated
        .map(|(name, t)| temperature_words(name, t, shown))
        .collect();
    match metal {
        Metal::Unstated => lines.push("temperature not stated".to_string()),
        Metal::At(_) => {}
        Metal::Coefficient { coefficient, .. } => {
            let (slope, u) = (coefficient.mm_per_kelvin, coefficient.standard_uncertainty);
            lines.push(format!(
                "lash changes by {} (u {}) when the metal is {} warmer, fitted from readings",
                shown.signed(slope * SPAN.kelvin()),
                reckoned(u * SPAN.kelvin(), shown.inches),
                SPAN.show(shown.temperature)
            ));
        }
        Metal::Chain { chain, .. } => {
            lines.extend(chain.links().iter().map(|link| {
                let effect = match link.effect {
                    Effect::Opens => "opens",
                    Effect::Closes => "closes",
                };
                let length = part(link.length.mm(), shown.inches);
                format!(
                    "{}: {length} of {}, growth {effect} the gap",
                    link.part, link.material.name
                )
            }));
        }
    }
    lines
}
