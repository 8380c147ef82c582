//! An entry read from text, in two goes: its frame, then its body once the kind is known.
//!
//! Nothing is dropped: where a body says more than this version understands, its text is kept as it
//! came. What was understood is written again and compared, so that this is known and not hoped.

use crate::order;
use crate::record::log::Event;
use crate::record::log::entry::LARGEST_STORED_NUMBER;
use crate::record::log::entry::checksum;
use crate::record::log::entry::checksum::Checked;
use crate::record::log::entry::envelope::Frame;
use crate::record::log::entry::json_path::{byte_of, field_at, long_text};
use crate::record::log::entry::messages;
use crate::record::log::entry::no_duplicate_keys::{covers, strict_value};
use crate::record::log::entry::sorted::sort_keys;
use crate::record::log::id::Id;
use crate::record::log::visible_text::{has_hidden_sign, visible_body};
use crate::record::log::{
    ENTRY_VERSION, Entry, FIRST_WITH_CHECKSUM, LARGEST_NUMBER, Limits, WrittenEntry, YEARS,
};
use chrono::{Datelike, NaiveDate};
use serde_json::Value;
use std::collections::BTreeMap;

/// So many signs have a mark, and the name of a room, of a device or of somebody for whom wood is kept, at most.
pub const NAME_SIGNS: usize = 40;

#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum EntryError {
    #[error("not proper JSON: {0}")]
    NotJson(String),
    /// JSON, but not what an entry holds here.
    #[error("{0}")]
    DoesNotFit(String),
    /// It stops in the middle.
    #[error("the entry is cut short")]
    CutShort,
    /// A number that no computer number holds.
    #[error("a number is too large to be one")]
    NumberTooLarge,
    /// A counting number above [`LARGEST_NUMBER`].
    #[error("{0} is beyond any number that a workshop reaches: at most {LARGEST_NUMBER} is read")]
    CountTooLarge(u64),
    /// A day outside [`YEARS`].
    #[error("the day {day} is outside the years {first} to {last}", first = YEARS.start(), last = YEARS.end())]
    DayTooFar { day: NaiveDate },
    /// The line is not what was written.
    #[error("the line is damaged: its checksum does not fit")]
    ChecksumFails,
    /// The line has lost its checksum.
    #[error("the line is damaged: it carries no checksum, and an entry of version {0} must")]
    ChecksumMissing(u32),
    /// The line says that it is of a version that carries no checksum, and carries one.
    #[error("the line is damaged: it carries a checksum, and an entry of version {0} has none")]
    ChecksumUnexpected(u32),
    /// A text over the limit.
    #[error("a text of {length} bytes is too long: at most {limit} are read")]
    TextTooLong {
        /// Its bytes.
        length: usize,
        /// The limit.
        limit: usize,
    },
    /// An entry over the limit.
    #[error("an entry of {length} bytes is too long: at most {limit} are read")]
    EntryTooLong {
        /// Its bytes.
        length: usize,
        /// The limit.
        limit: usize,
    },
    /// A sign that can't be seen, in a name or a mark.
    #[error("\"{}\" holds a sign that can't be seen", .0.escape_debug())]
    HiddenSign(String),
    /// A name or a mark that is empty or too long.
    #[error("\"{0}\" is not a name: it must have 1 to {NAME_SIGNS} signs")]
    NotAName(String),
    /// An entry that replaces itself, or a thing that lies in itself.
    #[error("it refers to itself: {0}")]
    RefersToItself(Id),
    /// One piece named twice where each has to be another.
    #[error("the same piece is named twice: {0}")]
    NamedTwice(Id),
    /// Read again, it is not what was written.
    #[error("a value can't be written down: {0}")]
    CannotBeWritten(String),
}

#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}{error}", if .field.is_empty() { String::new() } else { format!("{}: ", .field) })]
pub struct EntryFault {
    /// The keys that lead there, joined by points; empty for the entry as a whole.
    pub field: String,
    /// The byte, from the start of the entry.
    pub byte: usize,
    pub error: EntryError,
}

impl EntryFault {
    fn whole(error: EntryError) -> Self {
        Self::at("", 0, error)
    }

    fn at(field: &str, byte: usize, error: EntryError) -> Self {
        Self {
            field: field.to_owned(),
            byte,
            error,
        }
    }

