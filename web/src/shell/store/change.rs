//! Several changes that are made together or not at all, and the small texts by key: drafts and
//! settings. It never reads the JSON it carries.

use super::connection::{Connection, DRAFTS, PAGES, SETTINGS};
use super::error::StoreError;
use super::page::to_value;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::Transaction;
use std::collections::BTreeMap;

/// A text to keep under a key, or `None` to drop what is there.
pub(super) type Texts = BTreeMap<String, Option<String>>;

/// What is to happen in one transaction.
#[derive(Debug, Clone, Default)]
pub(crate) struct Change {
    pub(super) page: Option<String>,
    pub(super) drafts: Texts,
    pub(super) settings: Texts,
}

/// A running number kept in a setting.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Counter<'a> {
    /// The setting's key.
    pub(crate) setting: &'a str,
    /// The highest number that the record is known to hold: numbers go on after it even if the
    /// setting is gone.
    pub(crate) seen: u64,
    /// How many numbers to take.
    pub(crate) take: u64,
}

/// The request that adds a page; it gives the key.
pub(super) type Added = indexed_db_futures::future::BasicRequest<f64>;

impl Change {
    pub(crate) fn new() -> Self {
        Self::default()
    }

    /// Adds a page of entries, one a line.
    #[cfg(test)]
    pub(crate) fn page(mut self, lines: &str) -> Self {
        self.page = Some(lines.to_owned());
        self
    }

    /// Drops a draft.
    pub(crate) fn without_draft(mut self, key: &str) -> Self {
        self.drafts.insert(key.to_owned(), None);
        self
    }

    /// Keeps a setting.
    pub(crate) fn with_setting(mut self, key: &str, json: &str) -> Self {
        self.settings.insert(key.to_owned(), Some(json.to_owned()));
        self
    }

    /// The object stores it touches, so that a draft on its way does not wait for a long import.
    fn stores(&self) -> Vec<&'static str> {
        [
            (PAGES, self.page.is_some()),
            (DRAFTS, !self.drafts.is_empty()),
            (SETTINGS, !self.settings.is_empty()),
        ]
        .into_iter()
        .filter_map(|(name, touched)| touched.then_some(name))
        .collect()
    }

    /// Does it all in one transaction.
    pub(super) async fn write(&self, connection: &Connection) -> Result<Option<f64>, StoreError> {
        let stores = self.stores();
        if stores.is_empty() {
            return Ok(None);
        }
        let page = self.page.as_deref().map(to_value);
        let added = connection
            .write(&stores, async |transaction| {
                let added = match &page {
                    Some(value) => Some(add_page(transaction, value)?),
                    None => None,
                };
                self.put_texts(transaction)?;
                Ok(added)
            })
            .await?;
        match added {
            Some(added) => Ok(Some(added.await?)),
            None => Ok(None),
        }
    }

    /// Issues the requests for drafts and settings.
    pub(super) fn put_texts(&self, transaction: &Transaction<'_>) -> Result<(), StoreError> {
        put_texts(transaction, DRAFTS, &self.drafts)?;
        put_texts(transaction, SETTINGS, &self.settings)
    }
}

pub(super) fn add_page(
    transaction: &Transaction<'_>,
    value: &wasm_bindgen::JsValue,
) -> Result<Added, StoreError> {
    let pages = transaction.object_store(PAGES)?;
    Ok(pages
        .add(value.clone())
        .with_key_type::<f64>()
        .primitive()?)
}

fn put_texts(transaction: &Transaction<'_>, store: &str, texts: &Texts) -> Result<(), StoreError> {
    if texts.is_empty() {
        return Ok(());
    }
    let store = transaction.object_store(store)?;
    for (key, text) in texts {
        match text {
            Some(text) => {
                store
                    .put(text.as_str())
                    .with_key(key.as_str())
                    .primitive()?;
            }
            None => {
                store.delete(key.as_str()).primitive()?;
            }
        }
    }
    Ok(())
}

/// Every text of a store with its key.
pub(super) async fn read_texts(
    connection: &Connection,
    store: &str,
) -> Result<Vec<(String, String)>, StoreError> {
    let (keys, texts) = connection
        .read(&[store], async |transaction| {
            let store = transaction.object_store(store)?;
            let keys = store.get_all_keys::<String>().primitive()?;
            let texts = store.get_all::<String>().primitive()?;
            Ok((keys.await?, texts.await?))
        })
        .await?;
    let mut found = Vec::with_capacity(keys.len());
    for (key, text) in keys.zip(texts) {
        found.push((key?, text?));
    }
    Ok(found)
}
