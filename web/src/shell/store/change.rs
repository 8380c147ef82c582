//! Several changes that are made together or not at all, and the small texts by key: drafts and
//! settings. It never reads the JSON it carries.

use super::connection::Connection;
use super::damage::{Damage, Place};
use super::error::StoreError;
use super::known::{GATHERED, Known, STORE};
use super::names::Texts;
use super::names::{DRAFTS, SETTINGS};
use indexed_db_futures::object_store::ObjectStore;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::Transaction;
use wasm_bindgen::JsValue;

/// What is to happen in one transaction.
#[derive(Debug, Clone, Default)]
pub(crate) struct Change {
    pub(super) drafts: Texts,
    pub(super) settings: Texts,
}

/// A running number kept in a setting.
#[derive(Clone, Copy)]
pub(crate) struct Counter<'a> {
    /// The setting's key.
    pub(crate) setting: &'a str,
    /// The highest number that the record holds when the numbers are taken: they go on after it even if the
    /// setting is gone, and after those that the disk refused just before.
    pub(crate) seen: &'a dyn Fn() -> u64,
    /// How many numbers to take.
    pub(crate) take: u64,
}

impl Counter<'_> {
    /// The first number to take and the last, after what the setting holds. A setting that is no number
    /// is as good as gone: what the record holds counts.
    pub(super) fn next(&self, kept: Option<&JsValue>) -> Result<(u64, u64), StoreError> {
        let seen = (self.seen)();
        let text = kept.and_then(JsValue::as_string);
        let kept = match text.map(|text| text.parse::<u64>()) {
            Some(Ok(kept)) => kept,
            // nothing lost: what the record holds is counted
            Some(Err(_)) | None => seen,
        };
        let last = kept.max(seen);
        let numbers = last.checked_add(1).zip(last.checked_add(self.take));
        let none_left = "This device has no running numbers left, so nothing was written.";
        numbers.ok_or_else(|| StoreError::NotMade(none_left.to_owned()))
    }
}

