//! What is still needed: blanks wanted, parts held by the picks, what is short, and how many to start
//! to be safe nine times in ten.

use super::Shared;
use crate::app::App;
use crate::parts::Facts;
use leptos::prelude::*;

/// The card.
#[component]
pub(super) fn Needed(shared: Shared) -> impl IntoView {
    let app = expect_context::<App>();
    let card = move || {
        let tally = shared.tally.get()?;
        let spec = app.book(|book| Some(book.visit(shared.visit)?.opened.spec.clone()))?;
        let part = if spec.parts_per_blank > 1 {
            "laminates"
        } else {
            "blanks"
        };
        let needed = match &tally.needed {
            Ok(needed) => needed,
            Err(why) => {
                return Some(view! { <p class="note doubt">{why.to_string()}</p> }.into_any());
            }
        };
        let short = match needed.short_by {
            0 => "enough on average".to_owned(),
            some => format!("{some} {part} short"),
        };
        let class = if needed.short_by == 0 {
            "note good"
        } else {
            "note"
        };
        let percent = format!("{:.0} %", spec.expected_yield * 100.0);
        let unknown = match tally.parts_unknown {
            0 => None,
            some => Some(format!("{some} planks: sizes not measured")),
        };
        let facts = vec![
            (
                format!("{} wanted", spec.name),
                Some(format!("{} blanks", spec.blanks_wanted)),
            ),
            ("Expected to come through".to_owned(), Some(percent)),
            (
                "To start, so that on average it is enough".to_owned(),
                Some(format!("{} {part}", needed.to_start)),
            ),
            (
                "To start, to be safe 9 times in 10".to_owned(),
                tally
                    .start_for_nine_in_ten
                    .as_ref()
                    .ok()
                    .map(|count| format!("{count} {part}")),
            ),
            (
                "Held by the planks taken".to_owned(),
                Some(format!("{} {part}", needed.held)),
            ),
            ("Not counted".to_owned(), unknown),
        ];
        Some(
            view! {
                <p class=class id="short-by">"Still needed: " <strong>{short}</strong></p>
                <Facts of=facts />
            }
            .into_any(),
        )
    };
    view! {
        <h2>"Still needed"</h2>
        {card}
    }
}
