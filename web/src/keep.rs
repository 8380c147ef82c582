//! Writing down: an event becomes a checked entry, is written, read back, and only then said to be saved; or the
//! maker is told, and nothing is lost from the screen.

use crate::app::App;
use crate::shell::platform::warn;
use crate::shell::store::{Added, Change, Counter, Damage, Page, Pages, Place, Store, StoreError};
use crate::shell::{clock, locks};
use std::cell::RefCell;
use stillwood_app::Action;
use stillwood_app::effect::AfterRecorded;
use stillwood_app::form::FORM;
use stillwood_app::model::Saving;
use stillwood_core::record::{Draft, Entry, Id, Limits, Merged, NewEvent, WrittenEntry, lines};
use wasm_bindgen_futures::spawn_local;

/// Entries of a file whose lines are made at once: some megabytes. After each lot it is shown how far it is.
const ENTRIES_AT_ONCE: usize = 8_000;
/// Pages fewer bytes than this are gathered into one at the start.
pub(crate) const SMALL_PAGE: usize = 64 << 10;
/// What a record takes in memory, as a multiple of its text.
const ROOM_PER_BYTE: usize = 2;

/// Asks the browser for memory in one go: bit by bit it takes as long as the reading itself. Where there is none to
/// be had so, it is asked for as it is needed.
fn make_room(bytes: usize) {
    let mut room: Vec<u8> = Vec::new();
    if room.try_reserve_exact(bytes).is_ok() {
        std::hint::black_box(&room);
    }
}

/// The page of entries that were just made: their lines as they were checked.
fn page_of(written: &[WrittenEntry]) -> String {
    let lines = written.iter().flat_map(|one| [one.line(), "\n"]);
    lines.collect()
}

/// A line of a page: an entry, or why it is none.
pub(crate) fn read_line(line: &[u8], limits: &Limits) -> Result<Entry, String> {
    let text = std::str::from_utf8(line).map_err(|why| format!("it is no text ({why})"))?;
    Entry::from_kept(text, limits).map_err(|why| why.error.to_string())
}

/// The lines of a page with their numbers, from 1; empty ones left out.
pub(crate) fn lines_of(page: &[u8]) -> impl Iterator<Item = (usize, &[u8])> {
    let ends = memchr::memchr_iter(b'\n', page).chain([page.len()]);
    let mut from = 0;
    let lines = ends.map(move |end| {
        let line = &page[from..end];
        from = end + 1;
        line
    });
    let numbered = (1..).zip(lines);
    numbered.filter(|(_, line)| !line.is_empty())
}

/// Whether every line of a page is an entry.
pub(crate) fn is_whole(page: &[u8]) -> bool {
    let limits = Limits::default();
    lines_of(page).all(|(_, line)| read_line(line, &limits).is_ok())
}

/// An id for each event.
fn new_ids(count: usize, millis: u64) -> Result<Vec<Id>, StoreError> {
    let id = |_| match clock::random_bytes16() {
        Ok([ten @ .., _, _, _, _, _, _]) => Ok(Id::version_7(millis, &ten)),
        Err(why) => Err(StoreError::NotMade(why.to_string())),
    };
    (0..count).map(id).collect()
}

impl App {
    /// Says how the saving stands.
    pub(crate) fn saving(&self, saving: Saving) {
        self.act(Action::Saving(saving));
    }

    /// Tells other windows that something was written.
    pub(crate) fn tell_tabs(&self) {
        self.keeping(|keeping| {
            if let Some(channel) = &keeping.channel {
                channel.tell();
            }
        });
    }

    /// Writes events down, in one transaction with the dropping of the draft that they came from. Where the store
    /// fails they are in memory and the screen says so; what can't be written down at all leaves all as it was.
    pub(crate) async fn record_events(&self, events: Vec<NewEvent>, after: AfterRecorded) {
        let before = self.model(|model| model.shell.saving.clone());
        // What it was half typed as goes in the same transaction.
        let piece = after
            .draft
            .as_ref()
            .and_then(|draft| draft.piece)
            .map(|piece| piece.to_string());
        let form = after.form.as_ref().map(|key| format!("{FORM}{key}"));
        let drafts = piece.into_iter().chain(form).collect();
        let (entries, kept) = match self.append_events(&events, drafts).await {
            Ok(made) => made,
            Err(why) => {
                // Nothing was touched.
                self.saving(before);
                let why = why.to_string();
                return self.act(Action::NotRecorded { why, after });
            }
        };
        match kept {
            Ok(added) => {
                self.note_written(added);
                self.renew_second_copy(&entries).await;
                // The store takes writes again: what it refused before is tried once more.
                if self.keeping(|keeping| keeping.unsaved.lines.is_empty()) {
                    self.saving(Saving::Saved);
                } else {
                    self.try_again();
                }
            }
            Err(why) => {
                self.saving(Saving::Failed(why.to_string()));
                if why == StoreError::Emptied {
                    self.try_again();
                }
            }
        }
        self.act(Action::Recorded { entries, after });
    }

