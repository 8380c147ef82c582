//! Where the money went that was paid for planks: core follows the bills, here they are shown.

use crate::app::App;
use crate::parts::{CollectAny, Facts, live};
use crate::screens::figures;
use leptos::prelude::*;
use stillwood_core::notebook::CostAccount;

/// The part of the screen.
pub(super) fn money(app: App) -> AnyView {
    let shown = move || {
        let (accounts, unknown) = app.book(|book| book.cost_account());
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
    let shown = |value| figures::money(value, currency);
    let mut of = vec![(
        "Paid for planks, with tax".to_owned(),
        Some(shown(account.paid)),
    )];
    let parts = names.into_iter().zip(account.parts());
    of.extend(parts.map(|(name, part)| (name.to_owned(), (!part.is_zero()).then(|| shown(part)))));
    view! { <Facts of=of /> }.into_any()
}
