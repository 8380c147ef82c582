//! What stands in the fields of a screen and is no part of the record: forms that are half typed, and
//! what was chosen to be shown. It is kept at every key, so that a reload, a dead battery or a call that
//! throws the browser out takes nothing along. It never looks at what a text means.

mod begun;
mod half_typed;
mod shown;

pub(crate) use begun::{Begun, Wrong, asked_of};
pub(crate) use half_typed::{FORM, HalfTyped, Recorded};
pub(crate) use shown::{SHOWN, remember};

use leptos::prelude::*;
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::collections::BTreeMap;

/// Texts by the names of their fields.
pub(crate) type Texts = BTreeMap<String, String>;

/// One field: its name, its text, and how a text is put back.
pub(crate) struct Part {
    name: String,
    read: Box<dyn Fn() -> String>,
    put: Box<dyn Fn(&str)>,
    counts: bool,
}

impl Part {
    /// A field for text.
    pub(crate) fn text(name: impl Into<String>, of: RwSignal<String>) -> Self {
        Self::made(name, move || of.get(), move |text| of.set(text.to_owned()))
    }

    /// Anything else that can be written down. A text that it can't be read from leaves it as it is.
    pub(crate) fn of<T>(name: impl Into<String>, of: RwSignal<T>) -> Self
    where
        T: Serialize + DeserializeOwned + Send + Sync + 'static,
    {
        Self::made(
            name,
            // nothing lost: choices, texts and maps by name can always be written
            move || of.with(|value| serde_json::to_string(value).unwrap_or_default()),
            move |text| {
                if let Ok(value) = serde_json::from_str(text) {
                    of.set(value);
                }
            },
        )
    }

    /// What is read and put back in a way of its own.
    pub(crate) fn made(
        name: impl Into<String>,
        read: impl Fn() -> String + 'static,
        put: impl Fn(&str) + 'static,
    ) -> Self {
        Self {
            name: name.into(),
            read: Box::new(read),
            put: Box::new(put),
            counts: true,
        }
    }

    /// The same, kept with the rest but alone no reason to keep a form: the app fills it in by itself.
    pub(crate) fn beside(mut self) -> Self {
        self.counts = false;
        self
    }
}

/// What stands in the fields; whoever reads it is told of every key.
fn texts(parts: &[Part]) -> Texts {
    let one = |part: &Part| (part.name.clone(), (part.read)());
    parts.iter().map(one).collect()
}

/// Puts texts back into the fields that they name.
fn put_back(parts: &[Part], texts: &Texts) {
    for part in parts {
        if let Some(text) = texts.get(&part.name) {
            (part.put)(text);
        }
    }
}
