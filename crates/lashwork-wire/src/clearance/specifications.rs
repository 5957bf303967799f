//! The specifications.

use crate::part::Part;
use crate::problem::{Problem, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::quantity::{Lash, Marked, Temperature};
use lashwork::tolerance::Limits;
use lashwork::valve::{Condition, NumberRange, Provenance, Specification, ValveLimits};

named!(Condition as "ConditionDoc" { Cold = "cold", Hot = "hot" });

parts! {
    /// A specification with where it comes from.
    SpecificationDoc {
        id: String,
        document: String,
        edition: Option<String>,
        applies_to: Option<String>,
        engine_numbers: Option<RangeDoc>,
        condition: W<Condition>,
        /// Temperature at which the limits hold; 20 C is assumed, and listed, for a cold one. For a hot one
        /// that prints none it is not known, and no reading can be judged by it.
        reference: Option<Q<Temperature>>,
        measured_at: Option<String>,
        intake: LimitsDoc,
        exhaust: LimitsDoc,
    }
    /// Engine numbers, both ends included.
    RangeDoc { from: u64, to: u64 }
    /// What a valve is set to, the band it may be set in, and the band in which it is left alone.
    LimitsDoc { set_to: Q<Marked>, set: BandDoc, leave_alone: Option<BandDoc> }
    /// A band; one end may be open.
    BandDoc { from: Option<Q<Marked>>, to: Option<Q<Marked>> }
}

/// All specifications.
pub(super) fn all(
    list: Vec<Part<SpecificationDoc>>,
    problems: &mut Vec<Problem>,
) -> Vec<Specification> {
    let mut made = Vec::new();
    for (i, part) in list.into_iter().enumerate() {
        let place = format!("/clearance/specifications/{i}");
        if let Some(doc) = part.take(None, problems) {
            made.extend(one(doc, &place, problems));
        }
    }
    made
}

fn one(doc: SpecificationDoc, place: &str, problems: &mut Vec<Problem>) -> Option<Specification> {
    let intake = limits(&doc.intake, &format!("{place}/intake"), problems);
    let exhaust = limits(&doc.exhaust, &format!("{place}/exhaust"), problems);
    let engine_numbers = doc.engine_numbers.and_then(|r| {
        value(
            problems,
            format!("{place}/engine_numbers"),
            NumberRange::new(r.from, r.to),
        )
    });
    Some(Specification {
        id: doc.id,
        provenance: Provenance {
            document: doc.document,
            edition: doc.edition,
            applies_to: doc.applies_to,
            engine_numbers,
        },
        condition: doc.condition.0,
        reference: doc.reference.map(|t| t.0),
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
    value(problems, place, ValveLimits::new(doc.set_to.0, set?, alone))
}

/// A band of limits; one end may be open.
pub(crate) fn band(
    doc: &BandDoc,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<Limits<Lash>> {
    let before = problems.len();
    for (end, mark) in [("from", &doc.from), ("to", &doc.to)] {
        if let Some(Q(mark)) = mark {
            value(
                problems,
                format!("{place}/{end}"),
                ValveLimits::check(*mark),
            );
        }
    }
    if problems.len() > before {
        return None;
    }
    match (doc.from, doc.to) {
        (Some(from), Some(to)) => value(problems, place, Limits::between(from.0, to.0)),
        (Some(from), None) => Some(Limits::at_least(from.0)),
        (None, Some(to)) => Some(Limits::at_most(to.0)),
        (None, None) => {
            problems.push(Problem::new(
                place,
                "tolerance.empty-band",
                "a band needs at least one limit",
                "give \"from\", \"to\" or both",
            ));
            None
        }
    }
}
