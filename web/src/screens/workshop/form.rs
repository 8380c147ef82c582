//! The small forms of the workshop: a list of what is asked, drawn as fields with what is understood
//! of each, and read when it is saved. One form serves every happening; it knows none of them.

use crate::app::App;
use crate::parts::{Choice, CollectAny, DateField, TextField, live};
use crate::screens::reasons::ReasonChips;
use crate::shell::clock;
use leptos::prelude::*;
use std::sync::Arc;
use stillwood_core::plank::{Echo, Field, Measure, Reason, ReasonGroup, Seen, Taken, understand};
use stillwood_core::quantity::read::{self, Understood, Units, Unreadable};
use stillwood_core::quantity::show;

/// What kind of thing is asked for.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Is {
    /// Words, as they stand.
    Words,
    /// A day.
    Day,
    /// Yes or no.
    Tick,
    /// A measurement of a plank.
    Of(Field),
    /// A mass.
    Mass,
    /// A length.
    Length,
    /// A small length, as feelers tell it.
    Small,
    /// A gap with its sign.
    Gap,
    /// A relative humidity.
    Humidity,
    /// A temperature.
    Temperature,
    /// A whole number of months.
    Months,
    /// One of a few, by their names.
    OneOf(&'static [&'static str]),
    /// Reasons to throw it out.
    Reasons,
}

/// One thing that is asked for.
#[derive(Clone, Copy)]
pub(super) struct Ask {
    /// Its label.
    pub(super) label: &'static str,
    /// What it is.
    pub(super) is: Is,
    /// A hint below.
    pub(super) hint: &'static str,
}

/// Something to ask, without a hint.
pub(super) const fn ask(label: &'static str, is: Is) -> Ask {
    Ask {
        label,
        is,
        hint: "",
    }
}

/// The same with a hint.
pub(super) const fn hinted(label: &'static str, is: Is, hint: &'static str) -> Ask {
    Ask { label, is, hint }
}

/// What is typed into a form.
#[derive(Clone, Copy)]
pub(super) struct Filled {
    app: App,
    asks: &'static [Ask],
    texts: StoredValue<Vec<RwSignal<String>>>,
    pick: RwSignal<usize>,
    reasons: RwSignal<Vec<Reason>>,
}

/// A length's reading, a mass's and so on, with how it is shown again.
fn taken(is: Is, typed: &str, units: Units) -> Result<Option<(Taken, String)>, String> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    type Shown = fn(f64, Units) -> String;
    type Found = Result<Understood, Unreadable>;
    let (understood, shown): (Found, Shown) = match is {
        Is::Of(field) => {
            return match understand(field, typed, Seen::Measured, false, units) {
                Echo::Empty => Ok(None),
                Echo::Unreadable(why) => Err(why),
                Echo::Read {
                    taken,
                    shown,
                    doubt,
                    ..
                } => {
                    let shown = finely(field, taken.value, units).unwrap_or(shown);
                    Ok(Some((taken, doubt.map_or(shown, |doubt| doubt.question))))
                }
            };
        }
        Is::Mass => (read::mass(typed, units), show::mass),
        Is::Length => (read::length(typed, units), show::length),
        Is::Small => (read::length(typed, units), show::gap),
        Is::Gap => (read::gap(typed, units), show::gap),
        Is::Humidity => (read::humidity(typed), |value, _| show::moisture(value)),
        Is::Temperature => (read::temperature(typed, units), show::temperature),
        Is::Months => (read::plain(typed), |value, _| {
            format!("{} months", show::number(value, 2))
        }),
        _ => return Ok(None),
    };
    let understood = understood.map_err(|why| why.to_string())?;
    let found = Taken {
        insisted: false,
        seen: Seen::Measured,
        typed: typed.to_owned(),
        unit: understood.unit.to_owned(),
        value: understood.value,
    };
    Ok(Some((found, shown(understood.value, units))))
}

/// A gap at the bench, shown as finely as feelers tell it; a left-hand twist keeps its words.
fn finely(field: Field, value: f64, units: Units) -> Option<String> {
    let left = field == Field::Twist && value < 0.0;
    let fine = field.measure() == Measure::Gap && !left;
    fine.then(|| show::gap(value, units))
}

