//! The record in memory and its keeping: entries are made here, written to the store, and only then
//! said to be saved. It decides nothing about wood.

use crate::app::{App, Saving, Toast};
use crate::shell::clock;
use crate::shell::store::{Change, Counter, Page, PageKey, Pages, Store};
use leptos::prelude::*;
use std::borrow::Cow;
use stillwood_core::notebook::{
    Added, Author, Book, Entry, Happening, Limits, Merged, Moment, Notebook, Withdrawn, date,
    lines, uuid_v7,
};
use uuid::Uuid;
use wasm_bindgen_futures::spawn_local;

/// The record in memory.
pub(crate) struct Record {
    notebook: Notebook,
    book: Book,
    author: Author,
    /// Highest step and own running number seen.
    step: u64,
    seq: u64,
    store: Option<Store>,
    last_page: Option<PageKey>,
    /// What is in memory only.
    unsaved: Unsaved,
    /// Pages that hold a line that can't be read: they are left as they are.
    damaged_pages: usize,
}

/// Entries that the store refused, and the drafts that they came from.
#[derive(Debug, Clone, Default)]
struct Unsaved {
    lines: String,
    drafts: Vec<String>,
}

/// One thing to write down: what it is about, what happened, what it replaces.
#[derive(Debug, Clone)]
pub(crate) struct Deed {
    /// The piece, pile or visit.
    pub(crate) about: Uuid,
    /// What happened.
    pub(crate) happening: Happening,
    /// Entries that it replaces.
    pub(crate) supersedes: Vec<Uuid>,
    /// The day, as the maker says; none is today.
    pub(crate) on: Option<String>,
    /// The maker said "yes, really" to a question about the day.
    pub(crate) on_insisted: bool,
}

impl Deed {
    /// Something new.
    pub(crate) fn new(about: Uuid, happening: Happening) -> Self {
        Self {
            about,
            happening,
            supersedes: Vec::new(),
            on: None,
            on_insisted: false,
        }
    }

    /// Something in place of other entries.
    pub(crate) fn instead_of(about: Uuid, happening: Happening, supersedes: Vec<Uuid>) -> Self {
        Self {
            about,
            happening,
            supersedes,
            on: None,
            on_insisted: false,
        }
    }

    /// The same on a day that the maker says.
    pub(crate) fn on(mut self, day: String) -> Self {
        self.on = Some(day);
        self
    }

    /// The same, with whether the maker insisted on the day.
    pub(crate) fn really(mut self, insisted: bool) -> Self {
        self.on_insisted = insisted;
        self
    }
}

/// Pages fewer bytes than this are gathered into one at the start.
const SMALL_PAGE: usize = 64 << 10;
/// How many small pages make gathering worth while.
const MANY_PAGES: usize = 64;
/// From so many entries on, folding all anew is no dearer than adding one after the other.
const MANY_ENTRIES: usize = 64;

/// What a record takes in memory, as a multiple of its text.
const ROOM_PER_BYTE: usize = 2;

/// Asks the browser for memory in one go: bit by bit it takes as long as the reading itself. Where there
/// is none to be had so, it is asked for as it is needed.
fn make_room(bytes: usize) {
    let mut room: Vec<u8> = Vec::new();
    if room.try_reserve_exact(bytes).is_ok() {
        std::hint::black_box(&room);
    }
}

impl Record {
    /// An empty record of a device.
    pub(crate) fn new(by: String, store: Option<Store>) -> Self {
        Self {
            notebook: Notebook::new(),
            book: Book::default(),
            author: Author { by },
            step: 0,
            seq: 0,
            store,
            last_page: None,
            unsaved: Unsaved::default(),
            damaged_pages: 0,
        }
    }

    /// The entries.
    pub(crate) fn notebook(&self) -> &Notebook {
        &self.notebook
    }

    /// The state of everything.
    pub(crate) fn book(&self) -> &Book {
        &self.book
    }

    /// The device's short name.
    pub(crate) fn by(&self) -> &str {
        &self.author.by
    }

    /// Where it is kept; `None` where this browser keeps nothing.
    pub(crate) fn store(&self) -> Option<Store> {
        self.store.clone()
    }

    /// Pages with something that can't be read.
    pub(crate) fn damaged_pages(&self) -> usize {
        self.damaged_pages
    }

