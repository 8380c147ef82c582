//! A form that was begun: what is typed is kept at every key and taken up again when the form is next
//! opened, until it is recorded. It tells what is wrong beside the field, asks once about an odd value,
//! and never decides which value is odd.

use super::{FORM, HalfTyped, Part, Recorded, Texts, put_back, texts};
use crate::app::{App, Toast};
use crate::parts::live;
use crate::record::Deed;
use crate::shell::clock;
use chrono::NaiveDate;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use std::collections::BTreeMap;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Event, WarningSubject, WorkWarning, date};
use wasm_bindgen_futures::spawn_local;

/// What is wrong with what is typed.
#[derive(Debug, Clone, Default)]
pub(crate) struct Wrong {
    /// The field; empty where it is several, or none.
    field: String,
    /// Said in the field, where that does not say it itself.
    beside: String,
    /// Said above the button.
    line: String,
}

impl Wrong {
    /// A field that is wrong, and why.
    pub(crate) fn at(field: &str, why: impl Into<String>) -> Self {
        let beside = why.into();
        Self {
            field: field.to_owned(),
            line: beside.clone(),
            beside,
        }
    }

    /// A field that has to be filled in.
    pub(crate) fn missing(field: &str) -> Self {
        Self::at(field, format!("{field} is still to be typed."))
    }

    /// A field that can't be read: it says so itself while it is typed in.
    pub(crate) fn unread(field: &str, why: &str) -> Self {
        Self {
            field: field.to_owned(),
            beside: String::new(),
            line: format!("{field}: {why}"),
        }
    }

    /// The same with other words above the button.
    pub(crate) fn lined(mut self, line: String) -> Self {
        self.line = line;
        self
    }
}

impl From<&str> for Wrong {
    fn from(line: &str) -> Self {
        Self {
            line: line.to_owned(),
            ..Self::default()
        }
    }
}

/// A form while it is filled in.
#[derive(Clone, Copy)]
pub(crate) struct Begun {
    app: App,
    key: StoredValue<String>,
    words: StoredValue<String>,
    parts: StoredValue<Vec<Part>, LocalStorage>,
    /// What stood in it when it was opened afresh.
    first: StoredValue<Texts>,
    /// It was half typed before: what a bare number stood for then.
    found: RwSignal<Option<Units>>,
    wrong: RwSignal<Wrong>,
    /// Fields that are asked about, with the questions.
    asked: RwSignal<Vec<(String, String)>>,
    /// Fields of which the maker said "yes, really", with the texts of which it was said.
    confirmed: RwSignal<BTreeMap<String, String>>,
    busy: RwSignal<bool>,
}

impl Begun {
    /// Opens a form: what was half typed before is taken up, what is typed from here on is kept. Its
    /// `words` name it where it is offered elsewhere.
    pub(crate) fn open(app: App, key: String, words: String, mut parts: Vec<Part>) -> Self {
        let confirmed = RwSignal::new(BTreeMap::new());
        parts.push(Part::of("yes, really", confirmed));
        let known = app.forms.with_untracked(|forms| forms.get(&key).cloned());
        let first = untrack(|| texts(&parts));
        if let Some(known) = &known {
            put_back(&parts, &known.texts);
        }
        let begun = Self {
            app,
            key: StoredValue::new(key),
            words: StoredValue::new(words),
            parts: StoredValue::new_local(parts),
            first: StoredValue::new(first),
            found: RwSignal::new(known.map(|known| known.units)),
            wrong: RwSignal::new(Wrong::default()),
            asked: RwSignal::new(Vec::new()),
            confirmed,
            busy: RwSignal::new(false),
        };
        Effect::new(move |before: Option<Texts>| {
            let now = begun.parts.with_value(|parts| texts(parts));
            if let Some(before) = before.filter(|before| *before != now) {
                begun.touched(&before, &now);
            }
            now
        });
        begun
    }

