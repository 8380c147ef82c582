//! The end of a glued blank: its laminates side by side with their rings and marks, to scale.

use crate::parts::CollectAny;
use leptos::prelude::*;
use stillwood_core::neck::Turn;

/// A laminate in the drawing.
#[derive(Debug, Clone)]
pub(crate) struct LaminateDrawn {
    /// Its mark.
    pub(crate) mark: String,
    /// Across the glue lines, mm.
    pub(crate) thickness: f64,
    /// Along them, mm.
    pub(crate) width: f64,
    /// The lean of its rings from its wide face, degrees, more than nothing to the right; `None` where not
    /// known.
    pub(crate) rings: Option<f64>,
    /// Which way its grain runs to the far end: more than nothing rises; `None` where not known.
    pub(crate) runs: Option<f64>,
    /// How it is turned.
    pub(crate) turn: Turn,
}

/// The corner between the marked edge and the marked face, as it is turned.
fn corner([left, top, wide, high]: [f64; 4], turn: Turn) -> String {
    let size = 9.0_f64.min(wide / 2.0);
    let (x, inward) = if turn.turned_over == turn.end_for_end {
        (left + wide, -size)
    } else {
        (left, size)
    };
    let (y, down) = if turn.turned_over {
        (top + high, -size)
    } else {
        (top, size)
    };
    format!("M{x:.1} {y:.1}h{inward:.1}l{:.1} {down:.1}z", -inward)
}

/// An arrow for the way in which the grain runs.
fn arrow(runs: Option<f64>) -> &'static str {
    match runs {
        Some(runs) if runs > 0.0 => "↗",
        Some(runs) if runs < 0.0 => "↘",
        Some(_) => "→",
        None => "?",
    }
}

/// The end of the blank. `name` is unique on the page.
pub(crate) fn blank_end(laminates: &[LaminateDrawn], name: &'static str, said: &str) -> AnyView {
    let whole: f64 = laminates.iter().map(|one| one.thickness).sum();
    let most = laminates.iter().map(|one| one.width).fold(1.0, f64::max);
    let scale = (332.0 / whole.max(1.0)).min(130.0 / most);
    let mut at = 180.0 - whole * scale / 2.0;
    let mut parts = Vec::new();
    for (n, one) in laminates.iter().enumerate() {
        let (wide, high) = (one.thickness * scale, one.width * scale);
        let (left, top) = (at, 10.0 + (most * scale - high) / 2.0);
        at += wide;
        let (middle, half) = (left + wide / 2.0, top + high / 2.0);
        let clip = format!("{name}-{n}");
        let rings = one.rings.map(|lean| {
            let reach = wide + high;
            let lines = (-20..=20).map(|step| {
                let off = f64::from(step) * 9.0;
                view! {
                    <line
                        class="ring" x1=off x2=off y1=-reach y2=reach
                        transform=format!("translate({middle:.1} {half:.1}) rotate({lean:.1})")
                    />
                }
            });
            lines.collect_any()
        });
        parts.push(view! {
            <clipPath id=clip.clone()>
                <rect x=left y=top width=wide height=high />
            </clipPath>
            <rect class="wood" x=left y=top width=wide height=high />
            <g clip-path=format!("url(#{clip})")>{rings}</g>
            {one.rings.is_none().then(|| {
                view! { <text x=middle y=half + 5.0 text-anchor="middle">"?"</text> }
            })}
            <rect class="thin" x=left y=top width=wide height=high />
            <path class="corner" d=corner([left, top, wide, high], one.turn) />
            <text x=middle y=most * scale + 28.0 text-anchor="middle">
                {n + 1}
            </text>
            <text x=middle y=most * scale + 46.0 text-anchor="middle">{arrow(one.runs)}</text>
        });
    }
    let marks: Vec<String> = laminates
        .iter()
        .enumerate()
        .map(|(n, one)| format!("{} {}", n + 1, one.mark))
        .collect();
    let said = format!("{said}: {}.", marks.join(", "));
    view! {
        <figure>
            <svg
                class="drawing" viewBox=format!("0 0 360 {:.0}", most * scale + 54.0) role="img"
                aria-label=said.clone()
            >
                {parts.collect_any()}
            </svg>
            <figcaption>
                {said}
                " Black corner: marked edge and face. Arrow: which way the grain runs, near end to far."
            </figcaption>
        </figure>
    }
    .into_any()
}
