//! In: files chosen, dropped, shared or opened with the app. Each is looked at first: where it is from,
//! what is new, what is damaged. Then the maker adds what is whole, or leaves it.

use super::take;
use crate::app::App;
use crate::imports::{Import, Imports};
use crate::parts::{CollectAny, Facts, live};
use crate::screens::figures::counted;
use crate::shell::clock;
use crate::shell::files_in::{self, Incoming};
use leptos::prelude::*;
use std::sync::Arc;
use stillwood_core::order;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Entry, EntryIds, FileReading, Limits, NumberRanges, Preview, Selection, read, visible_text,
};
use wasm_bindgen_futures::spawn_local;

/// Problems listed; the rest are counted.
const LISTED: usize = 20;

/// The part of the screen.
#[component]
pub(super) fn FilesIn(
    /// Something is held over the page.
    over: RwSignal<bool>,
    /// The imports of this device.
    imports: RwSignal<Imports>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let done = RwSignal::new(Vec::<String>::new());
    let chosen = move |event| {
        let input = event_target::<web_sys::HtmlInputElement>(&event);
        take(app, files_in::chosen(&input));
    };
    // Its place in memory: files are large, and each is only looked at once.
    let key = |file: &Arc<Incoming>| Arc::as_ptr(file).addr();
    view! {
        <h2>"Bring in"</h2>
        <div class="card drop-zone" class:over=move || over.get()>
            <label class="field">
                <span class="name">"Open files from another phone or the laptop"</span>
                <input type="file" id="import-file" multiple on:change=chosen />
            </label>
            <p class="small">"Or drop them anywhere on this page. You see what is in a file before anything changes."</p>
        </div>
        <div role="status" id="merged">
            {live(move || {
                done.get().into_iter().map(|text| view! { <p class="note good">{text}</p> }).collect_any()
            })}
        </div>
        <For each=move || app.incoming.get() key=key let(file)>
            <File file=file done=done imports=imports />
        </For>
    }
}

/// Takes a file off the list of those that wait.
fn drop_waiting(app: App, gone: &Arc<Incoming>) {
    app.incoming
        .update(|waiting| waiting.retain(|other| !Arc::ptr_eq(other, gone)));
}

