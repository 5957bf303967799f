//! When something was or will be, in words.

use super::HistoryPlace;
use crate::history::{CountedBy, Day, DistanceUnit, HistoryError, Used};
use crate::job::place::Place;
use crate::job::problem::Problem;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Days in a year, on average.
const YEAR: f64 = 365.25;
/// Further ahead, in days, no day is said.
const FAR: f64 = 30.0 * YEAR;

const ALL: [CountedBy; 3] = [CountedBy::Hours, CountedBy::Distance, CountedBy::Days];

/// Whether a service states a count.
pub(super) fn states(used: &Used, by: CountedBy) -> bool {
    used.count(by).is_some()
}

/// The first count that all services state.
pub(super) fn common<'u>(used: &(impl Iterator<Item = &'u Used> + Clone)) -> Option<CountedBy> {
    ALL.into_iter()
        .find(|by| used.clone().all(|used| states(used, *by)))
}

/// What time is counted by.
pub(super) fn counted_by(asked: Option<CountedBy>, used: &[Used]) -> Result<CountedBy, Problem> {
    let Some(by) = asked else {
        return common(&used.iter()).ok_or_else(|| {
            Problem::at(
                Place::History(HistoryPlace::Services),
                &HistoryError::NoCommonCount,
            )
        });
    };
    match used.iter().position(|used| !states(used, by)) {
        Some(service) => Err(Problem::at(
            Place::History(HistoryPlace::Service(service)),
            &HistoryError::NotCounted { service, by },
        )),
        None => Ok(by),
    }
}

/// How the count of a record goes with the calendar.
pub(super) struct Times {
    pub(super) by: CountedBy,
    /// What distances are said in.
    far: DistanceUnit,
    /// The last service that has a day: its count, its day, and the count for a day since the first.
    calendar: Option<(f64, f64, f64)>,
}

impl Times {
    pub(super) fn of(by: CountedBy, far: DistanceUnit, used: &[Used]) -> Self {
        let dated = used
            .iter()
            .filter_map(|used| Some((used.count(by)?, used.count(CountedBy::Days)?)));
        let dated: Vec<(f64, f64)> = dated.collect();
        let calendar = match (dated.first(), dated.last()) {
            (Some((from, first)), Some((to, last)))
                if by != CountedBy::Days && to > from && last > first =>
            {
                Some((*to, *last, (to - from) / (last - first)))
            }
            _ => None,
        };
        Self { by, far, calendar }
    }

    /// A time as a meter shows it, no later than it is.
    pub(super) fn at(&self, at: f64) -> String {
        match self.by {
            CountedBy::Days => Day::numbered(at).map_or_else(
                |_| String::from("beyond the calendar"),
                |day| day.to_string(),
            ),
            CountedBy::Hours => format!("{:.0} h", libm::floor(at)),
            CountedBy::Distance => {
                let tens = at / self.far.kilometres() / 10.0;
                // What was stated in whole tens stays so.
                let whole = libm::floor(tens + 1e-6);
                format!("{:.0} {}", 10.0 * whole, self.far.symbol())
            }
        }
    }

    /// The same with about when that will be, if the engine is used as it was.
    pub(super) fn ahead(&self, at: f64) -> String {
        let told = self.at(at);
        let Some((end, last, rate)) = self.calendar else {
            return told;
        };
        let days = (at - end) / rate;
        let month = (0.0..FAR)
            .contains(&days)
            .then(|| Day::numbered(last + days).ok())
            .flatten();
        match month.map(|day| day.to_string()) {
            Some(day) => {
                let month = day
                    .rsplit_once('-')
                    .map_or(day.as_str(), |(month, _)| month);
                format!("{told} (about {month})")
            }
            None => told,
        }
    }

    /// A length of time, and how many units of the count it is.
    pub(super) const fn length(&self) -> (f64, &'static str) {
        match self.by {
            CountedBy::Hours => (100.0, "in 100 h"),
            CountedBy::Distance => match self.far {
                DistanceUnit::Kilometre => (10_000.0, "in 10 000 km"),
                DistanceUnit::Mile => (10_000.0 * self.far.kilometres(), "in 10 000 mi"),
            },
            CountedBy::Days => (YEAR, "in a year"),
        }
    }

    /// How many of the count's unit one is in which times are said, and its symbol.
    pub(super) const fn unit(&self) -> (f64, &'static str) {
        match self.by {
            CountedBy::Distance => (self.far.kilometres(), self.far.symbol()),
            CountedBy::Hours | CountedBy::Days => (1.0, self.by.unit()),
        }
    }

    /// When a service was.
    pub(super) fn service(&self, used: &Used) -> String {
        let day = used.count(CountedBy::Days);
        let day = day.and_then(|day| Day::numbered(day).ok());
        let count = used.count(self.by).filter(|_| self.by != CountedBy::Days);
        let count = count.map(|at| self.at(at));
        let parts: Vec<String> = day
            .map(|day| day.to_string())
            .into_iter()
            .chain(count)
            .collect();
        parts.join(", ")
    }
}

/// What two services state on the counts that both have.
pub(super) fn shared(a: &Used, b: &Used) -> Vec<(f64, f64)> {
    ALL.into_iter()
        .filter_map(|by| Some((a.count(by)?, b.count(by)?)))
        .collect()
}
