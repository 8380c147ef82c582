//! The planks of the tally, one by one: sizes, volume by the rule and exact, money, cost of a part.

use super::Shared;
use crate::app::App;
use crate::parts::{CollectAny, When, given, live, told_figure};
use crate::route::Route;
use crate::screens::{figures, plank_told};
use leptos::prelude::*;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{PlankFigure, PlankTallied};
use stillwood_core::verdict::Number;

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
            .map(|plank| row(app, plank, units, &currency))
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

fn row(app: App, plank: PlankTallied, units: Units, currency: &str) -> AnyView {
    let money = |value| figures::money(value, currency);
    let told = |name: &str, figure: String, of: PlankFigure| {
        let name = format!("{name} of {}", plank.line.mark);
        told_figure(name, figure, plank_told(app, plank.piece, of))
    };
    let by_rule = match &plank.tallied.board_feet {
        Ok(feet) => told(
            "Volume by the rule",
            figures::volume(*feet),
            PlankFigure::Bill,
        ),
        Err(why) => why.to_string().into_any(),
    };
    let cost = match &plank.tallied.money {
        Ok(paid) => view! {
            <strong class="nb">{told("Cost", money(paid.gross), PlankFigure::Bill)}</strong>
            " "
            {told("Cost without tax", format!("{} without tax", money(paid.net)), PlankFigure::Bill)}
        }
        .into_any(),
        Err(why) => why.to_string().into_any(),
    };
    let exact = plank.exact_board_feet.map_or_else(
        || "–".into_any(),
        |feet| {
            told(
                "Volume as measured",
                figures::volume(feet),
                PlankFigure::Exact,
            )
        },
    );
    let held = PlankFigure::Sheet(Number::Held);
    let part = match (plank.parts, plank.cost_per_part) {
        (Some(parts), Some(each)) => {
            let cost = format!("{}, holds {parts}", money(each));
            told("Wood for one part", cost, PlankFigure::CostPerPart)
        }
        (Some(0), None) => "holds none".into_any(),
        (Some(parts), None) => told("Parts", format!("{parts} parts"), held),
        (None, _) => "–".into_any(),
    };
    view! {
        <tr>
            <th scope="row" data-label="Mark">
                <a class="button mark" href=Route::Sheet(plank.piece).href()>
                    {plank.line.mark.clone()}
                </a>
            </th>
            <td data-label="Size" class="size">{given(figures::size(&plank.line, units))}</td>
            <td class="n" data-label="By the yard's rule">{by_rule}</td>
            <td class="n" data-label="As measured">{exact}</td>
            <td class="n" data-label="Cost, with tax"><span>{cost}</span></td>
            <td class="n" data-label="A part, with tax">{part}</td>
        </tr>
    }
    .into_any()
}