    /// A key, or a choice.
    fn touched(self, before: &Texts, now: &Texts) {
        let line = self.wrong.with_untracked(|wrong| !wrong.line.is_empty());
        if line {
            self.wrong.set(Wrong::default());
        }
        let other = |name: &String| before.get(name) != now.get(name);
        let gone = |asked: &Vec<(String, String)>| asked.iter().any(|(name, _)| other(name));
        if self.asked.with_untracked(gone) {
            self.asked
                .update(|asked| asked.retain(|(name, _)| !other(name)));
        }
        // What is being recorded is half typed no more.
        if !self.busy.get_untracked() {
            self.keep(now);
        }
    }

    fn keep(self, now: &Texts) {
        let typed = self.parts.with_value(|parts| {
            self.first.with_value(|first| {
                let differs = |part: &Part| now.get(&part.name) != first.get(&part.name);
                parts.iter().any(|part| part.counts && differs(part))
            })
        });
        let key = self.key.get_value();
        if !typed {
            return self.app.drop_form(&key);
        }
        self.app.keep_form(key, self.standing(now.clone()));
    }

    /// The form as it stands.
    fn standing(self, texts: Texts) -> HalfTyped {
        HalfTyped {
            at: self.app.route.get_untracked().href(),
            words: self.words.get_value(),
            units: self.app.units.get_untracked(),
            texts,
        }
    }

    /// Says that it was half typed before, with a way to start afresh.
    pub(crate) fn note(self) -> AnyView {
        let afresh = move |_| {
            let mut first = self.first.get_value();
            self.parts.with_value(|parts| {
                // What the app filled in by itself stays.
                let own = parts.iter().filter(|part| !part.counts);
                own.for_each(|part| drop(first.remove(&part.name)));
                put_back(parts, &first);
            });
            self.found.set(None);
        };
        let note = move || {
            let other = self.found.get()? != self.app.units.get();
            let other = other.then_some(
                " The units have been changed since: a number without one is read otherwise now.",
            );
            Some(view! {
                <div class="note row begun" role="status">
                    <span>"You had begun this: it stands here as you left it."{other}</span>
                    <button type="button" class="afresh" on:click=afresh>"Start afresh"</button>
                </div>
            })
        };
        live(note).into_any()
    }

    /// What is wrong with a field and what is asked about it, to stand beside it.
    pub(crate) fn beside(self, name: &'static str) -> AnyView {
        let wrong = move || {
            let why = self.why(name);
            (!why.is_empty()).then(|| view! { <span class="error">{why}</span> })
        };
        let question = move || {
            let asked = self.asked.get();
            let (_, question) = asked.into_iter().find(|(of, _)| of == name)?;
            Some(view! {
                <div class="note doubt" role="status">
                    <p>{question}</p>
                    <button type="button" class="insist" on:click=move |_| self.insist(name)>
                        "Yes, really"
                    </button>
                </div>
            })
        };
        view! {
            {live(wrong)}
            {live(question)}
        }
        .into_any()
    }

    /// The app that it is filled in in.
    pub(crate) fn app(self) -> App {
        self.app
    }

    /// What is wrong with a field, besides what it says itself.
    pub(crate) fn why(self, name: &str) -> String {
        self.wrong.with(|wrong| match wrong.field == name {
            true => wrong.beside.clone(),
            false => String::new(),
        })
    }

    /// What is wrong, to stand above the button.
    pub(crate) fn line(self) -> String {
        self.wrong.with(|wrong| wrong.line.clone())
    }

    /// Says what is wrong, and goes to the field.
    pub(crate) fn say(self, wrong: Wrong) {
        focus_on(&wrong.field);
        self.wrong.set(wrong);
    }

    /// It is being recorded.
    pub(crate) fn busy(self) -> bool {
        self.busy.get()
    }

    fn text_of(self, name: &str) -> String {
        let read = |parts: &Vec<Part>| {
            let part = parts.iter().find(|part| part.name == name);
            // nothing lost: there is no such field
            part.map(|part| (part.read)()).unwrap_or_default()
        };
        untrack(|| self.parts.with_value(read))
    }

    fn insist(self, name: &str) {
        let text = self.text_of(name);
        self.asked
            .update(|asked| asked.retain(|(of, _)| of != name));
        self.wrong.set(Wrong::default());
        self.confirmed.update(|confirmed| {
            confirmed.insert(name.to_owned(), text);
        });
    }

