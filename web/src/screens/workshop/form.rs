//! The small forms of the workshop: a list of what is asked, drawn as fields with what is understood
//! of each, and read when it is saved. One form serves every happening; it knows none of them.

use super::asks::{Ask, Is, taken};
use crate::app::App;
use crate::drawings::{grain_sign, rings_sign};
use crate::held::{Begun, Part, Wrong, asked_of};
use crate::parts::{Choice, CollectAny, DateField, TextField, live};
use crate::record::Deed;
use crate::screens::reasons::ReasonChips;
use crate::shell::clock;
use chrono::NaiveDate;
use leptos::prelude::*;
use std::sync::Arc;
use stillwood_core::plank::{Reading, Reason, ReasonGroup, RingTilt, RunoutDirection};
use stillwood_core::record::Id;
use stillwood_core::record::{Event, WarningSubject, date};

/// The label of the day.
const DAY: &str = "Day";

/// A form before it is opened.
#[derive(Default)]
pub(super) struct Sheet {
    /// Under which it is kept while it is half typed.
    pub(super) key: String,
    /// Its name where it is offered elsewhere.
    pub(super) words: String,
    /// What is asked.
    pub(super) asks: &'static [Ask],
    /// What stands in it at first, by the labels.
    pub(super) begins: Vec<(&'static str, String)>,
    /// Which of a few is chosen at first.
    pub(super) pick: usize,
    /// The day and its form, where that is asked elsewhere on the screen.
    pub(super) day: Option<(RwSignal<String>, Begun)>,
}

/// What is typed into a form.
#[derive(Clone, Copy)]
pub(super) struct Filled {
    app: App,
    asks: &'static [Ask],
    texts: StoredValue<Vec<RwSignal<String>>>,
    pick: RwSignal<usize>,
    reasons: RwSignal<Vec<Reason>>,
    day: RwSignal<String>,
    begun: Begun,
    /// The form that the day stands in, where that is another.
    dated: Option<Begun>,
}

impl Filled {
    /// Opens a form: as it was left half typed, else with what stands in it at first.
    pub(super) fn open(app: App, sheet: Sheet) -> Self {
        let text = |ask: &Ask| {
            let mut begins = sheet.begins.iter();
            let begins = begins.find(|(label, _)| *label == ask.label);
            RwSignal::new(begins.map(|(_, text)| text.clone()).unwrap_or_default())
        };
        let texts: Vec<RwSignal<String>> = sheet.asks.iter().map(text).collect();
        let named = sheet.asks.iter().zip(&texts);
        let mut parts: Vec<Part> = named
            .map(|(ask, text)| Part::text(ask.label, *text))
            .collect();
        let (pick, reasons) = (RwSignal::new(sheet.pick), RwSignal::new(Vec::new()));
        parts.push(Part::of("chosen", pick));
        parts.push(Part::of("reasons", reasons));
        let day = match sheet.day {
            Some((day, _)) => day,
            None => {
                let day = RwSignal::new(clock::now().day);
                parts.push(Part::text(DAY, day));
                day
            }
        };
        let begun = Begun::open(app, sheet.key, sheet.words, parts);
        Self {
            app,
            asks: sheet.asks,
            texts: StoredValue::new(texts),
            pick,
            reasons,
            day,
            begun,
            dated: sheet.day.map(|(_, dated)| dated),
        }
    }

    fn signal(self, label: &str) -> Option<(Is, RwSignal<String>)> {
        let at = self.asks.iter().position(|ask| ask.label == label)?;
        let text = self.texts.with_value(|texts| texts.get(at).copied())?;
        Some((self.asks.get(at)?.is, text))
    }

    /// Which of a few is chosen.
    pub(super) fn pick(self) -> usize {
        self.pick.get_untracked()
    }

    /// The reasons chosen, the main one first.
    pub(super) fn reasons(self) -> Vec<Reason> {
        self.reasons.get_untracked()
    }

    /// The words typed under a label.
    pub(super) fn words(self, label: &str) -> String {
        let text = self.signal(label).map(|(_, text)| text.get_untracked());
        text.unwrap_or_default().trim().to_owned()
    }

    /// Whether it is ticked.
    pub(super) fn is_on(self, label: &str) -> bool {
        !self.words(label).is_empty()
    }

    /// The reading typed under a label; an error names it.
    pub(super) fn taken(self, label: &str) -> Result<Option<Reading>, Wrong> {
        let Some((is, text)) = self.signal(label) else {
            return Ok(None);
        };
        let units = self.app.units.get_untracked();
        match taken(is, &text.get_untracked(), units) {
            Ok(found) => Ok(found.map(|(taken, _)| Reading {
                confirmed: self.begun.really(label),
                ..taken
            })),
            Err(why) => Err(Wrong::unread(label, &why)),
        }
    }

