//! What was found and left over the years, of one quantity of one engine.

use super::{HistoryError, Used};
use crate::tolerance::{Estimate, Measurand};
use alloc::borrow::ToOwned;
use alloc::string::String;
use alloc::vec::Vec;

/// One thing that is read again and again: a valve, a cylinder, a pair of contacts.
///
/// ```
/// use lashwork::history::Subject;
/// let valve = Subject::new("3 exhaust", "exhaust");
/// assert_eq!(valve.kind, "exhaust");
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Subject {
    /// What it is called.
    pub name: String,
    /// What it is like: subjects of one kind are taken to change at like rates.
    pub kind: String,
}

impl Subject {
    /// Takes a name and a kind.
    #[must_use]
    pub fn new(name: &str, kind: &str) -> Self {
        Self {
            name: name.to_owned(),
            kind: kind.to_owned(),
        }
    }
}

/// What was done to a subject.
///
/// ```
/// use lashwork::history::Reset;
/// assert_ne!(Reset::Set, Reset::Renewed);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reset {
    /// It was set; its parts stayed.
    Set,
    /// It was set after parts were renewed, ground or retorqued, which bed in.
    Renewed,
}

/// What was found, done and left at one subject in one service.
///
/// ```
/// use lashwork::history::{Reset, Visit};
/// use lashwork::tolerance::Estimate;
/// let found = Estimate::from_numbers(0.15, 0.20, 0.005)?;
/// let left = Estimate::from_numbers(0.20, 0.20, 0.005)?;
/// let visit: Visit<lashwork::quantity::Lash> = Visit::found(found).reset(Reset::Set).left(left);
/// assert_eq!(visit.reset, Some(Reset::Set));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Visit<Q: Measurand> {
    /// Before anything was done.
    pub found: Option<Estimate<Q>>,
    /// What was done, if anything.
    pub reset: Option<Reset>,
    /// After it was done.
    pub left: Option<Estimate<Q>>,
    /// When that was read, if not at the service itself.
    pub left_at: Option<Used>,
}

impl<Q: Measurand> Visit<Q> {
    /// Looked at and left as it was.
    #[must_use]
    pub const fn found(found: Estimate<Q>) -> Self {
        Self {
            found: Some(found),
            ..Self::unread()
        }
    }

    /// Not read.
    #[must_use]
    pub const fn unread() -> Self {
        Self {
            found: None,
            reset: None,
            left: None,
            left_at: None,
        }
    }

    /// The same with something done.
    #[must_use]
    pub const fn reset(self, reset: Reset) -> Self {
        Self {
            reset: Some(reset),
            ..self
        }
    }

    /// The same with a reading after that.
    #[must_use]
    pub const fn left(self, left: Estimate<Q>) -> Self {
        Self {
            left: Some(left),
            ..self
        }
    }

    /// The same with the time of that reading.
    #[must_use]
    pub const fn left_at(self, used: Used) -> Self {
        Self {
            left_at: Some(used),
            ..self
        }
    }
}

/// One service.
///
/// ```
/// use lashwork::history::{Service, Used, Visit};
/// use lashwork::tolerance::Estimate;
/// let found = Estimate::from_numbers(0.15, 0.20, 0.005)?;
/// let service = Service::<lashwork::quantity::Lash> {
///     engine: "barn engine".into(),
///     used: Used::default().hours(250.0)?,
///     visits: vec![(0, Visit::found(found))],
/// };
/// assert_eq!(service.visits.len(), 1);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Service<Q: Measurand> {
    /// Whose it was.
    pub engine: String,
    /// When it was.
    pub used: Used,
    /// By place of the subject in the record.
    pub visits: Vec<(usize, Visit<Q>)>,
}

