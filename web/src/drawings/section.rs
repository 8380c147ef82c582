//! The section of a blank, small and without marks: its woods by place, several blanks to one scale.

use crate::parts::CollectAny;
use leptos::prelude::*;

/// A blank's section in the drawing.
#[derive(Debug, Clone)]
pub(crate) struct SectionDrawn {
    /// Each laminate, from one side to the other: across the glue lines, mm, and which wood by its number.
    pub(crate) laminates: Vec<(f64, usize)>,
    /// Along the glue lines, mm.
    pub(crate) depth: f64,
}

impl SectionDrawn {
    /// Across the glue lines, mm.
    fn across(&self) -> f64 {
        self.laminates.iter().map(|(thickness, _)| thickness).sum()
    }
}

/// How many woods are told apart by their fill.
const FILLS: usize = 6;
/// The room for the widest and the deepest, in the drawing's units.
const ROOM: (f64, f64) = (132.0, 84.0);

/// The fill of a wood, for a word beside it.
pub(crate) fn fill_key(wood: usize) -> AnyView {
    let class = format!("key fill fill-{}", wood % FILLS);
    view! { <span class=class aria-hidden="true"></span> }.into_any()
}

/// The scale at which all of them have room.
pub(crate) fn scale_for(sections: &[SectionDrawn]) -> f64 {
    let most = |of: fn(&SectionDrawn) -> f64| sections.iter().map(of).fold(1.0, f64::max);
    (ROOM.0 / most(SectionDrawn::across)).min(ROOM.1 / most(|one| one.depth))
}

/// A section at a scale; `said` for who can't see it.
pub(crate) fn section_drawn(section: &SectionDrawn, scale: f64, said: String) -> AnyView {
    let high = section.depth * scale;
    let (mut left, top) = (4.0, ROOM.1 + 4.0 - high);
    let mut parts = Vec::new();
    for (thickness, wood) in &section.laminates {
        let width = thickness * scale;
        let class = format!("in-section fill-{}", wood % FILLS);
        parts.push(view! { <rect class=class x=left y=top width=width height=high /> });
        left += width;
    }
    let room = format!("0 0 {} {}", ROOM.0 + 8.0, ROOM.1 + 8.0);
    view! {
        <svg class="section" viewBox=room role="img" aria-label=said>
            {parts.into_iter().collect_any()}
        </svg>
    }
    .into_any()
}
