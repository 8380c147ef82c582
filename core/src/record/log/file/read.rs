//! Reading a file: what can be accepted, and what can't, with its place.
//!
//! It never changes a record, never repairs a value and never guesses one.

use crate::order;
use crate::record::log::file::splitter::{Split, by_brackets, by_lines};
use crate::record::log::id::Id;
use crate::record::log::{Entry, EntryError, EntryFault, Limits};
use crate::record::log::{FORMAT, FORMAT_VERSION, Header};
use std::borrow::Cow;
use std::fmt;
use std::ops::Range;

#[derive(Debug, Clone, PartialEq)]
pub struct FileReading {
    pub header: Header,
    /// The entries that can be merged, in the order of the file.
    pub accepted: Vec<Entry>,
    /// What could not be read.
    pub problems: Vec<Problem>,
    /// Problems beyond the number that is listed.
    pub more_problems: usize,
    /// It is from a newer version: what is not known here is carried along.
    pub newer: bool,
}

/// What could not be read, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// The entry, counted from 1.
    pub entry: Option<usize>,
    /// The line, counted from 1.
    pub line: usize,
    /// The byte, counted from 0.
    pub byte: usize,
    pub what: FileProblem,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.entry {
            Some(entry) => write!(f, "entry {entry} (line {}), {}", self.line, self.what),
            None => self.what.fmt(f),
        }
    }
}

#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum FileProblem {
    #[error("{0}")]
    Entry(EntryFault),
    #[error("this is not text (UTF-8)")]
    NotText,
    /// The file ends too early.
    #[error("the file is cut short after entry {after}{}", match .of { Some(n) => format!(" of {n} (the header says)"), None => String::new() })]
    CutShort {
        /// The last entry that is whole.
        after: usize,
        of: Option<u64>,
    },
    /// The header says another number than there are.
    #[error("the header says {said} entries, the file holds {found}")]
    CountDiffers {
        /// In the file.
        found: usize,
        /// In the header.
        said: u64,
    },
    /// The header can't be read; the entries may be good.
    #[error("the header can't be read")]
    Header,
    /// Something stands where nothing should.
    #[error(
        "something that does not belong to the file stands at byte {0}; what follows was not read"
    )]
    Stray(usize),
    /// Two different entries under one id.
    #[error("another entry in this file has the same id, {0}, and says something else")]
    Altered(Id),
    /// More entries than are read.
    #[error("the file holds more than {0} entries; the rest was not read")]
    TooMany(usize),
}

/// Why a file is not read at all.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotOurs {
    #[error("the file is empty")]
    Empty,
    #[error("the file has {length} bytes; at most {limit} are read")]
    TooLarge {
        /// Its bytes.
        length: usize,
        /// The limit.
        limit: usize,
    },
    /// Text in two-byte characters.
    #[error("the file is text in UTF-16; save it as UTF-8")]
    Utf16,
    /// A picture or anything else.
    #[error("this is not a Stillwood file: it is not JSON")]
    NotJson,
    /// JSON of another kind.
    #[error("this is not a Stillwood file: it is JSON of another kind")]
    OtherJson,
    /// JSON that names another format.
    #[error("this is not a Stillwood file: it says that it is \"{0}\"")]
    OtherFormat(String),
}

/// Reads a file.
///
/// # Errors
/// Only if it is not a file of ours at all.
pub fn read(bytes: &[u8], limits: &Limits) -> Result<FileReading, NotOurs> {
    let mut reader = FileReader::begin(Cow::Borrowed(bytes), *limits)?;
    while reader.read_some(usize::MAX) {}
    reader.finish()
}

