//! The first screen: visits, what is to be settled, what is only on this device, the sample workshop, and
//! on a phone that wants it the advice to install first.

use crate::app::App;
use crate::held::HalfTyped;
use crate::kept_elsewhere::this_device;
use crate::parts::{CollectAny, Frame, GoTo, live};
use crate::route::Route;
use crate::screens::carry::ToSettleBlock;
use crate::shell::clock::days_since;
use crate::shell::platform::{is_installed, is_ios};
use crate::start::set_demo;
use leptos::prelude::*;
use stillwood_core::order;
use stillwood_core::record::Decision;
use stillwood_core::record::Id;

/// After so many days without a file the record's place is questioned.
const LONG_DAYS: u32 = 14;
/// So many entries are worth a file at once.
const MANY: usize = 40;

/// A visit, as the list shows it.
struct Listed {
    id: Id,
    yard: String,
    on: String,
    spec: String,
    taken: usize,
    looked_at: u64,
}

fn listed(app: App) -> Vec<Listed> {
    app.state(|state| {
        let mut all: Vec<Listed> = state
            .visits()
            .map(|visit| {
                let piles: Vec<_> = state.piles_of(visit.id).collect();
                let taken = piles
                    .iter()
                    .flat_map(|pile| state.pieces_of(pile.id))
                    .filter(|piece| !piece.withdrawn && piece.decision() == Some(Decision::Take))
                    .count();
                Listed {
                    id: visit.id,
                    yard: visit.opened.yard.clone(),
                    on: visit.recorded.on.to_string(),
                    spec: visit.opened.spec.name.clone(),
                    taken,
                    looked_at: piles.iter().map(|pile| pile.looked_at()).sum(),
                }
            })
            .collect();
        order::sort_by(&mut all, |a, b| b.on.cmp(&a.on).then(b.id.cmp(&a.id)));
        all
    })
}

/// The screen.
#[component]
pub(crate) fn Home() -> impl IntoView {
    let app = expect_context::<App>();
    let visits = move || listed(app);
    let empty = move || app.state(|state| state.visits().next().is_none());
    let unfinished = move || {
        app.drafts.with(|drafts| {
            drafts
                .iter()
                .filter(|draft| !draft.is_empty())
                .filter_map(|draft| Some((draft.piece?, draft.mark.clone(), draft.fields_typed())))
                .collect::<Vec<_>>()
        })
    };
    let unfinished_card = |(piece, mark, typed): (Id, String, usize)| {
        view! {
            <a class="card" href=Route::Measure(piece).href()>
                <span class="row">
                    <span class="mark">{mark}</span>
                    <span>{format!("unfinished: {typed} typed")}</span>
                </span>
            </a>
        }
    };
    let visit_card = |visit: Listed| {
        view! {
            <li>
                <a class="card" href=Route::Visit(visit.id).href()>
                    <strong>{visit.yard}</strong>
                    <span class="row">
                        <small>{visit.on}" · "{visit.spec}</small>
                        <span>{format!("{} taken of {}", visit.taken, visit.looked_at)}</span>
                    </span>
                </a>
            </li>
        }
    };
    view! {
        <Frame title="Stillwood">
            <DemoBar />
            <InstallFirst />
            {live(move || {
                empty()
                    .then(|| {
                        view! {
                            <p>
                                "The field book of a maker who picks neck wood plank by plank: score planks "
                                "in the yard, keep the reasons, reckon the bill, take it home as a file. "
                                "It works without a network, and nothing leaves this device unless you hand "
                                "over a file."
                            </p>
                        }
                    })
            })}
            <GoTo to=Route::VisitForm(None) name="New visit to a yard" class="primary wide-button" />
            <ToSettleBlock />
            {live(move || unfinished().into_iter().map(unfinished_card).collect_any())}
            <HalfTypedForms />
            {live(move || (!empty()).then(|| view! { <h2>"Visits"</h2> }))}
            <ul class="plain" id="visits">
                {live(move || visits().into_iter().map(visit_card).collect_any())}
            </ul>
            {live(move || {
                (empty() && !app.demo.get())
                    .then(|| {
                        view! {
                            <button class="wide-button" id="open-demo" on:click=move |_| set_demo(true)>
                                "Look round in an invented example"
                            </button>
                        }
                    })
            })}
            <CarryNotice />
            <GoTo to=Route::Workshop name="Workshop: what is due" class="wide-button" />
            <GoTo to=Route::Ask name="Quick questions" class="wide-button" />
            <div class="row stretch">
                <GoTo to=Route::Planks name="All planks" />
                <GoTo to=Route::Carry name="Save and share" />
            </div>
            <div class="row stretch">
                <GoTo to=Route::Settings name="Settings" />
                <GoTo to=Route::About name="Cautions and sources" />
            </div>
        </Frame>
    }
}

