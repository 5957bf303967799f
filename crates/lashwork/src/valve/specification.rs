//! A printed specification, where it comes from, and where two of them disagree.

use super::{Printed, ValveKind, ValveLimits};
use crate::quantity::{Marked, Nominal, Temperature};
use crate::tolerance::{Limits, ToleranceError};
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use serde::Serialize;

/// Whether the printed lash holds for the cold or the hot engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Condition {
    /// Engine cold.
    Cold,
    /// Engine at running temperature.
    Hot,
}

/// A range of engine numbers, both ends included.
///
/// ```
/// use lashwork::valve::NumberRange;
/// assert!(NumberRange::new(100, 200)?.contains(200));
/// assert!(NumberRange::new(200, 100).is_err());
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct NumberRange {
    from: u64,
    to: u64,
}

impl NumberRange {
    /// From the first number to the last.
    ///
    /// # Errors
    /// [`ToleranceError::CrossedNumbers`] if `from` is above `to`.
    pub const fn new(from: u64, to: u64) -> Result<Self, ToleranceError> {
        if from > to {
            return Err(ToleranceError::CrossedNumbers { from, to });
        }
        Ok(Self { from, to })
    }

    /// The first number.
    #[must_use]
    pub const fn first(&self) -> u64 {
        self.from
    }

    /// The last number.
    #[must_use]
    pub const fn last(&self) -> u64 {
        self.to
    }

    /// Whether a number lies in the range.
    #[must_use]
    pub const fn contains(&self, number: u64) -> bool {
        self.from <= number && number <= self.to
    }
}

/// Where a specification comes from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Provenance {
    /// The book, sheet or plate it was read from.
    pub document: String,
    /// Its edition or date, if stated.
    pub edition: Option<String>,
    /// The engines it says it is for, in its own words.
    pub applies_to: Option<String>,
    /// The engine numbers it says it is for.
    pub engine_numbers: Option<NumberRange>,
}

/// Whether a specification is for the engine at hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Applicability {
    /// The engine number lies in the stated range.
    Applies,
    /// The engine number lies outside the stated range.
    DoesNotApply,
    /// A range is stated and the engine number is not known.
    CannotTell,
    /// The document states no range of engine numbers.
    NotStated,
}

/// What one document prints about valve lash.
///
/// ```
/// use lashwork::quantity::{Marked, Temperature};
/// use lashwork::tolerance::Limits;
/// use lashwork::valve::{Applicability, Condition, NumberRange, Provenance, Specification, ValveLimits, disagreements};
/// let from = |id: &str, lash: &str| -> Result<Specification, Box<dyn std::error::Error>> {
///     let mark = Marked::parse(lash)?;
///     let limits = ValveLimits::new(mark, Limits::between(mark, mark)?, None)?;
///     Ok(Specification {
///         id: id.into(),
///         provenance: Provenance {
///             document: "handbook".into(),
///             edition: None,
///             applies_to: None,
///             engine_numbers: Some(NumberRange::new(1000, 1999)?),
///         },
///         condition: Condition::Cold,
///         reference: Some(Temperature::from_celsius(20.0)?),
///         measured_at: None,
///         intake: limits,
///         exhaust: limits,
///     })
/// };
/// let inch = from("inch", "0.006 in")?;
/// assert_eq!(inch.applicability(Some(2000)), Applicability::DoesNotApply);
/// assert_eq!(inch.applicability(None), Applicability::CannotTell);
/// let found = disagreements(&inch, &from("metric", "0.15 mm")?);
/// assert_eq!(found[0].field, "intake.set_to");
/// assert_eq!(found[0].size.unwrap().mm(), 0.0024);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Specification {
    /// A name to refer to it by.
    pub id: String,
    /// Where it comes from.
    pub provenance: Provenance,
    /// Cold or hot.
    pub condition: Condition,
    /// The temperature of the engine the limits hold at; for a cold engine 20 C is taken, and to be
    /// listed, where it is not stated; for a hot one it is not known then.
    pub reference: Option<Temperature>,
    /// Where the gap is to be measured, if stated.
    pub measured_at: Option<String>,
    /// The limits of the intake valves.
    pub intake: ValveLimits,
    /// The limits of the exhaust valves.
    pub exhaust: ValveLimits,
}

impl Specification {
    /// A specification for a cold engine, intake and exhaust alike, that states no engine numbers and no
    /// reference temperature.
    #[must_use]
    pub fn cold(id: impl Into<String>, document: impl Into<String>, limits: ValveLimits) -> Self {
        Self {
            id: id.into(),
            provenance: Provenance {
                document: document.into(),
                edition: None,
                applies_to: None,
                engine_numbers: None,
            },
            condition: Condition::Cold,
            reference: None,
            measured_at: None,
            intake: limits,
            exhaust: limits,
        }
    }