    /// Takes in pages of the store; true if there was anything new.
    pub(crate) fn take_in(&mut self, pages: &Pages) -> bool {
        let bytes: usize = pages.pages.iter().map(|page| page.lines.len()).sum();
        let many = bytes >= SMALL_PAGE;
        if many {
            make_room(bytes.saturating_mul(ROOM_PER_BYTE));
        }
        let mut new = 0;
        for page in &pages.pages {
            new += match many {
                true => self.add_all(page),
                false => {
                    let mut arrived = Vec::new();
                    self.read_entries(page, |_, entry| arrived.push(entry));
                    self.merge(arrived).new
                }
            };
        }
        if many {
            self.book = self.notebook.fold();
        }
        self.damaged_pages += pages.unreadable.len();
        self.last_page = pages.last_key().or(self.last_page);
        new > 0
    }

    /// Adds the entries of a page, one as it is read, that are not folded yet; how many were new.
    fn add_all(&mut self, page: &Page) -> usize {
        let mut new = 0;
        self.read_entries(page, |record, entry| {
            record.count(&entry);
            new += usize::from(record.notebook.add(entry) == Added::New);
        });
        new
    }

    /// Reads a page; one with a line that can't be read is noted.
    fn read_entries(&mut self, page: &Page, mut each: impl FnMut(&mut Self, Entry)) {
        let limits = Limits::default();
        // Bytes that are no text spoil their own line. To look first takes a fraction of the time.
        let text = match std::str::from_utf8(&page.lines) {
            Ok(text) => Cow::Borrowed(text),
            Err(_) => String::from_utf8_lossy(&page.lines),
        };
        let mut whole = true;
        for line in text.lines().filter(|line| !line.is_empty()) {
            match Entry::from_kept(line, &limits) {
                Ok(entry) => each(self, entry),
                Err(_) => whole = false,
            }
        }
        self.damaged_pages += usize::from(!whole);
    }

    /// Notes a page of one's own. False where pages of other windows lie before it that were not read:
    /// they have to be caught up with.
    fn wrote(&mut self, key: PageKey) -> bool {
        let next = self.last_page.map_or(1.0, |last| last.number() + 1.0);
        let follows = key.number() <= next;
        if follows {
            self.last_page = Some(key);
        }
        follows
    }

    /// Adds entries, and folds what they change.
    pub(crate) fn merge(&mut self, entries: Vec<Entry>) -> Merged {
        if entries.len() >= MANY_ENTRIES {
            return self.merge_many(entries, None);
        }
        let mut appended = true;
        let mut merged = Merged::default();
        for entry in entries {
            self.count(&entry);
            if appended && self.notebook.entry(entry.id).is_none() {
                appended = self.book.append(&entry);
            }
            let one = self.notebook.merge([entry]);
            merged.new += one.new;
            merged.already_here += one.already_here;
            appended &= one.altered.is_empty();
            merged.altered.extend(one.altered);
        }
        if !appended {
            self.book = self.notebook.fold();
        }
        merged
    }

    /// Adds entries whose fold with the record is known, or else is made.
    fn merge_many(&mut self, entries: Vec<Entry>, after: Option<Book>) -> Merged {
        let merged = self.add(entries);
        self.book = after.unwrap_or_else(|| self.notebook.fold());
        merged
    }

    /// Adds entries that are not folded yet.
    fn add(&mut self, entries: Vec<Entry>) -> Merged {
        entries.iter().for_each(|entry| self.count(entry));
        self.notebook.merge(entries)
    }

    fn count(&mut self, entry: &Entry) {
        self.step = self.step.max(entry.step);
        if entry.by == self.author.by {
            self.seq = self.seq.max(entry.seq);
        }
    }

    /// The next mark of this device; `taken` are marks given out but not yet in the record.
    pub(crate) fn next_mark(&self, taken: &[String]) -> String {
        self.notebook
            .next_mark(&self.author.by, taken)
            .map_or_else(|_| String::new(), |mark| mark.to_string())
    }

