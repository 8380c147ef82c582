//! Pages: UTF-8 text holding entries, one a line. They are kept as bytes, which a browser stores
//! and gives back without decoding anything. It never parses a line and never changes a page.

use super::connection::Connection;
use super::error::StoreError;
use super::known::{GATHERED, Known, gathered_up_to};
use super::names::PageKey;
use super::names::{DRAFTS, PAGES, SETTINGS};
use crate::shell::bytes::{are_the_same, give_back, taken_over};
use indexed_db_futures::KeyRange;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::Transaction;
use std::cell::RefCell;
use std::collections::BTreeSet;
use wasm_bindgen::{JsCast, JsValue};

/// A page as it was written.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Page {
    pub(crate) key: PageKey,
    /// UTF-8 text, entries one a line.
    pub(crate) lines: Vec<u8>,
}

/// What reading found.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Pages {
    /// In the order of writing.
    pub(crate) pages: Vec<Page>,
    /// Pages that hold something else than bytes: damage, to be shown and never gathered.
    pub(crate) unreadable: Vec<(PageKey, JsValue)>,
}

impl Pages {
    /// Puts the next ones behind.
    pub(crate) fn append(&mut self, mut next: Self) {
        self.pages.append(&mut next.pages);
        self.unreadable.append(&mut next.unreadable);
    }
}

/// The pages that a write added, one after the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Added {
    pub(crate) first: PageKey,
    pub(crate) last: PageKey,
}

impl Known {
    /// Takes note of pages of one's own. False where pages of other windows lie before them that were
    /// not read: they have to be caught up with.
    pub(super) fn wrote(&self, added: Added) -> bool {
        let next = self.last().map_or(1.0, |last| last.number() + 1.0);
        let follows = added.first.number() <= next;
        if follows {
            self.set_last(self.last().max(Some(added.last)));
        }
        follows
    }
}

/// So many bytes are one page: a long file is written and read in pieces.
const LONG_PAGE: usize = 1 << 20;

/// The lines in pieces that end where a line does.
fn pieces(lines: &[u8]) -> Vec<&[u8]> {
    let mut pieces = Vec::new();
    let mut rest = lines;
    while let Some((_, after)) = rest.split_at_checked(LONG_PAGE) {
        let Some(at) = after.iter().position(|byte| *byte == b'\n') else {
            break;
        };
        let (piece, after) = rest.split_at(LONG_PAGE + at + 1);
        pieces.push(piece);
        rest = after;
    }
    if !rest.is_empty() || pieces.is_empty() {
        pieces.push(rest);
    }
    pieces
}

/// Adds pages, and reads back what was added.
pub(super) async fn add(transaction: &Transaction<'_>, lines: &[u8]) -> Result<Added, StoreError> {
    let pages = transaction.object_store(PAGES)?;
    let mut all: Option<Added> = None;
    for piece in pieces(lines) {
        let value = js_sys::Uint8Array::from(piece);
        let asked = pages.add(JsValue::from(&value)).with_key_type::<f64>();
        let asked = asked.primitive()?;
        // The browser copied it as it was asked.
        give_back(&value);
        let key: f64 = asked.await?;
        let there: Option<JsValue> = pages.get(key).primitive()?.await?;
        let there = there.map(JsCast::dyn_into::<js_sys::Uint8Array>);
        let Some(Ok(there)) = there else {
            return Err(StoreError::NotAsMeant);
        };
        if !are_the_same(&there, piece) {
            return Err(StoreError::NotAsMeant);
        }
        give_back(&there);
        let key = PageKey::from_number(key);
        let first = all.map_or(key, |all| all.first);
        all = Some(Added { first, last: key });
    }
    all.ok_or(StoreError::NotAsMeant)
}

pub(super) async fn append(connection: &Connection, lines: &[u8]) -> Result<Added, StoreError> {
    connection
        .write(&[PAGES, SETTINGS], async |transaction| {
            add(transaction, lines).await
        })
        .await
}

pub(super) async fn append_parts(
    connection: &Connection,
    part: impl Fn(usize) -> Result<Option<String>, StoreError>,
) -> Result<Added, StoreError> {
    connection
        .write(&[PAGES, SETTINGS], async |transaction| {
            let mut all: Option<Added> = None;
            for number in 0.. {
                let Some(lines) = part(number)? else { break };
                let added = add(transaction, lines.as_bytes()).await?;
                let first = all.map_or(added.first, |all| all.first);
                all = Some(Added { first, ..added });
            }
            all.ok_or(StoreError::NotAsMeant)
        })
        .await
}

