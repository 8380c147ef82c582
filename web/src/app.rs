//! The app's state at its root: the record and what is folded from it, the plank being entered, the
//! device's settings. Screens read signals and call the functions here; nothing else writes.

use crate::entering::Entering;
use crate::held::{HalfTyped, Recorded, Texts};
use crate::parts::Told;
use crate::record::Record;
use crate::route::Route;
use crate::shell::clock;
use crate::shell::files_in::Incoming;
use crate::shell::store::Persistence;
use crate::shell::worker::Bridge;
use leptos::prelude::*;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::BTreeMap;
use std::sync::Arc;
use stillwood_core::plank::Instruments;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Draft, KeptElsewhere, SpeciesNamed, State, date};
use stillwood_core::season::Published;
use stillwood_core::wood::Species;

/// What this device keeps for itself; it is no part of the record.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Settings {
    /// The units that a bare number stands for.
    pub(crate) units: Units,
    /// How far the maker's tools may be off.
    pub(crate) instruments: Instruments,
    /// As older versions kept it: when the record was last saved as a file or brought in. What is kept
    /// elsewhere stands in a setting of its own.
    pub(crate) carried: Option<Carried>,
    /// What calendar files that left this device told of.
    pub(crate) calendar: CalendarTold,
    /// As they were read: what a newer version keeps among them is written back.
    #[serde(skip)]
    read: Value,
}

impl Settings {
    /// Reads each setting for itself; what can't be read is as supplied, and told.
    pub(crate) fn read(json: &str) -> (Self, Vec<String>) {
        let mut settings = Self::default();
        let found: BTreeMap<String, Value> = match serde_json::from_str(json) {
            Ok(found) => found,
            Err(why) => return (settings, vec![why.to_string()]),
        };
        let mut wrong = Vec::new();
        take(&found, "units", &mut settings.units, &mut wrong);
        take(&found, "instruments", &mut settings.instruments, &mut wrong);
        take(&found, "carried", &mut settings.carried, &mut wrong);
        take(&found, "calendar", &mut settings.calendar, &mut wrong);
        settings.read = Value::Object(found.into_iter().collect());
        (settings, wrong)
    }

    /// As they are kept, with what a newer version has among them.
    pub(crate) fn to_json(&self) -> Result<String, serde_json::Error> {
        let mut now = serde_json::to_value(self)?;
        keep_unknown(&self.read, &mut now);
        serde_json::to_string(&now)
    }
}

/// Takes one setting out of those that were read.
fn take<T: DeserializeOwned>(
    found: &BTreeMap<String, Value>,
    key: &str,
    into: &mut T,
    wrong: &mut Vec<String>,
) {
    let Some(value) = found.get(key) else { return };
    match serde_json::from_value(value.clone()) {
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
pub(crate) struct CalendarTold {
    /// The days, by what they are known by.
    days: BTreeMap<String, String>,
    /// The highest count of changes.
    sequence: u32,
}

impl CalendarTold {
    /// As core takes it.
    pub(crate) fn published(&self) -> Published {
        let days = self.days.iter();
        Published {
            sequence: self.sequence,
            days: days
                .filter_map(|(uid, on)| Some((uid.clone(), date(on)?)))
                .collect(),
        }
    }

    /// As it is kept.
    pub(crate) fn of(published: &Published) -> Self {
        let days = published.days.iter();
        Self {
            days: days
                .map(|(uid, on)| (uid.clone(), on.to_string()))
                .collect(),
            sequence: published.sequence,
        }
    }
}

/// The last time the record was saved as a file or brought in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Carried {
    /// The day.
    pub(crate) on: String,
    /// Entries that the record held.
    pub(crate) entries: usize,
}

/// How the saving stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Saving {
    /// Everything acknowledged is kept.
    Saved,
    /// A write is under way.
    Busy,
    /// Something is in memory only, and why.
    Failed(String),
}

/// A short word on what was done, with its undoing.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Toast {
    /// What was done.
    pub(crate) text: String,
    /// Entries that "undo" takes back: those of one step, with what they are about.
    pub(crate) undo: Vec<(Id, Id)>,
    /// The half-typed plank that it came from; it comes back when it is undone.
    pub(crate) draft: Option<Draft>,
    /// The form that it came from; it stands open as it was typed when it is undone.
    pub(crate) form: Option<Recorded>,
    /// A screen to go back to when it is undone.
    pub(crate) back_to: Option<Route>,
}