/// The parts of the file, or what it is instead.
fn cut(bytes: &[u8], limits: &Limits) -> Result<Split, NotOurs> {
    let length = bytes.len();
    if length > limits.file {
        let limit = limits.file;
        return Err(NotOurs::TooLarge { length, limit });
    }
    if bytes.starts_with(b"\xff\xfe") || bytes.starts_with(b"\xfe\xff") {
        return Err(NotOurs::Utf16);
    }
    // A byte order mark is passed over; places are counted with it.
    let skipped = if bytes.starts_with(b"\xef\xbb\xbf") {
        3
    } else {
        0
    };
    let text = &bytes[skipped..];
    match text.iter().find(|b| !b.is_ascii_whitespace()) {
        None => return Err(NotOurs::Empty),
        Some(b'{') => {}
        Some(b'[') => return Err(NotOurs::OtherJson),
        Some(_) => return Err(NotOurs::NotJson),
    }
    let mut split =
        by_lines(text, limits.entries).unwrap_or_else(|| by_brackets(text, limits.entries));
    let shift = |range: &mut Range<usize>| *range = range.start + skipped..range.end + skipped;
    split.header.iter_mut().for_each(shift);
    split.entries.iter_mut().for_each(shift);
    split.stray.iter_mut().for_each(|at| *at += skipped);
    Ok(split)
}

/// A file that is read bit by bit, so that it can be said how far it is and be stopped. It reads what [`read`]
/// reads.
#[derive(Debug)]
pub struct FileReader<'a> {
    bytes: Cow<'a, [u8]>,
    limits: Limits,
    split: Split,
    header: Option<Header>,
    /// The entry that is read next, counted from 0.
    next: usize,
    /// The last entry that is whole, counted from 1.
    whole: usize,
    /// A byte and the line that it stands in: problems come in the order of the file.
    line: (usize, usize),
    accepted: Vec<Entry>,
    problems: Vec<Problem>,
    more: usize,
}

impl<'a> FileReader<'a> {
    /// Finds the entries of a file and reads its header.
    ///
    /// # Errors
    /// If it is not a file of ours at all.
    pub fn begin(bytes: Cow<'a, [u8]>, limits: Limits) -> Result<Self, NotOurs> {
        let split = cut(&bytes, &limits)?;
        let mut reader = Self {
            accepted: Vec::with_capacity(split.entries.len().min(1 << 16)),
            bytes,
            limits,
            split,
            header: None,
            next: 0,
            whole: 0,
            line: (0, 1),
            problems: Vec::new(),
            more: 0,
        };
        reader.header = reader.read_header()?;
        Ok(reader)
    }

    /// How many entries are read, and of how many.
    pub fn progress(&self) -> (usize, usize) {
        (self.next, self.split.entries.len())
    }

    /// Reads so many entries more; whether there are others.
    pub fn read_some(&mut self, entries: usize) -> bool {
        let last = self.split.entries.len();
        let until = self.next.saturating_add(entries).min(last);
        while self.next < until {
            let range = self.split.entries[self.next].clone();
            self.next += 1;
            self.read_entry(range);
        }
        self.next < last
    }

    /// What the file holds, as far as it was read.
    ///
    /// # Errors
    /// If it is not a file of ours at all.
    pub fn finish(mut self) -> Result<FileReading, NotOurs> {
        if self.header.is_none() && self.accepted.is_empty() {
            return Err(NotOurs::OtherJson);
        }
        self.doubled();
        let header = self.header.take().unwrap_or_else(Header::unread);
        self.ending(&header);
        let newer = header.version > FORMAT_VERSION || header.reader > FORMAT_VERSION;
        Ok(FileReading {
            newer,
            header,
            accepted: self.accepted,
            problems: self.problems,
            more_problems: self.more,
        })
    }
    fn problem(&mut self, entry: Option<usize>, byte: usize, what: FileProblem) {
        if self.problems.len() >= self.limits.problems {
            self.more += 1;
            return;
        }
        self.list(entry, byte, what);
    }

    fn list(&mut self, entry: Option<usize>, byte: usize, what: FileProblem) {
        let (from, line) = if byte < self.line.0 {
            (0, 1)
        } else {
            self.line
        };
        let passed = self.bytes.get(from..byte).unwrap_or_default();
        let line = line + passed.iter().filter(|b| **b == b'\n').count();
        self.line = (byte, line);
        self.problems.push(Problem {
            entry,
            line,
            byte,
            what,
        });
    }

