//! Who this device is: an identity drawn at random, of which the sign that begins its marks is a part. A
//! secret in the database and once more beside it shows a database that was restored or copied: such a
//! device takes a new identity before anything is written, so that no two ever number entries alike.

use crate::shell::clock;
use crate::shell::platform::warn;
use crate::shell::store::{Change, Store, StoreError};
use serde::{Deserialize, Serialize};

use stillwood_core::record::{device_identity, device_name};

/// The setting that holds it.
pub(crate) const DEVICE: &str = "device";
/// The setting by which older versions know the device's sign.
pub(crate) const SIGN: &str = "by";
/// Where the secret stands beside the database.
const SECRET: &str = "stillwood-device";

/// A device's identity.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Device {
    /// Its name in entries, as `K7-4R9WXHPE2A`.
    pub(crate) id: String,
    /// What begins its marks, as `K7`.
    pub(crate) sign: String,
    /// Known to this device's storage twice; none where there is no second place.
    #[serde(default)]
    pub(crate) secret: Option<String>,
}

impl Device {
    /// For a window that has no random numbers: nothing can be written down without them.
    pub(crate) fn nobody() -> Self {
        drawn(None, &[0; 16])
    }

    /// The setting that holds its running number. (An older version goes on counting under a setting of
    /// its own.)
    pub(crate) fn counter(&self) -> String {
        format!("seq-of-{}", self.id)
    }
}

/// What stands beside the database.
#[derive(Debug, Clone, PartialEq, Eq)]
enum SecondPlace {
    /// There is no such place.
    NoPlace,
    Nothing,
    Secret(String),
}

/// Whether a device goes on as it was.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Start {
    /// As it was.
    Same,
    /// For the first time, or for the first time in this version: with the sign that it had.
    First,
    /// Out of a database that was restored or copied.
    Copied,
}

/// Decides it. Where there is no second place nothing is concluded.
fn start_of(device: Option<&Device>, beside: &SecondPlace) -> Start {
    let Some(device) = device else {
        return Start::First;
    };
    match (&device.secret, beside) {
        (Some(secret), SecondPlace::Secret(beside)) if secret == beside => Start::Same,
        (None, _) | (_, SecondPlace::NoPlace) => Start::Same,
        (Some(_), SecondPlace::Nothing | SecondPlace::Secret(_)) => Start::Copied,
    }
}

/// Whether entries under this device's own name were written by another that shares it: numbers beyond
/// what was counted here, or more entries than numbers.
pub(crate) fn has_a_twin(own_entries: u64, highest: u64, counted: u64) -> bool {
    highest > counted || own_entries > highest
}

const COPIED: &str = "This device's storage was restored or copied from elsewhere: another device may \
     go on under the same name. So this one takes a new name.";

/// A new identity out of random bytes; without a sign it draws one.
fn drawn(sign: Option<String>, random: &[u8; 16]) -> Device {
    let [a, b, c, d, rest @ ..] = random;
    let sign = match sign {
        Some(sign) => sign,
        None => device_name(u32::from_le_bytes([*a, *b, *c, *d])),
    };
    let [ten @ .., _, _] = rest;
    Device {
        id: device_identity(&sign, ten),
        sign,
        secret: None,
    }
}

/// The identity of a device at its start.
pub(crate) struct Identity {
    /// It.
    pub(crate) device: Device,
    /// A new one was taken, and why, for the maker.
    pub(crate) notice: Option<String>,
}

/// Settles it, and keeps a new one. `seen` is the setting as it was read, `sign` the older version's.
/// Without a store it is for this window alone.
pub(crate) async fn settle(
    store: Option<&Store>,
    seen: Option<&str>,
    sign: Option<String>,
    has_second_place: bool,
) -> Result<Identity, StoreError> {
    let known: Option<Device> = match seen.map(serde_json::from_str) {
        Some(Ok(device)) => Some(device),
        // nothing lost: it is listed as damaged, and kept aside before it is written over
        Some(Err(_)) | None => None,
    };
    let place = has_second_place.then(second_place).flatten(); // nothing lost: no place, nothing concluded
    let start = start_of(known.as_ref(), &beside(place.as_ref()));
    match (start, known) {
        (Start::Same, Some(device)) => Ok(Identity {
            device,
            notice: None,
        }),
        (Start::Copied, _) => take(store, seen, None, place.as_ref(), Some(COPIED)).await,
        (Start::Same | Start::First, _) => take(store, seen, sign, place.as_ref(), None).await,
    }
}

