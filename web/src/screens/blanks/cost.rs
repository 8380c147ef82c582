//! What the wood in a blank cost: its laminates' own wood, and their share of what failed on the way.
//! Core shares the bills out; here it is only shown.

use crate::app::App;
use crate::parts::{CollectAny, facts_drawn, told_fact, told_figure};
use crate::screens::figures::money;
use leptos::prelude::*;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{BlankCost, PartCost};

/// The part of a blank's papers; what is not known says what is missing.
pub(crate) fn cost_of_blank(app: App, id: Id) -> AnyView {
    let found = app.state(|state| {
        let cost = queries::blank_cost(state, id)?;
        let mark = |part: &PartCost| state.piece(part.piece).map(|piece| piece.mark.clone());
        let marks = cost.parts.iter().map(|part| mark(part).unwrap_or_default());
        let marks: Vec<String> = marks.collect();
        Some((cost, marks))
    });
    let shown = match found {
        Some((cost, marks)) => known(cost, marks),
        None => view! {
            <p class="small">"Not known: a plank in it has no price, or a size is missing."</p>
        }
        .into_any(),
    };
    view! {
        <h3>"What its wood cost, with tax"</h3>
        <div id="blank-cost">{shown}</div>
    }
    .into_any()
}

fn known(cost: BlankCost, marks: Vec<String>) -> AnyView {
    let shown = |value| money(value, &cost.currency);
    let sum = |name: &str, value, own: bool| {
        let cost = cost.clone();
        told_fact(name, shown(value), move || Some(cost.explain_sum(own)))
    };
    let own = sum("Its own wood", cost.own, true);
    if cost.carried.is_zero() {
        return view! {
            {facts_drawn(vec![own])}
            <p class="small">"It was thrown out: what came through of its planks pays for it."</p>
        }
        .into_any();
    }
    let failed = cost.carried - cost.own;
    let failed = sum("Its share of what failed of its planks", failed, false);
    let row = |(part, mark): (&PartCost, String)| {
        let over = shown(part.carried - part.own);
        let figure = format!("{} of its own, {over} for what failed", shown(part.own));
        let (part, currency) = (part.clone(), cost.currency.clone());
        let tell = move || Some(part.worked(&currency));
        let name = format!("Wood of {mark}");
        view! {
            <li class="off">
                <strong>{mark}</strong>
                {told_figure(name, figure, tell)}
            </li>
        }
    };
    let rows = cost.parts.iter().zip(marks).map(row).collect_any();
    let tell = cost.clone();
    let together = told_fact("Together", shown(cost.carried), move || Some(tell.worked()));
    view! {
        {facts_drawn(vec![own, failed, together])}
        <ul class="plain">{rows}</ul>
    }
    .into_any()
}
