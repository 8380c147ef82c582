//! Looking for the sets that go together best, beside the page, and what was found. Where the browser
//! has no worker for it, a slice at a time on the page.

use super::blank::{not_measured, woods_of};
use super::{Gluing, drawn_of, wish};
use crate::app::App;
use crate::beside::{self, Found};
use crate::drawings::blank_end;
use crate::parts::{CollectAny, bring_into_view, live};
use crate::shell::timer::sleep;
use leptos::prelude::*;
use stillwood_core::neck::{
    Laminate, MatchLimits, MatchSearch, MatchTarget, Placed, Proposal, judge_match,
};
use stillwood_core::quantity::{in_mm, show};
use wasm_bindgen_futures::spawn_local;

/// Placings that are looked at before the screen gets its turn, where the page itself searches.
const SLICE: u64 = 4000;

/// The search's buttons, and how far it is.
pub(super) fn buttons(gluing: Gluing) -> AnyView {
    let running = move || gluing.running.get();
    let progress = move || {
        let looked = gluing.state.get().map_or(0, |state| state.looked_at);
        let done = gluing.state.get().is_some_and(|state| state.done);
        let words = if running() {
            format!("Looking: {} placings so far.", counted(looked))
        } else if done {
            format!(
                "All looked through, or ruled out: {} placings.",
                counted(looked)
            )
        } else if looked > 0 {
            format!(
                "Stopped after {} placings: a better set may be left.",
                counted(looked)
            )
        } else {
            return None;
        };
        Some(view! { <p id="sought">{words}</p> })
    };
    let bar = move || running().then(|| view! { <progress aria-label="Looking"></progress> });
    let trouble = move || {
        let why = gluing.trouble.get();
        (!why.is_empty()).then(|| view! { <p class="note doubt" id="no-match">{why}</p> })
    };
    view! {
        <div class="row stretch">
            <button class="primary" id="seek" disabled=running on:click=move |_| begin(gluing)>
                "Find what goes together"
            </button>
            <button id="stop" disabled=move || !running() on:click=move |_| stop(gluing)>
                "Stop"
            </button>
        </div>
        {live(bar)}
        <div role="status">{live(progress)}</div>
        {live(trouble)}
    }
    .into_any()
}

/// A large number with its thousands apart.
fn counted(number: u64) -> String {
    let mut words = String::new();
    let digits = number.to_string();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            words.push('\u{202f}');
        }
        words.push(digit);
    }
    words
}

fn stop(gluing: Gluing) {
    gluing.running.set(false);
    gluing.beside.set_value(None);
}

fn begin(gluing: Gluing) {
    let chosen = gluing.chosen.get_untracked();
    let mut stock = gluing.stock.get_untracked();
    stock.retain(|one| chosen.contains(&one.piece));
    let count = gluing.count.get_untracked().trim().parse::<usize>();
    gluing.proposals.set(Vec::new());
    gluing.blank.set(Vec::new());
    gluing.proposed.set(Vec::new());
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
    let laminates = Gluing::laminates(&stock);
    let wish = wish::wish(gluing, count);
    // What can't be sought is told at once.
    let search = MatchSearch::new(&laminates, &wish);
    gluing.sought.set(stock);
    match search {
        Ok(search) => {
            gluing.trouble.set(String::new());
            gluing.running.set(true);
            seek(gluing, laminates, wish, search);
        }
        Err(why) => gluing.trouble.set(why.to_string()),
    }
}

/// Beside the page; where that can't be had or breaks down, on it.
fn seek(gluing: Gluing, stock: Vec<Laminate>, wish: MatchTarget, search: MatchSearch) {
    let (judged_of, within) = (stock.clone(), wish.limits);
    let here = search.clone();
    let hear = move |found: Option<Found>| match found {
        Some(found) => tell(gluing, &judged_of, &within, found),
        None => spawn_here(gluing, &judged_of, &within, here.clone()),
    };
    match beside::search(stock.clone(), wish, hear) {
        Some(beside) => gluing.beside.set_value(Some(beside)),
        None => spawn_here(gluing, &stock, &within, search),
    }
}

fn spawn_here(gluing: Gluing, stock: &[Laminate], within: &MatchLimits, search: MatchSearch) {
    let (stock, within) = (stock.to_vec(), *within);
    spawn_local(async move { go_on(gluing, &stock, &within, search).await });
}

/// Shows how far it is and what was found, unless it was stopped or the screen is gone.
fn tell(gluing: Gluing, stock: &[Laminate], within: &MatchLimits, found: Found) {
    if gluing.running.try_get_untracked() != Some(true) {
        return;
    }
    let judged = |blank: Vec<Placed>| {
        let judged = judge_match(stock, &blank, within).ok()?;
        Some(Proposal { blank, judged })
    };
    let proposals: Vec<Proposal> = found.sets.into_iter().filter_map(judged).collect();
    if gluing.proposals.try_get_untracked().as_ref() != Some(&proposals) {
        // What is in hand stays; before anything is, the best is shown.
        gluing.proposals.try_set(proposals);
    }
    gluing.state.try_set(Some(found.state));
    if found.state.done {
        gluing.running.try_set(false);
        // Not while its own answer is heard.
        spawn_local(async move { drop(gluing.beside.try_update_value(Option::take)) });
    }
}

/// Slices of the search on the page, until it is done or stopped, or the screen is gone.
async fn go_on(gluing: Gluing, stock: &[Laminate], within: &MatchLimits, mut search: MatchSearch) {
    while gluing.running.try_get_untracked() == Some(true) {
        search.go_on(SLICE);
        tell(gluing, stock, within, Found::of(&search));
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
        let mut said = vec![format!(
            "{} limits from perfect: crook {}, twist {}",
            show::number(judged.cost, 2),
            show::gap(in_mm(judged.mean_crook), units),
            show::gap(in_mm(judged.mean_twist), units),
        )];
        let woods = gluing.sought.with(|stock| woods_of(stock, &proposal.blank));
        said.push(woods.join(", "));
        let open = judged.warnings.iter().find_map(not_measured);
        said.extend(open.map(|open| format!("not measured: {open}")));
        let said = said.join("; ");
        let take = move |_| {
            gluing.blank.set(proposal.blank.clone());
            gluing.proposed.set(proposal.blank.clone());
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
                blank_end(&drawn, "proposed", "The first set, from the near end")
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
