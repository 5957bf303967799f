//! Which specifications are at hand, which of them may apply, and where those disagree.

pub(in crate::job) mod answer;
pub(in crate::job) mod sheet;

use crate::job::assumptions::Assumptions;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::quantity::{LengthUnit, Temperature};
use crate::thermal::{Correction, Metal};
use crate::valve::{Applicability, Provenance, Specification, ValveLimits, disagreements};
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
        intake: limits_words(&s.intake),
        exhaust: limits_words(&s.exhaust),
    }
}

/// What two specifications disagree on, in words.
fn field_words(field: &str) -> &str {
    match field {
        "condition" => "whether the engine is cold or hot",
        "reference" => "the reference temperature",
        "measured_at" => "where the gap is measured",
        "intake.set_to" => "the intake setting",
        "intake.set.lower" => "the lower end of the intake set band",
        "intake.set.upper" => "the upper end of the intake set band",
        "intake.leave_alone.lower" => "the lower end of the intake leave-alone band",
        "intake.leave_alone.upper" => "the upper end of the intake leave-alone band",
        "exhaust.set_to" => "the exhaust setting",
        "exhaust.set.lower" => "the lower end of the exhaust set band",
        "exhaust.set.upper" => "the upper end of the exhaust set band",
        "exhaust.leave_alone.lower" => "the lower end of the exhaust leave-alone band",
        "exhaust.leave_alone.upper" => "the upper end of the exhaust leave-alone band",
        other => other,
    }
}

/// Where the specifications that may apply do not print the same.
pub(in crate::job) fn all_disagreements(books: &[Book<'_>]) -> Vec<String> {
    let mut all = Vec::new();
    let candidates: Vec<&Specification> = books
        .iter()
        .filter(|b| b.may_apply())
        .map(|b| b.specification)
        .collect();
    for (i, a) in candidates.iter().enumerate() {
        for b in candidates.iter().skip(i + 1) {
            for d in disagreements(a, b) {
                let size = d
                    .size
                    .map(|n| format!(" ({} apart)", n.show(LengthUnit::Millimetre, 4)));
                all.push(format!(
                    "Books disagree on {}: {} says {}, {} says {}{}",
                    field_words(d.field),
                    a.id,
                    d.first,
                    b.id,
                    d.second,
                    size.unwrap_or_default()
                ));
            }
        }
    }
    all
}
