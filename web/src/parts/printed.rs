//! What is printed: the way to the browser's print view, and the card for a shelf.

use crate::app::App;
use crate::shell::files_out::print;
use leptos::prelude::*;

/// Prints what stands on the screen, or says why not.
pub(crate) fn print_page(app: App) {
    if let Err(why) = print() {
        app.say(why.to_string());
    }
}

/// The button that does so, above a paper.
pub(crate) fn print_button(app: App) -> AnyView {
    view! {
        <button type="button" class="no-print wide-button" id="print" on:click=move |_| print_page(app)>
            "Print this"
        </button>
    }
    .into_any()
}

/// A card for the shelf: the mark, large, and the facts, by themselves on the paper.
pub(crate) fn shelf_card(app: App, mark: String, facts: AnyView) -> AnyView {
    view! {
        {print_button(app)}
        <div class="card" id="shelf-card">
            <h2 class="mark mark-big">{mark}</h2>
            {facts}
        </div>
    }
    .into_any()
}
