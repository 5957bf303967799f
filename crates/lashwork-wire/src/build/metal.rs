//! The metal section: temperatures and how the lash follows them.

use super::{value, warm};
use crate::document::{
    EffectDoc, LinkDoc, MeasuredDoc, MetalDoc, NamedWarmthDoc, OneRuleDoc, SideDoc, UseDoc,
    WarmthDoc,
};
use crate::quantity::Q;
use lashwork::job::{Problem, WarmQuestions};
use lashwork::quantity::{Lash, TemperatureDifference};
use lashwork::thermal::Metal;
use lashwork::thermal::{
    ASSUMED_THERMOMETER, Chain, Effect, Follows, Link, PartTemperatures, Side, fit_coefficient,
    material, materials,
};

/// How warm the metal is, and what is asked about it; temperatures that state no uncertainty are
/// named in `assumed`.
pub(super) fn metal(
    doc: MetalDoc,
    rocker_ratio: Option<f64>,
    assumed: &mut Vec<String>,
    problems: &mut Vec<Problem>,
) -> Option<(Metal, WarmQuestions)> {
    let (metal, compared) = match (
        doc.parts,
        doc.temperatures,
        doc.temperature,
        doc.measured,
        doc.uses,
    ) {
        (Some(parts), Some(named), Some(t), Some(list), Some(uses)) => {
            let chain = chain(parts, named, rocker_ratio, assumed, problems);
            let fitted = coefficient(&t, &list, assumed, problems);
            let (used, other) = match uses {
                UseDoc::Parts => (chain, fitted),
                UseDoc::Measured => (fitted, chain),
            };
            (used, Some(other?))
        }
        (Some(_), Some(_), Some(_), Some(_), None) => {
            problems.push(Problem::new(
                "/metal",
                "thermal.use",
                "both \"parts\" and \"measured\" are given, and nothing says which corrects the readings",
                "add \"use\": \"parts\" or \"use\": \"measured\"; the other is held against it",
            ));
            return None;
        }
        (parts, temperatures, temperature, measured, None) => {
            let doc = OneRuleDoc {
                temperature,
                parts,
                temperatures,
                measured,
            };
            (one_rule(doc, rocker_ratio, assumed, problems), None)
        }
        (_, _, _, _, Some(_)) => {
            problems.push(mixed());
            return None;
        }
    };
    let curve = doc.curve.map(|curve| warm::curve(curve, problems));
    let metal = metal?;
    let cooling = match &doc.cooling {
        Some(cooling) => Some(warm::cooling(cooling, &metal, problems)?),
        None => None,
    };
    let questions = WarmQuestions {
        compared,
        cooling,
        curve: match curve {
            Some(curve) => Some(curve?),
            None => None,
        },
    };
    Some((metal, questions))
}

/// How warm the metal is, where one rule at most says how the lash follows.
pub(crate) fn one_rule(
    doc: OneRuleDoc,
    rocker_ratio: Option<f64>,
    assumed: &mut Vec<String>,
    problems: &mut Vec<Problem>,
) -> Option<Metal> {
    match (doc.parts, doc.temperatures, doc.temperature, doc.measured) {
        (None, None, Some(t), None) => {
            let uncertainty = how_sure(t.uncertainty.as_ref(), "the metal", assumed);
            Some(Metal::At {
                temperature: t.is.0,
                uncertainty,
            })
        }
        (None, None, Some(t), Some(list)) => coefficient(&t, &list, assumed, problems),
        (Some(parts), Some(named), None, None) => {
            chain(parts, named, rocker_ratio, assumed, problems)
        }
        _ => {
            problems.push(mixed());
            None
        }
    }
}

fn mixed() -> Problem {
    Problem::new(
        "/metal",
        "thermal.mixed",
        "these fields do not go together",
        "give \"temperature\" alone, \"temperature\" with \"measured\", or \"parts\" with \
         \"temperatures\"; in a whole job all four with \"use\"",
    )
}

