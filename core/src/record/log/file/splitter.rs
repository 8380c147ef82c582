//! A file cut into its header and its entries, without reading any of them.
//!
//! A file in our own layout is cut at its line ends, so that damage in one entry harms no other. Any
//! other layout is followed bracket by bracket. Neither way calls itself, so no file is too deep.

use memchr::memchr;
use std::ops::Range;

/// Where the parts of a file stand.
#[derive(Debug, Default)]
pub(crate) struct Split {
    pub(crate) header: Option<Range<usize>>,
    pub(crate) entries: Vec<Range<usize>>,
    /// A list of entries was found.
    pub(crate) has_entries: bool,
    /// The file ends before it should; the last entry may be a piece of one.
    pub(crate) cut: bool,
    /// Where something stands that does not belong in the file.
    pub(crate) stray: Option<usize>,
    /// There are more entries than are read.
    pub(crate) too_many: bool,
}

impl Split {
    fn push(&mut self, entry: Range<usize>, most: usize) {
        if self.entries.len() < most {
            self.entries.push(entry);
        } else {
            self.too_many = true;
        }
    }
}

const OPENING: &[u8] = b"{\"header\":";
const TO_ENTRIES: &[u8] = b",\"entries\":[";

/// Cuts a file in our own layout; `None` if it is not.
pub(crate) fn by_lines(src: &[u8], most: usize) -> Option<Split> {
    let first_end = memchr(b'\n', src).unwrap_or(src.len());
    let first = trim(src, 0..first_end);
    let line = &src[first.clone()];
    if !line.starts_with(OPENING) || !line.ends_with(TO_ENTRIES) {
        return None;
    }
    let header = first.start + OPENING.len()..first.end - TO_ENTRIES.len();
    let mut split = Split {
        header: Some(header),
        has_entries: true,
        cut: true,
        ..Split::default()
    };
    let mut at = first_end + 1;
    while at < src.len() && !split.too_many {
        let end = memchr(b'\n', &src[at..]).map_or(src.len(), |n| at + n);
        let mut line = trim(src, at..end);
        at = end + 1;
        if line.is_empty() {
            continue;
        }
        if &src[line.clone()] == b"]}" {
            let rest = trim(src, at.min(src.len())..src.len());
            split.stray = (!rest.is_empty()).then_some(rest.start);
            split.cut = false;
            break;
        }
        if src[line.end - 1] == b',' {
            line.end -= 1;
        }
        split.push(line, most);
    }
    Some(split)
}

fn trim(src: &[u8], mut range: Range<usize>) -> Range<usize> {
    while range.start < range.end && src[range.start].is_ascii_whitespace() {
        range.start += 1;
    }
    while range.start < range.end && src[range.end - 1].is_ascii_whitespace() {
        range.end -= 1;
    }
    range
}

/// Cuts a file in any layout, bracket by bracket.
pub(crate) fn by_brackets(src: &[u8], most: usize) -> Split {
    let mut walk = Walk { src, at: 0 };
    let mut split = Split::default();
    walk.space();
    if walk.peek() != Some(b'{') {
        split.stray = Some(walk.at);
        return split;
    }
    walk.at += 1;
    loop {
        walk.space();
        match walk.peek() {
            Some(b',') => walk.at += 1,
            Some(b'}') => {
                walk.at += 1;
                walk.space();
                split.stray = (walk.at < src.len()).then_some(walk.at);
                return split;
            }
            Some(b'"') => walk.member(&mut split, most),
            Some(_) => {
                split.stray = Some(walk.at);
                return split;
            }
            None => {
                split.cut = true;
                return split;
            }
        }
        if split.cut || split.too_many {
            return split;
        }
    }
}

struct Walk<'a> {
    src: &'a [u8],
    at: usize,
}

impl Walk<'_> {
    fn peek(&self) -> Option<u8> {
        self.src.get(self.at).copied()
    }

    fn space(&mut self) {
        while self.peek().is_some_and(|b| b.is_ascii_whitespace()) {
            self.at += 1;
        }
    }

    fn member(&mut self, split: &mut Split, most: usize) {
        let key = self.at;
        let whole = self.skip_value();
        let key = key..self.at;
        self.space();
        if !whole || self.peek() != Some(b':') {
            // Either the file ends here, or the next round finds what is astray.
            split.cut |= self.peek().is_none();
            return;
        }
        self.at += 1;
        self.space();
        match &self.src[key] {
            b"\"entries\"" if self.peek() == Some(b'[') => self.entries(split, most),
            key => {
                let start = self.at;
                let is_header = key == b"\"header\"";
                split.cut |= !self.skip_value();
                if is_header && !split.cut {
                    split.header = Some(start..self.at);
                }
            }
        }
    }

    fn entries(&mut self, split: &mut Split, most: usize) {
        split.has_entries = true;
        self.at += 1;
        while !split.too_many {
            self.space();
            match self.peek() {
                Some(b',') => self.at += 1,
                Some(b']') => {
                    self.at += 1;
                    return;
                }
                Some(_) => {
                    let start = self.at;
                    let whole = self.skip_value();
                    split.push(start..self.at, most);
                    if !whole {
                        split.cut = true;
                        return;
                    }
                }
                None => {
                    split.cut = true;
                    return;
                }
            }
        }
    }

    /// Goes to the end of a value; `false` if the file ends first.
    fn skip_value(&mut self) -> bool {
        let start = self.at;
        let mut depth = 0usize;
        while let Some(byte) = self.peek() {
            match byte {
                b'"' => {
                    if !self.skip_text() {
                        return false;
                    }
                    if depth == 0 {
                        return true;
                    }
                    continue;
                }
                b'{' | b'[' => depth += 1,
                b'}' | b']' => {
                    if depth <= 1 {
                        // A bracket that closes nothing is taken alone, or ends a bare word.
                        self.at += usize::from(depth == 1 || self.at == start);
                        return true;
                    }
                    depth -= 1;
                }
                b',' | b':' if depth == 0 => {
                    self.at += usize::from(self.at == start);
                    return true;
                }
                b' ' | b'\n' | b'\r' | b'\t' if depth == 0 => return true,
                _ => {}
            }
            self.at += 1;
        }
        false
    }

    fn skip_text(&mut self) -> bool {
        self.at += 1;
        while let Some(byte) = self.peek() {
            self.at += 1;
            match byte {
                b'\\' => self.at += 1,
                b'"' => return true,
                _ => {}
            }
        }
        self.at = self.src.len();
        false
    }
}
