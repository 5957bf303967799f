//! Which specifications are at hand, which of them may apply, and where those disagree.

pub(in crate::job) mod answer;
mod conditions;
pub(in crate::job) mod sheet;

use crate::clearance::text::{printed, printed_limits};
use crate::job::assumptions::Assumptions;
use crate::job::clearance::metals::Metals;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::units::Shown;
use crate::quantity::shown::{by_hand, reckoned};
use crate::quantity::{Quoted, Temperature, TemperatureDifference};
use crate::thermal::{
    COLD_HALF_WIDTH, Correction, Metal, NotAtReference, Reference, WARM_UP, WARM_UP_MM,
};
use crate::valve::{
    Applicability, Condition, Provenance, Specification, ValveKind, ValveLimits, disagreements,
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
    pub(in crate::job) reference: Reference,
    intake: Against,
    exhaust: Against,
    /// Whether readings can be compared with it at all: the material data may not reach its reference.
    pub(in crate::job) is_in_reach: bool,
    /// The other column of the same book, if that fits the metal's temperature better.
    pub(in crate::job) used_instead: Option<String>,
}

/// What the metal adds against the temperature of a specification.
#[derive(Clone, Default)]
pub(in crate::job) struct Against {
    /// The correction, where a rule says how the lash follows.
    pub(in crate::job) correction: Option<Correction>,
    /// Why readings cannot be held against it, if the metal is not at its temperature and nothing says
    /// how the lash follows.
    pub(in crate::job) not_at_reference: Option<NotAtReference>,
}

impl Book<'_> {
    /// What the metal of a kind of valve adds.
    pub(in crate::job) const fn against(&self, kind: ValveKind) -> &Against {
        match kind {
            ValveKind::Intake => &self.intake,
            ValveKind::Exhaust => &self.exhaust,
        }
    }

    /// Why readings of either kind cannot be held against it.
    pub(in crate::job) fn not_at_reference(&self) -> Option<NotAtReference> {
        let exhaust = self.exhaust.not_at_reference;
        self.intake.not_at_reference.or(exhaust)
    }

    pub(in crate::job) fn may_apply(&self) -> bool {
        self.applicability != Applicability::DoesNotApply && self.used_instead.is_none()
    }
}

