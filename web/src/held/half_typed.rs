//! Forms as they were left, in memory and in the store, by their keys. It looks into none of them.

use super::Texts;
use crate::app::App;
use crate::record::Record;
use crate::route::{Route, go};
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use stillwood_core::quantity::read::Units;

/// What stands before the key in the store.
pub(crate) const FORM: &str = "form/";

/// A form as it was left.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct HalfTyped {
    /// The address of its screen.
    pub(crate) at: String,
    /// What it is, in words; empty for one that is no news to anybody.
    pub(crate) words: String,
    /// What a bare number stood for.
    pub(super) units: Units,
    /// What stands in its fields.
    pub(super) texts: Texts,
}

/// A form as it stood when it was recorded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Recorded {
    pub(super) key: String,
    pub(super) form: HalfTyped,
}

impl App {
    /// Whether a form is half typed.
    pub(crate) fn has_begun(self, key: &str) -> bool {
        self.forms.with(|forms| forms.contains_key(key))
    }

    /// Keeps a half-typed form, in memory and in the store.
    pub(super) fn keep_form(self, key: String, form: HalfTyped) {
        let store = self.record.with_value(Record::store);
        match (store, serde_json::to_string(&form)) {
            (Some(store), Ok(json)) => store.put_draft(&format!("{FORM}{key}"), &json),
            (None, _) => {}
            (_, Err(why)) => self.draft_trouble.set(Some(why.to_string())),
        }
        // Only a form that is new to the list is news to those who show the list.
        if self.forms.with_untracked(|forms| forms.contains_key(&key)) {
            self.forms
                .update_untracked(|forms| drop(forms.insert(key, form)));
        } else {
            self.forms.update(|forms| drop(forms.insert(key, form)));
        }
    }

    pub(super) fn drop_form(self, key: &str) {
        if self.forms.with_untracked(|forms| forms.contains_key(key)) {
            self.forms.update(|forms| drop(forms.remove(key)));
            if let Some(store) = self.record.with_value(Record::store) {
                store.remove_draft(&format!("{FORM}{key}"));
            }
        }
    }

    /// Opens a form again as it stood when it was recorded. One of its kind that was begun since stays.
    pub(crate) fn take_up_again(self, recorded: Recorded) {
        let Recorded { key, form } = recorded;
        let at = Route::from_hash(&form.at);
        if !self.forms.with_untracked(|forms| forms.contains_key(&key)) {
            self.keep_form(key, form);
        }
        // What is half typed stands open where a screen begins.
        if self.route.get_untracked() == at {
            self.route.notify();
        } else {
            go(at);
        }
    }
}
