//! What new parts do before they have bedded in.

use super::answer::{Bedding, Figure};
use super::course::{Reading, Stretch};
use super::drift::Drift;
use crate::tolerance::Measurand;
use alloc::vec::Vec;

impl<Q: Measurand> Drift<Q> {
    /// By how much new parts moved while they bedded in: from what was left to where the line begins.
    /// Nothing for a subject without such parts, or not read before and after.
    #[must_use]
    pub fn bedding(&self, subject: usize) -> Vec<Bedding> {
        let Some(member) = self.member(subject) else {
            return Vec::new();
        };
        let with_level = member.course.stretches.iter().filter(|s| s.has_level());
        let of = |(place, stretch): (usize, &Stretch)| {
            let set_at = stretch.begin?;
            let left = stretch
                .bedding
                .iter()
                .find(|reading| reading.has_both_ends())?;
            let (_, mut moved) = self.at(member, place, set_at);
            for (_, mean, sd) in &mut moved.parts {
                *mean -= left.middle();
                *sd = libm::hypot(*sd, libm::sqrt(Reading::variance(left)));
            }
            Some(Bedding {
                set_at,
                amount: Figure::of(&moved),
            })
        };
        with_level.enumerate().filter_map(of).collect()
    }
}