impl Filled {
    /// A form with nothing typed but what stands in it at first.
    pub(super) fn new(app: App, asks: &'static [Ask], begins: &[(&str, String)]) -> Self {
        let text = |ask: &Ask| {
            let begins = begins.iter().find(|(label, _)| *label == ask.label);
            RwSignal::new(begins.map(|(_, text)| text.clone()).unwrap_or_default())
        };
        Self {
            app,
            asks,
            texts: StoredValue::new(asks.iter().map(text).collect()),
            pick: RwSignal::new(0),
            reasons: RwSignal::new(Vec::new()),
        }
    }

    fn signal(self, label: &str) -> Option<(Is, RwSignal<String>)> {
        let at = self.asks.iter().position(|ask| ask.label == label)?;
        let text = self.texts.with_value(|texts| texts.get(at).copied())?;
        Some((self.asks.get(at)?.is, text))
    }

    /// The same with one of a few chosen at first.
    pub(super) fn picked(self, at: usize) -> Self {
        self.pick.set(at);
        self
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
    pub(super) fn taken(self, label: &str) -> Result<Option<Taken>, String> {
        let Some((is, text)) = self.signal(label) else {
            return Ok(None);
        };
        let units = self.app.units.get_untracked();
        match taken(is, &text.get_untracked(), units) {
            Ok(found) => Ok(found.map(|(taken, _)| taken)),
            Err(why) => Err(format!("{label}: {why}")),
        }
    }

    /// The reading, which has to be there.
    pub(super) fn needed(self, label: &str) -> Result<Taken, String> {
        let missing = || format!("{label} is still to be typed.");
        self.taken(label)?.ok_or_else(missing)
    }

    /// The words, which have to be there.
    pub(super) fn needed_words(self, label: &str) -> Result<String, String> {
        let words = self.words(label);
        if words.is_empty() {
            Err(format!("{label} is still to be typed."))
        } else {
            Ok(words)
        }
    }

    /// The readings of a plank that were typed.
    pub(super) fn readings(self) -> Result<stillwood_core::plank::Readings, String> {
        let mut readings = stillwood_core::plank::Readings::new();
        for ask in self.asks {
            if let (Is::Of(field), Some(taken)) = (ask.is, self.taken(ask.label)?) {
                readings.insert(field, taken);
            }
        }
        Ok(readings)
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
        let app = self.app;
        match is {
            Is::Day => view! { <DateField name=ask.label value=text /> }.into_any(),
            Is::Tick => tick(ask.label, text),
            Is::OneOf(names) => {
                let of = names.iter().copied().enumerate().collect();
                view! { <Choice name=ask.label value=self.pick of=of /> }.into_any()
            }
            Is::Reasons => reasons(self.reasons),
            Is::Words => view! { <TextField name=ask.label value=text hint=ask.hint /> }.into_any(),
            _ => {
                let read = move || text.with(|text| taken(is, text, app.units.get()));
                let echo = Signal::derive(move || match read() {
                    Ok(Some((_, shown))) => shown,
                    _ => String::new(),
                });
                let error = Signal::derive(move || read().err().unwrap_or_default());
                view! { <TextField name=ask.label value=text hint=ask.hint echo=echo error=error /> }
                    .into_any()
            }
        }
    }
}

impl Is {
    fn is_short(self) -> bool {
        !matches!(
            self,
            Is::Words | Is::Tick | Is::OneOf(_) | Is::Reasons | Is::Day
        )
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

/// Why a piece is thrown out: what the workshop finds first, all else below.
fn reasons(chosen: RwSignal<Vec<Reason>>) -> AnyView {
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
        </div>
    }
    .into_any()
}

/// What saving does: an error is told in the form.
pub(super) type Save = Arc<dyn Fn(Filled, String) -> Result<(), String> + Send + Sync>;

/// A form with its button, and its day where that is not asked elsewhere on the screen.
pub(super) fn form(
    filled: Filled,
    name: &'static str,
    day: Option<RwSignal<String>>,
    save: Save,
) -> AnyView {
    let asked = day.is_none();
    let day = day.unwrap_or_else(|| RwSignal::new(clock::now().day));
    let fault = RwSignal::new(String::new());
    let done = move |_| {
        let said = save(filled, day.get_untracked());
        fault.set(said.err().unwrap_or_default());
    };
    view! {
        <section class="card" id="deed" aria-label=name>
            {filled.fields()}
            {asked.then(|| view! { <DateField name="Day" value=day /> })}
            <p class="error-line" role="alert" id="deed-fault">{live(move || fault.get())}</p>
            <button type="button" class="primary wide-button" id="deed-save" on:click=done>
                "Save"
            </button>
        </section>
    }
    .into_any()
}
