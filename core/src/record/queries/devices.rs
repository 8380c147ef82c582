//! What the record says of devices: the names that the maker gave, identities that followed one another, and
//! the signs that begin their marks.

use crate::record::log::sign_of;
use crate::record::state::State;
use std::collections::BTreeSet;

/// A sign that begins marks given by several devices.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SharedSign {
    pub sign: String,
    /// The devices' identities, in order. All but the first should take another sign.
    pub devices: Vec<String>,
}

/// What the maker calls a device.
pub fn name_of_device<'a>(state: &'a State, by: &str) -> Option<&'a str> {
    state.devices.names.get(by).map(String::as_str)
}

/// The identities that a device had before this one.
pub fn device_was<'a>(state: &'a State, by: &str) -> impl Iterator<Item = &'a str> {
    let before = state.devices.formerly.get(by);
    before.into_iter().flatten().map(String::as_str)
}

/// A device as it is shown: by its name, or by the sign of its marks.
pub fn device_shown<'a>(state: &'a State, by: &'a str) -> &'a str {
    name_of_device(state, by).unwrap_or_else(|| sign_of(by))
}

/// Every sign that begins a mark.
pub fn signs_taken(state: &State) -> BTreeSet<String> {
    crate::order::set_of(state.devices.signs.keys().cloned())
}

/// Signs that begin marks given by more than one device, identities that followed one another on one
/// device counted as one. A device of the first version had no identity but its sign: that one and a
/// later one with the same sign are taken for one device that was brought up to date.
pub fn shared_signs(state: &State) -> Vec<SharedSign> {
    let shared = |(sign, devices): (&String, &BTreeSet<String>)| {
        let older = crate::order::set_of(devices.iter().flat_map(|by| device_was(state, by)));
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
    state.devices.signs.iter().filter_map(shared).collect()
}
