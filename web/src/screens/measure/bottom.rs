//! The keypad and the decision, under the thumb.

use super::fields::step_on;
use super::questions::Question;
use super::setting::Setting;
use crate::app::App;
use crate::entering::echo_of;
use crate::parts::{Key, Keys, after_key, live};
use crate::screens::reasons::AllReasons;
use leptos::prelude::*;
use stillwood_core::plank::{Field, Reason, Seen, Understood, retyped};
use stillwood_core::record::{Decision, DraftValue};
use stillwood_core::verdict::Sheet;

/// The keypad, or the decision alone when no field has the thumb.
#[component]
pub(super) fn Bottom(setting: StoredValue<Setting>, judged: Memo<Option<Sheet>>) -> impl IntoView {
    let app = expect_context::<App>();
    let entering = app.entering;
    let leaving = RwSignal::new(false);
    let chosen = RwSignal::new(Vec::<Reason>::new());
    let decide = move |decision: Decision, reasons: Vec<Reason>| {
        let Some(sheet) = judged.get_untracked() else {
            return;
        };
        leaving.set(false);
        app.decide(setting.get_value(), &sheet, decision, reasons);
    };
    let ask_why = move |_| {
        let found = judged.with_untracked(|sheet| {
            sheet
                .as_ref()
                .map(|sheet| sheet.verdict.reasons.clone())
                .unwrap_or_default()
        });
        chosen.set(found);
        entering.active.set(None);
        leaving.set(true);
    };
    let keys = move || {
        view! {
            <button type="button" class="leave" id="leave" on:click=ask_why>"Leave…"</button>
            <button type="button" id="aside" on:click=move |_| decide(Decision::SetAside, Vec::new())>
                "Set aside"
            </button>
            <button
                type="button" class="take" id="take"
                on:click=move |_| decide(Decision::Take, Vec::new())
            >
                "Take"
            </button>
        }
    };
    let press = move |key: Key| {
        let Some(field) = entering.active.get_untracked() else {
            return;
        };
        match key {
            Key::Next => step_on(entering, field),
            Key::Hide => entering.active.set(None),
            _ => {
                let now = untrack(|| entering.value(field));
                let text = if now.seen == Seen::ByEye {
                    String::new()
                } else {
                    now.text
                };
                entering.put(field, after_key(&text, key));
            }
        }
    };
    let keypad = move || {
        entering.active.get().map(|field| {
            view! {
                <div class="keypad">
                    <Reading field=field />
                    <Keys field=field press=press />
                    <div class="decide-keys">{keys()}</div>
                </div>
            }
        })
    };
    let alone = move || {
        (entering.active.get().is_none() && !leaving.get())
            .then(|| view! { <div class="decide"><div class="row">{keys()}</div></div> })
    };
    let why = move || {
        leaving.get().then(|| {
            let main = move || {
                chosen.with(|c| match c.first() {
                    Some(reason) => format!("Leave it: {}", reason.name()),
                    None => "Leave it".into(),
                })
            };
            view! {
                <section class="sheet-over" id="why" aria-label="Why is it left?">
                    <h2>"Why is it left? The first is the main reason."</h2>
                    <AllReasons chosen=chosen />
                    <div class="decide">
                        <div class="row">
                            <button type="button" on:click=move |_| leaving.set(false)>"Back"</button>
                            <button
                                type="button" class="leave" id="leave-now"
                                on:click=move |_| decide(Decision::Leave, chosen.get_untracked())
                            >
                                {live(main)}
                            </button>
                        </div>
                    </div>
                </section>
            }
        })
    };
    view! {
        {live(keypad)}
        {live(alone)}
        {live(why)}
    }
}

/// The line over the keys: what is typed, the plank before, and the question that is open.
#[component]
fn Reading(field: Field) -> impl IntoView {
    let app = expect_context::<App>();
    let entering = app.entering;
    let echo = Memo::new(move |_| echo_of(field, &entering.value(field), app.units.get()));
    // What is understood, read back large; what can't be read stands as it was typed.
    let text = move || match echo.get() {
        Understood::Empty => "–".to_owned(),
        Understood::Unreadable(_) => entering.value(field).text,
        Understood::Read { shown, other, .. } if other.is_empty() => shown,
        Understood::Read { shown, other, .. } => format!("{shown} = {other}"),
    };
    let before = Memo::new(move |_| {
        let taken = entering.last.with(|last| last.get(&field).cloned())?;
        entering.value(field).text.is_empty().then_some(taken)
    });
    let as_before = move || {
        before.get().map(|taken| {
            let words = format!("as before: {}", taken.typed);
            let put = move |_| {
                let value = DraftValue {
                    text: retyped(field, &taken),
                    seen: taken.seen,
                    confirmed: taken.confirmed,
                };
                entering.put_value(field, value);
                step_on(entering, field);
            };
            view! {
                <button
                    type="button" class="chip" id="as-before"
                    on:mousedown=|event| event.prevent_default() on:click=put
                >
                    {words}
                </button>
            }
        })
    };
    let asked = Memo::new(move |_| echo.with(|echo| echo.warning().cloned()));
    let warning = move || {
        asked
            .get()
            .map(|warning| view! { <Question field=field warning=warning /> })
    };
    view! {
        <div class="reading">
            <small>{field.label()}</small>
            <strong>{live(text)}</strong>
            {live(as_before)}
        </div>
        {live(warning)}
    }
}
