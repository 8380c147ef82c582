//! How a number was worked out: any figure that was computed is a button, and what it tells opens over
//! the page. What is told comes from core; nothing is worked out here.
//!
//! A number with a unit is one of three things on a screen: [`told_figure`], which was worked out;
//! [`given`], which the maker typed or set; or part of a link, a button or a drawing, which lead to the place
//! where it is told or stand beside it. A bare count of what stands in a list tells itself.

use crate::app::App;
use crate::parts::{CollectAny, live};
use leptos::prelude::*;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{Derivation, Step};

/// A number that was asked for, and how it was worked out.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Told {
    /// What it is.
    pub(crate) name: String,
    /// As it is shown.
    pub(crate) figure: String,
    /// How it was worked out.
    pub(crate) working: Derivation,
}

/// A figure that tells how it was worked out when it is pressed.
pub(crate) fn told_figure(
    name: String,
    figure: String,
    working: impl Fn() -> Option<Derivation> + 'static,
) -> AnyView {
    telling(name, figure, Box::new(working))
}

fn telling(name: String, figure: String, working: Box<dyn Fn() -> Option<Derivation>>) -> AnyView {
    let app = expect_context::<App>();
    let label = format!("{name}: {figure}. How this was worked out");
    let shown = figure.clone();
    let tell = move |event: web_sys::MouseEvent| {
        // It may stand in a row that opens at a touch.
        event.stop_propagation();
        if let Some(working) = working() {
            app.told.set(Some(Told {
                name: name.clone(),
                figure: figure.clone(),
                working,
            }));
        }
    };
    view! {
        <button type="button" class="figure" aria-label=label on:click=tell>{shown}</button>
    }
    .into_any()
}

/// A figure under its name, see [`told_figure`].
pub(crate) fn told_fact(
    name: &str,
    figure: String,
    working: impl Fn() -> Option<Derivation> + 'static,
) -> (String, AnyView) {
    let told = telling(name.to_owned(), figure, Box::new(working));
    (name.to_owned(), told)
}

/// What the maker typed or set: there is nothing to work out.
pub(crate) fn given(text: String) -> AnyView {
    view! { <span class="given">{text}</span> }.into_any()
}

/// Where it is told: over the page, closed by its button, by Escape or by the way back.
#[component]
pub(crate) fn Tells() -> impl IntoView {
    let app = expect_context::<App>();
    let place = NodeRef::<leptos::html::Dialog>::new();
    Effect::new(move |_| {
        let open = app.told.with(Option::is_some);
        if let Some(dialog) = place.get_untracked() {
            if open && !dialog.open() {
                // Already in the page and closed: nothing that it could refuse.
                let _ = dialog.show_modal();
                dialog.set_scroll_top(0);
            } else if !open && dialog.open() {
                dialog.close();
            }
        }
    });
    // Another screen is another matter.
    Effect::new(move |_| {
        app.route.track();
        app.told.set(None);
    });
    let close = move || app.told.set(None);
    let content = move || {
        let told = app.told.get()?;
        Some(content(told, app.units.get()))
    };
    view! {
        <dialog class="told" node_ref=place on:close=move |_| close() aria-labelledby="told-name">
            {live(content)}
            <button type="button" class="wide-button" id="told-close" on:click=move |_| close()>
                "Close"
            </button>
        </dialog>
    }
}

fn content(told: Told, units: Units) -> AnyView {
    let Derivation {
        steps,
        notes,
        source,
        spread,
    } = told.working;
    let spread = spread.map(|spread| {
        let shares: Vec<String> = spread
            .shares
            .iter()
            .filter(|(_, share)| *share >= 0.5)
            .map(|(source, share)| format!("{source} {share:.0} %"))
            .collect();
        let most = spread
            .shares
            .first()
            .map(|(source, _)| format!(" Measure the {source} more finely to narrow it."));
        view! {
            <p id="told-spread">
                "The ± holds the true value 95 times in 100. It comes from: "
                {shares.join(", ")} "." {most}
            </p>
        }
    });
    let metric = (units == Units::Inch && !steps.is_empty())
        .then(|| view! { <p class="small">"It is worked out in metric."</p> });
    view! {
        <h2 id="told-name">{told.name}</h2>
        <p class="big-figure">{told.figure.replace('\u{a0}', " ")}</p>
        <ol class="steps-told">{steps.iter().map(step).collect_any()}</ol>
        {notes
            .into_iter()
            .map(|note| view! { <p>{note}</p> })
            .collect_any()}
        {spread}
        {(!source.is_empty()).then(|| view! { <p class="small">"Source: " {source} "."</p> })}
        {metric}
    }
    .into_any()
}

fn step(step: &Step) -> AnyView {
    let inputs: Vec<String> = step
        .inputs()
        .into_iter()
        .map(|(symbol, name, value)| format!("{symbol} {name}, {value}"))
        .collect();
    // A line ends between the terms of a sum, never within a number.
    let mut parts = vec!["= ".into_any()];
    for part in step.terms_in_numbers() {
        parts.push(view! { <span>{part}</span> " " }.into_any());
    }
    view! {
        <li>
            <strong>{step.explanation.name}</strong>
            <span class="formula">{step.in_symbols()}</span>
            <span class="formula">{parts}</span>
            <small>
                {inputs.join("; ")} ". Holds: " {step.explanation.range} ". Source: " {step.explanation.source} "."
            </small>
        </li>
    }
    .into_any()
}
