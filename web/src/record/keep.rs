//! Writing down: a deed becomes a checked entry, is written, read back, and only then said to be saved;
//! or the maker is told, and nothing is lost from the screen.

use super::{Deed, Record, Unsaved, page_of};
use crate::app::{App, Saving, Toast};
use crate::shell::store::{Added, Change, Counter, Store, StoreError};
use crate::shell::{clock, second_copy};
use leptos::prelude::*;
use std::cell::RefCell;
use stillwood_core::record::Id;
use stillwood_core::record::{Entry, Event, Merged, State, Withdrawn, WrittenEntry, lines};
use wasm_bindgen_futures::spawn_local;

/// Entries of a file whose lines are made at once: some megabytes.
const ENTRIES_AT_ONCE: usize = 4_000;

/// An id for each deed.
fn new_ids(count: usize, millis: u64) -> Result<Vec<Id>, StoreError> {
    let id = |_| match clock::random_bytes16() {
        Ok([ten @ .., _, _, _, _, _, _]) => Ok(Id::version_7(millis, &ten)),
        Err(why) => Err(StoreError::NotMade(why.to_string())),
    };
    (0..count).map(id).collect()
}

impl App {
    /// Writes deeds down, in one transaction with the dropping of the draft that they came from.
    /// Returns the ids of the entries once they are kept. Where the store fails they are in memory, the
    /// screen says so, and the ids are returned all the same; what can't be written down at all gives
    /// none, and the draft stays.
    pub(crate) async fn write(self, deeds: Vec<Deed>, draft: Option<String>) -> Vec<Id> {
        let before = self.saving.get_untracked();
        let made = self.write_down(&deeds, draft).await;
        let (ids, kept) = match made {
            Ok(made) => made,
            Err(why) => {
                // Nothing was touched.
                self.saving.set(before);
                self.say(format!("Not saved: {why}"));
                return Vec::new();
            }
        };
        match kept {
            Ok(added) => {
                self.wrote(added);
                if second_copy::in_use()
                    && let Err(why) = self.keep_second_copy().await
                {
                    self.say(format!("There is no second copy: {why}"));
                }
                // The store takes writes again: what it refused before is tried once more.
                let all = |record: &Record| record.unsaved.lines.is_empty();
                if self.record.with_value(all) {
                    self.saving.set(Saving::Saved);
                } else {
                    self.try_again();
                }
            }
            Err(why) => {
                self.saving.set(Saving::Failed(why.to_string()));
                if why == StoreError::Emptied {
                    self.try_again();
                }
            }
        }
        self.changed.update(|n| *n = n.wrapping_add(1));
        ids
    }

    /// The ids of the entries that are in memory now, and whether the store has them too. An error where
    /// the deeds can't be written down at all.
    async fn write_down(
        self,
        deeds: &[Deed],
        draft: Option<String>,
    ) -> Result<(Vec<Id>, Result<Added, StoreError>), StoreError> {
        if deeds.is_empty() {
            return Err(StoreError::NotMade(
                "there is nothing to write down.".into(),
            ));
        }
        let now = clock::now();
        let ids = new_ids(deeds.len(), now.millis)?;
        self.saving.set(Saving::Busy);
        let made = RefCell::new(Vec::new());
        let make = |first: u64| {
            let entries = self
                .record
                .with_value(|record| record.entries(deeds, &ids, &now, first))?;
            let page = page_of(&entries);
            made.replace(entries);
            Ok(page)
        };
        let mut change = Change::new();
        if let Some(draft) = &draft {
            change = change.without_draft(draft);
        }
        let kept = match self.record.with_value(Record::store) {
            Some(store) => {
                self.onto_what_was(async || self.append(&store, deeds.len(), &change, &make).await)
                    .await
            }
            None => Err(StoreError::NoStore),
        };
        if let Err(why @ StoreError::NotMade(_)) = kept {
            return Err(why);
        }
        if made.borrow().is_empty() {
            // The store failed before it gave a number.
            make(
                self.record
                    .with_value(|record| record.seq.saturating_add(1)),
            )?;
        }
        self.record.update_value(|record| {
            let entries = made.take();
            if kept.is_err() {
                record.unsaved.lines.push_str(&page_of(&entries));
                record.unsaved.drafts.extend(draft);
            }
            record.merge(entries.into_iter().map(WrittenEntry::into_entry).collect());
        });
        Ok((ids, kept))
    }

