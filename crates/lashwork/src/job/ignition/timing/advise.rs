//! What to do about the point.

use super::answer::{AdvanceReport, BodyTurnReport, TimingSlipReport};
use super::words;
use crate::ignition::point::Drive;
use crate::ignition::timing::{
    Body, Hose, Taken, TimingError, TimingFound, TimingReading, TimingSlip,
};
use crate::job::ignition::request::Distributor;
use crate::job::work::{Before, WorkAdvice};
use crate::quantity::Advance;
use crate::tolerance::Verdict;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What the advice rests on.
pub(super) struct With<'r> {
    pub(super) reading: &'r TimingReading,
    pub(super) found: &'r TimingFound,
    pub(super) slips: &'r [TimingSlipReport],
    pub(super) curve: Option<&'r AdvanceReport>,
    pub(super) stop: Option<String>,
    pub(super) before: &'r Before,
    pub(super) inches: bool,
}

type Advised = (WorkAdvice, Option<BodyTurnReport>);

pub(super) fn advise(
    with: &With<'_>,
    aim: Option<Advance>,
    drive: Drive,
    distributor: &Distributor,
) -> Result<Advised, TimingError> {
    let alone = |advice| Ok((advice, None));
    if let Some(text) = &with.before.settle {
        let text = text.clone();
        return alone(WorkAdvice::SettleFirst { text });
    }
    if let Some(text) = &with.stop {
        let text = text.clone();
        return alone(WorkAdvice::SettleFirst { text });
    }
    // A worn advance turned until one speed reads right is wrong at all others.
    if let Some(curve) = with.curve
        && let WorkAdvice::FindCause { .. } = curve.advice
    {
        return alone(WorkAdvice::SettleFirst {
            text: String::from(
                "do not turn the body: the advance does not follow its curve; settle that first",
            ),
        });
    }
    match with.found.judgement.shown() {
        Verdict::InBand => {
            return alone(WorkAdvice::Leave {
                text: String::from("the spark comes when the book asks: leave the body"),
            });
        }
        Verdict::CannotSay => return alone(measure(with)),
        _ => {}
    }
    // A reading that counts in other degrees, or was not static, moves nothing.
    let doubt = with.slips.iter().find(|one| {
        matches!(
            one.slip,
            TimingSlip::RunningReadingAsStatic
                | TimingSlip::PrintedAtDistributor
                | TimingSlip::ReadAtDistributor
        )
    });
    if let Some(doubt) = doubt {
        return alone(WorkAdvice::Measure {
            text: format!("look at this before anything is turned: {}", doubt.text),
        });
    }
    let (Some(aim), Some(centre), Some(u)) = (aim, with.found.estimate.centre(), with.found.u())
    else {
        return alone(measure(with));
    };
    let body = Body::new(drive, distributor.rotor, distributor.clamp)?;
    let turn = body.turn(centre, aim, with.reading.read)?;
    let text = words::turn(&turn, u.number(), with.inches);
    let mut first: Vec<String> = with.before.sure.clone();
    if let Taken::Running(running) = with.reading.taken {
        match running.hose {
            Hose::Connected(_) => {
                first.push(String::from(
                    "the vacuum hose is still connected, as the book asks",
                ));
            }
            Hose::Plugged => first.push(String::from("the vacuum hose is still off and plugged")),
            Hose::NotFitted => {}
        }
    }
    if with.found.is_far_off() {
        first.push(String::from(
            "the TDC mark is that of the cylinder on whose lead the lamp is, and the pulley has not slipped",
        ));
    }
    if distributor.rotor.is_none() {
        first.push(String::from(
            "which way the rotor turns: crank the engine and look",
        ));
    }
    let said = BodyTurnReport {
        turn,
        text: text.clone(),
    };
    Ok((
        WorkAdvice::Set {
            first,
            text,
            then_reads: format!("{} {}", turn.then_reads.show(1), conditions(with.reading)),
        },
        Some(said),
    ))
}

fn conditions(reading: &TimingReading) -> String {
    match reading.taken {
        Taken::Standing => String::from("with the engine standing"),
        Taken::Running(running) => {
            let hose = match running.hose {
                Hose::NotFitted => "",
                Hose::Plugged => ", hose plugged",
                Hose::Connected(_) => ", hose connected as it was",
            };
            format!("at {} with the same lamp{hose}", running.speed)
        }
    }
}

/// What would decide it.
fn measure(with: &With<'_>) -> WorkAdvice {
    let text = match with.reading.taken {
        Taken::Running(_) if with.found.by_curve || with.found.by_vacuum => {
            "read again below the speed at which the advance begins, the hose off and plugged, or with the engine standing: the book's own width is in this reading"
        }
        _ => "read the mark again, several times, and take the mean",
    };
    WorkAdvice::Measure {
        text: text.to_string(),
    }
}
