//! The header of a file: what it is, which version wrote it and which can read it.
//!
//! It never decides what an entry means: every entry has its own version.

use crate::record::log::entry::sorted::sort_keys;
use serde_json::{Map, Value, json};

pub const FORMAT: &str = "stillwood-notebook";
/// The version of the format that this app writes, and the highest that it knows.
pub const FORMAT_VERSION: u32 = 1;
/// The least version that a reader of what this app writes must know.
const READER: u32 = 1;

/// What of the record is in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Selection {
    Whole,
    Visit,
    /// Something that a newer version selects.
    Other(String),
}

impl Selection {
    fn name(&self) -> &str {
        match self {
            Selection::Whole => "whole",
            Selection::Visit => "visit",
            Selection::Other(name) => name,
        }
    }

    fn named(name: &str) -> Self {
        match name {
            "whole" => Selection::Whole,
            "visit" => Selection::Visit,
            other => Selection::Other(other.to_owned()),
        }
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct Header {
    /// The version of the app that wrote the file.
    pub app: String,
    /// The identity of the device that wrote the file, where it says so.
    pub by: Option<String>,
    /// How many entries the file says that it holds.
    pub count: Option<u64>,
    /// The least version of the format that a reader must know.
    pub reader: u32,
    pub version: u32,
    /// What of the record it holds.
    pub what: Selection,
    /// When it was written, by the device's clock: a remark.
    pub written: String,
    /// What a newer version wrote beside.
    pub extra: Map<String, Value>,
}

impl Header {
    /// The header that this version writes; the entries are counted when they are written.
    pub fn new(app: &str, written: &str, what: Selection) -> Self {
        Self {
            app: app.to_owned(),
            by: None,
            count: None,
            reader: READER,
            version: FORMAT_VERSION,
            what,
            written: written.to_owned(),
            extra: Map::new(),
        }
    }

    /// The same, written by a device.
    #[must_use]
    pub fn by(mut self, device: &str) -> Self {
        self.by = (!device.is_empty()).then(|| device.to_owned());
        self
    }

    /// For a file whose header could not be read.
    pub(crate) fn unread() -> Self {
        Self::new("", "", Selection::Other(String::new()))
    }

    /// From JSON. `Err` with the format's name where it is another format, with `None` where it is no
    /// header at all. What is missing is left at what [`Self::unread`] says.
    pub(crate) fn from_value(value: Value) -> Result<Self, Option<String>> {
        let Value::Object(mut map) = value else {
            return Err(None);
        };
        match map.remove("format") {
            Some(Value::String(name)) if name == FORMAT => {}
            Some(Value::String(name)) => return Err(Some(name)),
            _ => return Err(None),
        }
        let mut header = Self::unread();
        let mut text = |key: &str| match map.remove(key) {
            Some(Value::String(text)) => text,
            _ => String::new(),
        };
        header.app = text("app");
        let by = text("by");
        header.by = (!by.is_empty()).then_some(by);
        header.written = text("written");
        header.what = Selection::named(&text("what"));
        header.count = map.remove("count").and_then(|v| v.as_u64());
        let mut number = |key: &str| {
            let number = map.remove(key).and_then(|v| v.as_u64());
            number.map_or(FORMAT_VERSION, |n| u32::try_from(n).unwrap_or(u32::MAX))
        };
        header.reader = number("reader");
        header.version = number("version");
        header.extra = map;
        Ok(header)
    }

    /// As JSON, keys sorted, with the count of the entries that follow.
    pub(crate) fn to_text(&self, count: usize) -> Vec<u8> {
        let mut map = self.extra.clone();
        for (key, value) in [
            ("app", json!(self.app)),
            ("count", json!(count)),
            ("format", json!(FORMAT)),
            ("reader", json!(self.reader)),
            ("version", json!(self.version)),
            ("what", json!(self.what.name())),
            ("written", json!(self.written)),
        ] {
            map.insert(key.to_owned(), value);
        }
        if let Some(by) = &self.by {
            map.insert("by".to_owned(), json!(by));
        }
        let mut out = Vec::new();
        sort_keys(Value::Object(map).to_string().as_bytes(), &mut out);
        out
    }
}
