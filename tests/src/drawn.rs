//! Documents drawn from bytes by the schema of documents, and what must hold of whatever is answered to them.
//!
//! A drawn document begins as one of the shared vectors or examples and is changed in some places: a field comes or
//! goes, a value is replaced by one of another document at such a place, by one that the schema allows, or by one
//! that it does not. What the schema says anew is followed by itself.

mod change;
mod held;
mod keeps;
mod texts;

pub use held::{Answered, hold};

use crate::{examples, vectors};
use arbitrary::Unstructured;
use change::Changes;
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// Most values that are kept of what stands at places of one kind.
const KEPT: usize = 48;
/// Most changes of one document.
const CHANGES: u8 = 7;
/// The sections that a document may go without.
const SECTIONS: [&str; 6] = [
    "clearance",
    "condition",
    "ignition",
    "mixture",
    "history",
    "causes",
];

/// A JSON Schema with its definitions.
#[derive(Debug)]
pub(crate) struct Schema(Value);

impl Schema {
    pub(crate) fn of(text: &str) -> Result<Self, String> {
        let schema = serde_json::from_str(text).map_err(|why| format!("a schema: {why}"))?;
        Ok(Self(schema))
    }

    pub(crate) fn root(&self) -> &Value {
        &self.0
    }

    /// The name of the definition that a schema refers to.
    pub(crate) fn name(schema: &Value) -> Option<&str> {
        schema.get("$ref")?.as_str()?.strip_prefix("#/$defs/")
    }

    /// A schema itself, or the definition that it refers to.
    pub(crate) fn resolved<'a>(&'a self, schema: &'a Value) -> &'a Value {
        let found = Self::name(schema).and_then(|name| self.0.get("$defs")?.get(name));
        found.map_or(schema, |found| self.resolved(found))
    }

    /// The choices of a schema that has some, without `null`.
    pub(crate) fn choices(schema: &Value) -> Vec<&Value> {
        let list = schema.get("anyOf").or_else(|| schema.get("oneOf"));
        let list = list
            .and_then(Value::as_array)
            .map_or(&[][..], Vec::as_slice);
        let is_null = |one: &&Value| one.get("type").and_then(Value::as_str) == Some("null");
        list.iter().filter(|one| !is_null(one)).collect()
    }

    /// The properties of an object's schema.
    pub(crate) fn properties(schema: &Value) -> Option<&Map<String, Value>> {
        schema.get("properties")?.as_object()
    }

    /// The schema of that choice, after all references, which has the fields of an object or is of a list; of a
    /// scalar the first that is resolved.
    pub(crate) fn fitting<'a>(&'a self, schema: &'a Value, value: &Value) -> &'a Value {
        let schema = self.resolved(schema);
        let choices = Self::choices(schema);
        let fits = |one: &Value| match value {
            Value::Object(fields) => Self::properties(one)
                .is_some_and(|known| fields.keys().all(|key| known.contains_key(key))),
            Value::Array(_) => one.get("items").is_some(),
            _ => true,
        };
        let mut resolved = choices.iter().map(|one| self.fitting(one, value));
        let first = resolved.clone().next();
        resolved.find(|one| fits(one)).or(first).unwrap_or(schema)
    }
}

/// What documents are drawn from.
#[derive(Debug)]
pub struct Drawer {
    schema: Schema,
    donors: Vec<Value>,
    /// What stands in donors at places of one kind, by the name of its definition.
    known: BTreeMap<String, Vec<Value>>,
}

impl Drawer {
    /// Reads the schema, the shared vectors and the examples.
    ///
    /// # Errors
    /// Which of them cannot be read.
    pub fn new() -> Result<Self, String> {
        let mut made = Self {
            schema: Schema::of(lashwork_wire::document_schema())?,
            donors: Vec::new(),
            known: BTreeMap::new(),
        };
        let vectors = vectors::read(&vectors::folder())?;
        let documents = vectors.into_iter().map(|vector| vector.request);
        let documents = examples()
            .into_iter()
            .map(|(_, bytes)| bytes)
            .chain(documents);
        for bytes in documents {
            let Ok(document) = serde_json::from_slice::<Value>(&bytes) else {
                continue;
            };
            made.donors.push(document);
        }
        let mut known = BTreeMap::new();
        for donor in &made.donors {
            made.gather(made.schema.root(), donor, &mut known);
        }
        made.known = known;
        Ok(made)
    }

    /// Keeps what stands in a document at places that have a definition of their own.
    fn gather(&self, schema: &Value, value: &Value, into: &mut BTreeMap<String, Vec<Value>>) {
        if let Some(name) = Schema::name(schema) {
            let kept = into.entry(name.to_owned()).or_default();
            if kept.len() < KEPT && !kept.contains(value) {
                kept.push(value.clone());
            }
        }
        if let [only] = Schema::choices(self.schema.resolved(schema)).as_slice()
            && !value.is_null()
        {
            return self.gather(only, value, into);
        }
        let schema = self.schema.fitting(schema, value);
        match value {
            Value::Object(fields) => {
                let known = Schema::properties(schema);
                for (key, inner) in fields {
                    if let Some(of_key) = known.and_then(|known| known.get(key)) {
                        self.gather(of_key, inner, into);
                    }
                }
            }
            Value::Array(items) => {
                if let Some(of_item) = schema.get("items") {
                    for item in items {
                        self.gather(of_item, item, into);
                    }
                }
            }
            _ => {}
        }
    }

    /// The document that bytes stand for.
    #[must_use]
    pub fn document(&self, bytes: &[u8]) -> Value {
        let mut source = Unstructured::new(bytes);
        let mut next = |end: usize| -> usize {
            let drawn: u16 = source.arbitrary().unwrap_or_default();
            usize::from(drawn) % end.max(1)
        };
        let donor = next(self.donors.len());
        let mut document = self.donors.get(donor).cloned().unwrap_or_default();
        // A document with one section is answered in a fraction of the time, and tells as much of that section.
        let only = next(2 * SECTIONS.len());
        if let (Some(only), Some(fields)) = (SECTIONS.get(only), document.as_object_mut())
            && fields.contains_key(*only)
        {
            fields.retain(|name, _| name == only || !SECTIONS.contains(&name.as_str()));
        }
        let times: u8 = source.arbitrary().unwrap_or_default();
        let mut changes = Changes {
            schema: &self.schema,
            known: &self.known,
            source,
        };
        for _ in 0..times % (CHANGES + 1) {
            changes.change(self.schema.root(), &mut document);
        }
        document
    }
}
