//! Leak-down in a document.

use super::{gauge_u, label_at};
use crate::problem::{Problem, is_short};
use crate::quantity::Q;
use crate::word::W;
use lashwork::condition::leak::{Hiss, RuleBy};
use lashwork::job::condition::{
    GaugeUnit, LeakDown, LeakDownReading, LeakDownRule, LeakField, LeakTester, OrificeKnown,
};
use lashwork::quantity::{GaugePressure, Length, PressureDifference};

named!(RuleBy as "LeakRuleByDoc" {
    /// What the tester shows; only the rule's own tester may be used.
    Face = "face",
    /// The area of the leak, by any tester.
    Area = "area",
});

/// Where it hissed, but for plug holes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum HissWord {
    Intake,
    Exhaust,
    Breather,
    Coolant,
    GasketEdge,
}

named!(HissWord as "HissDoc" {
    /// At the carburettor or the air filter.
    Intake = "intake",
    /// At the exhaust.
    Exhaust = "exhaust",
    /// At the oil filler, the breather or the dipstick.
    Breather = "breather",
    /// Bubbles in the coolant.
    Coolant = "coolant",
    /// At the edge of the head gasket.
    GasketEdge = "gasket_edge",
});

parts! {
    /// Leak-down: what stands in each cylinder, the piston held at top dead centre of its compression stroke.
    LeakDownDoc {
        /// The tester of the readings that name none of their own.
        tester: Option<LeakTesterDoc>,
        /// One for each cylinder that was read.
        readings: Vec<LeakReadingDoc>,
        /// A printed rule.
        rule: Option<LeakRuleDoc>,
        /// What the rule is held against; the area, if not stated.
        by: Option<W<RuleBy>>,
        /// Standard uncertainty of the tester's gauge; 5 kPa is assumed, and listed, if not stated.
        gauge_uncertainty: Option<Q<PressureDifference>>,
        warm: Option<bool>,
        /// The unit in which pressures are said; kPa if not stated.
        unit: Option<W<GaugeUnit>>,
    }
    /// A tester: what it supplies, and its orifice in one of three ways.
    LeakTesterDoc {
        supply: Q<GaugePressure>,
        /// Its standard uncertainty; 5 kPa is assumed, and listed, if not stated.
        supply_uncertainty: Option<Q<PressureDifference>>,
        /// Diameter of the orifice between the gauges.
        orifice: Option<Q<Length>>,
        /// Whether the orifice is that for the bore, as FAA AC 43.13-1B asks.
        orifice_of_bore: Option<bool>,
        /// What the tester shows of a hole of known size.
        master: Option<MasterDoc>,
        /// Standard uncertainty of the diameter of the orifice, or of the hole; 0.02 mm is assumed, and listed, if
        /// not stated.
        diameter_uncertainty: Option<Q<Length>>,
    }
    /// A hole of known size, and what the tester shows of it.
    MasterDoc {
        /// Its diameter.
        hole: Q<Length>,
        shows: Q<GaugePressure>,
    }
    /// What a tester showed of a cylinder.
    LeakReadingDoc {
        cylinder: String,
        /// What stands in the cylinder.
        shows: Q<GaugePressure>,
        /// Whether the piston was held at top dead centre of its compression stroke.
        held: bool,
        /// Where it hissed.
        hisses: Option<Vec<W<HissWord>>>,
        /// The cylinders at whose plug holes it hissed.
        plug_holes: Option<Vec<String>>,
        /// The tester, if it is another than that of the rest.
        tester: Option<LeakTesterDoc>,
    }
    /// A printed rule: so much of the supply must stand in the cylinder.
    LeakRuleDoc {
        /// 60 of 80 psi with the orifice for the bore, as quoted from FAA AC 43.13-1B.
        of_bore: Option<bool>,
        /// What is supplied.
        supply: Option<Q<GaugePressure>>,
        /// Diameter of the orifice of the rule's tester.
        orifice: Option<Q<Length>>,
        /// The least that must stand in the cylinder.
        least: Option<Q<GaugePressure>>,
    }
}

const AT: &str = "/condition/leak";