/// One file, looked at.
#[component]
fn File(
    file: Arc<Incoming>,
    done: RwSignal<Vec<String>>,
    imports: RwSignal<Imports>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let name = visible_text(&file.name).into_owned();
    let label = name.clone();
    let looked = read(&file.bytes, &Limits::default());
    let file = StoredValue::new_local(file);
    let put_away = move || file.with_value(|file| drop_waiting(app, file));
    let reading = match looked {
        Ok(reading) => reading,
        Err(why) => {
            return view! {
                <section class="card incoming" aria-label=label>
                    <h3>{name}</h3>
                    <p class="note bad">
                        {format!("This can't be brought in: {why}. Nothing has changed.")}
                    </p>
                    <button on:click=move |_| put_away()>"Put it away"</button>
                </section>
            }
            .into_any();
        }
    };
    let from = visible_text(&origin(&reading)).into_owned();
    let came = file.with_value(|file| file.came.told());
    let more = reading.more_problems;
    let reading = StoredValue::new(reading);
    let busy = RwSignal::new(false);
    let after = StoredValue::new(None);
    // What merging would do, and which entries the file shows to be kept elsewhere.
    let looked = Memo::new(move |before: Option<&(Preview, NumberRanges)>| {
        let changed = app.changed.get();
        // Once it is being added, what was told stands until the card goes.
        if let (true, Some(before)) = (busy.get_untracked(), before) {
            return before.clone();
        }
        let (preview, state) = app.record.with_value(|record| {
            reading.with_value(|reading| {
                queries::preview_with_state(record.log(), record.state(), reading)
            })
        });
        after.set_value(Some((changed, state)));
        let elsewhere =
            reading.with_value(|reading| app.shown_elsewhere(&reading.header, &reading.accepted));
        (preview, elsewhere)
    });
    let preview = move || looked.with(|(preview, _)| preview.clone());
    // Entries that would count as kept elsewhere from then on.
    let gained = move || {
        let known = app.kept.get().unwrap_or_default();
        looked.with(|(_, shown)| known.news(shown))
    };
    let said = name.clone();
    let add = move |_| {
        if busy.get_untracked() {
            return;
        }
        busy.set(true);
        let (before, shown) = looked.get_untracked();
        let (gained, name) = (untrack(gained), said.clone());
        let entries = reading
            .try_update_value(|reading| std::mem::take(&mut reading.accepted))
            .unwrap_or_default();
        let after = after.try_update_value(Option::take).flatten();
        let file = file.get_value();
        spawn_local(async move {
            // Noted first: an import that can't be undone is worse than one that brought nothing.
            if let Some(import) = import_of(app, &name, &before, &entries) {
                match app.keep_import(&import).await {
                    // The screen may be gone by then, here and below.
                    Ok(()) => drop(imports.try_update(|imports| imports.list.insert(0, import))),
                    Err(why) => {
                        app.say(format!("{name} could only be undone in this window: {why}"));
                    }
                }
            }
            match app.bring_in(entries, after).await {
                Ok(_) => {
                    app.note_seen_elsewhere(shown);
                    done.try_update(|done| done.push(counts(&name, &before, gained)));
                }
                Err(why) => app.say(format!("{name} is in this window but not yet kept: {why}")),
            }
            drop_waiting(app, &file);
        });
    };
    // The first file waiting has the plain names; the others add their own.
    let named = move |id: &str| {
        let first = app.incoming.with(|waiting| {
            file.with_value(|file| waiting.first().is_some_and(|w| Arc::ptr_eq(w, file)))
        });
        if first {
            id.to_owned()
        } else {
            file.with_value(|file| format!("{id}-{}", file.name))
        }
    };
    let nothing_new = move || looked.with(|(p, _)| p.new == 0 && p.altered.is_empty());
    let undone_name = name.clone();
    let undone = move || {
        let undone = looked.with(|(preview, _)| preview.undone.clone());
        let name = undone_name.clone();
        let day = app.record.with_value(|record| {
            let entries = undone.iter().filter_map(|id| record.log().entry(*id));
            entries.map(|entry| entry.on.to_string()).max()
        })?;
        Some(view! {
            <div class="note doubt" id="was-undone">
                <p>{format!("You undid this file on {day}. Put it back?")}</p>
                <button class="put-back" on:click=move |_| app.put_import_back(&undone, &name)>
                    "Put it back"
                </button>
            </div>
        })
    };
    view! {
        <section class="card incoming" aria-label=label>
            <h3>{name}</h3>
            <p class="small">{from}</p>
            {came.map(|came| view! { <p class="note doubt came">{came}</p> })}
            {live(undone)}
            {live(move || view! { <Looked preview=preview() more=more /> })}
            <div class="row stretch">
                <button
                    class="primary" id=move || named("merge") disabled=move || busy.get() || (nothing_new() && gained() == 0)
                    on:click=add
                >
                    {live(move || {
                        match (nothing_new(), gained()) {
                            (false, _) => "Add what is whole".to_owned(),
                            (true, 0) => "Nothing new to add".to_owned(),
                            (true, count) => {
                                let entries = counted(count, "entry is", "entries are");
                                format!("Nothing new: note that {entries} kept there")
                            }
                        }
                    })}
                </button>
                <button id=move || named("leave-file") on:click=move |_| put_away()>"Leave it"</button>
            </div>
        </section>
    }
    .into_any()
}

