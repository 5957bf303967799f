//! The specifications.

use super::value;
use crate::document::{BandDoc, ConditionDoc, LimitsDoc, SpecificationDoc};
use crate::problems::Part;
use crate::quantity::Q;
use lashwork::job::Problem;
use lashwork::quantity::{Lash, Nominal, Temperature};
use lashwork::tolerance::{Condition, Limits, NumberRange, Provenance, Specification, ValveLimits};

/// All specifications; those without a reference temperature are named in `assumed`.
pub(super) fn all(
    list: Vec<Part<SpecificationDoc>>,
    assumed: &mut Vec<String>,
    problems: &mut Vec<Problem>,
) -> Vec<Specification> {
    let mut made: Vec<Specification> = Vec::new();
    for (i, part) in list.into_iter().enumerate() {
        let place = format!("/specifications/{i}");
        let Some(doc) = part.take(None, problems) else {
            continue;
        };
        if made.iter().any(|s| s.id == doc.id) {
            problems.push(Problem::new(
                format!("{place}/id"),
                "tolerance.id-twice",
                format!("{:?} names two specifications", doc.id),
                "give each specification its own id",
            ));
        }
        made.extend(one(doc, &place, assumed, problems));
    }
    made
}

fn one(
    doc: SpecificationDoc,
    place: &str,
    assumed: &mut Vec<String>,
    problems: &mut Vec<Problem>,
) -> Option<Specification> {
    let intake = limits(&doc.intake, &format!("{place}/intake"), problems);
    let exhaust = limits(&doc.exhaust, &format!("{place}/exhaust"), problems);
    let engine_numbers = doc.engine_numbers.and_then(|r| {
        value!(
            problems,
            format!("{place}/engine_numbers"),
            NumberRange::new(r.from, r.to)
        )
    });
    let reference = match (doc.reference, doc.condition) {
        (Some(reference), _) => Some(reference.0),
        (None, ConditionDoc::Cold) => {
            assumed.push(doc.id.clone());
            value!(problems, place, Temperature::iso_1())
        }
        (None, ConditionDoc::Hot) => {
            problems.push(Problem::new(
                place,
                "tolerance.hot-reference",
                "a hot specification without the temperature it holds at",
                "add \"reference\": the metal temperature of the hot engine",
            ));
            None
        }
    };
    Some(Specification {
        id: doc.id,
        provenance: Provenance {
            document: doc.document,
            edition: doc.edition,
            applies_to: doc.applies_to,
            engine_numbers,
        },
        condition: match doc.condition {
            ConditionDoc::Cold => Condition::Cold,
            ConditionDoc::Hot => Condition::Hot,
        },
        reference: reference?,
        measured_at: doc.measured_at,
        intake: intake?,
        exhaust: exhaust?,
    })
}

/// The limits of one kind of valve.
pub(crate) fn limits(
    doc: &LimitsDoc,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<ValveLimits> {
    let set = band(&doc.set, &format!("{place}/set"), problems);
    let alone = match &doc.leave_alone {
        Some(doc) => Some(band(doc, &format!("{place}/leave_alone"), problems)?),
        None => None,
    };
    value!(problems, place, ValveLimits::new(doc.set_to.0, set?, alone))
}

/// A band of limits; one end may be open.
pub(crate) fn band(
    doc: &BandDoc,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Limits<Lash>> {
    let before = problems.len();
    for (end, mark) in [("from", &doc.from), ("to", &doc.to)] {
        if let Some(Q(mark)) = mark
            && mark.nominal() < Nominal::ZERO
        {
            problems.push(Problem::new(
                format!("{place}/{end}"),
                "tolerance.negative-limit",
                format!("a limit of {mark} asks for a gap below nothing"),
                "write limits of zero or more; leave an end out to leave it open",
            ));
        }
    }
    if problems.len() > before {
        return None;
    }
    match (doc.from, doc.to) {
        (Some(from), Some(to)) => value!(problems, place, Limits::between(from.0, to.0)),
        (Some(from), None) => Some(Limits::at_least(from.0)),
        (None, Some(to)) => Some(Limits::at_most(to.0)),
        (None, None) => {
            problems.push(Problem::new(
                place,
                "tolerance.empty-band",
                "a band without an end limits nothing",
                "give \"from\", \"to\" or both",
            ));
            None
        }
    }
}
