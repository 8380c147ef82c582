//! Devices: an identity that two of them don't share by chance, the sign that begins their marks, and the
//! name that the maker gives.
//!
//! A device's identity is what entries carry as `by`. It begins with the sign, so that old and new read
//! alike; the ten letters after it make it out of sixty million million. Devices of the first version had
//! the sign alone.

use super::mark::{self, LETTERS, SECONDS};
use super::{Book, Entry, Mark};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// Signs after the dash of an identity.
const RANDOM_SIGNS: usize = 10;

/// A device gets another name. `about` is the device's own thing of that name, new with each entry.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct DeviceRenamed {
    /// Its identity.
    pub by: String,
    /// Identities that it had before.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub formerly: Vec<String>,
    /// What the maker calls it; empty is as it was.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
}

/// An identity for a device whose marks begin with `sign`, out of random bytes that are passed in.
pub fn device_identity(sign: &str, random: &[u8; RANDOM_SIGNS]) -> String {
    let of_letters = |byte: &u8| char::from(SECONDS[usize::from(*byte) % SECONDS.len()]);
    let tail: String = random.iter().map(of_letters).collect();
    format!("{sign}-{tail}")
}

/// The sign that begins the marks of a device, as its identity tells it; a device may have taken another
/// since.
pub fn sign_of(identity: &str) -> &str {
    identity.split_once('-').map_or(identity, |(sign, _)| sign)
}

/// A sign that none of `taken` is, chosen by a random number that is passed in; `None` where all are taken.
pub fn free_sign(taken: &BTreeSet<String>, random: u32) -> Option<String> {
    (0..mark::DEVICE_NAMES)
        .map(|n| mark::device_name(random.wrapping_add(n)))
        .find(|sign| !taken.contains(sign))
}

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
pub(super) struct Devices {
    names: BTreeMap<String, String>,
    formerly: BTreeMap<String, BTreeSet<String>>,
    /// By sign, the devices that gave marks with it.
    signs: BTreeMap<String, BTreeSet<String>>,
}

impl Devices {
    pub(super) fn rename(&mut self, renamed: &DeviceRenamed) {
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
    pub(super) fn note_marks(&mut self, entry: &Entry) {
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

const _: () = assert!(LETTERS.len() < SECONDS.len());

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_identity_begins_with_its_sign() {
        let identity = device_identity("K7", &[0, 1, 2, 3, 4, 5, 6, 7, 250, 255]);
        assert_eq!(identity.len(), 13);
        assert_eq!(sign_of(&identity), "K7");
        assert_eq!(sign_of("K7"), "K7");
    }

    /// Out of more than a million, as far as draws of random bytes can show it: no two of 4,000 alike.
    #[test]
    fn identities_do_not_meet_by_chance() {
        let mut seen = BTreeSet::new();
        let mut state = 7_u64;
        for _ in 0..4_000 {
            let random = std::array::from_fn(|_| {
                state = state
                    .wrapping_mul(6_364_136_223_846_793_005)
                    .wrapping_add(1);
                (state >> 56) as u8
            });
            assert!(seen.insert(device_identity("K7", &random)));
        }
    }

    #[test]
    fn a_free_sign_is_found_as_long_as_there_is_one() {
        let mut taken = BTreeSet::new();
        for n in 0..mark::DEVICE_NAMES {
            let sign = free_sign(&taken, n * 7).unwrap();
            assert!(taken.insert(sign));
        }
        assert_eq!(free_sign(&taken, 3), None);
    }
}
