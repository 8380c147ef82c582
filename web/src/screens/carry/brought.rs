//! What was brought in on this device, file by file: each can be undone as a whole, and put back.

use super::settle::about;
use crate::app::App;
use crate::imports::{ImportStands, Imports};
use crate::parts::{CollectAny, When, live};
use crate::screens::figures::counted;
use crate::screens::words;
use leptos::prelude::*;
use stillwood_core::record::queries;

/// Imports shown; the latest first.
const SHOWN: usize = 20;
/// Entries shown of what was recorded since.
const SINCE: usize = 20;

/// The part of the screen; nothing where nothing was ever brought in.
#[component]
pub(super) fn Brought(
    /// The imports of this device.
    imports: RwSignal<Imports>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let stands = Memo::new(move |_| imports.with(|imports| app.imports_stand(&imports.list)));
    let cards = move || {
        let all = stands.get();
        let some = all.into_iter().take(SHOWN);
        some.map(|one| card(app, one)).collect_any()
    };
    let more = move || {
        let more = stands.with(Vec::len).saturating_sub(SHOWN);
        (more > 0).then(|| view! { <p class="small">{format!("… and {more} before these.")}</p> })
    };
    let unread = move || {
        let unread = imports.with(|imports| imports.unread);
        (unread > 0).then(|| {
            let notes = counted(unread, "note on a file", "notes on files");
            view! { <p class="note doubt">{format!("{notes} brought in can't be read, and are left as they are.")}</p> }
        })
    };
    view! {
        <When so=move || stands.with(|stands| !stands.is_empty())>
            <h2>"Brought in"</h2>
            <div id="brought">{live(cards)}</div>
            {live(more)}
        </When>
        {live(unread)}
    }
}

fn card(app: App, import: ImportStands) -> AnyView {
    let entries = counted(import.brought.len(), "entry", "entries");
    let planks = match import.planks {
        0 => String::new(),
        count => format!(", {} among them", counted(count, "plank", "planks")),
    };
    let on = match &import.on {
        Some(on) => format!("{on}: {entries}{planks}."),
        None => format!("{entries}{planks}. Undone on another device."),
    };
    let name = import.name.clone();
    let undone = import.undone_on.clone();
    let import = StoredValue::new(import);
    let asked = RwSignal::new(false);
    let put_back = move |_| {
        import.with_value(|import| app.put_import_back(&import.undone, &import.name));
    };
    let undo = move |_| import.with_value(|import| app.undo_import(import));
    let acts = move || {
        match (&undone, asked.get()) {
        (Some(undone), _) => view! {
            <p><span class="word doubt">"undone"</span>{format!(" on {undone}. Nothing in it counts.")}</p>
            <button class="put-back" on:click=put_back>"Put it back"</button>
        }
        .into_any(),
        (None, false) => view! {
            <button class="undo-import" on:click=move |_| asked.set(true)>"Undo this import"</button>
        }
        .into_any(),
        (None, true) => view! {
            {since(app, import)}
            <div class="row stretch">
                <button class="primary undo-import-really" on:click=undo>"Undo it"</button>
                <button on:click=move |_| asked.set(false)>"Leave it"</button>
            </div>
        }
        .into_any(),
    }
    };
    let label = name.clone();
    view! {
        <section class="card import" aria-label=label>
            <h3><bdi>{name}</bdi></h3>
            <p class="small">{on}</p>
            {live(acts)}
        </section>
    }
    .into_any()
}

/// What was recorded since about what an import brought.
fn since(app: App, import: StoredValue<ImportStands>) -> AnyView {
    let units = app.units.get_untracked();
    let lines: Vec<String> = app.record.with_value(|record| {
        let (log, state) = (record.log(), record.state());
        let since = import.with_value(|import| log.recorded_since(&import.brought));
        since
            .into_iter()
            .map(|entry| {
                let what = words::event(&entry.event, units);
                let device = queries::device_shown(state, &entry.by);
                format!(
                    "{}, {}, device {device}: {what}",
                    about(state, entry.about),
                    entry.on
                )
            })
            .collect()
    });
    let count = lines.len();
    let more = count.saturating_sub(SINCE);
    let line = |text: String| view! { <li><bdi>{text}</bdi></li> };
    let told = if count == 0 {
        view! { <p>"Nothing was recorded since about what it brought. Everything it brought leaves your lists; nothing is deleted, and you can put it back."</p> }.into_any()
    } else {
        let entries = counted(count, "entry was", "entries were");
        view! {
            <p>{format!("{entries} recorded since about what it brought, and would be left without a ground:")}</p>
            <ol class="problems">{lines.into_iter().take(SINCE).map(line).collect_any()}</ol>
            {(more > 0).then(|| view! { <p>{format!("… and {more} more.")}</p> })}
            <p>"Everything it brought leaves your lists; nothing is deleted, and you can put it back."</p>
        }
        .into_any()
    };
    view! { <div class="note doubt recorded-since">{told}</div> }.into_any()
}
