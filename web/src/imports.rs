//! What was brought in on this device, file by file, so that each can be undone as a whole. The list is
//! kept beside the record, each import as a setting of its own: two windows never write over each other's.

use crate::app::App;
use crate::record::{Deed, Record};
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use stillwood_core::order;
use stillwood_core::record::Id;
use stillwood_core::record::{EntryIds, Event, ImportUndone, Withdrawn};

/// What the settings that hold imports begin with.
const IMPORT: &str = "import/";

/// A file that was brought in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct Import {
    /// Its own; later imports have later ones.
    pub(crate) id: String,
    /// The day.
    pub(crate) on: String,
    /// The file's name.
    pub(crate) name: String,
    /// The entries that were new.
    pub(crate) brought: EntryIds,
    /// How many planks were new.
    #[serde(default)]
    pub(crate) planks: usize,
}

/// The imports of this device.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Imports {
    /// The latest first.
    pub(crate) list: Vec<Import>,
    /// How many can't be read.
    pub(crate) unread: usize,
}

/// An import, and whether it was undone.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ImportStands {
    /// The file's name.
    pub(crate) name: String,
    /// The day on which it was brought in, where that was here.
    pub(crate) on: Option<String>,
    /// What it brought.
    pub(crate) brought: EntryIds,
    /// How many planks were new.
    pub(crate) planks: usize,
    /// The entries that undo it, with the day of the last; empty where it counts.
    pub(crate) undone: Vec<Id>,
    /// The day on which it was undone.
    pub(crate) undone_on: Option<String>,
}

impl App {
    /// The imports of this device, as the store holds them.
    pub(crate) async fn read_imports(self) -> Result<Imports, String> {
        let Some(store) = self.record.with_value(Record::store) else {
            return Ok(Imports::default());
        };
        let found = store.read_settings().await.map_err(|why| why.to_string())?;
        let mut imports = Imports::default();
        for (_, json) in found
            .texts
            .iter()
            .filter(|(key, _)| key.starts_with(IMPORT))
        {
            match serde_json::from_str(json) {
                Ok(import) => imports.list.push(import),
                Err(_) => imports.unread += 1,
            }
        }
        order::sort_by(&mut imports.list, |a: &Import, b: &Import| a.id.cmp(&b.id));
        imports.list.reverse();
        Ok(imports)
    }

    /// Keeps an import in the list.
    pub(crate) async fn keep_import(self, import: &Import) -> Result<(), String> {
        let Some(store) = self.record.with_value(Record::store) else {
            return Err("This browser keeps nothing.".into());
        };
        let json = serde_json::to_string(import).map_err(|why| why.to_string())?;
        let key = format!("{IMPORT}{}", import.id);
        let kept = store.put_setting(&key, &json).await;
        kept.map_err(|why| why.to_string())
    }

    /// How imports stand: those of this device, and those that another device has undone.
    pub(crate) fn imports_stand(self, imports: &[Import]) -> Vec<ImportStands> {
        self.changed.track();
        self.record.with_value(|record| {
            let (log, state) = (record.log(), record.state());
            let undone_by = |brought: &EntryIds| {
                let undone: BTreeSet<Id> = brought
                    .iter()
                    .filter_map(|id| state.undone_by(id))
                    .collect();
                undone.into_iter().collect::<Vec<Id>>()
            };
            let day = |undone: &[Id]| {
                let entries = undone.iter().filter_map(|id| log.entry(*id));
                entries.map(|entry| entry.on.to_string()).max()
            };
            let here = |import: &&Import| {
                let mut brought = import.brought.iter();
                brought.any(|id| log.entry(id).is_some())
            };
            let own = |import: &Import| {
                let undone = undone_by(&import.brought);
                ImportStands {
                    name: import.name.clone(),
                    on: Some(import.on.clone()),
                    brought: import.brought.clone(),
                    planks: import.planks,
                    undone_on: day(&undone),
                    undone,
                }
            };
            let mut all: Vec<ImportStands> = imports.iter().filter(here).map(own).collect();
            let told: BTreeSet<Id> = all.iter().flat_map(|one| one.undone.clone()).collect();
            for entry in log.entries() {
                let Event::ImportUndone(undone) = &entry.event else {
                    continue;
                };
                let mut brought = undone.brought.iter();
                let in_force = brought.any(|id| state.undone_by(id) == Some(entry.id));
                if in_force && !told.contains(&entry.id) {
                    all.push(ImportStands {
                        name: undone.name.clone(),
                        on: None,
                        brought: undone.brought.clone(),
                        planks: 0,
                        undone: vec![entry.id],
                        undone_on: Some(entry.on.to_string()),
                    });
                }
            }
            all
        })
    }

    /// Takes what an import brought out of force.
    pub(crate) fn undo_import(self, import: &ImportStands) {
        let Some(about) = self.new_id() else { return };
        let undone = ImportUndone {
            brought: import.brought.clone(),
            name: import.name.clone(),
        };
        let deed = Deed::new(about, Event::ImportUndone(Box::new(undone)));
        let text = format!("{}: undone.", import.name);
        self.write_and_say(vec![deed], text, None);
    }

    /// Puts what was undone back in force: takes back the entries that undid it.
    pub(crate) fn put_import_back(self, undone: &[Id], name: &str) {
        let deeds: Vec<Deed> = self.record.with_value(|record| {
            let entries = undone.iter().filter_map(|id| record.log().entry(*id));
            entries
                .map(|entry| {
                    let back = Event::Withdrawn(Withdrawn {});
                    Deed::instead_of(entry.about, back, vec![entry.id])
                })
                .collect()
        });
        self.write_and_say(deeds, format!("{name}: put back."), None);
    }
}
