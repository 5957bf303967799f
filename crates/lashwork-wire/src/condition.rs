//! The condition section of a document.

mod columns;
mod compression;
mod events;
mod head;
mod leak;

pub use columns::{LEAK_OUTPUTS, leak_columns};

use crate::air::{AirDoc, air};
use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use crate::section::Section;
use crate::word::W;
use compression::{CompressionDoc, compression};
use events::{EventsSectionDoc, events};
use head::{HeadDoc, head};
use lashwork::condition::compression::HeadRows;
use lashwork::engine::{CompressionRatio, CylinderLabel};
use lashwork::job::Settled;
use lashwork::job::condition::{Condition, ConditionPlace, GaugeUnit};
use lashwork::quantity::{CrankAngle, GaugePressure, Length, PressureDifference, Volume};
use lashwork::tolerance::{Measurand, Uncertainty};
use leak::{LeakDownDoc, leak};

named!(GaugeUnit as "GaugeUnitDoc" {
    Kilopascal = "kpa",
    Bar = "bar",
    Psi = "psi",
    KilogramForce = "kgf/cm2",
});

parts! {
    /// Condition: the engine's dimensions as far as they bear on it, and what was read.
    ConditionSectionDoc {
        /// Whether the valve clearances are settled; what the clearance section finds goes before it.
        valves: Option<W<Settled>>,
        /// The air around; that of the mixture section, if none is stated here.
        #[cfg_attr(feature = "schema", schemars(default))]
        air: Option<AirDoc>,
        /// The printed compression ratio, as in 9 for 9 to 1.
        compression_ratio: Option<f64>,
        /// Its standard uncertainty: skimmed heads, carbon.
        compression_ratio_uncertainty: Option<f64>,
        /// Where the intake closes at the running lash, after bottom dead centre; of a two-stroke, where the
        /// exhaust port closes. By the lash that was read, if `events` is there, else as printed for the valves, if
        /// it is not stated here.
        intake_closes_abdc: Option<Q<CrankAngle>>,
        /// Its standard uncertainty.
        intake_closes_uncertainty: Option<Q<CrankAngle>>,
        /// Bore of the cylinders.
        bore: Option<Q<Length>>,
        /// Volume that one piston sweeps.
        cylinder_volume: Option<Q<Volume>>,
        /// Cylinders that stand side by side under one head, a list for each head, in the order in which they
        /// stand; empty where each has its own. By the layout of the engine, if not stated.
        heads: Option<Vec<Vec<String>>>,
        /// The head's bolts.
        #[cfg_attr(feature = "schema", schemars(default))]
        head: Option<HeadDoc>,
        /// Valve events at the lash that was read in the clearance section.
        #[cfg_attr(feature = "schema", schemars(default))]
        events: Option<EventsSectionDoc>,
        /// Cranking compression.
        #[cfg_attr(feature = "schema", schemars(default))]
        compression: Option<CompressionDoc>,
        /// Leak-down.
        #[cfg_attr(feature = "schema", schemars(default))]
        leak: Option<LeakDownDoc>,
    }
}

const AT: &str = "/condition";

/// The section in typed values.
pub(crate) fn condition(
    Section(doc): Section<ConditionSectionDoc>,
    problems: &mut Vec<Problem>,
) -> Option<Condition> {
    let mut made = Condition::default();
    made.valves = doc.valves.map(|word| word.0);
    made.air = doc.air.as_ref().map(air);
    if let Some(ratio) = doc.compression_ratio {
        let place = format!("{AT}/compression_ratio");
        made.ratio = Some(value(problems, place, CompressionRatio::new(ratio))?);
    }
    made.ratio_u = doc.compression_ratio_uncertainty;
    made.intake_closes = doc.intake_closes_abdc.map(|it| it.0);
    if let Some(u) = doc.intake_closes_uncertainty {
        let place = format!("{AT}/intake_closes_uncertainty");
        let u = Uncertainty::from_number(u.0.number());
        made.intake_closes_u = Some(value(problems, place, u)?);
    }
    made.bore = doc.bore.map(|it| it.0);
    made.swept = doc.cylinder_volume.map(|it| it.0);
    if let Some(doc) = doc.heads {
        made.heads = Some(heads(&doc, problems)?);
    }
    if let Some(doc) = doc.head {
        made.head = Some(head(doc, problems)?);
    }
    if let Some(doc) = doc.events {
        made.events = Some(events(&doc, problems)?);
    }
    if let Some(doc) = doc.compression {
        made.compression = Some(compression(doc, problems)?);
    }
    if let Some(doc) = doc.leak {
        made.leak = Some(leak(&doc, problems)?);
    }
    Some(made)
}

fn heads(doc: &[Vec<String>], problems: &mut Vec<Problem>) -> Option<HeadRows> {
    let place = format!("{AT}/heads");
    if !is_short(doc, &place, problems) {
        return None;
    }
    let mut rows = Vec::new();
    for (i, row) in doc.iter().enumerate() {
        if !is_short(row, &format!("{place}/{i}"), problems) {
            return None;
        }
        let of =
            |(j, label): (usize, &String)| label_at(label, format!("{place}/{i}/{j}"), problems);
        rows.push(row.iter().enumerate().map(of).collect::<Option<Vec<_>>>()?);
    }
    value(problems, place, HeadRows::new(rows))
}

/// The label of a cylinder.
fn label_at(label: &str, place: String, problems: &mut Vec<Problem>) -> Option<CylinderLabel> {
    value(problems, place, CylinderLabel::new(label))
}

/// A standard uncertainty of the gauge.
#[expect(
    clippy::option_option,
    reason = "outside: whether what was stated can be; inside: whether any was"
)]
fn gauge_u(
    stated: Option<&Q<PressureDifference>>,
    place: String,
    problems: &mut Vec<Problem>,
) -> Option<Option<Uncertainty<GaugePressure>>> {
    match stated {
        None => Some(None),
        Some(u) => {
            let u = Uncertainty::from_number(u.0.number());
            value(problems, place, u).map(Some)
        }
    }
}

/// Where a place of the section stands in it.
pub(crate) fn pointer(place: ConditionPlace) -> String {
    match place {
        ConditionPlace::Air => "/air".into(),
        ConditionPlace::Ratio => "/compression_ratio".into(),
        ConditionPlace::RatioUncertainty => "/compression_ratio_uncertainty".into(),
        ConditionPlace::IntakeCloses => "/intake_closes_abdc".into(),
        ConditionPlace::Heads => "/heads".into(),
        ConditionPlace::Head(field) => head::pointer(field),
        ConditionPlace::Events(field) => events::pointer(field),
        ConditionPlace::Compression(field) => compression::pointer(field),
        ConditionPlace::Leak(field) => leak::pointer(field),
        _ => String::new(),
    }
}
