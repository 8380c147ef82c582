//! A plank from the side or the edge, its bend exaggerated to a stated factor; and its twist, end on.

use leptos::prelude::*;
use std::fmt::Write;

const WIDE: f64 = 360.0;
const HIGH: f64 = 96.0;
const MARGIN: f64 = 14.0;

/// How often a small shape is drawn larger so that it fills `room`: 1, 2 or 5 times a power of ten.
pub(super) fn exaggeration(size: f64, room: f64) -> f64 {
    let mut factor = 1.0;
    if size <= 0.0 {
        return factor;
    }
    for next in [2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0] {
        if size * next <= room {
            factor = next;
        }
    }
    factor
}

fn points(line: impl Iterator<Item = (f64, f64)>) -> String {
    let mut text = String::new();
    for (x, y) in line {
        // Writing to a String can't fail.
        let _ = write!(text, "{x:.1},{y:.1} ");
    }
    text
}

/// A plank with a bend: `line` holds places along it and how far each lies off the straight, in mm.
#[component]
pub(crate) fn Bent(
    /// "Bow, seen from the side" or the like.
    title: &'static str,
    /// Place along the plank and deviation, mm.
    line: Vec<(f64, f64)>,
    /// What the gap is, in words.
    said: String,
) -> impl IntoView {
    let length = line.last().map_or(1.0, |(x, _)| x.max(1.0));
    let deepest = line
        .iter()
        .fold(0.0_f64, |most, (_, off)| most.max(off.abs()));
    let scale = (WIDE - 2.0 * MARGIN) / length;
    let factor = exaggeration(deepest * scale, 36.0);
    // A hollow marked face (up) lies below the string.
    let sign_room = if line.iter().any(|(_, off)| *off < 0.0) {
        58.0
    } else {
        22.0
    };
    let place = move |(x, off): &(f64, f64)| (MARGIN + x * scale, sign_room + off * scale * factor);
    let upper: Vec<(f64, f64)> = line.iter().map(place).collect();
    let lower: Vec<(f64, f64)> = upper.iter().rev().map(|(x, y)| (*x, y + 16.0)).collect();
    let outline = points(upper.iter().copied().chain(lower));
    let spoken = format!("{title}: {said}, drawn {factor:.0} times");
    view! {
        <figure>
            <svg class="drawing" viewBox=format!("0 0 {WIDE} {HIGH}") role="img" aria-label=spoken.clone()>
                <polygon class="wood" points=outline />
                <line
                    class="straight" x1=MARGIN x2=WIDE - MARGIN y1=sign_room y2=sign_room
                />
                <text x=MARGIN y="90">{said}</text>
            </svg>
            <figcaption>{title}{format!(", drawn {factor:.0} times")}</figcaption>
        </figure>
    }
}

/// A twisted plank seen end on: the near end level, the far end turned.
#[component]
pub(crate) fn Twisted(
    /// Width, mm.
    width: f64,
    /// Thickness, mm.
    thickness: f64,
    /// Rise of the corner over the width, mm; positive turns right, seen from the near end.
    rise: f64,
    /// In words.
    said: String,
) -> impl IntoView {
    let scale = 200.0 / width.max(1.0);
    let (w, t) = (width * scale, (thickness * scale).clamp(8.0, 48.0));
    let factor = exaggeration(rise.abs() * scale, 40.0);
    let turn = (rise * factor / width.max(1.0))
        .clamp(-0.6, 0.6)
        .to_degrees();
    let spoken = format!("Twist, seen from the near end: {said}, drawn {factor:.0} times");
    view! {
        <figure>
            <svg class="drawing" viewBox="0 0 360 120" role="img" aria-label=spoken>
                <rect
                    class="wood" x=-w / 2.0 y=-t / 2.0 width=w height=t opacity="0.65"
                    transform=format!("translate(180 52) rotate({turn:.2})")
                />
                <rect class="wood" x=180.0 - w / 2.0 y=52.0 - t / 2.0 width=w height=t />
                <line class="straight" x1="40" x2="320" y1="52" y2="52" />
                <text x="14" y="114">{said}</text>
                <text x="346" y="114" text-anchor="end">{format!("drawn ×{factor:.0}")}</text>
            </svg>
            <figcaption>"Twist: the near end in front, the far end behind it"</figcaption>
        </figure>
    }
}