/// What was read, in typed values.
pub(super) fn leak(doc: &LeakDownDoc, problems: &mut Vec<Problem>) -> Option<LeakDown> {
    let mut made = LeakDown::default();
    if !is_short(&doc.readings, &format!("{AT}/readings"), problems) {
        return None;
    }
    if let Some(doc) = &doc.tester {
        made.tester = Some(tester(doc, &format!("{AT}/tester"), problems)?);
    }
    for (i, one) in doc.readings.iter().enumerate() {
        made.readings
            .push(reading(one, &format!("{AT}/readings/{i}"), problems)?);
    }
    if let Some(doc) = &doc.rule {
        made.rule = Some(rule(doc, problems)?);
    }
    if let Some(by) = doc.by {
        made.by = by.0;
    }
    let place = format!("{AT}/gauge_uncertainty");
    made.gauge = gauge_u(doc.gauge_uncertainty.as_ref(), place, problems)?;
    made.warm = doc.warm;
    made.unit = doc.unit.map_or_else(GaugeUnit::default, |word| word.0);
    Some(made)
}

fn reading(
    doc: &LeakReadingDoc,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<LeakDownReading> {
    let words = doc.hisses.iter().flatten().map(|word| match word.0 {
        HissWord::Intake => Hiss::Intake,
        HissWord::Exhaust => Hiss::Exhaust,
        HissWord::Breather => Hiss::Breather,
        HissWord::Coolant => Hiss::Coolant,
        HissWord::GasketEdge => Hiss::GasketEdge,
    });
    let mut hisses: Vec<Hiss> = words.collect();
    for (j, label) in doc.plug_holes.iter().flatten().enumerate() {
        let label = label_at(label, format!("{place}/plug_holes/{j}"), problems)?;
        hisses.push(Hiss::PlugHole(label));
    }
    let own = match &doc.tester {
        None => None,
        Some(doc) => Some(tester(doc, &format!("{place}/tester"), problems)?),
    };
    Some(LeakDownReading {
        cylinder: label_at(&doc.cylinder, format!("{place}/cylinder"), problems)?,
        tester: own,
        shown: doc.shows.0,
        held: doc.held,
        hisses,
    })
}

fn tester(doc: &LeakTesterDoc, place: &str, problems: &mut Vec<Problem>) -> Option<LeakTester> {
    let u = doc.diameter_uncertainty.map(|u| u.0);
    let of_bore = doc.orifice_of_bore.unwrap_or(false);
    let orifice = match (&doc.orifice, &doc.master, of_bore) {
        (Some(diameter), None, false) => OrificeKnown::Diameter {
            diameter: diameter.0,
            u,
        },
        (None, Some(master), false) => OrificeKnown::Master {
            hole: master.hole.0,
            u,
            shows: master.shows.0,
        },
        (None, None, true) => OrificeKnown::OfBore,
        _ => {
            problems.push(Problem::new(
                place,
                "condition.leak-one-orifice",
                "the orifice is known in none of three ways, or in more than one; without it a percentage says nothing",
                "give one of orifice, orifice_of_bore and master",
            ));
            return None;
        }
    };
    let supply_u = doc.supply_uncertainty.as_ref();
    Some(LeakTester {
        supply: doc.supply.0,
        supply_u: gauge_u(supply_u, format!("{place}/supply_uncertainty"), problems)?,
        orifice,
    })
}

fn rule(doc: &LeakRuleDoc, problems: &mut Vec<Problem>) -> Option<LeakDownRule> {
    let of_bore = doc.of_bore.unwrap_or(false);
    match (of_bore, doc.supply, doc.orifice, doc.least) {
        (true, None, None, None) => Some(LeakDownRule::OfBore),
        (false, Some(supply), Some(orifice), Some(least)) => Some(LeakDownRule::Printed {
            supply: supply.0,
            orifice: orifice.0,
            least: least.0,
        }),
        _ => {
            problems.push(Problem::new(
                format!("{AT}/rule"),
                "condition.leak-half-rule",
                "a rule of leak-down holds for one supply and one orifice, and not all of that is stated",
                "give supply, orifice and least, or of_bore alone",
            ));
            None
        }
    }
}

/// Where a field stands in the condition section.
pub(super) fn pointer(field: LeakField) -> String {
    use LeakField as F;
    let rest = match field {
        F::Tester => "/tester".into(),
        F::Readings => "/readings".into(),
        F::Reading(i) => format!("/readings/{i}"),
        F::Cylinder(i) => format!("/readings/{i}/cylinder"),
        F::Shown(i) => format!("/readings/{i}/shows"),
        F::Held(i) => format!("/readings/{i}/held"),
        F::OwnTester(i) => format!("/readings/{i}/tester"),
        F::Rule => "/rule".into(),
        _ => String::new(),
    };
    format!("/leak{rest}")
}