    /// Appends lines under running numbers of this device.
    async fn append(
        self,
        store: &Store,
        take: usize,
        change: &Change,
        make: impl Fn(u64) -> Result<String, StoreError>,
    ) -> Result<Added, StoreError> {
        let setting = self.record.with_value(|record| record.device.counter());
        let counter = Counter {
            setting: &setting,
            seen: self.record.with_value(|record| record.seq),
            take: take as u64,
        };
        store.append_numbered(&counter, change, make).await
    }

    /// Takes note of pages of this window's own, and tells the others.
    fn wrote(self, added: Added) {
        let store = self.record.with_value(Record::store);
        if store.is_some_and(|store| !store.wrote(added)) {
            self.catch_up();
        }
        crate::start::tell_tabs(added.last);
    }

    /// Writes deeds down and says so, with an undo.
    pub(crate) fn write_and_say(
        self,
        deeds: Vec<Deed>,
        text: String,
        back_to: Option<crate::route::Route>,
    ) {
        let about: Vec<Id> = deeds.iter().map(|deed| deed.about).collect();
        spawn_local(async move {
            let ids = self.write(deeds, None).await;
            if ids.is_empty() {
                return;
            }
            let undo = ids.into_iter().zip(about).collect();
            self.toast.set(Some(Toast {
                text,
                undo,
                back_to,
                ..Toast::default()
            }));
        });
    }

    /// Takes back what the toast tells of. A plank that was being measured goes back under the thumb, and
    /// a form stands open again as it was typed.
    pub(crate) fn undo(self, toast: Toast) {
        spawn_local(async move {
            let deeds = toast
                .undo
                .iter()
                .map(|(id, about)| {
                    Deed::instead_of(*about, Event::Withdrawn(Withdrawn {}), vec![*id])
                })
                .collect();
            if self.write(deeds, None).await.is_empty() {
                return;
            }
            if let Some(draft) = toast.draft {
                self.keep_draft(draft);
            }
            self.say("Taken back.");
            if let Some(form) = toast.form {
                self.take_up_again(form);
            }
            if let Some(route) = toast.back_to {
                crate::route::go(route);
            }
        });
    }

    /// Tries again to keep what is in memory only, and to read what could not be read.
    pub(crate) fn try_again(self) {
        spawn_local(async move {
            self.saving.set(Saving::Busy);
            let refused = self
                .record
                .with_value(|record| !record.unsaved.lines.is_empty());
            match self.kept_after_all().await {
                Ok(()) => {
                    if refused {
                        self.say(match self.keep_second_copy().await {
                            Ok(false) => "Kept now. Save the record as a file: a browser whose disk was full may throw away what it stored when it starts again.".to_owned(),
                            Ok(true) => "Kept now, and once more beside it: a browser whose disk was full may throw away what it stored when it starts again. Save the record as a file.".to_owned(),
                            Err(why) => format!("Kept now, but there is no second copy: {why}"),
                        });
                    }
                    self.saving.set(Saving::Saved);
                }
                Err(why) => self.saving.set(Saving::Failed(why.to_string())),
            }
        });
    }

    async fn kept_after_all(self) -> Result<(), StoreError> {
        let store = match self.record.with_value(Record::store) {
            Some(store) => store,
            None => {
                let store = crate::start::open_store(self.demo.get_untracked()).await?;
                self.record
                    .update_value(|record| record.store = Some(store.clone()));
                store
            }
        };
        // The store was refused by the disk: its files are read anew before anything counts as kept.
        if self
            .record
            .with_value(|record| !record.unsaved.lines.is_empty())
        {
            store.let_rest();
        }
        self.caught_up().await?;
        store.drafts_kept().await?;
        let mut waiting = Unsaved::default();
        self.record
            .update_value(|record| waiting = std::mem::take(&mut record.unsaved));
        if waiting.lines.is_empty() {
            return Ok(());
        }
        let mut change = Change::new();
        for draft in &waiting.drafts {
            change = change.without_draft(draft);
        }
        let again = |_| Ok(waiting.lines.clone());
        let kept = self
            .onto_what_was(async || self.append(&store, 0, &change, again).await)
            .await;
        match kept {
            Ok(added) => self.wrote(added),
            Err(why) => {
                self.record.update_value(|record| {
                    waiting.lines.push_str(&record.unsaved.lines);
                    waiting.drafts.append(&mut record.unsaved.drafts);
                    record.unsaved = waiting;
                });
                return Err(why);
            }
        }
        Ok(())
    }