/// Forms that were left half typed, each with the way to its screen.
#[component]
pub(crate) fn HalfTypedForms() -> impl IntoView {
    let app = expect_context::<App>();
    let cards = move || {
        app.forms.with(|forms| {
            let told = forms.values().filter(|form| !form.words.is_empty());
            let card = |form: &HalfTyped| {
                view! {
                    <a class="card half-typed" href=form.at.clone()>
                        <span class="row">
                            <strong>{form.words.clone()}</strong>
                            <span>"half typed"</span>
                        </span>
                    </a>
                }
            };
            told.map(card).collect_any()
        })
    };
    live(cards)
}

/// Says that the example is open, and how to close it.
#[component]
fn DemoBar() -> impl IntoView {
    let app = expect_context::<App>();
    // What was entered by this device while the example was open goes with it: asked first.
    let own = move || {
        app.changed.track();
        app.record.with_value(|record| {
            let by = record.by();
            record
                .log()
                .entries()
                .filter(|entry| entry.by == by)
                .count()
        })
    };
    let asked = RwSignal::new(false);
    let close = move |_| {
        if own() > 0 && !asked.get_untracked() {
            asked.set(true);
        } else {
            set_demo(false);
        }
    };
    live(move || {
        app.demo.get().then(|| {
            view! {
                <div class="note" id="demo-note">
                    <p>
                        "This is the invented example. Try anything: your own record is apart from it "
                        "and untouched."
                    </p>
                    {move || {
                        asked
                            .get()
                            .then(|| {
                                view! {
                                    <p>
                                        <strong>
                                            {format!("{} entries that you made in it go with it. ", own())}
                                        </strong>
                                        "Save them as a file first, or remove it all the same."
                                    </p>
                                    <GoTo to=Route::Carry name="Save a file" />
                                }
                            })
                    }}
                    <button id="close-demo" on:click=close>"Remove the example"</button>
                </div>
            }
        })
    })
}

/// On phones that keep the browser's tab and the installed app apart: install first.
#[component]
fn InstallFirst() -> impl IntoView {
    let app = expect_context::<App>();
    let wanted = is_ios() && !is_installed();
    live(move || {
        (wanted && app.state(|state| state.visits().next().is_none())).then(|| {
            view! {
                <div class="note doubt" id="install-first">
                    <p>
                        <strong>"Install first. "</strong>
                        "On this phone the browser's tab and the installed app keep separate records, and "
                        "the browser may clear a tab's record after a week without a visit. Tap Share, then "
                        "“Add to Home Screen”, and open Stillwood from there before your first entry."
                    </p>
                    <p>"Something entered here already? Save it as a file and open the file there."</p>
                </div>
            }
        })
    })
}

/// What is on this device only, and when a file was handed over last.
#[component]
fn CarryNotice() -> impl IntoView {
    let app = expect_context::<App>();
    app.read_kept();
    let only_here = Memo::new(move |_| app.only_here().filter(|_| !app.demo.get()));
    live(move || {
        let found = only_here.get().filter(|found| found.entries > 0)?;
        let known = app.kept.get().unwrap_or_default();
        let days = known
            .handed
            .as_ref()
            .and_then(|handed| days_since(&handed.on));
        let long = days.is_none_or(|days| days > LONG_DAYS);
        let class = if long || found.entries > MANY {
            "note doubt"
        } else {
            "note"
        };
        Some(view! {
            <div class=class id="only-here">
                <p>{found.in_words(this_device())}</p>
                <p class="small">{known.last_saved_in_words()}</p>
                <GoTo to=Route::Carry name="Save and share" />
            </div>
        })
    })
}
