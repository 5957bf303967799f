//! The document as a whole, and the request it makes.

use crate::causes::{CausesSectionDoc, causes};
use crate::clearance::{ClearanceDoc, clearance};
use crate::condition::{ConditionSectionDoc, condition};
use crate::engine::{EngineDoc, engine, machine, pulley};
use crate::history::{HistorySectionDoc, history};
use crate::ignition::{IgnitionSectionDoc, ignition};
use crate::json::Json;
use crate::log::{WorkDoneDoc, done};
use crate::mixture::{MixtureSectionDoc, mixture};
use crate::part::Part;
use crate::place::Place;
use crate::problem::Problem;
use crate::read::{Fielded, Fields};
use crate::section::Section;
use crate::word::W;
use lashwork::job::{Record, Request, ShownLength, ShownTemperature, Units};

/// The document format this version reads.
const FORMAT: u64 = 1;

named!(ShownLength as "ShownLengthDoc" { Millimetre = "mm", Inch = "in" });
named!(ShownTemperature as "ShownTemperatureDoc" { Celsius = "C", Fahrenheit = "F" });

parts! {
    /// A service: the engine, and a section for each step that is asked for.
    #[cfg_attr(feature = "schema", schemars(title = "lashwork service document"))]
    Document {
        /// Version of the document format: 1; taken so where it is not stated.
        #[cfg_attr(feature = "schema", schemars(default))]
        lashwork: Part<u64>,
        /// What the engine is called.
        #[cfg_attr(feature = "schema", schemars(default))]
        title: Part<String>,
        /// Anything worth keeping with the job.
        #[cfg_attr(feature = "schema", schemars(default))]
        note: Part<String>,
        /// When, by whom and with what the readings were taken.
        #[cfg_attr(feature = "schema", schemars(default))]
        record: Part<RecordDoc>,
        /// In which units texts say lengths and temperatures; numbers of the report stay in SI units.
        #[cfg_attr(feature = "schema", schemars(default))]
        units: Part<UnitsDoc>,
        /// The engine.
        engine: Part<EngineDoc>,
        /// What was done in this service, in the order in which it was done: what is set takes back what was
        /// read before it and leans on it.
        #[cfg_attr(feature = "schema", schemars(default))]
        log: Part<Vec<WorkDoneDoc>>,
        /// Valve clearances.
        #[cfg_attr(feature = "schema", schemars(default))]
        clearance: Part<Section<ClearanceDoc>>,
        /// Condition.
        #[cfg_attr(feature = "schema", schemars(default))]
        condition: Part<Section<ConditionSectionDoc>>,
        /// Ignition.
        #[cfg_attr(feature = "schema", schemars(default))]
        ignition: Part<Section<IgnitionSectionDoc>>,
        /// Mixture.
        #[cfg_attr(feature = "schema", schemars(default))]
        mixture: Part<Section<MixtureSectionDoc>>,
        /// Past services.
        #[cfg_attr(feature = "schema", schemars(default))]
        history: Part<Section<HistorySectionDoc>>,
        /// What may be the matter, by all that the sections found.
        #[cfg_attr(feature = "schema", schemars(default))]
        causes: Part<Section<CausesSectionDoc>>,
    }
    /// In which units texts say lengths and temperatures.
    UnitsDoc {
        /// Of the lash; that of the leaves if it is not stated. Leaves and shims are named as they are marked.
        length: Option<W<ShownLength>>,
        /// Of temperatures; C if it is not stated.
        temperature: Option<W<ShownTemperature>>,
    }
    /// When, by whom and with what the readings were taken, each as you would write it on paper.
    RecordDoc {
        date: Option<String>,
        /// Which machine the engine stands in, as its owner calls it.
        machine: Option<String>,
        /// Hours run, with their unit.
        hours: Option<String>,
        /// Distance run, with its unit.
        distance: Option<String>,
        /// Which gauge the leaves are of.
        gauge: Option<String>,
        /// Who took the readings.
        by: Option<String>,
    }
}

impl Document {
    /// Reads a parsed document; unknown fields are reported and set aside, so that they do not
    /// hide what else is wrong.
    pub(crate) fn of(value: &Json, problems: &mut Vec<Problem>) -> Option<Self> {
        let Json::Object(object) = value else {
            problems.push(Problem::new(
                "",
                "document.wrong-type",
                "the document is not an object",
                "write a JSON object with the fields of the schema",
            ));
            return None;
        };
        let fields = Fields::of_object(object, Self::FIELDS, &Place::Document, problems);
        Self::of_fields(&fields, problems)
    }

    /// Builds the request, or reports why it cannot be built.
    pub(crate) fn request(self, problems: &mut Vec<Problem>) -> Option<Request> {
        if let Some(version) = self.lashwork.take(None, problems)
            && version != FORMAT
        {
            problems.push(Problem::new(
                "/lashwork",
                "document.version",
                format!("the document is of format {version}, this library reads {FORMAT}"),
                format!("write a document of format {FORMAT}, or use the library that matches"),
            ));
        }
        let title = self.title.take(None, problems);
        let note = self.note.take(None, problems);
        let log = self.log.take(None, problems);
        let log = log.map(|log| done(log, problems)).unwrap_or_default();
        let doc = self
            .engine
            .take(Some((&Place::Document, "engine")), problems);
        let record = self.record.take(None, problems).map(record);
        let units = self.units.take(None, problems).map(|doc| units(&doc));
        let machine = doc.as_ref().map(machine);
        let number = doc.as_ref().and_then(|e| e.number);
        let pulley = doc.as_ref().and_then(|e| pulley(e, problems));
        let engine = doc.and_then(|e| engine(e, problems));
        let mut request = match self.clearance.take(None, problems) {
            Some(section) => {
                let (engine, made) = clearance(section, engine, problems)?;
                Request::new(engine).with_clearance(made)
            }
            None => Request::new(engine?),
        };
        request.condition = match self.condition.take(None, problems) {
            Some(section) => Some(condition(section, problems)?),
            None => None,
        };
        request.ignition = match self.ignition.take(None, problems) {
            Some(section) => Some(ignition(section, &request.engine, problems)?),
            None => None,
        };
        request.mixture = match self.mixture.take(None, problems) {
            Some(section) => Some(mixture(section, problems)?),
            None => None,
        };
        request.log = log;
        request.history = match self.history.take(None, problems) {
            Some(section) => Some(history(section, &request, problems)?),
            None => None,
        };
        request.causes = match self.causes.take(None, problems) {
            Some(section) => Some(causes(section, problems)?),
            None => None,
        };
        request.title = title;
        request.note = note;
        request.engine_number = number;
        request.pulley = pulley;
        request.record = record.unwrap_or_default();
        request.units = units.unwrap_or_default();
        request.machine = machine.unwrap_or_default();
        Some(request)
    }
}

pub(crate) fn units(doc: &UnitsDoc) -> Units {
    Units {
        length: doc.length.as_ref().map(|length| length.0),
        temperature: doc
            .temperature
            .as_ref()
            .map_or_else(Default::default, |unit| unit.0),
    }
}

fn record(doc: RecordDoc) -> Record {
    let mut record = Record::default();
    record.date = doc.date;
    record.machine = doc.machine;
    record.hours = doc.hours;
    record.distance = doc.distance;
    record.gauge = doc.gauge;
    record.by = doc.by;
    record
}
