//! A piece's weighings over the days, with the band in which it will settle.

use crate::parts::CollectAny;
use leptos::prelude::*;

/// The weighings: days since the first, and what it weighed. `settles` is the band in which it will
/// settle, `ends` are the words at the lightest and the heaviest.
pub(crate) fn weights(
    points: &[(f64, f64)],
    settles: Option<(f64, f64)>,
    ends: [String; 2],
    said: String,
) -> AnyView {
    let masses = points.iter().map(|(_, mass)| *mass);
    let low = masses.clone().fold(f64::MAX, f64::min);
    let high = masses.fold(f64::MIN, f64::max);
    let days = points.last().map_or(1.0, |(day, _)| day.max(1.0));
    let span = (high - low).max(1e-6);
    let x = |day: f64| 20.0 + day / days * 320.0;
    // What lies outside the weighings is drawn at the edge.
    let y = |mass: f64| (90.0 - (mass - low) / span * 60.0).clamp(4.0, 116.0);
    let band = settles.map(|(low, high)| {
        let height = (y(low) - y(high)).max(2.0);
        view! { <rect class="window" x="8" y=y(high) width="344" height=height /> }
    });
    let line: Vec<String> = points
        .iter()
        .map(|(day, mass)| format!("{:.1},{:.1}", x(*day), y(*mass)))
        .collect();
    let dot = |(day, mass): &(f64, f64)| {
        view! { <circle class="wood" cx=x(*day) cy=y(*mass) r="4" /> }
    };
    let [lightest, heaviest] = ends;
    view! {
        <figure>
            <svg class="drawing" viewBox="0 0 360 120" role="img" aria-label=said.clone()>
                {band}
                <polyline class="thin" points=line.join(" ") />
                {points.iter().map(dot).collect_any()}
                <text x="352" y="20" text-anchor="end">{heaviest}</text>
                <text x="8" y="112">{lightest}</text>
            </svg>
            <figcaption>{said}</figcaption>
        </figure>
    }
    .into_any()
}
