//! What to do about a magneto.

use super::one::{Found, Inside, Spark, aim};
use crate::engine::Sense;
use crate::ignition::magneto::{ContactsAdvice, DropFinding, EGap, MagnetoSpeed};
use crate::job::work::{Before, WorkAdvice};
use crate::quantity::MagnetoAngle;
use crate::tolerance::{HasLimits, Limits, Measurand, Verdict};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// For one magneto: inside first, since moving the contacts moves the spark.
pub(super) fn one(found: &Found, before: &Before) -> WorkAdvice {
    if let Some(text) = &before.settle {
        let text = text.clone();
        return WorkAdvice::SettleFirst { text };
    }
    match found.inside {
        Inside::NotRead => {}
        Inside::NoGap => {
            return measure(
                "read the gap of the contacts too, with the follower on top of a lobe: where they open is no stand-in for it, and the timing to the engine comes after both",
            );
        }
        Inside::NoEGap => {
            return measure(
                "read where the contacts open too, in degrees past neutral: their gap is no stand-in for it, and the timing to the engine comes after both",
            );
        }
        Inside::Pitted => {
            return WorkAdvice::FindCause {
                text: String::from(
                    "the contacts are pitted: a leaf rests on the peak, and their gap is not known",
                ),
                causes: Vec::from([String::from(
                    "the contacts: dress or replace them, then read both again",
                )]),
            };
        }
        Inside::Judged(advice) => {
            if let Some(advice) = inside(found, advice, before) {
                return advice;
            }
        }
    }
    match &found.spark {
        Some(spark) => outside(found, spark, before),
        None if matches!(found.inside, Inside::Judged(_)) => WorkAdvice::Leave {
            text: String::from(
                "right inside: leave the contacts; then read where it sparks on the engine",
            ),
        },
        None => {
            measure("read where its contacts open and how wide, then where it sparks on the engine")
        }
    }
}

/// What to do inside; nothing where both are right.
fn inside(found: &Found, advice: ContactsAdvice, before: &Before) -> Option<WorkAdvice> {
    let which = match advice {
        ContactsAdvice::Leave => return None,
        ContactsAdvice::Replace => {
            return Some(WorkAdvice::FindCause {
                text: String::from(
                    "the contacts cannot open at the right place with a gap in its band: do not move them",
                ),
                causes: Vec::from([String::from(
                    "worn contacts or follower: replace them, then read both again",
                )]),
            });
        }
        ContactsAdvice::MeasureAgain => {
            return Some(measure(
                "what was read inside does not decide: read it again, several times",
            ));
        }
        ContactsAdvice::SetCloser => "closer",
        ContactsAdvice::SetWider => "wider",
    };
    let (read, limits) = found.e_gap.as_ref()?;
    let (at, aim) = (read.centre()?.number(), middle(limits)?);
    let (by, side) = ((aim - at).abs(), if aim > at { "later" } else { "earlier" });
    let moved = found.speed.map_or_else(String::new, |speed| {
        format!("; the spark moves {side} with them{}", crank(speed, by))
    });
    let gap = found.gap.as_ref().map_or_else(String::new, |(_, limits)| {
        format!(", and the gap within {limits}")
    });
    Some(WorkAdvice::Set {
        first: sure(before),
        text: format!(
            "set the contacts {which}, until they open {by:.1} magneto deg {side}{moved}"
        ),
        then_reads: format!(
            "{aim:.1} deg past neutral{gap}; only then read where it sparks on the engine"
        ),
    })
}

/// The same at the crank.
fn crank(speed: MagnetoSpeed, magneto_degrees: f64) -> String {
    MagnetoAngle::from_degrees(magneto_degrees).map_or_else(
        |_| String::new(),
        |angle| format!(" by {:.1} crank deg", speed.at_crank(angle).degrees()),
    )
}

/// The middle of the book's angle past neutral, or its only end.
fn middle(limits: &Limits<EGap>) -> Option<f64> {
    let number = EGap::printed_number;
    match (limits.lower(), limits.upper()) {
        (Some(low), Some(high)) => Some(f64::midpoint(number(low), number(high))),
        (one, other) => one.or(other).map(number),
    }
}