    /// The entries that were made, and whether the store has them. An error where the events can't be written down
    /// at all.
    async fn append_events(
        &self,
        events: &[NewEvent],
        drafts: Vec<String>,
    ) -> Result<(Vec<Entry>, Result<Added, StoreError>), StoreError> {
        if events.is_empty() {
            return Err(StoreError::NotMade(
                "there is nothing to write down.".into(),
            ));
        }
        let now = self.model(|model| model.now.clone());
        let ids = new_ids(events.len(), now.millis)?;
        self.saving(Saving::Busy);
        let made = RefCell::new(Vec::new());
        let make = |first: u64| {
            let entries = self.record(|record| record.entries(events, &ids, &now, first));
            let entries = entries.map_err(StoreError::NotMade)?;
            let page = page_of(&entries);
            made.replace(entries);
            Ok(page)
        };
        let mut change = Change::new();
        for draft in &drafts {
            change = change.without_draft(draft);
        }
        let kept = match self.store() {
            Some(store) => {
                self.onto_what_was(async || self.append(&store, events.len(), &change, &make).await)
                    .await
            }
            None => Err(StoreError::NoStore),
        };
        if let Err(why @ StoreError::NotMade(_)) = kept {
            return Err(why);
        }
        if made.borrow().is_empty() {
            // The store failed before it gave a number.
            make(self.record(|record| record.own_entries().1.saturating_add(1)))?;
        }
        let entries = made.take();
        if kept.is_err() {
            let page = page_of(&entries);
            self.keeping(|keeping| {
                keeping.unsaved.lines.push_str(&page);
                keeping.unsaved.drafts.extend(drafts);
            });
        }
        let entries = entries.into_iter().map(WrittenEntry::into_entry).collect();
        Ok((entries, kept))
    }

    /// Appends lines under running numbers of this device.
    async fn append(
        &self,
        store: &Store,
        take: usize,
        change: &Change,
        make: impl Fn(u64) -> Result<String, StoreError>,
    ) -> Result<Added, StoreError> {
        let setting =
            self.keeping(|keeping| keeping.device.as_ref().map(|device| device.counter()));
        // Without a name of its own nothing is numbered, rather than under a name that is none.
        let setting = setting.ok_or(StoreError::NoStore)?;
        let counter = Counter {
            setting: &setting,
            seen: &|| self.record(|record| record.own_entries().1),
            take: take as u64,
        };
        store.append_numbered(&counter, change, make).await
    }

    /// Takes note of pages of this window's own, and tells the others.
    fn note_written(&self, added: Added) {
        if self.store().is_some_and(|store| !store.wrote(added)) {
            self.catch_up();
        }
        self.tell_tabs();
    }

    /// Tries again to keep what is in memory only, and to read what could not be read.
    pub(crate) fn try_again(&self) {
        let app = self.clone();
        spawn_local(async move {
            app.saving(Saving::Busy);
            let refused = app.keeping(|keeping| !keeping.unsaved.lines.is_empty());
            match app.retry_unsaved().await {
                Ok(()) => {
                    if refused {
                        let now = app.model(|model| model.now.millis);
                        app.say(match app.keep_second_copy(&[], now).await {
                            Ok(false) => "Kept now. Save the record as a file: a browser whose disk was full may throw away what it stored when it starts again.".to_owned(),
                            Ok(true) => "Kept now, and once more beside it: a browser whose disk was full may throw away what it stored when it starts again. Save the record as a file.".to_owned(),
                            Err(why) => format!("Kept now, but there is no second copy: {why}"),
                        });
                    }
                    app.saving(match app.started_anew().await {
                        Ok(()) => Saving::Saved,
                        Err(why) => Saving::Failed(why.to_string()),
                    });
                }
                Err(why) => app.saving(Saving::Failed(why.to_string())),
            }
        });
    }