/// All specifications in their order; one that readings cannot be compared with is a problem if it may
/// apply.
pub(in crate::job) fn read<'r>(
    specifications: &'r [Specification],
    engine_number: Option<u64>,
    metals: Metals<'_>,
    shown: Shown,
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
                format!("{} names two specifications", Quoted(&specification.id)),
                "give each specification its own id",
            ));
        }
        let applicability = specification.applicability(engine_number);
        let reference = reference(specification.reference, specification.condition);
        let intake = against(metals.intake, reference, shown);
        let exhaust = match metals.exhaust {
            Some(metal) => against(metal, reference, shown),
            None => intake.clone(),
        };
        let is_in_reach = intake.is_ok() && exhaust.is_ok();
        let mut kept = |against: Result<Against, Problem>| {
            against.unwrap_or_else(|problem| {
                if applicability != Applicability::DoesNotApply && !problems.contains(&problem) {
                    problems.push(problem);
                }
                Against::default()
            })
        };
        let (intake, exhaust) = (kept(intake), kept(exhaust));
        books.push(Book {
            specification,
            applicability,
            reference,
            intake,
            exhaust,
            is_in_reach,
            used_instead: None,
        });
    }
    conditions::choose(&mut books, metals.intake);
    for book in books.iter().filter(|book| book.may_apply()) {
        let whose = format!("specification {}", book.specification.id);
        assume(book.reference, &whose, shown, assumptions);
        if let Some(off) = &book.not_at_reference() {
            assume_off(off, &whose, shown, assumptions);
        }
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

/// What is known of the temperature that figures hold at.
pub(in crate::job) fn reference(stated: Option<Temperature>, condition: Condition) -> Reference {
    match (stated, condition) {
        (Some(temperature), _) => Reference::At(temperature),
        (None, Condition::Cold) => Reference::Cold,
        (None, Condition::Hot) => Reference::Hot,
    }
}

/// What the metal adds against a reference, or why that cannot be told.
pub(in crate::job) fn against(
    metal: &Metal,
    reference: Reference,
    shown: Shown,
) -> Result<Against, Problem> {
    let off = metal.not_at(reference);
    let off = off.map_err(|e| Problem::at(Place::Metal, &e))?;
    let correction = metal.correction_from(reference);
    Ok(Against {
        correction: correction.map_err(|e| Problem::at(Place::Metal, &e))?,
        not_at_reference: off.map(|off| off.shown_in(shown.length(), shown.temperature)),
    })
}

/// What is taken of a temperature that is not printed.
pub(in crate::job) fn assume(
    reference: Reference,
    whose: &str,
    shown: Shown,
    assumptions: &mut Assumptions,
) {
    let text = match reference {
        Reference::At(_) => return,
        Reference::Cold => format!(
            "{} +/- {} taken, as makers' figures for cold engines lie",
            Temperature::ISO_1.show(shown.temperature, 0),
            COLD_HALF_WIDTH.show(shown.temperature)
        ),
        Reference::Hot => "hot is none, so no reading is held against it".into(),
    };
    assumptions.bears_on_verdict(
        "tolerance.reference",
        format!("{whose} states no reference temperature: {text}"),
    );
}

/// What is taken of a lash that follows the temperature by no known rule.
pub(in crate::job) fn assume_off(
    off: &NotAtReference,
    whose: &str,
    shown: Shown,
    assumptions: &mut Assumptions,
) {
    let apart = TemperatureDifference::from_kelvin(libm::rint(off.apart_k));
    let apart = apart.map_or_else(
        |_| String::from("far"),
        |apart| apart.show(shown.temperature),
    );
    assumptions.bears_on_verdict(
        "thermal.unknown-shift",
        format!(
            "{whose}: metal taken to be {apart} from its reference, which may change the lash by \
             {} either way (standard uncertainty; published changes over a warm-up of {} come to about \
             {})",
            reckoned(off.uncertainty_mm, shown.inches),
            WARM_UP.show(shown.temperature),
            by_hand(WARM_UP_MM, shown.inches)
        ),
    );
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

fn limits_words(limits: &ValveLimits, shown: Shown) -> String {
    let band = |limits| printed_limits(limits, shown.inches);
    let set_to = printed(limits.set_to(), shown.inches);
    let set = format!("set to {set_to}, band {}", band(limits.set()));
    match limits.leave_alone() {
        Some(alone) => format!("{set}; leave alone within {}", band(alone)),
        None => set,
    }
}

/// All of them as understood.
pub(in crate::job) fn reports(books: &[Book<'_>], shown: Shown) -> Vec<SpecificationReport> {
    books.iter().map(|book| report(book, shown)).collect()
}

fn report(book: &Book<'_>, shown: Shown) -> SpecificationReport {
    let s = book.specification;
    SpecificationReport {
        id: s.id.clone(),
        provenance: provenance(&s.provenance),
        applicability: book.applicability,
        condition: s.condition,
        reference: book.reference.temperature(),
        not_at_reference: book.not_at_reference().filter(|_| book.may_apply()),
        used_instead: book.used_instead.clone(),
        measured_at: s.measured_at.clone(),
        intake: limits_words(&s.intake, shown),
        exhaust: limits_words(&s.exhaust, shown),
    }
}

/// Where the specifications that may apply do not print the same: one line for the intake valves, one
/// for the exhaust valves, and one for what else differs.
pub(in crate::job) fn all_disagreements(books: &[Book<'_>], shown: Shown) -> Vec<String> {
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
    let mut lines = conditions::disagreements(books, shown);
    for field in fields {
        let what = kind(field);
        let said = candidates.iter().map(|s| {
            let says = match what.as_str() {
                "intake" => limits_words(&s.intake, shown),
                "exhaust" => limits_words(&s.exhaust, shown),
                "condition" => condition_word(s.condition).into(),
                "reference" => s
                    .holds_at()
                    .map_or_else(|| "not stated".into(), |t| t.show(shown.temperature, 0)),
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
