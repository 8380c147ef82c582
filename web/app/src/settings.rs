//! What a device keeps for itself. It is no part of the record.

use crate::words::Language;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use std::collections::BTreeMap;
use stillwood_core::order;
use stillwood_core::plank::Instruments;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{KeptElsewhere, date};
use stillwood_core::season::Published;

/// The colours of the screens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Scheme {
    /// Ink on paper.
    Paper,
    /// Dark, for a torch-lit shed.
    Shed,
    /// Black on white with heavier lines, for glare.
    Sun,
}

/// What this device keeps for itself; it is no part of the record.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// The units that a bare number stands for.
    pub units: Units,
    /// How far the maker's tools may be off.
    pub instruments: Instruments,
    /// As older versions kept it: when the record was last saved as a file or brought in. What is kept
    /// elsewhere stands in a setting of its own.
    pub carried: Option<Carried>,
    /// What calendar files that left this device told of.
    pub calendar: CalendarTold,
    /// The language of the screens. It is not kept: it follows from what was chosen and what the browser speaks.
    #[serde(skip)]
    pub language: Language,
    /// The language that the maker chose; none is as the browser has it. Older versions had one language and kept
    /// its name as `language`, which nobody had chosen.
    pub language_chosen: Option<Language>,
    /// The colours of the screens; none is as the device has it.
    pub scheme: Option<Scheme>,
    /// The keys lie for the left hand.
    pub left_hand: bool,
    /// As they were read: what a newer version keeps among them is written back.
    #[serde(skip)]
    read: Value,
}

impl Settings {
    /// Reads each setting for itself; what can't be read is as supplied, and told.
    pub fn read(json: &str) -> (Self, Vec<String>) {
        let mut settings = Self::default();
        let found: Map<String, Value> = match serde_json::from_str(json) {
            Ok(found) => found,
            Err(why) => return (settings, vec![why.to_string()]),
        };
        let mut wrong = Vec::new();
        take(&found, "units", &mut settings.units, &mut wrong);
        take(&found, "instruments", &mut settings.instruments, &mut wrong);
        take(&found, "carried", &mut settings.carried, &mut wrong);
        take(&found, "calendar", &mut settings.calendar, &mut wrong);
        take(
            &found,
            "language_chosen",
            &mut settings.language_chosen,
            &mut wrong,
        );
        // nothing lost: none was chosen
        settings.language = settings.language_chosen.unwrap_or_default();
        take(&found, "scheme", &mut settings.scheme, &mut wrong);
        take(&found, "left_hand", &mut settings.left_hand, &mut wrong);
        settings.read = Value::Object(found);
        (settings, wrong)
    }

    /// Speaks what was chosen, else the first of the browser's languages that there is a table for.
    pub fn speak(&mut self, browser: &[String]) {
        let preferred = Language::preferred(browser.iter().map(String::as_str));
        // nothing lost: none was chosen
        self.language = self.language_chosen.unwrap_or(preferred);
    }

    /// What an older version knew of what is kept elsewhere.
    pub fn kept_by_older_version(&self) -> KeptElsewhere {
        let carried = self.carried.as_ref();
        carried.map_or_else(KeptElsewhere::default, |carried| {
            KeptElsewhere::from_last_saved(&carried.on)
        })
    }

    /// As they are kept, with what a newer version has among them.
    pub fn to_json(&self) -> Result<String, serde_json::Error> {
        let mut now = serde_json::from_str(&serde_json::to_string(self)?)?;
        keep_unknown(&self.read, &mut now);
        serde_json::to_string(&now)
    }
}

/// Takes one setting out of those that were read.
fn take<T: DeserializeOwned>(
    found: &Map<String, Value>,
    key: &str,
    into: &mut T,
    wrong: &mut Vec<String>,
) {
    let Some(value) = found.get(key) else { return };
    // By way of a text: the reader of values is another one, which is compiled beside it for every type.
    match serde_json::from_str(&value.to_string()) {
        Ok(value) => *into = value,
        Err(why) => wrong.push(format!("{key}: {why}")),
    }
}