/// The root of the state. Everything in it lives as long as the page.
#[derive(Clone, Copy)]
pub(crate) struct App {
    /// The record.
    pub(crate) record: StoredValue<Record, LocalStorage>,
    /// Raised whenever the record has changed.
    pub(crate) changed: RwSignal<u32>,
    /// The screen.
    pub(crate) route: RwSignal<Route>,
    /// The plank being entered.
    pub(crate) entering: Entering,
    /// Half-typed planks that are kept, the one being entered among them.
    pub(crate) drafts: RwSignal<Vec<Draft>>,
    /// The half-typed plank that was dropped last, to bring it back.
    pub(crate) dropped: RwSignal<Option<Draft>>,
    /// Half-typed forms that are kept, by their keys.
    pub(crate) forms: RwSignal<BTreeMap<String, HalfTyped>>,
    /// What was chosen to be shown, screen by screen.
    pub(crate) shown: StoredValue<BTreeMap<String, Texts>>,
    /// Units that a bare number stands for.
    pub(crate) units: Memo<Units>,
    /// The device's settings.
    pub(crate) settings: RwSignal<Settings>,
    /// How the saving stands.
    pub(crate) saving: RwSignal<Saving>,
    /// The store was emptied from outside, and was written again.
    pub(crate) emptied: RwSignal<bool>,
    /// This device has taken a new name, and why: its storage was copied or restored.
    pub(crate) identity_notice: RwSignal<Option<String>>,
    /// A half-typed plank could not be kept, and why.
    pub(crate) draft_trouble: RwSignal<Option<String>>,
    /// What the browser promised.
    pub(crate) persistence: RwSignal<Persistence>,
    /// A word on what was done.
    pub(crate) toast: RwSignal<Option<Toast>>,
    /// A number that was asked how it was worked out.
    pub(crate) told: RwSignal<Option<Told>>,
    /// A newer version waits.
    pub(crate) new_version: RwSignal<bool>,
    /// A word on the offline copy.
    pub(crate) offline: RwSignal<Option<String>>,
    /// The demo record is open in place of the maker's own.
    pub(crate) demo: RwSignal<bool>,
    /// The page's hold on its service worker.
    pub(crate) bridge: StoredValue<Option<Bridge>, LocalStorage>,
    /// Files that came from outside and wait to be looked at.
    pub(crate) incoming: RwSignal<Vec<Arc<Incoming>>, LocalStorage>,
    /// What is kept elsewhere too; none until it is read.
    pub(crate) kept: RwSignal<Option<KeptElsewhere>>,
}

impl App {
    /// The state at the start, over a record that was read.
    pub(crate) fn new(record: Record, settings: Settings, route: RwSignal<Route>) -> Self {
        let settings = RwSignal::new(settings);
        Self {
            record: StoredValue::new_local(record),
            changed: RwSignal::new(0),
            route,
            entering: Entering::new(),
            drafts: RwSignal::new(Vec::new()),
            dropped: RwSignal::new(None),
            forms: RwSignal::new(BTreeMap::new()),
            shown: StoredValue::new(BTreeMap::new()),
            units: Memo::new(move |_| settings.with(|settings| settings.units)),
            settings,
            saving: RwSignal::new(Saving::Saved),
            emptied: RwSignal::new(false),
            identity_notice: RwSignal::new(None),
            draft_trouble: RwSignal::new(None),
            persistence: RwSignal::new(Persistence::Unknown),
            toast: RwSignal::new(None),
            told: RwSignal::new(None),
            new_version: RwSignal::new(false),
            offline: RwSignal::new(None),
            demo: RwSignal::new(false),
            bridge: StoredValue::new_local(None),
            incoming: RwSignal::new_local(Vec::new()),
            kept: RwSignal::new(None),
        }
    }

    /// Reads the book; whoever reads is told when it changes.
    pub(crate) fn state<T>(self, read: impl FnOnce(&State) -> T) -> T {
        self.changed.track();
        self.record.with_value(|record| read(record.state()))
    }

    /// Reads the book once.
    pub(crate) fn book_now<T>(self, read: impl FnOnce(&State) -> T) -> T {
        self.record.with_value(|record| read(record.state()))
    }

    /// A wood by its id: of the table, or the maker's own.
    pub(crate) fn wood(self, id: &str) -> Option<Species> {
        self.state(|state| queries::wood(state, id))
    }

    /// The wood that was named: by its id, or a wood of the maker's own that goes by that name.
    pub(crate) fn wood_of(self, named: &SpeciesNamed) -> Option<Species> {
        self.state(|state| queries::wood_of(state, named))
    }

    /// Whether a wood is one of the maker's own.
    pub(crate) fn is_own(self, id: &str) -> bool {
        self.state(|state| state.woods().contains_key(id))
    }

    /// Every wood of the maker's own.
    pub(crate) fn own_woods(self) -> Vec<Species> {
        self.state(queries::own_woods)
    }

    /// A new id.
    pub(crate) fn new_id(self) -> Option<Id> {
        match clock::random_bytes16() {
            Ok(random) => {
                let [ten @ .., _, _, _, _, _, _] = random;
                Some(stillwood_core::record::Id::version_7(
                    clock::now().millis,
                    &ten,
                ))
            }
            Err(why) => {
                self.saving.set(Saving::Failed(why.to_string()));
                None
            }
        }
    }

    /// Says what was done.
    pub(crate) fn say(self, text: impl Into<String>) {
        self.toast.set(Some(Toast {
            text: text.into(),
            ..Toast::default()
        }));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
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

    #[wasm_bindgen_test]
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