    async fn retry_unsaved(&self) -> Result<(), StoreError> {
        let store = match self.store() {
            Some(store) => store,
            None => {
                let store = Store::open_record(self.is_sample()).await?;
                self.keeping(|keeping| keeping.store = Some(store.clone()));
                store
            }
        };
        // The store was refused by the disk: its files are read anew before anything counts as kept.
        if self.keeping(|keeping| !keeping.unsaved.lines.is_empty()) {
            store.let_rest();
        }
        self.caught_up().await?;
        store.drafts_kept().await?;
        let mut waiting = self.keeping(|keeping| std::mem::take(&mut keeping.unsaved.lines));
        if waiting.is_empty() {
            return Ok(());
        }
        let drafts = self.keeping(|keeping| keeping.unsaved.drafts.clone());
        let mut change = Change::new();
        for draft in &drafts {
            change = change.without_draft(draft);
        }
        let again = |_| Ok(waiting.clone());
        let kept = self
            .onto_what_was(async || self.append(&store, 0, &change, again).await)
            .await;
        match kept {
            Ok(added) => {
                self.keeping(|keeping| {
                    keeping
                        .unsaved
                        .drafts
                        .retain(|draft| !drafts.contains(draft));
                });
                self.note_written(added);
                Ok(())
            }
            Err(why) => {
                self.keeping(|keeping| {
                    waiting.push_str(&keeping.unsaved.lines);
                    keeping.unsaved.lines = waiting;
                });
                Err(why)
            }
        }
    }

    /// Writes entries that came from outside, all or none. `goes_on` hears how many are written, and stops it by saying
    /// no; `false` then, and nothing is kept. Where the store fails they are kept in memory only, and why.
    pub(crate) async fn append_foreign(
        &self,
        fresh: &[Entry],
        goes_on: impl Fn(usize) -> bool,
    ) -> Result<bool, String> {
        if fresh.is_empty() {
            return Ok(true);
        }
        match self.written(fresh, goes_on).await {
            Ok(added) => {
                self.note_written(added);
                self.renew_second_copy(fresh).await;
                Ok(true)
            }
            Err(StoreError::Stopped) => Ok(false),
            Err(why) => {
                let lines = lines(fresh);
                self.keeping(|keeping| keeping.unsaved.lines.push_str(&lines));
                self.saving(Saving::Failed(why.to_string()));
                Err(why.to_string())
            }
        }
    }

    /// Writes entries that came from outside into the store, all or none.
    async fn written(
        &self,
        fresh: &[Entry],
        goes_on: impl Fn(usize) -> bool,
    ) -> Result<Added, StoreError> {
        self.not_by_a_twin(fresh).await?;
        let store = self.store().ok_or(StoreError::NoStore)?;
        let part = |number: usize| match goes_on(fresh.len().min(number * ENTRIES_AT_ONCE)) {
            true => Ok(fresh.chunks(ENTRIES_AT_ONCE).nth(number).map(lines)),
            false => Err(StoreError::Stopped),
        };
        self.onto_what_was(async || store.append_parts(part).await)
            .await
    }

    /// Adds the entries of a file, all or none.
    pub(crate) async fn bring_in(&self, entries: Vec<Entry>) -> Result<Merged, String> {
        let kept = self.append_foreign(&entries, |_| true).await;
        let merged = self.change(|model| model.record.merge(entries));
        self.paint();
        kept.map(|_| merged)
    }

    /// Entries under this device's own name that it does not hold, once all windows' are read: it lost them, or
    /// another device writes under its name. In both cases it takes a new one.
    async fn not_by_a_twin(&self, fresh: &[Entry]) -> Result<(), StoreError> {
        let unknown = |record: &stillwood_app::record::Record| {
            let mut own = fresh.iter().filter(|entry| entry.by == record.device().id);
            own.any(|entry| record.log().entry(entry.id) != Some(entry))
        };
        if !self.record(unknown) {
            return Ok(());
        }
        self.caught_up().await?;
        if self.record(unknown) {
            self.leave_to_the_twin().await?;
        }
        Ok(())
    }

    /// Reads what other windows have written, by and by, and looks whether the store is still what it was.
    pub(crate) fn catch_up(&self) {
        let app = self.clone();
        spawn_local(async move { app.catch_up_now().await });
    }

    /// Reads what other windows have written.
    pub(crate) async fn catch_up_now(&self) {
        if let Err(why) = self.caught_up().await {
            warn(&format!("other windows' entries can't be read: {why}"));
        }
        if let Err(why) = self.take_settings().await {
            warn(&format!("the settings can't be read: {why}"));
        }
        if let Err(why) = self.take_half_typed().await {
            warn(&format!(
                "what is half typed in other windows can't be read: {why}"
            ));
        }
    }

    async fn caught_up(&self) -> Result<(), StoreError> {
        let Some(store) = self.store() else {
            return Ok(());
        };
        let pages = match store.read_new().await {
            Err(StoreError::Emptied) => return self.write_again().await,
            pages => pages?,
        };
        let own = self.record(|record| record.own_entries());
        if self.take_in(&pages) {
            self.paint();
        }
        if self.record(|record| record.own_entries()) != own {
            self.look_for_a_twin().await?;
        }
        Ok(())
    }

