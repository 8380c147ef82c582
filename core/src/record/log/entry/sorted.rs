//! The keys of a JSON text put in order, at every level.
//!
//! It only moves text about: it never reads a number, so no number can change on the way.

use crate::order;

/// Copies `compact` (JSON without white space) to `out` with the keys of every object sorted by their
/// bytes. Minus nought is written as nought, as other tools do. Text that is not JSON is copied as far
/// as it can be followed.
pub(crate) fn sort_keys(compact: &[u8], out: &mut Vec<u8>) {
    let mut sorter = Sorter {
        src: compact,
        at: 0,
        members: Vec::new(),
    };
    sorter.value(out, 0);
}

/// Deeper than any text that serde_json reads.
const DEEPEST: usize = 200;

struct Member {
    start: usize,
    key_end: usize,
    end: usize,
}

struct Sorter<'a> {
    src: &'a [u8],
    at: usize,
    members: Vec<Member>,
}

impl Sorter<'_> {
    fn peek(&self) -> Option<u8> {
        self.src.get(self.at).copied()
    }

    fn take(&mut self, out: &mut Vec<u8>) {
        if let Some(byte) = self.peek() {
            out.push(byte);
            self.at += 1;
        }
    }

    fn value(&mut self, out: &mut Vec<u8>, depth: usize) {
        match self.peek() {
            Some(b'{') if depth < DEEPEST => self.object(out, depth),
            Some(b'[') if depth < DEEPEST => self.array(out, depth),
            Some(b'"') => self.text(out),
            _ => self.scalar(out),
        }
    }

    fn text(&mut self, out: &mut Vec<u8>) {
        let start = self.at;
        self.at += 1;
        while let Some(byte) = self.peek() {
            self.at += 1;
            match byte {
                b'\\' => self.at += 1,
                b'"' => break,
                _ => {}
            }
        }
        self.at = self.at.min(self.src.len());
        out.extend_from_slice(&self.src[start..self.at]);
    }

    fn scalar(&mut self, out: &mut Vec<u8>) {
        let rest = self.src.get(self.at..).unwrap_or_default();
        let length = rest
            .iter()
            .position(|b| matches!(b, b',' | b'}' | b']'))
            .unwrap_or(rest.len());
        let token = &rest[..length];
        out.extend_from_slice(if token == b"-0.0" { b"0.0" } else { token });
        self.at += length;
    }

    fn array(&mut self, out: &mut Vec<u8>, depth: usize) {
        self.take(out);
        loop {
            match self.peek() {
                None => return,
                Some(b']') => return self.take(out),
                Some(b',') => self.take(out),
                Some(b'}') => return,
                Some(_) => self.value(out, depth + 1),
            }
        }
    }

    fn object(&mut self, out: &mut Vec<u8>, depth: usize) {
        self.take(out);
        let first = out.len();
        let base = self.members.len();
        let mut in_order = true;
        while self.peek() == Some(b'"') {
            let start = out.len();
            self.text(out);
            let key_end = out.len();
            if self.peek() == Some(b':') {
                self.take(out);
            }
            self.value(out, depth + 1);
            let member = Member {
                start,
                key_end,
                end: out.len(),
            };
            if self.members.len() > base
                && let Some(last) = self.members.last()
            {
                in_order &= key(out, last) <= key(out, &member);
            }
            self.members.push(member);
            if self.peek() == Some(b',') {
                self.take(out);
            }
        }
        if !in_order {
            self.reorder(out, first, base);
        }
        self.members.truncate(base);
        if self.peek() == Some(b'}') {
            self.take(out);
        }
    }

    fn reorder(&mut self, out: &mut Vec<u8>, first: usize, base: usize) {
        let region = out[first..].to_vec();
        let members = &mut self.members[base..];
        order::sort_by(members, |a, b| key(out, a).cmp(key(out, b)));
        out.truncate(first);
        for (i, member) in members.iter().enumerate() {
            if i > 0 {
                out.push(b',');
            }
            out.extend_from_slice(&region[member.start - first..member.end - first]);
        }
    }
}

/// A member's key without its quotes.
fn key<'a>(out: &'a [u8], member: &Member) -> &'a [u8] {
    let end = member.key_end.saturating_sub(1);
    out.get(member.start + 1..end).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sorted(text: &str) -> String {
        let mut out = Vec::new();
        sort_keys(text.as_bytes(), &mut out);
        String::from_utf8(out).unwrap()
    }

    #[test]
    fn keys_come_in_order_at_every_level() {
        assert_eq!(
            sorted(r#"{"b":[{"z":1,"y":"}{"},2],"a!":{},"a":-0.0,"c":"\"x"}"#),
            r#"{"a":0.0,"a!":{},"b":[{"y":"}{","z":1},2],"c":"\"x"}"#
        );
    }

    #[test]
    fn text_that_is_not_json_does_no_harm() {
        // What can be followed is there, in its order, and nothing else.
        for (text, followed) in [
            ("", ""),
            ("{", "{"),
            ("[", "["),
            ("\"", "\""),
            ("{\"a", "{\"a"),
            ("{\"a\":", "{\"a\":"),
            ("[1,", "[1,"),
            ("\\", "\\"),
            ("{\"a\":1]", "{\"a\":1"),
            ("[}", "["),
        ] {
            assert_eq!(sorted(text), followed, "{text}");
        }
        let deep = "[".repeat(100_000);
        assert_eq!(sorted(&deep), deep);
    }
}
