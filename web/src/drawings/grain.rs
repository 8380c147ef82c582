//! The lines of the grain across the face and the edge, at their true slope.

use crate::parts::CollectAny;
use leptos::prelude::*;

/// Grain lines on face and edge; a slope that was not looked at leaves its side blank.
#[component]
pub(crate) fn GrainLines(
    /// Slope on the face, as a tangent.
    face: Option<f64>,
    /// Slope on the edge, as a tangent.
    edge: Option<f64>,
    /// In words.
    said: String,
) -> impl IntoView {
    let side = |top: f64, high: f64, slope: Option<f64>, name: &'static str, clip: &'static str| {
        let lines = slope.map(|slope| {
            let lift = slope * 332.0;
            let count = ((high + lift) / 11.0).ceil() as i32;
            (0..=count)
                .map(|n| {
                    let y = top + f64::from(n) * 11.0;
                    view! { <line class="grain" x1="14" x2="346" y1=y y2=y - lift /> }
                })
                .collect_any()
        });
        let blank = slope.is_none().then(|| {
            view! { <text x="180" y=top + high / 2.0 + 5.0 text-anchor="middle">"not looked at"</text> }
        });
        view! {
            <clipPath id=clip>
                <rect x="14" y=top width="332" height=high />
            </clipPath>
            <rect class="wood" x="14" y=top width="332" height=high />
            <g clip-path=format!("url(#{clip})")>{lines}</g>
            {blank}
            <text x="14" y=top - 4.0>{name}</text>
        }
    };
    view! {
        <figure>
            <svg class="drawing" viewBox="0 0 360 150" role="img" aria-label=format!("Grain lines: {said}")>
                {side(20.0, 66.0, face, "face", "grain-face")}
                {side(108.0, 32.0, edge, "edge", "grain-edge")}
            </svg>
            <figcaption>{said}". Drawn at their true slope."</figcaption>
        </figure>
    }
}
