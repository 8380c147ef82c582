//! What can be done with a blank: keep it for somebody, let it go, say what it became.

use crate::app::App;
use crate::parts::{DateField, TextField, When};
use crate::record::Deed;
use leptos::prelude::*;
use stillwood_core::notebook::{Happening, Released, Reserved, Used, date};
use uuid::Uuid;

/// Which form is open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    Keep,
    Use,
}

/// The buttons and their forms.
pub(super) fn deeds(app: App, id: Uuid, mark: String, kept: bool) -> AnyView {
    let open = RwSignal::new(None::<Form>);
    let name = RwSignal::new(String::new());
    let until = RwSignal::new(String::new());
    let became = RwSignal::new(String::new());
    let toggle = move |form| open.update(|open| *open = (*open != Some(form)).then_some(form));
    let is_open = move |form| open.get() == Some(form);
    let write = StoredValue::new(move |happening: Happening, said: String| {
        app.write_and_say(vec![Deed::new(id, happening)], said, None);
    });
    let say = StoredValue::new(mark);
    let keep = move |_| {
        let name = name.get_untracked().trim().to_owned();
        let day = until.get_untracked();
        if name.is_empty() {
            return app.say("For whom? Give a name.");
        }
        let until = date(&day);
        if until.is_none() && !day.is_empty() {
            return app.say("That is not a day.");
        }
        let said = format!("{} kept for {name}.", say.get_value());
        let reserved = Happening::Reserved(Reserved { name, until });
        write.with_value(|write| write(reserved, said));
    };
    let release = move |_| {
        let said = format!("{} is free again.", say.get_value());
        write.with_value(|write| write(Happening::Released(Released {}), said));
    };
    let used = move |_| {
        let became = became.get_untracked().trim().to_owned();
        let said = format!("{} used.", say.get_value());
        write.with_value(|write| write(Happening::Used(Used { became }), said));
    };
    let first = if kept {
        view! { <button type="button" class="release" on:click=release>"Let it go"</button> }
            .into_any()
    } else {
        view! {
            <button
                type="button" class="keep" aria-expanded=move || is_open(Form::Keep).to_string()
                on:click=move |_| toggle(Form::Keep)
            >
                "Keep it for…"
            </button>
        }
        .into_any()
    };
    view! {
        <div class="row stretch">
            {first}
            <button
                type="button" class="use" aria-expanded=move || is_open(Form::Use).to_string()
                on:click=move |_| toggle(Form::Use)
            >
                "Used…"
            </button>
        </div>
        <When so=move || is_open(Form::Keep)>
            <TextField name="For whom" value=name />
            <DateField name="Until" value=until />
            <button type="button" class="primary wide-button" id="save-kept" on:click=keep>"Keep it"</button>
        </When>
        <When so=move || is_open(Form::Use)>
            <TextField name="What it became" value=became />
            <button type="button" class="primary wide-button" id="save-used" on:click=used>
                "It is used"
            </button>
        </When>
    }
    .into_any()
}
