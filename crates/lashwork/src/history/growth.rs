//! Whether one record is another one grown: a record is only added to.

use super::{HistoryError, Record, Service, Subject, Visit};
use crate::tolerance::Measurand;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

impl<Q: Measurand> Record<Q> {
    /// Whether this is an older state of the record with services added, and nothing else.
    ///
    /// # Errors
    /// [`HistoryError::OtherEngine`], [`HistoryError::Shrunk`], [`HistoryError::Changed`].
    ///
    /// ```
    /// use lashwork::Refusal;
    /// use lashwork::history::{Record, Subject};
    /// use lashwork::quantity::Lash;
    /// let record = |name| Record::<Lash>::new("barn engine", vec![Subject::new(name, "exhaust")]);
    /// record("1 exhaust")?.has_grown_from(&record("1 exhaust")?)?;
    /// let other = record("2 exhaust")?.has_grown_from(&record("1 exhaust")?).unwrap_err();
    /// assert_eq!(other.code(), "history.changed");
    /// # Ok::<(), lashwork::history::HistoryError>(())
    /// ```
    pub fn has_grown_from(&self, older: &Self) -> Result<(), HistoryError> {
        if self.engine() != older.engine() {
            return Err(HistoryError::OtherEngine {
                service: 0,
                got: self.engine().to_owned(),
                expected: older.engine().to_owned(),
            });
        }
        if self.services().len() < older.services().len() {
            return Err(HistoryError::Shrunk {
                got: self.services().len(),
                older: older.services().len(),
            });
        }
        for known in older.subjects() {
            if !self.subjects().contains(known) {
                return Err(HistoryError::Changed {
                    what: format!("subject {:?}", known.name),
                });
            }
        }
        let pairs = self.services().iter().zip(older.services()).enumerate();
        for (at, (now, before)) in pairs {
            if let Some(what) = self.changed(now, older, before) {
                return Err(HistoryError::Changed {
                    what: format!("{what} in service {}", at + 1),
                });
            }
        }
        Ok(())
    }

    /// What of a service is not as it was.
    fn changed(&self, now: &Service<Q>, older: &Self, before: &Service<Q>) -> Option<String> {
        if now.used != before.used {
            return Some("the time".to_owned());
        }
        let own = by_name(self.subjects(), now);
        let old = by_name(older.subjects(), before);
        let differs = |a: &[(&str, &Visit<Q>)], b: &[(&str, &Visit<Q>)]| {
            let one = a.iter().find(|visit| !b.contains(visit));
            one.map(|(name, _)| format!("{name:?}"))
        };
        // What was left out, or changed, or put in later.
        differs(&old, &own).or_else(|| differs(&own, &old))
    }
}

/// What was found and left in a service, by the names of its subjects, whose places may change.
fn by_name<'r, Q: Measurand>(
    subjects: &'r [Subject],
    service: &'r Service<Q>,
) -> Vec<(&'r str, &'r Visit<Q>)> {
    let visits = service.visits.iter();
    let named = visits.filter_map(|(at, visit)| Some((subjects.get(*at)?.name.as_str(), visit)));
    named.collect()
}
