//! Looking for the sets that go together best, a slice at a time so that the screen lives, and what was
//! found.

use super::{Gluing, drawn_of};
use crate::app::App;
use crate::drawings::blank_end;
use crate::parts::{CollectAny, bring_into_view, live};
use crate::shell::timer::sleep;
use leptos::prelude::*;
use stillwood_core::neck::{MatchSearch, MatchWish, Proposal};
use stillwood_core::quantity::{in_mm, show};
use wasm_bindgen_futures::spawn_local;

/// Placings that are looked at before the screen gets its turn.
const SLICE: u64 = 4000;

/// The search's buttons, and how far it is.
pub(super) fn buttons(gluing: Gluing) -> AnyView {
    let progress = move || {
        let state = gluing.state.get()?;
        let looked = state.looked_at;
        let words = if gluing.running.get() {
            format!("Looking: {looked} placings so far.")
        } else if state.done {
            format!("All looked through, or ruled out: {looked} placings.")
        } else {
            format!("Stopped after {looked} placings: a better set may be left.")
        };
        Some(view! { <p id="sought">{words}</p> })
    };
    let trouble = move || {
        let why = gluing.trouble.get();
        (!why.is_empty()).then(|| view! { <p class="note doubt" id="no-match">{why}</p> })
    };
    view! {
        <div class="row stretch">
            <button
                class="primary" id="seek" disabled=move || gluing.running.get()
                on:click=move |_| begin(gluing)
            >
                "Find what goes together"
            </button>
            <button
                id="stop" disabled=move || !gluing.running.get()
                on:click=move |_| gluing.running.set(false)
            >
                "Stop"
            </button>
        </div>
        <div role="status">{live(progress)}</div>
        {live(trouble)}
    }
    .into_any()
}

fn begin(gluing: Gluing) {
    let chosen = gluing.chosen.get_untracked();
    let mut stock = gluing.stock.get_untracked();
    stock.retain(|one| chosen.contains(&one.piece));
    let count = gluing.count.get_untracked().trim().parse::<usize>();
    gluing.proposals.set(Vec::new());
    gluing.blank.set(Vec::new());
    gluing.before.set(None);
    gluing.state.set(None);
    let Ok(count) = count else {
        return gluing
            .trouble
            .set("How many laminates is no whole number.".into());
    };
    if stock.is_empty() {
        return gluing
            .trouble
            .set("Choose the laminates that may be glued: none is.".into());
    }
    let search = MatchSearch::new(&Gluing::laminates(&stock), &MatchWish::of(count));
    gluing.sought.set(stock);
    match search {
        Ok(search) => {
            gluing.trouble.set(String::new());
            gluing.running.set(true);
            spawn_local(go_on(gluing, search));
        }
        Err(why) => gluing.trouble.set(why.to_string()),
    }
}

/// Slices of the search, until it is done or stopped, or the screen is gone.
async fn go_on(gluing: Gluing, mut search: MatchSearch) {
    while gluing.running.try_get_untracked() == Some(true) {
        let state = search.go_on(SLICE);
        let proposals = search.proposals();
        if gluing.proposals.try_get_untracked().as_ref() != Some(&proposals) {
            // What is in hand stays; before anything is, the best is shown.
            gluing.proposals.try_set(proposals);
        }
        gluing.state.try_set(Some(state));
        if state.done {
            gluing.running.try_set(false);
        }
        sleep(0).await;
    }
}

/// The proposals.
pub(super) fn found(app: App, gluing: Gluing) -> AnyView {
    let card = move |(n, proposal): (usize, Proposal)| {
        let units = app.units.get();
        let judged = &proposal.judged;
        let drawn = gluing.sought.with(|stock| drawn_of(stock, &proposal.blank));
        let marks: Vec<String> = drawn.iter().map(|one| one.mark.clone()).collect();
        let marks = marks.join(", ");
        let word = match (judged.is_warned(), judged.warnings.is_empty()) {
            (true, _) => "warned",
            (false, false) => "look at it",
            (false, true) => "good",
        };
        let class = match word {
            "warned" => "word bad",
            "good" => "word good",
            _ => "word doubt",
        };
        let said = format!(
            "crook {}, twist {}",
            show::length(in_mm(judged.mean_crook), units),
            show::length(in_mm(judged.mean_twist), units),
        );
        let take = move |_| {
            gluing.blank.set(proposal.blank.clone());
            gluing.before.set(Some(proposal.judged.clone()));
            bring_into_view("in-hand");
        };
        view! {
            <li>
                <button type="button" class="card" on:click=take>
                    <span class="row">
                        <strong>{format!("Set {}: {marks}", n + 1)}</strong>
                        <span class=class>{word}</span>
                    </span>
                    <small>{said}</small>
                </button>
            </li>
        }
    };
    let all = move || {
        let proposals = gluing.proposals.get();
        (!proposals.is_empty()).then(|| {
            let best = proposals.first().map(|best| {
                let drawn = gluing.sought.with(|stock| drawn_of(stock, &best.blank));
                blank_end(&drawn, "proposed", "The first set, from the marked end")
            });
            view! {
                <h2>"What goes together, best first"</h2>
                {best}
                <ul class="plain" id="proposals">
                    {proposals.into_iter().enumerate().map(card).collect_any()}
                </ul>
            }
        })
    };
    live(all).into_any()
}
