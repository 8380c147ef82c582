//! A visit: what is still needed, its piles, and its planks in the order of their worth.

use crate::app::App;
use crate::parts::{CollectAny, Frame, GoTo, call_class, given, live, told_figure};
use crate::route::Route;
use crate::screens::figures::in_hand_words;
use crate::screens::pile::{missing, pile_title};
use crate::screens::tally::{ready_line, short_figure, still_to_buy, wish_words};
use crate::screens::{figures, total_told};
use leptos::prelude::*;
use stillwood_core::quantity::{in_kg, show};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Decision, PlankRow, Total};
use stillwood_core::verdict::Recommendation;

/// The screen.
#[component]
pub(crate) fn VisitScreen(
    /// The visit.
    id: Id,
) -> impl IntoView {
    let app = expect_context::<App>();
    if app.book_now(|state| state.visit(id).is_none()) {
        return missing("No such visit");
    }
    let title = move || {
        app.state(|state| {
            state
                .visit(id)
                .map(|v| v.opened.yard.clone())
                .unwrap_or_default()
        })
    };
    let planks = Memo::new(move |_| {
        let instruments = app.settings.with(|settings| settings.instruments);
        app.state(|state| queries::ranked(state, id, &instruments))
    });
    let tally = Memo::new(move |_| app.state(|state| queries::tally_of(state, id)));
    let needed = Memo::new(move |_| still_to_buy(app, id, &tally.get()?));
    let needed = move || {
        let needed = needed.get()?;
        let name = app.state(|state| state.visit(id).map(|v| v.opened.spec.name.clone()))?;
        let in_hand = in_hand_words(&needed.answer.in_time, needed.wish.laminates_per_blank);
        Some(view! {
            <div class="card" id="still-needed">
                <div class="row">
                    {given(format!("{name}: {}", wish_words(&needed)))}
                    <strong>{short_figure(&needed)}</strong>
                </div>
                <p class="small">{format!("In hand: {in_hand}.")}</p>
                {ready_line(&needed)}
                <GoTo to=Route::Spec(id) name="Sizes and limits" />
            </div>
        })
    };
    let running = move || {
        let tally = tally.get()?;
        let currency = app.state(|state| state.visit(id).map(|v| v.opened.currency.clone()))?;
        let count = tally.planks.len();
        let planks = if count == 1 { "plank" } else { "planks" };
        let unfinished = app.state(|state| {
            let here = |pile| state.pile(pile).is_some_and(|pile| pile.opened.visit == id);
            app.drafts.with(|drafts| {
                drafts
                    .iter()
                    .filter(|draft| !draft.is_empty() && here(draft.pile))
                    .count()
            })
        });
        let more = if unfinished > 0 {
            format!(" + {unfinished} unfinished")
        } else {
            String::new()
        };
        let told = |name: &str, figure: String, total: Total| {
            told_figure(name.to_owned(), figure, total_told(app, id, total))
        };
        let feet = format!("{} bf", tally.tally.board_feet.round_dp(1));
        let mass = show::mass(in_kg(tally.mass), app.units.get());
        let paid = figures::money(tally.tally.money.gross, &currency);
        Some(view! {
            {format!("{count} {planks} taken{more}: ")}
            {told("Volume by the yard's rule", feet, Total::ByTheRule)}
            ", "
            {told("Weight", mass, Total::Mass)}
            ", "
            {told("To pay, with tax", paid, Total::Gross)}
            " with tax"
        })
    };
    let piles = move || {
        app.state(|state| {
            state
                .piles_of(id)
                .filter(|pile| !pile.withdrawn)
                .map(|pile| (pile.id, pile_title(pile), pile.looked_at(), pile.maybes()))
                .collect::<Vec<_>>()
        })
    };
    let pile = |(id, title, looked_at, maybes): (Id, String, u64, u64)| {
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
            {live(needed)}
            <p id="running">{live(running)}</p>
            <h2>"Piles"</h2>
            <ul class="plain" id="piles">{live(move || piles().into_iter().map(pile).collect_any())}</ul>
            <GoTo to=Route::NewPile(id) name="New pile" class="primary wide-button" />
            <h2>"Planks, best first"</h2>
            <ul class="plain" id="planks">
                {live(move || planks.get().into_iter().map(plank_card).collect_any())}
            </ul>
            <div class="row stretch">
                <GoTo to=Route::Tally(id) name="Tally and pay" />
                <GoTo to=Route::Seller(id) name="Seller's view" />
            </div>
            <div class="row stretch">
                <GoTo to=Route::Carry name="Save and share" />
                <GoTo to=Route::VisitForm(Some(id)) name="Change the visit" />
            </div>
        </Frame>
    }
    .into_any()
}

fn plank_card(plank: PlankRow) -> AnyView {
    let decision = match plank.decision {
        Some(Decision::Take) => "taken",
        Some(Decision::Leave) => "left",
        Some(Decision::SetAside) => "set aside",
        None => "open",
    };
    let to = if plank.decision.is_some() {
        Route::Sheet(plank.piece)
    } else {
        Route::Measure(plank.piece)
    };
    let score = plank
        .score
        .map_or("–".to_owned(), |score| format!("{score:.0}"));
    let call = plank.recommendation.unwrap_or(Recommendation::NothingYet);
    let cost = plank
        .cost_per_part
        .map(|cost| format!("{} {} a part", cost.round_dp(2), plank.currency));
    view! {
        <li>
            <a class="card" href=to.href()>
                <span class="row">
                    <span class="mark">{plank.mark}</span>
                    <span>{decision}</span>
                    <strong class="big-figure">{score}</strong>
                </span>
                <span class="row">
                    <span class=format!("word {}", call_class(call))>{call.words()}</span>
                    <small>{plank.weakest.map(|name| format!("weakest: {name}"))}</small>
                </span>
                <span class="row">
                    <small>{plank.species}</small>
                    <small>{cost}</small>
                </span>
            </a>
        </li>
    }
    .into_any()
}
