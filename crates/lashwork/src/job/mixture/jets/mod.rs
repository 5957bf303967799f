//! Which jets go with the air there is.

mod advise;
mod answer;
pub(super) mod sheet;
mod words;

pub use answer::{JetCautionReport, JetReport, JetRuleReport, JetSizeReport, JetsReport};

use super::air::{self, AirAround, Around};
use super::place::{JetsField, MixturePlace};
use crate::job::assumptions::Assumptions;
use crate::job::place::Place;
use crate::job::problem::Problem;
use crate::job::work::{Before, Standing};
use crate::mixture::jets::{
    Circuit, JetAnswer, JetError, JetNumbering, JetPlace, JetQuestion, JetSeries, StepRule, rejet,
};
use crate::quantity::Lambda;
use crate::tolerance::Estimate;
use alloc::string::String;
use alloc::vec::Vec;

/// Jets, and the air they were chosen for; the air they go to is that around.
///
/// ```
/// use lashwork::job::mixture::{AirAround, FittedJet, Jets};
/// use lashwork::mixture::jets::{Circuit, JetNumbering};
/// use lashwork::quantity::Altitude;
/// let mut set_for = AirAround::default();
/// set_for.altitude = Some(Altitude::from_metres(0.0)?);
/// let main = FittedJet::of(Circuit::Main, 200.0, JetNumbering::Flow, vec![180.0, 190.0, 200.0]);
/// let asked = Jets::of(set_for, vec![main]);
/// assert!(asked.fitted[0].steps.is_none());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Jets {
    /// The air in which the engine ran right with them.
    pub set_for: AirAround,
    /// What is fitted: a main jet and a pilot jet are two.
    pub fitted: Vec<FittedJet>,
}

impl Jets {
    /// The jets and the air they were chosen for.
    #[must_use]
    pub const fn of(set_for: AirAround, fitted: Vec<FittedJet>) -> Self {
        Self { set_for, fitted }
    }
}

/// A jet that is fitted, and what can be fitted in its place.
///
/// ```
/// use lashwork::job::mixture::FittedJet;
/// use lashwork::mixture::jets::{Circuit, JetNumbering};
/// let pilot = FittedJet::of(Circuit::Pilot, 45.0, JetNumbering::Diameter, vec![42.5, 45.0]);
/// assert!(pilot.name.is_none() && pilot.lambda.is_none());
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct FittedJet {
    /// Which of a carburettor's jets.
    pub circuit: Circuit,
    /// Its name, where there is more than one of the circuit.
    pub name: Option<String>,
    /// Its number.
    pub number: f64,
    /// What the numbers mean.
    pub numbering: JetNumbering,
    /// The numbers there are, rising.
    pub sizes: Vec<f64>,
    /// The book's steps, where it prints any.
    pub steps: Option<StepRule>,
    /// Lambda with it in the air it was chosen for, if that is known.
    pub lambda: Option<Estimate<Lambda>>,
}

impl FittedJet {
    /// The jet and the sizes there are, the rest not stated.
    #[must_use]
    pub const fn of(
        circuit: Circuit,
        number: f64,
        numbering: JetNumbering,
        sizes: Vec<f64>,
    ) -> Self {
        Self {
            circuit,
            name: None,
            number,
            numbering,
            sizes,
            steps: None,
            lambda: None,
        }
    }
}

/// The air the jets go to: as stated, and worked out.
#[derive(Clone, Copy)]
pub(super) struct There<'r> {
    pub(super) asked: Option<&'r AirAround>,
    pub(super) found: Option<&'r Around>,
}

/// Works it out.
pub(super) fn report(
    asked: &Jets,
    there: There<'_>,
    before: &Before,
    assumptions: &mut Assumptions,
    problems: &mut Vec<Problem>,
) -> Option<JetsReport> {
    let faults = problems.len();
    let mut refuse = |field, code: &'static str, message: &str, hint: &str| {
        problems.push(Problem::new(at(field), code, message, hint));
    };
    if there.asked.is_none() {
        refuse(
            JetsField::Section,
            "mixture.jets-without-air",
            "the air the jets go to is not stated",
            "give \"air\" in the mixture section, the air of the place the engine is to run in",
        );
    }
    if asked.fitted.is_empty() {
        refuse(
            JetsField::Fitted,
            "mixture.no-jets",
            "no jet is stated",
            "give the main jet, the pilot jet or both, each with the sizes there are of it",
        );
    }
    for (i, jet) in asked.fitted.iter().enumerate() {
        let earlier = asked.fitted.iter().take(i);
        if earlier
            .clone()
            .any(|other| other.circuit == jet.circuit && other.name == jet.name)
        {
            refuse(
                JetsField::Jet(i),
                "mixture.same-jet-twice",
                "two jets of one circuit are told apart by nothing",
                "give each a \"name\", or one of them alone if all are the same",
            );
        }
    }
    let set_for = air::around(&asked.set_for, at(JetsField::SetFor), assumptions, problems);
    let (Some(from), Some(to)) = (set_for, there.found) else {
        return None;
    };
    let mut answers = Vec::new();
    for (i, jet) in asked.fitted.iter().enumerate() {
        let steps = steps(i, asked, there, problems);
        match answer(jet, steps, &from, to) {
            Ok(found) => answers.push(found),
            Err((field, why)) => problems.push(Problem::at(at(field.of(i)), &why)),
        }
    }
    if problems.len() > faults {
        return None;
    }
    for found in &answers {
        assumptions.add_all(&found.assumptions);
    }
    let told = advise::Found {
        from: &from,
        to,
        before,
    };
    Some(told.told(asked.fitted.iter().zip(&answers)))
}

