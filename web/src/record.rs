//! The record in memory and its keeping: entries are made here, written to the store, and only then
//! said to be saved. It decides nothing about wood.

mod again;
mod deed;
mod keep;
mod second_copy;
#[cfg(test)]
mod tests;

pub(crate) use deed::Deed;

use crate::identity::Device;
use crate::shell::clock;
use crate::shell::store::{Damage, Page, PageKey, Pages, Place, Store, StoreError};

use std::collections::{BTreeMap, BTreeSet};
use stillwood_core::record::Id;
use stillwood_core::record::{
    Added, DeviceId, Entry, EventMeta, LARGEST_NUMBER, Limits, Log, Merged, State, WrittenEntry,
    date,
};

/// The record in memory.
pub(crate) struct Record {
    log: Log,
    state: State,
    device: Device,
    author: DeviceId,
    /// Highest step and own running number seen.
    step: u64,
    seq: u64,
    /// Entries of this device's own.
    own: u64,
    store: Option<Store>,
    /// What is in memory only.
    unsaved: Unsaved,
    /// What can't be read, with its bytes where it is a line of a page: it is left as it is.
    damage: BTreeMap<Damage, Vec<u8>>,
    /// Pages worth gathering.
    small_pages: BTreeSet<PageKey>,
}

/// Entries that the store refused, and the drafts that they came from.
#[derive(Debug, Clone, Default)]
struct Unsaved {
    lines: String,
    drafts: Vec<String>,
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

/// The page of entries that were just made: their lines as they were checked.
fn page_of(written: &[WrittenEntry]) -> String {
    let lines = written.iter().flat_map(|one| [one.line(), "\n"]);
    lines.collect()
}

/// A line of a page: an entry, or why it is none.
fn read_line(line: &[u8], limits: &Limits) -> Result<Entry, String> {
    let text = std::str::from_utf8(line).map_err(|why| format!("it is no text ({why})"))?;
    Entry::from_kept(text, limits).map_err(|why| why.error.to_string())
}

/// The lines of a page with their numbers, from 1; empty ones left out.
fn lines_of(page: &[u8]) -> impl Iterator<Item = (usize, &[u8])> {
    let lines = page.split(|byte| *byte == b'\n').zip(1..);
    lines.filter_map(|(line, number)| (!line.is_empty()).then_some((number, line)))
}

/// Whether every line of a page is an entry.
fn is_whole(page: &[u8]) -> bool {
    let limits = Limits::default();
    lines_of(page).all(|(_, line)| read_line(line, &limits).is_ok())
}

impl Record {
    /// An empty record of a device.
    pub(crate) fn new(device: Device, store: Option<Store>) -> Self {
        let by = device.id.clone();
        Self {
            device,
            log: Log::new(),
            state: State::default(),
            author: DeviceId { by },
            step: 0,
            seq: 0,
            own: 0,
            store,
            unsaved: Unsaved::default(),
            damage: BTreeMap::new(),
            small_pages: BTreeSet::new(),
        }
    }

    /// The entries.
    pub(crate) fn log(&self) -> &Log {
        &self.log
    }

    /// The state of everything.
    pub(crate) fn state(&self) -> &State {
        &self.state
    }

    /// The device's name in entries.
    pub(crate) fn by(&self) -> &str {
        &self.author.by
    }

    /// The device's identity.
    pub(crate) fn device(&self) -> &Device {
        &self.device
    }

    /// Takes another identity: what is written from here on is numbered from 1.
    pub(crate) fn becomes(&mut self, device: Device) {
        self.author.by.clone_from(&device.id);
        self.device = device;
        let own = |entry: &&Entry| entry.by == self.author.by;
        (self.own, self.seq) = self
            .log
            .everything()
            .filter(own)
            .fold((0, 0), |(own, seq), entry| (own + 1, entry.seq.max(seq)));
    }

    /// How many entries of its own the record holds, and their highest running number.
    pub(crate) fn own_entries(&self) -> (u64, u64) {
        (self.own, self.seq)
    }

    /// Where it is kept; `None` where this browser keeps nothing.
    pub(crate) fn store(&self) -> Option<Store> {
        self.store.clone()
    }

    /// What the store holds and nobody can read: pages, drafts, settings.
    pub(crate) fn damage(&self) -> impl Iterator<Item = &Damage> {
        self.damage.keys()
    }

    /// Pages with something that can't be read.
    pub(crate) fn damaged_pages(&self) -> usize {
        let page = |damage: &Damage| match damage.place {
            Place::Page(key) => Some(key),
            Place::Draft(_) | Place::Setting(_) => None,
        };
        let pages: BTreeSet<PageKey> = self.damage().filter_map(page).collect();
        pages.len()
    }

    /// Takes note of what can't be read.
    pub(crate) fn note_damage(&mut self, damage: impl IntoIterator<Item = Damage>) {
        let none = damage.into_iter().map(|damage| (damage, Vec::new()));
        self.damage.extend(none);
    }

    /// Takes in pages of the store; true if there was anything new.
    pub(crate) fn take_in(&mut self, pages: &Pages) -> bool {
        let bytes: usize = pages.pages.iter().map(|page| page.lines.len()).sum();
        let many = bytes >= SMALL_PAGE;
        let new = self.take_some_in(pages, many);
        if many {
            self.fold();
        }
        new > 0
    }

