//! The formulas of a set of laminates.

use crate::quantity::formula;

formula! {
    /// Crooks by stiffness, added up.
    pub(super) CROOKS: "Crooks, each by how stiff its laminate is edgewise", "S", "N m² mm";
    say: "k", "edgewise stiffness E t w³ / 12 of each laminate", "N m²";
    crook: "c", "how far it has moved since it was last flat, signed as it lies in the set", "mm";
    = say * crook;
    range "a crook that was not measured counts as none, and is warned of";
    source "linear beam statics, no creep: derived here";
}

formula! {
    /// Stiffnesses added up.
    pub(super) SAYS: "Edgewise stiffness of all", "K", "N m²";
    say: "k", "edgewise stiffness of each laminate", "N m²";
    = say;
    range "where one modulus is not known, 10 GPa for all: only their ratio counts";
    source "linear beam statics: derived here";
}

formula! {
    pub(super) MEAN_CROOK: "Crook that the blank is left with", "c̄", "mm";
    crooks: "S", "crooks by stiffness, added up", "N m² mm";
    says: "K", "edgewise stiffness of all", "N m²";
    = crooks / says;
    range "edgewise, gluing forgives nothing: only opposite crooks help";
    source "linear beam statics, no creep: derived here";
}

formula! {
    /// Twists added up.
    pub(super) TWISTS: "Twists", "W", "mm";
    twist: "w", "rise of the fourth corner of each laminate, its hand as sign", "mm";
    = twist;
    range "no turning changes a hand; one that was not measured counts as none, and is warned of";
    source "a sum";
}

formula! {
    pub(super) MEAN_TWIST: "Twist, the mean of its laminates", "w̄", "mm";
    twists: "W", "twists added up", "mm";
    n: "n", "laminates", "";
    = twists / n;
    range "each laminate counts alike; the glued blank keeps less of it";
    source "a mean";
}

formula! {
    /// Bows added up.
    pub(super) BOWS: "Bows", "B", "mm";
    bow: "b", "flatwise bow of each laminate, signed as it lies in the set", "mm";
    = bow;
    range "one that was not measured counts as none";
    source "a sum";
}

formula! {
    pub(super) BOW_LEFT: "Remaining bow, the mean over n²", "b̄", "mm";
    bows: "B", "bows added up", "mm";
    n: "n", "laminates", "";
    = bows / cube(n);
    range "equal laminates";
    source "linear beam statics, no creep: derived here";
}

formula! {
    pub(super) COST: "How far from perfect, in limits", "Q", "";
    crook: "c̄", "mean crook", "mm";
    most_crook: "c₀", "its limit", "mm";
    twist: "w̄", "mean twist", "mm";
    most_twist: "w₀", "its limit", "mm";
    rest: "r", "unlike mirrored pairs, what was not measured, warnings", "";
    = abs(crook) / most_crook + abs(twist) / most_twist + rest;
    range "0 is perfect; compares sets of one search";
    source "common practice, no source: the limits are the maker's own";
}