    /// From what serde_json says of `part`, which starts at `offset` in `text`.
    fn from_json(text: &str, offset: usize, part: &str, said: &serde_json::Error) -> Self {
        let byte = offset + byte_of(part, said.line(), said.column());
        let words = messages::plain(&said.to_string());
        let mut field = field_at(text, byte);
        if words.ends_with(" is missing") {
            // Noticed at the end of the group: the last key in it is not to blame.
            field.truncate(field.rfind('.').unwrap_or(0));
        }
        let error = match said.classify() {
            serde_json::error::Category::Eof => EntryError::CutShort,
            _ if words.starts_with("number out of range") => EntryError::NumberTooLarge,
            serde_json::error::Category::Data => EntryError::DoesNotFit(words),
            _ => EntryError::NotJson(words),
        };
        Self { field, byte, error }
    }
}

/// Where a line comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum From {
    /// Out of a file: numbers and days that no shop reaches are refused.
    File,
    /// Out of this device's own store, where an earlier version may have let such numbers in.
    Store,
}

impl Entry {
    /// Reads one entry from JSON, as it comes out of a file.
    ///
    /// # Errors
    /// What is wrong with it, and where; nothing is repaired or guessed.
    pub fn from_json(text: &str, limits: &Limits) -> Result<Self, EntryFault> {
        Self::from_text(text, limits, From::File).map(Self::with_visible_texts)
    }

    /// With its texts as they were written.
    pub(super) fn from_text(text: &str, limits: &Limits, from: From) -> Result<Self, EntryFault> {
        check_size(text, limits)?;
        match Self::in_a_kept_frame(text, from) {
            Some(entry) => Ok(entry),
            None => Self::from_the_ground_up(text, from),
        }
    }

    /// A whole entry whose frame stands as this app writes it; `None` for any other, which is read, and judged, from
    /// the ground up. Its body is read in full.
    fn in_a_kept_frame(text: &str, from: From) -> Option<Self> {
        let frame = Frame::of_kept(text)?;
        let body = frame.read_body(text).ok()?;
        frame.check_checksum(text).ok()?;
        Self::of(frame, body, from).ok()
    }

    pub(super) fn from_the_ground_up(text: &str, from: From) -> Result<Self, EntryFault> {
        let frame: Frame<'_> = serde_json::from_str(text)
            .map_err(|said| EntryFault::from_json(text, 0, text, &said))?;
        // A fault that has a place is told by its place; the checksum finds all others.
        let body = frame.read_body(text)?;
        let checked = frame.check_checksum(text);
        let entry = Self::of(frame, body, from)?;
        checked.map(|()| entry)
    }

    /// Reads one entry from a line that was written by [`crate::record::log::lines`] and kept since: its frame is read
    /// as it was written, and its body, in order already, is taken as it stands and not written again to
    /// be compared. That halves the work. Any other line is read as by [`Self::from_json`].
    ///
    /// # Errors
    /// As [`Self::from_json`].
    pub fn from_kept(line: &str, limits: &Limits) -> Result<Self, EntryFault> {
        Self::from_own(line, limits, From::Store).map(Self::with_visible_texts)
    }

    /// The same, with its texts as they were written.
    fn from_own(line: &str, limits: &Limits, from: From) -> Result<Self, EntryFault> {
        check_size(line, limits)?;
        let as_kept = match Frame::of_kept(line) {
            Some(frame) => match frame.kept_body(line) {
                Some(body) => {
                    frame.check_checksum(line)?;
                    Some((frame, body))
                }
                None => None,
            },
            None => None,
        };
        match as_kept {
            Some((frame, body)) => Self::of(frame, body, from),
            None => Self::from_text(line, limits, from),
        }
    }

    /// A line of one's own, read from the ground up; `None` where it can't be read.
    pub(crate) fn from_kept_anew(line: &str) -> Option<Self> {
        let read = Self::from_text(line, &Limits::default(), From::Store);
        read.map(Self::with_visible_texts).ok()
    }

    fn of(
        frame: Frame<'_>,
        (event, body): (Event, Box<str>),
        from: From,
    ) -> Result<Self, EntryFault> {
        let entry = Entry {
            id: frame.id,
            v: frame.v,
            by: frame.by,
            seq: frame.seq,
            step: frame.step,
            on: frame.on,
            at: frame.at,
            about: frame.about,
            event,
            on_confirmed: frame.on_confirmed,
            supersedes: frame.supersedes,
            extra: frame.extra,
            body,
        };
        entry.check(from)?;
        Ok(entry)
    }

    /// What happened, with nothing hidden in its texts; what was written stays in the body.
    fn with_visible_texts(mut self) -> Self {
        let shown = visible_body(&self.body)
            .and_then(|shown| Event::from_body(self.event.kind(), &shown)?.ok());
        if let Some(shown) = shown {
            self.event = shown;
        }
        self
    }

