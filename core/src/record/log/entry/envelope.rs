//! The frame of an entry: its own keys, and what a newer version wrote beside them. The body is left
//! as text until its kind is known.
//!
//! Written by hand because it is on the way of every entry that is opened: nothing is copied twice.

use crate::order;
use crate::record::log::date;
use crate::record::log::entry::OWN_KEYS;
use crate::record::log::entry::no_duplicate_keys::Strict;
use crate::record::log::id::Id;
use chrono::NaiveDate;
use serde::de::{Deserialize, Deserializer, Error, MapAccess, Visitor};
use serde_json::Value;
use serde_json::value::RawValue;
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::fmt;

/// An entry whose body is still text.
pub(crate) struct Frame<'a> {
    pub(crate) about: Id,
    pub(crate) at: String,
    pub(crate) body: Option<&'a str>,
    pub(crate) by: String,
    pub(crate) checksum: Option<Cow<'a, str>>,
    pub(crate) event: Cow<'a, str>,
    pub(crate) id: Id,
    pub(crate) on: NaiveDate,
    pub(crate) on_confirmed: bool,
    pub(crate) seq: u64,
    pub(crate) step: u64,
    pub(crate) supersedes: Vec<Id>,
    pub(crate) v: u32,
    pub(crate) extra: BTreeMap<String, Value>,
}

enum Key {
    Own(usize),
    Other(String),
}

impl<'de> Deserialize<'de> for Key {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct KeyVisitor;
        impl Visitor<'_> for KeyVisitor {
            type Value = Key;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a key")
            }

            fn visit_str<E: Error>(self, key: &str) -> Result<Key, E> {
                Ok(match OWN_KEYS.iter().position(|own| *own == key) {
                    Some(index) => Key::Own(index),
                    None => Key::Other(key.to_owned()),
                })
            }
        }
        deserializer.deserialize_identifier(KeyVisitor)
    }
}

/// The kind of what happened, which is seldom worth a copy.
struct Kind<'a>(Cow<'a, str>);

impl<'de> Deserialize<'de> for Kind<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct KindVisitor;
        impl<'de> Visitor<'de> for KindVisitor {
            type Value = Kind<'de>;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a string")
            }

            fn visit_borrowed_str<E: Error>(self, kind: &'de str) -> Result<Kind<'de>, E> {
                Ok(Kind(Cow::Borrowed(kind)))
            }

            fn visit_str<E: Error>(self, kind: &str) -> Result<Kind<'de>, E> {
                Ok(Kind(Cow::Owned(kind.to_owned())))
            }
        }
        deserializer.deserialize_str(KindVisitor)
    }
}

struct Day(NaiveDate);

impl<'de> Deserialize<'de> for Day {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct DayVisitor;
        impl Visitor<'_> for DayVisitor {
            type Value = Day;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a day such as \"2026-11-25\"")
            }

            fn visit_str<E: Error>(self, text: &str) -> Result<Day, E> {
                date(text)
                    .map(Day)
                    .ok_or_else(|| E::invalid_value(serde::de::Unexpected::Str(text), &self))
            }
        }
        deserializer.deserialize_str(DayVisitor)
    }
}

impl<'de> Deserialize<'de> for Frame<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(FrameVisitor)
    }
}

struct FrameVisitor;

/// Puts a value into its place; a key that comes twice is an error.
fn put<T, E: Error>(place: &mut Option<T>, key: &str, value: T) -> Result<(), E> {
    if place.replace(value).is_some() {
        return Err(E::custom(format_args!("the key \"{key}\" comes twice")));
    }
    Ok(())
}

impl<'de> Visitor<'de> for FrameVisitor {
    type Value = Frame<'de>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an entry")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Frame<'de>, A::Error> {
        let (mut about, mut at, mut by, mut event) = (None, None, None, None);
        let (mut body, mut id, mut on, mut seq, mut step) = (None, None, None, None, None);
        let (mut supersedes, mut v) = (None::<Vec<Id>>, None);
        let mut checksum = None;
        let mut on_confirmed = None;
        let mut extra = BTreeMap::new();
        while let Some(key) = map.next_key::<Key>()? {
            let index = match key {
                Key::Own(index) => index,
                Key::Other(key) => {
                    let value = map.next_value_seed(Strict)?;
                    let twice = extra.contains_key(&key);
                    put::<_, A::Error>(&mut twice.then_some(()), &key, ())?;
                    extra.insert(key, value);
                    continue;
                }
            };
            let key = OWN_KEYS[index];
            match key {
                "about" => put(&mut about, key, map.next_value::<Id>()?)?,
                "at" => put(&mut at, key, map.next_value::<String>()?)?,
                "body" => put(&mut body, key, map.next_value::<&RawValue>()?.get())?,
                "by" => put(&mut by, key, map.next_value::<String>()?)?,
                "checksum" => put(&mut checksum, key, map.next_value::<Kind<'de>>()?.0)?,
                "happening" => put(&mut event, key, map.next_value::<Kind<'de>>()?.0)?,
                "id" => put(&mut id, key, map.next_value::<Id>()?)?,
                "on" => put(&mut on, key, map.next_value::<Day>()?.0)?,
                "on_insisted" => put(&mut on_confirmed, key, map.next_value::<bool>()?)?,
                "seq" => put(&mut seq, key, map.next_value::<u64>()?)?,
                "step" => put(&mut step, key, map.next_value::<u64>()?)?,
                "supersedes" => put(&mut supersedes, key, map.next_value()?)?,
                _ => put(&mut v, key, map.next_value::<u32>()?)?,
            }
        }
        let missing = A::Error::missing_field;
        let mut supersedes = supersedes.unwrap_or_default();
        order::sort(&mut supersedes);
        supersedes.dedup();
        Ok(Frame {
            about: about.ok_or_else(|| missing("about"))?,
            at: at.unwrap_or_default(),
            body,
            by: by.ok_or_else(|| missing("by"))?,
            checksum,
            event: event.ok_or_else(|| missing("happening"))?,
            id: id.ok_or_else(|| missing("id"))?,
            on: on.ok_or_else(|| missing("on"))?,
            on_confirmed: on_confirmed.unwrap_or_default(),
            seq: seq.ok_or_else(|| missing("seq"))?,
            step: step.ok_or_else(|| missing("step"))?,
            supersedes,
            v: v.ok_or_else(|| missing("v"))?,
            extra,
        })
    }
}