/// All services of one engine, for one quantity, in the order of time. It only grows.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::history::{Record, Service, Subject, Used, Visit};
/// use lashwork::quantity::Lash;
/// let mut record = Record::<Lash>::new("barn engine", vec![Subject::new("1 exhaust", "exhaust")])?;
/// let at = |hours| -> Result<Service<Lash>, lashwork::history::HistoryError> {
///     Ok(Service { engine: "barn engine".into(), used: Used::default().hours(hours)?, visits: vec![] })
/// };
/// record.push(at(250.0)?)?;
/// assert_eq!(record.push(at(200.0)?).unwrap_err().code(), "history.time-backwards");
/// assert_eq!(record.services().len(), 1);
/// # Ok::<(), lashwork::history::HistoryError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Record<Q: Measurand> {
    engine: String,
    subjects: Vec<Subject>,
    services: Vec<Service<Q>>,
    /// The last that was stated on each count.
    last: Used,
}

impl<Q: Measurand> Record<Q> {
    /// Begins a record.
    ///
    /// # Errors
    /// [`HistoryError::NoName`], [`HistoryError::NamedTwice`].
    pub fn new(engine: &str, subjects: Vec<Subject>) -> Result<Self, HistoryError> {
        let blank = |text: &str| text.trim().is_empty();
        if blank(engine) {
            return Err(HistoryError::NoName { of: "its engine" });
        }
        if subjects.is_empty() || subjects.iter().any(|subject| blank(&subject.name)) {
            return Err(HistoryError::NoName { of: "a subject" });
        }
        for (at, subject) in subjects.iter().enumerate() {
            if subjects.iter().take(at).any(|o| o.name == subject.name) {
                return Err(HistoryError::NamedTwice {
                    name: subject.name.clone(),
                });
            }
        }
        Ok(Self {
            engine: engine.to_owned(),
            subjects,
            services: Vec::new(),
            last: Used::default(),
        })
    }

    /// Adds a service after all others; nothing is added if it is refused.
    ///
    /// # Errors
    /// [`HistoryError::OtherEngine`], [`HistoryError::NoTime`], [`HistoryError::TimeBackwards`] on any count,
    /// [`HistoryError::NoSubject`], [`HistoryError::TwiceInService`], [`HistoryError::LeftWithoutReset`],
    /// [`HistoryError::ReadBeforeReset`].
    pub fn push(&mut self, service: Service<Q>) -> Result<(), HistoryError> {
        let place = self.services.len();
        if service.engine != self.engine {
            return Err(HistoryError::OtherEngine {
                service: place,
                got: service.engine,
                expected: self.engine.clone(),
            });
        }
        if service.used.is_nowhere() {
            return Err(HistoryError::NoTime { service: place });
        }
        if let Some((got, before, unit)) = service.used.before(&self.last) {
            return Err(HistoryError::TimeBackwards {
                service: place,
                got,
                before,
                unit,
            });
        }
        let mut last = service.used.or(&self.last);
        for (at, (subject, visit)) in service.visits.iter().enumerate() {
            let Some(known) = self.subjects.get(*subject) else {
                return Err(HistoryError::NoSubject {
                    service: place,
                    subject: *subject,
                    count: self.subjects.len(),
                });
            };
            let name = || known.name.clone();
            if service.visits.iter().take(at).any(|(o, _)| o == subject) {
                return Err(HistoryError::TwiceInService {
                    service: place,
                    name: name(),
                });
            }
            if visit.left.is_some() && visit.reset.is_none() {
                return Err(HistoryError::LeftWithoutReset {
                    service: place,
                    name: name(),
                });
            }
            let Some(left_at) = visit.left_at else {
                continue;
            };
            if let Some((got, reset, unit)) = left_at.before(&service.used) {
                return Err(HistoryError::ReadBeforeReset {
                    name: name(),
                    got,
                    reset,
                    unit,
                });
            }
            if left_at.before(&last).is_none() {
                last = left_at.or(&last);
            }
        }
        self.last = last;
        self.services.push(service);
        Ok(())
    }

    /// Whose record it is.
    #[must_use]
    pub fn engine(&self) -> &str {
        &self.engine
    }

    /// What is read.
    #[must_use]
    pub fn subjects(&self) -> &[Subject] {
        &self.subjects
    }

    /// The services, in the order of time.
    #[must_use]
    pub fn services(&self) -> &[Service<Q>] {
        &self.services
    }
}
