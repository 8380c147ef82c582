//! The frame of an entry read back just as [`crate::record::log::Entry::to_line`] writes it, key after key.
//!
//! It is on the way of every entry at every start, and of every entry of a file. What is written in any other way it
//! leaves to the general reader, and it never judges.
//!
//! It stays because a start needs it. Reading a ten years' record natively, the least of three turns each:
//!
//! | entries | with it | frame read by serde_json | all from the ground up |
//! |---|---|---|---|
//! | 105,000 | 254 ms | 392 ms | 394 ms |
//! | 410,000 | 717 ms | 1,006 ms | 1,246 ms |
//!
//! A start of 100,000 entries in the browser takes 899 ms with it, where 900 ms are allowed.

use crate::order;
use crate::record::log::date;
use crate::record::log::entry::envelope::Frame;
use crate::record::log::id::Id;
use std::borrow::Cow;
use std::collections::BTreeMap;

impl<'a> Frame<'a> {
    /// `None` where the line is not as this app writes an entry that holds nothing of a newer version.
    pub(crate) fn of_kept(line: &'a str) -> Option<Self> {
        let mut rest = Rest(line);
        let about = rest.id("{\"about\":\"")?;
        let at = rest.text(",\"at\":\"")?;
        rest.pass(",\"body\":")?;
        // Nothing after the body has a brace, but for the last sign of all; or else the short way ends here.
        let end = rest.0.strip_suffix('}')?.rfind('}')? + 1;
        let (body, after) = rest.0.split_at_checked(end)?;
        rest.0 = after;
        let by = rest.text(",\"by\":\"")?;
        let checksum = match rest.0.starts_with(",\"checksum\":\"") {
            true => Some(rest.text(",\"checksum\":\"")?),
            false => None,
        };
        let event = rest.text(",\"happening\":\"")?;
        let id = rest.id(",\"id\":\"")?;
        let on = date(rest.text(",\"on\":\"")?)?;
        let on_confirmed = rest.pass(",\"on_insisted\":true").is_some();
        let seq = rest.number(",\"seq\":")?;
        let step = rest.number(",\"step\":")?;
        let supersedes = rest.ids(",\"supersedes\":[")?;
        let v = u32::try_from(rest.number(",\"v\":")?).ok()?;
        (rest.0 == "}").then(|| Frame {
            about,
            at: at.to_owned(),
            body: Some(body),
            by: by.to_owned(),
            checksum: checksum.map(Cow::Borrowed),
            event: Cow::Borrowed(event),
            id,
            on,
            on_confirmed,
            seq,
            step,
            supersedes,
            v,
            extra: BTreeMap::new(),
        })
    }
}

/// What is left of a line.
struct Rest<'a>(&'a str);

impl<'a> Rest<'a> {
    /// Passes over what must stand here.
    fn pass(&mut self, expected: &str) -> Option<()> {
        self.0 = self.0.strip_prefix(expected)?;
        Some(())
    }

    /// A text without signs that are written in another way.
    fn text(&mut self, key: &str) -> Option<&'a str> {
        self.pass(key)?;
        let special = |byte: &u8| matches!(byte, 0..=0x1f | b'"' | b'\\');
        let end = self.0.as_bytes().iter().position(special)?;
        let (text, rest) = self.0.split_at_checked(end)?;
        self.0 = rest.strip_prefix('"')?;
        Some(text)
    }

    fn id(&mut self, key: &str) -> Option<Id> {
        self.text(key)?.parse().ok()
    }

    fn number(&mut self, key: &str) -> Option<u64> {
        self.pass(key)?;
        let digits = self.0.bytes().take_while(u8::is_ascii_digit).count();
        let (number, rest) = self.0.split_at_checked(digits)?;
        self.0 = rest;
        // A nought before other digits is not how a number is written.
        (number == "0" || !number.starts_with('0'))
            .then(|| number.parse().ok())
            .flatten()
    }

    /// Ids in brackets, or none at all.
    fn ids(&mut self, key: &str) -> Option<Vec<Id>> {
        let mut ids = Vec::new();
        if self.pass(key).is_none() {
            return Some(ids);
        }
        ids.push(self.id("\"")?);
        while self.pass("]").is_none() {
            ids.push(self.id(",\"")?);
        }
        order::sort(&mut ids);
        ids.dedup();
        Some(ids)
    }
}

#[cfg(test)]
mod tests {
    use crate::record::log::entry::read::From;
    use crate::record::log::{Added, Entry, Limits, Log};

