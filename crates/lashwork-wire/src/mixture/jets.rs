//! Jets in a document.

use super::lambda;
use crate::air::{AirDoc, air};
use crate::problem::{Problem, is_short, value};
use crate::quantity::Q;
use crate::word::W;
use lashwork::job::mixture::{FittedJet, Jets, JetsField};
use lashwork::mixture::jets::{Circuit, JetNumbering, JetTable, StepRule};
use lashwork::quantity::Lambda;

named!(Circuit as "CircuitDoc" {
    /// Main jet.
    Main = "main",
    /// Pilot or idle jet.
    Pilot = "pilot",
    /// Needle: set by grooves, so it is answered that no number follows from the air.
    Needle = "needle",
});

/// What the numbers of jets mean.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum NumberingWord {
    Flow,
    Diameter,
    Table,
}

named!(NumberingWord as "JetNumberingDoc" {
    /// The number is a flow.
    Flow = "flow",
    /// The number is the bore; what flows goes with its square.
    Diameter = "diameter",
    /// By the maker's table.
    Table = "table",
});

parts! {
    /// Jets that were chosen for one air and go to another: that of the section.
    JetsDoc {
        /// The air in which the engine ran right with them.
        set_for: AirDoc,
        /// What is fitted; a main jet and a pilot jet are two.
        fitted: Vec<FittedJetDoc>,
    }
    /// A jet that is fitted, and what can be fitted in its place.
    FittedJetDoc {
        /// Which of a carburettor's jets.
        circuit: W<Circuit>,
        /// Its name, where there is more than one of the circuit.
        name: Option<String>,
        /// Its number.
        number: f64,
        /// What the numbers mean; always needed, since makers differ.
        numbering: Option<W<NumberingWord>>,
        /// The maker's table, rising; needed with the numbering by table.
        table: Option<Vec<JetRowDoc>>,
        /// The numbers there are of this circuit, rising.
        sizes: Vec<f64>,
        /// The book's steps, if it prints any for this family of jets.
        book_steps: Option<BookStepsDoc>,
        /// Lambda with it in the air it was set for.
        lambda: Option<Q<Lambda>>,
        /// Standard uncertainty of that, in the same; needed with `lambda`.
        lambda_uncertainty: Option<f64>,
    }
    /// A row of a maker's table.
    JetRowDoc {
        /// The number on the jet.
        number: f64,
        /// What flows through it, in any unit that is the same in all rows.
        flow: f64,
    }
    /// By how much the number goes down.
    BookStepsDoc {
        /// For each 1000 ft up.
        per_1000_ft: f64,
        /// For each 10 F hotter.
        per_10_f: f64,
    }
}

const AT: &str = "/mixture/jets";

/// The jets in typed values.
pub(super) fn jets(doc: JetsDoc, problems: &mut Vec<Problem>) -> Option<Jets> {
    let faults = problems.len();
    let set_for = air(&doc.set_for);
    let mut made = Vec::new();
    if is_short(&doc.fitted, &format!("{AT}/fitted"), problems) {
        for (i, one) in doc.fitted.into_iter().enumerate() {
            made.extend(fitted(one, &format!("{AT}/fitted/{i}"), problems));
        }
    }
    (problems.len() == faults).then(|| Jets::of(set_for, made))
}

fn fitted(doc: FittedJetDoc, place: &str, problems: &mut Vec<Problem>) -> Option<FittedJet> {
    is_short(&doc.sizes, &format!("{place}/sizes"), problems);
    let numbering = numbering(doc.numbering, doc.table, place, problems);
    let steps = doc.book_steps.map(|steps| {
        let made = StepRule::new(steps.per_1000_ft, steps.per_10_f);
        value(problems, format!("{place}/book_steps"), made)
    });
    let lambda = lambda(doc.lambda, doc.lambda_uncertainty, place, problems);
    let mut made = FittedJet::of(doc.circuit.0, doc.number, numbering?, doc.sizes);
    made.name = doc.name;
    made.steps = steps.flatten();
    made.lambda = lambda;
    Some(made)
}

fn numbering(
    word: Option<W<NumberingWord>>,
    table: Option<Vec<JetRowDoc>>,
    place: &str,
    problems: &mut Vec<Problem>,
) -> Option<JetNumbering> {
    let mut refuse = |field: &str, code: &str, message: &str, hint: &str| {
        problems.push(Problem::new(format!("{place}{field}"), code, message, hint));
        None
    };
    let Some(W(word)) = word else {
        return refuse(
            "",
            "mixture.jet-numbering-not-stated",
            "what the numbers on the jets mean is not stated",
            "give \"numbering\": \"flow\" where the number is a flow, \"diameter\" where it is the bore, or \
             \"table\" with the maker's \"table\"; the maker's list says which",
        );
    };
    match (word, table) {
        (NumberingWord::Table, Some(rows)) => {
            let at = format!("{place}/table");
            is_short(&rows, &at, problems).then_some(())?;
            let rows: Vec<(f64, f64)> = rows.iter().map(|row| (row.number, row.flow)).collect();
            value(problems, at, JetTable::new(&rows)).map(JetNumbering::Table)
        }
        (NumberingWord::Table, None) => refuse(
            "",
            "document.missing-field",
            "the numbers go by the maker's table, which is missing",
            "add \"table\" with \"number\" and \"flow\" of each jet",
        ),
        (_, Some(_)) => refuse(
            "/table",
            "mixture.jet-table-unused",
            "a table is given where the numbers do not go by one",
            "leave the table out, or give \"numbering\": \"table\"",
        ),
        (NumberingWord::Flow, None) => Some(JetNumbering::Flow),
        (NumberingWord::Diameter, None) => Some(JetNumbering::Diameter),
    }
}

/// Where a field stands in the mixture section.
pub(super) fn pointer(field: JetsField) -> String {
    use JetsField as F;
    let rest = match field {
        F::SetFor => "/set_for".into(),
        F::Fitted => "/fitted".into(),
        F::Jet(i) => format!("/fitted/{i}"),
        F::Circuit(i) => format!("/fitted/{i}/circuit"),
        F::Number(i) => format!("/fitted/{i}/number"),
        F::Table(i) => format!("/fitted/{i}/table"),
        F::Sizes(i) => format!("/fitted/{i}/sizes"),
        F::Size(i, size) => format!("/fitted/{i}/sizes/{size}"),
        F::Steps(i) => format!("/fitted/{i}/book_steps"),
        _ => String::new(),
    };
    format!("/jets{rest}")
}
