//! A file of the whole record, written some entries at a time: a long one is never held in memory as one text, it can
//! be told how far it is, and it can be stopped.

use super::write;
use crate::record::log::id::Id;
use crate::record::log::{Entry, Header, Log, Selection};

/// An entry of the file is not in the record as it was when the file was begun: the file is begun anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ChangedUnderFile;

/// Where an entry stands in the record; its line where several stand under its id.
type Place = (Id, Option<String>);

/// A file that is being written. It holds what the record held when it was begun: entries that come later are not in
/// it. Joined, its pieces are what [`Log::to_file_by`] gives.
#[derive(Debug)]
pub struct FileUnderWay {
    /// What stands before the entries, until it is handed on.
    head: Vec<u8>,
    places: Vec<Place>,
    written: usize,
    ended: bool,
}

impl FileUnderWay {
    /// Begins the file of a record. `device`, `app` and `written` as in [`Log::to_file_by`].
    pub fn begin(log: &Log, device: &str, app: &str, written: &str) -> Self {
        let header = Header::new(app, written, Selection::Whole).by(device);
        let ordered = write::in_order_of_file(log.everything());
        let place = |entry: &&Entry| {
            let alone = log.line(entry.id, None).is_some();
            (entry.id, (!alone).then(|| entry.canonical_line()))
        };
        let mut head = Vec::new();
        write::begin(&mut head, &header, ordered.len());
        Self {
            head,
            places: ordered.iter().map(place).collect(),
            written: 0,
            ended: false,
        }
    }

    /// How many entries are written, of how many.
    pub fn progress(&self) -> (usize, usize) {
        (self.written, self.places.len())
    }

    /// Nothing is left to be written.
    pub fn is_whole(&self) -> bool {
        self.ended
    }

    /// The next piece of the file, of at most so many entries: whole lines. Nothing once it is whole.
    ///
    /// # Errors
    /// If an entry is not in the record as it was.
    pub fn go_on(&mut self, log: &Log, entries: usize) -> Result<String, ChangedUnderFile> {
        if self.ended {
            return Ok(String::new());
        }
        let mut out = self.head.clone();
        let mut written = self.written;
        for (id, line) in self.places.iter().skip(written).take(entries) {
            let entry = log.line(*id, line.as_deref()).ok_or(ChangedUnderFile)?;
            write::line(&mut out, written, entry);
            written += 1;
        }
        self.head.clear();
        self.written = written;
        if self.written == self.places.len() {
            write::end(&mut out);
            self.ended = true;
        }
        Ok(write::text(&out))
    }
}
