//! A wood of the maker's own on a screen of its own, and the list of all of them.

use crate::app::App;
use crate::parts::{CollectAny, Frame, OwnWoodFields, live};
use crate::route::{Route, go};
use leptos::prelude::*;
use stillwood_core::record::Id;
use stillwood_core::wood::Species;

/// The screen.
#[component]
pub(crate) fn OwnWoodScreen(
    /// The wood; none is a new one.
    id: Option<Id>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let of = id.and_then(|about| {
        app.book_now(|state| {
            let mut woods = state.woods().iter();
            woods
                .find(|(_, wood)| wood.about == about)
                .map(|(id, _)| id.clone())
        })
    });
    let done = Callback::new(move |known: Option<Species>| {
        if let Some(known) = known.filter(|known| !app.is_own(known.id())) {
            app.say(format!("{} is in the table: nothing to add.", known.name()));
        }
        // Back to where it was asked for.
        match window().history() {
            Ok(history) if history.length().is_ok_and(|steps| steps > 1) => {
                if let Err(why) = history.back() {
                    leptos::logging::error!("could not go back: {why:?}");
                }
            }
            _ => go(Route::Settings),
        }
    });
    view! {
        <Frame title="A wood of your own" back=Route::Settings>
            <OwnWoodFields of=of done=done />
        </Frame>
    }
}

/// The woods of the maker's own, each a way to its screen.
#[component]
pub(crate) fn OwnWoods() -> impl IntoView {
    let app = expect_context::<App>();
    let woods = move || {
        let one = |(about, name, known): (Id, String, usize)| {
            view! {
                <li>
                    <a class="card" href=Route::OwnWood(Some(about)).href()>
                        <span class="row">
                            <strong>{name}</strong>
                            <small>{format!("your data: {known} numbers")}</small>
                        </span>
                    </a>
                </li>
            }
        };
        let listed: Vec<_> = app.state(|state| {
            let woods = state.woods().values();
            let listed = |wood: &stillwood_core::record::Wood| {
                (
                    wood.about,
                    wood.added.common.clone(),
                    wood.added.numbers.len(),
                )
            };
            woods.map(listed).collect()
        });
        listed.into_iter().map(one).collect_any()
    };
    view! {
        <h2>"Woods of your own"</h2>
        <ul class="plain" id="own-woods">{live(woods)}</ul>
        <a class="button" id="add-wood" href=Route::OwnWood(None).href()>"Add a wood of your own"</a>
    }
}
