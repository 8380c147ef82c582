//! A ring of segments that fills as a plank's criteria are looked at.

use super::Judged;
use maud::{Markup, html};

/// A segment of the ring.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Segment {
    /// Looked at, and not judged while others are open: ink, full.
    Looked,
    /// As it is judged.
    Judged(Judged),
}

impl Segment {
    fn class(self) -> &'static str {
        match self {
            Segment::Looked => "looked",
            Segment::Judged(judged) => judged.class(),
        }
    }
}

/// The ring. What it says is said beside it.
pub fn ring(segments: &[Segment]) -> Markup {
    // On a circle of 100 around: each segment has its share, less a gap.
    let share = 100 / segments.len().max(1);
    html! {
        svg.ring viewBox="0 0 36 36" aria-hidden="true" {
            @for (at, segment) in segments.iter().enumerate() {
                circle class={ "segment " (segment.class()) } cx="18" cy="18" r="15.9155" fill="none"
                    stroke-dasharray={ (share.saturating_sub(3).max(1)) " 100" }
                    stroke-dashoffset={ "-" (at * share) } transform="rotate(-90 18 18)" {}
            }
        }
    }
}
