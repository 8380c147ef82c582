//! A visit: what is still needed, its piles, and its planks in the order of their worth.

use crate::app::App;
use crate::parts::{Frame, GoTo, call_class};
use crate::route::Route;
use crate::screens::pile::{missing, pile_title};
use leptos::prelude::*;
use stillwood_core::notebook::{Book, Decision, Piece};
use stillwood_core::plank::Instruments;
use stillwood_core::season::still_needed;
use stillwood_core::verdict::{Call, Spec, rank, sheet};
use uuid::Uuid;

/// A plank of the visit, as the list shows it.
#[derive(Clone, PartialEq)]
struct Ranked {
    id: Uuid,
    mark: String,
    wood: String,
    decision: Option<Decision>,
    score: Option<f64>,
    rank: f64,
    call: Call,
    weakest: String,
    parts: u32,
}

fn ranked(book: &Book, piece: &Piece, spec: &Spec, instruments: &Instruments) -> Ranked {
    let sheet = sheet(
        &piece.readings_in_use(),
        &piece.defects_found(),
        instruments,
        spec,
    );
    let verdict = &sheet.verdict;
    Ranked {
        id: piece.id,
        mark: piece.mark.clone(),
        wood: book
            .species_of(piece)
            .map(|wood| wood.text.clone())
            .unwrap_or_default(),
        decision: piece.decision(),
        score: verdict.score,
        rank: rank(verdict),
        call: verdict.call,
        weakest: match (verdict.faults.first(), verdict.weakest) {
            (Some(fault), _) => fault.name().to_owned(),
            (None, Some(quality)) => quality.name().to_owned(),
            (None, None) => String::new(),
        },
        parts: sheet.held.as_ref().map_or(0, |held| held.parts),
    }
}

/// The screen.
#[component]
pub(crate) fn VisitScreen(
    /// The visit.
    id: Uuid,
) -> impl IntoView {
    let app = expect_context::<App>();
    if app.book_now(|book| book.visit(id).is_none()) {
        return missing("No such visit");
    }
    let title = move || {
        app.book(|book| {
            book.visit(id)
                .map(|v| v.opened.yard.clone())
                .unwrap_or_default()
        })
    };
    let spec = Memo::new(move |_| app.book(|book| book.visit(id).map(|v| v.opened.spec.clone())));
    let planks = Memo::new(move |_| {
        let instruments = app.settings.with(|settings| settings.instruments);
        let spec = spec.get()?;
        app.book(|book| {
            let mut planks: Vec<Ranked> = book
                .piles_of(id)
                .flat_map(|pile| book.pieces_of(pile.id))
                .filter(|piece| !piece.withdrawn)
                .map(|piece| ranked(book, piece, &spec, &instruments))
                .collect();
            planks.sort_by(|a, b| b.rank.total_cmp(&a.rank));
            Some(planks)
        })
    });
    let needed = move || {
        let spec = spec.get()?;
        let held = planks.with(|planks| {
            let taken = planks
                .iter()
                .flatten()
                .filter(|p| p.decision == Some(Decision::Take));
            taken.map(|plank| plank.parts).sum()
        });
        let need = still_needed(
            spec.blanks_wanted,
            spec.parts_per_blank,
            spec.expected_yield,
            held,
        )
        .ok()?;
        let unit = if spec.parts_per_blank > 1 {
            "laminates"
        } else {
            "blanks"
        };
        Some((spec, need, unit))
    };
    let needed = move || {
        needed().map(|(spec, need, unit)| {
            let short = if need.short_by == 0 {
                "enough".to_owned()
            } else {
                format!("{} {unit} short", need.short_by)
            };
            view! {
                <div class="card" id="still-needed">
                    <div class="row">
                        <span>{format!("{} for {} blanks", spec.name, spec.blanks_wanted)}</span>
                        <strong>{short}</strong>
                    </div>
                    <p class="small">
                        {format!(
                            "{} {unit} to start, at {:.0} % that come through the seasoning; the picks hold {}.",
                            need.to_start,
                            spec.expected_yield * 100.0,
                            need.held,
                        )}
                    </p>
                    <GoTo to=Route::Spec(id) name="Sizes and limits" />
                </div>
            }
        })
    };
    let piles = move || {
        app.book(|book| {
            book.piles_of(id)
                .filter(|pile| !pile.withdrawn)
                .map(|pile| (pile.id, pile_title(pile), pile.looked_at(), pile.maybes()))
                .collect::<Vec<_>>()
        })
    };
    let pile = |(id, title, looked_at, maybes): (Uuid, String, u64, u64)| {
        view! {
            <li>
                <a class="card" href=Route::Pile(id).href()>
                    <span class="row">
                        <strong>{title}</strong>
                        <small>{format!("{looked_at} looked at, {maybes} maybe")}</small>
                    </span>
                </a>
            </li>
        }
    };
    view! {
        <Frame title=Signal::derive(title) back=Route::Home>
            {needed}
            <h2>"Piles"</h2>
            <ul class="plain" id="piles">{move || piles().into_iter().map(pile).collect_view()}</ul>
            <GoTo to=Route::NewPile(id) name="New pile" class="primary wide-button" />
            <h2>"Planks, best first"</h2>
            <ul class="plain" id="planks">
                {move || planks.get().unwrap_or_default().into_iter().map(plank_card).collect_view()}
            </ul>
            <div class="row stretch">
                <GoTo to=Route::Tally(id) name="Tally and pay" />
                <GoTo to=Route::Seller(id) name="Seller's view" />
            </div>
            <div class="row stretch">
                <GoTo to=Route::Carry name="Carry it home" />
                <GoTo to=Route::VisitForm(Some(id)) name="Change the visit" />
            </div>
        </Frame>
    }
    .into_any()
}

fn plank_card(plank: Ranked) -> impl IntoView {
    let decision = match plank.decision {
        Some(Decision::Take) => "taken",
        Some(Decision::Leave) => "left",
        Some(Decision::SetAside) => "set aside",
        None => "open",
    };
    let to = if plank.decision.is_some() {
        Route::Sheet(plank.id)
    } else {
        Route::Measure(plank.id)
    };
    let score = plank
        .score
        .map_or("–".to_owned(), |score| format!("{score:.0}"));
    view! {
        <li>
            <a class="card" href=to.href()>
                <span class="row">
                    <span class="mark">{plank.mark}</span>
                    <span>{decision}</span>
                    <strong class="big-figure">{score}</strong>
                </span>
                <span class="row">
                    <small>{plank.wood}</small>
                    <span class=format!("word {}", call_class(plank.call))>{plank.call.words()}</span>
                    <small>{plank.weakest}</small>
                </span>
            </a>
        </li>
    }
}
