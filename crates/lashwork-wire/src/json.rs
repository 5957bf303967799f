//! JSON bytes to a value, refusing what a lenient parser would lose: doubled keys and oversize.

use crate::MAX_BYTES;
use lashwork::job::Problem;
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value};
use std::fmt;

/// Parses a document. Doubled keys become problems, the first value standing.
pub(crate) fn parse(bytes: &[u8], problems: &mut Vec<Problem>) -> Option<Value> {
    if bytes.len() > MAX_BYTES {
        problems.push(Problem::new(
            "",
            "document.too-large",
            format!(
                "the document has {} bytes, more than {MAX_BYTES}",
                bytes.len()
            ),
            "split the job into smaller documents",
        ));
        return None;
    }
    let mut doubled = Vec::new();
    let mut reader = serde_json::Deserializer::from_slice(bytes);
    let parsed = Tree {
        pointer: String::new(),
        doubled: &mut doubled,
    }
    .deserialize(&mut reader)
    .and_then(|value| reader.end().map(|()| value));
    for pointer in doubled {
        problems.push(Problem::new(
            pointer,
            "document.key-twice",
            "this key stands twice in its object, so one value would be lost",
            "keep one of the two",
        ));
    }
    match parsed {
        Ok(value) => Some(value),
        Err(e) => {
            problems.push(Problem::new(
                "",
                "document.not-json",
                format!("the document is not JSON: {e}"),
                "check quotes, commas and brackets near that line",
            ));
            None
        }
    }
}

/// One JSON pointer step, escaped by RFC 6901.
pub(crate) fn step(pointer: &str, key: &str) -> String {
    format!("{pointer}/{}", key.replace('~', "~0").replace('/', "~1"))
}

struct Tree<'d> {
    pointer: String,
    doubled: &'d mut Vec<String>,
}

impl<'de> DeserializeSeed<'de> for Tree<'_> {
    type Value = Value;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Value, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Tree<'_> {
    type Value = Value;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("any JSON value")
    }
    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }
    fn visit_bool<E>(self, b: bool) -> Result<Value, E> {
        Ok(Value::Bool(b))
    }
    fn visit_u64<E>(self, n: u64) -> Result<Value, E> {
        Ok(Value::Number(n.into()))
    }
    fn visit_i64<E>(self, n: i64) -> Result<Value, E> {
        Ok(Value::Number(n.into()))
    }
    fn visit_f64<E: Error>(self, n: f64) -> Result<Value, E> {
        Number::from_f64(n)
            .map(Value::Number)
            .ok_or_else(|| E::custom("number is not finite"))
    }
    fn visit_str<E>(self, text: &str) -> Result<Value, E> {
        Ok(Value::String(text.to_owned()))
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Value, A::Error> {
        let mut items = Vec::new();
        loop {
            let pointer = step(&self.pointer, &items.len().to_string());
            match seq.next_element_seed(Tree {
                pointer,
                doubled: self.doubled,
            })? {
                Some(item) => items.push(item),
                None => return Ok(Value::Array(items)),
            }
        }
    }
    fn visit_map<A: MapAccess<'de>>(self, mut access: A) -> Result<Value, A::Error> {
        let mut map = Map::new();
        while let Some(key) = access.next_key::<String>()? {
            let pointer = step(&self.pointer, &key);
            let tree = Tree {
                pointer: pointer.clone(),
                doubled: self.doubled,
            };
            let value = access.next_value_seed(tree)?;
            if map.contains_key(&key) {
                self.doubled.push(pointer);
            } else {
                map.insert(key, value);
            }
        }
        Ok(Value::Object(map))
    }
}
