//! Pages: UTF-8 text holding entries, one a line. They are kept as bytes, which a browser stores
//! and gives back without decoding anything. It never parses a line and never changes a page.

use super::connection::{Connection, PAGES};
use super::error::StoreError;
use indexed_db_futures::KeyRange;
use indexed_db_futures::prelude::*;
use wasm_bindgen::{JsCast, JsValue};

/// A page's place in the order of writing. The browser counts up and never gives a number twice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct PageKey(u64);

impl PageKey {
    /// The number itself, for telling another tab.
    pub(crate) fn number(self) -> f64 {
        // The browser counts no further than 2^53, below which this is exact.
        self.0 as f64
    }

    /// The key behind a number that [`PageKey::number`] gave.
    pub(crate) fn from_number(number: f64) -> Self {
        Self(number as u64)
    }
}

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
    /// Pages that hold something else than bytes: damage, to be shown and never compacted away.
    pub(crate) unreadable: Vec<PageKey>,
}

impl Pages {
    /// The last key seen, readable or not: where [`super::Store::read_since`] goes on.
    pub(crate) fn last_key(&self) -> Option<PageKey> {
        let last = self.pages.last().map(|page| page.key);
        let last_unreadable = self.unreadable.last().copied();
        match (last, last_unreadable) {
            (Some(one), Some(other)) => Some(if one < other { other } else { one }),
            (one, other) => one.or(other),
        }
    }
}

/// The bytes as a page keeps them.
pub(super) fn to_value(lines: &str) -> JsValue {
    js_sys::Uint8Array::from(lines.as_bytes()).into()
}

pub(super) async fn append(connection: &Connection, lines: &str) -> Result<PageKey, StoreError> {
    compact(connection, &[], lines).await
}

pub(super) async fn compact(
    connection: &Connection,
    keys: &[PageKey],
    lines: &str,
) -> Result<PageKey, StoreError> {
    let value = to_value(lines);
    let added = connection
        .write(&[PAGES], async |transaction| {
            let pages = transaction.object_store(PAGES)?;
            let added = pages
                .add(value.clone())
                .with_key_type::<f64>()
                .primitive()?;
            for key in keys {
                pages.delete(key.number()).primitive()?;
            }
            Ok(added)
        })
        .await?;
    Ok(PageKey::from_number(added.await?))
}

pub(super) async fn read(
    connection: &Connection,
    after: Option<PageKey>,
) -> Result<Pages, StoreError> {
    let (keys, values) = connection
        .read(&[PAGES], async |transaction| {
            let pages = transaction.object_store(PAGES)?;
            // Keys start at 1. Both are asked before either is awaited, so they are of one moment.
            let range = KeyRange::LowerBound(after.map_or(0.0, PageKey::number), true);
            let keys = pages
                .get_all_keys::<f64>()
                .with_query::<f64, _>(range.clone())
                .primitive()?;
            let values = pages
                .get_all::<JsValue>()
                .with_query::<f64, _>(range)
                .primitive()?;
            Ok((keys.await?, values.await?))
        })
        .await?;
    let mut found = Pages::default();
    for (key, value) in keys.zip(values) {
        let key = PageKey::from_number(key?);
        match value?.dyn_into::<js_sys::Uint8Array>() {
            Ok(bytes) => found.pages.push(Page {
                key,
                lines: bytes.to_vec(),
            }),
            Err(_) => found.unreadable.push(key),
        }
    }
    Ok(found)
}