    /// The entries that deeds make; an error names what can't be written down.
    fn entries(
        &self,
        deeds: &[Deed],
        ids: &[Uuid],
        now: &clock::Now,
        seq: u64,
    ) -> Result<Vec<Entry>, String> {
        let mut entries = Vec::with_capacity(deeds.len());
        for (n, (deed, id)) in (0_u64..).zip(deeds.iter().zip(ids)) {
            let day = deed.on.as_deref().unwrap_or(&now.day);
            let moment = Moment {
                id: *id,
                seq: seq + n,
                step: self.step + 1 + n,
                on: date(day).ok_or_else(|| format!("“{day}” is not a day."))?,
                on_insisted: deed.on_insisted,
                at: now.at.clone(),
            };
            let (happening, supersedes) = (deed.happening.clone(), deed.supersedes.clone());
            let made = self
                .author
                .correction(moment, deed.about, happening, supersedes);
            entries.push(made.map_err(|why| why.error.to_string())?);
        }
        Ok(entries)
    }
}

impl App {
    /// Writes deeds down, in one transaction with the dropping of the draft that they came from.
    /// Returns the ids of the entries once they are kept. Where the store fails they are in memory, the
    /// screen says so, and the ids are returned all the same; what can't be written down at all gives
    /// none, and the draft stays.
    pub(crate) async fn write(self, deeds: Vec<Deed>, draft: Option<String>) -> Vec<Uuid> {
        let now = clock::now();
        let mut ids = Vec::with_capacity(deeds.len());
        for _ in &deeds {
            match clock::random_bytes16() {
                Ok([ten @ .., _, _, _, _, _, _]) => ids.push(uuid_v7(now.millis, &ten)),
                Err(why) => {
                    self.saving.set(Saving::Failed(why.to_string()));
                    return Vec::new();
                }
            }
        }
        // What can't be written down at all is told before anything is touched.
        let tried = self
            .record
            .with_value(|record| record.entries(&deeds, &ids, &now, 1));
        if let Err(why) = tried {
            self.say(format!("Not saved: {why}"));
            return Vec::new();
        }
        let store = self.record.with_value(Record::store);
        self.saving.set(Saving::Busy);
        let kept = match &store {
            Some(store) => {
                let mut change = Change::new();
                if let Some(draft) = &draft {
                    change = change.without_draft(draft);
                }
                let seen = self.record.with_value(|record| record.seq);
                let counter = Counter {
                    setting: "seq",
                    seen,
                    take: deeds.len() as u64,
                };
                let page = |first: u64| {
                    self.record.with_value(|record| {
                        lines(
                            &record
                                .entries(&deeds, &ids, &now, first)
                                .unwrap_or_default(),
                        )
                    })
                };
                store
                    .append_numbered(&counter, &change, page)
                    .await
                    .map_err(|why| why.to_string())
            }
            None => Err(
                "This browser keeps nothing: save the record as a file before you leave.".into(),
            ),
        };
        let mut follows = true;
        self.record.update_value(|record| {
            let first = kept.as_ref().map_or(record.seq + 1, |(_, first)| *first);
            let entries = record
                .entries(&deeds, &ids, &now, first)
                .unwrap_or_default();
            match &kept {
                Ok((key, _)) => follows = record.wrote(*key),
                Err(_) => {
                    record.unsaved.lines.push_str(&lines(&entries));
                    record.unsaved.drafts.extend(draft.clone());
                }
            }
            record.merge(entries);
        });
        match kept {
            Ok((key, _)) => {
                crate::start::tell_tabs(key);
                // The store takes writes again: what it refused before is tried once more.
                if self
                    .record
                    .with_value(|record| record.unsaved.lines.is_empty())
                {
                    self.saving.set(Saving::Saved);
                } else {
                    self.try_again();
                }
            }
            Err(why) => self.saving.set(Saving::Failed(why)),
        }
        if !follows {
            self.catch_up();
        }
        self.changed.update(|n| *n = n.wrapping_add(1));
        ids
    }

