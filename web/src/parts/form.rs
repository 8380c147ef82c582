//! Fields of the forms that are filled in once a visit or a pile, with the system's own keyboard.

use crate::held::Begun;
use crate::parts::{CollectAny, given, live};
use leptos::prelude::*;

/// The id of a field in the page, by its label.
pub(crate) fn slug(name: &str) -> String {
    let letters = name.chars().map(|c| {
        if c.is_alphanumeric() {
            c.to_ascii_lowercase()
        } else {
            '-'
        }
    });
    format!("in-{}", letters.collect::<String>())
}

/// A field for text.
#[component]
pub(crate) fn TextField(
    /// Its label.
    name: &'static str,
    /// What is typed.
    value: RwSignal<String>,
    /// A hint below.
    #[prop(optional)]
    hint: &'static str,
    /// What is understood of it, below.
    #[prop(optional, into)]
    echo: Signal<String>,
    /// What is wrong with it.
    #[prop(optional, into)]
    error: Signal<String>,
    /// The system keyboard that fits.
    #[prop(default = "text")]
    inputmode: &'static str,
    /// The form that it belongs to: what that says of it stands below.
    #[prop(optional_no_strip, into)]
    form: Option<Begun>,
) -> impl IntoView {
    let id = slug(name);
    let notes = format!("{id}-notes");
    let wrong = move || !error.get().is_empty() || form.is_some_and(|f| !f.why(name).is_empty());
    view! {
        <div class="field">
            <label for=id.clone()><span class="name">{name}</span></label>
            <input
                id=id type="text" inputmode=inputmode autocomplete="off" aria-describedby=notes.clone()
                aria-invalid=move || wrong().to_string()
                prop:value=move || value.get()
                on:input=move |event| value.set(event_target_value(&event))
            />
            <div id=notes>
                {(!hint.is_empty()).then(|| view! { <span class="hint">{hint}</span> })}
                {live(move || (!echo.get().is_empty()).then(|| view! { <span class="hint echo">{echo.get()}</span> }))}
                {live(move || (!error.get().is_empty()).then(|| view! { <span class="error">{error.get()}</span> }))}
                {form.map(|form| form.beside(name))}
            </div>
        </div>
    }
}

/// A field for a number or an amount of money, typed by the system's decimal keys; comma or point.
#[component]
pub(crate) fn NumberField(
    /// Its label, with the unit.
    name: &'static str,
    /// What is typed.
    value: RwSignal<String>,
    /// A hint below.
    #[prop(optional)]
    hint: &'static str,
    /// What is wrong with it.
    #[prop(optional, into)]
    error: Signal<String>,
    /// The form that it belongs to.
    #[prop(optional_no_strip, into)]
    form: Option<Begun>,
) -> impl IntoView {
    view! {
        <TextField name=name value=value hint=hint error=error form=form inputmode="decimal" />
    }
}

/// A date.
#[component]
pub(crate) fn DateField(
    /// Its label.
    name: &'static str,
    /// As `2026-11-25`.
    value: RwSignal<String>,
    /// The form that it belongs to.
    #[prop(optional_no_strip, into)]
    form: Option<Begun>,
) -> impl IntoView {
    let id = slug(name);
    view! {
        <div class="field">
            <label for=id.clone()><span class="name">{name}</span></label>
            <input
                id=id type="date"
                prop:value=move || value.get()
                on:input=move |event| value.set(event_target_value(&event))
            />
            {form.map(|form| form.beside(name))}
        </div>
    }
}

/// One of a few, as touch-sized chips.
#[component]
pub(crate) fn Choice<T: Copy + PartialEq + Send + Sync + 'static>(
    /// Its label.
    name: &'static str,
    /// What may be chosen, with its words.
    of: Vec<(T, &'static str)>,
    /// What is chosen.
    value: RwSignal<T>,
    /// A hint below.
    #[prop(optional)]
    hint: &'static str,
) -> impl IntoView {
    view! {
        <div class="field" role="group" aria-label=name>
            <span class="name">{name}</span>
            <div class="chips">
                {of.into_iter()
                    .map(|(one, words)| {
                        view! {
                            <button
                                type="button" class="chip"
                                aria-pressed=move || (value.get() == one).to_string()
                                on:click=move |_| value.set(one)
                            >
                                {words}
                            </button>
                        }
                    })
                    .collect_any()}
            </div>
            {(!hint.is_empty()).then(|| view! { <span class="hint">{hint}</span> })}
        </div>
    }
}

/// Yes or no.
#[component]
pub(crate) fn Tick(
    /// What is ticked.
    name: &'static str,
    /// Whether it is.
    value: RwSignal<bool>,
) -> impl IntoView {
    view! {
        <button
            type="button" class="chip" aria-pressed=move || value.get().to_string()
            on:click=move |_| value.update(|on| *on = !*on)
        >
            {live(move || if value.get() { "✓ " } else { "" })}
            {name}
        </button>
    }
}

/// Names and figures in two columns, each figure as it is drawn.
pub(crate) fn facts_drawn(of: Vec<(String, AnyView)>) -> AnyView {
    let rows = of
        .into_iter()
        .map(|(name, figure)| view! { <dt>{name}</dt><dd>{figure}</dd> });
    view! { <dl class="facts">{rows.collect_any()}</dl> }.into_any()
}

/// Names and what was typed or set, in two columns; what was not is left out. What was worked out is drawn
/// by [`facts_drawn`].
#[component]
pub(crate) fn Facts(
    /// Name and what was given.
    of: Vec<(String, Option<String>)>,
) -> impl IntoView {
    let known = of
        .into_iter()
        .filter_map(|(name, text)| Some((name, given(text?))));
    facts_drawn(known.collect())
}
