//! A record: entries by id, and the merging of two records, which is set union.
//!
//! Merging is commutative, associative and idempotent. Two different entries under one id are damage:
//! both are kept aside, neither is in force, and nothing is silently chosen.

use super::by_id::ById;
use super::entry::LARGEST_NUMBER;
use super::{Book, Entry, Happening, Header, Mark, MarkError, Selection, fold, write};
use crate::order;
use std::collections::{BTreeMap, BTreeSet, btree_map};
use uuid::Uuid;

/// A record.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Notebook {
    entries: ById<Entry>,
    /// Ids under which different entries came, with all of them, ordered by their text.
    damaged: BTreeMap<Uuid, Vec<Entry>>,
}

/// What adding one entry did.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Added {
    /// It is new.
    New,
    /// It is here already.
    AlreadyHere,
    /// Another entry is here under its id: both are set aside.
    Altered,
}

/// What a merge did.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Merged {
    /// Entries that were new.
    pub new: usize,
    /// Entries that were here already.
    pub already_here: usize,
    /// Ids under which a different entry came.
    pub altered: Vec<Uuid>,
}

impl Notebook {
    /// An empty record.
    pub fn new() -> Self {
        Self::default()
    }

    /// How many entries are in the record, those set aside left out.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether there is nothing at all.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty() && self.damaged.is_empty()
    }

    /// The entries by id, those set aside left out.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.entries.values()
    }

    /// An entry.
    pub fn entry(&self, id: Uuid) -> Option<&Entry> {
        self.entries.get(&id)
    }

    /// Entries set aside because different ones came under one id.
    pub fn damaged(&self) -> &BTreeMap<Uuid, Vec<Entry>> {
        &self.damaged
    }

    /// Everything, those set aside as well: what a file of the whole record holds.
    pub fn everything(&self) -> impl Iterator<Item = &Entry> {
        self.entries.values().chain(self.damaged.values().flatten())
    }

    /// Adds an entry.
    pub fn add(&mut self, entry: Entry) -> Added {
        let id = entry.id;
        if !self.damaged.is_empty()
            && let Some(variants) = self.damaged.get_mut(&id)
        {
            if variants.iter().any(|one| one.says_the_same(&entry)) {
                return Added::AlreadyHere;
            }
            variants.push(entry);
            order::sort_by_key(variants, Entry::to_line);
            return Added::Altered;
        }
        match self.entries.entry(id) {
            btree_map::Entry::Vacant(place) => {
                place.insert(entry);
                Added::New
            }
            btree_map::Entry::Occupied(here) if here.get().says_the_same(&entry) => {
                Added::AlreadyHere
            }
            btree_map::Entry::Occupied(here) => {
                let mut variants = vec![here.remove(), entry];
                order::sort_by_key(&mut variants, Entry::to_line);
                self.damaged.insert(id, variants);
                Added::Altered
            }
        }
    }

    /// Adds the entries of another record, or of a file.
    pub fn merge(&mut self, entries: impl IntoIterator<Item = Entry>) -> Merged {
        let mut merged = Merged::default();
        let mut altered = BTreeSet::new();
        for entry in entries {
            let id = entry.id;
            match self.add(entry) {
                Added::New => merged.new += 1,
                Added::AlreadyHere => merged.already_here += 1,
                Added::Altered => {
                    altered.insert(id);
                }
            }
        }
        merged.altered = altered.into_iter().collect();
        merged
    }

    /// The step for the next entry: one more than the highest seen.
    pub fn next_step(&self) -> u64 {
        let highest = self.everything().map(|entry| entry.step).max();
        highest.map_or(1, |step| (step + 1).min(LARGEST_NUMBER))
    }

    /// The running number for a device's next entry: one more than its highest seen.
    pub fn next_seq(&self, by: &str) -> u64 {
        let own = self.everything().filter(|entry| entry.by == by);
        let highest = own.map(|entry| entry.seq).max();
        highest.map_or(1, |seq| (seq + 1).min(LARGEST_NUMBER))
    }

    /// The state of everything.
    pub fn fold(&self) -> Book {
        let mut book = fold(self.entries.values());
        book.count_damaged(self.damaged.values().flatten());
        book
    }

    /// The next mark of a device, above every number that it has given out: in the record, also to
    /// planks that were taken back (their mark may stand on the wood), and to `half_typed` planks that
    /// are not in it yet.
    ///
    /// # Errors
    /// If the device's name is not one of ours, or no number is left.
    pub fn next_mark(&self, by: &str, half_typed: &[String]) -> Result<Mark, MarkError> {
        let recorded = self.entries().flat_map(|entry| entry.happening.marks());
        let own = |text: &str| {
            let mark = Mark::parse(text).ok()?;
            (mark.device() == by).then(|| mark.number())
        };
        let highest = recorded
            .chain(half_typed.iter().map(String::as_str))
            .filter_map(own)
            .max();
        Mark::next(by, highest.unwrap_or(0))
    }

    /// The whole record as a file. `app` and `written` are remarks.
    pub fn to_file(&self, app: &str, written: &str) -> String {
        write(
            &Header::new(app, written, Selection::Whole),
            self.everything(),
        )
    }

    /// One visit as a file: its piles, their pieces, all that is said about them, and the maker's own
    /// woods.
    pub fn visit_to_file(&self, visit: Uuid, app: &str, written: &str) -> String {
        let book = self.fold();
        let mut about = BTreeSet::from([visit]);
        let mine = |pile: &&super::Pile| pile.opened.visit == visit;
        about.extend(book.piles.values().filter(mine).map(|pile| pile.id));
        for piece in book
            .pieces
            .values()
            .filter(|p| about.contains(&p.pile))
            .collect::<Vec<_>>()
        {
            about.insert(piece.id);
            about.extend(&piece.also);
        }
        let wood = |id: &&Uuid| !book.visits.contains_key(id) && !book.piles.contains_key(id);
        about.extend(book.begun.keys().filter(wood));
        let wanted = |entry: &&Entry| match &entry.happening {
            Happening::Told(told) => about.contains(&entry.about) || about.contains(&told.other),
            _ => about.contains(&entry.about),
        };
        let header = Header::new(app, written, Selection::Visit);
        write(&header, self.everything().filter(wanted))
    }
}

impl Book {
    /// Entries set aside say nothing, but their running numbers are not missing.
    pub(super) fn count_damaged<'a>(&mut self, entries: impl IntoIterator<Item = &'a Entry>) {
        for entry in entries {
            self.numbers.note(&entry.by, entry.seq, entry.id);
        }
    }
}