/// What to do on the engine.
fn outside(found: &Found, spark: &Spark, before: &Before) -> WorkAdvice {
    let answer = &spark.answer;
    let (turn, aim) = match (answer.judgement.shown(), answer.turn, aim(&spark.limits)) {
        (Verdict::Below | Verdict::Above, Some(turn), Some(aim)) => (turn, aim),
        (Verdict::InBand, ..) => {
            return WorkAdvice::Leave {
                text: String::from("it sparks when the book asks: leave it"),
            };
        }
        _ => {
            return measure(
                "what was read at the crank does not decide: read it again, several times",
            );
        }
    };
    let mut first = sure(before);
    if matches!(found.inside, Inside::NotRead) {
        first.push(String::from(
            "the contacts open at the right place with the right gap: moving them afterwards moves the spark",
        ));
    }
    first.push(String::from(
        "the crank is on the compression stroke of the cylinder that the magneto serves there",
    ));
    let earlier = answer.judgement.verdict == Verdict::Below;
    let way = if earlier {
        "against the way its rotor turns"
    } else {
        "the way its rotor turns"
    };
    let seen = match spark.rotor.map(|_| turn.sense) {
        Some(Sense::Clockwise) => {
            " (clockwise, facing the end from which its rotor's way was seen)"
        }
        Some(Sense::Anticlockwise) => {
            " (anticlockwise, facing the end from which its rotor's way was seen)"
        }
        None => {
            first.push(String::from(
                "which way its rotor turns: crank the engine by hand and look",
            ));
            ""
        }
    };
    let side = if earlier { "earlier" } else { "later" };
    WorkAdvice::Set {
        first,
        text: format!(
            "turn the body {way}{seen} by {:.1} of its own degrees, u {:.1} deg: {:.1} crank deg {side}",
            turn.angle.degrees(),
            turn.standard_uncertainty.degrees(),
            spark.speed.at_crank(turn.angle).degrees()
        ),
        then_reads: format!("{} at the crank", aim.show(1)),
    }
}

fn measure(text: &str) -> WorkAdvice {
    WorkAdvice::Measure {
        text: text.to_string(),
    }
}

/// What can kill comes before what can be wrong.
fn sure(before: &Before) -> Vec<String> {
    let mut first = Vec::from([
        String::from(
            "the switch is off and the magneto earthed at its own terminal; treat it as live all the same",
        ),
        String::from(
            "one plug is out of each cylinder, and nobody stands in the arc of a propeller or beside a flywheel",
        ),
    ]);
    first.extend(before.sure.iter().cloned());
    first
}

/// For the test of each alone, the most dangerous first.
pub(super) fn drop(findings: &[DropFinding], settled: bool) -> WorkAdvice {
    let Some(first) = findings.first() else {
        return WorkAdvice::Leave {
            text: String::from("each runs the engine as well as the book asks: leave them"),
        };
    };
    if let DropFinding::NoDrop { not_earthed } = first {
        return WorkAdvice::FindCause {
            text: format!(
                "no drop with the {not_earthed} one switched off: it may still spark, or the spark is too early; the test does not tell which"
            ),
            causes: Vec::from([
                format!(
                    "the switch and the earth wire of the {not_earthed} magneto: with the engine stopped and the switch off, an ohmmeter from its terminal to the engine must read next to nothing"
                ),
                String::from("where each sparks, at the crank: that tells a timing too early"),
            ]),
        };
    }
    if !settled {
        return WorkAdvice::SettleFirst {
            text: String::from(
                "settle each magneto and one against the other first, then test again: this test comes last",
            ),
        };
    }
    match first {
        DropFinding::TooMuch { alone } => WorkAdvice::FindCause {
            text: format!("it drops too much on the {alone} one alone"),
            causes: Vec::from([
                format!("the plugs and leads of the {alone} magneto: a rough, sudden drop"),
                format!("where the {alone} magneto sparks: a smooth, slow drop"),
                format!("the {alone} magneto itself: contacts, condenser, coil"),
            ]),
        },
        DropFinding::Apart { weaker } => WorkAdvice::FindCause {
            text: format!("the {weaker} one is the weaker by more than the book allows"),
            causes: Vec::from([
                String::from("where each of the two sparks: they may not be timed alike"),
                format!("plugs, leads and contacts of the {weaker} one"),
            ]),
        },
        DropFinding::CannotSay | DropFinding::NoDrop { .. } => measure(
            "a drop lies too near its limit to decide: test again, let the speed settle on each",
        ),
    }
}