impl Change {
    pub(crate) fn new() -> Self {
        Self::default()
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

    /// Drops a setting.
    pub(crate) fn without_setting(mut self, key: &str) -> Self {
        self.settings.insert(key.to_owned(), None);
        self
    }

    /// Keeps and drops settings in one transaction, which no draft waits for.
    pub(super) async fn write_settings(&self, connection: &Connection) -> Result<(), StoreError> {
        let write =
            async |transaction: &Transaction<'_>| self.put_texts(connection, transaction).await;
        connection.write(&[SETTINGS], write).await?;
        self.note(connection);
        Ok(())
    }

    /// The same for drafts alone. What is wanted was noted when it was wanted.
    pub(super) async fn write_drafts(&self, connection: &Connection) -> Result<(), StoreError> {
        let write =
            async |transaction: &Transaction<'_>| self.put_texts(connection, transaction).await;
        connection.write(&[DRAFTS], write).await?;
        connection.known.set_aside(DRAFTS, &self.drafts);
        Ok(())
    }

    /// The same if a setting still holds what was seen; else gives what it holds by now.
    pub(super) async fn write_if(
        &self,
        connection: &Connection,
        key: &str,
        seen: Option<&str>,
    ) -> Result<Option<String>, StoreError> {
        let other = connection
            .write(&[DRAFTS, SETTINGS], async |transaction| {
                let settings = transaction.object_store(SETTINGS)?;
                let there: Option<JsValue> = settings.get(key).primitive()?.await?;
                let there = there.and_then(|there| there.as_string());
                if there.as_deref() != seen {
                    return Ok(there);
                }
                self.put_texts(connection, transaction).await?;
                Ok(None)
            })
            .await?;
        if other.is_none() {
            self.note(connection);
        }
        Ok(other)
    }

    /// Puts drafts and settings, and reads back what was put.
    pub(super) async fn put_texts(
        &self,
        connection: &Connection,
        transaction: &Transaction<'_>,
    ) -> Result<(), StoreError> {
        let known = &connection.known;
        put_texts(transaction, DRAFTS, &self.drafts, known).await?;
        put_texts(transaction, SETTINGS, &self.settings, known).await
    }

    /// Takes note of what is kept now.
    pub(super) fn note(&self, connection: &Connection) {
        for (store, texts) in [(DRAFTS, &self.drafts), (SETTINGS, &self.settings)] {
            for (key, text) in texts {
                connection.known.wants(store, key, text.clone());
            }
            connection.known.set_aside(store, texts);
        }
    }
}

async fn put_texts(
    transaction: &Transaction<'_>,
    name: &'static str,
    texts: &Texts,
    known: &Known,
) -> Result<(), StoreError> {
    if texts.is_empty() {
        return Ok(());
    }
    let store = transaction.object_store(name)?;
    for (key, text) in texts {
        if known.is_damaged(name, key) {
            keep_aside(&store, key).await?;
        }
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
    for (key, text) in texts {
        let there: Option<JsValue> = store.get(key.as_str()).primitive()?.await?;
        if there.and_then(|there| there.as_string()) != *text {
            return Err(StoreError::NotAsMeant);
        }
    }
    Ok(())
}

/// What stands before the key of something damaged that would have been written over.
pub(crate) const ASIDE: &str = "unreadable/";

/// Keeps what stands under a key under another, the first that is free.
async fn keep_aside(store: &ObjectStore<'_>, key: &str) -> Result<(), StoreError> {
    let there: Option<JsValue> = store.get(key).primitive()?.await?;
    let Some(there) = there else { return Ok(()) };
    for number in 1_u32.. {
        let aside = format!("{ASIDE}{key}/{number}");
        let taken: Option<JsValue> = store.get(aside.as_str()).primitive()?.await?;
        match taken {
            None => {
                store.put(there).with_key(aside).primitive()?;
                break;
            }
            Some(taken) if taken == there => break,
            Some(_) => {}
        }
    }
    Ok(())
}

/// One setting, where it is text.
pub(super) async fn setting(
    connection: &Connection,
    key: &str,
) -> Result<Option<String>, StoreError> {
    let there: Option<JsValue> = connection
        .read(&[SETTINGS], async |transaction| {
            let settings = transaction.object_store(SETTINGS)?;
            Ok(settings.get(key).primitive()?.await?)
        })
        .await?;
    Ok(there.and_then(|there| there.as_string()))
}

/// The texts of a store, and what can't be read among them.
#[derive(Debug, Default)]
pub(crate) struct TextsFound {
    /// With their keys.
    pub(crate) texts: Vec<(String, String)>,
    /// What is no text.
    pub(crate) damaged: Vec<Damage>,
}

/// Every text of a store with its key.
pub(super) async fn read_texts(
    connection: &Connection,
    store: &'static str,
) -> Result<TextsFound, StoreError> {
    let (keys, values) = connection
        .read(&[store], async |transaction| {
            let store = transaction.object_store(store)?;
            let keys = store.get_all_keys::<JsValue>().primitive()?;
            let values = store.get_all::<JsValue>().primitive()?;
            Ok((keys.await?, values.await?))
        })
        .await?;
    let mut found = TextsFound::default();
    let mut raw = Vec::new();
    for (key, value) in keys.zip(values) {
        let (key, value) = (key?, value?);
        let place = |key: String| match store {
            DRAFTS => Place::Draft(key),
            _ => Place::Setting(key),
        };
        let Some(key) = key.as_string() else {
            let place = place(format!("{key:?}"));
            found.damaged.push(Damage::of(place, "its key is no text"));
            continue;
        };
        if [STORE, GATHERED].contains(&key.as_str()) {
            continue;
        }
        match value.as_string() {
            Some(text) => found.texts.push((key.clone(), text)),
            None => {
                connection.known.damaged_at(store, &key);
                let place = place(key.clone());
                found.damaged.push(Damage::of(place, "it is no text"));
            }
        }
        raw.push((key, value));
    }
    connection.known.found(store, raw.into_iter());
    Ok(found)
}