    /// The reading, which has to be there.
    pub(super) fn needed(self, label: &str) -> Result<Reading, Wrong> {
        self.taken(label)?.ok_or_else(|| Wrong::missing(label))
    }

    /// The words, which have to be there.
    pub(super) fn needed_words(self, label: &str) -> Result<String, Wrong> {
        let words = self.words(label);
        if words.is_empty() {
            Err(Wrong::missing(label))
        } else {
            Ok(words)
        }
    }

    /// The readings of a plank that were typed.
    pub(super) fn readings(self) -> Result<stillwood_core::plank::Readings, Wrong> {
        let mut readings = stillwood_core::plank::Readings::new();
        for ask in self.asks {
            if let (Is::Of(field), Some(taken)) = (ask.is, self.taken(ask.label)?) {
                readings.insert(field, taken);
            }
        }
        Ok(readings)
    }

    /// Asks about what is odd in what is to be recorded; true where nothing is left to be answered.
    fn sure(self, about: Id, event: &Event, on: NaiveDate) -> bool {
        let mut asked = asked_of(self.app, about, event, on, |of| self.label_of(of));
        let Some(dated) = self.dated else {
            return self.begun.sure(asked);
        };
        let days = asked.extract_if(.., |(label, _)| label == DAY).collect();
        let sure = self.begun.sure(asked);
        let sure_of_day = dated.sure(days);
        if sure && !sure_of_day {
            self.begun.say("The day is asked about, further up.".into());
        }
        sure && sure_of_day
    }

    /// The field that a question is about.
    fn label_of(self, of: WarningSubject) -> &'static str {
        match of {
            WarningSubject::Day => DAY,
            WarningSubject::Mass => "Weight",
            WarningSubject::Witness => "The stick weighs",
            WarningSubject::Humidity => "Humidity of the air",
            WarningSubject::Temperature => "Temperature of the air",
            WarningSubject::Gap => "Gap",
            WarningSubject::Clamped => "",
            WarningSubject::Reading(field) => {
                let asks = self.asks.iter().find(|ask| ask.is == Is::Of(field));
                asks.map_or("", |ask| ask.label)
            }
        }
    }

    /// The fields.
    pub(super) fn fields(self) -> AnyView {
        let mut small = Vec::new();
        let mut all = Vec::new();
        // Numbers stand beside each other, all else has a row of its own.
        for ask in self.asks {
            let drawn = self.field(ask);
            if ask.is.is_short() {
                small.push(drawn);
                continue;
            }
            if !small.is_empty() {
                all.push(pair(std::mem::take(&mut small)));
            }
            all.push(drawn);
        }
        if !small.is_empty() {
            all.push(pair(small));
        }
        all.collect_any()
    }

    fn field(self, ask: &'static Ask) -> AnyView {
        let Some((is, text)) = self.signal(ask.label) else {
            return ().into_any();
        };
        let (app, begun) = (self.app, self.begun);
        match is {
            Is::Day => view! { <DateField name=ask.label value=text form=begun /> }.into_any(),
            Is::Tick => tick(ask.label, text),
            Is::OneOf(names) => {
                let of = names.iter().copied().enumerate().collect();
                view! { <Choice name=ask.label value=self.pick of=of /> }.into_any()
            }
            Is::Reasons => reasons(self.reasons, begun.beside(ask.label)),
            Is::Words => view! { <TextField name=ask.label value=text hint=ask.hint form=begun /> }
                .into_any(),
            Is::Rings => pictures(
                ask,
                text,
                RingTilt::ALL.map(|lean| (lean.in_words(), rings_sign(lean))),
            ),
            Is::Grain => pictures(
                ask,
                text,
                RunoutDirection::ALL.map(|rise| (rise.in_words(), grain_sign(rise))),
            ),
            _ => {
                let read = move || text.with(|text| taken(is, text, app.units.get()));
                let echo = Signal::derive(move || match read() {
                    Ok(Some((_, shown))) => shown,
                    _ => String::new(),
                });
                let error = Signal::derive(move || read().err().unwrap_or_default());
                view! {
                    <TextField
                        name=ask.label value=text hint=ask.hint echo=echo error=error form=begun
                    />
                }
                .into_any()
            }
        }
    }
}

fn pair(fields: Vec<AnyView>) -> AnyView {
    view! { <div class="pair">{fields.collect_any()}</div> }.into_any()
}

