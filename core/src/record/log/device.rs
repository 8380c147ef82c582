//! Devices: an identity that two of them don't share by chance, and the sign that begins their marks.
//!
//! A device's identity is what entries carry as `by`. It begins with the sign, so that old and new read
//! alike; the ten letters after it make it out of sixty million million. Devices of the first version had
//! the sign alone.

use crate::record::log::mark;
use crate::record::log::mark::{LETTERS, SECONDS};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

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

const _: () = assert!(LETTERS.len() < SECONDS.len());

#[cfg(test)]
mod tests {
    use super::*;
    use stillwood_tests::dice::Dice;

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
        let mut dice = Dice::of_seed(7);
        for _ in 0..4_000 {
            let random = std::array::from_fn(|_| dice.any() as u8);
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
