//! The gluing itself: the adhesive and whether it brings water, how long it stays clamped, the room, the
//! mark; one entry.

use super::Gluing;
use crate::app::App;
use crate::held::{Begun, Part, Wrong};
use crate::parts::{Choice, DateField, NumberField, TextField, When, live};
use crate::record::Deed;
use crate::route::{Route, replace};
use crate::screens::glued::water_caution;
use crate::shell::clock;
use leptos::prelude::*;
use stillwood_core::plank::{Reading, Seen};
use stillwood_core::quantity::read::{self, UnderstoodNumber};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Adhesive, Climate, Event, Glued, Member, WarningSubject, date};
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
    day: RwSignal<String>,
}

const MARK: &str = "Mark of the blank";
const HOURS: &str = "Clamped, hours";
const HUMIDITY: &str = "Humidity, %";
const WARMTH: &str = "Room temperature";
const DAY: &str = "Day of the gluing";

impl Typed {
    /// The form while it is half typed, the laminates in hand with it.
    fn begun(self, app: App, gluing: Gluing) -> Begun {
        let fields = [
            ("Adhesive", self.adhesive),
            ("Batch", self.batch),
            ("Mix", self.mix),
            (HOURS, self.hours),
            (HUMIDITY, self.humidity),
            (WARMTH, self.temperature),
            (DAY, self.day),
            ("Laminates in the blank", gluing.count),
        ];
        let mut parts: Vec<Part> = fields.map(|(name, text)| Part::text(name, text)).into();
        // The app finds a mark by itself.
        parts.push(Part::text(MARK, self.mark).beside());
        parts.push(Part::of("water", self.water));
        let read = move || {
            let ids = gluing.chosen.get();
            ids.iter().map(Id::to_string).collect::<Vec<_>>().join(" ")
        };
        let put = move |text: &str| {
            let ids = text.split(' ').filter_map(|id| id.parse().ok());
            gluing.chosen.set(ids.collect());
        };
        parts.push(Part::made("chosen", read, put));
        let read = move || serde_json::to_string(&gluing.members()).unwrap_or_default();
        let put = move |text: &str| {
            let members: Vec<Member> = serde_json::from_str(text).unwrap_or_default();
            gluing.take_up(&members);
        };
        parts.push(Part::made("in hand", read, put));
        Begun::open(
            app,
            "glue".to_owned(),
            "a blank to be glued".to_owned(),
            parts,
        )
    }
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
        day: RwSignal::new(clock::now().day),
    };
    let begun = typed.begun(app, gluing);
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
    let any = move || !gluing.blank.with(Vec::is_empty);
    let water = move || (typed.water.get() == Some(true)).then(water_caution);
    let save = move |_| match glued(app, gluing, typed, begun) {
        Ok(glued) => record(app, begun, glued, typed.day.get_untracked()),
        Err(wrong) => begun.say(wrong),
    };
    view! {
        <When so=any>
            <h2>"The gluing"</h2>
            {begun.note()}
            <TextField name=MARK value=typed.mark form=begun />
            <div class="pair">
                <TextField name="Adhesive" value=typed.adhesive form=begun />
                <TextField
                    name="Batch" value=typed.batch hint="to find every blank of a bad one" form=begun
                />
            </div>
            <Choice
                name="Does it bring water?" value=typed.water
                of=vec![(Some(false), "no"), (Some(true), "yes"), (None, "not known")]
            />
            {live(water)}
            <div class="pair">
                <TextField name="Mix" value=typed.mix form=begun />
                <NumberField name=HOURS value=typed.hours form=begun />
                <NumberField name=HUMIDITY value=typed.humidity form=begun />
                <NumberField name=WARMTH value=typed.temperature form=begun />
            </div>
            <DateField name=DAY value=typed.day form=begun />
            <p class="error-line" role="alert" id="glue-fault">{live(move || begun.line())}</p>
            <button
                class="primary wide-button" id="save-glued" on:click=save
                disabled=move || begun.busy()
            >
                "Record the gluing"
            </button>
        </When>
    }
    .into_any()
}

/// As typed, with its value; `Err` names what is not understood.
fn number(
    begun: Begun,
    text: RwSignal<String>,
    name: &str,
    unit: &'static str,
    read: impl Fn(&str) -> Option<f64>,
) -> Result<Option<Reading>, Wrong> {
    let typed = text.get_untracked().trim().to_owned();
    if typed.is_empty() {
        return Ok(None);
    }
    let why = || Wrong::at(name, format!("“{typed}” is not understood."));
    let value = read(&typed).ok_or_else(why)?;
    let signed = typed.starts_with(['+', '-', '−', '–', '—']);
    let number = UnderstoodNumber {
        value,
        unit,
        signed,
    };
    Ok(Some(Reading {
        confirmed: begun.really(name),
        ..Reading::understood(&typed, &number, Seen::Measured)
    }))
}

fn glued(app: App, gluing: Gluing, typed: Typed, begun: Begun) -> Result<Glued, Wrong> {
    let units = app.units.get_untracked();
    let mark = typed.mark.get_untracked().trim().to_owned();
    if mark.is_empty() {
        return Err(Wrong::at(MARK, "Give the blank a mark."));
    }
    if app.book_now(|state| !queries::pieces_with_mark(state, &mark).is_empty()) {
        let why = format!("{mark} is the mark of something else: give it another.");
        return Err(Wrong::at(MARK, why));
    }
    let plain = |text: &str| {
        let value = crate::screens::decimal(text).ok()??;
        value.to_string().parse::<f64>().ok()
    };
    let clamp_time = number(begun, typed.hours, HOURS, "h", plain)?;
    let percent =
        |text: &str| plain(text.trim_end_matches('%')).filter(|p| (0.0..=100.0).contains(p));
    let humidity = number(begun, typed.humidity, HUMIDITY, "%", percent)?;
    let warm = |text: &str| read::temperature(text, units).ok().map(|read| read.value);
    let temperature = number(begun, typed.temperature, WARMTH, "°C", warm)?;
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
        members: untrack(|| gluing.members()),
        who: String::new(),
    })
}

fn record(app: App, begun: Begun, glued: Glued, day: String) {
    let Some(on) = date(&day) else {
        return begun.say(Wrong::at(DAY, "Which day was it?"));
    };
    let Some(blank) = app.new_id() else { return };
    let text = format!("Glued: {} of {}.", glued.mark, glued.members.len());
    let glued = Event::Glued(Box::new(glued));
    let label = |of: WarningSubject| match of {
        WarningSubject::Humidity => HUMIDITY,
        WarningSubject::Temperature => WARMTH,
        WarningSubject::Clamped => HOURS,
        _ => DAY,
    };
    if !begun.sure_of(blank, &glued, on, label) {
        return;
    }
    let deed = Deed::new(blank, glued).on(day).really(begun.really(DAY));
    begun.record_and_say(vec![deed], text, || replace(Route::Blanks));
}
