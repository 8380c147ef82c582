//! The planks of the tally, one by one: sizes, volume by the rule and exact, money, cost of a part.

use super::Shared;
use crate::app::App;
use crate::parts::{CollectAny, When, live, told_figure};
use crate::route::Route;
use crate::screens::figures;
use leptos::prelude::*;
use stillwood_core::notebook::PlankTallied;
use stillwood_core::plank::charge_worked;
use stillwood_core::quantity::read::Units;

/// The list.
#[component]
pub(super) fn Planks(shared: Shared) -> impl IntoView {
    let app = expect_context::<App>();
    let rows = move || {
        let currency = shared.currency.get();
        let units = app.units.get();
        let planks = shared.tally.get().map(|tally| tally.planks);
        planks
            .unwrap_or_default()
            .into_iter()
            .map(|plank| row(plank, units, &currency))
            .collect_any()
    };
    let none = move || {
        shared
            .tally
            .with(|tally| tally.as_ref().is_some_and(|tally| tally.planks.is_empty()))
    };
    view! {
        <h2>"Planks taken"</h2>
        <When so=none>
            <p>"None yet. A plank is on the tally once you press Take."</p>
        </When>
        <When so=move || !none()>
            <div class="scroll" tabindex="0" role="region" aria-label="Planks taken">
            <table class="stacks" id="tally-planks">
                <thead>
                    <tr>
                        <th scope="col">"Mark"</th>
                        <th scope="col">"Size"</th>
                        <th scope="col" class="n">"By the yard's rule"</th>
                        <th scope="col" class="n">"As measured"</th>
                        <th scope="col" class="n">"Cost"</th>
                        <th scope="col" class="n">"A part"</th>
                    </tr>
                </thead>
                <tbody>{live(rows)}</tbody>
            </table>
            </div>
        </When>
    }
}

fn row(plank: PlankTallied, units: Units, currency: &str) -> AnyView {
    let money = |value| figures::money(value, currency);
    let by_rule = match &plank.tallied.board_feet {
        Ok(feet) => figures::volume_in_column(*feet),
        Err(why) => why.to_string().into_any(),
    };
    let asked = plank.clone();
    let bill = move || Some(charge_worked(&asked.line, &asked.terms, &asked.tallied));
    let cost = match &plank.tallied.money {
        Ok(paid) => view! {
            <strong class="nb">{told_figure(format!("Cost of {}", plank.line.mark), money(paid.gross), bill)}</strong>
            " "
            <span class="nb small">{format!("{} without tax", money(paid.net))}</span>
        }
        .into_any(),
        Err(why) => why.to_string().into_any(),
    };
    let exact = plank
        .exact_board_feet
        .map_or_else(|| "–".into_any(), figures::volume_in_column);
    let part = match (plank.parts, plank.cost_per_part) {
        (Some(parts), Some(each)) => format!("{}, holds {parts}", money(each)),
        (Some(0), None) => "holds none".to_owned(),
        (Some(parts), None) => format!("{parts} parts"),
        (None, _) => "–".to_owned(),
    };
    view! {
        <tr>
            <th scope="row" data-label="Mark">
                <a class="button mark" href=Route::Sheet(plank.piece).href()>
                    {plank.line.mark.clone()}
                </a>
            </th>
            <td data-label="Size" class="size">{figures::size(&plank.line, units)}</td>
            <td class="n" data-label="By the yard's rule">{by_rule}</td>
            <td class="n" data-label="As measured">{exact}</td>
            <td class="n" data-label="Cost, with tax"><span>{cost}</span></td>
            <td class="n" data-label="A part, with tax">{part}</td>
        </tr>
    }
    .into_any()
}
