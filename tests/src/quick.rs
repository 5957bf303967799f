//! Quick checks taken from the documents of whole jobs.

use serde_json::{Map, Value};

/// What metal and shims may state in a whole job only.
const OF_A_WHOLE_JOB: [&str; 6] = ["use", "cooling", "curve", "stock", "swap", "used_shims"];

/// The quick checks in a job's document: one for each reading of a job with one specification.
#[must_use]
pub fn checks_of(document: &Value) -> Vec<Value> {
    let document = document.get("clearance").unwrap_or(&Value::Null);
    let specifications = document.get("specifications").and_then(Value::as_array);
    let Some([specification]) = specifications.map(Vec::as_slice) else {
        return Vec::new();
    };
    if specification.get("condition") != Some(&Value::from("cold")) {
        return Vec::new();
    }
    let valves = document.get("valves").unwrap_or(&Value::Null);
    let readings = document.get("readings").and_then(Value::as_array);
    let mut made = Vec::new();
    for reading in readings.into_iter().flatten() {
        let mut reading = reading.as_object().cloned().unwrap_or_default();
        let valve = reading.remove("valve").unwrap_or_default();
        let limits = specification.get(valve.as_str().unwrap_or_default());
        let mut check = Map::new();
        check.insert("limits".into(), limits.cloned().unwrap_or_default());
        check.insert("valve".into(), valve);
        reading.remove("cylinder");
        reading.remove("number");
        reading.remove("left");
        check.insert("reading".into(), reading.into());
        let moved = [
            (valves, "screw"),
            (valves, "shim"),
            (valves, "rocker_ratio"),
            (document, "gauge"),
            (document, "metal"),
            (document, "rule"),
            (specification, "reference"),
        ];
        for (from, key) in moved {
            if let Some(value) = from.get(key) {
                let mut value = value.clone();
                if let Some(fields) = value.as_object_mut() {
                    fields.retain(|name, _| !OF_A_WHOLE_JOB.contains(&name.as_str()));
                }
                check.insert(key.into(), value);
            }
        }
        made.push(check.into());
    }
    made
}
