//! The gluing itself: the adhesive and whether it brings water, how long it stays clamped, the room, the
//! mark; one entry.

use super::Gluing;
use crate::app::App;
use crate::parts::{Choice, NumberField, TextField, When, live};
use crate::record::Deed;
use crate::route::{Route, replace};
use leptos::prelude::*;
use stillwood_core::notebook::{Adhesive, Climate, Glued, Happening, Member};
use stillwood_core::plank::{Seen, Taken};
use stillwood_core::quantity::read;
use wasm_bindgen_futures::spawn_local;

/// What is typed about the gluing.
#[derive(Clone, Copy)]
struct Typed {
    mark: RwSignal<String>,
    adhesive: RwSignal<String>,
    batch: RwSignal<String>,
    mix: RwSignal<String>,
    water: RwSignal<Option<bool>>,
    hours: RwSignal<String>,
    humidity: RwSignal<String>,
    temperature: RwSignal<String>,
}

/// The part of the screen.
pub(super) fn gluing(app: App, gluing: Gluing) -> AnyView {
    let text = || RwSignal::new(String::new());
    let typed = Typed {
        mark: text(),
        adhesive: text(),
        batch: text(),
        mix: text(),
        water: RwSignal::new(None),
        hours: text(),
        humidity: text(),
        temperature: text(),
    };
    spawn_local(async move {
        let mark = app.next_mark().await;
        // A mark that was typed meanwhile stays.
        if typed
            .mark
            .try_get_untracked()
            .is_some_and(|mark| mark.is_empty())
        {
            typed.mark.try_set(mark);
        }
    });
    let busy = RwSignal::new(false);
    let any = move || !gluing.blank.with(Vec::is_empty);
    let water = move || {
        (typed.water.get() == Some(true)).then(|| {
            view! {
                <p class="note doubt" id="brings-water">
                    "It brings water into the wood beside every joint: the blank swells there, and moves as it dries. \
                     Glue that brings none is usual for necks (common practice); else give it a longer rest before \
                     it is planed."
                </p>
            }
        })
    };
    let save = move |_| {
        if !busy.get_untracked() {
            record(app, gluing, typed, busy);
        }
    };
    view! {
        <When so=any>
            <h2>"The gluing"</h2>
            <TextField name="Mark of the blank" value=typed.mark />
            <div class="pair">
                <TextField name="Adhesive" value=typed.adhesive />
                <TextField name="Batch" value=typed.batch hint="to find every blank of a bad one" />
            </div>
            <Choice
                name="Does it bring water?" value=typed.water
                of=vec![(Some(false), "no"), (Some(true), "yes"), (None, "not known")]
            />
            {live(water)}
            <div class="pair">
                <TextField name="Mix" value=typed.mix />
                <NumberField name="Clamped, hours" value=typed.hours />
                <NumberField name="Humidity, %" value=typed.humidity />
                <NumberField name="Room temperature" value=typed.temperature />
            </div>
            <button
                class="primary wide-button" id="save-glued" on:click=save disabled=move || busy.get()
            >
                "Record the gluing"
            </button>
        </When>
    }
    .into_any()
}

/// As typed, with its value; `Err` names what is not understood.
fn number(
    text: RwSignal<String>,
    name: &str,
    unit: &str,
    read: impl Fn(&str) -> Option<f64>,
) -> Result<Option<Taken>, String> {
    let typed = text.get_untracked().trim().to_owned();
    if typed.is_empty() {
        return Ok(None);
    }
    let value = read(&typed).ok_or_else(|| format!("{name}: “{typed}” is not understood."))?;
    Ok(Some(Taken {
        insisted: false,
        seen: Seen::Measured,
        typed,
        unit: unit.to_owned(),
        value,
    }))
}

fn glued(app: App, gluing: Gluing, typed: Typed) -> Result<Glued, String> {
    let units = app.units.get_untracked();
    let mark = typed.mark.get_untracked().trim().to_owned();
    if mark.is_empty() {
        return Err("Give the blank a mark.".into());
    }
    if app.book_now(|book| !book.marked(&mark).is_empty()) {
        return Err(format!(
            "{mark} is the mark of something else: give it another."
        ));
    }
    let plain = |text: &str| {
        let value = crate::screens::decimal(text).ok()??;
        value.to_string().parse::<f64>().ok()
    };
    let clamp_time = number(typed.hours, "Hours", "h", plain)?;
    let percent =
        |text: &str| plain(text.trim_end_matches('%')).filter(|p| (0.0..=100.0).contains(p));
    let humidity = number(typed.humidity, "Humidity", "%", percent)?;
    let warm = |text: &str| read::temperature(text, units).ok().map(|read| read.value);
    let temperature = number(typed.temperature, "Temperature", "°C", warm)?;
    let stock = gluing.sought.get_untracked();
    let member = |placed: &stillwood_core::neck::Placed| {
        Some(Member {
            piece: stock.get(placed.laminate)?.piece,
            rolled: placed.turn.rolled,
            turned: placed.turn.spun,
        })
    };
    let text = |text: RwSignal<String>| text.get_untracked().trim().to_owned();
    Ok(Glued {
        adhesive: Adhesive {
            batch: text(typed.batch),
            brings_water: typed.water.get_untracked(),
            mix: text(typed.mix),
            name: text(typed.adhesive),
        },
        clamp_time,
        climate: Climate {
            humidity,
            temperature,
        },
        mark,
        members: gluing
            .blank
            .with_untracked(|blank| blank.iter().filter_map(member).collect()),
        who: String::new(),
    })
}

fn record(app: App, gluing: Gluing, typed: Typed, busy: RwSignal<bool>) {
    let glued = match glued(app, gluing, typed) {
        Ok(glued) => glued,
        Err(why) => return app.say(why),
    };
    let Some(blank) = app.new_id() else { return };
    let said = format!("Glued: {} of {}.", glued.mark, glued.members.len());
    let deed = Deed::new(blank, Happening::Glued(Box::new(glued)));
    busy.set(true);
    spawn_local(async move {
        let ids = app.write(vec![deed], None).await;
        if ids.is_empty() {
            busy.try_set(false);
            return;
        }
        app.toast.set(Some(crate::app::Toast {
            text: said,
            undo: ids.into_iter().map(|id| (id, blank)).collect(),
            back_to: Some(Route::Glue),
            draft: None,
        }));
        replace(Route::Blanks);
    });
}
