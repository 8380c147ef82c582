//! A record: entries by id, and the merging of two records, which is set union.
//!
//! Merging is commutative, associative and idempotent. Of two different entries under one id both are
//! kept, and one is in force by a rule that looks at nothing but the record ([`crate::record::log::conflict`]).

use crate::record::log::LARGEST_NUMBER;
use crate::record::log::conflict::Variants;
use crate::record::log::id::Id;
use crate::record::log::related_pieces::{begun_by, begun_in, related};
use crate::record::log::write;
use crate::record::log::{Conflict, VARIANTS_SHOWN, conflict};
use crate::record::log::{Entry, EntryIds, Event, Header, Mark, MarkError, Selection};
use std::collections::{BTreeMap, BTreeSet, btree_map};
use std::sync::OnceLock;

#[derive(Debug, Clone, Default)]
pub struct Log {
    /// Entries of which one line is here. Each lies by itself: the places that a map leaves free are small then.
    entries: BTreeMap<Id, Box<Entry>>,
    /// Ids under which different lines are here.
    variants: BTreeMap<Id, Variants>,
    /// Of each of those the line in force, and whether the maker has settled it; found when asked for.
    chosen: OnceLock<BTreeMap<Id, (String, bool)>>,
}

impl PartialEq for Log {
    fn eq(&self, other: &Self) -> bool {
        self.entries == other.entries && self.variants == other.variants
    }
}

/// What adding one entry did.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Added {
    New,
    AlreadyHere,
    /// Another entry is here under its id: both are kept, one is in force.
    Altered,
}

/// What a merge did.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Merged {
    pub new: usize,
    pub already_here: usize,
    /// Ids under which a different entry came.
    pub altered: Vec<Id>,
}

impl Log {
    /// An empty record.
    pub fn new() -> Self {
        Self::default()
    }

