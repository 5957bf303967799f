//! What must hold of every document and of what is answered to it.

use super::Schema;
use super::keeps::differs;
use serde_json::{Value, json};
use std::sync::OnceLock;

/// How far a sum of probabilities may be off 1.
const ROUNDING: f64 = 1e-6;
/// The services of a record.
const HISTORY: &str = "/history/services";

/// Which way a document was answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Answered {
    /// With a report.
    Report,
    /// With problems.
    Problems,
}

/// The schema of answers.
fn answers() -> &'static Schema {
    static SCHEMA: OnceLock<Schema> = OnceLock::new();
    SCHEMA.get_or_init(|| match Schema::of(lashwork_wire::report_schema()) {
        Ok(schema) => schema,
        Err(why) => panic!("{why}"),
    })
}

/// Holds a document and its answer against all that must be so.
///
/// # Errors
/// What is not so.
pub fn hold(document: &Value) -> Result<Answered, String> {
    let bytes = document.to_string().into_bytes();
    let (name, found) = match lashwork_wire::report(&bytes) {
        Ok(report) => ("report", Ok(report)),
        Err(problems) => ("problems", Err(problems)),
    };
    let value = match &found {
        Ok(report) => serde_json::to_value(report),
        Err(problems) => serde_json::to_value(problems),
    };
    let answer = json!({ name: value.map_err(|why| why.to_string())? });
    let schema = answers();
    if let Some(why) = differs(schema, schema.root(), &answer) {
        return Err(format!("the answer is not of its schema: {why}"));
    }
    // Said once more, as text; of some, because it takes as long as all else.
    if bytes.len().is_multiple_of(8) {
        let said: Value = serde_json::from_slice(&lashwork_wire::run(&bytes))
            .map_err(|why| format!("the answer is no JSON: {why}"))?;
        // Both through the same reading of numbers, which may end a bit beside what was written.
        let same = serde_json::from_str(&answer.to_string());
        if Some(&said) != same.as_ref().ok() {
            return Err("the answer in bytes is another one".to_owned());
        }
    }
    match found {
        Ok(report) => {
            let told = answer.get("report").ok_or("a report is not answered")?;
            probabilities(told, "")?;
            sheets(document, told, &report)?;
            grows(document)?;
            Ok(Answered::Report)
        }
        Err(problems) => {
            if problems.is_empty() {
                return Err("refused without a problem".to_owned());
            }
            for problem in &problems {
                let parent = problem
                    .place
                    .rsplit_once('/')
                    .map_or("", |(parent, _)| parent);
                // What is missing is told where it would stand.
                if document
                    .pointer(&problem.place)
                    .or(document.pointer(parent))
                    .is_none()
                {
                    return Err(format!("the document has no place of {problem:?}"));
                }
                if problem.code.is_empty()
                    || problem.message.trim().is_empty()
                    || problem.hint.trim().is_empty()
                {
                    return Err(format!("{problem:?} does not say all"));
                }
            }
            Ok(Answered::Problems)
        }
    }
}

/// Every probability is one, and no verdict goes against those beside it.
fn probabilities(value: &Value, at: &str) -> Result<(), String> {
    match value {
        Value::Array(items) => {
            for (i, item) in items.iter().enumerate() {
                probabilities(item, &format!("{at}/{i}"))?;
            }
        }
        Value::Object(fields) => {
            for (name, inner) in fields {
                let at = format!("{at}/{name}");
                if matches!(name.as_str(), "probability" | "least" | "most" | "within")
                    && let Some(p) = inner.as_f64()
                    && (name == "probability" || at.contains("/probabilities/"))
                    && !(0.0..=1.0).contains(&p)
                {
                    return Err(format!("{at}: {p} is no probability"));
                }
                probabilities(inner, &at)?;
            }
            if let (Some(Value::String(verdict)), Some(of)) =
                (fields.get("verdict"), fields.get("probabilities"))
            {
                agrees(verdict, of).map_err(|why| format!("{at}: {verdict}, but {why}: {of}"))?;
            }
        }
        _ => {}
    }
    Ok(())
}

/// No rule calls in band what is more probably on one side, and none calls a side what is less probably there
/// than the most that a rule may let stand.
fn agrees(verdict: &str, of: &Value) -> Result<(), String> {
    let share = |side: &str, end: &str| {
        let found = of
            .get(side)
            .and_then(|side| side.get(end))
            .and_then(Value::as_f64);
        found.ok_or_else(|| format!("no {end} of {side}"))
    };
    let (mut least, mut most) = (0.0, 0.0);
    for side in ["below", "in_band", "above"] {
        let (l, m) = (share(side, "least")?, share(side, "most")?);
        if l > m + ROUNDING {
            return Err(format!("{side} is at least more than at most"));
        }
        least += l;
        most += m;
    }
    if least > 1.0 + ROUNDING || most < 1.0 - ROUNDING {
        return Err(format!("the shares are {least} to {most} in all"));
    }
    let half = 0.5 + ROUNDING;
    let stands = match verdict {
        "in_band" => share("below", "most")? <= half && share("above", "most")? <= half,
        // A guarded rule calls below what it is not sure of, and the other side must be less.
        "below" => share("below", "least")? > 0.0 && share("above", "least")? <= half,
        "above" => share("above", "least")? > 0.0 && share("below", "least")? <= half,
        _ => true,
    };
    if stands {
        Ok(())
    } else {
        Err("the shares say otherwise".to_owned())
    }
}

/// Words with one space between them: a sheet breaks its lines.
fn run_on(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Both sheets are there, the full one says what the report says, and no number is none.
fn sheets(document: &Value, told: &Value, report: &lashwork::job::Report) -> Result<(), String> {
    let (page, full) = (run_on(&report.sheet()), run_on(&report.full_sheet()));
    let words = document.to_string();
    for none in ["NaN", " inf ", "-inf"] {
        if (page.contains(none) || full.contains(none)) && !words.contains(none.trim()) {
            return Err(format!("a sheet says {none}"));
        }
    }
    for list in ["assumptions", "cautions"] {
        let all = told.get(list).and_then(Value::as_array);
        for one in all.into_iter().flatten() {
            let text = one.get("text").unwrap_or(one).as_str().unwrap_or("");
            if !full.contains(&run_on(text)) {
                return Err(format!("the full sheet does not say, of {list}: {text}"));
            }
        }
    }
    let valves = told.pointer("/clearance/valves").and_then(Value::as_array);
    for valve in valves.into_iter().flatten() {
        let reading = valve.get("reading").and_then(Value::as_str).unwrap_or("");
        if !full.contains(&run_on(reading)) {
            return Err(format!("the full sheet has no reading {reading}"));
        }
    }
    Ok(())
}

/// A record that is known as it stands is the same record, whatever it says.
fn grows(document: &Value) -> Result<(), String> {
    let Some(services) = document.pointer(HISTORY).cloned() else {
        return Ok(());
    };
    let mut known = document.clone();
    if let Some(history) = known.get_mut("history").and_then(Value::as_object_mut) {
        history.insert("known".to_owned(), services);
    }
    let answer = lashwork_wire::run(known.to_string().as_bytes());
    let answer: Value = serde_json::from_slice(&answer).map_err(|why| why.to_string())?;
    match answer.pointer("/report/history/record/standing") {
        Some(standing) if *standing == json!("grown") => Ok(()),
        other => Err(format!(
            "a record known as it stands is {other:?}: {:.300}",
            answer.to_string()
        )),
    }
}