/// The uncertainty of a temperature as stated, or the one that is taken otherwise.
fn how_sure(
    stated: Option<&Q<TemperatureDifference>>,
    name: &str,
    assumed: &mut Vec<String>,
) -> TemperatureDifference {
    if let Some(stated) = stated {
        return stated.0;
    }
    assumed.push(name.to_owned());
    ASSUMED_THERMOMETER
}

fn coefficient(
    now: &WarmthDoc,
    list: &[MeasuredDoc],
    assumed: &mut Vec<String>,
    problems: &mut Vec<Problem>,
) -> Option<Metal> {
    let mut points = Vec::new();
    for (i, m) in list.iter().enumerate() {
        let place = format!("/metal/measured/{i}/lash");
        let lash = value!(problems, place, Lash::from_nominal(m.lash.0.nominal()))?;
        points.push((m.at.0, lash, m.uncertainty.0.mm()));
    }
    let fit = value!(problems, "/metal/measured", fit_coefficient(&points))?;
    Some(Metal::Coefficient {
        coefficient: fit.coefficient,
        temperature: now.is.0,
        uncertainty: how_sure(now.uncertainty.as_ref(), "the metal", assumed),
    })
}

fn chain(
    parts: Vec<LinkDoc>,
    named: Vec<NamedWarmthDoc>,
    rocker_ratio: Option<f64>,
    assumed: &mut Vec<String>,
    problems: &mut Vec<Problem>,
) -> Option<Metal> {
    let mut temperatures = PartTemperatures::new();
    for (i, t) in named.into_iter().enumerate() {
        let u = how_sure(t.uncertainty.as_ref(), &t.name, assumed);
        if temperatures.insert(t.name.clone(), (t.is.0, u)).is_some() {
            problems.push(Problem::new(
                format!("/metal/temperatures/{i}/name"),
                "thermal.name-twice",
                format!("{:?} names two temperatures", t.name),
                "give each temperature its own name",
            ));
        }
    }
    let stated = parts.len();
    let links: Vec<Link> = parts
        .into_iter()
        .enumerate()
        .filter_map(|(i, l)| link(l, &format!("/metal/parts/{i}"), problems))
        .collect();
    // A part that failed is reported already; a shorter chain would only add false faults.
    if links.len() < stated {
        return None;
    }
    let chain = value!(
        problems,
        "/metal",
        Chain::new(links, rocker_ratio.unwrap_or(1.0))
    );
    Some(Metal::Chain {
        chain: chain?,
        temperatures,
    })
}

fn link(doc: LinkDoc, place: &str, problems: &mut Vec<Problem>) -> Option<Link> {
    let found = material(&doc.material);
    if found.is_none() {
        let known: Vec<&str> = materials().iter().map(|m| m.name.as_ref()).collect();
        problems.push(crate::problems::unknown(
            format!("{place}/material"),
            "thermal.no-such-material",
            &format!("{:?} is not in the material table", doc.material),
            &doc.material,
            &known,
        ));
    }
    let follows = match (doc.follows, doc.between) {
        (Some(name), None) => Some(Follows::Named(name)),
        (None, Some(b)) => Some(Follows::Between {
            cold: b.cold,
            hot: b.hot,
            fraction: b.fraction,
            fraction_u: b.fraction_uncertainty,
        }),
        _ => {
            problems.push(Problem::new(
                place,
                "thermal.follows",
                "a part follows one temperature, or lies between two",
                "give exactly one of \"follows\" and \"between\"",
            ));
            None
        }
    };
    Some(Link {
        part: doc.part,
        material: found?.clone(),
        length: doc.length.0,
        length_uncertainty: doc.length_uncertainty.0,
        side: match doc.side {
            SideDoc::Cam => Side::Cam,
            SideDoc::Valve => Side::Valve,
        },
        effect: match doc.effect {
            EffectDoc::Opens => Effect::Opens,
            EffectDoc::Closes => Effect::Closes,
        },
        follows: follows?,
    })
}
