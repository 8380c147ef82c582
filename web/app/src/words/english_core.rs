//! Where the screens have another English word than core, which stays as it is for what was written with it.

use super::line::Line;

/// What core says, and what a screen says instead.
pub(super) const LINES: &[Line] = lines! {
    "quartered" => "quartersawn";
    "straight slab" => "clean thickness";
    "Straight slab" => "Clean thickness";
    "straight slab left" => "clean thickness left";
    "Straight slab left, cut first" => "Clean thickness, cut first";
    "The straight slab is too thin, so that it holds none."
        => "The clean thickness is too small, so that it holds none.";
};
