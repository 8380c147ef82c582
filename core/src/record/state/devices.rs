//! What the record says of devices: the names that the maker gave, identities that followed one another, and
//! the signs that begin their marks.

use crate::record::log::{DeviceRenamed, Entry, Mark};
use std::collections::{BTreeMap, BTreeSet};

/// What the record says of devices.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Devices {
    pub(crate) names: BTreeMap<String, String>,
    pub(crate) formerly: BTreeMap<String, BTreeSet<String>>,
    /// By sign, the devices that gave marks with it.
    pub(crate) signs: BTreeMap<String, BTreeSet<String>>,
}

impl Devices {
    pub(crate) fn rename(&mut self, renamed: &DeviceRenamed) {
        if !renamed.name.trim().is_empty() {
            self.names.insert(renamed.by.clone(), renamed.name.clone());
        }
        let before = self.formerly.entry(renamed.by.clone()).or_default();
        before.extend(
            renamed
                .formerly
                .iter()
                .filter(|by| **by != renamed.by)
                .cloned(),
        );
    }

    /// Notes the signs that a device gave marks with.
    pub(crate) fn note_marks(&mut self, entry: &Entry) {
        for text in entry.event.marks() {
            // A child's mark is its parent's with something after it: whoever cut it did not choose its sign.
            if let Ok(mark) = Mark::parse(text) {
                let known = self.signs.get_mut(&mark.device());
                match known {
                    Some(devices) if devices.contains(&entry.by) => {}
                    Some(devices) => {
                        devices.insert(entry.by.clone());
                    }
                    None => {
                        let devices = crate::order::set_of([entry.by.clone()]);
                        self.signs.insert(mark.device(), devices);
                    }
                }
            }
        }
    }
}
