//! What the compression is as evidence for the steps after it, where it is beyond doubt.

use super::{Compression, CompressionCylinderReport, CompressionReport};
use crate::condition::compression::{CompressionCause, CylinderReading, USUAL_GAUGE, USUAL_REPEAT};
use crate::engine::CylinderLabel;
use crate::job::condition::ForRecord;
use crate::mixture::gauge::CompressionFound;
use crate::quantity::GaugePressure;
use crate::tolerance::{Estimate, FIRM, Uncertainty, Verdict};
use alloc::string::String;
use alloc::vec::Vec;

/// Whether compression of a cylinder is wrong; none if that is not certain.
fn is_wrong(one: &CompressionCylinderReport) -> Option<bool> {
    if one.causes.is_empty() {
        return None;
    }
    let is_sound = |cause: CompressionCause| cause == CompressionCause::Sound;
    let sound = one.causes.iter().find(|one| is_sound(one.cause));
    let sound = sound.map_or(0.0, |one| one.probability);
    match sound {
        p if p >= FIRM => Some(false),
        p if p <= 1.0 - FIRM => Some(true),
        _ => None,
    }
}

/// The cylinders of which that is certain, and whether their compression is wrong; none of a cranking that moves
/// the readings.
pub(in crate::job::condition) fn by_cylinder(
    asked: &Compression,
    found: &CompressionReport,
) -> Vec<(CylinderLabel, bool)> {
    if !found.faults.is_empty() || is_all_low(found) {
        return Vec::new();
    }
    let both = asked.readings.iter().zip(&found.cylinders);
    let certain = both.filter_map(|(read, one)| Some((read.cylinder.clone(), is_wrong(one)?)));
    certain.collect()
}

/// What each cylinder showed, for the record of the years, or why it does not go there.
pub(in crate::job::condition) fn shown(
    asked: &Compression,
    found: &CompressionReport,
) -> Result<ForRecord<GaugePressure>, String> {
    if let Some(fault) = found.fault_texts.first() {
        return Err(fault.clone());
    }
    let repeat = asked.repeat.map_or(USUAL_REPEAT, Uncertainty::number);
    let gauge = asked.gauge.map_or(USUAL_GAUGE, Uncertainty::number);
    let u = libm::hypot(repeat, gauge);
    let of = |read: &CylinderReading| {
        let shown = read.dry.kilopascals();
        let read_as = Estimate::from_numbers(shown, shown, u).ok()?;
        Some((read.cylinder.clone(), read_as))
    };
    Ok(ForRecord {
        readings: asked.readings.iter().filter_map(of).collect(),
        but: None,
    })
}

fn is_all_low(found: &CompressionReport) -> bool {
    found.level.as_ref().is_some_and(|level| level.low >= FIRM)
}

/// What was found of all; none if that is not certain, or if the cranking moves the readings.
pub(in crate::job::condition) fn of_all(
    asked: &Compression,
    found: &CompressionReport,
) -> Option<CompressionFound> {
    if !found.faults.is_empty() {
        return None;
    }
    if is_all_low(found) {
        return Some(CompressionFound::AllLow);
    }
    let certain = by_cylinder(asked, found);
    let low: Vec<&CylinderLabel> = (certain.iter().filter(|(_, wrong)| *wrong))
        .map(|(label, _)| label)
        .collect();
    match low.as_slice() {
        [] => {
            let is_even = certain.len() == found.cylinders.len()
                && found.not_read.is_empty()
                && found
                    .rules
                    .iter()
                    .all(|one| one.judged.verdict == Verdict::InBand)
                && (found.level.as_ref()).is_none_or(|one| one.verdict != Verdict::Below);
            is_even.then_some(CompressionFound::Even)
        }
        [one, other] => {
            let is_theirs = |pair: &[String; 2]| {
                pair.iter()
                    .all(|label| label == one.as_str() || label == other.as_str())
            };
            let mut gaskets = found.gaskets.iter();
            Some(if gaskets.any(|one| is_theirs(&one.between)) {
                CompressionFound::NeighboursLow
            } else {
                CompressionFound::OneLow
            })
        }
        _ => Some(CompressionFound::OneLow),
    }
}
