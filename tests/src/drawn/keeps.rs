//! Whether an answer keeps to a schema: a small judge for the many, beside the library that judges the vectors.

use super::Schema;
use serde_json::Value;

/// Where a value does not keep to a schema, and why; nothing if it does.
pub(super) fn differs(all: &Schema, schema: &Value, value: &Value) -> Option<String> {
    let schema = all.resolved(schema);
    if let Some(only) = schema.get("const") {
        return (only != value).then(|| format!(": {value} is not {only}"));
    }
    if let Some(list) = schema.get("enum").and_then(Value::as_array) {
        return (!list.contains(value)).then(|| format!(": {value} is none of {list:?}"));
    }
    for key in ["anyOf", "oneOf"] {
        if let Some(choices) = schema.get(key).and_then(Value::as_array) {
            let mut why = String::new();
            for one in choices {
                why = differs(all, one, value)?;
            }
            return Some(why);
        }
    }
    let kinds = match schema.get("type") {
        Some(Value::Array(kinds)) => kinds.as_slice(),
        Some(kind) => std::slice::from_ref(kind),
        None => return None,
    };
    let is_of = |kind: &Value| match kind.as_str().unwrap_or("") {
        "null" => value.is_null(),
        "boolean" => value.is_boolean(),
        "integer" => value.is_i64() || value.is_u64(),
        "number" => value.is_number(),
        "string" => value.is_string(),
        "array" => value.is_array(),
        "object" => value.is_object(),
        _ => false,
    };
    if !kinds.iter().any(is_of) {
        return Some(format!(": {value} is no {kinds:?}"));
    }
    match value {
        Value::Object(fields) => {
            let known = Schema::properties(schema);
            let required = schema.get("required").and_then(Value::as_array);
            let mut required = required.into_iter().flatten().filter_map(Value::as_str);
            if let Some(lost) = required.find(|name| !fields.contains_key(*name)) {
                return Some(format!("/{lost}: is not there"));
            }
            fields.iter().find_map(|(name, inner)| {
                let of_field = known.and_then(|known| known.get(name));
                let of_field = of_field.or_else(|| schema.get("additionalProperties"));
                match of_field {
                    Some(Value::Bool(false)) => Some(format!("/{name}: nobody knows it")),
                    Some(of_field) => Some(format!("/{name}{}", differs(all, of_field, inner)?)),
                    None => None,
                }
            })
        }
        Value::Array(items) => {
            let of_item = schema.get("items")?;
            let mut items = items.iter().enumerate();
            items.find_map(|(i, item)| Some(format!("/{i}{}", differs(all, of_item, item)?)))
        }
        _ => None,
    }
}
