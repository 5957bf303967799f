//! When to look next: when the chance of being out of the band passes what a rule allows.

use super::answer::CONFIDENCE;
use super::ray::Ray;
use super::{Drift, HistoryError, NotKnown};
use crate::tolerance::{DecidingSide, DecisionRule, HasLimits, Limits};
use serde::Serialize;

/// Looked ahead, in lengths of the record.
const AHEAD: f64 = 10.0;
/// The first steps, in lengths, and the later ones, in parts of how far ahead they are: what is foretold changes the
/// more slowly the further ahead it is.
const STEP: f64 = 0.025;
const PART: f64 = 0.1;
/// Halvings of a step.
const HALVINGS: u32 = 50;
/// Lengths of the record beyond which a prediction is called far.
const FAR: f64 = 2.0;

/// When a line passes a limit.
///
/// ```
/// use lashwork::history::Reaches;
/// let reaches = Reaches { from: Some(310.0), middle: Some(420.0), to: None };
/// assert!(reaches.to.is_none());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Reaches {
    /// Not before this time, with 97.5 %; nothing if that is beyond all that is looked at.
    pub from: Option<f64>,
    /// As likely before as after; likewise.
    pub middle: Option<f64>,
    /// Before this time, with 97.5 %; likewise.
    pub to: Option<f64>,
}

/// A look that is due.
///
/// ```
/// use lashwork::history::{Due, Reaches};
/// use lashwork::tolerance::DecidingSide;
/// let reaches = Reaches { from: Some(310.0), middle: Some(420.0), to: None };
/// let due = Due { at: 330.0, side: DecidingSide::Below, reaches, is_far: false };
/// assert!(due.at < 420.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Due {
    /// At the latest, in the unit of the count.
    pub at: f64,
    /// What decides.
    pub side: DecidingSide,
    /// When the line itself passes the limit of that side.
    pub reaches: Reaches,
    /// Whether that is further ahead than twice the length of the record: then look earlier.
    pub is_far: bool,
}

/// When to look next.
///
/// ```
/// use lashwork::history::{Look, NotKnown};
/// assert_ne!(Look::NotKnown(NotKnown::NotRead), Look::NotKnown(NotKnown::BeddingIn));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Look {
    /// The rule does not accept it even now.
    Now(Due),
    /// At a time.
    At(Due),
    /// Not within this time, which is as far as is looked ahead: many times the length of the record.
    NotBefore(f64),
    /// Nothing is said.
    NotKnown(NotKnown),
}

impl<Q: HasLimits> Drift<Q> {
    /// When to look at a subject next, seen from the end of the record: when the chance that it is found out
    /// of the band passes what the rule allows.
    ///
    /// # Errors
    /// [`HistoryError::NoSubject`].
    ///
    /// ```
    /// use lashwork::history::{
    ///     DriftAnswer, DriftChoice, Look, Record, Service, Subject, Used, Visit, drift,
    /// };
    /// use lashwork::quantity::Lash;
    /// use lashwork::tolerance::{Estimate, HasLimits};
    /// # fn example() -> Result<(), Box<dyn std::error::Error>> {
    /// let mut record = Record::<Lash>::new("barn engine", vec![Subject::new("1 exhaust", "exhaust")])?;
    /// for (hours, mm) in [(0.0, 0.300), (50.0, 0.281), (100.0, 0.262), (150.0, 0.239)] {
    ///     record.push(Service {
    ///         engine: "barn engine".into(),
    ///         used: Used::default().hours(hours)?,
    ///         visits: vec![(0, Visit::found(Estimate::from_numbers(mm, mm, 0.0)?))],
    ///     })?;
    /// }
    /// let DriftAnswer::Fitted(drift) = drift(&record, "exhaust", &DriftChoice::default())? else {
    ///     return Err("four readings are enough".into());
    /// };
    /// let Look::At(due) = drift.look_next(0, &"at least 0.20 mm".parse()?, &Lash::USUAL_RULE)? else {
    ///     return Err("it is not tight yet".into());
    /// };
    /// // The line passes 0.20 mm at about 250 h; 5 % are allowed.
    /// assert!(due.at > 210.0 && due.at < 240.0);
    /// # Ok(())
    /// # }
    /// # example().unwrap();
    /// ```
    pub fn look_next(
        &self,
        subject: usize,
        limits: &Limits<Q>,
        rule: &DecisionRule,
    ) -> Result<Look, HistoryError> {
        let ray = match self.now(subject, self.end)? {
            Ok(ray) => ray,
            Err(why) => return Ok(Look::NotKnown(why)),
        };
        let Some(at) = self.passed(&ray, limits, rule) else {
            return Ok(Look::NotBefore(self.horizon()));
        };
        let probabilities = ray.chances(at, limits);
        let side = match rule.deciding(&probabilities).map(|deciding| deciding.side) {
            Some(DecidingSide::InBand) | None => {
                if probabilities.below.most >= probabilities.above.most {
                    DecidingSide::Below
                } else {
                    DecidingSide::Above
                }
            }
            Some(side) => side,
        };
        let (lower, upper) = limits.numbers();
        let beyond = |at: f64| -> f64 {
            if side == DecidingSide::Below {
                lower.map_or(0.0, |limit| ray.line_below(at, limit))
            } else {
                upper.map_or(0.0, |limit| ray.line_above(at, limit))
            }
        };
        let tail = 0.5 * (1.0 - CONFIDENCE);
        let reach = |share| self.first(|at| beyond(at).ge(&share));
        let due = Due {
            at,
            side,
            reaches: Reaches {
                from: reach(tail),
                middle: reach(0.5),
                to: reach(1.0 - tail),
            },
            is_far: at - self.end > FAR * self.length(),
        };
        Ok(if at <= self.end {
            Look::Now(due)
        } else {
            Look::At(due)
        })
    }

    /// How far is looked ahead.
    pub(super) fn horizon(&self) -> f64 {
        self.end + AHEAD * self.length()
    }

    /// The first time from the end of the record on at which the rule does not accept a reading.
    pub(super) fn passed(&self, ray: &Ray, limits: &Limits<Q>, rule: &DecisionRule) -> Option<f64> {
        self.first(|at| rule.deciding(&ray.chances(at, limits)).is_some())
    }

    /// The first time from the end of the record on at which something holds.
    fn first(&self, holds: impl Fn(f64) -> bool) -> Option<f64> {
        if holds(self.end) {
            return Some(self.end);
        }
        let (least, most) = (STEP * self.length(), self.horizon());
        let mut low = self.end;
        let mut high = loop {
            if low >= most {
                return None;
            }
            let high = (low + least.max(PART * (low - self.end))).min(most);
            if holds(high) {
                break high;
            }
            low = high;
        };
        for _ in 0..HALVINGS {
            let middle = low + 0.5 * (high - low);
            if holds(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        Some(high)
    }
}
