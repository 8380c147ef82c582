//! A plank's density on the usual range of its wood and on the maker's window.

use leptos::prelude::*;

/// The density strip.
#[component]
pub(crate) fn DensityStrip(
    /// Density at 12 %, kg/m3.
    value: f64,
    /// Half-width of its 95 % interval.
    within: f64,
    /// The wood's usual range.
    usual: Option<(f64, f64)>,
    /// The spec's limits.
    window: Option<(f64, f64)>,
    /// In words.
    said: String,
) -> impl IntoView {
    let ends = [Some((value - within, value + within)), usual, window];
    let low = ends.iter().flatten().fold(f64::MAX, |l, (a, _)| l.min(*a)) - 40.0;
    let high = ends.iter().flatten().fold(f64::MIN, |h, (_, b)| h.max(*b)) + 40.0;
    let x = move |density: f64| 14.0 + (density - low) / (high - low) * 332.0;
    let strip = |range: Option<(f64, f64)>, y: f64, class: &'static str, name: &'static str| {
        range.map(|(a, b)| {
            view! {
                <rect class=class x=x(a) y=y width=x(b) - x(a) height="18" />
                <text x=x(a) + 4.0 y=y + 14.0>{name}</text>
                <text x=x(a) y="98">{format!("{a:.0}")}</text>
                <text x=x(b) y="98" text-anchor="end">{format!("{b:.0}")}</text>
            }
        })
    };
    let names = strip(usual, 34.0, "usual", "usual for this wood");
    let limits = window.map(|(a, b)| {
        view! {
            <rect class="window" x=x(a) y="56" width=x(b) - x(a) height="18" />
            <text x=x(a) + 4.0 y="70">{format!("your limits {a:.0} to {b:.0}")}</text>
        }
    });
    view! {
        <figure>
            <svg class="drawing" viewBox="0 0 360 104" role="img" aria-label=format!("Density: {said}")>
                {names}
                {limits}
                <line class="needle" x1=x(value) x2=x(value) y1="20" y2="80" />
                <line class="thin" x1=x(value - within) x2=x(value + within) y1="26" y2="26" stroke-width="3" />
                <text x=x(value) y="16" text-anchor="middle">{format!("{value:.0} ± {within:.0}")}</text>
            </svg>
            <figcaption>{said}</figcaption>
        </figure>
    }
}
