//! How long wood rests in each stage and how far it may move, as the maker sets it; and the air of the
//! rooms, with the moisture that wood settles at in it.

use super::asks::{Ask, Is, ask, hinted};
use super::deeds::{STICK, STICK_WEIGHS, climate, witness};
use super::form::{Filled, Save, Sheet, form};
use super::terms::{asked_of, begins, stage_set};
use crate::app::App;
use crate::held::Wrong;
use crate::parts::{CollectAny, Facts, Frame, facts_drawn, given, live, told_figure};
use crate::route::Route;
use crate::screens::figures::counted;
use leptos::prelude::*;
use std::sync::Arc;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::show;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Dated, Event, RoomRead, WitnessFound};
use stillwood_core::season::{Limit, Stage, StageLimits, Warp};

const ROOM: [Ask; 6] = [
    hinted("Room", Is::Words, "Shelves whose names begin so lie in it."),
    ask("Humidity of the air", Is::Humidity),
    ask("Temperature of the air", Is::Temperature),
    ask("Hygrometer", Is::Words),
    STICK,
    STICK_WEIGHS,
];

/// Which form is open.
#[derive(Clone, Copy, PartialEq)]
enum Open {
    Stage(Stage),
    Room,
}

impl Open {
    /// Under which the form is kept while it is half typed.
    fn key(self) -> String {
        match self {
            Open::Stage(stage) => format!("terms/{}", stage.name()),
            Open::Room => "room".to_owned(),
        }
    }
}

/// The screen.
#[component]
pub(crate) fn Rests() -> impl IntoView {
    let app = expect_context::<App>();
    let forms = Stage::ALL.into_iter().map(Open::Stage).chain([Open::Room]);
    // What was half typed stands open again.
    let half_typed = |open: &Open| app.forms.with_untracked(|f| f.contains_key(&open.key()));
    let open = RwSignal::new(forms.into_iter().find(half_typed));
    let rooms = move || {
        let units = app.units.get();
        let rooms = app.state(|state| {
            let last = |(room, read): (&String, &Vec<Dated<RoomRead>>)| {
                Some((
                    room.clone(),
                    read.last()?.clone(),
                    queries::witness_in(state, room),
                ))
            };
            queries::rooms(state)
                .iter()
                .filter_map(last)
                .collect::<Vec<_>>()
        });
        if rooms.is_empty() {
            let words = "No room was read yet. Without its air nothing can be said about drying.";
            return view! { <p>{words}</p> }.into_any();
        }
        let mut of = Vec::new();
        let mut apart = Vec::new();
        for (room, said, told) in rooms {
            let read = last_read(said, units);
            if let Some(told) = &told {
                of.push((room.clone(), read));
                of.push((format!("{room}: {}", stick_name(told)), stick_says(told)));
                apart.extend(told.disagrees().then_some(room));
            } else {
                of.push((room, read));
            }
        }
        let apart = apart.into_iter().map(|room| {
            view! {
                <p class="note doubt stick-apart">
                    <strong>{room}</strong>
                    ": the stick and the hygrometer are more than 1 % apart. A hygrometer drifts, and a stick that is not seasoned through goes on drying: look at both."
                </p>
            }
        });
        view! {
            {facts_drawn(of)}
            {apart.collect_any()}
        }
        .into_any()
    };
    view! {
        <Frame title="Rests and rooms" back=Route::Workshop>
            <p class="small">
                "A change holds for all that rests, from now on. What is supplied is common practice: it has no source."
            </p>
            {Stage::ALL.iter().map(|stage| card(app, *stage, open)).collect_any()}
            <h2>"Rooms"</h2>
            <div id="rooms">{live(rooms)}</div>
            {toggle("Read a room", Open::Room, open)}
            {live(move || (open.get() == Some(Open::Room)).then(|| room_form(app, open)))}
        </Frame>
    }
}

fn toggle(name: &'static str, which: Open, open: RwSignal<Option<Open>>) -> AnyView {
    let is_open = move || open.get() == Some(which);
    view! {
        <button
            type="button" class="wide-button" aria-expanded=move || is_open().to_string()
            on:click=move |_| open.update(|open| *open = (*open != Some(which)).then_some(which))
        >
            {name}
        </button>
    }
    .into_any()
}

fn change_name(stage: Stage) -> &'static str {
    match stage {
        Stage::Pieces => "Change the terms for pieces",
        Stage::Laminates => "Change the terms for laminates",
        Stage::Blanks => "Change the terms for blanks",
    }
}

fn card(app: App, stage: Stage, open: RwSignal<Option<Open>>) -> AnyView {
    let facts = move || {
        let terms = app.state(|state| queries::stage_limits(state, stage));
        in_words(stage, &terms, app.units.get())
    };
    let name = change_name(stage);
    view! {
        <h2>{format!("Rest of {}", stage.name())}</h2>
        {live(move || view! { <Facts of=facts() /> })}
        {toggle(name, Open::Stage(stage), open)}
        {live(move || (open.get() == Some(Open::Stage(stage))).then(|| stage_form(app, stage, open)))}
    }
    .into_any()
}