    /// Writes deeds down and says so, with an undo.
    pub(crate) fn write_and_say(
        self,
        deeds: Vec<Deed>,
        text: String,
        back_to: Option<crate::route::Route>,
    ) {
        let about: Vec<Uuid> = deeds.iter().map(|deed| deed.about).collect();
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
                    Deed::instead_of(*about, Happening::Withdrawn(Withdrawn {}), vec![*id])
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
            let store = match self.record.with_value(Record::store) {
                Some(store) => Some(store),
                None => crate::start::open_store(self.demo.get_untracked())
                    .await
                    .ok(),
            };
            let Some(store) = store else { return };
            let mut waiting = Unsaved::default();
            self.record.update_value(|record| {
                record.store = Some(store.clone());
                waiting = std::mem::take(&mut record.unsaved);
            });
            self.saving.set(Saving::Busy);
            if waiting.lines.is_empty() {
                self.catch_up();
                self.saving.set(Saving::Saved);
                return;
            }
            match store.append(&waiting.lines).await {
                Ok(key) => {
                    let mut follows = true;
                    self.record
                        .update_value(|record| follows = record.wrote(key));
                    if !follows {
                        self.catch_up();
                    }
                    for draft in &waiting.drafts {
                        store.remove_draft(draft);
                    }
                    crate::start::tell_tabs(key);
                    if self
                        .record
                        .with_value(|record| record.unsaved.lines.is_empty())
                    {
                        self.saving.set(Saving::Saved);
                    }
                }
                Err(why) => {
                    self.record.update_value(|record| {
                        waiting.lines.push_str(&record.unsaved.lines);
                        waiting.drafts.append(&mut record.unsaved.drafts);
                        record.unsaved = waiting;
                    });
                    self.saving.set(Saving::Failed(why.to_string()));
                }
            }
        });
    }

    /// Adds the entries of a file, as one page. `after` is the state of everything with them in it, and
    /// the count of changes at which that was worked out. Says how it went.
    pub(crate) async fn bring_in(
        self,
        entries: Vec<Entry>,
        after: Option<(u32, Book)>,
    ) -> Result<Merged, String> {
        let fresh: Vec<Entry> = self.record.with_value(|record| {
            let known = |entry: &Entry| record.notebook.entry(entry.id) == Some(entry);
            entries.into_iter().filter(|entry| !known(entry)).collect()
        });
        if fresh.is_empty() {
            return Ok(Merged::default());
        }
        let page = lines(&fresh);
        let store = self.record.with_value(Record::store);
        let kept = match &store {
            Some(store) => store.append(&page).await.map_err(|why| why.to_string()),
            None => Err("This browser keeps nothing.".into()),
        };
        let (mut merged, mut follows) = (Merged::default(), true);
        self.record.update_value(|record| {
            if let Ok(key) = &kept {
                follows = record.wrote(*key);
            } else {
                record.unsaved.lines.push_str(&page);
            }
            // What was written down since is not in it.
            let now = self.changed.get_untracked();
            let after = after.filter(|(changed, _)| *changed == now);
            merged = record.merge_many(fresh, after.map(|(_, book)| book));
        });
        if !follows {
            self.catch_up();
        }
        self.changed.update(|n| *n = n.wrapping_add(1));
        match kept {
            Ok(key) => {
                crate::start::tell_tabs(key);
                // What came out of a file is in a file.
                self.note_brought_in(merged.new);
                Ok(merged)
            }
            Err(why) => {
                self.saving.set(Saving::Failed(why.clone()));
                Err(why)
            }
        }
    }

    /// Reads what other tabs have written, by and by.
    pub(crate) fn catch_up(self) {
        spawn_local(self.catch_up_now());
    }

    /// Reads what other tabs have written.
    pub(crate) async fn catch_up_now(self) {
        let (store, last) = self
            .record
            .with_value(|record| (record.store(), record.last_page));
        let Some(store) = store else { return };
        let pages = match last {
            Some(last) => store.read_since(last).await,
            None => store.read_all().await,
        };
        match pages {
            Ok(pages) => {
                let mut news = false;
                self.record
                    .update_value(|record| news = record.take_in(&pages));
                if news {
                    self.changed.update(|n| *n = n.wrapping_add(1));
                }
            }
            Err(why) => leptos::logging::warn!("other windows' entries can't be read: {why}"),
        }
    }
}

/// Gathers many small pages into one, once the app stands.
pub(crate) async fn gather(store: &Store, pages: &Pages) {
    let small: Vec<_> = pages
        .pages
        .iter()
        .filter(|page| page.lines.len() < SMALL_PAGE)
        .collect();
    if small.len() < MANY_PAGES {
        return;
    }
    let mut lines = Vec::new();
    for page in &small {
        lines.extend_from_slice(&page.lines);
    }
    let keys: Vec<PageKey> = small.iter().map(|page| page.key).collect();
    // Not text: something is damaged, so the pages stay as they are.
    let Ok(lines) = String::from_utf8(lines) else {
        return;
    };
    if let Err(why) = store.compact(&keys, &lines).await {
        leptos::logging::warn!("the pages stay as they are: {why}");
    }
}
