//! The formulas of a laminated blank that are told as they compute.

use crate::quantity::formula;

formula! {
    /// Edgewise stiffness of laminates, added up.
    pub(super) EDGEWISE: "Stiffness bent along the glue lines", "EI", "N m²";
    e: "E", "modulus of elasticity of each laminate", "GPa";
    t: "t", "its thickness", "mm";
    w: "w", "its width, the depth of the blank", "mm";
    = e * t * cube(w) / 12.0 / 1000.0;
    range "linear, laminates that hold together; each about its own middle; GPa mm⁴ over 1000 are N m²";
    source "statics: derived here";
}

formula! {
    pub(super) WEIGHT: "Weight of the blank", "m", "kg";
    rho: "ρ", "density of each laminate", "kg/m³";
    t: "t", "its thickness", "mm";
    w: "w", "its width", "mm";
    l: "l", "length of the blank", "mm";
    = rho * t * w * l / 1e9;
    range "at the moisture of the densities; glue is not in it";
    source "a definition";
}
