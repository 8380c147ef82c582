//! Ids: UUIDs (RFC 9562), kept as the numbers that they are.

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::de::{Error, Unexpected, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;
use thiserror::Error;
use uuid::{Builder, Uuid, fmt::Hyphenated};

/// Signs of an id as it is written: `017f22e2-79b0-7cc3-98c4-dc0c0c07398f`.
const SIGNS: usize = Hyphenated::LENGTH;

/// What an id stands for: an entry, a visit, a pile, a piece. Ids made on one day begin alike; compared as numbers
/// they are told apart at once, in the order in which their texts stand.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Id(u128);

#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("an id has 32 hexadecimal digits and four dashes")]
pub struct IdError;

impl Id {
    /// The id that stands for nothing: all its digits are noughts.
    pub const fn nil() -> Self {
        Self(0)
    }

    /// Whether it stands for nothing.
    pub const fn is_nil(self) -> bool {
        self.0 == 0
    }

    pub const fn from_u128(number: u128) -> Self {
        Self(number)
    }

    pub const fn as_u128(self) -> u128 {
        self.0
    }

    /// A UUID version 7 (RFC 9562, section 5.7) from the milliseconds since 1970 and ten random bytes.
    /// The version and the variant take the place of six of the random bits.
    pub fn version_7(unix_ms: u64, random: &[u8; 10]) -> Self {
        let id = Builder::from_unix_timestamp_millis(unix_ms, random).into_uuid();
        Self(id.as_u128())
    }

    /// The version that its digits name (RFC 9562, section 4.2).
    pub fn version_number(self) -> usize {
        Uuid::from_u128(self.0).get_version_num()
    }

    /// Hands its text on without a string of its own.
    pub fn with_text<T>(self, take: impl FnOnce(&str) -> T) -> T {
        let mut buffer = [0; SIGNS];
        take(
            Uuid::from_u128(self.0)
                .hyphenated()
                .encode_lower(&mut buffer),
        )
    }
}

impl FromStr for Id {
    type Err = IdError;

    fn from_str(text: &str) -> Result<Self, IdError> {
        if text.len() != SIGNS {
            return Err(IdError);
        }
        let id = Uuid::try_parse(text).map_err(|_| IdError)?;
        Ok(Self(id.as_u128()))
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.with_text(|text| f.write_str(text))
    }
}

impl fmt::Debug for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl Serialize for Id {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.with_text(|text| serializer.serialize_str(text))
    }
}

impl<'de> Deserialize<'de> for Id {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_str(IdVisitor)
    }
}

struct IdVisitor;

impl Visitor<'_> for IdVisitor {
    type Value = Id;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an id such as \"017f22e2-79b0-7cc3-98c4-dc0c0c07398f\"")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Id, E> {
        text.parse()
            .map_err(|_| E::invalid_value(Unexpected::Str(text), &self))
    }
}

impl JsonSchema for Id {
    fn schema_name() -> Cow<'static, str> {
        "Id".into()
    }

    fn inline_schema() -> bool {
        true
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        String::json_schema(generator)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn in_the_order_of_the_ids_as_they_are_written() {
        let written = [
            "017f22e2-79b0-7cc3-98c4-dc0c0c07398f",
            "ff7f22e2-79b0-7cc3-98c4-dc0c0c07398f",
            "017f22e2-79b0-7cc3-98c4-dc0c0c073990",
            "017f22e2-79b0-7cc3-08c4-dc0c0c07398f",
        ];
        let ids: BTreeMap<Id, usize> = written
            .iter()
            .enumerate()
            .map(|(n, id)| (id.parse().unwrap(), n))
            .collect();
        let mut sorted = written;
        sorted.sort_unstable();
        let found: Vec<String> = ids.keys().map(Id::to_string).collect();
        assert_eq!(found, sorted);
        assert_eq!(ids.get(&written[2].parse().unwrap()), Some(&2));
    }

    #[test]
    fn a_text_is_an_id_in_one_form_alone() {
        for other in [
            "",
            "017f22e279b07cc398c4dc0c0c07398f",
            "{017f22e2-79b0-7cc3-98c4-dc0c0c07398f}",
            "017f22e2-79b0-7cc3-98c4-dc0c0c07398g",
        ] {
            assert_eq!(other.parse::<Id>(), Err(IdError), "{other}");
        }
    }

    /// RFC 9562, appendix A.6: Tuesday, February 22, 2022 2:22:22.00 PM GMT-05:00. Value and moment
    /// as quoted in the test suites of public implementations.
    #[test]
    fn the_example_of_rfc_9562() {
        let random = [0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f];
        let id = Id::version_7(1_645_557_742_000, &random);
        assert_eq!(id.to_string(), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
        assert_eq!(id.version_number(), 7);
    }
}
