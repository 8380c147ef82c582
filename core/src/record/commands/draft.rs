//! A half-typed plank, as it survives a dead battery.
//!
//! It keeps what was typed and understands nothing of it. It is no part of the record.

use crate::plank::{DefectKind, Field, RingsBy, Seen, WeighedBy};
use crate::record::log::id::Id;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// One field as it stands.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct DraftValue {
    /// The maker said "yes, really" to a question about it.
    #[serde(rename = "insisted")]
    pub confirmed: bool,
    /// With a tool or by eye.
    pub seen: Seen,
    /// What was typed so far.
    pub text: String,
}

/// A defect, half typed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DraftDefect {
    /// Where it starts, as typed.
    #[serde(default)]
    pub from: String,
    pub kind: DefectKind,
    /// The maker's note.
    #[serde(default)]
    pub note: String,
    /// Where it ends, as typed.
    #[serde(default)]
    pub to: String,
}

/// A half-typed plank.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Draft {
    /// The measurements in the record that it was begun from: these it replaces, and none that came after. Drafts of
    /// older versions do not say; they replace all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub begun_from: Option<Vec<Id>>,
    /// Defects so far.
    #[serde(default)]
    pub defects: Vec<DraftDefect>,
    #[serde(default)]
    pub mark: String,
    #[serde(default)]
    pub note: String,
    /// The piece, where it is in the record already.
    #[serde(default)]
    pub piece: Option<Id>,
    pub pile: Id,
    /// How its rings are read; not known of a draft that an earlier version kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rings_by: Option<RingsBy>,
    /// The species, where it is not the pile's.
    #[serde(default)]
    pub species: String,
    /// What the clock said when it was begun: a remark.
    #[serde(default)]
    pub started_at: String,
    /// The fields so far, by name: one that this version does not know is kept.
    #[serde(default)]
    pub typed: BTreeMap<String, DraftValue>,
    /// How it is weighed; not known of a draft that an earlier version kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weighed_by: Option<WeighedBy>,
}

impl Draft {
    pub fn new(pile: Id, mark: String, started_at: String) -> Self {
        Self {
            begun_from: Some(Vec::new()),
            defects: Vec::new(),
            mark,
            note: String::new(),
            piece: None,
            pile,
            rings_by: None,
            species: String::new(),
            started_at,
            typed: BTreeMap::new(),
            weighed_by: None,
        }
    }

    /// Whether nothing was typed that is worth keeping. A mark alone, given by the app, is nothing.
    pub fn is_empty(&self) -> bool {
        let blank = |text: &str| text.trim().is_empty();
        self.typed.values().all(|value| blank(&value.text))
            && self.defects.is_empty()
            && blank(&self.note)
            && blank(&self.species)
    }

    pub fn value(&self, field: Field) -> Option<&DraftValue> {
        self.typed.get(field_key(field))
    }

    /// Puts what was typed for a field; an empty text takes the field away.
    pub fn put(&mut self, field: Field, value: DraftValue) {
        if value.text.is_empty() {
            self.typed.remove(field_key(field));
        } else {
            self.typed.insert(field_key(field).to_owned(), value);
        }
    }

    /// How many fields hold something.
    pub fn fields_typed(&self) -> usize {
        self.typed
            .values()
            .filter(|v| !v.text.trim().is_empty())
            .count()
    }

    /// As JSON.
    ///
    /// # Errors
    /// What serde says; none is known.
    pub fn to_json(&self) -> Result<String, serde_json::Error> {
        serde_json::to_string(self)
    }

    /// From JSON. Fields of a newer version are passed over.
    ///
    /// # Errors
    /// If it is not a draft.
    pub fn from_json(text: &str) -> Result<Self, serde_json::Error> {
        serde_json::from_str(text)
    }
}

/// A field's name as the record writes it, under which it is kept while it is half typed.
pub fn field_key(field: Field) -> &'static str {
    // Asked for at every key: the names are spelt out once, in the order of the fields.
    static NAMES: LazyLock<Vec<String>> = LazyLock::new(|| {
        let name = |field: &Field| {
            // nothing lost: a name of a field can always be written
            let json = serde_json::to_string(field).unwrap_or_default();
            json.trim_matches('"').to_owned()
        };
        Field::ALL.iter().map(name).collect()
    });
    NAMES.get(field as usize).map_or("", String::as_str)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_draft_survives_and_knows_whether_it_is_worth_it() {
        let mut draft = Draft::new(Id::from_u128(7), "K7-13-M".to_owned(), String::new());
        assert!(draft.is_empty());
        for (field, text) in [
            (Field::Length, "2480"),
            (Field::WidthNear, "21"),
            (Field::WidthMiddle, "2"),
        ] {
            let text = text.to_owned();
            draft.put(
                field,
                DraftValue {
                    text,
                    ..DraftValue::default()
                },
            );
        }
        assert!(!draft.is_empty());
        assert_eq!(draft.fields_typed(), 3);
        let json = draft.to_json().unwrap();
        assert_eq!(Draft::from_json(&json).unwrap(), draft);
        let newer = json.replacen("{\"defects\"", "{\"new\":[1],\"defects\"", 1);
        assert_eq!(Draft::from_json(&newer).unwrap(), draft);
        assert_eq!(draft.value(Field::Length).unwrap().text, "2480");
        assert!(!json.contains("_by"), "as an earlier version wrote it");
        draft.rings_by = Some(RingsBy::ChordAndDip);
        draft.weighed_by = Some(WeighedBy::Balance);
        let json = draft.to_json().unwrap();
        assert_eq!(Draft::from_json(&json).unwrap(), draft);
    }
}
