//! Different lines under one id, each of them whole: which one is in force, and how the maker settles it.
//!
//! An entry never changes, so one of them is damaged or false. The rule looks at all that is in the record
//! and at nothing else, so it is the same on every device and in every order of arrival. No line is ever
//! dropped.

use crate::order;
use crate::record::log::id::Id;
use crate::record::log::order_of_entries::in_order;
use crate::record::log::standing::EventStatuses;
use crate::record::log::{Entry, EntryIds, Event, EventStatus};
use serde::{Deserialize, Serialize};
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// Variants of one entry that are shown; the rest are counted.
pub const VARIANTS_SHOWN: usize = 8;

/// The maker says which of several lines under one id is right. `about` is what that entry is about.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct ConflictSettled {
    /// The id under which the lines stand.
    pub entry: Id,
    /// [`Entry::fingerprint`] of the right one.
    pub line: String,
}

/// An entry taken out of a record when an import is undone, or put back.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct ImportUndone {
    /// The entries that the import brought.
    pub brought: EntryIds,
    /// The file's name, as the maker saw it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
}

/// Different lines under one id, by their text.
pub(crate) type Variants = BTreeMap<String, Entry>;

/// Different lines under one id.
#[derive(Debug, Clone, PartialEq)]
pub struct Conflict<'a> {
    pub id: Id,
    /// The lines, the one in force first; at most [`VARIANTS_SHOWN`].
    pub variants: Vec<&'a Entry>,
    pub total: usize,
    pub settled: bool,
}

impl Conflict<'_> {
    /// What to write down so that the chosen line is in force; `None` where it is none of those shown.
    pub fn settle(&self, chosen: usize) -> Option<(Id, Event)> {
        let entry = self.variants.get(chosen)?;
        let settled = ConflictSettled {
            entry: self.id,
            line: entry.fingerprint(),
        };
        Some((entry.about, Event::ConflictSettled(Box::new(settled))))
    }

    /// In what the lines differ: for each key its value in each line, in the order of the lines.
    pub fn differences(&self) -> Vec<(String, Vec<String>)> {
        let members: Vec<BTreeMap<String, String>> = self
            .variants
            .iter()
            .map(|entry| members_of(entry))
            .collect();
        let keys = crate::order::set_of(members.iter().flat_map(BTreeMap::keys));
        let row = |key: &String| {
            let values = members
                .iter()
                .map(|of| of.get(key).cloned().unwrap_or_default());
            (key.clone(), values.collect::<Vec<String>>())
        };
        let differ = |(key, values): &(String, Vec<String>)| {
            key != "checksum" && values.iter().any(|value| *value != values[0])
        };
        keys.into_iter().map(row).filter(differ).collect()
    }
}

/// Every value of an entry by the keys that lead to it.
fn members_of(entry: &Entry) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    let Ok(whole) = serde_json::from_str(&entry.to_line()) else {
        return found;
    };
    // A list of its own and not the stack: a line may be as deep as it likes.
    let mut open: Vec<(String, serde_json::Value)> = vec![(String::new(), whole)];
    while let Some((path, value)) = open.pop() {
        let below = |key: &str| match path.as_str() {
            "" => key.to_owned(),
            path => format!("{path}.{key}"),
        };
        match value {
            serde_json::Value::Object(map) => {
                open.extend(map.into_iter().map(|(key, value)| (below(&key), value)));
            }
            serde_json::Value::Array(list) => {
                let numbered = (1..).zip(list);
                open.extend(numbered.map(|(n, value)| (below(&n.to_string()), value)));
            }
            serde_json::Value::String(text) => {
                found.insert(path, text);
            }
            other => {
                found.insert(path, other.to_string());
            }
        }
    }
    found
}

/// How well a line fits the rest of the record. More is better, from the first on.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Fit {
    settled: bool,
    /// It carries a checksum, so it is not damaged by chance.
    checksum: bool,
    /// This version understands all of it.
    understood: bool,
    /// Its marks add up.
    marks: bool,
    /// Its step stands between those of its neighbours by running number.
    in_turn: bool,
    /// Ids, names and devices in it that other entries name as well.
    references: usize,
    /// The clock names the same day.
    day: bool,
    /// Where nothing else tells: the first by its text.
    first: Reverse<String>,
}

