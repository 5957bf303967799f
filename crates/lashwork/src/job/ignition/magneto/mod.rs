//! Magnetos: right inside, right on the engine, as good as the other one, and what can kill beside them.

mod advise;
mod answer;
mod drop;
mod one;
mod pair;
mod request;
pub(super) mod sheet;

pub use answer::{
    MagnetoCautionReport, MagnetoDropReport, MagnetoPairReport, MagnetoReport, OneMagnetoReport,
};
pub use request::{DropRead, Magneto, OneMagneto};

use super::request::Distributor;
use super::{IgnitionPlace, MagnetoField};
use crate::ignition::magneto::{MagnetoCaution, MagnetoError, Which};
use crate::job::assumptions::Assumptions;
use crate::job::known::Known;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Before, Standing, WorkAdvice};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Works it out: inside, then on the engine, then one against the other, the test of each alone last.
pub(super) fn report(
    asked: &Magneto,
    known: Known<'_>,
    _distributor: &Distributor,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<MagnetoReport> {
    let mut faults = Vec::new();
    if !named_apart(&asked.magnetos) {
        faults.push(Problem::new(
            place(MagnetoField::Section),
            "ignition.magneto-names",
            format!(
                "{} magnetos are not told apart: of two, one is the left and one the right",
                asked.magnetos.len()
            ),
            "name two \"left\" and \"right\", each once; an engine has no third",
        ));
    }
    let mut found = Vec::new();
    for (i, read) in asked.magnetos.iter().enumerate() {
        match one::read(asked, read, i, known, assumptions, &mut faults) {
            Ok(one) => found.push(one),
            Err(refused) => refused.note(&mut faults),
        }
    }
    let magnetos: Vec<OneMagnetoReport> = found
        .iter()
        .map(|one| one.report(before, known.shown.length()))
        .collect();
    let each_left = magnetos.iter().all(|one| is_left(&one.advice));
    let apart = match pair::report(asked, &found, each_left) {
        Ok(apart) => apart,
        Err(refused) => {
            refused.note(&mut faults);
            None
        }
    };
    let settled = each_left && apart.as_ref().is_none_or(|pair| is_left(&pair.advice));
    let drop = asked.drop.as_ref().and_then(|test| {
        let made = drop::report(test, settled, assumptions);
        made.map_err(|refused| refused.note(&mut faults)).ok()
    });
    if !faults.is_empty() {
        problems.append(&mut faults);
        return None;
    }
    let mut cautions = Vec::from([MagnetoCaution::PropellerIsLive, MagnetoCaution::HighVoltage]);
    cautions.extend(found.iter().filter_map(one::Found::kicks));
    cautions.extend(drop.iter().flat_map(|drop| drop.cautions.iter().copied()));
    // The most dangerous first.
    cautions.sort_by_key(|caution| match caution {
        MagnetoCaution::SwitchMayNotEarth => 0,
        MagnetoCaution::PropellerIsLive => 1,
        MagnetoCaution::KicksBack => 2,
        MagnetoCaution::HighVoltage => 3,
    });
    cautions.dedup();
    Some(MagnetoReport {
        cautions: cautions
            .into_iter()
            .map(MagnetoCautionReport::new)
            .collect(),
        magnetos,
        apart,
        drop: drop.map(|drop| drop.report),
    })
}

/// One alone needs no name; two are the left and the right one.
fn named_apart(magnetos: &[OneMagneto]) -> bool {
    match magnetos {
        [] | [_] => true,
        [a, b] => a.which.is_some() && b.which.is_some() && a.which != b.which,
        _ => false,
    }
}

const fn is_left(advice: &WorkAdvice) -> bool {
    matches!(advice, WorkAdvice::Leave { .. })
}

fn place(field: MagnetoField) -> Place {
    Place::Ignition(IgnitionPlace::Magneto(field))
}

/// Why something cannot be answered, and where.
enum Refused {
    /// A refusal of the core.
    Core(MagnetoField, MagnetoError),
    /// Something that is needed for what was read.
    NotStated(MagnetoField, &'static str),
}

impl Refused {
    fn at<E: Into<MagnetoError>>(field: MagnetoField) -> impl Fn(E) -> Self {
        move |why| Self::Core(field, why.into())
    }

    fn note(self, problems: &mut Vec<Problem>) {
        problems.push(match self {
            Self::Core(field, why) => Problem::at(place(field), &why),
            Self::NotStated(field, what) => Problem::new(
                place(field),
                "ignition.magneto-not-stated",
                format!("{what} is needed for what was read, and is not stated"),
                "state it: nothing is assumed of it",
            ),
        });
    }
}

/// What takes back every number: a switch that may not earth, and a crank that kicks.
pub(super) fn stops(found: &MagnetoReport) -> Vec<String> {
    let grave = [MagnetoCaution::SwitchMayNotEarth, MagnetoCaution::KicksBack];
    let cautions = found.cautions.iter().map(|one| one.caution);
    cautions
        .filter(|caution| grave.contains(caution))
        .map(|caution| caution.to_string())
        .collect()
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &MagnetoReport) -> (Standing, String) {
    let name = |which: Option<Which>| {
        which.map_or_else(
            || String::from("magneto"),
            |which| format!("{which} magneto"),
        )
    };
    let read = found.magnetos.iter().filter(|one| one.is_read());
    let mut open: Vec<String> = read
        .clone()
        .filter(|one| !is_left(&one.advice))
        .map(|one| name(one.which))
        .collect();
    let pair = found.apart.as_ref().map(|pair| &pair.advice);
    let drop = found.drop.as_ref().map(|drop| &drop.advice);
    let off = |advice: Option<&WorkAdvice>| advice.is_some_and(|advice| !is_left(advice));
    if off(pair) {
        open.push(String::from("one against the other"));
    }
    if off(drop) {
        open.push(String::from("test of each alone"));
    }
    if read.count() == 0 && pair.is_none() && drop.is_none() {
        (Standing::NotKnown, String::from("not read"))
    } else if open.is_empty() {
        (Standing::Settled, String::from("as the book asks"))
    } else {
        let text = format!("not as the book asks, or not decided: {}", open.join(", "));
        (Standing::NotSettled, text)
    }
}
