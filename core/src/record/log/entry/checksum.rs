//! The checksum that a line carries: CRC-32 (ISO-HDLC, as in Ethernet and gzip) over its canonical bytes
//! without the checksum's own member. It finds every damage within 32 bits in a row, so every flipped bit,
//! and all but one in 4,000 million of any other damage. It proves nothing about who wrote a line.

use crate::record::log::entry::no_duplicate_keys::strict_value;
use crate::record::log::entry::sorted::sort_keys;
use serde_json::Value;
use sha2::{Digest, Sha256};

pub(crate) const KEY: &str = "checksum";

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Checked {
    Fits,
    Fails,
}

pub(crate) fn of(bytes: &[u8]) -> u32 {
    crc32fast::hash(bytes)
}

/// The member as it stands in a line before its digits, the comma before it as well.
const BEFORE_DIGITS: &str = ",\"checksum\":\"";

/// The member as it stands in a line.
pub(crate) fn member(sum: u32) -> String {
    format!("{BEFORE_DIGITS}{sum:08x}\"")
}

/// A checksum as it is written: eight digits, small letters.
pub(crate) fn read(text: &str) -> Option<u32> {
    let digits = text.len() == 8 && text.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'));
    digits.then(|| u32::from_str_radix(text, 16).ok()).flatten()
}

/// Holds a line against the checksum that it carries, however it is laid out.
pub(crate) fn check(text: &str, said: &str) -> Checked {
    let Some(sum) = read(said) else {
        return Checked::Fails;
    };
    if as_written(text, said, sum) || as_canonical(text, sum) == Some(true) {
        Checked::Fits
    } else {
        Checked::Fails
    }
}

/// The line with the checksum that fits it, keys sorted, whatever it carried before; `None` for what is no
/// object. For tools that write entries, and tests that change them.
pub fn sealed(line: &str) -> Option<String> {
    let Value::Object(mut members) = strict_value(line).ok()? else {
        return None;
    };
    members.remove(KEY);
    let text = |members: &serde_json::Map<String, Value>| {
        let mut canonical = Vec::new();
        let whole = Value::Object(members.clone()).to_string();
        sort_keys(whole.as_bytes(), &mut canonical);
        canonical
    };
    let sum = of(&text(&members));
    members.insert(KEY.to_owned(), format!("{sum:08x}").into());
    String::from_utf8(text(&members)).ok()
}

/// The line as this app writes it: the member is cut out and the rest is taken as it stands.
fn as_written(text: &str, said: &str, sum: u32) -> bool {
    // Text inside a body can hold these signs too: the last place is the entry's own, or else the long way
    // decides.
    let mut commas = text.rmatch_indices(',').map(|(at, _)| text.split_at(at));
    let rest = commas.find_map(|(before, from)| Some((before, after_member(from, said)?)));
    rest.is_some_and(|(before, after)| {
        let mut found = crc32fast::Hasher::new();
        found.update(before.as_bytes());
        found.update(after.as_bytes());
        found.finalize() == sum
    })
}

/// What follows the member that says this checksum, of a text that begins with it.
fn after_member<'a>(text: &'a str, said: &str) -> Option<&'a str> {
    let value = text.strip_prefix(BEFORE_DIGITS)?;
    value.strip_prefix(said)?.strip_prefix('"')
}

/// A line that was laid out by another tool: brought into canonical form first.
fn as_canonical(text: &str, said: u32) -> Option<bool> {
    let Value::Object(mut members) = strict_value(text).ok()? else {
        return None;
    };
    members.remove(KEY)?;
    let mut canonical = Vec::with_capacity(text.len());
    sort_keys(
        Value::Object(members).to_string().as_bytes(),
        &mut canonical,
    );
    Some(of(&canonical) == said)
}

/// 128 bits of SHA-256, in letters.
pub(crate) fn fingerprint(bytes: &[u8]) -> String {
    let digest = Sha256::digest(bytes);
    digest[..16]
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The check value of CRC-32/ISO-HDLC for the nine digits, as catalogues of cyclic redundancy checks
    /// give it (from memory).
    #[test]
    fn the_check_value_of_the_algorithm() {
        assert_eq!(of(b"123456789"), 0xcbf4_3926);
    }

    /// FIPS 180-4's example: SHA-256 of "abc" (from memory).
    #[test]
    fn the_example_of_the_digest() {
        assert_eq!(fingerprint(b"abc"), "ba7816bf8f01cfea414140de5dae2223");
    }
}