    /// Whether the maker said "yes, really" of what stands in a field now.
    pub(crate) fn really(self, name: &str) -> bool {
        let text = self.text_of(name);
        self.confirmed
            .with_untracked(|confirmed| confirmed.get(name) == Some(&text))
    }

    /// Asks about fields, each once; true where nothing is left to be answered.
    pub(crate) fn sure(self, mut questions: Vec<(String, String)>) -> bool {
        questions.retain(|(name, _)| !self.really(name));
        let sure = questions.is_empty();
        if !sure {
            let field = questions.first().map(|(name, _)| name.clone());
            self.say(Wrong {
                // nothing lost: no field is named then
                field: field.unwrap_or_default(),
                beside: String::new(),
                line: "Something is asked about above: answer it, then save again.".to_owned(),
            });
        }
        self.asked.set(questions);
        sure
    }

    /// Asks about what is odd in what is to be recorded, each in the field that `label` names; true
    /// where nothing is left to be answered.
    pub(crate) fn sure_of(
        self,
        about: Id,
        event: &Event,
        on: NaiveDate,
        label: impl Fn(WarningSubject) -> &'static str,
    ) -> bool {
        self.sure(asked_of(self.app, about, event, on, label))
    }

    /// The form stays open: what stands in its fields now is what it begins with.
    pub(crate) fn begin_anew(self) {
        let now = untrack(|| self.parts.with_value(|parts| texts(parts)));
        self.first.set_value(now);
        self.found.set(None);
        self.busy.set(false);
    }

    /// Writes deeds down as [`Self::record`] does and says so after `done`, with an undo that opens the
    /// form again as it is typed now.
    pub(crate) fn record_and_say(
        self,
        deeds: Vec<Deed>,
        text: String,
        done: impl FnOnce() + 'static,
    ) {
        let app = self.app;
        let about: Vec<Id> = deeds.iter().map(|deed| deed.about).collect();
        let now = untrack(|| self.parts.with_value(|parts| texts(parts)));
        let form = Some(Recorded {
            key: self.key.get_value(),
            form: self.standing(now),
        });
        self.record(deeds, move |ids| {
            done();
            app.toast.set(Some(Toast {
                text,
                undo: ids.into_iter().zip(about).collect(),
                form,
                ..Toast::default()
            }));
        });
    }

    /// Writes deeds down and drops what was half typed, both or neither; `done` follows with the ids of
    /// the entries and closes the form. A second touch does nothing.
    pub(crate) fn record(self, deeds: Vec<Deed>, done: impl FnOnce(Vec<Id>) + 'static) {
        if self.busy.get_untracked() {
            return;
        }
        self.busy.set(true);
        let (app, key) = (self.app, self.key.get_value());
        spawn_local(async move {
            let ids = app.write(deeds, Some(format!("{FORM}{key}"))).await;
            if ids.is_empty() {
                // The screen may be gone by then.
                self.busy.try_set(false);
            } else {
                app.forms.update(|forms| drop(forms.remove(&key)));
                done(ids);
            }
        });
    }
}

/// What is odd in what is to be recorded, each with the field that `label` names.
pub(crate) fn asked_of(
    app: App,
    about: Id,
    event: &Event,
    on: NaiveDate,
    label: impl Fn(WarningSubject) -> &'static str,
) -> Vec<(String, String)> {
    // nothing lost: it is only asked whether the day is odd
    let today = date(&clock::now().day).unwrap_or(on);
    let units = app.units.get_untracked();
    let warnings =
        app.book_now(|state| queries::work_warnings(state, about, event, on, today, units));
    let named = |warning: WorkWarning| (label(warning.of).to_owned(), warning.question);
    warnings.into_iter().map(named).collect()
}

/// Puts the cursor into the field of a name.
fn focus_on(name: &str) {
    let found = document().get_element_by_id(&crate::parts::slug(name));
    // nothing lost: what is no field takes no focus
    let input = found.and_then(|found| found.dyn_into::<web_sys::HtmlElement>().ok());
    if let Some(input) = input
        && input.focus().is_err()
    {
        leptos::logging::warn!("{name} takes no focus");
    }
}
