//! The readings of one subject in the stretches between settings, as plain numbers.

use super::{CountedBy, HistoryError, Record, Reset};
use crate::tolerance::{Estimate, Measurand};
use alloc::vec::Vec;

/// A reading: between two values, one of which may be infinite, blurred.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reading {
    pub(super) at: f64,
    pub(super) low: f64,
    pub(super) high: f64,
    pub(super) u: f64,
    /// In which service it was taken.
    pub(super) service: usize,
}

impl Reading {
    fn of<Q: Measurand>(estimate: &Estimate<Q>, at: f64, service: usize) -> Self {
        let end = |end: Option<Q>, open: f64| end.map_or(open, Measurand::number);
        Self {
            at,
            low: end(estimate.low(), f64::NEG_INFINITY),
            high: end(estimate.high(), f64::INFINITY),
            u: estimate.normal_uncertainty().number(),
            service,
        }
    }

    pub(super) const fn has_both_ends(&self) -> bool {
        self.low.is_finite() && self.high.is_finite()
    }

    /// Half way, where both ends are known.
    pub(super) const fn middle(&self) -> f64 {
        self.low + 0.5 * (self.high - self.low)
    }

    /// Variance of a rectangle and a normal part (JCGM 100:2008, 4.3.7).
    pub(super) fn variance(&self) -> f64 {
        let width = self.high - self.low;
        width * width / 12.0 + self.u * self.u
    }
}

/// What lies between two settings.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Stretch {
    /// When it was set; nothing for what came before the record.
    pub(super) begin: Option<f64>,
    /// Readings while new parts bed in: not on the line.
    pub(super) bedding: Vec<Reading>,
    pub(super) readings: Vec<Reading>,
    /// Where bedding-in ends, if it is that of new parts.
    pub(super) is_renewed: bool,
}

impl Stretch {
    /// Whether its level is known from both sides.
    pub(super) fn has_level(&self) -> bool {
        self.readings.iter().any(Reading::has_both_ends)
    }
}

/// All stretches of a subject.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Course {
    pub(super) subject: usize,
    pub(super) stretches: Vec<Stretch>,
}

/// Which count the record goes by.
///
/// # Errors
/// [`HistoryError::NotCounted`], [`HistoryError::NoCommonCount`].
pub(super) fn counted_by<Q: Measurand>(
    record: &Record<Q>,
    asked: Option<CountedBy>,
) -> Result<CountedBy, HistoryError> {
    let missing = |by: CountedBy| {
        let mut services = record.services().iter();
        services.position(|service| service.used.count(by).is_none())
    };
    match asked {
        Some(by) => match missing(by) {
            Some(service) => Err(HistoryError::NotCounted { service, by }),
            None => Ok(by),
        },
        None => CountedBy::ALL
            .into_iter()
            .find(|by| missing(*by).is_none())
            .ok_or(HistoryError::NoCommonCount),
    }
}

impl Course {
    /// The readings of a subject up to and with a number of services.
    pub(super) fn of<Q: Measurand>(
        record: &Record<Q>,
        subject: usize,
        by: CountedBy,
        bedding_in: Option<f64>,
    ) -> Self {
        let (mut stretches, mut now) = (Vec::new(), Stretch::default());
        for (place, service) in record.services().iter().enumerate() {
            let Some(at) = service.used.count(by) else {
                continue;
            };
            let visits = service.visits.iter();
            let Some((_, visit)) = visits.into_iter().find(|(own, _)| *own == subject) else {
                continue;
            };
            if let Some(found) = &visit.found {
                now.take(Reading::of(found, at, place), false, bedding_in);
            }
            if let Some(reset) = visit.reset {
                stretches.push(core::mem::take(&mut now));
                now.begin = Some(at);
                now.is_renewed = reset == Reset::Renewed;
            }
            if let Some(left) = &visit.left {
                let at = visit.left_at.and_then(|used| used.count(by)).unwrap_or(at);
                now.take(Reading::of(left, at, place), true, bedding_in);
            }
        }
        stretches.push(now);
        Self { subject, stretches }
    }

    /// The stretch it is in now.
    pub(super) fn last(&self) -> Option<&Stretch> {
        self.stretches.last()
    }

    /// Readings on lines, and how many lines they are on.
    pub(super) fn counts(&self) -> (usize, usize) {
        let usable = self.stretches.iter().filter(|stretch| stretch.has_level());
        usable.fold((0, 0), |(readings, lines), stretch| {
            let both = stretch.readings.iter().filter(|r| r.has_both_ends());
            (readings + both.count(), lines + 1)
        })
    }

    /// Only what was read in a service and after it.
    pub(super) fn since(&self, service: usize) -> Self {
        let mut kept = self.clone();
        for stretch in &mut kept.stretches {
            stretch
                .readings
                .retain(|reading| reading.service >= service);
        }
        kept
    }
}

impl Stretch {
    fn take(&mut self, reading: Reading, is_left: bool, bedding_in: Option<f64>) {
        let since = self.begin.map_or(f64::INFINITY, |begin| reading.at - begin);
        let is_bedding = match bedding_in {
            Some(length) => since < length,
            None => is_left,
        };
        if self.is_renewed && is_bedding {
            self.bedding.push(reading);
        } else {
            self.readings.push(reading);
        }
    }
}
