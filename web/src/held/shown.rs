//! What was chosen to be shown on a screen: filters, the order, the shelf. A setting of this device: it
//! is there again when the screen is, and never enters the record.

use super::{Part, Texts, put_back, texts};
use crate::app::App;
use crate::record::Record;
use leptos::prelude::*;

/// What stands before the key in the store.
pub(crate) const SHOWN: &str = "shown/";

/// Takes up what was chosen when the screen was last shown, and keeps what is chosen from here on.
pub(crate) fn remember(app: App, screen: &'static str, parts: Vec<Part>) {
    let known = app.shown.with_value(|shown| shown.get(screen).cloned());
    // nothing lost: nothing was chosen yet
    let known = known.unwrap_or_default();
    put_back(&parts, &known);
    Effect::new(move |before: Option<Texts>| {
        let now = texts(&parts);
        if before.is_some_and(|before| before != now) {
            let store = app.record.with_value(Record::store);
            match (store, serde_json::to_string(&now)) {
                (Some(store), Ok(json)) => store.put_draft(&format!("{SHOWN}{screen}"), &json),
                (None, _) => {}
                (_, Err(why)) => app.draft_trouble.set(Some(why.to_string())),
            }
            app.shown
                .update_value(|shown| drop(shown.insert(screen.to_owned(), now.clone())));
        }
        now
    });
}
