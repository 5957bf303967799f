//! What to do about the leads.

use super::answer::{LeadGroupReport, NextLookReport};
use super::words::Words;
use crate::ignition::leads::{LeadAnswer, LeadState, LeadVerdict};
use crate::job::text::percent;
use crate::job::work::{Before, WorkAdvice};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// What came out, in words.
pub(super) fn verdict(verdict: LeadVerdict, first: Option<&LeadGroupReport>) -> String {
    let said = || {
        let told = first.map(|group| {
            let text = group.states.first().map_or("", |state| state.text.as_str());
            format!("{text} ({})", percent(group.probability))
        });
        told.unwrap_or_default()
    };
    match verdict {
        LeadVerdict::NothingSeen => String::from("not looked at"),
        LeadVerdict::Settled => said(),
        LeadVerdict::Open => format!("not decided; most probably {}", said()),
        LeadVerdict::NothingFits => String::from("none of the usual faults fits what was found"),
    }
}

/// The advice for what was found.
pub(super) fn advise(
    answer: &LeadAnswer,
    words: &Words<'_>,
    next: Option<&NextLookReport>,
    before: &Before,
) -> WorkAdvice {
    if let Some(text) = &before.settle {
        let text = text.clone();
        return WorkAdvice::SettleFirst { text };
    }
    let group = answer.groups.first();
    let state = group
        .and_then(|group| group.states.first())
        .map(|one| one.state);
    let look = |why: &str| WorkAdvice::Measure {
        text: match next {
            Some(next) => format!("{why}{}", next.text),
            None => format!(
                "{why}no further look tells more: take those again that fit least, by another pair of eyes"
            ),
        },
    };
    match (answer.verdict, state) {
        (LeadVerdict::Settled, Some(LeadState::AsItShould)) => WorkAdvice::Leave {
            text: String::from("leave leads and distributor as they are"),
        },
        (LeadVerdict::Settled, Some(LeadState::MovedToSuit { .. })) => WorkAdvice::Leave {
            text: String::from(
                "leave it: every spark goes where it should; mark the cap, for the marks on it do not fit",
            ),
        },
        (LeadVerdict::Settled, Some(state)) => match words.cure(&state) {
            Some(text) => WorkAdvice::Set {
                first: first(&state, words, before),
                text,
                then_reads: then_reads(words),
            },
            None => look("before anything is moved: "),
        },
        (LeadVerdict::NothingFits, _) => WorkAdvice::FindCause {
            text: String::from(
                "none of the usual faults fits: move no lead yet, what was found may be wrong in more than one place",
            ),
            causes: causes(next),
        },
        (LeadVerdict::NothingSeen, _) => look("look first: "),
        _ => look("not decided, so move nothing yet: "),
    }
}

fn causes(next: Option<&NextLookReport>) -> Vec<String> {
    let more = next.map(|next| next.text.clone());
    let usual = [
        "two of the faults at once, as a distributor out by a tooth and two leads exchanged",
        "the tower that was taken for that of the first cylinder, and the way the rotor turns",
        "a cap that tracks or is cracked: sparks then go to more than one lead",
    ];
    let usual = usual.into_iter().map(ToString::to_string);
    more.into_iter().chain(usual).collect()
}

/// What must be sure before a lead or the distributor is moved.
fn first(state: &LeadState, words: &Words<'_>, before: &Before) -> Vec<String> {
    let mut sure = before.sure.clone();
    sure.push(String::from(
        "the ignition is off and every lead is marked as it stands now",
    ));
    if matches!(state, LeadState::TeethOut { .. } | LeadState::HalfTurnOut) {
        sure.push(format!(
            "cylinder {} stands at top dead centre of its compression, not of its overlap",
            words.first()
        ));
    }
    let turns = !matches!(
        state,
        LeadState::TwoExchanged { .. } | LeadState::HalfTurnOut
    );
    if words.rotor.is_none() && turns {
        sure.push(String::from(
            "which way the rotor turns: crank the engine and look",
        ));
    }
    sure
}

fn then_reads(words: &Words<'_>) -> String {
    format!(
        "the rotor at the tower of cylinder {0} with cylinder {0} at firing top dead centre, and each lead from \
         its own tower to its own cylinder",
        words.first()
    )
}
