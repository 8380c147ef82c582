//! A cutting plan: the plank from above with its rows and strips, and its end with the strips in it.
//! Drawn to scale; from above the width is stretched where strips could not be told apart otherwise.

use crate::parts::CollectAny;
use leptos::prelude::*;

/// A strip, mm.
#[derive(Debug, Clone)]
pub(crate) struct StripDrawn {
    /// Along the plank, from and to.
    pub(crate) along: (f64, f64),
    /// Across it, from and to.
    pub(crate) across: (f64, f64),
    /// The class of its fill: `quartered`, `rift`, `flat`, `part`.
    pub(crate) class: &'static str,
}

/// A strip narrower than this on the drawing stretches the width, in CSS pixels.
const THIN: f64 = 7.0;

/// The plank from above.
pub(crate) fn plan_drawn(
    (length, width): (f64, f64),
    strips: &[StripDrawn],
    faults: &[(f64, f64)],
    said: String,
) -> AnyView {
    let scale = 332.0 / length.max(1.0);
    let thinnest = strips
        .iter()
        .map(|one| one.across.1 - one.across.0)
        .fold(width, f64::min);
    let needed = THIN / (thinnest * scale).max(0.01);
    let stretch = needed.clamp(1.0, 200.0 / (width * scale).max(1.0)).max(1.0);
    let high = width * scale * stretch;
    let x = move |at: f64| 14.0 + at * scale;
    let y = move |at: f64| 10.0 + at * scale * stretch;
    let drawn = strips.iter().map(|one| {
        view! {
            <rect
                class=one.class x=x(one.along.0) y=y(one.across.0)
                width=x(one.along.1) - x(one.along.0) height=y(one.across.1) - y(one.across.0)
            />
        }
    });
    let faults = faults.iter().map(|(from, to)| {
        let from = from.max(0.0);
        view! { <rect class="fault" x=x(from) y="10" width=x(to.min(length)) - x(from) height=high /> }
    });
    let stretched = (stretch > 1.05)
        .then(|| format!(" The width is drawn {stretch:.1} times as large as the length."));
    view! {
        <figure>
            <svg
                class="drawing" viewBox=format!("0 0 360 {:.0}", high + 30.0) role="img"
                aria-label=format!("From above: {said}")
            >
                <rect class="wood" x="14" y="10" width="332" height=high />
                {drawn.collect_any()}
                {faults.collect_any()}
                <text x="14" y=high + 25.0>"near end"</text>
                <text x="346" y=high + 25.0 text-anchor="end">"far end"</text>
            </svg>
            <figcaption>{said} {stretched}</figcaption>
        </figure>
    }
    .into_any()
}

/// The plank's end with the strips of its first row, numbered; `thickness` in mm.
pub(crate) fn end_of_strips((width, thickness): (f64, f64), strips: &[StripDrawn]) -> AnyView {
    let scale = (332.0 / width.max(1.0)).min(120.0 / thickness.max(1.0));
    let (wide, high) = (width * scale, thickness * scale);
    let left = 180.0 - wide / 2.0;
    let first = strips.first().map_or(0.0, |one| one.along.0);
    let row = strips.iter().filter(|one| one.along.0 <= first);
    let count = row.clone().count();
    let drawn = row.enumerate().map(|(n, one)| {
        let from = left + one.across.0 * scale;
        let size = (one.across.1 - one.across.0) * scale;
        let number = (size > 16.0).then(|| {
            view! { <text x=from + size / 2.0 y=14.0 + high / 2.0 text-anchor="middle">{n + 1}</text> }
        });
        view! {
            <rect class=one.class x=from y="10" width=size height=high />
            {number}
        }
    });
    view! {
        <figure>
            <svg
                class="drawing" viewBox=format!("0 0 360 {:.0}", high + 20.0) role="img"
                aria-label=format!("The near end, to scale: {count} strips across the width")
            >
                <rect class="wood" x=left y="10" width=wide height=high />
                {drawn.collect_any()}
            </svg>
            <figcaption>"The near end, to scale. Green stands quartersawn once it is turned, yellow rift, red flat."</figcaption>
        </figure>
    }
    .into_any()
}