    /// Makes an entry of its parts, and reads its line back to be sure that what is written is what was
    /// meant. As body and event are both compared, the body need not be written a second time.
    pub(crate) fn from_parts(mut parts: Entry) -> Result<WrittenEntry, EntryFault> {
        let mut body = Vec::new();
        parts
            .event
            .write_body(&mut body)
            .map_err(|e| EntryFault::at("body", 0, EntryError::CannotBeWritten(e.to_string())))?;
        parts.body = sorted_text(&body);
        let line = parts.to_line();
        let read = Self::from_own(&line, &Limits::default(), From::File)?;
        if read != parts {
            let kind = parts.event.kind().to_owned();
            return Err(EntryFault::at("body", 0, EntryError::CannotBeWritten(kind)));
        }
        let entry = read.with_visible_texts();
        Ok(WrittenEntry { entry, line })
    }

    /// An entry still without the text of its body, for [`Self::from_parts`].
    pub(crate) fn bare(id: Id, about: Id, on: NaiveDate, event: Event) -> Self {
        Self {
            id,
            v: ENTRY_VERSION,
            by: String::new(),
            seq: 0,
            step: 0,
            on,
            on_confirmed: false,
            at: String::new(),
            about,
            event,
            supersedes: Vec::new(),
            extra: BTreeMap::new(),
            body: Box::default(),
        }
    }

    fn days(&self) -> impl Iterator<Item = (&'static str, NaiveDate)> {
        let in_body = match &self.event {
            Event::Reserved(reserved) => reserved.until.map(|day| ("body.until", day)),
            Event::TargetSet(wished) => wished.by.map(|day| ("body.by", day)),
            _ => None,
        };
        std::iter::once(("on", self.on)).chain(in_body)
    }

    /// Whether it names a day that no shop sees. No file brings such an entry; an earlier version may have
    /// stored it.
    pub fn has_damaged_day(&self) -> bool {
        self.days().any(|(_, day)| !YEARS.contains(&day.year()))
    }

    /// What the shape of the JSON does not say.
    fn check(&self, from: From) -> Result<(), EntryFault> {
        let fault = |field, error| Err(EntryFault::at(field, 0, error));
        let largest = match from {
            From::File => LARGEST_NUMBER,
            From::Store => LARGEST_STORED_NUMBER,
        };
        for (field, number) in [("seq", self.seq), ("step", self.step)] {
            if number > largest {
                return fault(field, EntryError::CountTooLarge(number));
            }
        }
        if from == From::File
            && let Some((field, day)) = self.days().find(|(_, day)| !YEARS.contains(&day.year()))
        {
            return fault(field, EntryError::DayTooFar { day });
        }
        check_name("by", &self.by)?;
        if self.supersedes.contains(&self.id) {
            return fault("supersedes", EntryError::RefersToItself(self.id));
        }
        match &self.event {
            Event::Marked(marked) if marked.pile == self.about => {
                fault("body.pile", EntryError::RefersToItself(self.about))
            }
            Event::PileOpened(pile) if pile.visit == self.about => {
                fault("body.visit", EntryError::RefersToItself(self.about))
            }
            Event::SamePlank(told) if told.other == self.about => {
                fault("body.other", EntryError::RefersToItself(self.about))
            }
            Event::Marked(marked) => check_name("body.mark", &marked.mark),
            Event::Cut(cut) => {
                let ids: Vec<Id> = cut.children.iter().map(|child| child.id).collect();
                check_others("body.children", self.about, ids)?;
                let mut marks = cut.children.iter().map(|child| &child.mark);
                marks.try_for_each(|mark| check_name("body.children.mark", mark))
            }
            Event::Glued(glued) => {
                let ids: Vec<Id> = glued.members.iter().map(|member| member.piece).collect();
                check_others("body.members", self.about, ids)?;
                check_name("body.mark", &glued.mark)
            }
            Event::Reserved(reserved) => check_name("body.name", &reserved.name),
            Event::RoomRead(read) => check_name("body.room", &read.room),
            _ => Ok(()),
        }
    }
}

fn check_size(text: &str, limits: &Limits) -> Result<(), EntryFault> {
    if text.len() > limits.text
        && let Some((field, byte, length)) = long_text(text, limits.text)
    {
        let limit = limits.text;
        return Err(EntryFault::at(
            &field,
            byte,
            EntryError::TextTooLong { length, limit },
        ));
    }
    if text.len() > limits.entry {
        return Err(EntryFault::whole(EntryError::EntryTooLong {
            length: text.len(),
            limit: limits.entry,
        }));
    }
    Ok(())
}