fn in_words(stage: Stage, terms: &StageLimits, units: Units) -> Vec<(String, Option<String>)> {
    let months = match terms.months_most {
        Some(most) => format!("{} to {most} months", terms.months),
        None => format!("{} months and more", terms.months),
    };
    let limit = |limit: Limit| {
        let out = format!("out over {}", show::gap(limit.reject_mm, units));
        match limit.warn_mm {
            Some(watch) => format!("watched over {}, {out}", show::gap(watch, units)),
            None => out,
        }
    };
    let mut of = Vec::new();
    if stage == Stage::Pieces {
        let weeks = counted(terms.weeks_before_cut() as usize, "week", "weeks");
        of.push((
            "A plank, before it is cut".to_owned(),
            Some(format!("{weeks} in the room")),
        ));
    }
    of.push(("At rest".to_owned(), Some(months)));
    for warp in Warp::ALL {
        let words = warp.limit(terms).map_or("not judged".to_owned(), limit);
        of.push((warp.name().to_owned(), Some(words)));
    }
    let over = show::length(terms.over_mm, units);
    of.push(("Limits hold over".to_owned(), Some(over)));
    of
}

fn stage_form(app: App, stage: Stage, open: RwSignal<Option<Open>>) -> AnyView {
    let terms = app.book_now(|state| queries::stage_limits(state, stage));
    let sheet = Sheet {
        key: Open::Stage(stage).key(),
        words: format!("terms for {}", stage.name()),
        asks: asked_of(stage),
        begins: begins(&terms),
        ..Sheet::default()
    };
    let save = move |filled: Filled| {
        let about = app.new_id().ok_or("This device gives no new names.")?;
        Ok((about, stage_set(filled, stage)?))
    };
    shown(app, sheet, "Save the terms", Arc::new(save), open)
}

fn room_form(app: App, open: RwSignal<Option<Open>>) -> AnyView {
    // The room that was read last comes first to mind where there is only one.
    let only = app.book_now(|state| {
        let mut rooms = queries::rooms(state).keys();
        rooms.next().filter(|_| rooms.next().is_none()).cloned()
    });
    let sheet = Sheet {
        key: Open::Room.key(),
        words: "reading of a room".to_owned(),
        asks: &ROOM,
        begins: vec![("Room", only.unwrap_or_default())],
        ..Sheet::default()
    };
    let save = move |filled: Filled| {
        let read = RoomRead {
            climate: climate(filled)?,
            hygrometer: filled.words("Hygrometer"),
            room: filled.needed_words("Room")?,
            witness: witness(filled)?,
        };
        if read.climate.is_empty() && read.witness.is_none() {
            let why = "Type the humidity or the temperature, or what the stick weighs.";
            return Err(Wrong::at("Humidity of the air", why));
        }
        let about = about_room(app, &read.room).or_else(|| app.new_id());
        let about = about.ok_or("This device gives no new names.")?;
        Ok((about, Event::RoomRead(Box::new(read))))
    };
    shown(app, sheet, "Save the reading", Arc::new(save), open)
}

fn shown(
    app: App,
    sheet: Sheet,
    name: &'static str,
    save: Save,
    open: RwSignal<Option<Open>>,
) -> AnyView {
    let close = Callback::new(move |()| open.set(None));
    form(
        Filled::open(app, sheet),
        name,
        "Saved".to_owned(),
        save,
        close,
    )
}

/// The id under which a room was read before.
fn about_room(app: App, room: &str) -> Option<Id> {
    let entry = app.book_now(|state| Some(queries::rooms(state).get(room)?.last()?.entry))?;
    app.record
        .with_value(|record| Some(record.log().entry(entry)?.about))
}

fn stick_name(told: &WitnessFound) -> &str {
    match told.stick.as_str() {
        "" => "the stick",
        name => name,
    }
}

/// What a stick says, beside what the hygrometer said about then.
fn stick_says(told: &WitnessFound) -> AnyView {
    let read = told.hygrometer.map(|air| show::moisture(air.in_percent()));
    let counts = match read {
        Some(_) => "counts from here",
        None => "counts once a hygrometer is read with it",
    };
    let says = match &told.says {
        Some(Ok(air)) => {
            let working = told.working.clone();
            let settles = show::moisture(air.in_percent());
            let name = "Wood settles at, by the stick".to_owned();
            let figure = told_figure(name, settles, move || working.clone());
            view! { "wood settles at " {figure} }.into_any()
        }
        Some(Err(why)) => why.to_string().into_any(),
        None => counts.into_any(),
    };
    let read = read.map(|read| {
        let working = told.hygrometer_working.clone();
        let name = "Wood settles at, by the hygrometer".to_owned();
        let figure = told_figure(name, read, move || working.clone());
        view! { ", by the hygrometer at " {figure} }
    });
    view! { {says} {read} " (" {told.on.to_string()} ")" }.into_any()
}

/// What was read last in a room, and where wood settles in that air.
fn last_read(said: Dated<RoomRead>, units: Units) -> AnyView {
    let air = &said.payload.climate;
    let mut parts: Vec<String> = Vec::new();
    if let Some(humidity) = &air.humidity {
        parts.push(format!("{} humidity", show::moisture(humidity.value)));
    }
    if let Some(warmth) = &air.temperature {
        parts.push(show::temperature(warmth.value, units));
    }
    let settles = match said.payload.settles_at() {
        Some(Ok(moisture)) => {
            let settles = show::moisture(moisture.in_percent());
            let read = said.payload.clone();
            let tell = move || read.explain_equilibrium();
            let figure = told_figure("Wood settles at".to_owned(), settles, tell);
            view! { "wood settles at " {figure} }.into_any()
        }
        Some(Err(why)) => why.to_string().into_any(),
        None => "no humidity".into_any(),
    };
    parts.push(said.on.to_string());
    let parts = given(parts.join(", "));
    view! { {parts} "; " {settles} }.into_any()
}
