//! Where the parts lie along a plank, and the faults that they dodge.

use crate::parts::CollectAny;
use leptos::prelude::*;

/// The bar of cuts.
#[component]
pub(crate) fn Cuts(
    /// Length of the plank, mm.
    length: f64,
    /// From and to of each part, mm.
    parts: Vec<(f64, f64)>,
    /// From and to of each fault, mm.
    faults: Vec<(f64, f64)>,
    /// In words.
    said: String,
) -> impl IntoView {
    let x = move |place: f64| 14.0 + place / length.max(1.0) * 332.0;
    view! {
        <figure>
            <svg class="drawing" viewBox="0 0 360 74" role="img" aria-label=format!("Cuts: {said}")>
                <rect class="wood" x="14" y="14" width="332" height="40" />
                {parts
                    .into_iter()
                    .enumerate()
                    .map(|(n, (from, to))| {
                        view! {
                            <rect class="part" x=x(from) y="14" width=x(to) - x(from) height="40" />
                            <text x=(x(from) + x(to)) / 2.0 y="39" text-anchor="middle">{n + 1}</text>
                        }
                    })
                    .collect_any()}
                {faults
                    .into_iter()
                    .map(|(from, to)| {
                        view! {
                            <rect
                                class="fault" x=x(from) - 1.0 y="14" width=(x(to) - x(from)).max(3.0) height="40"
                            />
                        }
                    })
                    .collect_any()}
                <text x="14" y="70">"near end"</text>
                <text x="346" y="70" text-anchor="end">"far end"</text>
            </svg>
            <figcaption>{said}</figcaption>
        </figure>
    }
}