fn tick(label: &'static str, text: RwSignal<String>) -> AnyView {
    let on = move || text.with(|text| !text.is_empty());
    let turn = move |_| {
        text.update(|text| {
            *text = if text.is_empty() {
                "yes".to_owned()
            } else {
                String::new()
            }
        });
    };
    view! {
        <div class="field">
            <button type="button" class="chip" aria-pressed=move || on().to_string() on:click=turn>
                {live(move || if on() { "✓ " } else { "" })}
                {label}
            </button>
        </div>
    }
    .into_any()
}

/// Pictures of which one is tapped, by their words; a second tap takes it back.
fn pictures(
    ask: &'static Ask,
    text: RwSignal<String>,
    of: [(&'static str, AnyView); 3],
) -> AnyView {
    let one = |(words, drawn): (&'static str, AnyView)| {
        let on = move || text.with(|text| text == words);
        let tap = move |_| {
            text.update(|text| {
                *text = if text == words {
                    String::new()
                } else {
                    words.to_owned()
                }
            });
        };
        view! {
            <button
                type="button" class="chip" aria-label=words aria-pressed=move || on().to_string()
                on:click=tap
            >
                {drawn}
            </button>
        }
    };
    view! {
        <div class="field" role="group" aria-label=ask.label>
            <span class="name">{ask.label}</span>
            <div class="signs">{of.map(one).collect_any()}</div>
            <span class="hint">{ask.hint}</span>
        </div>
    }
    .into_any()
}

/// Why a piece is thrown out: what the workshop finds first, all else below.
fn reasons(chosen: RwSignal<Vec<Reason>>, said: AnyView) -> AnyView {
    let of = |wanted: bool| -> Vec<Reason> {
        let of_the_shop = |reason: &Reason| {
            matches!(
                reason.group(),
                ReasonGroup::Workshop | ReasonGroup::OwnDoing | ReasonGroup::Shape
            )
        };
        let all = Reason::ALL.iter().copied();
        let fits = |reason: &Reason| {
            of_the_shop(reason) == wanted && reason.group() != ReasonGroup::Commerce
        };
        all.filter(fits).collect()
    };
    view! {
        <div class="field" role="group" aria-label="Why">
            <span class="name">"Why? The first is the main reason."</span>
            <ReasonChips of=of(true) chosen=chosen />
            <details>
                <summary>"Other reasons"</summary>
                <ReasonChips of=of(false) chosen=chosen />
            </details>
            {said}
        </div>
    }
    .into_any()
}

/// What is written down: what it is about, and what happened.
pub(super) type Written = (Id, Event);

/// What saving makes of what is typed, or what is wrong with it.
pub(super) type Save = Arc<dyn Fn(Filled) -> Result<Written, Wrong> + Send + Sync>;

/// A form with its button, and its day where that is not asked elsewhere on the screen. It stays until
/// what was typed is kept; then `said` goes before the words of what happened, and `close` follows.
pub(super) fn form(
    filled: Filled,
    name: &'static str,
    said: String,
    save: Save,
    close: Callback<()>,
) -> AnyView {
    let begun = filled.begun;
    let done = move |_| match save(filled) {
        Ok(written) => record(filled, written, said.clone(), close),
        Err(wrong) => begun.say(wrong),
    };
    let day = if filled.dated.is_none() {
        view! { <DateField name=DAY value=filled.day form=begun /> }.into_any()
    } else {
        ().into_any()
    };
    view! {
        <section class="card" id="deed" aria-label=name>
            {begun.note()}
            {filled.fields()}
            {day}
            <p class="error-line" role="alert" id="deed-fault">{live(move || begun.line())}</p>
            <button
                type="button" class="primary wide-button" id="deed-save" on:click=done
                disabled=move || begun.busy()
            >
                "Save"
            </button>
        </section>
    }
    .into_any()
}

fn record(filled: Filled, (about, event): Written, said: String, close: Callback<()>) {
    let begun = filled.begun;
    let dated = filled.dated.unwrap_or(begun);
    let day = filled.day.get_untracked();
    let Some(on) = date(&day) else {
        return dated.say(Wrong::at(DAY, "Which day was it?"));
    };
    if !filled.sure(about, &event, on) {
        return;
    }
    let text = format!("{said}: {}.", event.workshop_words().unwrap_or_default());
    let deed = Deed::new(about, event).on(day);
    let deed = deed.really(dated.really(DAY));
    begun.record_and_say(vec![deed], text, move || close.run(()));
}