/// Puts what only the old value has beside what the new one has. The days of calendar files are no
/// names of settings: one that is gone is gone.
fn keep_unknown(old: &Value, new: &mut Value) {
    let (Value::Object(old), Value::Object(new)) = (old, new) else {
        return;
    };
    for (key, old) in old {
        match new.get_mut(key) {
            Some(new) if key != "days" => keep_unknown(old, new),
            Some(_) => {}
            None => drop(new.insert(key.clone(), old.clone())),
        }
    }
}

/// What calendar files that left this device told of, so that the next can take back what is gone.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct CalendarTold {
    /// The days, by what they are known by.
    days: BTreeMap<String, String>,
    /// The highest count of changes.
    sequence: u32,
}

impl CalendarTold {
    /// As core takes it.
    pub fn published(&self) -> Published {
        let days = self.days.iter();
        Published {
            sequence: self.sequence,
            days: order::map_of(days.filter_map(|(uid, on)| Some((uid.clone(), date(on)?)))),
        }
    }

    /// As it is kept.
    pub fn of(published: &Published) -> Self {
        let days = published.days.iter();
        Self {
            days: order::map_of(days.map(|(uid, on)| (uid.clone(), on.to_string()))),
            sequence: published.sequence,
        }
    }
}

/// The last time the record was saved as a file or brought in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Carried {
    /// The day.
    pub on: String,
    /// Entries that the record held.
    pub entries: usize,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn settings_that_cannot_be_read_do_not_take_the_others_along() {
        let json = r#"{"units":"cubits","carried":{"on":"2026-03-07","entries":3},"calendar":7}"#;
        let (settings, wrong) = Settings::read(json);
        assert_eq!(settings.units, Units::default());
        assert_eq!(settings.carried.map(|carried| carried.entries), Some(3));
        assert_eq!(wrong.len(), 2, "{wrong:?}");
        assert!(wrong[0].starts_with("units: "), "{wrong:?}");
        for damaged in ["", "[]", "{\"units\":", "7"] {
            let (settings, wrong) = Settings::read(damaged);
            assert_eq!(
                (settings, wrong.len()),
                (Settings::default(), 1),
                "{damaged}"
            );
        }
    }

    #[test]
    fn the_language_is_the_one_chosen_else_the_browsers() {
        let browser = ["fr-CH".to_owned(), "de-CH".to_owned(), "en".to_owned()];
        // An older version kept the only language that it had.
        let (mut settings, wrong) = Settings::read(r#"{"language":"english","left_hand":true}"#);
        assert_eq!((wrong, settings.left_hand), (Vec::new(), true));
        settings.speak(&browser);
        assert_eq!(settings.language, Language::German);
        settings.language_chosen = Some(Language::English);
        let kept = settings.to_json().unwrap_or_default();
        assert!(kept.contains(r#""language":"english""#), "{kept}");
        let (mut again, wrong) = Settings::read(&kept);
        again.speak(&browser);
        assert_eq!((wrong, again.language), (Vec::new(), Language::English));
        let (mut none, _) = Settings::read("{}");
        none.speak(&["fr".to_owned()]);
        assert_eq!(none.language, Language::English);
        none.speak(&[]);
        assert_eq!(none.language, Language::English);
    }

    #[test]
    fn what_a_newer_version_keeps_among_the_settings_is_written_back() {
        let json = r#"{"calendar":{"colour":"red","days":{"a":"2026-03-07"},"sequence":4},"new":{"a":[1]}}"#;
        let (mut settings, wrong) = Settings::read(json);
        assert_eq!(wrong, Vec::<String>::new());
        settings.calendar.days.clear();
        settings.calendar.sequence = 5;
        let back: Value =
            serde_json::from_str(&settings.to_json().unwrap_or_default()).unwrap_or_default();
        assert_eq!(back["new"]["a"][0], 1);
        assert_eq!(back["calendar"]["colour"], "red");
        assert_eq!(back["calendar"]["sequence"], 5);
        assert_eq!(back["calendar"]["days"], serde_json::json!({}));
        let (again, _) = Settings::read(&settings.to_json().unwrap_or_default());
        assert_eq!(again.calendar, settings.calendar);
    }
}
