//! Timing in words.

use crate::engine::Sense;
use crate::ignition::timing::{BodyTurn, BodyWay, CurveCause, TimingFound, TimingSlip};
use crate::quantity::LengthUnit;
use alloc::format;
use alloc::string::String;

/// What was found, with its uncertainty.
pub(super) fn found(found: &TimingFound) -> String {
    let Some((centre, u)) = found.estimate.centre().zip(found.u()) else {
        return String::from("one end only");
    };
    let by = match (found.by_curve, found.by_vacuum) {
        (false, false) => "",
        (true, false) => ", the advance by speed taken off",
        (false, true) => ", the advance by vacuum taken off",
        (true, true) => ", the advance by speed and by vacuum taken off",
    };
    format!("{}, u {:.1} deg{by}", centre.show(1), u.number())
}

pub(super) const fn slip(slip: TimingSlip) -> &'static str {
    match slip {
        TimingSlip::SetWithVacuum => {
            "it is late by as much as a vacuum capsule gives: it was probably set with the hose connected"
        }
        TimingSlip::RunningReadingAsStatic => {
            "it is early by as much as the weights give: was it read with the engine running?"
        }
        TimingSlip::StaticFigureSetAtSpeed => {
            "it is late by as much as the weights give: the static figure may have been set with the engine running"
        }
        TimingSlip::PrintedAtDistributor => {
            "it is twice the book's figure: does that count at the distributor?"
        }
        TimingSlip::ReadAtDistributor => {
            "it is half the book's figure: was it read in degrees of the distributor?"
        }
    }
}

pub(super) const fn cause(cause: CurveCause) -> &'static str {
    match cause {
        CurveCause::StaticPointOff => {
            "the body stands wrong and the advance is sound: turn the body"
        }
        CurveCause::SpringsWeak => "weak or stretched springs: compare them with new ones",
        CurveCause::SpringsStrong => {
            "springs too strong, or the shaft binds: oil it, try the springs"
        }
        CurveCause::WeightsSticking => {
            "weights or plate stick: twist the rotor and let go, it must spring back"
        }
        CurveCause::EndWrong => "the advance ends at the wrong place: stop, slot or weights",
        CurveCause::UsedUpAtIdle => {
            "some of the advance is out at idle already: worn weights or springs; turning the body does not cure it"
        }
        CurveCause::SetWithVacuum => {
            "it was set with the vacuum hose connected: pull it off, plug it, set anew"
        }
        CurveCause::SetAtSpeed => {
            "the static figure was set with the engine running too fast: set anew"
        }
        CurveCause::SomethingElse => {
            "more than one of these, or something else: read again, then look inside"
        }
    }
}

/// How far to turn the body, and which way.
pub(super) fn turn(turn: &BodyTurn, u: f64, inches: bool) -> String {
    let side = if turn.earlier.degrees() < 0.0 {
        "later"
    } else {
        "earlier"
    };
    let way = match turn.way {
        BodyWay::AgainstRotor => "against the way the rotor turns",
        BodyWay::WithRotor => "the way the rotor turns",
        BodyWay::Stay => return String::from("leave the body where it stands"),
    };
    let seen = match turn.seen_from_cap {
        Some(Sense::Clockwise) => " (clockwise seen from the cap)",
        Some(Sense::Anticlockwise) => " (anticlockwise seen from the cap)",
        None => "",
    };
    let along = turn.along_circle.map_or_else(String::new, |along| {
        let text = if inches {
            along.show(LengthUnit::Inch, 2)
        } else {
            along.show(LengthUnit::Millimetre, 1)
        };
        format!(", {text} along the clamp")
    });
    format!(
        "turn the body {way}{seen} by {:.1} of its own degrees{along}: {:.1} crank deg {side}, u {u:.1} deg",
        turn.body.degrees(),
        turn.earlier.degrees().abs(),
    )
}
