//! Corrections of one entry that were made apart: all are shown, one is in force by rule, and the maker
//! settles it by choosing.

use crate::app::App;
use crate::parts::{CollectAny, When, live};
use crate::record::Deed;
use crate::screens::words;
use leptos::prelude::*;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Id;
use stillwood_core::record::{Dispute, State};

/// The part of the screen; nothing when nothing is open.
#[component]
pub(super) fn Disputes() -> impl IntoView {
    let app = expect_context::<App>();
    let disputes = Memo::new(move |_| app.state(|state| state.disputes().to_vec()));
    let cards = move || {
        let units = app.units.get();
        disputes
            .get()
            .into_iter()
            .map(|dispute| card(app, dispute, units))
            .collect_any()
    };
    view! {
        <When so=move || disputes.with(|disputes| !disputes.is_empty())>
            <h2>"Two corrections, made apart"</h2>
            <p class="small" id="disputes">
                "The same entry was corrected on two devices that did not know of each other. Choose what holds; the other stays in the history."
            </p>
            {live(cards)}
        </When>
    }
}

/// What an entry is about, in a word or two.
pub(super) fn about(state: &State, id: Id) -> String {
    if let Some(piece) = state.piece(id) {
        return format!("plank {}", piece.mark);
    }
    if let Some(pile) = state.pile(id) {
        return format!("pile of {}", pile.opened.species.text);
    }
    match state.visit(id) {
        Some(visit) => format!("visit to {}", visit.opened.yard),
        None => "something whose beginning is not here".to_owned(),
    }
}

fn card(app: App, dispute: Dispute, units: Units) -> AnyView {
    let title = app.book_now(|state| about(state, dispute.about));
    let in_force = dispute.in_force();
    let rivals: Vec<(Id, String, String)> = app.record.with_value(|record| {
        let entry = |id: &Id| record.log().entry(*id);
        dispute
            .candidates
            .iter()
            .filter_map(|id| {
                let entry = entry(id)?;
                let who = format!("{}, device {}", entry.on, entry.by);
                Some((*id, who, words::event(&entry.event, units)))
            })
            .collect()
    });
    let dispute = StoredValue::new(dispute);
    let choose = move |id: Id| {
        let settled = app.record.with_value(|record| {
            let about = record.log().entry(id)?.about;
            let found = dispute.with_value(|dispute| dispute.settle(record.log().entry(id)?))?;
            Some((about, found))
        });
        let Some((about, (event, replaced))) = settled else {
            return app.say("That entry is not here any more.");
        };
        let deed = Deed::instead_of(about, event, replaced);
        app.write_and_say(vec![deed], "Settled.".into(), None);
    };
    let rival = move |(id, who, what): (Id, String, String)| {
        let now = if in_force == Some(id) {
            " (in force now)"
        } else {
            ""
        };
        view! {
            <li class="card">
                <p><strong>{who}</strong>{now}</p>
                <p>{what}</p>
                <button class="settle" on:click=move |_| choose(id)>"This holds"</button>
            </li>
        }
    };
    let label = title.clone();
    view! {
        <section class="card" aria-label=label>
            <h3>{title}</h3>
            <ul class="plain">{rivals.into_iter().map(rival).collect_any()}</ul>
        </section>
    }
    .into_any()
}
