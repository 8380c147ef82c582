//! What can be done with a piece: what core takes to be likely next as large buttons, all else behind one
//! touch.

use super::deeds::{DOINGS, Doing};
use crate::app::App;
use crate::parts::{CollectAny, live};
use leptos::prelude::*;
use stillwood_core::notebook::{NextStep, Piece, Waits, likely_next};

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

/// One button.
fn button(
    app: App,
    piece: &Piece,
    at: usize,
    doing: &Doing,
    class: &'static str,
    opened: Opened,
) -> AnyView {
    let open = opened.form;
    let is_open = move || open.get() == Some(at);
    let key = doing.key(piece.id);
    let half = Memo::new(move |_| app.has_begun(&key));
    view! {
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
    }
    .into_any()
}

/// All that can be done with a piece that waits for something.
pub(super) fn offered(app: App, piece: &Piece, waits: Option<&Waits>, opened: Opened) -> AnyView {
    let next = likely_next(piece, waits);
    let names: Vec<&str> = next.iter().map(|step| name_of(*step)).collect();
    let cut = format!("#/cut/{}", piece.id);
    let fits = |doing: &Doing| (doing.fits)(piece);
    let large = |name: &&str| match *name {
        "Cut" => Some(view! { <a class="button" href=cut.clone()>"Cut"</a> }.into_any()),
        "Glue up" => Some(view! { <a class="button" href="#/glue">"Glue up"</a> }.into_any()),
        name => {
            let at = DOINGS
                .iter()
                .position(|doing| doing.name == name && fits(doing))?;
            Some(button(app, piece, at, DOINGS.get(at)?, "next", opened))
        }
    };
    let likely = names.iter().filter_map(large).collect_any();
    let rest: Vec<(usize, &'static Doing)> = DOINGS
        .iter()
        .enumerate()
        .filter(|(_, doing)| fits(doing) && !names.contains(&doing.name))
        .collect();
    let cut_too = !names.contains(&"Cut");
    let piece = piece.clone();
    let others = move || {
        opened.all.get().then(|| {
            let one = |(at, doing): &(usize, &'static Doing)| {
                button(app, &piece, *at, doing, "chip", opened)
            };
            let cut = cut_too.then(|| view! { <a class="button chip" href=cut.clone()>"Cut"</a> });
            view! {
                <div class="chips">
                    {rest.iter().map(one).collect_any()}
                    {cut}
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