/// Gathers pages into one; both or neither. Only those that are still there and that `whole` finds
/// nothing wrong with; the others stay byte for byte.
pub(super) async fn gather(
    connection: &Connection,
    keys: &[PageKey],
    whole: impl Fn(&[u8]) -> bool,
) -> Result<Option<Added>, StoreError> {
    connection
        .write(&[PAGES, SETTINGS], async |transaction| {
            let pages = transaction.object_store(PAGES)?;
            let settings = transaction.object_store(SETTINGS)?;
            let (mut lines, mut gathered) = (String::new(), Vec::new());
            for key in keys {
                let there: Option<JsValue> = pages.get(key.number()).primitive()?.await?;
                let Some(Ok(bytes)) = there.map(JsCast::dyn_into::<js_sys::Uint8Array>) else {
                    continue;
                };
                let bytes = taken_over(&bytes);
                let text = std::str::from_utf8(&bytes);
                if let Ok(text) = text
                    && whole(&bytes)
                {
                    lines.push_str(text);
                    if !text.is_empty() && !text.ends_with('\n') {
                        lines.push('\n');
                    }
                    gathered.push(*key);
                }
            }
            let Some(highest) = gathered.iter().max().filter(|_| gathered.len() > 1) else {
                return Ok(None);
            };
            let added = add(transaction, lines.as_bytes()).await?;
            for key in &gathered {
                pages.delete(key.number()).primitive()?;
            }
            let before: Option<JsValue> = settings.get(GATHERED).primitive()?.await?;
            let up_to = gathered_up_to(before.as_ref()).max(Some(*highest));
            if let Some(up_to) = up_to {
                let text = up_to.number().to_string();
                settings.put(text).with_key(GATHERED).primitive()?;
            }
            Ok(Some(added))
        })
        .await
}

/// So many pages are read at a time: of a long record no two copies are held at once.
const PAGES_AT_A_TIME: usize = 16;

/// Reads the pages after a key, or all of them, some at a time, and the keys of all drafts. Where the
/// browser fails on the way it is read again from the start: `each` may see a page twice.
pub(super) async fn read(
    connection: &Connection,
    after: Option<PageKey>,
    each: impl FnMut(Pages),
) -> Result<(), StoreError> {
    let each = RefCell::new(each);
    let (last, drafts) = connection
        .read(&[PAGES, DRAFTS, SETTINGS], async |transaction| {
            let drafts = transaction.object_store(DRAFTS)?;
            let drafts = drafts.get_all_keys::<JsValue>().primitive()?;
            let last = read_in(transaction, after, |pages| each.borrow_mut()(pages)).await?;
            Ok((last, drafts.await?))
        })
        .await?;
    let mut keys = BTreeSet::new();
    for key in drafts {
        keys.extend(key?.as_string());
    }
    connection.known.keep_only(&keys);
    connection.known.set_last(connection.known.last().max(last));
    Ok(())
}

/// The same inside a transaction; the last key that was found.
pub(super) async fn read_in(
    transaction: &Transaction<'_>,
    after: Option<PageKey>,
    mut each: impl FnMut(Pages),
) -> Result<Option<PageKey>, StoreError> {
    let pages = transaction.object_store(PAGES)?;
    // Keys start at 1.
    let range = KeyRange::LowerBound(after.map_or(0.0, PageKey::number), true);
    let asked = pages.get_all_keys::<f64>().with_query::<f64, _>(range);
    let mut keys = Vec::new();
    for key in asked.primitive()?.await? {
        keys.push(key?);
    }
    for some in keys.chunks(PAGES_AT_A_TIME) {
        let (Some(first), Some(last)) = (some.first(), some.last()) else {
            continue;
        };
        let range = KeyRange::Bound(*first, false, *last, false);
        let values = pages.get_all::<JsValue>().with_query::<f64, _>(range);
        let mut found = Pages::default();
        for (key, value) in some.iter().zip(values.primitive()?.await?) {
            let key = PageKey::from_number(*key);
            match value?.dyn_into::<js_sys::Uint8Array>() {
                Ok(bytes) => found.pages.push(Page {
                    key,
                    lines: taken_over(&bytes),
                }),
                Err(other) => found.unreadable.push((key, other)),
            }
        }
        each(found);
    }
    Ok(keys.last().map(|key| PageKey::from_number(*key)))
}
