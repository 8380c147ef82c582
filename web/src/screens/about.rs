//! Cautions, and where the numbers come from.

use crate::parts::{CollectAny, Frame};
use crate::route::Route;
use leptos::prelude::*;
use stillwood_core::wood::{Citation, citations};

/// The screen.
#[component]
pub(crate) fn About() -> impl IntoView {
    let source = |citation: &'static Citation| view! { <li>{citation.text.clone()}</li> };
    view! {
        <Frame title="Cautions and sources" back=Route::Home>
            <h2>"Cautions"</h2>
            <ul>
                <li>
                    "Dust: the dust of every wood harms, and some woods sensitise skin and lungs for good. "
                    "Catch it where it is made, wear what your local rules ask for, and see a doctor early."
                </li>
                <li>"Saws and planers: follow the machine's own instructions and your local rules; learn from someone licensed to teach."</li>
                <li>"Lifting: a plank may weigh 40 kg. Weigh it end by end, lift with two, mind the pile above you."</li>
                <li>
                    "Protected species: lists change. What this app says is as of the date beside it; check with "
                    "your authority before you buy, sell or ship, and keep the papers."
                </li>
            </ul>
            <h2>"What the score means"</h2>
            <p>
                "Each criterion is 0 at your limit and 100 at your target, a straight line between. A plank "
                "has the score of its weakest criterion: good density never buys off bad runout. What was not "
                "looked at is left out and named. The computation proposes; you decide."
            </p>
            <p>
                "The ± beside a figure is the half-width of its 95 % interval, from how far tape, scale and "
                "meter may be off (Settings). Within 1.645 standard uncertainties of a limit it is too close "
                "to call, and the measurement worth repeating is named."
            </p>
            <p>
                "Limits, the eye's steps and the tools' ± are common practice, no source. Movement limits and "
                "slope limits for necks are found in no published standard: make them yours."
            </p>
            <h2>"Sources of the wood's numbers"</h2>
            <ul class="small">{citations().iter().map(source).collect_any()}</ul>
            <h2>"Stillwood itself"</h2>
            <p>
                <a class="button" href="./notices.txt">"Notices of the software that it is made of"</a>
                " From the app's address: needs a network."
            </p>
            <p>
                <a class="button" href="./rescue.html">"Save the record as a file without the app"</a>
                " Works without a network, and also when Stillwood itself does not open."
            </p>
        </Frame>
    }
}