    /// Takes in pages of the store; true if there was anything new.
    pub(crate) fn take_in(&self, pages: &Pages) -> bool {
        let bytes: usize = pages.pages.iter().map(|page| page.lines.len()).sum();
        let many = bytes >= SMALL_PAGE;
        let new = self.take_some_in(pages, many);
        if many {
            self.change(|model| model.record.fold());
        }
        new > 0
    }

    /// Takes in pages of the store that are folded later where they are `many`; how many entries were new.
    pub(crate) fn take_some_in(&self, pages: &Pages, many: bool) -> usize {
        if many {
            let bytes: usize = pages.pages.iter().map(|page| page.lines.len()).sum();
            make_room(bytes.saturating_mul(ROOM_PER_BYTE));
        }
        let mut new = 0;
        for page in &pages.pages {
            let damaged = self.keeping(|keeping| keeping.damage.len());
            let mut arrived = Vec::new();
            self.read_entries(page, |entry| match many {
                true => new += usize::from(self.change(|model| model.record.add(entry))),
                false => arrived.push(entry),
            });
            if !arrived.is_empty() {
                new += self.change(|model| model.record.merge(arrived)).new;
            }
            let whole = self.keeping(|keeping| keeping.damage.len()) == damaged;
            if page.lines.len() < SMALL_PAGE && whole {
                self.keeping(|keeping| keeping.small_pages.insert(page.key));
            }
        }
        let odd = pages.unreadable.iter().map(|(key, _)| *key);
        self.note_damage(odd.map(|key| Damage::of(Place::Page(key), "it holds no bytes")));
        new
    }

    /// Takes note of what can't be read.
    pub(crate) fn note_damage(&self, damage: impl IntoIterator<Item = Damage>) {
        let none = damage.into_iter().map(|damage| (damage, Vec::new()));
        self.keeping(|keeping| keeping.damage.extend(none));
    }

    /// Reads a page; a line that can't be read is noted.
    fn read_entries(&self, page: &Page, mut each: impl FnMut(Entry)) {
        let limits = Limits::default();
        for (number, line) in lines_of(&page.lines) {
            match read_line(line, &limits) {
                Ok(entry) => each(entry),
                Err(reason) => {
                    let damage = Damage {
                        place: Place::Page(page.key),
                        line: Some(number),
                        reason,
                    };
                    self.keeping(|keeping| keeping.damage.insert(damage, line.to_vec()));
                }
            }
        }
    }

    /// A plank of a pile that was begun and left empty, and that no other window is at.
    pub(crate) async fn left_to_take_up(&self, pile: Id) -> Option<Id> {
        self.catch_up_now().await;
        let left = self.model(|model| stillwood_app::yard::left_empty(model, pile));
        let store = self.store()?;
        // nothing lost: where they can't be read a new mark is given
        let kept = store.all_drafts().await.ok()?;
        for (piece, mark) in left {
            let mut drafts = kept
                .iter()
                // nothing lost: one that can't be read is not taken up
                .filter_map(|(_, json)| Draft::from_json(json).ok());
            let is_empty = |draft: Draft| draft.piece == Some(piece) && draft.is_empty();
            if drafts.any(is_empty) && locks::hold(&format!("stillwood mark {mark}")).await {
                return Some(piece);
            }
        }
        None
    }

    /// The next mark of this device. Other windows are asked: what they have written, what is half typed in them,
    /// and what they have begun and not yet typed into.
    pub(crate) async fn next_mark(&self) -> String {
        self.catch_up_now().await;
        if let Err(why) = self.leave_a_shared_sign().await {
            self.say(format!("This device keeps its sign: {why}"));
        }
        let mut taken: Vec<String> =
            // The one that was discarded last may be brought back.
            self.model(|model| {
                let drafts = model.drafts.iter().chain(&model.yard.discarded);
                drafts.map(|draft| draft.mark.clone()).collect()
            });
        if let Some(store) = self.store() {
            match store.all_drafts().await {
                Ok(kept) => {
                    let marks = kept
                        .iter()
                        // nothing lost: one that can't be read holds no mark
                        .filter_map(|(_, json)| Draft::from_json(json).ok());
                    taken.extend(marks.map(|draft| draft.mark));
                }
                // What this window holds and what was written still counts; the maker knows what may be doubled.
                Err(why) => self.say(format!(
                    "What was begun in other windows can't be read: look whether the next mark is chalked already. {why}"
                )),
            }
        }
        loop {
            let mark = self.record(|record| record.log().next_mark(&record.device().sign, &taken));
            // nothing lost: whoever asked is told that there is no mark
            let Ok(mark) = mark else { return String::new() };
            let mark = mark.to_string();
            if locks::hold(&format!("stillwood mark {mark}")).await {
                return mark;
            }
            taken.push(mark);
        }
    }
}
