//! A plank's mark, as large as the screen, to chalk on the wood.

use crate::app::App;
use crate::parts::{Frame, live};
use crate::route::Route;
use leptos::prelude::*;
use stillwood_core::record::Id;

/// The mark.
#[component]
pub(crate) fn MarkScreen(
    /// The piece.
    id: Id,
) -> impl IntoView {
    let app = expect_context::<App>();
    let draft = move || {
        app.drafts.with(|drafts| {
            drafts
                .iter()
                .find(|draft| draft.piece == Some(id))
                .map(|draft| draft.mark.clone())
        })
    };
    let mark = move || {
        let recorded = app.state(|state| state.piece(id).map(|piece| piece.mark.clone()));
        recorded.or_else(draft).unwrap_or_default()
    };
    view! {
        <Frame title="Chalk this on the face" back=Route::Measure(id)>
            <p class="mark mark-big">{live(mark)}</p>
            <p>
                "Write it on the wide face, not on the end: ends get trimmed. The last sign is a check: "
                "read it along, and a misread mark is caught."
            </p>
        </Frame>
    }
}
