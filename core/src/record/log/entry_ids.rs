//! A list of entries by their ids, as it stands in a file: thirty-two hexadecimal digits an id, without
//! anything between, in texts that are short enough to be read.

use crate::record::log::id::Id;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::borrow::Cow;
use std::collections::BTreeSet;

const DIGITS: usize = 32;
/// Ids in one text: a text may have 64 KiB.
const IN_A_TEXT: usize = 2_000;

#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct EntryIds(BTreeSet<Id>);

impl EntryIds {
    /// Whether it holds an entry.
    pub fn contains(&self, id: Id) -> bool {
        self.0.contains(&id)
    }

    /// How many entries it holds.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether it holds none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The ids, in their order.
    pub fn iter(&self) -> impl Iterator<Item = Id> {
        self.0.iter().copied()
    }
}

impl FromIterator<Id> for EntryIds {
    fn from_iter<I: IntoIterator<Item = Id>>(ids: I) -> Self {
        Self(crate::order::set_of(ids))
    }
}

fn of_digits(digits: &str) -> Option<Id> {
    let all_digits = digits.bytes().all(|digit| digit.is_ascii_hexdigit());
    let number = all_digits.then(|| u128::from_str_radix(digits, 16).ok())?;
    number.map(Id::from_u128)
}

impl Serialize for EntryIds {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let all: Vec<String> = self
            .0
            .iter()
            .map(|id| format!("{:032x}", id.as_u128()))
            .collect();
        serializer.collect_seq(all.chunks(IN_A_TEXT).map(<[String]>::concat))
    }
}

impl<'de> Deserialize<'de> for EntryIds {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let mut ids = BTreeSet::new();
        for text in Vec::<Cow<'de, str>>::deserialize(deserializer)? {
            let mut rest = text.as_ref();
            while !rest.is_empty() {
                let id = rest
                    .split_at_checked(DIGITS)
                    .and_then(|(id, after)| Some((of_digits(id)?, after)));
                let Some((id, after)) = id else {
                    return Err(D::Error::custom("ids must have 32 hexadecimal digits each"));
                };
                ids.insert(id);
                rest = after;
            }
        }
        Ok(Self(ids))
    }
}

impl JsonSchema for EntryIds {
    fn schema_name() -> Cow<'static, str> {
        "EntryIds".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        Vec::<String>::json_schema(generator)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn many_ids_come_back_as_they_went() {
        for count in [0, 1, 1_999, 2_000, 2_001, 5_000_u128] {
            let ids: EntryIds = (0..count).map(|n| Id::from_u128(n * 7919)).collect();
            let text = serde_json::to_string(&ids).unwrap();
            assert_eq!(serde_json::from_str::<EntryIds>(&text).unwrap(), ids);
        }
    }

    #[test]
    fn what_is_no_list_of_ids_is_refused() {
        for text in [
            r#"["0"]"#,
            r#"["é000000000000000000000000000000000"]"#,
            "[7]",
        ] {
            assert!(serde_json::from_str::<EntryIds>(text).is_err(), "{text}");
        }
    }
}