    /// Folds all anew.
    pub(crate) fn fold(&mut self) {
        self.state = State::project(&self.log);
    }

    /// Takes in pages of the store that are folded later where they are `many`; how many entries were new.
    pub(crate) fn take_some_in(&mut self, pages: &Pages, many: bool) -> usize {
        if many {
            let bytes: usize = pages.pages.iter().map(|page| page.lines.len()).sum();
            make_room(bytes.saturating_mul(ROOM_PER_BYTE));
        }
        let mut new = 0;
        for page in &pages.pages {
            let damaged = self.damage.len();
            new += match many {
                true => self.add_all(page),
                false => {
                    let mut arrived = Vec::new();
                    self.read_entries(page, |_, entry| arrived.push(entry));
                    self.merge(arrived).new
                }
            };
            if page.lines.len() < SMALL_PAGE && self.damage.len() == damaged {
                self.small_pages.insert(page.key);
            }
        }
        let odd = pages.unreadable.iter().map(|(key, _)| *key);
        self.note_damage(odd.map(|key| Damage::of(Place::Page(key), "it holds no bytes")));
        new
    }

    /// Adds the entries of a page, one as it is read, that are not folded yet; how many were new.
    fn add_all(&mut self, page: &Page) -> usize {
        let mut new = 0;
        self.read_entries(page, |record, entry| {
            record.count(&entry);
            new += usize::from(record.log.add(entry) == Added::New);
        });
        new
    }

    /// Reads a page; a line that can't be read is noted.
    fn read_entries(&mut self, page: &Page, mut each: impl FnMut(&mut Self, Entry)) {
        let limits = Limits::default();
        for (number, line) in lines_of(&page.lines) {
            match read_line(line, &limits) {
                Ok(entry) => each(self, entry),
                Err(reason) => {
                    let damage = Damage {
                        place: Place::Page(page.key),
                        line: Some(number),
                        reason,
                    };
                    self.damage.insert(damage, line.to_vec());
                }
            }
        }
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
            if appended && self.log.entry(entry.id).is_none() {
                appended = self.state.append(&entry);
            }
            let one = self.log.merge([entry]);
            merged.new += one.new;
            merged.already_here += one.already_here;
            appended &= one.altered.is_empty();
            merged.altered.extend(one.altered);
        }
        // While it is open which of several lines is right, every entry may tell.
        if !appended || self.log.is_unsettled() {
            self.state = State::project(&self.log);
        }
        merged
    }

    /// Adds entries whose fold with the record is known, or else is made.
    fn merge_many(&mut self, entries: Vec<Entry>, after: Option<State>) -> Merged {
        let merged = self.add(entries);
        self.state = match after {
            Some(after) => after,
            None => State::project(&self.log),
        };
        merged
    }

    /// Adds entries that are not folded yet.
    fn add(&mut self, entries: Vec<Entry>) -> Merged {
        entries.iter().for_each(|entry| self.count(entry));
        self.log.merge(entries)
    }

    fn count(&mut self, entry: &Entry) {
        // A step that no shop reaches moves nobody's clock.
        if !entry.has_damaged_numbering() {
            self.step = self.step.max(entry.step);
        }
        if entry.by == self.author.by {
            self.seq = self.seq.max(entry.seq);
            self.own += u64::from(self.log.entry(entry.id).is_none());
        }
    }

    /// The next mark of this device; `taken` are marks given out but not yet in the record.
    pub(crate) fn next_mark(&self, taken: &[String]) -> String {
        match self.log.next_mark(&self.device.sign, taken) {
            Ok(mark) => mark.to_string(),
            // nothing lost: whoever asks says that there is no mark
            Err(_) => String::new(),
        }
    }

    /// The entries that deeds make, one of each; an error names what can't be written down.
    fn entries(
        &self,
        deeds: &[Deed],
        ids: &[Id],
        now: &clock::Now,
        first: u64,
    ) -> Result<Vec<WrittenEntry>, StoreError> {
        let mut entries = Vec::with_capacity(deeds.len());
        for (n, (deed, id)) in (0_u64..).zip(deeds.iter().zip(ids)) {
            let entry = self.entry(deed, *id, now, first, n);
            entries.push(entry.map_err(StoreError::NotMade)?);
        }
        Ok(entries)
    }

    fn entry(
        &self,
        deed: &Deed,
        id: Id,
        now: &clock::Now,
        first: u64,
        n: u64,
    ) -> Result<WrittenEntry, String> {
        let day = match &deed.on {
            Some(day) => day,
            None => &now.day,
        };
        let seq = first.checked_add(n).filter(|n| *n <= LARGEST_NUMBER);
        // A clock that others pushed to its end stands there: what is written still counts.
        let step = self.step.saturating_add(1).saturating_add(n);
        let moment = EventMeta {
            id,
            seq: seq.ok_or("this device has no numbers left for entries.")?,
            step: step.min(LARGEST_NUMBER),
            on: date(day).ok_or_else(|| format!("“{day}” is not a day."))?,
            on_confirmed: deed.on_confirmed,
            at: now.at.clone(),
        };
        let (event, supersedes) = (deed.event.clone(), deed.supersedes.clone());
        self.author
            .write(moment, deed.about, event, supersedes)
            .map_err(|why| why.error.to_string())
    }
}
