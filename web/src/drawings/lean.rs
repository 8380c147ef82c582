//! Small pictures to tap: the near end of a laminate with its rings to one side or the other, and its
//! marked face with the grain rising or falling. Signs, not to scale; the button around them has the words.

use crate::parts::CollectAny;
use leptos::prelude::*;
use stillwood_core::plank::{RingTilt, RunoutDirection};

/// A box and the lines through it, each rising so much over the whole width; those parts that lie in it.
fn lines(class: &'static str, [left, top, wide, high]: [f64; 4], rise: f64) -> AnyView {
    let right = left + wide;
    let line = |step: i32| {
        // At the left and at the right edge; y goes down.
        let from = top + f64::from(step) * 8.0 + 4.0;
        let at = |x: f64| from - rise * (x - left) / wide;
        // Where it meets the upper and the lower edge.
        let meets = |y: f64| left + (from - y) / rise * wide;
        let (mut x1, mut x2) = (left, right);
        if rise != 0.0 {
            let [one, other] = [meets(top), meets(top + high)];
            x1 = x1.max(one.min(other));
            x2 = x2.min(one.max(other));
        } else if from > top + high || from < top {
            return None;
        }
        (x1 < x2).then(|| view! { <line class=class x1=x1 x2=x2 y1=at(x1) y2=at(x2) /> })
    };
    (-8..16).filter_map(line).collect_any()
}

/// The near end, standing on edge: a corner shows the marked edge and the marked face.
pub(crate) fn rings_sign(lean: RingTilt) -> AnyView {
    view! {
        <svg class="sign" viewBox="0 0 40 56" width="40" height="56" aria-hidden="true">
            <rect class="wood" x="9" y="2" width="22" height="52" />
            {lines("ring", [9.0, 2.0, 22.0, 52.0], lean.sign() * 15.0)}
            <path class="corner" d="M31 2h-9l9 9z" />
        </svg>
    }
    .into_any()
}

/// The marked face, its near end to the left; a thick line is the marked edge.
pub(crate) fn grain_sign(rise: RunoutDirection) -> AnyView {
    view! {
        <svg class="sign" viewBox="0 0 72 56" width="60" height="47" aria-hidden="true">
            <rect class="wood" x="2" y="12" width="68" height="32" />
            {lines("grain", [2.0, 12.0, 68.0, 32.0], rise.sign() * 14.0)}
            <path class="corner" d="M2 9h68v4h-68z" />
        </svg>
    }
    .into_any()
}
