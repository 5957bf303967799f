//! What is wrong with a document, and where, as a JSON pointer.

use crate::causes;
use crate::condition;
use crate::history;
use crate::ignition;
use crate::mixture;
use crate::place::Place;
use lashwork::{Refusal, job};
use serde::Serialize;

/// One thing wrong with a document: where, what, and what to do.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Problem {
    /// Where in the document, as a JSON pointer such as `/clearance/readings/3/cylinder`.
    pub place: String,
    /// A short name that never changes.
    pub code: String,
    /// What is wrong, with the values.
    pub message: String,
    /// What to do about it.
    pub hint: String,
}

impl Problem {
    /// Puts a problem together.
    ///
    /// ```
    /// let problem = lashwork_wire::Problem::new("/title", "document.wrong-type", "a list", "write text");
    /// assert_eq!(problem.place, "/title");
    /// ```
    pub fn new(
        place: impl Into<String>,
        code: impl Into<String>,
        message: impl Into<String>,
        hint: impl Into<String>,
    ) -> Self {
        Self {
            place: place.into(),
            code: code.into(),
            message: shortened(message.into()),
            hint: shortened(hint.into()),
        }
    }

    /// A refusal of the core, at a pointer.
    pub(crate) fn at(place: impl Into<String>, error: &impl Refusal) -> Self {
        Self::new(place, error.code(), error.to_string(), error.hint())
    }

    /// A problem of a request, at a pointer.
    pub(crate) fn of(problem: job::Problem, place: String) -> Self {
        Self::new(place, problem.code, problem.message, problem.hint)
    }
}

/// Most letters of a quoted text, or of a word, that a message repeats whole, and how many of a longer
/// one.
const REPEATED: (usize, usize) = (60, 40);
/// Most letters of a message.
const LONGEST: usize = 2_000;

/// A message that does not repeat in full what is too long to be read.
fn shortened(text: String) -> String {
    let (most, kept) = REPEATED;
    if text.len() <= most {
        return text;
    }
    let cut = |part: &str, most: usize, kept: usize| -> String {
        match part.char_indices().nth(most) {
            Some(_) => part.chars().take(kept).chain("...".chars()).collect(),
            None => part.to_owned(),
        }
    };
    let quoted = |(i, part): (usize, &str)| {
        if i % 2 == 1 {
            return cut(part, most, kept);
        }
        let words: Vec<String> = part.split(' ').map(|word| cut(word, most, kept)).collect();
        words.join(" ")
    };
    let parts: Vec<String> = text.split('"').enumerate().map(quoted).collect();
    cut(&parts.join("\""), LONGEST, LONGEST)
}

/// Where a place of a request stands in its document.
pub(crate) fn pointer(place: &job::Place) -> String {
    use job::Place as P;
    let section = |rest: &str| format!("/clearance{rest}");
    match place {
        P::Engine => "/engine".into(),
        P::Valves => section("/valves"),
        P::RockerRatio => section("/valves/rocker_ratio"),
        P::Shims => section("/valves/shim"),
        P::Specifications => section("/specifications"),
        P::Specification(i) => section(&format!("/specifications/{i}")),
        P::SpecificationId(i) => section(&format!("/specifications/{i}/id")),
        P::Reading(i) => section(&format!("/readings/{i}")),
        P::ReadingNumber(i) => section(&format!("/readings/{i}/number")),
        P::ReadingShim(i) => section(&format!("/readings/{i}/shim")),
        P::Left(i) => section(&format!("/readings/{i}/left")),
        P::LeftShim(i) => section(&format!("/readings/{i}/left/shim")),
        P::LeftShimUncertainty(i) => section(&format!("/readings/{i}/left/shim_uncertainty")),
        P::ReadingShimUncertainty(i) => section(&format!("/readings/{i}/shim_uncertainty")),
        P::Metal => section("/metal"),
        P::Cooling => section("/metal/cooling"),
        P::LashTable => section("/metal/curve"),
        P::LashTableVaries => section("/metal/curve/varies"),
        P::Rocker(i) => section(&format!("/crank_check/rockers/{i}/number")),
        P::OtherOrder(i) => section(&format!("/crank_check/also_orders/{i}")),
        P::Gauge => section("/gauge"),
        P::MisreadRisk => section("/crank_check/wrong_call"),
        P::Causes(place) => format!("/causes{}", causes::pointer(*place)),
        P::Condition(place) => format!("/condition{}", condition::pointer(*place)),
        P::Mixture(place) => format!("/mixture{}", mixture::pointer(*place)),
        P::History(place) => history::pointer(*place),
        P::Ignition(place) => format!("/ignition{}", ignition::pointer(*place)),
        _ => String::new(),
    }
}

/// The value of a result, or the refusal noted at a place.
pub(crate) fn value<T, E: Refusal>(
    problems: &mut Vec<Problem>,
    place: impl Into<String>,
    result: Result<T, E>,
) -> Option<T> {
    result
        .map_err(|error| problems.push(Problem::at(place, &error)))
        .ok()
}

/// A needed field that is not there.
pub(crate) fn missing(place: &Place<'_>, field: &str) -> Problem {
    Problem::new(
        place.pointer(),
        "document.missing-field",
        format!("the field \"{field}\" is missing"),
        format!("add \"{field}\""),
    )
}

/// A problem that names the nearest known word and lists them all.
pub(crate) fn unknown(
    place: String,
    code: &str,
    message: &str,
    word: &str,
    accepted: &[&str],
) -> Problem {
    let known = accepted.join(", ");
    let hint = match nearest(word, accepted) {
        Some(near) => format!("did you mean \"{near}\"? Known: {known}"),
        None => format!("known: {known}"),
    };
    Problem::new(place, code, message, hint)
}

/// The known word nearest to a misspelt one, if near enough to be meant.
fn nearest<'w>(word: &str, accepted: &[&'w str]) -> Option<&'w str> {
    let scored = accepted
        .iter()
        .map(|a| (strsim::damerau_levenshtein(word, a), *a));
    let (distance, near) = scored.min()?;
    (distance <= 1 + near.len() / 3).then_some(near)
}

/// Most cylinders, firings or specifications in a document. Far above any engine; without it a
/// document within the byte limit could keep the kernel busy for minutes.
const MAX_ITEMS: usize = 100;

/// Whether a list is short enough; if not, that is reported.
pub(crate) fn is_short<T>(list: &[T], place: &str, problems: &mut Vec<Problem>) -> bool {
    is_within(list.len(), MAX_ITEMS, place, problems)
}

/// Whether a list is no longer than it may be; if it is, that is reported.
pub(crate) fn is_within(
    count: usize,
    most: usize,
    place: &str,
    problems: &mut Vec<Problem>,
) -> bool {
    if count > most {
        problems.push(too_many(place, "list", "items", count, most));
    }
    count <= most
}

/// More of something in one place than is read.
pub(crate) fn too_many(place: &str, what: &str, of: &str, count: usize, most: usize) -> Problem {
    Problem::new(
        place,
        "document.too-many",
        format!("the {what} has {count} {of}, more than {most}"),
        format!("write at most {most}; split the job if it needs more"),
    )
}
