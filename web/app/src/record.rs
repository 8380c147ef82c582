//! The record in memory: entries are made here and merged here. Where they are kept is the shell's business.

use crate::effect::NewEvent;
use crate::model::Now;
use stillwood_core::record::{
    Added, DeviceId, Entry, EventMeta, Id, LARGEST_NUMBER, Log, Merged, State, WrittenEntry, date,
};

/// Who this device is in the record.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Device {
    /// Its name in entries, as `K7-4R9WXHPE2A`.
    pub id: String,
    /// What begins its marks, as `K7`.
    pub sign: String,
}

/// The record in memory.
#[derive(Default)]
pub struct Record {
    log: Log,
    state: State,
    device: Device,
    step: u64,
    seq: u64,
    own: u64,
    changes: u64,
}

/// A state with entries that are to come, and how many changes the record had seen when it was folded.
#[derive(Debug)]
pub struct Folded {
    state: State,
    changes: u64,
}

/// From so many entries on, folding all anew is no dearer than adding one after the other.
const MANY_ENTRIES: usize = 64;

impl Record {
    /// An empty record of a device.
    pub fn new(device: Device) -> Self {
        Self {
            device,
            ..Self::default()
        }
    }

    /// The entries.
    pub fn log(&self) -> &Log {
        &self.log
    }

    /// What they say.
    pub fn state(&self) -> &State {
        &self.state
    }

    /// Counts up with every change: what is worked out of a whole record is kept until then.
    pub fn changes(&self) -> u64 {
        self.changes
    }

    /// The device.
    pub fn device(&self) -> &Device {
        &self.device
    }

    /// How many entries of its own the record holds, and their highest running number.
    pub fn own_entries(&self) -> (u64, u64) {
        (self.own, self.seq)
    }

    /// Takes another identity: what is written from here on is numbered from 1.
    pub fn becomes(&mut self, device: Device) {
        self.device = device;
        let own = self
            .log
            .everything()
            .filter(|entry| entry.by == self.device.id);
        (self.own, self.seq) = own.fold((0, 0), |(own, seq), entry| (own + 1, entry.seq.max(seq)));
    }

    /// Adds an entry that is not folded yet; true if it is new.
    pub fn add(&mut self, entry: Entry) -> bool {
        self.count(&entry);
        self.log.add(entry) == Added::New
    }

    /// Folds all anew.
    pub fn fold(&mut self) {
        self.state = State::project(&self.log);
        self.changes += 1;
    }

    /// Adds entries, and folds what they change.
    pub fn merge(&mut self, entries: Vec<Entry>) -> Merged {
        if entries.len() >= MANY_ENTRIES {
            entries.iter().for_each(|entry| self.count(entry));
            let merged = self.log.merge(entries);
            self.fold();
            return merged;
        }
        self.changes += 1;
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
            self.fold();
        }
        merged
    }

    /// Adds entries whose fold with the record was made before; all is folded anew where the record has changed since.
    pub fn merge_folded(&mut self, entries: Vec<Entry>, after: Option<Folded>) -> Merged {
        let Some(after) = after.filter(|after| after.changes == self.changes) else {
            return self.merge(entries);
        };
        entries.iter().for_each(|entry| self.count(entry));
        self.state = after.state;
        self.changes += 1;
        self.log.merge(entries)
    }

    /// A state that was folded from the record as it is now and entries that are to come.
    pub fn folded(&self, state: State) -> Folded {
        Folded {
            state,
            changes: self.changes,
        }
    }

    fn count(&mut self, entry: &Entry) {
        // A step that no shop reaches moves nobody's clock.
        if !entry.has_damaged_numbering() {
            self.step = self.step.max(entry.step);
        }
        if entry.by == self.device.id {
            self.seq = self.seq.max(entry.seq);
            self.own += u64::from(self.log.entry(entry.id).is_none());
        }
    }

    /// The entries that events make, one of each, with running numbers from `first` on.
    ///
    /// # Errors
    /// Why one can't be written down, in the maker's words.
    pub fn entries(
        &self,
        events: &[NewEvent],
        ids: &[Id],
        now: &Now,
        first: u64,
    ) -> Result<Vec<WrittenEntry>, String> {
        let mut entries = Vec::with_capacity(events.len());
        for (n, (event, id)) in (0_u64..).zip(events.iter().zip(ids)) {
            entries.push(self.entry(event, *id, now, first, n)?);
        }
        Ok(entries)
    }

    fn entry(
        &self,
        new: &NewEvent,
        id: Id,
        now: &Now,
        first: u64,
        n: u64,
    ) -> Result<WrittenEntry, String> {
        let today = || date(&now.day).ok_or_else(|| format!("“{}” is not a day.", now.day));
        let seq = first.checked_add(n).filter(|n| *n <= LARGEST_NUMBER);
        // A clock that others pushed to its end stands there: what is written still counts.
        let step = self.step.saturating_add(1).saturating_add(n);
        let meta = EventMeta {
            id,
            seq: seq.ok_or("This device has no numbers left for entries.")?,
            step: step.min(LARGEST_NUMBER),
            on: new.on.map_or_else(today, Ok)?,
            on_confirmed: new.on_confirmed,
            at: now.at.clone(),
        };
        let by = DeviceId {
            by: self.device.id.clone(),
        };
        by.write(meta, new.about, new.event.clone(), new.supersedes.clone())
            .map_err(|why| why.error.to_string())
    }
}
