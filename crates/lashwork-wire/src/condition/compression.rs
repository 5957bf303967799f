//! Cranking compression in a document.

use super::{gauge_u, label_at};
use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::condition::compression::{
    BuildUp, CompressionRule, CrankingState, CylinderReading, Exponent,
};
use lashwork::job::condition::{Compression, CompressionField, GaugeUnit};
use lashwork::quantity::{GaugePressure, PressureDifference, Volume};

named!(BuildUp as "BuildUpDoc" {
    /// High at the first stroke, and evenly on to its end.
    Even = "even",
    /// Low at the first stroke, building with each.
    LowThenBuilds = "low_then_builds",
    /// Low at the first stroke, and not building.
    StaysLow = "stays_low",
});

parts! {
    /// Cranking compression: what the gauge showed at the end of the strokes.
    CompressionDoc {
        /// One for each cylinder that was read.
        readings: Vec<CompressionReadingDoc>,
        /// Printed rules; each is judged by itself.
        rules: Option<Vec<CompressionRuleDoc>>,
        /// How the engine was cranked.
        cranked: Option<CrankedDoc>,
        /// Oil in each cylinder at the readings with oil.
        oil: Option<Q<Volume>>,
        /// Exponent of compression; from 1.15 to 1.30 if not stated.
        exponent: Option<ExponentDoc>,
        /// Standard deviation between two readings of one cylinder; 15 kPa is assumed, and listed, if not stated.
        repeat: Option<Q<PressureDifference>>,
        /// Standard uncertainty of the gauge itself, the same for all cylinders; 20 kPa is assumed, and listed, if
        /// not stated.
        gauge_uncertainty: Option<Q<PressureDifference>>,
        /// The unit in which pressures are said; kPa if not stated.
        unit: Option<W<GaugeUnit>>,
    }
    /// What the gauge showed of a cylinder.
    CompressionReadingDoc {
        cylinder: String,
        /// Without oil.
        dry: Q<GaugePressure>,
        /// With oil on the piston.
        wet: Option<Q<GaugePressure>>,
        /// How the gauge rose, without oil.
        build_up: Option<W<BuildUp>>,
    }
    /// A printed rule: one of the three.
    CompressionRuleDoc {
        /// The lowest cylinder at least so many per cent of the highest.
        percent_of_highest: Option<f64>,
        /// At most so much from the lowest to the highest.
        most_between: Option<Q<PressureDifference>>,
        /// Every cylinder at least this, as printed for sea level.
        least: Option<Q<GaugePressure>>,
    }
    /// How the engine was cranked; what is left out is not known.
    CrankedDoc {
        warm: Option<bool>,
        /// Throttle and choke.
        throttle_open: Option<bool>,
        all_plugs_out: Option<bool>,
        /// Whether the battery cranked the last cylinder as fast as the first.
        battery_good: Option<bool>,
        /// Compression strokes of each cylinder.
        strokes: Option<u8>,
    }
    /// Exponent of compression, from and to.
    ExponentDoc { from: f64, to: f64 }
}

const AT: &str = "/condition/compression";

/// What was read, in typed values.
pub(super) fn compression(doc: CompressionDoc, problems: &mut Vec<Problem>) -> Option<Compression> {
    let mut made = Compression::default();
    let rules = doc.rules.unwrap_or_default();
    let is_short = is_short(&doc.readings, &format!("{AT}/readings"), problems)
        && is_short(&rules, &format!("{AT}/rules"), problems);
    if !is_short {
        return None;
    }
    for (i, one) in doc.readings.iter().enumerate() {
        let place = format!("{AT}/readings/{i}/cylinder");
        made.readings.push(CylinderReading {
            cylinder: label_at(&one.cylinder, place, problems)?,
            dry: one.dry.0,
            wet: one.wet.map(|wet| wet.0),
            build_up: one.build_up.map(|word| word.0),
        });
    }
    for (i, one) in rules.iter().enumerate() {
        made.rules
            .push(rule(one, &format!("{AT}/rules/{i}"), problems)?);
    }
    if let Some(doc) = doc.cranked {
        made.cranked = CrankingState {
            warm: doc.warm,
            throttle_open: doc.throttle_open,
            all_plugs_out: doc.all_plugs_out,
            battery_good: doc.battery_good,
            strokes: doc.strokes.map(u32::from),
        };
    }
    made.oil = doc.oil.map(|it| it.0);
    if let Some(doc) = doc.exponent {
        let exponent = Exponent::between(doc.from, doc.to);
        made.exponent = Some(value(problems, format!("{AT}/exponent"), exponent)?);
    }
    made.repeat = gauge_u(doc.repeat.as_ref(), format!("{AT}/repeat"), problems)?;
    let place = format!("{AT}/gauge_uncertainty");
    made.gauge = gauge_u(doc.gauge_uncertainty.as_ref(), place, problems)?;
    made.unit = doc.unit.map_or_else(GaugeUnit::default, |word| word.0);
    Some(made)
}

fn rule(
    doc: &CompressionRuleDoc,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<CompressionRule> {
    let (made, field) = match (doc.percent_of_highest, doc.most_between, doc.least) {
        (Some(percent), None, None) => (CompressionRule::ratio(percent), "percent_of_highest"),
        (None, Some(most), None) => (CompressionRule::difference(most.0), "most_between"),
        (None, None, Some(least)) => (CompressionRule::minimum(least.0), "least"),
        _ => {
            problems.push(Problem::new(
                place,
                "condition.one-rule",
                "the rule says none of three things, or more than one",
                "give one of percent_of_highest, most_between and least; write a second rule for a second",
            ));
            return None;
        }
    };
    value(problems, format!("{place}/{field}"), made)
}

/// Where a field stands in the condition section.
pub(super) fn pointer(field: CompressionField) -> String {
    use CompressionField as F;
    let rest = match field {
        F::Readings => "/readings".into(),
        F::Reading(i) => format!("/readings/{i}"),
        F::Cylinder(i) => format!("/readings/{i}/cylinder"),
        F::Wet(i) => format!("/readings/{i}/wet"),
        F::Rules => "/rules".into(),
        F::Exponent => "/exponent".into(),
        F::Oil => "/oil".into(),
        F::Repeat => "/repeat".into(),
        _ => String::new(),
    };
    format!("/compression{rest}")
}
