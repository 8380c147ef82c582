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
    pub(super) MOMENTS: "Stiffness by its distance from the first face", "M", "GPa mm³";
    e: "E", "modulus of elasticity of each laminate", "GPa";
    t: "t", "its thickness", "mm";
    w: "w", "its width", "mm";
    y: "y", "its middle from the first face", "mm";
    = e * w * t * y;
    range "linear";
    source "statics of the transformed section: derived here";
}

formula! {
    pub(super) AREAS: "Stiffness by area", "N", "GPa mm²";
    e: "E", "modulus of elasticity of each laminate", "GPa";
    t: "t", "its thickness", "mm";
    w: "w", "its width", "mm";
    = e * w * t;
    range "linear";
    source "statics of the transformed section: derived here";
}

formula! {
    pub(super) AXIS: "Neutral axis, from the first face", "y₀", "mm";
    moments: "M", "stiffness by distance", "GPa mm³";
    areas: "N", "stiffness by area", "GPa mm²";
    = moments / areas;
    range "linear";
    source "statics of the transformed section: derived here";
}

formula! {
    /// Stiffness about the neutral axis.
    pub(super) OFF_AXIS: "Stiffness bent across the glue lines", "EI", "N m²";
    e: "E", "modulus of elasticity of each laminate", "GPa";
    t: "t", "its thickness", "mm";
    w: "w", "its width", "mm";
    y: "y", "its middle from the first face", "mm";
    axis: "y₀", "neutral axis", "mm";
    = e * (w * cube(t) / 12.0 + w * t * sq(y - axis)) / 1000.0;
    range "linear, laminates that hold together; GPa mm⁴ over 1000 are N m²";
    source "statics of the transformed section: derived here; held against a worked example";
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
