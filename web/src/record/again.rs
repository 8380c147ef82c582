//! The store was emptied, set back, or everything in it was deleted on purpose: what the record does
//! then.

use super::{MANY_PAGES, Record, lines_of, read_line};
use crate::app::{App, Saving};
use crate::shell::store::{Pages, StoreError};
use leptos::prelude::*;
use std::collections::BTreeSet;
use stillwood_core::record::Limits;
use wasm_bindgen_futures::spawn_local;

/// How often all is written again for one write: whoever empties the store again and again is not
/// followed for ever.
const TIMES: u32 = 4;

impl Record {
    /// The lines that are in memory and not in these pages, those that can't be read among them.
    pub(super) fn missing_in(&self, pages: &Pages) -> Vec<u8> {
        let limits = Limits::default();
        let mut there: BTreeSet<Vec<u8>> = BTreeSet::new();
        for page in &pages.pages {
            for (_, line) in lines_of(&page.lines) {
                there.insert(match read_line(line, &limits) {
                    Ok(entry) => entry.to_line().into_bytes(),
                    // nothing lost: it is compared as it stands
                    Err(_) => line.to_vec(),
                });
            }
        }
        let mut missing = Vec::new();
        let mut push = |line: &[u8]| {
            if !line.is_empty() && !there.contains(line) {
                missing.extend_from_slice(line);
                missing.push(b'\n');
            }
        };
        for entry in self.log.everything() {
            push(entry.to_line().as_bytes());
        }
        self.damage.values().for_each(|line| push(line));
        missing
    }
}

impl App {
    /// Writes again what this window holds and the store does not, and says so.
    pub(super) async fn write_again(self) -> Result<(), StoreError> {
        let Some(store) = self.record.with_value(Record::store) else {
            return Err(StoreError::NoStore);
        };
        self.saving.set(Saving::Busy);
        let missing = |pages: &Pages| self.record.with_value(|record| record.missing_in(pages));
        match store.write_again(missing).await {
            Ok(again) => {
                let mut news = false;
                let mut held = false;
                self.record.update_value(|record| {
                    // All that was in memory is kept now, what was refused before among it.
                    let unsaved = std::mem::take(&mut record.unsaved);
                    for draft in &unsaved.drafts {
                        store.remove_draft(draft);
                    }
                    held = !record.log.is_empty();
                    if !self.demo.get_untracked() {
                        record.device.stands_beside();
                    }
                    news = record.take_in(&again.pages);
                });
                if news {
                    self.changed.update(|n| *n = n.wrapping_add(1));
                }
                if again.missed || (again.was_another && held) {
                    self.emptied.set(true);
                }
                self.saving.set(Saving::Saved);
                crate::start::nudge_tabs();
                Ok(())
            }
            Err(StoreError::Deleted) => {
                crate::start::load_anew();
                Err(StoreError::Deleted)
            }
            Err(why) => {
                self.saving.set(Saving::Failed(format!(
                    "The store was emptied from outside and can't be written again yet: {why}"
                )));
                Err(why)
            }
        }
    }

    /// Does a write; where the store turns out to be emptied, all of it is written again first.
    pub(super) async fn onto_what_was<T>(
        self,
        write: impl AsyncFn() -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        let mut done = write().await;
        for _ in 0..TIMES {
            if !matches!(done, Err(StoreError::Emptied)) {
                break;
            }
            self.write_again().await?;
            done = write().await;
        }
        done
    }

    /// Deletes the whole record, what is half typed and the settings, in every window, and starts empty.
    pub(crate) fn delete_everything(self) {
        spawn_local(async move {
            let Some(store) = self.record.with_value(Record::store) else {
                return self.say("There is nothing to delete: this browser keeps nothing.");
            };
            match store.delete_everything().await {
                Ok(()) => {
                    crate::identity::Device::stands_no_more();
                    crate::start::nudge_tabs();
                    crate::start::load_anew();
                }
                Err(why) => self.say(format!("Not deleted: {why}")),
            }
        });
    }

    /// Gathers many small pages into one, once the app stands. Pages with damage stay as they are.
    pub(crate) async fn gather(self) {
        let mut small = Vec::new();
        self.record.update_value(|record| {
            small = std::mem::take(&mut record.small_pages)
                .into_iter()
                .collect();
        });
        let Some(store) = self.record.with_value(Record::store) else {
            return;
        };
        if small.len() < MANY_PAGES {
            return;
        }
        match store.gather(&small, super::is_whole).await {
            Ok(Some(added)) => {
                if !store.wrote(added) {
                    self.catch_up();
                }
            }
            Ok(None) => {}
            Err(StoreError::Emptied) => self.catch_up(),
            Err(why) => leptos::logging::warn!("the pages stay as they are: {why}"),
        }
    }
}
