//! Writes the schemas anew from the types, for whoever changes those; the files in `schema/` are what is
//! handed out.

use crate::document::Document;
use crate::ignition::{IgnitionCheckDoc, IgnitionCheckReport};
use crate::problem::Problem;
use lashwork::job::Report;
use lashwork::job::clearance::OneValveReport;
use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use schemars::{JsonSchema, Schema};

/// The answer of lashwork: one field, which says by its name what it is.
#[derive(JsonSchema)]
#[schemars(title = "lashwork answer", rename_all = "snake_case")]
#[expect(
    dead_code,
    clippy::large_enum_variant,
    reason = "only its shape is asked for"
)]
enum Answer {
    /// To a document that is in order.
    Report(Report),
    /// To a quick check that is in order.
    Quick(OneValveReport),
    /// To questions of the ignition that are in order.
    Ignition(IgnitionCheckReport),
    /// To what is refused: everything that is wrong with it.
    Problems(Vec<Problem>),
}

/// The schema of a document, as its types have it.
///
/// ```
/// assert_eq!(lashwork_wire::schema::document(), lashwork_wire::document_schema());
/// ```
#[must_use]
pub fn document() -> String {
    text::<Document>(SchemaSettings::default())
}

/// The schema of questions of the ignition that need no engine, as their types have it.
///
/// ```
/// assert_eq!(lashwork_wire::schema::ignition_check(), lashwork_wire::ignition_check_schema());
/// ```
#[must_use]
pub fn ignition_check() -> String {
    text::<IgnitionCheckDoc>(SchemaSettings::default())
}

/// The schema of every answer, as its types have it.
///
/// ```
/// assert_eq!(lashwork_wire::schema::report(), lashwork_wire::report_schema());
/// ```
#[must_use]
pub fn report() -> String {
    text::<Answer>(SchemaSettings::default().for_serialize())
}

fn text<T: JsonSchema>(settings: SchemaSettings) -> String {
    let settings = settings.with_transform(RecursiveTransform(described_in_brief));
    let schema = settings.into_generator().into_root_schema_for::<T>();
    serde_json::to_string_pretty(&schema).unwrap_or_default() + "\n"
}

/// Cuts a description before its first heading or example, and takes the links out of it: those are for
/// readers of the Rust documentation.
fn described_in_brief(schema: &mut Schema) {
    let Some(serde_json::Value::String(description)) = schema.get_mut("description") else {
        return;
    };
    *description = description.replace("[`", "`").replace("`]", "`");
    let ends = ["\n#", "```"];
    let end = ends.iter().filter_map(|mark| description.find(mark)).min();
    if let Some(end) = end {
        description.truncate(end);
        description.truncate(description.trim_end().len());
    }
}