    /// The temperature the limits hold at: the stated one, else 20 C for a cold engine; nothing for a
    /// hot engine that states none: hot is no temperature.
    ///
    /// # Source
    /// ISO 1:2022, the reference temperature of geometrical specifications.
    #[must_use]
    pub fn holds_at(&self) -> Option<Temperature> {
        self.reference.or(match self.condition {
            Condition::Cold => Some(Temperature::ISO_1),
            Condition::Hot => None,
        })
    }

    /// The limits of a kind of valve.
    #[must_use]
    pub const fn limits(&self, kind: ValveKind) -> &ValveLimits {
        match kind {
            ValveKind::Intake => &self.intake,
            ValveKind::Exhaust => &self.exhaust,
        }
    }

    /// Whether it is for the engine with this number.
    #[must_use]
    pub fn applicability(&self, engine_number: Option<u64>) -> Applicability {
        match (self.provenance.engine_numbers, engine_number) {
            (None, _) => Applicability::NotStated,
            (Some(_), None) => Applicability::CannotTell,
            (Some(range), Some(number)) if range.contains(number) => Applicability::Applies,
            (Some(_), Some(_)) => Applicability::DoesNotApply,
        }
    }
}

/// One thing two specifications do not print alike.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Disagreement {
    /// What it is, as a path: `intake.set.lower`.
    pub field: &'static str,
    /// What the first prints, as written.
    pub first: String,
    /// What the second prints, as written.
    pub second: String,
    /// How far apart two lengths are, without sign; `None` for anything else, or if only one of
    /// them prints it.
    pub size: Option<Nominal>,
}

/// Everything two specifications do not print alike, in a fixed order; the kernel never picks one.
///
/// Lengths are compared exactly, so 0.006 in and 0.15 mm disagree, by 0.0024 mm. What only one of
/// them prints is a disagreement with `not stated`. Names and provenance are not compared.
#[must_use]
pub fn disagreements(a: &Specification, b: &Specification) -> Vec<Disagreement> {
    let mut found = Vec::new();
    let texts = [
        (
            "condition",
            Some(condition_text(a.condition)),
            Some(condition_text(b.condition)),
        ),
        (
            "reference",
            a.holds_at().map(temperature_text),
            b.holds_at().map(temperature_text),
        ),
        ("measured_at", a.measured_at.clone(), b.measured_at.clone()),
    ];
    for (field, first, second) in texts {
        if first != second {
            found.push(Disagreement {
                field,
                first: first.unwrap_or_else(not_stated),
                second: second.unwrap_or_else(not_stated),
                size: None,
            });
        }
    }
    for (fields, a, b) in [
        (&INTAKE, &a.intake, &b.intake),
        (&EXHAUST, &a.exhaust, &b.exhaust),
    ] {
        for ((field, first), second) in fields.iter().zip(marks(a)).zip(marks(b)) {
            if first.map(Marked::nominal) != second.map(Marked::nominal) {
                found.push(Disagreement {
                    field,
                    first: mark_text(first),
                    second: mark_text(second),
                    size: distance(first, second),
                });
            }
        }
    }
    found
}

const INTAKE: [&str; 5] = [
    "intake.set_to",
    "intake.set.lower",
    "intake.set.upper",
    "intake.leave_alone.lower",
    "intake.leave_alone.upper",
];
const EXHAUST: [&str; 5] = [
    "exhaust.set_to",
    "exhaust.set.lower",
    "exhaust.set.upper",
    "exhaust.leave_alone.lower",
    "exhaust.leave_alone.upper",
];

/// The printed lengths, in the order of the field names above.
fn marks(limits: &ValveLimits) -> [Option<Marked>; 5] {
    let leave = limits.leave_alone();
    // What is not printed is nothing to disagree on.
    let set = (!limits.is_band_taken()).then(|| limits.set());
    let set_to = limits.set_to();
    [
        (limits.printed() != Printed::Range).then_some(set_to),
        set.and_then(Limits::lower),
        set.and_then(Limits::upper),
        leave.and_then(Limits::lower),
        leave.and_then(Limits::upper),
    ]
}

/// How far apart two lengths are; two lengths of at most ten metres could be twenty apart, which
/// no lash is.
fn distance(a: Option<Marked>, b: Option<Marked>) -> Option<Nominal> {
    let apart = a?.nominal().nanometres() - b?.nominal().nanometres();
    Nominal::from_nanometres(apart.abs()).ok()
}

fn not_stated() -> String {
    String::from("not stated")
}

fn mark_text(mark: Option<Marked>) -> String {
    mark.map_or_else(not_stated, |m| m.to_string())
}

fn condition_text(condition: Condition) -> String {
    String::from(match condition {
        Condition::Cold => "cold",
        Condition::Hot => "hot",
    })
}

/// To a millionth of a kelvin: a temperature given in degrees Fahrenheit must not differ from the
/// same in Celsius by a last bit.
fn temperature_text(t: Temperature) -> String {
    alloc::format!("{} C", libm::rint(t.celsius() * 1e6) / 1e6)
}
