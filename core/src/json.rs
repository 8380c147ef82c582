//! JSON read with little code: the names of fields and of choices are looked up in one place, not anew in the
//! code of every type.
//!
//! serde's derived code is left to say what a type holds. It asks here for a field's place in the list of names,
//! never compares names itself, and never reads a struct out of a list.

use serde::de::value::U64Deserializer;
use serde::de::{
    Deserialize, DeserializeSeed, Deserializer, EnumAccess, Error, IntoDeserializer, MapAccess,
    SeqAccess, VariantAccess, Visitor,
};
use std::fmt;
use std::marker::PhantomData;

type Names = &'static [&'static str];

/// Reads a JSON text.
///
/// # Errors
/// As serde_json says it, with its place.
pub fn from_str<'a, T: Deserialize<'a>>(text: &'a str) -> Result<T, serde_json::Error> {
    read(text, PhantomData)
}

/// Reads a JSON text as `seed` does.
pub(crate) fn read<'a, S: DeserializeSeed<'a>>(
    text: &'a str,
    seed: S,
) -> Result<S::Value, serde_json::Error> {
    let mut reader = serde_json::Deserializer::from_str(text);
    let value = seed.deserialize(Through(&mut reader))?;
    reader.end()?;
    Ok(value)
}

/// Passes on what it holds, and sees to it that what is read inside goes through here as well.
struct Through<T>(T);

/// The members of an object, or the choices of an enum, whose names are these.
struct Named<T> {
    inner: T,
    names: Names,
}

/// Reads a name as its place in the list.
struct PlaceOf {
    names: Names,
    /// A field that is not in the list is passed over; a choice that is not is an error.
    or_none: bool,
}

impl<'de> DeserializeSeed<'de> for PlaceOf {
    type Value = u64;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<u64, D::Error> {
        deserializer.deserialize_identifier(self)
    }
}

impl Visitor<'_> for PlaceOf {
    type Value = u64;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a name")
    }

    fn visit_str<E: Error>(self, name: &str) -> Result<u64, E> {
        match self.names.iter().position(|known| *known == name) {
            Some(place) => Ok(place as u64),
            None if self.or_none => Ok(u64::MAX),
            None => Err(E::unknown_variant(name, self.names)),
        }
    }
}

fn by_place<'de, T: DeserializeSeed<'de>, E: Error>(seed: T, place: u64) -> Result<T::Value, E> {
    let place: U64Deserializer<E> = place.into_deserializer();
    seed.deserialize(place)
}

macro_rules! plain {
    ($($name:ident)*) => {
        $(fn $name<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Self::Error> {
            self.0.$name(visitor)
        })*
    };
}

macro_rules! nested {
    ($($name:ident($($argument:ident: $type:ty),*))*) => {
        $(fn $name<V: Visitor<'de>>(self, $($argument: $type,)* visitor: V) -> Result<V::Value, Self::Error> {
            self.0.$name($($argument,)* Through(visitor))
        })*
    };
}

impl<'de, D: Deserializer<'de>> Deserializer<'de> for Through<D> {
    type Error = D::Error;

    plain! {
        deserialize_bool deserialize_char deserialize_str deserialize_string deserialize_bytes
        deserialize_byte_buf deserialize_unit deserialize_identifier deserialize_ignored_any
        deserialize_i8 deserialize_i16 deserialize_i32 deserialize_i64 deserialize_i128
        deserialize_u8 deserialize_u16 deserialize_u32 deserialize_u64 deserialize_u128
        deserialize_f32 deserialize_f64
    }

    nested! {
        deserialize_any()
        deserialize_option()
        deserialize_seq()
        deserialize_map()
        deserialize_unit_struct(name: &'static str)
        deserialize_newtype_struct(name: &'static str)
        deserialize_tuple(length: usize)
        deserialize_tuple_struct(name: &'static str, length: usize)
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _name: &'static str,
        names: Names,
        visitor: V,
    ) -> Result<V::Value, D::Error> {
        let inner = visitor;
        self.0.deserialize_map(Named { inner, names })
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        names: Names,
        visitor: V,
    ) -> Result<V::Value, D::Error> {
        let inner = visitor;
        self.0.deserialize_enum(name, names, Named { inner, names })
    }
}

macro_rules! visits {
    ($($name:ident($type:ty))*) => {
        $(fn $name<E: Error>(self, value: $type) -> Result<V::Value, E> {
            self.0.$name(value)
        })*
    };
}

impl<'de, V: Visitor<'de>> Visitor<'de> for Through<V> {
    type Value = V::Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.expecting(f)
    }

    visits! {
        visit_bool(bool) visit_i64(i64) visit_u64(u64) visit_f64(f64)
        visit_str(&str) visit_borrowed_str(&'de str) visit_string(String)
    }

    fn visit_none<E: Error>(self) -> Result<V::Value, E> {
        self.0.visit_none()
    }

    fn visit_unit<E: Error>(self) -> Result<V::Value, E> {
        self.0.visit_unit()
    }

    fn visit_some<D: Deserializer<'de>>(self, deserializer: D) -> Result<V::Value, D::Error> {
        self.0.visit_some(Through(deserializer))
    }

    fn visit_newtype_struct<D: Deserializer<'de>>(
        self,
        deserializer: D,
    ) -> Result<V::Value, D::Error> {
        self.0.visit_newtype_struct(Through(deserializer))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, items: A) -> Result<V::Value, A::Error> {
        self.0.visit_seq(Through(items))
    }

    fn visit_map<A: MapAccess<'de>>(self, members: A) -> Result<V::Value, A::Error> {
        self.0.visit_map(Through(members))
    }
}