    /// How many entries are in the record, each id once.
    pub fn len(&self) -> usize {
        self.entries.len() + self.variants.len()
    }

    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The entries, each id once: of different lines under one id the one in force.
    pub fn entries<'a>(&'a self) -> impl Iterator<Item = &'a Entry> {
        let in_force = |(id, variants): (&Id, &'a Variants)| {
            let (line, _) = self.chosen().get(id)?;
            variants.get(line)
        };
        self.alone()
            .chain(self.variants.iter().filter_map(in_force))
    }

    /// Those of which one line is here.
    fn alone(&self) -> impl Iterator<Item = &Entry> {
        self.entries.values().map(Box::as_ref)
    }

    fn chosen(&self) -> &BTreeMap<Id, (String, bool)> {
        self.chosen.get_or_init(|| match self.variants.is_empty() {
            true => BTreeMap::new(),
            false => {
                let whole: Vec<&Entry> = self.alone().collect();
                conflict::choose(&whole, &self.variants)
            }
        })
    }

    /// An entry; of different lines under its id the one in force.
    pub fn entry(&self, id: Id) -> Option<&Entry> {
        if let Some(entry) = self.entries.get(&id) {
            return Some(entry);
        }
        let variants = self.variants.get(&id)?;
        variants.get(&self.chosen().get(&id)?.0)
    }

    /// The only entry under an id, or of several the one with this line.
    pub(crate) fn line(&self, id: Id, line: Option<&str>) -> Option<&Entry> {
        match line {
            None => self.entries.get(&id).map(Box::as_ref),
            Some(line) => self.variants.get(&id)?.get(line),
        }
    }

    /// Whether an entry with just this line is here.
    pub fn holds(&self, entry: &Entry) -> bool {
        match self.entries.get(&entry.id) {
            Some(here) => here.says_the_same(entry),
            None => self
                .variants
                .get(&entry.id)
                .is_some_and(|variants| variants.contains_key(&entry.canonical_line())),
        }
    }

    /// Ids under which different lines are here, those still to be settled first.
    pub fn conflicts(&self) -> Vec<Conflict<'_>> {
        let mut all: Vec<Conflict<'_>> = Vec::with_capacity(self.variants.len());
        for (id, variants) in &self.variants {
            let chosen = self.chosen().get(id);
            let first = chosen.and_then(|(line, _)| variants.get(line));
            let in_force = |line: &&String| chosen.is_some_and(|(chosen, _)| *line == chosen);
            let others = variants.iter().filter(|(line, _)| !in_force(line));
            let others = others.map(|(_, entry)| entry);
            all.push(Conflict {
                id: *id,
                variants: first
                    .into_iter()
                    .chain(others)
                    .take(VARIANTS_SHOWN)
                    .collect(),
                total: variants.len(),
                settled: chosen.is_some_and(|(_, settled)| *settled),
            });
        }
        crate::order::sort_by_key(&mut all, |one| (one.settled, one.id));
        all
    }

    /// Whether a conflict is still to be settled: the line in force may change with every entry.
    pub fn is_unsettled(&self) -> bool {
        !self.variants.is_empty() && self.chosen().values().any(|(_, settled)| !settled)
    }

    /// Entries whose numbering or day no shop reaches. No file brings them; an earlier version may have.
    pub fn damaged_numbering(&self) -> Vec<&Entry> {
        let damaged = |entry: &&Entry| entry.has_damaged_numbering() || entry.has_damaged_day();
        self.everything().filter(damaged).collect()
    }

    /// Everything, all lines under one id as well: what a file of the whole record holds.
    pub fn everything(&self) -> impl Iterator<Item = &Entry> {
        self.alone()
            .chain(self.variants.values().flat_map(Variants::values))
    }

    pub fn add(&mut self, entry: Entry) -> Added {
        let id = entry.id;
        if let Some(variants) = self.variants.get_mut(&id) {
            return match variants.entry(entry.canonical_line()) {
                btree_map::Entry::Occupied(_) => Added::AlreadyHere,
                btree_map::Entry::Vacant(place) => {
                    place.insert(entry);
                    self.chosen.take();
                    Added::Altered
                }
            };
        }
        match self.entries.entry(id) {
            btree_map::Entry::Vacant(place) => {
                // What stands beside them may tell which of several lines is right.
                if !self.variants.is_empty() {
                    self.chosen.take();
                }
                place.insert(Box::new(entry));
                Added::New
            }
            btree_map::Entry::Occupied(here) if here.get().says_the_same(&entry) => {
                Added::AlreadyHere
            }
            btree_map::Entry::Occupied(here) => {
                let both = [*here.remove(), entry].map(|one| (one.canonical_line(), one));
                self.variants.insert(id, crate::order::map_of(both));
                self.chosen.take();
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

    /// The step for the next entry: one more than the highest seen, and never more than may be read
    /// again. Damaged numbering does not count. It looks at every entry: for tests; the app counts as entries come.
    pub fn next_step(&self) -> u64 {
        let sound = self
            .everything()
            .filter(|entry| !entry.has_damaged_numbering());
        step_after(sound.map(|entry| entry.step).max().unwrap_or(0))
    }

    /// The running number for a device's next entry: one more than its highest seen. For tests, as [`Self::next_step`].
    pub fn next_seq(&self, by: &str) -> u64 {
        let own = self.everything().filter(|entry| entry.by == by);
        let sound = own.filter(|entry| !entry.has_damaged_numbering());
        step_after(sound.map(|entry| entry.seq).max().unwrap_or(0))
    }

    /// Lines under an id of which another is in force.
    pub(crate) fn lines_beside(&self) -> impl Iterator<Item = &Entry> {
        self.variants.values().flat_map(Variants::values)
    }

    /// The next mark that begins with a sign, above every number that was given out with it: in the
    /// record, also to planks that were taken back (their mark may stand on the wood), and to `half_typed`
    /// planks that are not in it yet. Where the highest number is taken, the lowest that is free.
    ///
    /// # Errors
    /// If the sign is not one of ours, or all numbers are taken.
    pub fn next_mark(&self, sign: &str, half_typed: &[String]) -> Result<Mark, MarkError> {
        let recorded = self.entries().flat_map(|entry| entry.event.marks());
        let own = |text: &str| {
            let mark = Mark::parse(text).ok()?;
            (mark.device() == sign).then(|| mark.number())
        };
        let taken = crate::order::set_of(
            recorded
                .chain(half_typed.iter().map(String::as_str))
                .filter_map(own),
        );
        match Mark::next(sign, taken.last().copied().unwrap_or(0)) {
            Err(MarkError::NumberTooLarge(_)) => Mark::first_free(sign, &taken),
            found => found,
        }
    }

    /// What was recorded after entries of an import and about the same things, or about what was begun of them
    /// since: what undoing it would leave without a ground.
    pub fn recorded_since(&self, brought: &EntryIds) -> Vec<&Entry> {
        let of_import = self.entries().filter(|entry| brought.contains(entry.id));
        let mut things = BTreeSet::new();
        let mut last = None;
        for entry in of_import {
            things.insert(entry.about);
            things.extend(related(&entry.event));
            last = last.max(Some(entry.order()));
        }
        let mut since: Vec<&Entry> = self
            .entries()
            .filter(|entry| !brought.contains(entry.id) && Some(entry.order()) > last)
            .filter(|entry| !matches!(entry.event, Event::ImportUndone(_)))
            .collect();
        crate::order::sort_by_key(&mut since, |entry| (entry.order(), entry.id));
        since.retain(|entry| {
            let touches = things.contains(&entry.about)
                || related(&entry.event).iter().any(|id| things.contains(id))
                || begun_in(&entry.event).is_some_and(|id| things.contains(&id))
                || entry.supersedes.iter().any(|id| brought.contains(*id));
            if touches {
                things.extend(begun_by(entry));
            }
            touches
        });
        since
    }

    /// The whole record as a file. `app` and `written` are remarks. The app writes the same bytes piece by piece; for
    /// the tests this is what they are held to.
    pub fn to_file(&self, app: &str, written: &str) -> String {
        self.to_file_by("", app, written)
    }

    /// The same, with the device that writes it.
    pub fn to_file_by(&self, device: &str, app: &str, written: &str) -> String {
        let header = Header::new(app, written, Selection::Whole).by(device);
        write(&header, self.everything())
    }
}

/// The number after the highest seen; where that is the largest there is, the largest again.
fn step_after(highest: u64) -> u64 {
    (highest + 1).min(LARGEST_NUMBER)
}
