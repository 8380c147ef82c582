//! What this window knows the store to hold, and the look that every transaction takes at whether that
//! is still there: the store's own name, made with it and never given again, and the last page known.
//! Drafts and settings are held here as they came, so that they can be written again.

use super::error::StoreError;
use super::names::PageKey;
use super::names::Texts;
use super::names::{DRAFTS, PAGES, SETTINGS};
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::Transaction;
use serde::{Deserialize, Serialize};
use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use stillwood_core::float_of;
use wasm_bindgen::JsValue;

/// The key of the store's name, among the settings and once more among the drafts: a draft's write
/// looks at it without waiting for whatever else is on its way.
pub(super) const STORE: &str = "store";
/// The key of the highest page that was gathered into another, among the settings.
pub(super) const GATHERED: &str = "gathered";

/// The store's name, as the settings keep it.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Name {
    /// Random, made with the store.
    pub(super) id: String,
    /// Names of stores that were emptied from outside and written again into this one.
    #[serde(default)]
    pub(super) was: BTreeSet<String>,
    /// Names of stores in which everything was deleted on purpose.
    #[serde(default)]
    pub(super) deleted: BTreeSet<String>,
}

impl Name {
    /// Of a new store.
    pub(super) fn of_id(id: &str) -> Self {
        Self {
            id: id.to_owned(),
            ..Self::default()
        }
    }

    /// From what the settings hold; `None` where that is no name.
    pub(super) fn of(value: Option<&JsValue>) -> Option<Self> {
        let text = value?.as_string()?;
        // nothing lost: one that can't be read is as good as none, and the store is written again
        serde_json::from_str(&text).ok()
    }

    pub(super) fn to_json(&self) -> Result<String, StoreError> {
        serde_json::to_string(self).map_err(|why| StoreError::NotMade(why.to_string()))
    }
}

/// The highest page that was gathered into another; `None` where none was, or none can be read.
pub(super) fn gathered_up_to(value: Option<&JsValue>) -> Option<PageKey> {
    // nothing lost: then the store is looked through
    let number = float_of(&value?.as_string()?)?;
    Some(PageKey::from_number(number))
}

/// A text that this window knows of.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum KnownText {
    /// As the store gave it.
    Found(JsValue),
    /// As this window wants it; `None` is dropped.
    Own(Option<String>),
}

/// Texts by their keys.
pub(super) type KnownTexts = BTreeMap<String, KnownText>;

/// See the module.
#[derive(Default)]
pub(super) struct Known {
    /// `None` where nothing is looked at: the store of the sample, or one that could not be named.
    id: RefCell<Option<String>>,
    last: Cell<Option<PageKey>>,
    pub(super) drafts: RefCell<KnownTexts>,
    pub(super) settings: RefCell<KnownTexts>,
    /// Texts that can't be read, by store and key: they are kept aside before they are written over.
    damaged: RefCell<BTreeSet<(&'static str, String)>>,
    /// Everything was deleted: nothing is written by this window any more.
    over: Cell<bool>,
}

impl Known {
    pub(super) fn id(&self) -> Option<String> {
        self.id.borrow().clone()
    }

    pub(super) fn named(&self, id: &str) {
        self.id.replace(Some(id.to_owned()));
    }

    /// The last page that this window knows of, with all before it.
    pub(super) fn last(&self) -> Option<PageKey> {
        self.last.get()
    }

    pub(super) fn set_last(&self, last: Option<PageKey>) {
        self.last.set(last);
    }

    /// Nothing is written from here on.
    pub(super) fn end(&self) {
        self.over.set(true);
    }

    pub(super) fn is_over(&self) -> bool {
        self.over.get()
    }

    /// Fails where what was there before is there no more. Pages that were gathered are in another.
    pub(super) async fn check(
        &self,
        transaction: &Transaction<'_>,
        stores: &[&str],
    ) -> Result<(), StoreError> {
        if self.is_over() {
            return Err(StoreError::Deleted);
        }
        let Some(id) = self.id() else { return Ok(()) };
        if !stores.contains(&SETTINGS) {
            let drafts = transaction.object_store(DRAFTS)?;
            let there: Option<JsValue> = drafts.get(STORE).primitive()?.await?;
            return same(there.and_then(|there| there.as_string()).as_ref() == Some(&id));
        }
        let settings = transaction.object_store(SETTINGS)?;
        let there: Option<JsValue> = settings.get(STORE).primitive()?.await?;
        same(Name::of(there.as_ref()).is_some_and(|name| name.id == id))?;
        let last = self.last().filter(|_| stores.contains(&PAGES));
        let Some(last) = last else { return Ok(()) };
        let pages = transaction.object_store(PAGES)?;
        let key: Option<f64> = pages.get_key(last.number()).primitive()?.await?;
        if key.is_some() {
            return Ok(());
        }
        let gathered: Option<JsValue> = settings.get(GATHERED).primitive()?.await?;
        same(gathered_up_to(gathered.as_ref()).is_some_and(|up_to| up_to >= last))
    }

    /// Takes note of texts that the store gave.
    pub(super) fn found(&self, store: &str, texts: impl Iterator<Item = (String, JsValue)>) {
        let mut held = self.held(store).borrow_mut();
        for (key, value) in texts {
            held.insert(key, KnownText::Found(value));
        }
    }

    /// Takes note of a text that this window wants.
    pub(super) fn wants(&self, store: &str, key: &str, text: Option<String>) {
        let mut held = self.held(store).borrow_mut();
        held.insert(key.to_owned(), KnownText::Own(text));
    }

    /// Forgets drafts that another window has dropped.
    pub(super) fn keep_only(&self, keys: &BTreeSet<String>) {
        let mut held = self.drafts.borrow_mut();
        held.retain(|key, text| !matches!(text, KnownText::Found(_)) || keys.contains(key));
    }

    pub(super) fn damaged_at(&self, store: &'static str, key: &str) {
        self.damaged.borrow_mut().insert((store, key.to_owned()));
    }

    pub(super) fn is_damaged(&self, store: &'static str, key: &str) -> bool {
        self.damaged.borrow().contains(&(store, key.to_owned()))
    }

    /// Texts were written, and what was damaged in their place was kept aside.
    pub(super) fn set_aside(&self, store: &'static str, texts: &Texts) {
        let mut damaged = self.damaged.borrow_mut();
        damaged.retain(|(at, key)| *at != store || !texts.contains_key(key));
    }

    fn held(&self, store: &str) -> &RefCell<KnownTexts> {
        match store {
            DRAFTS => &self.drafts,
            _ => &self.settings,
        }
    }
}

fn same(holds: bool) -> Result<(), StoreError> {
    if holds {
        Ok(())
    } else {
        Err(StoreError::Emptied)
    }
}
