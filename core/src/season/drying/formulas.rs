//! The formulas of drying: what is left above the air's equilibrium, what the piece settles at, and when it is near.

use crate::quantity::{Trace, formula};

/// How near to the room's equilibrium counts as there, % moisture (common practice, no source).
pub const NEAR_ENOUGH: f64 = 0.5;

formula! {
    /// Water left above the equilibrium, of the dry mass.
    pub(super) LEFT: "Above the air's equilibrium", "ΔM", "%";
    water: "w", "water left above it at the last weighing, by the curve", "g";
    dry: "D", "the piece without water, by the curve", "g";
    = 100.0 * water / dry;
    range "less than nothing: below it";
    source "the definition of moisture content";
}

formula! {
    /// The mass in equilibrium with the air.
    pub(super) SETTLES: "It settles at", "m", "g";
    dry: "D", "the piece without water, by the curve", "g";
    air: "E", "equilibrium of the last air", "%";
    = dry * (1.0 + air / 100.0);
    range "air that stays as it was last";
    source "the definition of moisture content";
}

formula! {
    pub(super) NEAR_IN: "Days until it is near its equilibrium", "t", "d";
    tau: "τ", "days in which all but 37 % of the way is done, by the curve", "d";
    left: "ΔM", "how far it is from its equilibrium", "%";
    near: "n", "what counts as near", "%";
    = tau * ln(abs(left) / near);
    range "further off than what counts as near; nearer, none; air that stays as it was last";
    source "exponential approach: standard, from memory";
}

/// Days until within half a percent, nothing when it is already.
pub(super) fn days_until_near(trace: &mut impl Trace, tau: f64, left_percent: f64) -> f64 {
    match left_percent.abs() > NEAR_ENOUGH {
        true => trace.work(&NEAR_IN, [tau, left_percent, NEAR_ENOUGH]),
        false => 0.0,
    }
}
