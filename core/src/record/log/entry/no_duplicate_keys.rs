//! JSON read into a value with one demand more than usual: no key twice in an object.
//!
//! It never chooses between two values of one key.

use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value};
use std::fmt;

/// Reads a JSON text into a value; a key that comes twice is an error.
pub(crate) fn strict_value(text: &str) -> Result<Value, serde_json::Error> {
    let mut deserializer = serde_json::Deserializer::from_str(text);
    let value = Strict.deserialize(&mut deserializer)?;
    deserializer.end()?;
    Ok(value)
}

pub(crate) struct Strict;

impl<'de> DeserializeSeed<'de> for Strict {
    type Value = Value;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Value, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Strict {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("any JSON value")
    }

    fn visit_bool<E>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Value, E> {
        Ok(Value::Number(value.into()))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Value, E> {
        Ok(Value::Number(value.into()))
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<Value, E> {
        Number::from_f64(value)
            .map(Value::Number)
            .ok_or_else(|| E::custom("a number is too large"))
    }

    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(Value::String(value.to_owned()))
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element_seed(Strict)? {
            list.push(item);
        }
        Ok(Value::Array(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<Value, A::Error> {
        let mut map = Map::new();
        while let Some(key) = members.next_key::<String>()? {
            if map.contains_key(&key) {
                return Err(A::Error::custom(format_args!(
                    "the key \"{key}\" comes twice"
                )));
            }
            let value = members.next_value_seed(Strict)?;
            map.insert(key, value);
        }
        Ok(Value::Object(map))
    }
}

/// Whether all that `read` says is said by `understood` as well. Numbers are compared by value;
/// `understood` may say more, because it spells out what was left to default.
pub(crate) fn covers(understood: &Value, read: &Value) -> bool {
    match (understood, read) {
        (Value::Object(u), Value::Object(r)) => r
            .iter()
            .all(|(key, value)| u.get(key).is_some_and(|known| covers(known, value))),
        (Value::Array(u), Value::Array(r)) => {
            u.len() == r.len() && u.iter().zip(r).all(|(u, r)| covers(u, r))
        }
        (Value::Number(u), Value::Number(r)) => {
            u == r || (u.is_f64() || r.is_f64()) && u.as_f64() == r.as_f64()
        }
        (u, r) => u == r,
    }
}
