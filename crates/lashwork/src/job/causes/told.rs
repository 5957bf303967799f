//! The report of what was weighed.

use super::answer::{CausePlaceReport, CauseReport, CausesNextReport, CausesReport, SpeaksReport};
use super::words;
use crate::causes::{
    CauseAnswer, CauseVerdict, LikelyCause, NextCauseLook, Place, SpeaksFor, Strength,
};
use crate::engine::Engine;
use crate::job::text::percent;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Causes less probable than this are not told, nor those up to [`LIKELY`] that nothing speaks for.
const TOLD: f64 = 0.03;
const LIKELY: f64 = 0.10;
/// How much more probable than before a cause is that something speaks for.
const RAISED: f64 = 1.2;
/// A look that tells less is not worth saying, in bits.
const WORTH_SAYING: f64 = 0.02;
/// The most that is said: more was not tried.
const SAID: f64 = 0.97;

/// A probability in words, no stronger than what was tried.
fn chance(p: f64) -> String {
    if p > SAID {
        format!("over {}", percent(SAID))
    } else {
        percent(p)
    }
}

fn label(engine: &Engine, at: usize) -> String {
    let found = engine.cylinders().get(at);
    found.map_or_else(String::new, |cylinder| cylinder.label.to_string())
}

fn place(engine: &Engine, place: Place) -> (Vec<String>, String) {
    let of = |at| label(engine, at);
    match place {
        Place::Engine => (Vec::new(), String::from("the engine as a whole")),
        Place::Cylinder(at) => (Vec::from([of(at)]), format!("cylinder {}", of(at))),
        Place::Between(one, other) => (
            Vec::from([of(one), of(other)]),
            format!("between cylinders {} and {}", of(one), of(other)),
        ),
    }
}

fn speaks(own: &SpeaksFor) -> SpeaksReport {
    let look = words::looked(own.look);
    let strength = own.strength();
    let side = match strength {
        Strength::Nothing => "",
        _ if own.adds > 0.0 => " for it",
        _ => " against it",
    };
    SpeaksReport {
        look: own.look,
        alone_db: own.alone,
        adds_db: own.adds,
        strength,
        text: format!("{look}: {strength}{side} ({:+.0} dB)", own.adds),
    }
}

fn cause(own: &LikelyCause, engine: &Engine) -> CauseReport {
    let places = own.places.iter().map(|at| {
        let (cylinders, name) = place(engine, at.place);
        CausePlaceReport {
            cylinders,
            probability: at.probability,
            text: format!("{name} ({})", chance(at.probability)),
        }
    });
    CauseReport {
        cause: own.cause,
        text: words::cause(own.cause),
        prior: own.prior,
        probability: own.probability,
        probability_text: chance(own.probability),
        places: places.collect(),
        speaks: own.speaks.iter().map(speaks).collect(),
    }
}

fn next(own: &NextCauseLook, engine: &Engine) -> CausesNextReport {
    let cylinder = own.cylinder.map(|at| label(engine, at));
    let at = cylinder
        .as_ref()
        .map(|label| format!(" of cylinder {label}"));
    let first = words::first(own.at).map(|first| format!("; first: {first}"));
    let text = format!(
        "{}{} (about {:.0} min){}",
        words::look(own.at),
        at.unwrap_or_default(),
        own.minutes,
        first.unwrap_or_default()
    );
    CausesNextReport {
        at: own.at,
        cylinder,
        bits: own.bits,
        minutes: own.minutes,
        text,
    }
}

fn said(answer: &CauseAnswer, first: Option<&CauseReport>) -> String {
    let told = || {
        let named = first.map(|one| match one.places.first() {
            Some(at) if at.cylinders.is_empty() => {
                format!("{} ({})", one.text, chance(one.probability))
            }
            Some(at) => format!("{} ({}), {}", one.text, chance(one.probability), at.text),
            None => String::from(one.text),
        });
        named.unwrap_or_else(|| String::from("none of them is at all likely"))
    };
    let nothing = chance(answer.nothing);
    match answer.verdict {
        CauseVerdict::NothingSeen => String::from("nothing was found that says anything"),
        CauseVerdict::Sound => {
            format!("none of the causes weighed here, as far as was looked ({nothing})")
        }
        CauseVerdict::Settled => told(),
        CauseVerdict::NothingFits => {
            String::from("none of the causes weighed here fits what was found")
        }
        CauseVerdict::Open if first.is_none_or(|one| answer.nothing > one.probability) => {
            format!(
                "not decided; most probably nothing ({nothing}), else {}",
                told()
            )
        }
        CauseVerdict::Open => format!("not decided; most probably {}", told()),
    }
}

/// The report; `remarks` say what was found and is not weighed.
pub(super) fn told(answer: &CauseAnswer, engine: &Engine, remarks: Vec<String>) -> CausesReport {
    let seen = answer.verdict != CauseVerdict::NothingSeen;
    let is_told = |own: &&LikelyCause| {
        let raised = own.probability > RAISED * own.prior;
        seen && own.probability >= TOLD && (raised || own.probability >= LIKELY)
    };
    let likely = answer.causes.iter().filter(is_told);
    let causes: Vec<CauseReport> = likely.map(|own| cause(own, engine)).collect();
    let not: Vec<&str> = answer
        .not_looked_at
        .iter()
        .map(|at| words::looked(*at))
        .collect();
    let worth = answer.next.iter().filter(|own| own.bits >= WORTH_SAYING);
    CausesReport {
        verdict: answer.verdict,
        verdict_text: said(answer, causes.first()),
        causes,
        nothing: answer.nothing,
        passing: answer.passing,
        something_else: answer.something_else,
        several: answer.several,
        next: worth.map(|own| next(own, engine)).collect(),
        not_looked_at: answer.not_looked_at.clone(),
        not_looked_at_text: (!not.is_empty()).then(|| not.join(", ")),
        remarks,
        trust_text: words::TRUST,
    }
}
