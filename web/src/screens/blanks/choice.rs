//! Blanks side by side, for whoever chooses one: what was measured of each, and keeping it for somebody. What
//! is the maker's own, money and names, stands there only when asked for.

use super::columns::{columns, table};
use super::deeds::{KEEP, Open, half_typed};
use crate::app::App;
use crate::held::{Part, remember};
use crate::parts::{Frame, Tick, live};
use crate::route::Route;
use crate::screens::figures::counted;
use crate::screens::workshop::{deed_form, doing};
use leptos::prelude::*;
use stillwood_core::record::Id;

/// More than these do not stand beside each other.
const MOST: usize = 6;

/// The blanks that were chosen to stand side by side, and what is shown of them.
#[derive(Clone, Copy)]
pub(super) struct Chosen {
    pub(super) ids: RwSignal<Vec<Id>>,
    /// What is the maker's own is hidden.
    pub(super) hide: RwSignal<bool>,
}

impl Chosen {
    /// As they were chosen last.
    pub(super) fn remembered(app: App) -> Self {
        let (ids, hide) = (RwSignal::new(Vec::new()), RwSignal::new(true));
        let read = move || {
            let ids = ids.get();
            let ids: Vec<String> = ids.iter().map(Id::to_string).collect();
            ids.join(" ")
        };
        let put = move |text: &str| {
            let all = text.split_whitespace();
            ids.set(all.filter_map(|id| id.parse().ok()).collect());
        };
        let parts = vec![Part::made("blanks", read, put), Part::of("hide", hide)];
        remember(app, "choice", parts);
        Self { ids, hide }
    }

    fn has(self, id: Id) -> bool {
        self.ids.with(|ids| ids.contains(&id))
    }

    /// Takes one in, or out again.
    fn turn(self, app: App, id: Id, there: &[Id]) {
        let mut ids = self.ids.get_untracked();
        // What is used by now takes no place.
        ids.retain(|one| there.contains(one));
        match ids.iter().position(|one| *one == id) {
            Some(at) => drop(ids.remove(at)),
            None if ids.len() >= MOST => {
                app.say(format!(
                    "{MOST} at most stand side by side: take one out first."
                ));
            }
            None => ids.push(id),
        }
        self.ids.set(ids);
    }
}

/// The tap on a card.
pub(super) fn tap(app: App, chosen: Chosen, id: Id, there: Memo<Vec<Id>>) -> AnyView {
    let is_in = move || chosen.has(id);
    view! {
        <button
            type="button" class="chip choose" aria-pressed=move || is_in().to_string()
            on:click=move |_| chosen.turn(app, id, &there.get_untracked())
        >
            {live(move || if is_in() { "✓ " } else { "" })}
            "Side by side"
        </button>
    }
    .into_any()
}

/// How many are chosen, and the way to them.
pub(super) fn bar(chosen: Chosen, there: Memo<Vec<Id>>) -> AnyView {
    let count = Memo::new(move |_| {
        let ids = chosen.ids.get();
        there.with(|there| ids.iter().filter(|id| there.contains(id)).count())
    });
    let drawn = move || {
        let count = count.get();
        if count == 0 {
            return None;
        }
        let words = counted(count, "blank chosen", "blanks chosen");
        let words = match count {
            1 => format!("{words}: take others, {MOST} at most"),
            _ => words,
        };
        let go = (count > 1).then(|| {
            let to = Route::Choice.href();
            view! { <a class="button primary" id="to-choice" href=to>"See them side by side"</a> }
        });
        Some(view! {
            <div class="row chosen">
                <span>{words}</span>
                {go}
                <button type="button" class="quiet" on:click=move |_| chosen.ids.set(Vec::new())>
                    "Clear"
                </button>
            </div>
        })
    };
    view! { <div class="chosen-bar no-print" role="status">{live(drawn)}</div> }.into_any()
}

/// The screen.
pub(crate) fn choice_screen() -> AnyView {
    let app = expect_context::<App>();
    let chosen = Chosen::remembered(app);
    let columns = Memo::new(move |_| columns(app, chosen));
    let ids = columns.with_untracked(|all| all.iter().map(|one| one.row.id).collect::<Vec<_>>());
    let begun = half_typed(app, &ids).filter(|(_, name)| *name == KEEP);
    let open: Open = RwSignal::new(begun);
    let shown = move || {
        match columns.get() {
        all if all.is_empty() => view! {
            <p class="note" id="none-chosen">
                "None is chosen. On the cards of the blanks tap “Side by side”, on three to six of them."
            </p>
        }
        .into_any(),
        all => table(app, &all, chosen, open),
    }
    };
    let form = move || {
        let (id, name) = open.get()?;
        let mark = columns.with_untracked(|all| {
            let mut all = all.iter().map(|column| &column.row);
            all.find(|row| row.id == id).map(|row| row.mark.clone())
        })?;
        let close = Callback::new(move |()| open.set(None));
        let form = deed_form(app, id, doing(name)?, close);
        Some(view! {
            <h2>"Keep " {mark}</h2>
            {form}
        })
    };
    view! {
        <Frame title="Side by side" back=Route::Blanks class="wide">
            <div class="row no-print">
                <Tick name="hide what is ours" value=chosen.hide />
                <small>"What its wood cost, and for whom others are kept."</small>
            </div>
            {live(shown)}
            <div id="choice-form">{live(form)}</div>
        </Frame>
    }
    .into_any()
}
