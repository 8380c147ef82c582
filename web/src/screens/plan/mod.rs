//! Plans forward and back: when what is in hand can be blanks, and for a wish by when each step has to be
//! taken, whether what is in hand is enough, and how many planks to start; by the least rests and at the
//! maker's own pace. Core reckons; here it is drawn.

mod ahead;
mod answer;
mod pace;

pub(crate) use answer::stands_on;
use stillwood_core::record::queries;

use crate::app::App;
use crate::parts::{Frame, live};
use crate::route::Route;
use crate::screens::wish::{WishTyped, keep_wish, last_visit, wish_fields, wish_now};
use crate::screens::workshop::resting;
use crate::shell::clock;
use chrono::NaiveDate;
use leptos::prelude::*;
use stillwood_core::quantity::mm;
use stillwood_core::record::{
    Expected, NotCounted, Paces, PlanAhead, TargetAnswer, TargetSet, WoodInHand, date,
    share_of_a_stage,
};
use stillwood_core::season::{FEELER_MM, Rests};

/// What comes of it where wood rests so long.
#[derive(Clone, PartialEq)]
struct Planned {
    rests: Rests,
    ahead: Result<PlanAhead, String>,
    answer: TargetAnswer,
}

/// All that the screen shows of a wish.
#[derive(Clone, PartialEq)]
struct Shown {
    today: NaiveDate,
    wish: TargetSet,
    /// By the least rests.
    least: Planned,
    /// At the maker's pace, where one is known.
    paced: Option<Planned>,
    paces: Paces,
    not_counted: NotCounted,
}

fn shown(app: App, wish: TargetSet) -> Option<Shown> {
    let today = date(&clock::now().day)?;
    let lines = resting(app);
    Some(app.state(|state| {
        let per_plank = queries::laminates_to_expect(state, None);
        let woods = wish.wood.as_slice();
        let found: (Vec<WoodInHand>, NotCounted) =
            queries::wood_in_hand(state, woods, &lines, per_plank, today);
        let (wood, not_counted) = found;
        let spec = last_visit(state).map(|visit| &visit.opened.spec);
        let expected = Expected {
            per_plank,
            share_unknown: share_of_a_stage(spec),
            by_own_counts: true,
        };
        let planned = |rests: Rests| {
            let ahead = queries::plan_ahead(state, &wood, wish.laminates_per_blank, &rests, today);
            Planned {
                answer: queries::target_answer(state, &wish, &wood, expected, &rests, today),
                ahead: ahead.map_err(|why| why.to_string()),
                rests,
            }
        };
        let least = queries::least_rests(state);
        let paces = queries::paces(state, mm(FEELER_MM), today);
        Shown {
            today,
            least: planned(least),
            paced: paces.rests(&least).map(planned),
            paces,
            wish: wish.clone(),
            not_counted,
        }
    }))
}

/// The screen.
pub(crate) fn plan_screen() -> AnyView {
    let app = expect_context::<App>();
    let typed = WishTyped::of(&app.book_now(wish_now));
    let begun = typed.begun(app, "wish".to_owned());
    let found = Memo::new(move |_| typed.read().map(|wish| shown(app, wish)));
    let answer = move || match found.get() {
        Err((_, why)) => Some(view! { <p class="note doubt">{why}</p> }.into_any()),
        Ok(shown) => Some(answer::answered(&shown?)),
    };
    let forward = move || found.get().ok().flatten().map(|shown| ahead::ahead(&shown));
    let own = move || {
        found
            .get()
            .ok()
            .flatten()
            .map(|shown| pace::own_pace(&shown.paces))
    };
    let kept = move || {
        let wish = typed.read().ok()?;
        let said = app.state(|state| queries::target(state).map(|(wish, on)| (wish.clone(), on)));
        Some(match said {
            Some((said, on)) if said == wish => {
                view! { <p class="small" id="wish-kept">{format!("Kept on {on}. The yard buys for it.")}</p> }
                    .into_any()
            }
            _ => view! {
                <button
                    type="button" class="wide-button" id="keep-wish"
                    disabled=move || begun.busy()
                    on:click=move |_| keep_wish(typed, begun, move || begun.begin_anew())
                >
                    "Keep this wish"
                </button>
            }
            .into_any(),
        })
    };
    view! {
        <Frame title="Plan" back=Route::Workshop class="wide">
            <div class="two">
                <div>
                    <section aria-label="The wish" id="wish">
                        <h2>"What is wished for"</h2>
                        {wish_fields(typed, begun)}
                        {live(kept)}
                    </section>
                    <section aria-label="Whether it is enough">{live(answer)}</section>
                    <section aria-label="Your own pace" id="own-pace">{live(own)}</section>
                </div>
                <section aria-label="From what is in hand">{live(forward)}</section>
            </div>
        </Frame>
    }
    .into_any()
}
