//! What the seller may see: marks, sizes, volume, price, totals. No notes, no verdicts, no ceilings, and
//! nothing on the way to them but the way back.

use crate::app::App;
use crate::parts::{CollectAny, Frame, given, live, told_figure};
use crate::route::Route;
use crate::screens::pile::missing;
use crate::screens::tally::{currency, terms_in_words, yard_name};
use crate::screens::{figures, plank_told, total_told};
use leptos::prelude::*;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{PlankFigure, PlankTallied, Total};

/// The screen.
#[component]
pub(crate) fn Seller(
    /// The visit.
    id: Id,
) -> impl IntoView {
    let app = expect_context::<App>();
    if app.book_now(|state| state.visit(id).is_none()) {
        return missing("No such visit");
    }
    // A word on what was decided is not for the seller.
    app.toast.set(None);
    let tally = Memo::new(move |_| app.state(|state| queries::tally_of(state, id)));
    let title = Signal::derive(move || app.state(|state| yard_name(state, id)));
    let money_in = Memo::new(move |_| app.state(|state| currency(state, id)));
    let rows = move || {
        let (units, money_in) = (app.units.get(), money_in.get());
        let planks = tally.get().map(|tally| tally.planks).unwrap_or_default();
        planks
            .into_iter()
            .map(|plank| row(app, plank, units, &money_in))
            .collect_any()
    };
    let totals = move || {
        let tally = tally.get()?.tally;
        let (money_in, count) = (money_in.get(), tally.lines.len());
        let money = |value| figures::money(value, &money_in);
        let open = tally.without_price + tally.without_footage;
        let told = |name: &str, figure: String, total: Total| {
            told_figure(name.to_owned(), figure, total_told(app, id, total))
        };
        Some(view! {
            <dl class="facts seller-totals" id="seller-totals">
                <dt>{figures::counted(count, "plank", "planks")}</dt>
                <dd>{told("Volume", figures::volume(tally.board_feet), Total::ByTheRule)}</dd>
                <dt>"Without tax"</dt>
                <dd>{told("Without tax", money(tally.money.net), Total::Net)}</dd>
                <dt>"Tax"</dt>
                <dd>{told("Tax", money(tally.money.tax), Total::Tax)}</dd>
                <dt>"With tax"</dt>
                <dd class="big-figure">{told("With tax", figures::breakable(money(tally.money.gross)), Total::Gross)}</dd>
            </dl>
            {(open > 0).then(|| view! { <p>"Planks without a figure are not in the totals."</p> })}
        })
    };
    let rules = move || {
        app.state(|state| terms_in_words(state, id, |pile| pile.opened.species.text.clone()))
            .into_iter()
            .map(|(wood, rule, price)| {
                view! { <li>{wood} ": " {given(rule)} {price.map(|price| given(format!("; {price}")))}</li> }
            })
            .collect_any()
    };
    view! {
        <Frame title=title back=Route::Tally(id) class="wide seller">
            {live(totals)}
            <table class="stacks" id="seller-planks">
                <thead>
                    <tr>
                        <th scope="col">"Mark"</th>
                        <th scope="col">"Size"</th>
                        <th scope="col" class="n">"Volume"</th>
                        <th scope="col" class="n">"Without tax"</th>
                        <th scope="col" class="n">"With tax"</th>
                    </tr>
                </thead>
                <tbody>{live(rows)}</tbody>
            </table>
            <h2>"Rule and price"</h2>
            <ul>{live(rules)}</ul>
        </Frame>
    }
    .into_any()
}

fn row(app: App, plank: PlankTallied, units: Units, currency: &str) -> AnyView {
    let volume = plank.tallied.board_feet.as_ref().ok().copied();
    let paid = plank.tallied.money.as_ref().ok().copied();
    let told = |name: &str, figure: Option<String>| match figure {
        None => "–".into_any(),
        Some(figure) => {
            let name = format!("{name} of {}", plank.line.mark);
            told_figure(
                name,
                figure,
                plank_told(app, plank.piece, PlankFigure::Bill),
            )
        }
    };
    let money = |value| figures::money(value, currency);
    view! {
        <tr>
            <th scope="row" data-label="Mark"><span class="mark">{plank.line.mark.clone()}</span></th>
            <td data-label="Size" class="nb">{given(figures::size(&plank.line, units))}</td>
            <td class="n" data-label="Volume">{told("Volume", volume.map(figures::volume))}</td>
            <td class="n" data-label="Without tax">{told("Without tax", paid.map(|paid| money(paid.net)))}</td>
            <td class="n" data-label="With tax">{told("With tax", paid.map(|paid| money(paid.gross)))}</td>
        </tr>
    }
    .into_any()
}
