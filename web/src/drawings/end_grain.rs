//! The end of a plank with its rings; the ring angle can be set by dragging across it.

use crate::parts::{CollectAny, live};
use leptos::prelude::*;

/// A stroke is at least so long across, in CSS pixels.
const STROKE: f64 = 14.0;

/// How the rings are known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum RingsDrawn {
    /// Not looked at.
    Unknown,
    /// An angle to the wide face, degrees.
    Angle(f64),
    /// A radius and the pith's place off mid-width, mm.
    Arc {
        /// Radius of the ring read, mm.
        radius: f64,
        /// Pith off mid-width, mm.
        pith: f64,
    },
}

/// The end grain. With `drag`, a thumb drawn across it sets the angle (degrees, whole).
#[component]
pub(crate) fn EndGrain(
    /// Width, mm.
    width: f64,
    /// Thickness, mm.
    thickness: f64,
    /// The rings.
    #[prop(into)]
    rings: Signal<RingsDrawn>,
    /// In words.
    #[prop(into)]
    said: Signal<String>,
    /// Called with the angle drawn.
    #[prop(optional)]
    drag: Option<Callback<f64>>,
) -> impl IntoView {
    let scale = (332.0 / width.max(1.0)).min(110.0 / thickness.max(1.0));
    let (w, t) = (width * scale, thickness * scale);
    let (left, top) = (180.0 - w / 2.0, 66.0 - t / 2.0);
    let began = StoredValue::new(None::<(f64, f64)>);
    let begin = move |event: leptos::ev::PointerEvent| {
        began.set_value(Some((
            f64::from(event.client_x()),
            f64::from(event.client_y()),
        )));
    };
    // A stroke sets the angle; a touch or a scroll does not.
    let draw = move |event: leptos::ev::PointerEvent| {
        let Some(set) = drag else { return };
        let Some((x, y)) = began.get_value().filter(|_| event.buttons() != 0) else {
            return;
        };
        let (dx, dy) = (
            f64::from(event.client_x()) - x,
            f64::from(event.client_y()) - y,
        );
        if dx.abs() >= STROKE {
            set.run(js_sys::Math::atan2(dy.abs(), dx.abs()).to_degrees().round());
        }
    };
    let clip = if drag.is_some() {
        "end-grain-drawn"
    } else {
        "end-grain"
    };
    let clip_url = format!("url(#{clip})");
    let lines = move || match rings.get() {
        RingsDrawn::Unknown => ().into_any(),
        RingsDrawn::Angle(angle) => {
            let reach = w + t;
            (-14..=14)
                .map(|step| {
                    let off = f64::from(step) * 14.0;
                    view! {
                        <line
                            class="ring" x1=-reach x2=reach y1=off y2=off
                            transform=format!("translate(180 66) rotate({:.1})", -angle)
                        />
                    }
                })
                .collect_any()
                .into_any()
        }
        RingsDrawn::Arc { radius, pith } => {
            // The pith lies below; the ring read crowns at the upper face.
            let (cx, cy) = (180.0 + pith * scale, top + radius * scale);
            let step = (t / 5.0).max(5.0);
            (-3..40)
                .filter_map(|ring| {
                    let r = radius * scale + f64::from(ring) * step - 2.0 * step;
                    (r > 2.0).then(|| view! { <circle class="ring" cx=cx cy=cy r=r /> })
                })
                .collect_any()
                .into_any()
        }
    };
    view! {
        <figure>
            <svg
                class="drawing" class:dragged=drag.is_some() viewBox="0 0 360 132" role="img"
                aria-label=move || format!("End grain: {}", said.get())
                on:pointerdown=begin on:pointermove=draw
            >
                <clipPath id=clip>
                    <rect x=left y=top width=w height=t />
                </clipPath>
                <rect class="wood" x=left y=top width=w height=t />
                <g clip-path=clip_url>{live(lines)}</g>
                <rect class="thin" x=left y=top width=w height=t />
            </svg>
            <figcaption>
                {live(move || said.get())}
                {drag.map(|_| " Draw a ring's direction across the picture to set its angle.")}
            </figcaption>
        </figure>
    }
}
