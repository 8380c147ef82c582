//! The running numbers that each device used: a gap shows a file that is missing, a repeat a cloned device.

use crate::order;
use crate::record::log::Entry;
use crate::record::log::id::Id;
use std::collections::BTreeMap;

/// The running numbers of all devices with their entries, in whatever order they came.
#[derive(Debug, Clone, Default)]
pub(crate) struct Numbers(BTreeMap<String, Vec<(u64, Id)>>);

impl Numbers {
    /// Notes an entry's running number, where it is one that a shop reaches.
    pub(crate) fn note(&mut self, entry: &Entry) {
        if !entry.has_damaged_numbering() {
            self.add(&entry.by, entry.seq, entry.id);
        }
    }

    fn add(&mut self, by: &str, seq: u64, id: Id) {
        match self.0.get_mut(by) {
            Some(device) => device.push((seq, id)),
            None => {
                self.0.insert(by.to_owned(), vec![(seq, id)]);
            }
        }
    }

    /// Each device's numbers in their order.
    pub(crate) fn sorted(&self) -> impl Iterator<Item = (&str, Vec<(u64, Id)>)> {
        self.0.iter().map(|(by, seen)| {
            let mut seen = seen.clone();
            order::sort(&mut seen);
            seen.dedup();
            (by.as_str(), seen)
        })
    }
}

impl PartialEq for Numbers {
    fn eq(&self, other: &Self) -> bool {
        self.sorted().eq(other.sorted())
    }
}
