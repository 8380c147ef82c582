//! A pile: the quick sort ("no" with its reason in two touches, "maybe" with its mark), then the
//! maybes to measure.

use crate::app::{App, Toast};
use crate::parts::{CollectAny, Frame, GoTo, live};
use crate::record::Deed;
use crate::route::{Route, go};
use crate::screens::reasons::{AllReasons, ReasonChips};
use leptos::prelude::*;
use stillwood_core::order;
use stillwood_core::plank::Reason;
use stillwood_core::record::Id;
use stillwood_core::record::{Decision, Event, Marked, PassedOver, Pile, Withdrawn};
use wasm_bindgen_futures::spawn_local;

/// The reasons at hand in the quick sort: what shows in ten seconds.
const QUICK: [Reason; 12] = [
    Reason::Runout,
    Reason::Knot,
    Reason::Twist,
    Reason::Crook,
    Reason::Bow,
    Reason::Kink,
    Reason::Checks,
    Reason::Pith,
    Reason::WrongRings,
    Reason::Sapwood,
    Reason::TooSmall,
    Reason::TooHeavy,
];

/// A piece of a pile, as the list shows it.
struct Found {
    id: Id,
    mark: String,
    word: &'static str,
    decided: bool,
}

/// The screen of a pile.
#[component]
pub(crate) fn PileScreen(
    /// The pile.
    id: Id,
) -> impl IntoView {
    let app = expect_context::<App>();
    let chosen = RwSignal::new(Vec::<Reason>::new());
    let all = RwSignal::new(false);
    let Some(visit) = app.book_now(|state| state.pile(id).map(|pile| pile.opened.visit)) else {
        return missing("No such pile");
    };
    let title = move || app.state(|state| state.pile(id).map(pile_title).unwrap_or_default());
    let no = move |_| {
        let reasons = chosen.get_untracked();
        chosen.set(Vec::new());
        all.set(false);
        let said = match reasons.first() {
            Some(reason) => format!("No: {}.", reason.name()),
            None => "No, without a reason.".into(),
        };
        let deed = Deed::new(id, Event::PassedOver(PassedOver { count: 1, reasons }));
        app.write_and_say(vec![deed], said, None);
    };
    let maybe = move |_| {
        let Some(piece) = app.new_id() else { return };
        spawn_local(async move {
            let mark = app.next_mark().await;
            let deed = Deed::new(
                piece,
                Event::Marked(Marked {
                    mark: mark.clone(),
                    pile: id,
                }),
            );
            let ids = app.write(vec![deed], None).await;
            if ids.is_empty() {
                return;
            }
            let undo = ids.into_iter().map(|entry| (entry, piece)).collect();
            app.toast.set(Some(Toast {
                text: format!("Chalk on it: {mark}"),
                undo,
                ..Toast::default()
            }));
        });
    };
    let counts = move || {
        app.state(|state| {
            state.pile(id).map_or_else(String::new, |pile| {
                format!(
                    "{} looked at · {} no · {} maybe",
                    pile.looked_at(),
                    pile.passed_over(),
                    pile.maybes()
                )
            })
        })
    };
    let left_for = move || {
        app.state(|state| {
            let counts: Vec<String> = state
                .pile(id)
                .map(stillwood_core::record::Pile::left_for)
                .unwrap_or_default()
                .into_iter()
                .map(|(reason, count)| {
                    format!("{} {count}", reason.map_or("no reason", Reason::name))
                })
                .collect();
            counts.join(" · ")
        })
    };
    let found = move || {
        app.state(|state| {
            let piece = |piece: &stillwood_core::record::Piece| Found {
                id: piece.id,
                mark: piece.mark.clone(),
                word: match piece.decision() {
                    Some(Decision::Take) => "taken",
                    Some(Decision::Leave) => "left",
                    Some(Decision::SetAside) => "set aside",
                    None => "maybe: measure it",
                },
                decided: piece.decision().is_some(),
            };
            let mut found: Vec<Found> = state
                .pieces_of(id)
                .filter(|piece| !piece.withdrawn)
                .map(piece)
                .collect();
            order::sort_by_key(&mut found, |piece| piece.decided);
            found
        })
    };
    let half_typed = move || {
        app.drafts.with(|drafts| {
            drafts
                .iter()
                .filter(|draft| draft.pile == id && !draft.is_empty())
                .filter_map(|draft| Some((draft.piece?, draft.mark.clone(), draft.fields_typed())))
                .collect::<Vec<_>>()
        })
    };
    let last_no = move || {
        let lot = app.state(|state| state.pile(id)?.passed.last().cloned())?;
        let named = lot
            .reasons
            .first()
            .map_or("without a reason", |reason| reason.name());
        let (entry, said) = (lot.entry, format!("Take back the last No ({named})"));
        let back = move |_| {
            let withdrawn = Event::Withdrawn(Withdrawn {});
            let deed = Deed::instead_of(id, withdrawn, vec![entry]);
            app.write_and_say(vec![deed], "The last No is taken back.".into(), None);
        };
        Some(view! { <button class="quiet" id="last-no" on:click=back>{said}</button> })
    };
    let bring_back = move || {
        let dropped = app.dropped.get().filter(|draft| draft.pile == id)?;
        let piece = dropped.piece?;
        let mark = dropped.mark.clone();
        let back = move |_| {
            app.dropped.set(None);
            app.drafts.update(|drafts| drafts.push(dropped.clone()));
            go(Route::Measure(piece));
        };
        Some(view! {
            <button id="bring-back" on:click=back>{format!("Bring back what was typed for {mark}")}</button>
        })
    };
    let measure_new = move |_| {
        spawn_local(async move {
            if let Some(piece) = app.begin_plank(id).await {
                go(Route::Measure(piece));
            }
        });
    };
    let one = |piece: Found| {
        let to = if piece.decided {
            Route::Sheet(piece.id)
        } else {
            Route::Measure(piece.id)
        };
        view! {
            <li>
                <a class="card" href=to.href()>
                    <span class="row">
                        <span class="mark">{piece.mark}</span>
                        <span>{piece.word}</span>
                    </span>
                </a>
            </li>
        }
    };
    let unfinished = |(piece, mark, typed): (Id, String, usize)| {
        view! {
            <li>
                <a class="card" href=Route::Measure(piece).href()>
                    <span class="row">
                        <span class="mark">{mark}</span>
                        <span>{format!("unfinished: {typed} typed")}</span>
                    </span>
                </a>
            </li>
        }
    };
    view! {
        <Frame title=Signal::derive(title) back=Route::Visit(visit) class="with-decide">
            <p id="pile-counts">{live(counts)}</p>
            <button class="wide-button primary" id="measure-new" on:click=measure_new>
                "Measure a plank"
            </button>
            <h2>"Quick sort"</h2>
            <p class="small">"Why not? Tap a reason, then No. Or tap Maybe and chalk the mark on it."</p>
            <ReasonChips of=QUICK.to_vec() chosen=chosen />
            <button
                class="quiet" aria-expanded=move || all.get().to_string()
                on:click=move |_| all.update(|a| *a = !*a)
            >
                {live(move || if all.get() { "Fewer reasons" } else { "More reasons" })}
            </button>
            {live(move || all.get().then(|| view! { <AllReasons chosen=chosen /> }))}
            <p class="small">{live(left_for)}</p>
            {live(last_no)}
            <h2>"Planks of this pile"</h2>
            <ul class="plain">
                {live(move || half_typed().into_iter().map(unfinished).collect_any())}
                {live(move || found().into_iter().map(one).collect_any())}
            </ul>
            {live(bring_back)}
            <GoTo to=Route::EditPile(id) name="Change the pile" class="quiet" />
            <div class="decide">
                <div class="row">
                    <button class="leave" id="no" on:click=no>
                        {live(move || {
                            chosen
                                .with(|c| match c.first() {
                                    Some(reason) => format!("No: {}", reason.name()),
                                    None => "No".into(),
                                })
                        })}
                    </button>
                    <button class="take" id="maybe" on:click=maybe>"Maybe"</button>
                </div>
            </div>
        </Frame>
    }
    .into_any()
}

/// A screen for what is not in the record.
pub(crate) fn missing(title: &'static str) -> AnyView {
    view! { <Frame title=title back=Route::Home><p>"It is not in this record."</p></Frame> }
        .into_any()
}

/// A pile in a line.
pub(crate) fn pile_title(pile: &Pile) -> String {
    let thickness = pile
        .opened
        .nominal_thickness
        .as_ref()
        .map(|t| t.typed.as_str());
    let name = if pile.opened.name.is_empty() {
        &pile.opened.species.text
    } else {
        &pile.opened.name
    };
    match thickness {
        Some(thickness) => format!("{name}, {thickness}"),
        None => name.clone(),
    }
}
