//! Each cylinder beside the others: what lowers it, what oil said of it, and the gaskets to its neighbours.

use super::advise::{Told, is_sound};
use super::answer::{CompressionCauseReport, CompressionCylinderReport, CompressionGasketReport};
use super::words;
use crate::condition::compression::{
    CompressionCause, CylinderAnswer, CylinderReading, GasketBetween, WeighedCause,
};
use crate::job::text::percent;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Causes less probable than this are not told.
const TOLD: f64 = 0.01;

impl Told<'_> {
    /// The cylinders that are not sound.
    pub(super) fn low(&self) -> String {
        let unsound = self.answer.cylinders.iter().filter(|one| !is_sound(one));
        let labels: Vec<&str> = unsound.map(|one| one.cylinder.as_str()).collect();
        match labels.as_slice() {
            [one] => format!("cylinder {one}"),
            [all @ .., last] => format!("cylinders {} and {last}", all.join(", ")),
            [] => String::from("every cylinder"),
        }
    }

    pub(super) fn cylinder(
        &self,
        read: &CylinderReading,
        found: &CylinderAnswer,
        dry_only: &CylinderAnswer,
    ) -> CompressionCylinderReport {
        let expected = found.expected.and_then(|it| it.centre());
        let likely = found.causes.iter().filter(|one| one.probability >= TOLD);
        let causes: Vec<CompressionCauseReport> = likely.map(of_cause).collect();
        let said = causes
            .iter()
            .map(|one| format!("{} {}", one.text, percent(one.probability)));
        let said: Vec<String> = said.collect();
        let wet = read.wet.map(|wet| format!(", {} with oil", self.say(wet)));
        let own = if self.own_closing.contains(&&read.cylinder) {
            ", for its own clearances,"
        } else {
            ""
        };
        let by = expected.map(|by| format!("; by the others{own} {}", self.say(by)));
        let text = format!(
            "{}{}{}: {}",
            self.say(read.dry),
            wet.unwrap_or_default(),
            by.unwrap_or_default(),
            if said.is_empty() {
                String::from("nothing to compare with")
            } else {
                said.join(", ")
            }
        );
        CompressionCylinderReport {
            name: format!("cylinder {}", read.cylinder),
            dry: read.dry,
            wet: read.wet,
            build_up: read.build_up,
            expected,
            expected_u: found.expected.map(|it| it.normal_uncertainty().number()),
            share: found.share,
            share_u: found.share_u,
            causes,
            text,
            oil_text: self.oil(read, found, dry_only),
        }
    }

    /// What oil said of a cylinder: how far it moved the belief in rings.
    fn oil(
        &self,
        read: &CylinderReading,
        found: &CylinderAnswer,
        dry_only: &CylinderAnswer,
    ) -> Option<String> {
        let wet = read.wet?;
        let rose = wet.kilopascals() - read.dry.kilopascals();
        let rose = self.asked.unit.say(rose.max(0.0));
        let rings = |one: &CylinderAnswer| {
            let rings = one
                .causes
                .iter()
                .find(|w| w.cause == CompressionCause::Rings);
            rings.map(|w| w.probability)
        };
        let (before, after) = (rings(dry_only)?, rings(found)?);
        if is_sound(found) && is_sound(dry_only) {
            return Some(format!(
                "{rose} more; oil takes room and raises a sound cylinder too"
            ));
        }
        let speaks = if after > before { "for" } else { "against" };
        Some(format!(
            "{rose} more, which speaks {speaks} the rings: {} before, {} after",
            percent(before),
            percent(after)
        ))
    }

    pub(super) fn gaskets(&self) -> Vec<CompressionGasketReport> {
        let likely = self
            .answer
            .gaskets
            .iter()
            .filter(|one| one.probability >= TOLD);
        let told = |one: &GasketBetween| CompressionGasketReport {
            between: [one.first.to_string(), one.second.to_string()],
            probability: one.probability,
            text: format!(
                "head gasket between cylinders {} and {}: leaks with {}",
                one.first,
                one.second,
                percent(one.probability)
            ),
        };
        likely.map(told).collect()
    }
}

fn of_cause(one: &WeighedCause) -> CompressionCauseReport {
    CompressionCauseReport {
        cause: one.cause,
        probability: one.probability,
        text: words::cause(one.cause),
    }
}
