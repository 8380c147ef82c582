//! Planks that two phones may both have recorded: side by side, for the maker to tell.

use crate::app::App;
use crate::parts::{CollectAny, When, live};
use crate::record::Deed;
use crate::route::Route;
use crate::screens::figures::counted;
use leptos::prelude::*;
use stillwood_core::plank::{Field, shown};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{Event, PAIRS_AT_ONCE, PairOffered, Piece, SamePlank, State, pairs};

/// The part of the screen; nothing when no pair is open.
#[component]
pub(super) fn Pairs() -> impl IntoView {
    let app = expect_context::<App>();
    let offered = Memo::new(move |_| app.state(pairs));
    let cards = move || {
        let units = app.units.get();
        app.book_now(|state| {
            offered.with(|offered| {
                offered
                    .iter()
                    .take(PAIRS_AT_ONCE)
                    .enumerate()
                    .filter_map(|(at, pair)| card(app, state, pair, at + 1, units))
                    .collect_any()
            })
        })
    };
    view! {
        <When so=move || offered.with(|offered| !offered.is_empty())>
            <h2>"One plank or two?"</h2>
            <p class="small" id="pairs">
                {live(move || {
                    let pairs = counted(offered.with(Vec::len), "pair is", "pairs are");
                    format!(
                        "{pairs} so alike that two phones may have entered one plank twice. Nothing is joined unasked.",
                    )
                })}
            </p>
            {live(cards)}
            <When so=move || offered.with(|offered| offered.len() > PAIRS_AT_ONCE)>
                <p class="small" id="more-pairs">
                    {live(move || {
                        let more = offered.with(|offered| offered.len().saturating_sub(PAIRS_AT_ONCE));
                        let more = counted(more, "more follows", "more follow");
                        format!("These are the likeliest; {more} as you settle them.")
                    })}
                </p>
            </When>
        </When>
    }
}

/// What is set side by side: name, of the one, of the other.
fn lines(state: &State, a: &Piece, b: &Piece, units: Units) -> Vec<(String, String, String)> {
    let none = || "–".to_owned();
    let mut lines = Vec::new();
    let yard = |piece| {
        state.visit_of(piece).map_or_else(none, |visit| {
            format!("{}, {}", visit.opened.yard, piece.recorded.on)
        })
    };
    lines.push(("Yard and day".to_owned(), yard(a), yard(b)));
    let device = |piece: &Piece| piece.by.iter().cloned().collect::<Vec<_>>().join(", ");
    lines.push(("Device".to_owned(), device(a), device(b)));
    let decided = |piece: &Piece| {
        piece
            .decision()
            .map_or_else(none, |d| d.in_words().to_owned())
    };
    lines.push(("Decision".to_owned(), decided(a), decided(b)));
    for field in Field::ALL {
        let value = |piece: &Piece| {
            piece
                .value(*field)
                .map_or_else(none, |value| shown(*field, value, units))
        };
        if a.value(*field).is_some() || b.value(*field).is_some() {
            lines.push((field.label().to_owned(), value(a), value(b)));
        }
    }
    lines
}

fn card(
    app: App,
    state: &State,
    pair: &PairOffered,
    number: usize,
    units: Units,
) -> Option<AnyView> {
    let (a, b) = (state.piece(pair.a)?, state.piece(pair.b)?);
    let (id, other) = (pair.a, pair.b);
    let marks = format!("{} and {}", a.mark, b.mark);
    let tell = move |same: bool| {
        let text = if same {
            format!("{marks}: one plank. Both readings are kept.")
        } else {
            format!("{marks}: two planks. They are not offered again.")
        };
        let deed = Deed::new(id, Event::SamePlank(SamePlank { other, same }));
        app.write_and_say(vec![deed], text, None);
    };
    let differ = tell.clone();
    let rows = lines(state, a, b, units)
        .into_iter()
        .map(|(name, of_a, of_b)| {
            let apart = of_a != of_b;
            view! {
                <tr>
                    <th scope="row">{name}</th>
                    <td class:apart=apart>{of_a}</td>
                    <td class:apart=apart>{of_b}</td>
                </tr>
            }
        })
        .collect_any();
    Some(
        view! {
        <section class="card pair-offered" aria-label=format!("{} and {}", a.mark, b.mark)>
            <p class="small sure">{pair.in_words()}</p>
            <div class="scroll" tabindex="0" role="region" aria-label=format!("{} beside {}", a.mark, b.mark)>
                <table>
                    <thead>
                        <tr>
                            <td></td>
                            <th scope="col">
                                <a class="button mark" href=Route::Sheet(id).href()>{a.mark.clone()}</a>
                            </th>
                            <th scope="col">
                                <a class="button mark" href=Route::Sheet(other).href()>
                                    {b.mark.clone()}
                                </a>
                            </th>
                        </tr>
                    </thead>
                    <tbody class="given">{rows}</tbody>
                </table>
            </div>
            <div class="row stretch">
                <button class="primary" id=format!("same-{number}") on:click=move |_| tell(true)>
                    "Same plank"
                </button>
                <button id=format!("different-{number}") on:click=move |_| differ(false)>
                    "Different"
                </button>
            </div>
        </section>
    }
    .into_any())
}
