//! Ids, dates and texts as an entry writes them, and the signs in a text that nobody can see.
//!
//! It never judges whether a date is likely.

use crate::record::log::id::Id;
use chrono::{Datelike, NaiveDate};

/// A day that may be absent, as text, for serde: `#[serde(with = "day_text")]`.
pub(crate) mod day_text {
    use chrono::NaiveDate;
    use serde::{Deserialize, Deserializer, Serializer, de::Error, de::Unexpected};

    pub(crate) fn serialize<S: Serializer>(
        day: &Option<NaiveDate>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        match day {
            Some(day) => serializer.serialize_str(&super::day(*day)),
            None => serializer.serialize_none(),
        }
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<NaiveDate>, D::Error> {
        let text = Option::<String>::deserialize(deserializer)?;
        let wrong = |text: &str| {
            D::Error::invalid_value(Unexpected::Str(text), &"a day such as \"2026-11-25\"")
        };
        text.map(|text| super::date(&text).ok_or_else(|| wrong(&text)))
            .transpose()
    }
}

/// A date written `2026-11-25`; `None` for anything else.
pub fn date(text: &str) -> Option<NaiveDate> {
    let b = text.as_bytes();
    if b.len() != 10 || b.get(4) != Some(&b'-') || b.get(7) != Some(&b'-') {
        return None;
    }
    let number = |from: usize, to: usize| -> Option<u32> {
        b.get(from..to)?.iter().try_fold(0, |sum, digit| {
            digit
                .is_ascii_digit()
                .then(|| sum * 10 + u32::from(digit - b'0'))
        })
    };
    let year = i32::try_from(number(0, 4)?).ok()?;
    NaiveDate::from_ymd_opt(year, number(5, 7)?, number(8, 10)?)
}

fn day(date: NaiveDate) -> String {
    format!("{:04}-{:02}-{:02}", date.year(), date.month(), date.day())
}

pub(crate) fn push_date(out: &mut Vec<u8>, date: NaiveDate) {
    let (month, day) = (date.month() as u8, date.day() as u8);
    out.push(b'"');
    match u16::try_from(date.year()) {
        Ok(year) if year <= 9999 => {
            push_two(out, (year / 100) as u8);
            push_two(out, (year % 100) as u8);
        }
        _ => out.extend_from_slice(format!("{:04}", date.year()).as_bytes()),
    }
    out.push(b'-');
    push_two(out, month);
    out.push(b'-');
    push_two(out, day);
    out.push(b'"');
}

fn push_two(out: &mut Vec<u8>, number: u8) {
    out.extend_from_slice(&[b'0' + number / 10, b'0' + number % 10]);
}

pub(crate) fn push_number(out: &mut Vec<u8>, number: u64) {
    out.extend_from_slice(number.to_string().as_bytes());
}

pub(crate) fn push_id(out: &mut Vec<u8>, id: Id) {
    out.push(b'"');
    id.with_text(|text| out.extend_from_slice(text.as_bytes()));
    out.push(b'"');
}

pub(crate) fn push_text(out: &mut Vec<u8>, text: &str) {
    const HEX: &[u8; 16] = b"0123456789abcdef";
    let mut rest = text.as_bytes();
    out.push(b'"');
    let special = |byte: &u8| matches!(byte, 0..=0x1f | b'"' | b'\\');
    while let Some(at) = rest.iter().position(special) {
        out.extend_from_slice(&rest[..at]);
        match rest[at] {
            b'"' => out.extend_from_slice(b"\\\""),
            b'\\' => out.extend_from_slice(b"\\\\"),
            b'\n' => out.extend_from_slice(b"\\n"),
            b'\r' => out.extend_from_slice(b"\\r"),
            b'\t' => out.extend_from_slice(b"\\t"),
            0x08 => out.extend_from_slice(b"\\b"),
            0x0c => out.extend_from_slice(b"\\f"),
            byte => {
                out.extend_from_slice(b"\\u00");
                out.push(HEX[usize::from(byte >> 4)]);
                out.push(HEX[usize::from(byte & 15)]);
            }
        }
        rest = &rest[at + 1..];
    }
    out.extend_from_slice(rest);
    out.push(b'"');
}

/// Signs that take no room or turn the writing round: zero-width spaces and joiners, marks of
/// direction, control characters, soft hyphen, byte order mark.
pub(crate) fn is_hidden(sign: char) -> bool {
    sign.is_control()
        || matches!(sign,
            '\u{ad}' | '\u{61c}' | '\u{115f}' | '\u{1160}' | '\u{180e}'
            | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}'
            | '\u{3164}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}' | '\u{ffa0}'
            | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e0fff}')
}