/// What merging would do.
#[component]
fn Looked(preview: Preview, more: usize) -> impl IntoView {
    let count = |count: usize| (count > 0).then(|| count.to_string());
    let facts = vec![
        (
            "Entries that are new here".to_owned(),
            Some(preview.new.to_string()),
        ),
        (
            "Planks that are new here".to_owned(),
            count(preview.new_pieces),
        ),
        (
            "Entries that are here already".to_owned(),
            Some(preview.already_here.to_string()),
        ),
        (
            "Entries that differ from the one here".to_owned(),
            count(preview.altered.len()),
        ),
        (
            "Pairs that may be one plank, to be settled after".to_owned(),
            count(preview.pairs.len()),
        ),
        ("Problems".to_owned(), count(preview.problems.len() + more)),
    ];
    let problems = preview.problems.len();
    let unlisted = problems.saturating_sub(LISTED) + more;
    let listed = preview
        .problems
        .into_iter()
        .take(LISTED)
        .map(|problem| view! { <li>{visible_text(&problem.to_string()).into_owned()}</li> })
        .collect_any();
    view! {
        <Facts of=facts />
        {preview
            .newer
            .then(|| {
                view! {
                    <p class="note doubt">
                        "This file is from a newer version of Stillwood. What this version does not know is carried along unharmed; update to see it."
                    </p>
                }
            })}
        {(!preview.altered.is_empty())
            .then(|| {
                view! {
                    <p class="note bad">
                        "Entries never change, so one that differs is damaged or false. Both are kept, one counts by rule, and you choose the right one after."
                    </p>
                }
            })}
        {(problems > 0)
            .then(|| {
                view! {
                    <div class="note doubt">
                        <p>"What can't be read, and so would not be added:"</p>
                        <ol class="problems">{listed}</ol>
                        {(unlisted > 0).then(|| view! { <p>{format!("… and {unlisted} more.")}</p> })}
                    </div>
                }
            })}
    }
}

/// Where a file is from, in a line.
fn origin(reading: &FileReading) -> String {
    let devices = order::set_of(reading.accepted.iter().map(|e| e.by.as_str()));
    let devices: Vec<&str> = devices.into_iter().collect();
    let what = match &reading.header.what {
        Selection::Whole => "A whole record".to_owned(),
        Selection::Visit => "One visit".to_owned(),
        Selection::Other(name) if name.is_empty() => "A record".to_owned(),
        Selection::Other(name) => format!("A selection, “{name}”"),
    };
    let by = match devices.as_slice() {
        [] => String::new(),
        [one] => format!(", entered on device {one}"),
        several => format!(", entered on devices {}", several.join(", ")),
    };
    let version = match reading.header.app.as_str() {
        "" => String::new(),
        app => format!(", written by Stillwood {app}"),
    };
    let at = match reading.header.written.as_str() {
        "" => String::new(),
        at => format!(", its clock said {at}"),
    };
    format!("{what}{by}{version}{at}.")
}

/// What a file will have brought, for the list of imports; none where it brings nothing new.
fn import_of(app: App, name: &str, before: &Preview, entries: &[Entry]) -> Option<Import> {
    let brought: EntryIds = app.record.with_value(|record| {
        let new = entries.iter().map(|entry| entry.id);
        new.filter(|id| record.log().entry(*id).is_none()).collect()
    });
    if brought.is_empty() {
        return None;
    }
    Some(Import {
        id: app.new_id()?.to_string(),
        on: clock::now().day,
        name: name.to_owned(),
        brought,
        planks: before.new_pieces,
    })
}

fn counts(name: &str, before: &Preview, gained: usize) -> String {
    let mut text = format!(
        "{name}: {} entries added, {} planks among them; {} were here already.",
        before.new, before.new_pieces, before.already_here
    );
    if !before.altered.is_empty() {
        text.push_str(&format!(
            " {} differ from what is here.",
            before.altered.len()
        ));
    }
    if !before.problems.is_empty() {
        text.push_str(&format!(" {} could not be read.", before.problems.len()));
    }
    if gained > 0 {
        let entries = counted(gained, "entry counts", "entries count");
        text.push_str(&format!(" From now on {entries} as kept elsewhere."));
    }
    text
}
