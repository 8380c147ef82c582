//! The formulas of movement. What they compute is used in [`super::changes`]; nothing is computed for show alone.

use crate::quantity::formula;

formula! {
    /// What a gap changed by, both with their side.
    pub(super) CHANGE: "Change", "Δ", "mm";
    later: "g₂", "gap at this check, signed", "mm";
    earlier: "g₁", "gap when the movement began to count, signed", "mm";
    = later - earlier;
    range "both with their side or hand noted; a gap that changed sides moved by both";
    source "a difference";
}

formula! {
    pub(super) CHANGE_AT_LEAST: "Change at least, the side not noted", "Δ", "mm";
    later: "g₂", "gap at this check", "mm";
    earlier: "g₁", "gap when the movement began to count", "mm";
    = abs(later - earlier);
    range "both gaps on one side";
    source "a difference";
}

formula! {
    pub(super) CHANGE_AT_MOST: "Change at most, the side not noted", "Δ₂", "mm";
    later: "g₂", "gap at this check", "mm";
    earlier: "g₁", "gap when the movement began to count", "mm";
    = later + earlier;
    range "the gaps on opposite sides";
    source "a sum";
}

formula! {
    pub(super) DOUBT: "Standard uncertainty of the change", "u", "mm";
    first: "u₁", "of the earlier gap", "mm";
    last: "u₂", "of the gap at this check", "mm";
    = sqrt(sq(first) + sq(last));
    range "readings that are off independently";
    source "JCGM 100:2008, 5.1.2 (from memory)";
}

formula! {
    /// A limit of an even curve, over another length.
    pub(super) LIMIT_OF_CURVE: "Limit over this piece", "d′", "mm";
    d: "d", "limit of the stage", "mm";
    l: "L", "length of the piece", "mm";
    s: "s", "what the limit holds over", "mm";
    = d * sq(l / s);
    range "an even curve";
    source "geometry of the sagitta; the limit is the maker's own";
}

formula! {
    /// A limit of an even twist, over another length.
    pub(super) LIMIT_OF_TWIST: "Limit over this piece", "d′", "mm";
    d: "d", "limit of the stage", "mm";
    l: "L", "length of the piece", "mm";
    s: "s", "what the limit holds over", "mm";
    = d * (l / s);
    range "an even twist";
    source "geometry; the limit is the maker's own";
}
