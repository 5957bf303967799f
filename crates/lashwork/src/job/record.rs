//! What makes a job sheet a record.

use alloc::string::String;
use serde::Serialize;

/// When, by whom and with what the readings were taken, each as the writer puts it.
///
/// ```
/// use lashwork::engine::Engine;
/// use lashwork::job::{Record, Request, run};
/// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).map_err(|refused| format!("{refused:?}"))?;
/// let mut record = Record::default();
/// record.date = Some("3 May".into());
/// record.hours = Some("1204 h".into());
/// let report = run(&Request::new(engine).recorded(record)).map_err(|p| format!("{p:?}"))?;
/// assert!(report.sheet().contains("Record: date 3 May, run 1204 h"));
/// # Ok::<(), String>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct Record {
    /// The date.
    pub date: Option<String>,
    /// The machine that the engine stands in, as its owner calls it.
    pub machine: Option<String>,
    /// Hours run.
    pub hours: Option<String>,
    /// Distance run.
    pub distance: Option<String>,
    /// The gauge the leaves are of.
    pub gauge: Option<String>,
    /// Who took the readings.
    pub by: Option<String>,
}

impl Record {
    /// What is known, in one line; empty if nothing is.
    pub(super) fn line(&self) -> String {
        let parts = [
            ("date", &self.date),
            ("machine", &self.machine),
            ("run", &self.hours),
            ("distance", &self.distance),
            ("gauge", &self.gauge),
            ("by", &self.by),
        ];
        let mut line = String::new();
        for (word, text) in parts {
            if let Some(text) = text {
                if !line.is_empty() {
                    line.push_str(", ");
                }
                line.push_str(word);
                line.push(' ');
                line.push_str(text);
            }
        }
        line
    }
}
