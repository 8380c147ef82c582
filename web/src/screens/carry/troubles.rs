//! What the record shows of its own gaps and damage, in plain words, and only when there is something to
//! say.

use super::to_settle::{SettledAt, ToSettle, to_settle};
use crate::app::App;
use crate::parts::{CollectAny, When, live};
use crate::route::Route;
use leptos::prelude::*;
use stillwood_core::record::Id;

/// Lines shown of one trouble.
const SHOWN: usize = 20;

/// The part of the screen; nothing when all is well.
#[component]
pub(super) fn Troubles() -> impl IntoView {
    let app = expect_context::<App>();
    let troubles = Memo::new(move |_| {
        let mut all = to_settle(app);
        all.retain(|one| one.at == SettledAt::Listed);
        all
    });
    let list = move || troubles.get().into_iter().map(one).collect_any();
    view! {
        <When so=move || troubles.with(|troubles| !troubles.is_empty())>
            <h2>"What the record says of itself"</h2>
            <div id="troubles">{live(list)}</div>
        </When>
    }
}

fn one(trouble: ToSettle) -> AnyView {
    let more = trouble.found.len().saturating_sub(SHOWN);
    let line = |(text, planks): (String, Vec<(Id, String)>)| {
        let plank = |(id, name): (Id, String)| {
            view! { <a class="button" href=Route::Sheet(id).href()>{name}</a> }
        };
        view! {
            <li>{text} " " {planks.into_iter().map(plank).collect_any()}</li>
        }
    };
    let class = if trouble.calm { "note" } else { "note doubt" };
    view! {
        <section class=class id=trouble.id aria-label=trouble.name>
            <h3>{trouble.name}</h3>
            <p>{trouble.meaning}</p>
            <ul>{trouble.found.into_iter().take(SHOWN).map(line).collect_any()}</ul>
            {(more > 0).then(|| view! { <p>{format!("… and {more} more.")}</p> })}
        </section>
    }
    .into_any()
}
