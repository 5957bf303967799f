//! Cranking compression: expected against read, rules side by side, and what lowers a cylinder.

mod advise;
mod answer;
mod cylinders;
mod engine;
mod found;
pub(super) mod sheet;
mod words;

pub(super) use found::{by_cylinder, of_all, shown};

pub use answer::{
    CompressionCauseReport, CompressionCylinderReport, CompressionGasketReport,
    CompressionLevelReport, CompressionNextReport, CompressionReport, CompressionRuleReport,
};

use super::GaugeUnit;
use super::ground::{Ground, stranger};
use super::place::{CompressionField, ConditionPlace};
use crate::condition::compression::{
    CompressionAssumption, CompressionError, CompressionLook, CompressionRule, CompressionTest,
    CrankingState, CylinderReading, Exponent, OilAdded,
};
use crate::engine::CylinderLabel;
use crate::job::assumptions::{Assumptions, TakenForGranted};
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Before, Standing, WorkAdvice};
use crate::quantity::{GaugePressure, Volume};
use crate::tolerance::{Uncertainty, Verdict};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// A closing is told apart from the mean from so many degrees on: under half a per cent of compression.
const WORTH_TELLING: f64 = 0.5;

/// What the gauge showed.
///
/// ```
/// use lashwork::condition::compression::CylinderReading;
/// use lashwork::engine::CylinderLabel;
/// use lashwork::job::condition::Compression;
/// use lashwork::quantity::GaugePressure;
/// let mut asked = Compression::default();
/// let shown = GaugePressure::parse("9.5 bar")?;
/// asked.readings = vec![CylinderReading::dry(CylinderLabel::numbered(1), shown)];
/// assert!(asked.rules.is_empty());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub struct Compression {
    /// One for each cylinder that was read.
    pub readings: Vec<CylinderReading>,
    /// Printed rules.
    pub rules: Vec<CompressionRule>,
    /// How the engine was cranked.
    pub cranked: CrankingState,
    /// Oil in each cylinder at the wet readings.
    pub oil: Option<Volume>,
    /// Exponent of compression; the usual range if not stated.
    pub exponent: Option<Exponent>,
    /// Standard deviation between readings of one cylinder.
    pub repeat: Option<Uncertainty<GaugePressure>>,
    /// That of the gauge itself, the same for all cylinders.
    pub gauge: Option<Uncertainty<GaugePressure>>,
    /// The unit in which pressures are said.
    pub unit: GaugeUnit,
}