/// Pieces beside the one that the entry is about: each another.
fn check_others(field: &str, about: Id, mut ids: Vec<Id>) -> Result<(), EntryFault> {
    order::sort(&mut ids);
    let twice = ids.windows(2).find(|pair| pair[0] == pair[1]);
    let error = if ids.contains(&about) {
        EntryError::RefersToItself(about)
    } else if let Some(pair) = twice {
        EntryError::NamedTwice(pair[0])
    } else {
        return Ok(());
    };
    Err(EntryFault::at(field, 0, error))
}

fn check_name(field: &str, name: &str) -> Result<(), EntryFault> {
    let error = if has_hidden_sign(name) {
        EntryError::HiddenSign(name.to_owned())
    } else if name.trim().is_empty() || name.chars().count() > NAME_SIGNS {
        EntryError::NotAName(name.chars().take(60).collect())
    } else {
        return Ok(());
    };
    Err(EntryFault::at(field, 0, error))
}

fn sorted_text(compact: &[u8]) -> Box<str> {
    let mut out = Vec::with_capacity(compact.len());
    sort_keys(compact, &mut out);
    String::from_utf8_lossy(&out).into_owned().into_boxed_str()
}

impl Frame<'_> {
    /// A line whose checksum fails, or is missing where it must be, is damage.
    fn check_checksum(&self, text: &str) -> Result<(), EntryFault> {
        let error = match &self.checksum {
            Some(_) if self.v < FIRST_WITH_CHECKSUM => EntryError::ChecksumUnexpected(self.v),
            Some(said) if checksum::check(text, said) == Checked::Fits => return Ok(()),
            Some(_) => EntryError::ChecksumFails,
            None if self.v >= FIRST_WITH_CHECKSUM => EntryError::ChecksumMissing(self.v),
            None => return Ok(()),
        };
        Err(EntryFault::at("checksum", 0, error))
    }

    fn raw_body(&self, text: &str) -> (&str, usize) {
        let raw = self.body.unwrap_or("{}");
        let offset = self
            .body
            .and_then(|raw| (raw.as_ptr() as usize).checked_sub(text.as_ptr() as usize));
        (raw, offset.unwrap_or(0))
    }

    /// What happened; `None` where this version does not know it.
    fn event(&self, text: &str) -> Result<Option<Event>, EntryFault> {
        let (raw, offset) = self.raw_body(text);
        match Event::from_body(&self.event, raw) {
            None => Ok(None),
            Some(Ok(event)) => Ok(Some(event)),
            // What a newer version writes need not fit: carried along, not refused.
            Some(Err(said)) if self.v > ENTRY_VERSION && said.is_data() => Ok(None),
            Some(Err(said)) => Err(EntryFault::from_json(text, offset, raw, &said)),
        }
    }

    fn unknown(&self) -> Event {
        let kind = self.event.clone().into_owned();
        Event::Unknown { kind }
    }

    /// The event, and the text of a body that was put in order before it was kept; `None` where it is
    /// not one that this version knows.
    fn kept_body(&self, text: &str) -> Option<(Event, Box<str>)> {
        let event = self.event(text).ok()??;
        Some((event, self.raw_body(text).0.into()))
    }

    /// The event, and the text of the body as it goes back into the file.
    fn read_body(&self, text: &str) -> Result<(Event, Box<str>), EntryFault> {
        let (raw, offset) = self.raw_body(text);
        let fault = |said: serde_json::Error| EntryFault::from_json(text, offset, raw, &said);
        let Some(event) = self.event(text)? else {
            let value = strict_value(raw).map_err(fault)?;
            let as_it_came = sorted_text(value.to_string().as_bytes());
            return Ok((self.unknown(), as_it_came));
        };
        let mut again = Vec::with_capacity(raw.len());
        event.write_body(&mut again).map_err(fault)?;
        if again == raw.as_bytes() {
            return Ok((event, raw.into()));
        }
        let mut understood = Vec::with_capacity(again.len());
        sort_keys(&again, &mut understood);
        if understood == raw.as_bytes() {
            return Ok((event, raw.into()));
        }
        let read = strict_value(raw).map_err(fault)?;
        let known: Value = std::str::from_utf8(&understood)
            .map_err(serde::de::Error::custom)
            .and_then(serde_json::from_str)
            .map_err(fault)?;
        // Before checksums, what was left to default was spelt out. Now a line's own bytes are kept.
        let spelt_out = self.v < FIRST_WITH_CHECKSUM && covers(&known, &read);
        let kept = if spelt_out { known } else { read };
        let body = sorted_text(kept.to_string().as_bytes());
        Ok((event, body))
    }
}
