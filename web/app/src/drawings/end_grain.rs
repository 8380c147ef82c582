//! End grain: the near end of a plank with its rings, and the small tile that stands for a piece.

use crate::parts::Judged;
use maud::{Markup, html};
use stillwood_core::plank::{Rings, ring_radius};
use stillwood_core::quantity::{TraceOff, in_degrees, in_mm};

/// A rectangle in the units of the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Box2 {
    /// Left.
    pub x: f64,
    /// Top.
    pub y: f64,
    /// Width.
    pub w: f64,
    /// Height.
    pub h: f64,
}

fn n(value: f64) -> String {
    format!("{value:.1}")
}

/// The end grain inside a rectangle, with rings where they are known. `scale` is picture units a millimetre;
/// `clip` is an id of its own in the page.
pub fn end_grain(at: Box2, scale: f64, rings: Option<&Rings>, colour: &str, clip: &str) -> Markup {
    let (middle_x, middle_y) = (at.x + at.w / 2.0, at.y + at.h / 2.0);
    let apart = (at.h / 5.0).max(3.5);
    html! {
        clipPath id=(clip) { rect x=(n(at.x)) y=(n(at.y)) width=(n(at.w)) height=(n(at.h)) {} }
        rect.wood x=(n(at.x)) y=(n(at.y)) width=(n(at.w)) height=(n(at.h)) fill=(colour) {}
        g.rings clip-path={ "url(#" (clip) ")" } {
            @match rings {
                None => {},
                Some(Rings::Angle(angle)) => {
                    @let reach = at.w + at.h;
                    @let lines = (-16_i32..=16).map(|step| format!("M{} {}H{}", n(-reach), n(f64::from(step) * apart), n(reach)));
                    path d=(lines.collect::<String>())
                        transform={ "translate(" (n(middle_x)) " " (n(middle_y)) ") rotate(" (n(-in_degrees(*angle))) ")" } {}
                }
                Some(Rings::Arc { chord, dip, pith }) => {
                    @if let Ok(radius) = ring_radius(&mut TraceOff, *chord, *dip) {
                        @let (cx, cy) = (middle_x + in_mm(*pith) * scale, at.y + in_mm(radius) * scale);
                        @for ring in -3_i32..40 {
                            @let r = in_mm(radius) * scale + f64::from(ring) * apart - 2.0 * apart;
                            @if r > 2.0 { circle cx=(n(cx)) cy=(n(cy)) r=(n(r)) fill="none" {} }
                        }
                    }
                }
            }
        }
        rect.outline x=(n(at.x)) y=(n(at.y)) width=(n(at.w)) height=(n(at.h)) fill="none" {}
    }
}

/// A tile has room for so many laminates; one of more is drawn in the colour of the first.
const LAMINATES: usize = 9;

/// The tile of a piece: its end grain in its wood's colour, a blank's laminates side by side in theirs, in a ring that
/// closes as the rest passes.
/// `passed` is the share of the rest that is over, 0 to 1; `standing` tells still, watch, moved or not known, none is
/// still resting.
pub fn tile(colours: &[&str], passed: f64, standing: Option<Judged>) -> Markup {
    let class = standing.map_or("resting", Judged::class);
    let shown = match colours.len() {
        0..=LAMINATES => colours,
        _ => colours.get(..1).unwrap_or_default(),
    };
    let wide = 20.0 / shown.len().max(1) as f64;
    let share = (passed.clamp(0.0, 1.0) * 100.0).round();
    html! {
        svg class={ "tile " (class) } viewBox="0 0 44 44" aria-hidden="true" {
            circle.track cx="22" cy="22" r="18" fill="none" {}
            @if standing != Some(Judged::Unknown) {
                circle.passed cx="22" cy="22" r="18" fill="none" pathLength="100"
                    stroke-dasharray={ (share) " 100" } transform="rotate(-90 22 22)" {}
            }
            @for (at, colour) in shown.iter().enumerate() {
                rect.wood x=(n(12.0 + wide * at as f64)) y="15" width=(n(wide)) height="14" fill=(colour) {}
            }
            // The rings of one plank do not run through the laminates of several.
            @if shown.len() == 1 { path.rings d="M12 27q10 -9 20 0M12 22q10 -9 20 0" fill="none" {} }
            rect.edge x="12" y="15" width="20" height="14" rx="1" fill="none" {}
            @if let Some(standing) = standing {
                circle.ground cx="36.5" cy="8" r="7.5" {}
                @match standing {
                    Judged::Bad => path.cross d="M32.5 4l8 8m0 -8l-8 8" fill="none" {},
                    Judged::Doubt => {
                        circle.mark-line cx="36.5" cy="8" r="4.6" fill="none" {}
                        path.mark-full d="M36.5 3.4a4.6 4.6 0 0 1 0 9.2z" {}
                    }
                    Judged::Good => circle.mark-full cx="36.5" cy="8" r="5" {},
                    Judged::Unknown => circle.mark-line.dashed cx="36.5" cy="8" r="4.6" fill="none" {},
                }
            }
        }
    }
}
