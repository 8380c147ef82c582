//! How rings lean on the near end of a laminate, and how grain runs on its marked face: small pictures to choose by.

use maud::{Markup, html};
use stillwood_core::plank::{RingTilt, RunoutDirection};

/// A box: left, top, width, height.
type Box4 = [f64; 4];

/// Lines through a box, each rising so much over its width: only the parts that lie in it.
fn lines([left, top, wide, high]: Box4, rise: f64) -> Markup {
    let right = left + wide;
    let line = |step: i32| {
        let from = top + f64::from(step) * 8.0 + 4.0;
        let at = |x: f64| from - rise * (x - left) / wide;
        let meets = |y: f64| left + (from - y) / rise * wide;
        let (mut x1, mut x2) = (left, right);
        if rise != 0.0 {
            let [one, other] = [meets(top), meets(top + high)];
            x1 = x1.max(one.min(other));
            x2 = x2.min(one.max(other));
        } else if from > top + high || from < top {
            return None;
        }
        (x1 < x2).then(|| format!("M{x1:.1} {:.1}L{x2:.1} {:.1}", at(x1), at(x2)))
    };
    let path: String = (-8..16).filter_map(line).collect();
    html! { path.lean d=(path) fill="none" {} }
}

/// The near end, standing on edge: a corner shows the marked edge and the marked face.
pub fn rings_sign(tilt: RingTilt) -> Markup {
    html! {
        svg.leaning viewBox="0 0 40 56" width="34" height="48" aria-hidden="true" {
            rect.wood x="9" y="2" width="22" height="52" fill="#e8cfa0" {}
            (lines([9.0, 2.0, 22.0, 52.0], tilt.sign() * 15.0))
            path.corner d="M31 2h-9l9 9z" {}
        }
    }
}

/// The marked face, its near end to the left; a thick line is the marked edge.
pub fn grain_sign(way: RunoutDirection) -> Markup {
    html! {
        svg.leaning viewBox="0 0 72 48" width="60" height="40" aria-hidden="true" {
            rect.wood x="2" y="10" width="68" height="32" fill="#e8cfa0" {}
            (lines([2.0, 10.0, 68.0, 32.0], way.sign() * 14.0))
            path.corner d="M2 7h68v4h-68z" {}
        }
    }
}
