//! The store was emptied, set back, or everything in it was deleted on purpose; and the second copy of the record,
//! for the time after the disk refused a write.

use crate::app::App;
use crate::keep::{is_whole, lines_of, read_line};
use crate::shell::platform::warn;
use crate::shell::second_copy;
use crate::shell::store::{PageKey, Pages, StoreError};
use std::collections::BTreeSet;
use stillwood_app::model::Saving;
use stillwood_core::record::{Entry, Limits, lines};
use wasm_bindgen_futures::spawn_local;

/// How often all is written again for one write: whoever empties the store again and again is not followed for ever.
const TIMES: u32 = 4;
/// How many small pages make gathering worth while.
const MANY_PAGES: usize = 64;
/// So long a second copy stays at least.
const A_DAY_MS: u64 = 86_400_000;

impl App {
    /// The lines that are in memory and not in these pages, those that can't be read among them.
    fn missing_in(&self, pages: &Pages) -> Vec<u8> {
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
        self.record(|record| {
            for entry in record.log().everything() {
                push(entry.to_line().as_bytes());
            }
        });
        self.keeping(|keeping| keeping.damage.values().for_each(|line| push(line)));
        missing
    }

    /// Writes again what this window holds and the store does not, and says so.
    pub(crate) async fn write_again(&self) -> Result<(), StoreError> {
        let Some(store) = self.store() else {
            return Err(StoreError::NoStore);
        };
        self.saving(Saving::Busy);
        let missing = |pages: &Pages| self.missing_in(pages);
        match store.write_again(missing).await {
            Ok(again) => {
                // All that was in memory is kept now, what was refused before among it.
                let unsaved = self.keeping(|keeping| std::mem::take(&mut keeping.unsaved));
                for draft in &unsaved.drafts {
                    store.remove_draft(draft);
                }
                let held = self.record(|record| !record.log().is_empty());
                if !self.is_sample() {
                    self.keeping(|keeping| {
                        if let Some(device) = &keeping.device {
                            device.stands_beside();
                        }
                    });
                }
                self.take_in(&again.pages);
                if again.missed || (again.was_another && held) {
                    self.change(|model| model.shell.emptied = true);
                }
                self.saving(Saving::Saved);
                self.tell_tabs();
                if !unsaved.lines.is_empty() {
                    // The disk refused them before.
                    second_copy::go_on(self.model(|model| model.now.millis));
                    self.renew_second_copy(&[]).await;
                }
                Ok(())
            }
            Err(StoreError::Deleted) => {
                crate::start::load_anew();
                Err(StoreError::Deleted)
            }
            Err(why) => {
                self.saving(Saving::Failed(format!(
                    "The store was emptied from outside and can't be written again yet: {why}"
                )));
                Err(why)
            }
        }
    }

    /// Does a write; where the store turns out to be emptied, all of it is written again first.
    pub(crate) async fn onto_what_was<T>(
        &self,
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
    pub(crate) fn delete_everything(&self) {
        let app = self.clone();
        spawn_local(async move {
            let Some(store) = app.store() else {
                return app.say("There is nothing to delete: this browser keeps nothing.");
            };
            // The second copy goes first: the next start would take all of it back from there.
            if let Err(why) = second_copy::discard(app.copy_name()).await {
                return app.say(format!("Not deleted: {why}"));
            }
            match store.delete_everything().await {
                Ok(()) => {
                    // The sample has none: what stands beside is of the maker's own device.
                    if !app.is_sample() {
                        crate::identity::Device::stands_no_more();
                    }
                    app.tell_tabs();
                    crate::start::load_anew();
                }
                Err(why) => app.say(format!("Not deleted: {why}")),
            }
        });
    }

    /// Gathers many small pages into one, once the app stands. Pages with damage stay as they are.
    pub(crate) async fn gather(&self) {
        let small = self.keeping(|keeping| std::mem::take(&mut keeping.small_pages));
        let small: Vec<PageKey> = small.into_iter().collect();
        let Some(store) = self.store() else { return };
        if small.len() < MANY_PAGES {
            return;
        }
        match store.gather(&small, is_whole).await {
            Ok(Some(added)) => {
                if !store.wrote(added) {
                    self.catch_up();
                }
            }
            Ok(None) => {}
            Err(StoreError::Emptied) => self.catch_up(),
            Err(why) => warn(&format!("the pages stay as they are: {why}")),
        }
    }

    /// Where this window keeps a second copy, it takes entries that the store has just taken; the maker is told where
    /// that fails.
    pub(crate) async fn renew_second_copy(&self, fresh: &[Entry]) {
        if let Some(refused_at) = second_copy::in_use_since()
            && let Err(why) = self.keep_second_copy(fresh, refused_at).await
        {
            self.say(format!("There is no second copy: {why}"));
        }
    }

    fn copy_name(&self) -> &'static str {
        match self.is_sample() {
            true => second_copy::OF_SAMPLE,
            false => second_copy::OF_RECORD,
        }
    }