    /// Adds the entries of a file, all or none. `after` is the state of everything with them in it, and
    /// the count of changes at which that was worked out. Says how it went.
    pub(crate) async fn bring_in(
        self,
        entries: Vec<Entry>,
        after: Option<(u32, State)>,
    ) -> Result<Merged, String> {
        let fresh: Vec<Entry> = self.record.with_value(|record| {
            let known = |entry: &Entry| record.log.entry(entry.id) == Some(entry);
            entries.into_iter().filter(|entry| !known(entry)).collect()
        });
        if fresh.is_empty() {
            return Ok(Merged::default());
        }
        if let Err(why) = self.not_by_a_twin(&fresh).await {
            return Err(why.to_string());
        }
        let part = |number: usize| fresh.chunks(ENTRIES_AT_ONCE).nth(number).map(lines);
        let kept = match self.record.with_value(Record::store) {
            Some(store) => {
                self.onto_what_was(async || store.append_parts(part).await)
                    .await
            }
            None => Err(StoreError::NoStore),
        };
        let mut merged = Merged::default();
        self.record.update_value(|record| {
            if kept.is_err() {
                record.unsaved.lines.push_str(&lines(&fresh));
            }
            // What was written down since is not in it.
            let now = self.changed.get_untracked();
            let after = after.filter(|(changed, _)| *changed == now);
            merged = record.merge_many(fresh, after.map(|(_, state)| state));
        });
        self.changed.update(|n| *n = n.wrapping_add(1));
        match kept {
            Ok(added) => {
                self.wrote(added);
                Ok(merged)
            }
            Err(why) => {
                self.saving.set(Saving::Failed(why.to_string()));
                Err(why.to_string())
            }
        }
    }

    /// Entries under this device's own name that it does not hold, once all windows' are read: it lost
    /// them, or another device writes under its name. In both cases it takes a new one.
    async fn not_by_a_twin(self, fresh: &[Entry]) -> Result<(), StoreError> {
        let unknown = |record: &Record| {
            let mut own = fresh.iter().filter(|entry| entry.by == record.by());
            own.any(|entry| record.log.entry(entry.id) != Some(entry))
        };
        if !self.record.with_value(unknown) {
            return Ok(());
        }
        self.caught_up().await?;
        if self.record.with_value(unknown) {
            self.leave_to_the_twin().await?;
        }
        Ok(())
    }

    /// Reads what other tabs have written, by and by, and looks whether the store is still what it was.
    pub(crate) fn catch_up(self) {
        spawn_local(self.catch_up_now());
    }

    /// Reads what other tabs have written.
    pub(crate) async fn catch_up_now(self) {
        if let Err(why) = self.caught_up().await {
            leptos::logging::warn!("other windows' entries can't be read: {why}");
        }
    }

    async fn caught_up(self) -> Result<(), StoreError> {
        let Some(store) = self.record.with_value(Record::store) else {
            return Ok(());
        };
        let pages = match store.read_new().await {
            Err(StoreError::Emptied) => return self.write_again().await,
            pages => pages?,
        };
        let mut news = false;
        let own = self.record.with_value(Record::own_entries);
        self.record
            .update_value(|record| news = record.take_in(&pages));
        if news {
            self.changed.update(|n| *n = n.wrapping_add(1));
        }
        if self.record.with_value(Record::own_entries) != own {
            self.look_for_a_twin().await?;
        }
        Ok(())
    }
}
