//! Wood that waits for no day: what was never set to rest, planks that never came to a shelf, what can't be
//! found. It draws what core knows of their lives.

use super::list::PAGE;
use crate::app::App;
use crate::parts::{CollectAny, live};
use crate::route::Route;
use crate::screens::figures::counted;
use leptos::prelude::*;
use stillwood_core::order;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Piece, PieceKind, State};

/// One of them, as the list shows it.
#[derive(Clone, PartialEq)]
struct Waiting {
    id: Id,
    mark: String,
    words: String,
}

/// What waits for no day; of it, what has all words that were typed.
fn waiting(state: &State, typed: &str) -> Vec<Waiting> {
    let one = |piece: &Piece, words: String| Waiting {
        id: piece.id,
        mark: piece.mark.clone(),
        words,
    };
    let idle = queries::stock(state).filter(|piece| {
        let waits = piece.work.rest().is_some() || queries::in_room_since(state, piece).is_some();
        !waits && piece.is_bought()
    });
    let mut all: Vec<Waiting> = idle
        .map(|piece| {
            let (life, since) = piece.life();
            let kind = piece.work.kind;
            let mut words = format!("{}, {} since {since}", kind.name(), life.in_words());
            let woods = queries::woods_named(state, piece.id);
            if !woods.is_empty() {
                words.push_str(&format!(" · {woods}"));
            }
            if kind == PieceKind::Plank && piece.work.came.is_none() {
                words.push_str(&format!(
                    " · {}",
                    cut_weeks_after(queries::weeks_before_cut(state))
                ));
            }
            one(piece, words)
        })
        .collect();
    let lost = queries::missing_wood(state);
    all.extend(lost.map(|piece| one(piece, format!("not found since {}", piece.life().1))));
    let typed = typed.to_lowercase();
    all.retain(|one| {
        let text = format!("{} {}", one.mark, one.words).to_lowercase();
        typed.split_whitespace().all(|word| text.contains(word))
    });
    order::sort_by(&mut all, |a, b| a.mark.cmp(&b.mark));
    all
}

/// Of a plank that was never put on a shelf.
fn cut_weeks_after(weeks: u32) -> String {
    format!(
        "may be cut {} after it is put on a shelf",
        counted(weeks as usize, "week", "weeks")
    )
}

/// The list of them, of those with all words that were typed.
pub(super) fn not_at_rest(app: App, typed: RwSignal<String>) -> AnyView {
    let most = RwSignal::new(PAGE);
    let all = Memo::new(move |_| app.state(|state| waiting(state, &typed.get())));
    let list = move || {
        let (all, most) = (all.get(), most.get());
        let count = all.len();
        let cards = all.into_iter().take(most).map(card);
        (count > 0).then(|| {
            view! {
                <h2>{format!("Not at rest ({count})")}</h2>
                <ul class="plain" id="waiting">{cards.collect_any()}</ul>
            }
        })
    };
    let more = move || show_more(all.with(Vec::len).saturating_sub(most.get()), most);
    view! {
        {live(list)}
        {live(more)}
    }
    .into_any()
}

/// Shows the next of a list, where some are not shown.
pub(super) fn show_more(beyond: usize, most: RwSignal<usize>) -> Option<AnyView> {
    let words = format!("Show more ({beyond} not shown)");
    let next = move |_| most.update(|most| *most += PAGE);
    (beyond > 0).then(|| {
        view! { <button class="wide-button no-print" on:click=next>{words}</button> }.into_any()
    })
}

fn card(waiting: Waiting) -> AnyView {
    view! {
        <li>
            <a class="card" href=Route::Wood(waiting.id).href()>
                <span class="row">
                    <span class="mark-small">{waiting.mark}</span>
                    <small>{waiting.words}</small>
                </span>
            </a>
        </li>
    }
    .into_any()
}
