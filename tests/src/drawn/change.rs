//! One change of a document at a place that the bytes choose.

use super::Schema;
use super::texts::{TEXTS, with_number};
use arbitrary::{Arbitrary, Unstructured};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// How deep a value that the schema alone gives may be.
const DEPTH: u8 = 6;

/// Numbers at the edges of what a number may be.
const EDGES: [f64; 10] = [
    0.0, -0.0, 1.0, -1.0, 1e-300, 1e300, -1e300, 255.0, 256.0, 1e15,
];

pub(super) struct Changes<'a, 'b> {
    pub(super) schema: &'a Schema,
    pub(super) known: &'a BTreeMap<String, Vec<Value>>,
    pub(super) source: Unstructured<'b>,
}

impl<'a> Changes<'a, '_> {
    fn some<T: for<'s> Arbitrary<'s> + Default>(&mut self) -> T {
        self.source.arbitrary().unwrap_or_default()
    }

    fn below(&mut self, end: usize) -> usize {
        usize::from(self.some::<u8>()) % end.max(1)
    }

    fn pick<'v, T>(&mut self, list: &'v [T]) -> Option<&'v T> {
        let at = self.below(list.len());
        list.get(at)
    }

    fn once_in(&mut self, times: u8) -> bool {
        self.some::<u8>() % times == times - 1
    }

    /// Goes down from a value and changes something there.
    pub(super) fn change(&mut self, schema: &'a Value, value: &mut Value) {
        let fitting = self.schema.fitting(schema, value);
        match value {
            Value::Object(fields) if !fields.is_empty() && !self.once_in(10) => {
                self.change_object(fitting, fields);
            }
            Value::Array(items) if !items.is_empty() && !self.once_in(6) => {
                self.change_list(fitting.get("items").unwrap_or(&Value::Null), items);
            }
            _ => *value = self.instead(schema, value),
        }
    }

    fn change_object(&mut self, schema: &'a Value, fields: &mut Map<String, Value>) {
        let known = Schema::properties(schema);
        match self.some::<u8>() {
            // A field comes.
            0..64 => {
                let absent = known.into_iter().flatten();
                let absent: Vec<_> = absent
                    .filter(|(name, _)| !fields.contains_key(*name))
                    .collect();
                if let Some((name, inner)) = self.pick(&absent).copied() {
                    let made = self.made(inner, DEPTH);
                    fields.insert(name.clone(), made);
                }
            }
            // One goes.
            64..80 => {
                let names: Vec<String> = fields.keys().cloned().collect();
                if let Some(name) = self.pick(&names) {
                    fields.remove(name);
                }
            }
            // One that nobody knows, or that is nothing.
            80 => drop(fields.insert("unheard_of".to_owned(), json!(1))),
            _ => {
                let names: Vec<String> = fields.keys().cloned().collect();
                if let Some(name) = self.pick(&names)
                    && let Some(inner) = fields.get_mut(name)
                {
                    let of_field = known.and_then(|known| known.get(name));
                    self.change(of_field.unwrap_or(&Value::Null), inner);
                }
            }
        }
    }

    fn change_list(&mut self, of_item: &'a Value, items: &mut Vec<Value>) {
        let at = self.below(items.len());
        match self.some::<u8>() {
            0..24 => drop(items.remove(at)),
            24..40 => {
                let twice = items.get(at).cloned().unwrap_or_default();
                items.push(twice);
            }
            40..64 => {
                let made = self.made(of_item, DEPTH);
                items.insert(at, made);
            }
            64..72 => {
                let other = self.below(items.len());
                items.swap(at, other);
            }
            _ => {
                if let Some(item) = items.get_mut(at) {
                    self.change(of_item, item);
                }
            }
        }
    }

    /// A value in the place of another one.
    fn instead(&mut self, schema: &'a Value, old: &Value) -> Value {
        match self.some::<u8>() {
            0..8 => Value::Null,
            8..12 => self.wrong(),
            12..128 => match old {
                Value::String(text) => Value::from(with_number(text, self.number())),
                Value::Number(number) => {
                    let old = number.as_f64().unwrap_or(1.0);
                    let factor = self.number();
                    whole_or_not(number.is_f64(), old * factor)
                }
                Value::Bool(is_so) => Value::from(!is_so),
                _ => self.made(schema, DEPTH),
            },
            _ => self.made(schema, DEPTH),
        }
    }

    /// A usual number, or one at the edges.
    fn number(&mut self) -> f64 {
        let [kind, digits] = self.some::<[u8; 2]>();
        let scaled = |power: i32| f64::from(digits) / 10.0 * 10_f64.powi(power);
        match kind {
            0..10 => self.pick(&EDGES).copied().unwrap_or(0.0),
            10..30 => -scaled(i32::from(kind % 4) - 2),
            30..128 => f64::from(digits) / 100.0,
            _ => scaled(i32::from(kind % 6) - 2),
        }
    }

    fn wrong(&mut self) -> Value {
        let wrong = [
            json!([]),
            json!({}),
            json!(true),
            json!(-1),
            json!(1e308),
            json!("\u{0}"),
            json!([[[[]]]]),
            json!({"mm": null}),
            json!(u64::MAX),
        ];
        self.pick(&wrong).cloned().unwrap_or_default()
    }

    /// A value that a schema allows, mostly one that stands in some document at such a place.
    fn made(&mut self, schema: &'a Value, depth: u8) -> Value {
        let known = Schema::name(schema).and_then(|name| self.known.get(name));
        if let Some(known) = known
            && !self.once_in(3)
            && let Some(found) = self.pick(known)
        {
            return found.clone();
        }
        let schema = self.schema.resolved(schema);
        if let Some(only) = schema.get("const") {
            return only.clone();
        }
        for list in ["enum", "examples"] {
            if let Some(list) = schema.get(list).and_then(Value::as_array) {
                return self.pick(list).cloned().unwrap_or_default();
            }
        }
        let choices = Schema::choices(schema);
        if let Some(one) = self.pick(&choices).copied() {
            return if depth == 0 {
                Value::Null
            } else {
                self.made(one, depth - 1)
            };
        }
        let kind = match schema.get("type") {
            Some(Value::Array(kinds)) => kinds.first().and_then(Value::as_str).unwrap_or(""),
            Some(Value::String(kind)) => kind,
            _ => "",
        };
        match kind {
            "object" => self.object(schema, depth),
            "array" => {
                let of_item = schema.get("items").unwrap_or(&Value::Null);
                let len = self.below(4);
                (0..len)
                    .map(|_| self.made(of_item, depth.saturating_sub(1)))
                    .collect()
            }
            "string" => Value::from(self.pick(&TEXTS).copied().unwrap_or_default()),
            "integer" => {
                let [least, most] = ["minimum", "maximum"].map(|end| schema.get(end)?.as_i64());
                let drawn = i64::from(self.some::<u8>() % 16) + least.unwrap_or(0);
                match most {
                    Some(most) if !self.once_in(8) => Value::from(drawn.min(most)),
                    _ => Value::from(drawn),
                }
            }
            "number" => Value::from(self.number()),
            "boolean" => Value::from(self.some::<bool>()),
            _ => Value::Null,
        }
    }

    fn object(&mut self, schema: &'a Value, depth: u8) -> Value {
        let mut made = Map::new();
        let required = schema.get("required").and_then(Value::as_array);
        for (name, inner) in Schema::properties(schema).into_iter().flatten() {
            let is_required = required.is_some_and(|all| all.iter().any(|one| one == name));
            let comes = if is_required {
                !self.once_in(32)
            } else {
                depth > 0 && self.once_in(3)
            };
            if comes {
                made.insert(name.clone(), self.made(inner, depth.saturating_sub(1)));
            }
        }
        Value::Object(made)
    }
}

/// A number of the kind that stood there.
fn whole_or_not(has_fraction: bool, number: f64) -> Value {
    if has_fraction || number.fract() != 0.0 {
        return Value::from(number);
    }
    #[allow(clippy::cast_possible_truncation, reason = "it ends at the greatest")]
    Value::from(number as i64)
}