/// Works it out, by where the head's bolts and the valve clearances stand.
pub(super) fn report(
    asked: &Compression,
    ground: &Ground<'_>,
    (head, valves): (Option<Standing>, Option<Standing>),
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<CompressionReport> {
    let strangers = asked.readings.iter().enumerate().filter_map(|(i, one)| {
        let place = ConditionPlace::Compression(CompressionField::Cylinder(i));
        stranger(ground.engine, &one.cylinder, place)
    });
    let strangers: Vec<Problem> = strangers.collect();
    if !strangers.is_empty() {
        problems.extend(strangers);
        return None;
    }
    let oil = asked.oil.zip(ground.swept);
    let test = CompressionTest {
        readings: asked.readings.clone(),
        rows: ground.rows.clone(),
        engine: ground.cranking,
        closings: ground.closings.clone(),
        exponent: asked.exponent,
        air: ground.air,
        rules: asked.rules.clone(),
        state: asked.cranked,
        oil: oil.map(|(oil, swept)| OilAdded { oil, swept }),
        repeat: asked.repeat,
        gauge: asked.gauge,
        clearances_good: match valves {
            Some(Standing::Settled) => Some(true),
            Some(Standing::NotSettled) => Some(false),
            Some(Standing::NotKnown) | None => None,
        },
    };
    let mut dry_only = test.clone();
    for one in &mut dry_only.readings {
        one.wet = None;
    }
    let both = test
        .weighed()
        .and_then(|answer| Ok((answer, dry_only.weighed()?)));
    let both = both.map_err(|why| problems.push(Problem::at(place(&why, asked), &why)));
    let (answer, dry_only) = both.ok()?;
    for one in &answer.assumptions {
        note(*one, assumptions);
    }
    if !asked.rules.is_empty() {
        assumptions.bears_on_verdict(
            "condition.compression-rule",
            "rules of compression are judged by simple acceptance (JCGM 106): met or not met, whichever is more likely",
        );
    }
    let read: Vec<&CylinderLabel> = asked.readings.iter().map(|one| &one.cylinder).collect();
    let told = advise::Told {
        asked,
        answer: &answer,
        dry_only: &dry_only,
        valves,
        head,
        before,
        leak_read: ground.leak_read.as_slice(),
        own_closing: own_closing(ground),
        not_read: ground.not_in(&read),
    };
    Some(told.report())
}

/// Cylinders whose intake closes so far from the mean that it is worth telling.
fn own_closing<'r>(ground: &'r Ground<'_>) -> Vec<&'r CylinderLabel> {
    if ground.cranking.is_none() {
        return Vec::new();
    }
    let all = ground.closings.iter();
    let all = all.filter_map(|(label, closes)| Some((label, closes.centre()?.degrees())));
    let all: Vec<(&CylinderLabel, f64)> = all.collect();
    let mean = all.iter().map(|(_, closes)| closes).sum::<f64>() / all.len().max(1) as f64;
    let is_apart = |(_, closes): &&(&CylinderLabel, f64)| (closes - mean).abs() >= WORTH_TELLING;
    let apart = all.iter().filter(is_apart);
    apart.map(|(label, _)| *label).collect()
}

/// Lists what was taken for granted; on some of it a verdict hangs.
fn note(one: CompressionAssumption, assumptions: &mut Assumptions) {
    use CompressionAssumption as A;
    if matches!(one, A::AirAssumed | A::RepeatAssumed | A::GaugeAssumed) {
        assumptions.bears_on_verdict(one.short_name(), one.to_string());
    } else {
        assumptions.add_all([&one]);
    }
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &CompressionReport) -> (Standing, String) {
    let is_low = |one: &CompressionRuleReport| one.judged.verdict != Verdict::InBand;
    let is_wrong = found.next.is_some() || found.rules.iter().any(is_low);
    let standing = if !found.faults.is_empty() {
        Standing::NotKnown
    } else if is_wrong {
        Standing::NotSettled
    } else if found.provisional.is_some() || !found.not_read.is_empty() {
        Standing::NotKnown
    } else {
        Standing::Settled
    };
    let lead = found.provisional.as_ref().map_or("", |_| "provisional: ");
    (standing, format!("{lead}{}", found.verdict_text))
}

/// Whether there is nothing to do on its account for now, or what there is stands with the leak-down that was read.
pub(super) fn may_stay(found: &CompressionReport) -> bool {
    let look = found.next.as_ref().map(|next| next.look);
    match found.advice {
        WorkAdvice::Leave { .. } => true,
        WorkAdvice::FindCause { .. } => look == Some(CompressionLook::LeakDown),
        _ => false,
    }
}

/// Where a refusal belongs.
fn place(why: &CompressionError, asked: &Compression) -> Place {
    use CompressionError as E;
    use CompressionField as F;
    let last = |label: &CylinderLabel, field: fn(usize) -> F| {
        let at = asked.readings.iter().rposition(|r| r.cylinder == *label);
        at.map_or(F::Readings, field)
    };
    let field = match why {
        E::NoReading => F::Readings,
        E::ReadTwice { cylinder } => last(cylinder, F::Cylinder),
        E::Shown { cylinder, .. } => last(cylinder, F::Reading),
        E::WetUnderDry { cylinder, .. } => last(cylinder, F::Wet),
        E::Repeat { .. } => F::Repeat,
        E::Exponent { .. } => F::Exponent,
        E::OneReading => F::Rules,
        E::OilFills { .. } => F::Oil,
        E::Ratio(_) => return Place::Condition(ConditionPlace::Ratio),
        E::Air { .. } | E::AirOf(_) => return Place::Condition(ConditionPlace::Air),
        _ => F::Section,
    };
    Place::Condition(ConditionPlace::Compression(field))
}