    /// Keeps the whole record a second time, with entries that the store has just taken and the record does not hold
    /// yet; false where the browser has no place for it.
    pub(crate) async fn keep_second_copy(
        &self,
        fresh: &[Entry],
        refused_at: u64,
    ) -> Result<bool, StoreError> {
        let all = self.record(|record| {
            let held = record.log().everything();
            let all: Vec<Entry> = held.chain(fresh).cloned().collect();
            lines(&all)
        });
        second_copy::keep(self.copy_name(), &all, refused_at).await
    }

    /// After the start: takes what the second copy holds and the database has lost. A copy of which nothing is missing
    /// is dropped a day after the disk refused a write last.
    pub(crate) async fn take_second_copy(&self) -> Result<(), StoreError> {
        let Some(copy) = second_copy::read(self.copy_name()).await? else {
            return Ok(());
        };
        let limits = Limits::default();
        let mut missing = Vec::new();
        let mut unread = 0_usize;
        self.record(|record| {
            for line in copy.lines.lines() {
                match read_line(line.as_bytes(), &limits) {
                    Ok(entry) if record.log().holds(&entry) => {}
                    Ok(entry) => missing.push(entry),
                    // nothing lost: it is counted, told, and the copy stays
                    Err(_) => unread += 1,
                }
            }
        });
        if unread > 0 {
            self.say(match unread {
                1 => "1 line of the second copy of the record can't be read. It is kept as it is."
                    .to_owned(),
                _ => format!(
                    "{unread} lines of the second copy of the record can't be read. It is kept as it is."
                ),
            });
        }
        let all_kept = self.keeping(|keeping| {
            keeping.store.is_some() && !keeping.start_anew && keeping.unsaved.lines.is_empty()
        });
        let now = self.model(|model| model.now.millis);
        let is_old = now
            .checked_sub(copy.refused_at)
            .is_some_and(|age| age >= A_DAY_MS);
        if missing.is_empty() && unread == 0 && all_kept && is_old {
            return second_copy::discard(self.copy_name()).await;
        }
        second_copy::go_on(copy.refused_at);
        if !missing.is_empty() {
            self.take_out_of_copy(missing).await;
        }
        Ok(())
    }

    /// Takes entries out of the second copy: onto the screen in any case, and into the store, or among what it refused.
    async fn take_out_of_copy(&self, missing: Vec<Entry>) {
        let page = lines(&missing);
        self.change(|model| model.record.merge(missing));
        let written = match self.store() {
            Some(store) => {
                let append = async || store.append(&page).await;
                let added = self.onto_what_was(append).await;
                added.map(|added| store.wrote(added))
            }
            None => Err(StoreError::NoStore),
        };
        match written {
            Ok(follows) => {
                self.change(|model| model.shell.emptied = true);
                if !follows {
                    self.catch_up();
                }
            }
            Err(why) => {
                self.keeping(|keeping| keeping.unsaved.lines.push_str(&page));
                // Why there is no store is told already.
                if why != StoreError::NoStore {
                    self.saving(Saving::Failed(why.to_string()));
                }
            }
        }
        self.paint();
    }
}