    const LINE: &str = r#"{"about":"017f22e2-79b0-7cc3-98c4-dc0c0c07398f","at":"","body":{"text":",\"by\":\"x"},"by":"K","happening":"noted","id":"017f22e2-79b0-7cc3-98c4-dc0c0c073990","on":"2026-03-07","seq":1,"step":10,"supersedes":["017f22e2-79b0-7cc3-98c4-dc0c0c073991"],"v":1}"#;

    fn both(line: &str) -> [Option<Entry>; 2] {
        let limits = Limits::default();
        [
            Entry::from_kept(line, &limits).ok(),
            Entry::from_json(line, &limits).ok(),
        ]
    }

    #[test]
    fn a_line_as_it_is_written_goes_the_short_way() {
        assert!(super::Frame::of_kept(LINE).is_some());
        let [kept, read] = both(LINE);
        assert_eq!(kept, read);
        assert_eq!(kept.unwrap().to_line(), LINE);
    }

    #[test]
    fn a_line_written_in_any_other_way_goes_the_long_way_and_says_the_same() {
        for (from, to) in [
            ("\"at\":\"\"", "\"at\":\"a \\n\""),
            (",\"v\":1", ",\"v\":1,\"while\":{\"a\":1,\"by\":\"x\"}"),
            ("\"by\":\"K\"", "\"by\":\"\\u004b\""),
            // Of a newer version, between the body and the name.
            (",\"by\":\"K\"", ",\"body two\":{\"a\":1},\"by\":\"K\""),
            ("\"v\":1", "\"v\": 1"),
            (
                ",\"supersedes\":[\"017f22e2-79b0-7cc3-98c4-dc0c0c073991\"]",
                ",\"supersedes\":[]",
            ),
            ("\"seq\":1", "\"on_insisted\":false,\"seq\":1"),
            ("\"noted\"", "\"marvelled\""),
        ] {
            let line = LINE.replace(from, to);
            assert_ne!(line, LINE);
            let [kept, read] = both(&line);
            assert_eq!(kept, read, "{line}");
            assert!(kept.is_some(), "{line}");
        }
    }

    #[test]
    fn an_entry_kept_as_an_older_version_wrote_it_is_no_other() {
        let [kept, read] = both(&LINE.replace("{\"text\"", "{ \"text\""));
        let (kept, read) = (kept.unwrap(), read.unwrap());
        assert_ne!(kept, read);
        let mut log = Log::new();
        assert_eq!(log.add(kept), Added::New);
        assert_eq!(log.add(read), Added::AlreadyHere);
        let [another, _] = both(&LINE.replace("\\\"x", "\\\"y"));
        assert_eq!(log.add(another.unwrap()), Added::Altered);
    }

    /// What a line from a file is judged to be does not hang on the way by which it is read.
    #[test]
    fn a_line_from_a_file_is_judged_as_from_the_ground_up() {
        let sample = include_str!("../../../../../demo-data/two-yards.json");
        let lines = sample.lines().skip(1).step_by(200);
        let lines = lines.map(|line| line.strip_suffix(',').unwrap_or(line));
        let mut short = 0;
        for line in lines.filter(|line| line.starts_with('{')).chain([LINE]) {
            short += usize::from(super::Frame::of_kept(line).is_some());
            for at in 0..line.len() {
                for sign in ["", "0", "}", "{", "\"", ",", "\\", " ", "a"] {
                    if !line.is_char_boundary(at) || !line.is_char_boundary(at + 1) {
                        continue;
                    }
                    let changed = format!("{}{sign}{}", &line[..at], &line[at + 1..]);
                    let anew = Entry::from_the_ground_up(&changed, From::File);
                    let read = Entry::from_text(&changed, &Limits::default(), From::File);
                    assert_eq!(read, anew, "{changed}");
                }
            }
        }
        assert!(short > 3, "{short}");
    }

    #[test]
    fn what_is_damaged_is_refused_either_way() {
        for (from, to) in [
            ("\"step\":10", "\"step\":010"),
            ("\"step\":10", "\"step\":9007199254740993"),
            ("2026-03-07", "2026-02-30"),
            ("\"by\":\"K\"", "\"by\":\"\""),
            ("{\"text\":", "{\"text\";"),
            ("073990\"", "07399\""),
            (",\"v\":1}", ",\"v\":1"),
        ] {
            let line = LINE.replacen(from, to, 1);
            assert_ne!(line, LINE);
            assert_eq!(both(&line), [None, None], "{line}");
        }
        for end in 0..LINE.len() {
            assert_eq!(both(&LINE[..end]), [None, None], "{end}");
        }
    }
}
