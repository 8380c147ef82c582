//! What can be done with a piece: what core takes to be likely next as large buttons, all else behind one
//! touch.

use super::deeds::DOINGS;
use super::today;
use crate::app::App;
use crate::parts::{CollectAny, live};
use leptos::prelude::*;
use stillwood_core::record::Id;
use stillwood_core::record::{NextStep, Piece, Waits, likely_next};

/// Under which name something is offered.
fn name_of(step: NextStep) -> &'static str {
    match step {
        NextStep::PutOnShelf => "Put on a shelf",
        NextStep::Weigh => "Weigh",
        NextStep::ReadMoisture => "Moisture",
        NextStep::CheckMovement => "Check movement",
        NextStep::Machine => "Machined flat",
        NextStep::SeeGrain => "Rings and grain",
        NextStep::TestStress => "Stress test",
        NextStep::SetToRest => "Set to rest",
        NextStep::Cut => "Cut",
        NextStep::Glue => "Glue up",
        NextStep::Reserve => "Reserve",
        NextStep::Release => "Release",
        NextStep::Use => "Used",
        NextStep::ThrowOut => "Throw out",
    }
}

/// What is open on the page of a piece.
#[derive(Clone, Copy)]
pub(super) struct Opened {
    /// The place of the form in [`DOINGS`].
    pub(super) form: RwSignal<Option<usize>>,
    /// All that can be done is shown.
    pub(super) all: RwSignal<bool>,
}

/// The button that opens a form.
fn button(app: App, id: Id, at: usize, class: &'static str, opened: Opened) -> Option<AnyView> {
    let doing = DOINGS.get(at)?;
    let open = opened.form;
    let is_open = move || open.get() == Some(at);
    let key = doing.key(id);
    let half = Memo::new(move |_| app.has_begun(&key));
    let button = view! {
        <button
            type="button" class=class aria-pressed=move || is_open().to_string()
            on:click=move |_| {
                open.update(|open| *open = (*open != Some(at)).then_some(at));
                request_animation_frame(bring_into_view);
            }
        >
            {doing.name}
            {live(move || half.get().then(|| view! { <small>"half typed"</small> }))}
        </button>
    };
    Some(button.into_any())
}

fn link(href: String, name: &'static str, class: &'static str) -> AnyView {
    view! { <a class=class href=href>{name}</a> }.into_any()
}

fn cut(id: Id, class: &'static str) -> AnyView {
    link(format!("#/cut/{id}"), name_of(NextStep::Cut), class)
}

/// All that can be done with a piece that waits for something.
pub(super) fn offered(app: App, piece: &Piece, waits: Option<&Waits>, opened: Opened) -> AnyView {
    let id = piece.id;
    let next = likely_next(piece, waits, today());
    let fitting = || {
        let doings = DOINGS.iter().enumerate();
        doings.filter(|(_, doing)| (doing.fits)(piece))
    };
    let large = |step: &NextStep| match step {
        NextStep::Cut => Some(cut(id, "button")),
        NextStep::Glue => Some(link("#/glue".to_owned(), name_of(NextStep::Glue), "button")),
        step => {
            let (at, _) = fitting().find(|(_, doing)| doing.name == name_of(*step))?;
            button(app, id, at, "", opened)
        }
    };
    let likely = next.iter().filter_map(large).collect_any();
    let is_likely = |name: &str| next.iter().any(|step| name_of(*step) == name);
    let others = fitting().filter(|(_, doing)| !is_likely(doing.name));
    let others: Vec<usize> = others.map(|(at, _)| at).collect();
    let cut_too = !next.contains(&NextStep::Cut);
    let others = move || {
        opened.all.get().then(|| {
            let chip = |at: &usize| button(app, id, *at, "chip", opened);
            view! {
                <div class="chips">
                    {others.iter().filter_map(chip).collect_any()}
                    {cut_too.then(|| cut(id, "button chip"))}
                </div>
            }
        })
    };
    view! {
        <div class="field no-print" role="group" aria-label="What was done" id="doings">
            <span class="name">"What was done?"</span>
            <div class="likely">{likely}</div>
            <button
                type="button" id="something-else" class="wide-button quiet"
                aria-expanded=move || opened.all.get().to_string()
                on:click=move |_| opened.all.update(|all| *all = !*all)
            >
                {live(move || if opened.all.get() { "Fewer" } else { "Something else" })}
            </button>
            {live(others)}
        </div>
    }
    .into_any()
}

/// Where a form was opened, brings it into view.
pub(super) fn bring_into_view() {
    if let Some(form) = document().get_element_by_id("deed") {
        let view = web_sys::ScrollIntoViewOptions::new();
        view.set_block(web_sys::ScrollLogicalPosition::Nearest);
        form.scroll_into_view_with_scroll_into_view_options(&view);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn whatever_is_likely_can_be_done() {
        for step in NextStep::ALL {
            let elsewhere = matches!(step, NextStep::Cut | NextStep::Glue);
            let named = DOINGS.iter().any(|doing| doing.name == name_of(*step));
            assert_ne!(named, elsewhere, "{step:?}");
        }
    }
}
