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
    /// What a valve is set to, the band it may be set in, and the band in which it is left alone. A book that
    /// prints one figure has no `set`, one that prints a range no `set_to`; what is taken instead is listed.
    LimitsDoc {
        set_to: Option<Q<Marked>>,
        set: Option<BandDoc>,
        /// Half the width of the set band for a book that prints one figure; a fifth of it, from 0.02 to
        /// 0.05 mm, if it is not stated.
        plus_minus: Option<Q<Marked>>,
        leave_alone: Option<BandDoc>,
    }
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
    let set = match &doc.set {
        Some(set) => Some(lash_band(set, &format!("{place}/set"), problems)?),
        None => None,
    };
    let alone = match &doc.leave_alone {
        Some(doc) => Some(lash_band(doc, &format!("{place}/leave_alone"), problems)?),
        None => None,
    };
    let width = doc.plus_minus.map(|width| width.0);
    let limits = match (doc.set_to, set, width) {
        (Some(set_to), Some(set), None) => ValveLimits::new(set_to.0, set, alone),
        (Some(set_to), None, width) => ValveLimits::figure(set_to.0, alone, width),
        (None, Some(set), None) => ValveLimits::range(set, alone),
        (_, Some(_), Some(_)) => {
            problems.push(Problem::new(
                format!("{place}/plus_minus"),
                "tolerance.two-bands",
                "both a set band and a width for one are given",
                "keep the band the book prints",
            ));
            return None;
        }
        (None, None, _) => {
            problems.push(Problem::new(
                place,
                "tolerance.no-limits",
                "neither a value to set nor a band to set it in is given",
                "give \"set_to\", \"set\" or both, as the book prints them",
            ));
            return None;
        }
    };
    value(problems, place, limits)
}

/// A band of limits; one end may be open.
pub(crate) fn lash_band(
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
    crate::band::band(doc.from, doc.to, place, problems)
}
