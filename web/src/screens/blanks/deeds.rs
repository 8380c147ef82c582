//! What can be done with a blank where it is chosen: keep it for somebody, let it go, say what it
//! became. The forms are those of the workshop.

use crate::app::App;
use crate::parts::live;
use crate::record::Deed;
use crate::screens::workshop::{Doing, deed_form, doing};
use leptos::prelude::*;
use stillwood_core::record::Id;
use stillwood_core::record::{Event, Released};

/// Which form is open, and of which blank.
pub(super) type Open = RwSignal<Option<(Id, &'static str)>>;

pub(super) const KEEP: &str = "Reserve";
const USE: &str = "Used";

/// The form that was left half typed, of these blanks.
pub(super) fn half_typed(app: App, blanks: &[Id]) -> Option<(Id, &'static str)> {
    let begun = |id: Id, name: &str| {
        let key = doing(name).map(|doing| doing.key(id)).unwrap_or_default();
        app.forms.with_untracked(|forms| forms.contains_key(&key))
    };
    let of = |id: &Id| {
        let mut names = [KEEP, USE].into_iter();
        Some((*id, names.find(|name| begun(*id, name))?))
    };
    blanks.iter().find_map(of)
}

/// The buttons and their forms.
pub(super) fn deeds(app: App, id: Id, mark: String, kept: bool, open: Open) -> AnyView {
    let is_open = move |name| open.get() == Some((id, name));
    let toggle = move |name: &'static str| {
        open.update(|open| *open = (*open != Some((id, name))).then_some((id, name)));
    };
    let release = move |_| {
        let deed = Deed::new(id, Event::Released(Released {}));
        app.write_and_say(vec![deed], format!("{mark} is free again."), None);
    };
    let first = if kept {
        view! { <button type="button" class="release" on:click=release>"Let it go"</button> }
            .into_any()
    } else {
        view! {
            <button
                type="button" class="keep" aria-expanded=move || is_open(KEEP).to_string()
                on:click=move |_| toggle(KEEP)
            >
                "Keep it for…"
            </button>
        }
        .into_any()
    };
    let close = Callback::new(move |()| open.set(None));
    let opened = Memo::new(move |_| open.get().filter(|(of, _)| *of == id));
    let form = move || {
        let doing: &'static Doing = doing(opened.get()?.1)?;
        Some(deed_form(app, id, doing, close))
    };
    view! {
        <div class="row stretch">
            {first}
            <button
                type="button" class="use" aria-expanded=move || is_open(USE).to_string()
                on:click=move |_| toggle(USE)
            >
                "Used…"
            </button>
        </div>
        {live(form)}
    }
    .into_any()
}
