//! What the record says of devices: the names that the maker gave, identities that followed one another, and
//! the signs that begin their marks.

use crate::record::log::{DeviceRenamed, sign_of};
use crate::record::log::{Entry, Mark};
use crate::record::state::Book;
use std::collections::{BTreeMap, BTreeSet};

/// A sign that begins marks given by several devices.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SharedSign {
    /// The sign.
    pub sign: String,
    /// The devices' identities, in order. All but the first should take another sign.
    pub devices: Vec<String>,
}

impl Book {
    /// What the maker calls a device.
    pub fn device_name(&self, by: &str) -> Option<&str> {
        self.devices.names.get(by).map(String::as_str)
    }

    /// The identities that a device had before this one.
    pub fn device_was(&self, by: &str) -> impl Iterator<Item = &str> {
        let before = self.devices.formerly.get(by);
        before.into_iter().flatten().map(String::as_str)
    }

    /// A device as it is shown: by its name, or by the sign of its marks.
    pub fn device_shown<'a>(&'a self, by: &'a str) -> &'a str {
        self.device_name(by).unwrap_or_else(|| sign_of(by))
    }

    /// Every sign that begins a mark.
    pub fn signs_taken(&self) -> BTreeSet<String> {
        self.devices.signs.keys().cloned().collect()
    }

    /// Signs that begin marks given by more than one device, identities that followed one another on one
    /// device counted as one. A device of the first version had no identity but its sign: that one and a
    /// later one with the same sign are taken for one device that was brought up to date.
    pub fn shared_signs(&self) -> Vec<SharedSign> {
        let shared = |(sign, devices): (&String, &BTreeSet<String>)| {
            let older: BTreeSet<&str> = devices.iter().flat_map(|by| self.device_was(by)).collect();
            let now: Vec<String> = devices
                .iter()
                .filter(|by| !older.contains(by.as_str()) && by.as_str() != sign)
                .cloned()
                .collect();
            (now.len() > 1).then(|| SharedSign {
                sign: sign.clone(),
                devices: now,
            })
        };
        self.devices.signs.iter().filter_map(shared).collect()
    }
}

/// What the record says of devices.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Devices {
    names: BTreeMap<String, String>,
    formerly: BTreeMap<String, BTreeSet<String>>,
    /// By sign, the devices that gave marks with it.
    signs: BTreeMap<String, BTreeSet<String>>,
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
        for text in entry.happening.marks() {
            // A child's mark is its parent's with something after it: whoever cut it did not choose its sign.
            if let Ok(mark) = Mark::parse(text) {
                let known = self.signs.get_mut(&mark.device());
                match known {
                    Some(devices) if devices.contains(&entry.by) => {}
                    Some(devices) => {
                        devices.insert(entry.by.clone());
                    }
                    None => {
                        let devices = BTreeSet::from([entry.by.clone()]);
                        self.signs.insert(mark.device(), devices);
                    }
                }
            }
        }
    }
}
