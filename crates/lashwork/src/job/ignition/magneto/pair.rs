//! Two magnetos, one against the other.

use super::answer::MagnetoPairReport;
use super::one::{Found, Spark, aim};
use super::request::Magneto;
use super::{MagnetoField, Refused};
use crate::ignition::magneto::{Pair, Which};
use crate::job::work::{Sides, WorkAdvice, told};
use crate::tolerance::Verdict;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

const APART: Sides = Sides {
    below: "the left one is too late",
    above: "the right one is too late",
};

/// How far they are apart, where both were read and the book says how far they may be.
pub(super) fn report(
    asked: &Magneto,
    found: &[Found],
    each_left: bool,
) -> Result<Option<MagnetoPairReport>, Refused> {
    let of = |which| {
        let mut all = found.iter();
        all.find(|one| one.which == Some(which))
            .and_then(|one| one.spark.as_ref())
    };
    let (Some(left), Some(right), Some(most_apart)) =
        (of(Which::Left), of(Which::Right), asked.most_apart)
    else {
        return Ok(None);
    };
    let pair = Pair {
        left: left.read,
        right: right.read,
        most_apart,
    };
    let answer = pair.judged().map_err(Refused::at(MagnetoField::Apart))?;
    let late = answer.difference.degrees_late();
    let side = if late < 0.0 { "earlier" } else { "later" };
    let said = format!(
        "the right one {:.1} crank deg {side}, u {:.1} deg",
        late.abs(),
        answer.standard_uncertainty.degrees()
    );
    let limits = format!("at most {} deg apart", most_apart.degrees());
    let advice = match answer.judgement.shown() {
        Verdict::InBand => WorkAdvice::Leave {
            text: String::from("both spark alike: leave them"),
        },
        Verdict::CannotSay => WorkAdvice::Measure {
            text: String::from("read both again at one setting of the crank"),
        },
        _ if !each_left => WorkAdvice::SettleFirst {
            text: String::from("settle each magneto first: that moves them against each other"),
        },
        _ => WorkAdvice::FindCause {
            text: String::from(
                "each sparks within the book and yet they are too far apart: bring both to the middle of its band",
            ),
            causes: Vec::from([to_middle("left", left), to_middle("right", right)]),
        },
    };
    Ok(Some(MagnetoPairReport {
        judged: told(said, limits, &answer.judgement, APART),
        advice,
    }))
}

/// How far one is off the middle.
fn to_middle(name: &str, one: &Spark) -> String {
    let off = aim(&one.limits)
        .zip(one.read.centre())
        .map(|(aim, at)| aim - at);
    let degrees = off.map_or(0.0, crate::quantity::CrankAngle::degrees);
    let side = if degrees < 0.0 { "later" } else { "earlier" };
    let body = off.map_or(0.0, |off| one.speed.at_magneto(off).degrees().abs());
    let crank = degrees.abs();
    format!(
        "the {name} one by {crank:.1} crank deg {side}: {body:.1} of its own degrees at its body"
    )
}
