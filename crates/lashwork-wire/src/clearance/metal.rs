//! The metal section: temperatures and how the lash follows them.

use super::cooling::{self, CoolingDoc, CurveDoc};
use crate::in_whole::InWhole;
use crate::problem::{Problem, unknown, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::job::clearance::WarmQuestions;
use lashwork::quantity::{Lash, Length, Marked, Quoted, Temperature, TemperatureDifference};
use lashwork::thermal::{
    Chain, Effect, Follows, Link, Metal, MetalTemperature, PartTemperatures, Side, TakenWith,
    fit_coefficient, material, materials,
};
use lashwork::valve::ValveKind;

named!(Side as "SideDoc" { Cam = "cam", Valve = "valve" });
named!(TakenWith as "TakenWithDoc" {
    /// A probe held against the metal, or screwed to it.
    Probe = "probe",
    /// An infrared thermometer aimed at tape or paint, or set to the emissivity of the metal.
    InfraredCorrected = "infrared_corrected",
    /// An infrared thermometer aimed at bare metal: tens of kelvin are taken, whatever is stated.
    Infrared = "infrared",
    /// By hand, by how long ago it ran, or by the temperature of the room.
    Guess = "guess",
});
named!(Effect as "EffectDoc" { Opens = "opens", Closes = "closes" });
words!(UseDoc {
    /// The readings are corrected by the chain of parts.
    Parts = "parts",
    /// The readings are corrected by the lash measured at several temperatures.
    Measured = "measured",
});

parts! {
    /// The metal temperature and how the lash follows it: `parts` with `temperatures`, or `measured` with
    /// `temperature`, or `temperature` alone; or both of the first two, with `use`.
    MetalDoc {
        temperature: Option<WarmthDoc>,
        parts: Option<InWhole<Vec<LinkDoc>>>,
        temperatures: Option<InWhole<Vec<NamedWarmthDoc>>>,
        /// Lash of one valve at several temperatures.
        measured: Option<InWhole<Vec<MeasuredDoc>>>,
        /// Which of `parts` and `measured` corrects the readings, where both are given.
        uses as "use": Option<UseDoc>,
        cooling: Option<CoolingDoc>,
        curve: Option<CurveDoc>,
    }
    /// The metal temperature, with at most one model of how the lash follows it; what a quick check takes.
    OneRuleDoc {
        temperature: Option<WarmthDoc>,
        parts: Option<InWhole<Vec<LinkDoc>>>,
        temperatures: Option<InWhole<Vec<NamedWarmthDoc>>>,
        measured: Option<InWhole<Vec<MeasuredDoc>>>,
    }
    /// A temperature with its standard uncertainty; one is assumed, and listed, if it is not stated.
    WarmthDoc {
        is: Q<Temperature>,
        uncertainty: Option<Q<TemperatureDifference>>,
        /// What it was taken with; a probe is assumed, and listed, if it is not stated.
        taken_with: Option<W<TakenWith>>,
    }
    /// A temperature with a name that parts follow, and its uncertainty as above.
    NamedWarmthDoc {
        name: String,
        is: Q<Temperature>,
        uncertainty: Option<Q<TemperatureDifference>>,
        /// What it was taken with; a probe is assumed, and listed, if it is not stated.
        taken_with: Option<W<TakenWith>>,
    }
    /// A part between cam and valve.
    LinkDoc {
        part: String,
        /// A name of the material table.
        material: String,
        length: Q<Length>,
        length_uncertainty: Q<Length>,
        side: W<Side>,
        effect: W<Effect>,
        /// The kind of valve in whose chain alone it stands; if not stated, in that of both.
        of: Option<W<ValveKind>>,
        /// The name of its temperature.
        follows: Option<String>,
        between: Option<BetweenDoc>,
    }
    /// A temperature between two: cold + fraction of (hot - cold).
    BetweenDoc { cold: String, hot: String, fraction: f64, fraction_uncertainty: f64 }
    /// Lash at a temperature.
    MeasuredDoc {
        at: Q<Temperature>,
        lash: Q<Marked>,
        uncertainty: Q<Marked>,
        /// The kind of valve it was measured at, and counts for alone; if not stated, for both.
        of: Option<W<ValveKind>>,
    }
}

impl WarmthDoc {
    fn temperature(&self) -> MetalTemperature {
        MetalTemperature {
            is: self.is.0,
            uncertainty: self.uncertainty.map(|u| u.0),
            taken_with: self.taken_with.map(|t| t.0),
        }
    }
}

/// The metal of all valves, or of the intake valves; and of the exhaust valves where it is another.
pub(crate) type Metals = (Metal, Option<Metal>);

/// Where the section stands.
const PLACE: &str = "/clearance/metal";

/// How warm the metal is, and what is asked about it.
pub(super) fn metal(
    doc: MetalDoc,
    rocker_ratio: Option<f64>,
    problems: &mut Vec<Problem>,
) -> Option<(Metals, WarmQuestions)> {
    let (metal, compared) = match (
        doc.parts,
        doc.temperatures,
        doc.temperature,
        doc.measured,
        doc.uses,
    ) {
        (Some(parts), Some(named), Some(t), Some(list), Some(uses)) => {
            let chain = chain(parts.0, named.0, rocker_ratio, PLACE, problems);
            let fitted = coefficient(&t, &list.0, PLACE, problems);
            let (used, other) = match uses {
                UseDoc::Parts => (chain, fitted),
                UseDoc::Measured => (fitted, chain),
            };
            (used, Some(other?.0))
        }
        (Some(_), Some(_), Some(_), Some(_), None) => {
            problems.push(Problem::new(
                PLACE,
                "thermal.use",
                "both \"parts\" and \"measured\" are given, but not which of them corrects the readings",
                "add \"use\": \"parts\" or \"use\": \"measured\"; the other is compared with it",
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
            (one_rule(doc, rocker_ratio, PLACE, problems), None)
        }
        (_, _, _, _, Some(_)) => {
            problems.push(mixed(PLACE));
            return None;
        }
    };
    let curve = doc.curve.map(|curve| cooling::curve(curve, problems));
    let metal = metal?;
    let cooling = match &doc.cooling {
        Some(cooling) => Some(cooling::cooling(cooling, &metal.0, problems)?),
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
    at: &str,
    problems: &mut Vec<Problem>,
) -> Option<Metals> {
    match (doc.parts, doc.temperatures, doc.temperature, doc.measured) {
        (None, None, Some(t), None) => Some((Metal::At(t.temperature()), None)),
        (None, None, Some(t), Some(list)) => coefficient(&t, &list.0, at, problems),
        (Some(parts), Some(named), None, None) => {
            chain(parts.0, named.0, rocker_ratio, at, problems)
        }
        _ => {
            problems.push(mixed(at));
            None
        }
    }
}

fn mixed(at: &str) -> Problem {
    Problem::new(
        at,
        "thermal.mixed",
        "these fields cannot be combined",
        "give \"temperature\" alone, \"temperature\" with \"measured\", or \"parts\" with \
         \"temperatures\"; in a whole job all four with \"use\"",
    )
}

fn coefficient(
    now: &WarmthDoc,
    list: &[MeasuredDoc],
    at: &str,
    problems: &mut Vec<Problem>,
) -> Option<Metals> {
    let mut points = Vec::new();
    for (i, m) in list.iter().enumerate() {
        let place = format!("{at}/measured/{i}/lash");
        let lash = value(problems, place, Lash::from_nominal(m.lash.0.nominal()))?;
        points.push((m.of, (m.at.0, lash, m.uncertainty.0.mm())));
    }
    let temperature = now.temperature();
    let mut fitted = |kind: Option<ValveKind>| {
        let of_kind = |of: Option<W<ValveKind>>| of.is_none_or(|of| Some(of.0) == kind);
        let points = points.iter().filter(|(of, _)| of_kind(*of));
        let points: Vec<_> = points.map(|(_, point)| *point).collect();
        if kind.is_some() && points.is_empty() {
            return Some(Metal::At(temperature));
        }
        let fit = value(problems, format!("{at}/measured"), fit_coefficient(&points))?;
        Some(Metal::Coefficient {
            coefficient: fit.coefficient,
            temperature,
        })
    };
    if list.iter().all(|m| m.of.is_none()) {
        return Some((fitted(None)?, None));
    }
    let (intake, exhaust) = (
        fitted(Some(ValveKind::Intake)),
        fitted(Some(ValveKind::Exhaust)),
    );
    Some((intake?, Some(exhaust?)))
}

fn chain(
    parts: Vec<LinkDoc>,
    named: Vec<NamedWarmthDoc>,
    rocker_ratio: Option<f64>,
    at: &str,
    problems: &mut Vec<Problem>,
) -> Option<Metals> {
    let mut temperatures = PartTemperatures::new();
    for (i, t) in named.into_iter().enumerate() {
        let known = MetalTemperature {
            is: t.is.0,
            uncertainty: t.uncertainty.map(|u| u.0),
            taken_with: t.taken_with.map(|t| t.0),
        };
        if temperatures.insert(t.name.clone(), known).is_some() {
            problems.push(Problem::new(
                format!("{at}/temperatures/{i}/name"),
                "thermal.name-twice",
                format!("{} names two temperatures", Quoted(&t.name)),
                "give each temperature its own name",
            ));
        }
    }
    let stated = parts.len();
    let links: Vec<(Option<ValveKind>, Link)> = parts
        .into_iter()
        .enumerate()
        .filter_map(|(i, l)| {
            let of = l.of.map(|of| of.0);
            Some((of, link(l, &format!("{at}/parts/{i}"), problems)?))
        })
        .collect();
    // A part that failed is reported already; a shorter chain would only add false faults.
    if links.len() < stated {
        return None;
    }
    let mut metal = |kind: Option<ValveKind>| {
        let is_here = |of: &Option<ValveKind>| of.is_none() || *of == kind;
        let follows = |here: bool, name: &str| {
            let mut those = links.iter().filter(|(of, _)| is_here(of) == here);
            those.any(|(_, link)| link.follows.names().any(|one| one == name))
        };
        // What only parts of the other kind follow has no place in this chain.
        let mut known = PartTemperatures::new();
        for (name, t) in temperatures.iter() {
            if follows(true, name) || !follows(false, name) {
                known.insert(name.to_owned(), t);
            }
        }
        let here = links.iter().filter(|(of, _)| is_here(of));
        let here = here.map(|(_, link)| link.clone()).collect();
        let chain = value(problems, at, Chain::new(here, rocker_ratio));
        Some(Metal::Chain {
            chain: chain?,
            temperatures: known,
        })
    };
    if links.iter().all(|(of, _)| of.is_none()) {
        return Some((metal(None)?, None));
    }
    let (intake, exhaust) = (
        metal(Some(ValveKind::Intake)),
        metal(Some(ValveKind::Exhaust)),
    );
    Some((intake?, Some(exhaust?)))
}

fn link(doc: LinkDoc, place: &str, problems: &mut Vec<Problem>) -> Option<Link> {
    let found = material(&doc.material);
    if found.is_none() {
        let known: Vec<&str> = materials().iter().map(|m| m.name.as_ref()).collect();
        problems.push(unknown(
            format!("{place}/material"),
            "thermal.no-such-material",
            &format!("{} is not in the material table", Quoted(&doc.material)),
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
                "a part either follows one temperature or lies between two",
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
        side: doc.side.0,
        effect: doc.effect.0,
        follows: follows?,
    })
}
