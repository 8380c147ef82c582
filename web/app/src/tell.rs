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
    // Counted on also where the one before is gone: its end may still come.
    model.toast_turn = model.toast_turn.wrapping_add(1);
    let turn = model.toast_turn;
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::Desk;

    #[test]
    fn the_end_of_a_word_that_is_gone_ends_no_later_one() {
        let mut desk = Desk::new("2026-11-20");
        let first = say(&mut desk.model, "first");
        desk.model.toast = None;
        say(&mut desk.model, "later");
        for effect in first {
            if let Effect::After(_, action) = effect {
                desk.act(*action);
            }
        }
        let said = desk.model.toast.as_ref().map(|toast| toast.text.as_str());
        assert_eq!(said, Some("later"));
    }
}
