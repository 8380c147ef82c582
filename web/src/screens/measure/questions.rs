//! Questions about what was typed: asked, with what else may have been meant; never in the way.

use crate::app::App;
use crate::entering::readings_of;
use crate::parts::focus_on;
use leptos::prelude::*;
use stillwood_core::plank::{Doubt, Field};
use stillwood_core::verdict::Sheet;

/// One question, with its offers and "yes, really".
#[component]
pub(super) fn Question(
    /// The field that an offer is put into.
    field: Field,
    /// The question.
    doubt: Doubt,
    /// A way to the field.
    #[prop(optional)]
    look: bool,
) -> impl IntoView {
    let entering = expect_context::<App>().entering;
    let offer = move |offer: stillwood_core::plank::Offer| {
        let text = offer.text;
        view! {
            <button type="button" on:click=move |_| entering.put(field, text.clone())>
                {offer.label}
            </button>
        }
    };
    view! {
        <div class="note doubt" role="status">
            <p>{doubt.question}</p>
            <div class="row">
                {doubt.offers.into_iter().map(offer).collect_view()}
                {look
                    .then(|| {
                        view! {
                            <button type="button" on:click=move |_| focus_on(field)>
                                {format!("Look at {}", field.label().to_lowercase())}
                            </button>
                        }
                    })}
                <button type="button" on:click=move |_| entering.insist(field)>"Yes, really"</button>
            </div>
        </div>
    }
}

/// Questions that need several fields together.
#[component]
pub(super) fn CrossDoubts(judged: Memo<Option<Sheet>>) -> impl IntoView {
    let app = expect_context::<App>();
    move || {
        judged.track();
        let draft = app.entering.draft.get()?;
        let (_readings, _) = readings_of(&draft, app.units.get());
        let asked = std::iter::empty::<(Field, Doubt)>();
        Some(
            asked
                .map(|one| view! { <Question field=one.0 doubt=one.1 look=true /> })
                .collect_view(),
        )
    }
}
