//! What is still needed: blanks wanted, parts held by the picks, what is short, and how many to start
//! to be safe nine times in ten.

use super::Shared;
use crate::app::App;
use crate::parts::{facts_drawn, given, live, told_figure};
use leptos::prelude::*;
use stillwood_core::notebook::Total;

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
        let short = told_figure(
            "Still needed".to_owned(),
            short,
            shared.tell(app, Total::Short),
        );
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
                Some(given(format!("{} blanks", spec.blanks_wanted))),
            ),
            ("Expected to come through".to_owned(), Some(given(percent))),
            (
                "To start, so that on average it is enough".to_owned(),
                Some(told_figure(
                    "To start, on average".to_owned(),
                    format!("{} {part}", needed.to_start),
                    shared.tell(app, Total::ToStart),
                )),
            ),
            (
                "To start, to be safe 9 times in 10".to_owned(),
                tally.start_for_nine_in_ten.as_ref().ok().map(|count| {
                    told_figure(
                        "To start, to be safe 9 times in 10".to_owned(),
                        format!("{count} {part}"),
                        shared.tell(app, Total::SafeStart),
                    )
                }),
            ),
            (
                "Held by the planks taken".to_owned(),
                Some(told_figure(
                    "Held by the planks taken".to_owned(),
                    format!("{} {part}", needed.held),
                    shared.tell(app, Total::Parts),
                )),
            ),
            ("Not counted".to_owned(), unknown.map(given)),
        ];
        let known = facts
            .into_iter()
            .filter_map(|(name, figure)| Some((name, figure?)));
        let known = known.collect();
        Some(
            view! {
                <p class=class id="short-by">"Still needed: " <strong>{short}</strong></p>
                {facts_drawn(known)}
            }
            .into_any(),
        )
    };
    view! {
        <h2>"Still needed"</h2>
        {live(card)}
    }
}
