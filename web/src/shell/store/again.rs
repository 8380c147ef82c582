//! The store's name, and what follows where it is gone: everything that this window holds is written
//! again, in one transaction over all that the store has. Of two windows the second finds what the
//! first has written, for the browser lets only one such transaction on at a time. And the other way:
//! everything deleted on purpose, of which the store keeps a note, so that no window writes it again.

use super::Store;
use super::error::StoreError;
use super::known::{KnownText, KnownTexts, Name, STORE};
use super::names::{DRAFTS, PAGES, SETTINGS};
use super::page::{Pages, add, read_in};
use crate::shell::clock;
use indexed_db_futures::object_store::ObjectStore;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::Transaction;
use wasm_bindgen::JsValue;

const ALL: [&str; 3] = [PAGES, DRAFTS, SETTINGS];

/// How writing again went.
#[derive(Debug)]
pub(crate) struct WrittenAgain {
    /// What the store held by then: what other windows have written is among it.
    pub(crate) pages: Pages,
    /// Whether the store was another one than this window knew.
    pub(crate) was_another: bool,
    /// Whether entries or drafts were missing in it.
    pub(crate) missed: bool,
}

impl Store {
    /// Takes note of the store's name, or gives it one: from here on every transaction of this window
    /// looks whether it is still the same.
    pub(crate) async fn claim(&self) -> Result<(), StoreError> {
        let found = self
            .connection
            .read(&[DRAFTS, SETTINGS], async |transaction| {
                names(transaction).await
            })
            .await?;
        let id = match found {
            (Some(name), marker) if marker.as_ref() == Some(&name.id) => name.id,
            _ => {
                let fresh = random_id()?;
                self.connection
                    .write_onto_any(&[DRAFTS, SETTINGS], async |transaction| {
                        let (name, _) = names(transaction).await?;
                        let name = match name {
                            Some(name) => name,
                            None => Name::of_id(&fresh),
                        };
                        put_name(transaction, &name).await?;
                        Ok(name.id)
                    })
                    .await?
            }
        };
        self.connection.known.named(&id);
        Ok(())
    }

    /// Writes again what this window holds and the store does not. `missing` gives the lines of entries
    /// that are not in the pages that the store has by now. Fails with [`StoreError::Deleted`] where
    /// everything was deleted on purpose.
    pub(crate) async fn write_again(
        &self,
        missing: impl Fn(&Pages) -> Vec<u8>,
    ) -> Result<WrittenAgain, StoreError> {
        let known = &self.connection.known;
        let _turn = self.drafts.turn.lock().await;
        let fresh = random_id()?;
        let knew = known.id();
        let (drafts, settings) = (
            known.drafts.borrow().clone(),
            known.settings.borrow().clone(),
        );
        let (again, name, last) = self
            .connection
            .write_onto_any(&ALL, async |transaction| {
                let (name, _) = names(transaction).await?;
                let mut name = match name {
                    Some(name) => name,
                    None => Name::of_id(&fresh),
                };
                let was_another = knew.as_ref().is_some_and(|knew| *knew != name.id);
                if let Some(knew) = &knew {
                    if name.deleted.contains(knew) {
                        return Err(StoreError::Deleted);
                    }
                    if was_another {
                        name.was.insert(knew.clone());
                    }
                }
                let mut pages = Pages::default();
                let mut last = read_in(transaction, None, |some| pages.append(some)).await?;
                let lines = missing(&pages);
                if !lines.is_empty() {
                    last = Some(add(transaction, &lines).await?.last);
                }
                let texts = put_held(transaction, DRAFTS, &drafts).await?;
                put_held(transaction, SETTINGS, &settings).await?;
                put_name(transaction, &name).await?;
                let again = WrittenAgain {
                    pages,
                    was_another,
                    missed: !lines.is_empty() || texts,
                };
                Ok((again, name, last))
            })
            .await?;
        if knew.is_some() {
            known.named(&name.id);
        }
        known.set_last(last);
        Ok(again)
    }

    /// Deletes the whole record, everything half typed and every setting, for good. No window writes any
    /// of it again, and this one writes nothing any more.
    pub(crate) async fn delete_everything(&self) -> Result<(), StoreError> {
        let known = &self.connection.known;
        let _turn = self.drafts.turn.lock().await;
        let fresh = random_id()?;
        let knew = known.id();
        self.connection
            .write_onto_any(&ALL, async |transaction| {
                let (name, _) = names(transaction).await?;
                let mut after = Name::of_id(&fresh);
                after.deleted.extend(knew.clone());
                if let Some(name) = name {
                    after.deleted.insert(name.id);
                    after.deleted.extend(name.was);
                    after.deleted.extend(name.deleted);
                }
                for store in ALL {
                    transaction.object_store(store)?.clear()?;
                }
                put_name(transaction, &after).await
            })
            .await?;
        known.end();
        Ok(())
    }
}

/// The name among the settings, and the one among the drafts.
async fn names(
    transaction: &Transaction<'_>,
) -> Result<(Option<Name>, Option<String>), StoreError> {
    let settings = transaction.object_store(SETTINGS)?;
    let drafts = transaction.object_store(DRAFTS)?;
    let name: Option<JsValue> = settings.get(STORE).primitive()?.await?;
    let marker: Option<JsValue> = drafts.get(STORE).primitive()?.await?;
    let marker = marker.and_then(|marker| marker.as_string());
    Ok((Name::of(name.as_ref()), marker))
}

async fn put_name(transaction: &Transaction<'_>, name: &Name) -> Result<(), StoreError> {
    let settings = transaction.object_store(SETTINGS)?;
    let drafts = transaction.object_store(DRAFTS)?;
    settings
        .put(name.to_json()?)
        .with_key(STORE)
        .primitive()?
        .await?;
    drafts
        .put(name.id.as_str())
        .with_key(STORE)
        .primitive()?
        .await?;
    Ok(())
}

/// Puts texts that this window holds: its own as it wants them, those that it only knows of where there
/// is nothing. True where something was missing.
async fn put_held(
    transaction: &Transaction<'_>,
    store: &str,
    texts: &KnownTexts,
) -> Result<bool, StoreError> {
    let store = transaction.object_store(store)?;
    let mut missed = false;
    for (key, held) in texts {
        let there: Option<JsValue> = store.get(key.as_str()).primitive()?.await?;
        match held {
            KnownText::Own(None) => {
                store.delete(key.as_str()).primitive()?;
            }
            KnownText::Own(Some(text)) => {
                missed |= there.is_none();
                put(&store, key, JsValue::from_str(text))?;
            }
            KnownText::Found(value) if there.is_none() => {
                missed = true;
                put(&store, key, value.clone())?;
            }
            KnownText::Found(_) => {}
        }
    }
    Ok(missed)
}

fn put(store: &ObjectStore<'_>, key: &str, value: JsValue) -> Result<(), StoreError> {
    store.put(value).with_key(key).primitive()?;
    Ok(())
}

fn random_id() -> Result<String, StoreError> {
    let random = clock::random_bytes16().map_err(|why| StoreError::NotMade(why.to_string()))?;
    Ok(random.iter().map(|byte| format!("{byte:02x}")).collect())
}
