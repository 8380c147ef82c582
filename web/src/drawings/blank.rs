//! The end of a glued blank: its laminates side by side with their rings and marks, to scale.

use crate::parts::CollectAny;
use leptos::prelude::*;

/// A laminate in the drawing.
#[derive(Debug, Clone)]
pub(crate) struct LaminateDrawn {
    /// Its mark.
    pub(crate) mark: String,
    /// Across the glue lines, mm.
    pub(crate) thickness: f64,
    /// Along them, mm.
    pub(crate) width: f64,
    /// The lean of its rings from its wide face, degrees with a sign; `None` where not known.
    pub(crate) rings: Option<f64>,
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
            <rect class="thin" x=left y=top width=wide height=high />
            <text x=middle y=most * scale + 28.0 text-anchor="middle">{n + 1}</text>
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
                class="drawing" viewBox=format!("0 0 360 {:.0}", most * scale + 36.0) role="img"
                aria-label=said.clone()
            >
                {parts.collect_any()}
            </svg>
            <figcaption>{said}</figcaption>
        </figure>
    }
    .into_any()
}
