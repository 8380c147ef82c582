//! What the seller may see: marks, sizes, volume, price, totals. No notes, no verdicts, no ceilings, and
//! nothing on the way to them but the way back.

use crate::app::App;
use crate::parts::Frame;
use crate::route::Route;
use crate::screens::figures;
use crate::screens::pile::missing;
use crate::screens::tally::{currency, terms_in_words, yard_name};
use leptos::prelude::*;
use stillwood_core::notebook::PlankTallied;
use stillwood_core::quantity::read::Units;
use uuid::Uuid;

/// The screen.
#[component]
pub(crate) fn Seller(
    /// The visit.
    id: Uuid,
) -> impl IntoView {
    let app = expect_context::<App>();
    if app.book_now(|book| book.visit(id).is_none()) {
        return missing("No such visit");
    }
    // A word on what was decided is not for the seller.
    app.toast.set(None);
    let tally = Memo::new(move |_| app.book(|book| book.tally_of(id)));
    let title = Signal::derive(move || app.book(|book| yard_name(book, id)));
    let money_in = Memo::new(move |_| app.book(|book| currency(book, id)));
    let rows = move || {
        let (units, money_in) = (app.units.get(), money_in.get());
        let planks = tally.get().map(|tally| tally.planks).unwrap_or_default();
        planks
            .into_iter()
            .map(|plank| row(plank, units, &money_in))
            .collect_view()
    };
    let totals = move || {
        let tally = tally.get()?.tally;
        let (money_in, count) = (money_in.get(), tally.lines.len());
        let money = |value| figures::money(value, &money_in);
        let open = tally.without_price + tally.without_footage;
        Some(view! {
            <dl class="facts seller-totals" id="seller-totals">
                <dt>{figures::counted(count, "plank", "planks")}</dt>
                <dd>{figures::volume(tally.board_feet)}</dd>
                <dt>"Without tax"</dt>
                <dd>{money(tally.money.net)}</dd>
                <dt>"Tax"</dt>
                <dd>{money(tally.money.tax)}</dd>
                <dt>"With tax"</dt>
                <dd class="big-figure">{money(tally.money.gross)}</dd>
            </dl>
            {(open > 0).then(|| view! { <p>"Planks without a figure are not in the totals."</p> })}
        })
    };
    let rules = move || {
        app.book(|book| terms_in_words(book, id, |pile| pile.opened.species.text.clone()))
            .into_iter()
            .map(|(wood, rule, price)| {
                view! { <li>{wood} ": " {rule} {price.map(|price| format!("; {price}"))}</li> }
            })
            .collect_view()
    };
    view! {
        <Frame title=title back=Route::Tally(id) class="wide seller">
            {totals}
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
                <tbody>{rows}</tbody>
            </table>
            <h2>"Rule and price"</h2>
            <ul>{rules}</ul>
        </Frame>
    }
    .into_any()
}

fn row(plank: PlankTallied, units: Units, currency: &str) -> impl IntoView + use<> {
    let none = || "–".to_owned();
    let volume = plank.tallied.board_feet.as_ref().ok().copied();
    let paid = plank.tallied.money.as_ref().ok().copied();
    let money = |value| figures::money(value, currency);
    view! {
        <tr>
            <th scope="row" data-label="Mark"><span class="mark">{plank.line.mark.clone()}</span></th>
            <td data-label="Size" class="nb">{figures::size(&plank.line, units)}</td>
            <td class="n" data-label="Volume">{volume.map_or_else(|| none().into_any(), figures::volume_in_column)}</td>
            <td class="n" data-label="Without tax">{paid.map_or_else(none, |paid| money(paid.net))}</td>
            <td class="n" data-label="With tax">{paid.map_or_else(none, |paid| money(paid.gross))}</td>
        </tr>
    }
}