    fn read_header(&mut self) -> Result<Option<Header>, NotOurs> {
        let Some(range) = self.split.header.clone() else {
            if self.split.has_entries {
                self.problem(None, 0, FileProblem::Header);
            }
            return Ok(None);
        };
        let start = range.start;
        let part = self.bytes.get(range).unwrap_or_default();
        // As a text, like all else: the reader of bytes is another one, which is compiled beside it.
        let text = std::str::from_utf8(part).ok();
        let value = text.and_then(|text| serde_json::from_str(text).ok());
        match value.map(Header::from_value) {
            Some(Ok(header)) => Ok(Some(header)),
            Some(Err(Some(name))) if name != FORMAT => {
                Err(NotOurs::OtherFormat(name.chars().take(80).collect()))
            }
            Some(Err(_)) => Err(NotOurs::OtherJson),
            None => {
                self.problem(None, start, FileProblem::Header);
                Ok(None)
            }
        }
    }

    fn read_entry(&mut self, range: Range<usize>) {
        let number = self.next;
        let may_be_cut = self.split.cut && number == self.split.entries.len();
        let part = self.bytes.get(range.clone()).unwrap_or_default();
        let read = std::str::from_utf8(part)
            .map_err(|e| (e.valid_up_to(), FileProblem::NotText))
            .and_then(|text| {
                Entry::from_json(text, &self.limits).map_err(|fault| {
                    let at = fault.byte;
                    (at, FileProblem::Entry(fault))
                })
            });
        match read {
            Ok(entry) => {
                self.accepted.push(entry);
                self.whole = number;
            }
            Err((_, what)) if may_be_cut && is_cut(&what) => {}
            Err((at, what)) => {
                self.problem(Some(number), range.start + at, what);
                self.whole = number;
            }
        }
    }

    /// Entries that come twice: the same again is passed over, another under the same id is damage.
    fn doubled(&mut self) {
        let mut ids: Vec<(Id, usize)> = Vec::with_capacity(self.accepted.len());
        ids.extend(self.accepted.iter().enumerate().map(|(i, e)| (e.id, i)));
        order::sort(&mut ids);
        let mut again = Vec::new();
        let mut altered = Vec::new();
        for pair in ids.windows(2) {
            if let [(a, i), (b, j)] = *pair
                && a == b
            {
                if self.accepted[i] == self.accepted[j] {
                    again.push(j);
                } else {
                    altered.push(b);
                }
            }
        }
        altered.dedup();
        for id in altered {
            self.problem(None, 0, FileProblem::Altered(id));
        }
        if !again.is_empty() {
            order::sort(&mut again);
            let mut index = 0;
            self.accepted.retain(|_| {
                let keep = again.binary_search(&index).is_err();
                index += 1;
                keep
            });
        }
    }

    fn ending(&mut self, header: &Header) {
        let end = self.bytes.len();
        let split = &self.split;
        let (cut, has_entries, stray) = (split.cut, split.has_entries, split.stray);
        let found = split.entries.len();
        if split.too_many {
            self.list(None, end, FileProblem::TooMany(self.limits.entries));
        } else if cut || !has_entries && stray.is_none() {
            let (after, of) = (self.whole, header.count);
            self.list(None, end, FileProblem::CutShort { after, of });
        } else if let Some(at) = stray {
            self.list(None, at, FileProblem::Stray(at));
        } else if let Some(said) = header.count
            && said != found as u64
        {
            self.list(None, end, FileProblem::CountDiffers { found, said });
        }
    }
}

fn is_cut(what: &FileProblem) -> bool {
    match what {
        FileProblem::NotText => true,
        FileProblem::Entry(fault) => fault.error == EntryError::CutShort,
        _ => false,
    }
}
