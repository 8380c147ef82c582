//! The section of a blank, seen from its near end: laminates side by side in their woods' own colours. The slots of a
//! blank that is being matched show which way round each lies; a level's bubble shows how far off it is.

use crate::parts::Judged;
use maud::{Markup, html};

/// A laminate in a section.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// Across the glue lines, mm.
    pub thickness: f64,
    /// The colour of its wood.
    pub colour: String,
}

/// The section of a blank as it is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct SectionDrawn {
    /// From one side to the other.
    pub layers: Vec<Layer>,
    /// Along the glue lines, mm.
    pub depth: f64,
}

impl SectionDrawn {
    /// Across the glue lines, mm.
    pub fn across(&self) -> f64 {
        self.layers.iter().map(|layer| layer.thickness).sum()
    }
}

fn n(value: f64) -> String {
    format!("{value:.1}")
}

/// The room that all of some sections need, mm: that of the widest and that of the deepest.
pub fn room<'a>(all: impl Iterator<Item = &'a SectionDrawn> + Clone) -> (f64, f64) {
    let across = all.clone().map(SectionDrawn::across).fold(1.0, f64::max);
    let depth = all.map(|one| one.depth).fold(1.0, f64::max);
    (across, depth)
}

/// A section in a room, mm, so that several are drawn to one scale.
pub fn section(drawn: &SectionDrawn, (wide, deep): (f64, f64), said: &str) -> Markup {
    let top = deep - drawn.depth + 1.0;
    let mut right = (wide - drawn.across()) / 2.0 + 1.0;
    let placed = drawn.layers.iter().map(|layer| {
        let left = right;
        right += layer.thickness;
        (left, layer)
    });
    html! {
        svg.section viewBox={ "0 0 " (n(wide + 2.0)) " " (n(deep + 2.0)) } role="img" aria-label=(said) {
            @for (left, layer) in placed {
                rect.wood x=(n(left)) y=(n(top)) width=(n(layer.thickness)) height=(n(drawn.depth)) fill=(layer.colour) {}
                rect.joint x=(n(left)) y=(n(top)) width=(n(layer.thickness)) height=(n(drawn.depth)) fill="none" {}
            }
            rect.around x=(n((wide - drawn.across()) / 2.0 + 1.0)) y=(n(top)) width=(n(drawn.across())) height=(n(drawn.depth)) fill="none" {}
        }
    }
}

/// A section that is not known: a dashed outline.
pub fn section_unknown(said: &str) -> Markup {
    html! {
        svg.section.unknown viewBox="0 0 90 50" role="img" aria-label=(said) {
            rect.joint x="1" y="1" width="88" height="48" fill="none" {}
        }
    }
}

/// A slot of a blank that is being matched.
#[derive(Debug, Clone)]
pub struct Slot {
    /// Across the glue lines, mm.
    pub thickness: f64,
    /// Along them, mm.
    pub depth: f64,
    /// The colour of its wood; none where nothing stands there.
    pub colour: Option<String>,
    /// The lean of the rings from the wide face as it was marked, degrees; none where not looked at.
    pub rings: Option<f64>,
    /// Rolled half round: the marked edge is down.
    pub turned_over: bool,
    /// The far end is in front.
    pub end_for_end: bool,
    /// Pixels a millimetre.
    pub scale: f64,
    /// An id of its own in the page.
    pub clip: String,
}

/// A slot, its marks and rings as they come to lie. What it says is said by its key.
pub fn slot(of: &Slot) -> Markup {
    let (w, h) = (of.thickness * of.scale, of.depth * of.scale);
    let class = match (of.turned_over, of.end_for_end) {
        (false, false) => "turn",
        (true, false) => "turn over",
        (false, true) => "turn end",
        (true, true) => "turn over end",
    };
    let corner = 10.0_f64.min(w / 2.0);
    let reach = w + h;
    html! {
        svg.slot width=(n(w + 4.0)) height=(n(h + 4.0)) viewBox={ "-2 -2 " (n(w + 4.0)) " " (n(h + 4.0)) } aria-hidden="true" {
            @match &of.colour {
                None => rect.empty x="0" y="0" width=(n(w)) height=(n(h)) fill="none" {},
                Some(colour) => {
                    clipPath id=(of.clip) { rect x="0" y="0" width=(n(w)) height=(n(h)) {} }
                    rect.wood x="0" y="0" width=(n(w)) height=(n(h)) fill=(colour) {}
                    g clip-path={ "url(#" (of.clip) ")" } {
                        g transform={ "translate(" (n(w / 2.0)) " " (n(h / 2.0)) ")" } {
                            g class=(class) {
                                @if let Some(lean) = of.rings {
                                    g.rings {
                                        @let lines = (-20_i32..=20).map(|step| format!("M{} {}V{}", n(f64::from(step) * 9.0), n(-reach), n(reach)));
                                        path d=(lines.collect::<String>()) transform={ "rotate(" (n(lean)) ")" } {}
                                    }
                                }
                                path.corner d={ "M" (n(w / 2.0)) " " (n(-h / 2.0)) "h" (n(-corner)) "l" (n(corner)) " " (n(corner)) "z" } {}
                            }
                            @if of.rings.is_none() { text.not-looked y="5" text-anchor="middle" { "?" } }
                        }
                    }
                    rect class=(if of.rings.is_some() { "outline" } else { "outline dashed" }) x="0" y="0" width=(n(w)) height=(n(h)) fill="none" {}
                }
            }
        }
    }
}

/// Which way the grain runs to the far end, as it comes to lie: more than nothing rises.
pub fn grain_run(runs: Option<f64>) -> Markup {
    html! {
        svg.run viewBox="0 0 24 12" aria-hidden="true" {
            @match runs {
                None => path.unknown d="M2 6H22" {},
                Some(runs) if runs > 0.0 => path d="M2 10L22 2m-7 0h7v6" {},
                Some(runs) if runs < 0.0 => path d="M2 2L22 10m-7 0h7v-6" {},
                Some(_) => path d="M2 6H22m-5 -4l5 4l-5 4" {},
            }
        }
    }
}

/// How many limits the tube of a level is long, to each side of its middle.
const TUBE_LIMITS: f64 = 3.0;

/// What the end of the level stands for.
pub fn end_of_level(limit: f64) -> f64 {
    limit * TUBE_LIMITS
}

/// A level: the bubble settles to the middle as a blank gets straighter. `value` is in limits.
pub fn level(value: f64, judged: Judged) -> Markup {
    let x = 80.0 + 66.0 * (value / TUBE_LIMITS).clamp(-1.0, 1.0);
    let (low, high) = (80.0 - 66.0 / TUBE_LIMITS, 80.0 + 66.0 / TUBE_LIMITS);
    html! {
        svg class={ "level " (judged.class()) } viewBox="0 0 160 26" aria-hidden="true" {
            rect.tube x="1" y="2" width="158" height="22" rx="11" fill="none" {}
            path.tick d={ "M" (n(low)) " 2V24M" (n(high)) " 2V24" } {}
            @match judged {
                Judged::Bad => path.bubble d={ "M" (n(x)) " 13m-6 -6l12 12m0 -12l-12 12" } {},
                Judged::Unknown => circle.bubble cx=(n(x)) cy="13" r="7.5" {},
                _ => circle.bubble cx=(n(x)) cy="13" r="8.5" {},
            }
        }
    }
}
