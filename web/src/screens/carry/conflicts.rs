//! Different texts of one entry: all are shown with what differs, one is in force by rule, and the maker
//! settles it by choosing. Nothing is dropped.

use super::settle::about;
use crate::app::App;
use crate::parts::{CollectAny, When, live};
use crate::record::Deed;
use crate::screens::figures::counted;
use crate::screens::words;
use leptos::prelude::*;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Conflict;
use stillwood_core::record::Id;
use stillwood_core::record::queries;

/// Conflicts shown at once; those settled make room for the next.
const SHOWN: usize = 20;
/// Differences shown of one.
const ROWS: usize = 30;

/// One conflict, ready to be drawn.
#[derive(Clone, PartialEq)]
struct Drawn {
    id: Id,
    title: String,
    /// Who wrote each text and when, what it says, and the text itself.
    texts: Vec<(String, String, String)>,
    /// What differs, with its value in each text.
    rows: Vec<(String, Vec<String>)>,
    more_rows: usize,
    more_texts: usize,
    settled: bool,
}

/// The part of the screen; nothing when there is none.
#[component]
pub(super) fn Conflicts() -> impl IntoView {
    let app = expect_context::<App>();
    let units = app.units;
    let found = Memo::new(move |_| drawn(app, units.get()));
    let open = move |settled: bool| {
        let all = found.get();
        let some = all.into_iter().filter(|one| one.settled == settled);
        some.take(SHOWN).collect::<Vec<_>>()
    };
    let count = move |settled: bool| {
        found.with(|all| all.iter().filter(|one| one.settled == settled).count())
    };
    let more = move || {
        let more = count(false).saturating_sub(SHOWN);
        (more > 0).then(|| {
            let more = counted(more, "more follows", "more follow");
            view! { <p class="small">{format!("{more} as you settle these.")}</p> }
        })
    };
    let cards = move |settled| {
        open(settled)
            .into_iter()
            .map(|one| card(app, one))
            .collect_any()
    };
    view! {
        <When so=move || found.with(|found| !found.is_empty())>
            <h2 id="conflicts">"One entry, two texts"</h2>
            <When so=move || { count(false) > 0 }>
                <p class="small">
                    "The same entry came in different words: one is damaged, or was written under a name that two devices share. Choose the right one. The other is kept, and counts for nothing."
                </p>
            </When>
            <div id="open-conflicts">{live(move || cards(false))}</div>
            {live(more)}
            <When so=move || { count(true) > 0 }>
                <details id="settled-conflicts">
                    <summary>{live(move || format!("{} settled", count(true)))}</summary>
                    {live(move || cards(true))}
                </details>
            </When>
        </When>
    }
}

fn drawn(app: App, units: Units) -> Vec<Drawn> {
    app.changed.track();
    app.record.with_value(|record| {
        let state = record.state();
        let one = |conflict: &Conflict<'_>| {
            let texts = conflict
                .variants
                .iter()
                .map(|entry| {
                    let device = queries::device_shown(state, &entry.by);
                    let who = format!("{}, device {device}", entry.on);
                    let what = words::event(&entry.event, units);
                    (who, what, entry.to_line())
                })
                .collect::<Vec<_>>();
            let mut rows = conflict.differences();
            let more_rows = rows.len().saturating_sub(ROWS);
            rows.truncate(ROWS);
            let first = conflict.variants.first();
            Drawn {
                id: conflict.id,
                title: first.map_or_else(String::new, |entry| about(state, entry.about)),
                more_texts: conflict.total.saturating_sub(texts.len()),
                texts,
                rows: rows
                    .into_iter()
                    .map(|(key, values)| (key_in_words(&key), values))
                    .collect(),
                more_rows,
                settled: conflict.settled,
            }
        };
        record.log().conflicts().iter().map(one).collect()
    })
}

/// What a key of an entry stands for.
fn key_in_words(key: &str) -> String {
    let whole = match key {
        "about" => "what it is about",
        "at" => "the clock",
        "by" => "the device",
        "happening" => "what happened",
        "on" => "the day",
        "on_insisted" => "the day was insisted on",
        "seq" => "the device's running number",
        "step" => "its place in the order",
        "v" => "the version of the entry",
        _ => "",
    };
    if !whole.is_empty() {
        return whole.to_owned();
    }
    let key = key.strip_prefix("body.").unwrap_or(key);
    key.replace('_', " ").replace('.', ", ")
}

fn card(app: App, one: Drawn) -> AnyView {
    let chosen = RwSignal::new(0_usize);
    let id = one.id;
    let texts: Vec<String> = one.texts.iter().map(|(_, _, line)| line.clone()).collect();
    let save = move |_| {
        let Some(line) = texts.get(chosen.get_untracked()) else {
            return;
        };
        let settled = app.record.with_value(|record| {
            let conflicts = record.log().conflicts();
            let conflict = conflicts.iter().find(|conflict| conflict.id == id)?;
            let at = conflict
                .variants
                .iter()
                .position(|entry| entry.to_line() == *line)?;
            conflict.settle(at)
        });
        match settled {
            Some((about, event)) => {
                let deed = Deed::new(about, event);
                app.write_and_say(vec![deed], "Settled.".into(), None);
            }
            None => app.say("That text is not here any more."),
        }
    };
    let group = format!("conflict-{id}");
    let letter =
        |at: usize| char::from(b'A'.saturating_add(u8::try_from(at).unwrap_or(25).min(25)));
    let choice = {
        let group = group.clone();
        move |(at, (who, what, _)): (usize, (String, String, String))| {
            let force = if at == 0 { " (in force now)" } else { "" };
            view! {
                <label class="choose-one">
                    <input
                        type="radio" name=group.clone() prop:checked=move || chosen.get() == at
                        on:change=move |_| chosen.set(at)
                    />
                    <span>
                        <strong>{format!("{}: {who}{force}", letter(at))}</strong>
                        <br />
                        <bdi>{what}</bdi>
                    </span>
                </label>
            }
        }
    };
    let heads = (0..one.texts.len())
        .map(|at| view! { <th scope="col">{letter(at).to_string()}</th> })
        .collect_any();
    let row = |(key, values): (String, Vec<String>)| {
        let cell = |value: String| {
            let value = if value.is_empty() {
                "–".to_owned()
            } else {
                value
            };
            view! { <td class="apart"><bdi>{value}</bdi></td> }
        };
        view! {
            <tr>
                <th scope="row">{key}</th>
                {values.into_iter().map(cell).collect_any()}
            </tr>
        }
    };
    let (more_rows, more_texts) = (one.more_rows, one.more_texts);
    let title = one.title.clone();
    view! {
        <section class="card conflict" aria-label=title>
            <h3>{one.title}</h3>
            <div class="scroll" tabindex="0" role="region" aria-label="What differs">
                <table>
                    <thead>
                        <tr>
                            <th scope="col">"What differs"</th>
                            {heads}
                        </tr>
                    </thead>
                    <tbody class="given">{one.rows.into_iter().map(row).collect_any()}</tbody>
                </table>
            </div>
            {(more_rows > 0).then(|| view! { <p class="small">{format!("… and {more_rows} more differences.")}</p> })}
            <fieldset class="field">
                <legend>"Which one is right?"</legend>
                {one.texts.into_iter().enumerate().map(choice).collect_any()}
            </fieldset>
            {(more_texts > 0).then(|| view! { <p class="small">{format!("… and {more_texts} more texts, kept as well.")}</p> })}
            <button class="primary settle-conflict" on:click=save>"Save"</button>
        </section>
    }
    .into_any()
}
