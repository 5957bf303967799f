//! Which specifications are at hand, which of them may apply, and where those disagree.

pub(in crate::job) mod answer;
pub(in crate::job) mod sheet;

use crate::job::assumptions::Assumptions;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::quantity::Temperature;
use crate::thermal::{Correction, Metal};
use crate::valve::{
    Applicability, Condition, Provenance, Specification, ValveLimits, disagreements,
};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use answer::SpecificationReport;

/// A specification with what follows from it once: whether it applies, the temperature it holds at, and
/// what the metal adds against that.
pub(in crate::job) struct Book<'r> {
    pub(in crate::job) specification: &'r Specification,
    pub(in crate::job) applicability: Applicability,
    pub(in crate::job) reference: Temperature,
    pub(in crate::job) correction: Option<Correction>,
    /// Whether readings can be compared with it at all: the material data may not reach its reference.
    pub(in crate::job) is_in_reach: bool,
}

impl Book<'_> {
    pub(in crate::job) fn may_apply(&self) -> bool {
        self.applicability != Applicability::DoesNotApply
    }
}

/// All specifications in their order; one that readings cannot be compared with is a problem if it may
/// apply.
pub(in crate::job) fn read<'r>(
    specifications: &'r [Specification],
    engine_number: Option<u64>,
    metal: &Metal,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Vec<Book<'r>> {
    let mut books = Vec::new();
    for (i, specification) in specifications.iter().enumerate() {
        let before = specifications.iter().take(i);
        if before.clone().any(|s| s.id == specification.id) {
            problems.push(Problem::new(
                Place::SpecificationId(i),
                "tolerance.id-twice",
                format!("{:?} names two specifications", specification.id),
                "give each specification its own id",
            ));
        }
        let applicability = specification.applicability(engine_number);
        let reference = match specification.holds_at() {
            Ok(reference) => reference,
            Err(e) => {
                problems.push(Problem::at(Place::Specification(i), &e));
                continue;
            }
        };
        if specification.reference.is_none() {
            let id = &specification.id;
            let text = "states no reference temperature: 20 C taken (ISO 1)";
            assumptions.add("tolerance.reference", format!("specification {id} {text}"));
        }
        let correction = metal.correction(reference);
        let is_in_reach = correction.is_ok();
        let correction = correction.unwrap_or_else(|e| {
            if applicability != Applicability::DoesNotApply {
                problems.push(Problem::at(Place::Metal, &e));
            }
            None
        });
        books.push(Book {
            specification,
            applicability,
            reference,
            correction,
            is_in_reach,
        });
    }
    let none = specifications
        .iter()
        .all(|s| s.applicability(engine_number) == Applicability::DoesNotApply);
    if none {
        problems.push(Problem::new(
            Place::Specifications,
            "job.no-specification",
            "no specification that may apply to this engine",
            "add the specification that is printed for this engine number",
        ));
    }
    books
}

fn provenance(p: &Provenance) -> String {
    let mut text = p.document.clone();
    for part in [&p.edition, &p.applies_to].into_iter().flatten() {
        text.push_str(", ");
        text.push_str(part);
    }
    if let Some(range) = &p.engine_numbers {
        let (first, last) = (range.first(), range.last());
        text = format!("{text}, engine numbers {first} to {last}");
    }
    text
}

fn limits_words(limits: &ValveLimits) -> String {
    let set = format!("set to {}, band {}", limits.set_to(), limits.set());
    match limits.leave_alone() {
        Some(alone) => format!("{set}; leave alone within {alone}"),
        None => set,
    }
}

/// A specification as understood.
pub(in crate::job) fn report(book: &Book<'_>) -> SpecificationReport {
    let s = book.specification;
    SpecificationReport {
        id: s.id.clone(),
        provenance: provenance(&s.provenance),
        applicability: book.applicability,
        condition: s.condition,
        reference: book.reference,
        measured_at: s.measured_at.clone(),
        intake: limits_words(&s.intake),
        exhaust: limits_words(&s.exhaust),
    }
}

/// Where the specifications that may apply do not print the same: one line for the intake valves, one
/// for the exhaust valves, and one for what else differs.
pub(in crate::job) fn all_disagreements(books: &[Book<'_>]) -> Vec<String> {
    let candidates: Vec<&Specification> = books
        .iter()
        .filter(|b| b.may_apply())
        .map(|b| b.specification)
        .collect();
    let mut fields: Vec<&str> = Vec::new();
    for (i, a) in candidates.iter().enumerate() {
        for b in candidates.iter().skip(i + 1) {
            fields.extend(disagreements(a, b).iter().map(|d| d.field));
        }
    }
    let kind = |field: &str| {
        field
            .split('.')
            .next()
            .map(String::from)
            .unwrap_or_default()
    };
    let mut lines: Vec<String> = Vec::new();
    for field in fields {
        let what = kind(field);
        let said = candidates.iter().map(|s| {
            let says = match what.as_str() {
                "intake" => limits_words(&s.intake),
                "exhaust" => limits_words(&s.exhaust),
                "condition" => condition_word(s.condition).into(),
                "reference" => s
                    .holds_at()
                    .map_or_else(|_| "not stated".into(), |t| format!("{:.1} C", t.celsius())),
                _ => s.measured_at.clone().unwrap_or_else(|| "not stated".into()),
            };
            format!("{}: {says}", s.id)
        });
        let said: Vec<String> = said.collect();
        let line = format!(
            "books disagree on {}; {}",
            field_words(&what),
            said.join("; ")
        );
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    lines
}

/// What books disagree on, in words.
fn field_words(what: &str) -> &str {
    match what {
        "condition" => "whether the engine is cold or hot",
        "reference" => "the reference temperature",
        "measured_at" => "where the gap is measured",
        other => other,
    }
}

const fn condition_word(condition: Condition) -> &'static str {
    match condition {
        Condition::Cold => "cold",
        Condition::Hot => "hot",
    }
}