impl<'de, V: Visitor<'de>> Visitor<'de> for Named<V> {
    type Value = V::Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.inner.expecting(f)
    }

    fn visit_map<A: MapAccess<'de>>(self, members: A) -> Result<V::Value, A::Error> {
        let (inner, names) = (members, self.names);
        self.inner.visit_map(Named { inner, names })
    }

    fn visit_enum<A: EnumAccess<'de>>(self, choice: A) -> Result<V::Value, A::Error> {
        let (inner, names) = (choice, self.names);
        self.inner.visit_enum(Named { inner, names })
    }
}

impl<'de, T: DeserializeSeed<'de>> DeserializeSeed<'de> for Through<T> {
    type Value = T::Value;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<T::Value, D::Error> {
        self.0.deserialize(Through(deserializer))
    }
}

impl<'de, A: SeqAccess<'de>> SeqAccess<'de> for Through<A> {
    type Error = A::Error;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, A::Error> {
        self.0.next_element_seed(Through(seed))
    }
}

impl<'de, A: MapAccess<'de>> MapAccess<'de> for Through<A> {
    type Error = A::Error;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, A::Error> {
        self.0.next_key_seed(seed)
    }

    fn next_value_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<T::Value, A::Error> {
        self.0.next_value_seed(Through(seed))
    }
}

impl<'de, A: MapAccess<'de>> MapAccess<'de> for Named<A> {
    type Error = A::Error;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, A::Error> {
        let (names, or_none) = (self.names, true);
        let place = self.inner.next_key_seed(PlaceOf { names, or_none })?;
        place.map(|place| by_place(seed, place)).transpose()
    }

    fn next_value_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<T::Value, A::Error> {
        self.inner.next_value_seed(Through(seed))
    }
}

impl<'de, A: EnumAccess<'de>> EnumAccess<'de> for Named<A> {
    type Error = A::Error;
    type Variant = Through<A::Variant>;

    fn variant_seed<T: DeserializeSeed<'de>>(
        self,
        seed: T,
    ) -> Result<(T::Value, Self::Variant), A::Error> {
        let (names, or_none) = (self.names, false);
        let (place, variant) = self.inner.variant_seed(PlaceOf { names, or_none })?;
        Ok((by_place(seed, place)?, Through(variant)))
    }
}

impl<'de, A: VariantAccess<'de>> VariantAccess<'de> for Through<A> {
    type Error = A::Error;

    fn unit_variant(self) -> Result<(), A::Error> {
        self.0.unit_variant()
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, A::Error> {
        self.0.newtype_variant_seed(Through(seed))
    }

    fn tuple_variant<V: Visitor<'de>>(
        self,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, A::Error> {
        self.0.tuple_variant(length, Through(visitor))
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        names: Names,
        visitor: V,
    ) -> Result<V::Value, A::Error> {
        let inner = visitor;
        self.0.struct_variant(names, Named { inner, names })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::Value;

    #[derive(Debug, PartialEq, serde::Deserialize)]
    #[serde(rename_all = "snake_case")]
    enum Choice {
        Plain,
        With(Vec<Option<u32>>),
        Struct { deep: Box<Holder> },
    }

    #[derive(Debug, PartialEq, Default, serde::Deserialize)]
    struct Holder {
        #[serde(default)]
        choices: Vec<Choice>,
        #[serde(rename = "other")]
        renamed: Option<String>,
        #[serde(skip)]
        never: u32,
        last: f64,
    }

    /// The same text read here and by serde_json alone.
    fn both(text: &str) -> [Result<Holder, String>; 2] {
        [
            from_str(text).map_err(|e| e.to_string()),
            serde_json::from_str(text).map_err(|e: serde_json::Error| e.to_string()),
        ]
    }

    #[test]
    fn says_what_serde_json_says_and_where() {
        for text in [
            r#"{"last": 1.5}"#,
            r#"{"last": 2, "other": "\u00e4", "not known": {"a": [1]}, "choices": ["plain"]}"#,
            r#"{"last": 2, "choices": [{"with": [1, null]}, {"struct": {"deep": {"last": 0}}}]}"#,
            r#"{"last": 2, "never": 7}"#,
            r#"{"last": 2, "last": 3}"#,
            r#"{"other": null}"#,
            r#"{"last": "2"}"#,
            r#"{"last": 2, "other": 7}"#,
            r#"{"last": 2, "choices": ["unheard_of"]}"#,
            r#"{"last": 2, "choices": [{"with": 1}]}"#,
            r#"{"last": 2, "choices": [{"struct": {"deep": {"lost": 0}}}]}"#,
            r#"{"last": 2, "choices": ["with"]}"#,
            r#"{"last": 2, "choices": {"plain": null}}"#,
            r#"{"last": 2} x"#,
            r#"{"last": 2"#,
            "\"text\"",
            "7",
            "",
        ] {
            let [here, alone] = both(text);
            assert_eq!(here, alone, "{text}");
        }
    }

    #[test]
    fn a_struct_is_never_read_out_of_a_list() {
        let [here, alone] = both("[[], null, 1.5]");
        assert!(alone.is_ok());
        assert!(
            here.is_err_and(|said| said.starts_with("invalid type: sequence, expected struct"))
        );
    }

    #[test]
    fn any_value_is_read_as_it_stands() {
        let text = r#"{"a":[1,-2,3.5,"x",null,true,{"b":{}}]}"#;
        assert_eq!(from_str::<Value>(text).unwrap().to_string(), text);
    }
}