/// Takes a new identity and keeps it. Where another window has done so meanwhile, that one's is taken.
pub(crate) async fn take(
    store: Option<&Store>,
    seen: Option<&str>,
    sign: Option<String>,
    place: Option<&web_sys::Storage>,
    why: Option<&str>,
) -> Result<Identity, StoreError> {
    let not_made = |why: String| StoreError::NotMade(why);
    let random = || clock::random_bytes16().map_err(|why| not_made(why.to_string()));
    let mut device = drawn(sign, &random()?);
    if let (Some(place), Some(_)) = (place, store) {
        let secret: String = random()?.iter().map(|byte| format!("{byte:02x}")).collect();
        device.secret = keep_secret(place, &secret).then_some(secret);
    }
    if let Some(store) = store {
        let text =
            |text: Result<String, serde_json::Error>| text.map_err(|why| not_made(why.to_string()));
        let change = Change::new()
            .with_setting(DEVICE, &text(serde_json::to_string(&device))?)
            .with_setting(SIGN, &text(serde_json::to_string(&device.sign))?);
        if let Some(there) = store.swap_setting(DEVICE, seen, &change).await? {
            device = serde_json::from_str(&there).map_err(|why| not_made(why.to_string()))?;
            if let (Some(place), Some(secret)) = (place, &device.secret) {
                keep_secret(place, secret);
            }
        }
    }
    let notice = why.map(|why| {
        format!(
            "{why} It is {} from now on, and its marks begin with {}.",
            device.id, device.sign
        )
    });
    Ok(Identity { device, notice })
}

pub(crate) fn second_place() -> Option<web_sys::Storage> {
    // nothing lost: where it is refused there is none
    web_sys::window()?.local_storage().ok().flatten()
}

fn beside(place: Option<&web_sys::Storage>) -> SecondPlace {
    match place.map(|place| place.get_item(SECRET)) {
        Some(Ok(Some(secret))) => SecondPlace::Secret(secret),
        Some(Ok(None)) => SecondPlace::Nothing,
        // nothing lost: where it can't be read nothing is concluded
        Some(Err(_)) | None => SecondPlace::NoPlace,
    }
}

/// True where it stands there now.
fn keep_secret(place: &web_sys::Storage, secret: &str) -> bool {
    let put = place.set_item(SECRET, secret);
    put.is_ok() && beside(Some(place)) == SecondPlace::Secret(secret.to_owned())
}

impl Device {
    /// The store was emptied and written again, and what stood beside it may be gone as well.
    pub(crate) fn stands_beside(&self) {
        if let (Some(place), Some(secret)) = (second_place(), &self.secret)
            && !keep_secret(&place, secret)
        {
            warn("this device's secret is not kept beside the record");
        }
    }

    /// Everything is deleted: the secret goes as well.
    pub(crate) fn stands_no_more() {
        if let Some(place) = second_place()
            && let Err(why) = place.remove_item(SECRET)
        {
            warn(&format!(
                "this device's secret stays beside the record: {why:?}"
            ));
        }
    }
}

impl Device {
    /// As the record knows it.
    pub(crate) fn in_record(&self) -> stillwood_app::record::Device {
        stillwood_app::record::Device {
            id: self.id.clone(),
            sign: self.sign.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn device(secret: Option<&str>) -> Device {
        Device {
            id: "K7-4R9WXHPE2A".into(),
            sign: "K7".into(),
            secret: secret.map(str::to_owned),
        }
    }

    #[wasm_bindgen_test]
    fn a_database_without_its_secret_beside_it_is_a_copy() {
        let beside = |secret: &str| SecondPlace::Secret(secret.to_owned());
        let cases = [
            (None, SecondPlace::Nothing, Start::First),
            (None, beside("a"), Start::First),
            (Some(device(Some("a"))), beside("a"), Start::Same),
            (Some(device(Some("a"))), beside("b"), Start::Copied),
            (Some(device(Some("a"))), SecondPlace::Nothing, Start::Copied),
            // Nothing is concluded where there is no second place, or was none.
            (Some(device(Some("a"))), SecondPlace::NoPlace, Start::Same),
            (Some(device(None)), SecondPlace::Nothing, Start::Same),
            (Some(device(None)), beside("b"), Start::Same),
        ];
        for (device, beside, expected) in cases {
            assert_eq!(
                start_of(device.as_ref(), &beside),
                expected,
                "{device:?} {beside:?}"
            );
        }
    }

    #[wasm_bindgen_test]
    fn a_twin_shows_by_numbers_beyond_the_counted_or_given_twice() {
        assert!(!has_a_twin(0, 0, 0));
        assert!(!has_a_twin(7, 7, 7));
        assert!(!has_a_twin(7, 7, 9), "another window counts on");
        assert!(has_a_twin(7, 8, 7));
        assert!(has_a_twin(8, 7, 7));
    }

    #[wasm_bindgen_test]
    fn an_identity_keeps_the_sign_and_draws_the_rest() {
        let one = drawn(Some("K7".into()), &[7; 16]);
        assert_eq!((one.sign.as_str(), one.id.len()), ("K7", 13));
        assert!(one.id.starts_with("K7-"), "{}", one.id);
        assert_ne!(drawn(Some("K7".into()), &[8; 16]).id, one.id);
        assert_eq!(drawn(None, &[7; 16]).sign.len(), 2);
    }
}