/// The book's steps with the two places they need.
fn steps(
    i: usize,
    asked: &Jets,
    there: There<'_>,
    problems: &mut Vec<Problem>,
) -> Option<(StepRule, JetPlace, JetPlace)> {
    let rule = asked.fitted.get(i)?.steps?;
    let place = |air: &AirAround| {
        Some(JetPlace {
            altitude: air.altitude?,
            temperature: air.temperature?,
        })
    };
    if let (Some(from), Some(to)) = (place(&asked.set_for), there.asked.and_then(place)) {
        return Some((rule, from, to));
    }
    problems.push(Problem::new(
        at(JetsField::Steps(i)),
        "mixture.steps-need-places",
        "the book's steps go by height and temperature, and one of them is not stated",
        "give \"altitude\" and \"temperature\" of both the air around and the air the jets were set for",
    ));
    None
}

/// What of a jet is refused.
enum Refused {
    Jet,
    Circuit,
    Number,
    Table,
    Sizes,
    Size(usize),
    Steps,
    SetFor,
}

impl Refused {
    const fn of(self, jet: usize) -> JetsField {
        match self {
            Self::Jet => JetsField::Jet(jet),
            Self::Circuit => JetsField::Circuit(jet),
            Self::Number => JetsField::Number(jet),
            Self::Table => JetsField::Table(jet),
            Self::Sizes => JetsField::Sizes(jet),
            Self::Size(size) => JetsField::Size(jet, size),
            Self::Steps => JetsField::Steps(jet),
            Self::SetFor => JetsField::SetFor,
        }
    }
}

fn answer(
    jet: &FittedJet,
    steps: Option<(StepRule, JetPlace, JetPlace)>,
    from: &Around,
    to: &Around,
) -> Result<JetAnswer, (Refused, JetError)> {
    let series = JetSeries::new(jet.circuit, &jet.sizes);
    let series = series.map_err(|why| match why {
        JetError::NeedleIsNoJet => (Refused::Circuit, why),
        _ => (Refused::Sizes, why),
    })?;
    let flows = |number: f64| jet.numbering.flow(number);
    flows(jet.number).map_err(|why| (Refused::Number, why))?;
    for (i, size) in jet.sizes.iter().enumerate() {
        flows(*size).map_err(|why| (Refused::Size(i), why))?;
    }
    let found = rejet(&JetQuestion {
        circuit: jet.circuit,
        fitted: jet.number,
        numbering: &jet.numbering,
        lambda: jet.lambda,
        from: from.density.density,
        to: to.density.density,
        steps,
        series,
    });
    found.map_err(|why| match why {
        JetError::AirRatio { .. } => (Refused::SetFor, why),
        JetError::OutsideTable { .. } => (Refused::Table, why),
        JetError::StepsLeaveNoJet { .. } => (Refused::Steps, why),
        _ => (Refused::Jet, why),
    })
}

/// How far it is settled, for the order of work.
pub(super) fn standing(found: &JetsReport) -> (Standing, String) {
    let is_right = |jet: &JetReport| jet.fit == Some(jet.fitted);
    let standing = if found.jets.iter().all(is_right) {
        Standing::Settled
    } else {
        Standing::NotSettled
    };
    (standing, found.verdict_text.clone())
}

/// Whether what is fitted may stay in for now: none is too small for the air there is, which would run lean.
pub(super) fn may_stay(found: &JetsReport) -> bool {
    let is_large_enough = |jet: &JetReport| jet.fit.is_some_and(|fit| fit <= jet.fitted);
    found.jets.iter().all(is_large_enough)
}

const fn at(field: JetsField) -> Place {
    Place::Mixture(MixturePlace::Jets(field))
}