/// What the rest of the record says that helps to choose among lines.
struct Surroundings {
    /// Ids and names that are in other entries, out of those that the lines name.
    named: BTreeSet<String>,
    devices: BTreeSet<String>,
    /// Of the devices in question, steps by running number.
    steps: BTreeMap<String, BTreeMap<u64, u64>>,
}

impl Surroundings {
    fn of<'a>(entries: impl Iterator<Item = &'a Entry>, lines: &[&Entry]) -> Self {
        let mut wanted: BTreeSet<String> = BTreeSet::new();
        let mut steps = BTreeMap::new();
        for line in lines {
            each_name(line, |name| {
                wanted.insert(name.to_owned());
            });
            steps.entry(line.by.clone()).or_insert_with(BTreeMap::new);
        }
        let mut named = BTreeSet::new();
        let mut devices = BTreeSet::new();
        for entry in entries {
            let mut note = |name: &str| {
                if let Some(found) = wanted.take(name) {
                    named.insert(found);
                }
            };
            note(&entry.id.to_string());
            each_name(entry, note);
            if let Some(steps) = steps.get_mut(&entry.by) {
                steps.insert(entry.seq, entry.step);
                if !devices.contains(&entry.by) {
                    devices.insert(entry.by.clone());
                }
            }
        }
        Self {
            named,
            devices,
            steps,
        }
    }

    fn fit(&self, line: &str, entry: &Entry, settled: bool) -> Fit {
        let mut references = 0;
        each_name(entry, |name| {
            references += usize::from(self.named.contains(name))
        });
        let known_device = usize::from(self.devices.contains(&entry.by));
        let steps = self.steps.get(&entry.by);
        let in_turn = steps.is_none_or(|steps| {
            let before = steps.range(..entry.seq).next_back();
            let after = steps.range(entry.seq.saturating_add(1)..).next();
            !steps.contains_key(&entry.seq)
                && before.is_none_or(|(_, step)| *step < entry.step)
                && after.is_none_or(|(_, step)| *step > entry.step)
        });
        let marks = entry.event.marks();
        Fit {
            settled,
            checksum: entry.v >= crate::record::log::FIRST_WITH_CHECKSUM,
            understood: entry.is_understood(),
            marks: marks
                .iter()
                .all(|mark| crate::record::log::Mark::adds_up(mark)),
            in_turn,
            references: references + known_device,
            day: entry.at.starts_with(&entry.on.to_string()),
            first: Reverse(line.to_owned()),
        }
    }
}

/// The ids and the texts that an entry names beside its own id.
fn each_name(entry: &Entry, mut each: impl FnMut(&str)) {
    for id in std::iter::once(&entry.about).chain(&entry.supersedes) {
        id.with_text(&mut each);
    }
    // Keys among them do no harm: every entry of the kind has them.
    entry
        .body()
        .split('"')
        .filter(|part| part.len() > 2)
        .for_each(each);
}

/// Of every conflict the line that is in force, and whether the maker has settled it.
/// `whole` are the entries of which one line is here, `variants` the others.
pub(crate) fn choose(
    whole: &[&Entry],
    variants: &BTreeMap<Id, Variants>,
) -> BTreeMap<Id, (String, bool)> {
    let said = settled(whole);
    let open: Vec<&Entry> = variants.values().flat_map(Variants::values).collect();
    let surroundings = Surroundings::of(whole.iter().copied(), &open);
    let best = |(id, variants): (&Id, &Variants)| {
        let right = said.get(id);
        let is_right = |entry: &Entry| right.is_some_and(|said| entry.fingerprint() == **said);
        let (line, entry) = variants
            .iter()
            .max_by_key(|(line, entry)| surroundings.fit(line, entry, is_right(entry)))?;
        Some((*id, (line.clone(), is_right(entry))))
    };
    order::map_of(variants.iter().filter_map(best))
}

/// What the maker has said of conflicts: the last word that stands.
fn settled(whole: &[&Entry]) -> BTreeMap<Id, String> {
    let says = |entry: &&Entry| matches!(entry.event, Event::ConflictSettled(_));
    if !whole.iter().any(says) {
        return BTreeMap::new();
    }
    let ordered = in_order(whole.iter().copied());
    let standings = EventStatuses::settle(&ordered);
    let mut said = BTreeMap::new();
    for entry in ordered {
        if let Event::ConflictSettled(settled) = &entry.event
            && standings.of(entry.id) == EventStatus::InForce
        {
            said.insert(settled.entry, settled.line.clone());
        }
    }
    said
}
