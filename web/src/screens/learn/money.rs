//! Where the money went that was paid for planks: core follows the bills, here they are shown.

use crate::app::App;
use crate::parts::{CollectAny, facts_drawn, live, told_fact};
use crate::screens::figures;
use leptos::prelude::*;
use rust_decimal::Decimal;
use stillwood_core::record::CostAccount;
use stillwood_core::record::queries;

/// The part of the screen.
pub(super) fn money(app: App) -> AnyView {
    let shown = move || {
        let (accounts, unknown) = app.state(queries::cost_account);
        let one = |(currency, account): (&String, &CostAccount)| account_drawn(account, currency);
        let left_out = (unknown > 0).then(|| {
            let planks = figures::counted(unknown, "plank", "planks");
            view! { <p class="small">{planks} " left out: no price, or a size is missing."</p> }
        });
        view! {
            {accounts.iter().map(one).collect_any()}
            {left_out}
        }
        .into_any()
    };
    view! {
        <section aria-label="Where the money went" id="money">
            <h2>"Where the money went"</h2>
            {live(shown)}
            <p class="small">
                "What failed is paid for by what came through of the same plank, by volume. The parts add up to \
                 what was paid."
            </p>
        </section>
    }
    .into_any()
}

fn account_drawn(account: &CostAccount, currency: &str) -> AnyView {
    let names = [
        "In blanks",
        "Used",
        "Put to another use",
        "In hand, resting or waiting",
        "In planks of which nothing came through",
    ];
    let told = |(name, value): (&str, Decimal)| {
        let (account, currency) = (*account, currency.to_owned());
        let figure = figures::money(value, &currency);
        told_fact(name, figure, move || Some(account.worked(&currency)))
    };
    let parts = names.into_iter().zip(account.parts());
    let parts = parts.filter(|(_, part)| !part.is_zero());
    let paid = ("Paid for planks, with tax", account.paid);
    facts_drawn(std::iter::once(paid).chain(parts).map(told).collect())
}
