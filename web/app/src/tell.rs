//! What is told the maker, and what is kept of what is typed or chosen: what every place does.

use crate::action::Action;
use crate::effect::{AfterRecorded, Effect, NewEvent};
use crate::model::{Model, Toast};

/// How long a word on what was done stands, in milliseconds.
const TOAST_STANDS: u32 = 8_000;

/// Keeps something as JSON under a key of the drafts.
pub fn keep(key: String, what: &impl serde::Serialize) -> Vec<Effect> {
    match serde_json::to_string(what) {
        Ok(json) => vec![Effect::KeepDraft(key, json)],
        // Texts and numbers by name can always be written; if not, the maker is told.
        Err(why) => vec![Effect::After(
            0,
            Box::new(Action::DraftTrouble(Some(why.to_string()))),
        )],
    }
}

/// Says something; it goes by itself.
pub fn say(model: &mut Model, text: impl Into<String>) -> Vec<Effect> {
    toast(
        model,
        Toast {
            text: text.into(),
            ..Toast::default()
        },
    )
}

/// Shows a word on what was done; it goes by itself.
pub fn toast(model: &mut Model, toast: Toast) -> Vec<Effect> {
    let turn = model
        .toast
        .as_ref()
        .map_or(0, |toast| toast.turn)
        .wrapping_add(1);
    model.toast = Some(Toast { turn, ..toast });
    vec![Effect::After(
        TOAST_STANDS,
        Box::new(Action::ToastOver(turn)),
    )]
}

/// Keeps a choice of what is shown, on this device.
pub fn choose(model: &mut Model, screen: &str, name: &str, value: String) -> Vec<Effect> {
    let shown = model.shown.entry(screen.to_owned()).or_default();
    shown.insert(name.to_owned(), value);
    keep(format!("shown/{screen}"), shown)
}

/// Records something, says so, and stays where it is.
pub fn record(events: Vec<NewEvent>, said: String) -> Vec<Effect> {
    let after = AfterRecorded {
        said,
        ..AfterRecorded::default()
    };
    vec![Effect::Record { events, after }]
}
