//! Slope of grain.

use super::{Angle, in_degrees};

/// Slope of grain: how far the fibres leave the long axis per unit of length (the tangent of the
/// angle between them). The trade writes 0.05 as 1 in 20.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Slope(f64);

impl Slope {
    pub const fn tangent(value: f64) -> Self {
        Self(value)
    }

    /// 1 in `run`.
    pub fn one_in(run: f64) -> Self {
        Self(1.0 / run)
    }

    /// The slope of an angle to the axis.
    pub fn of_angle(angle: Angle) -> Self {
        Self(libm::tan(in_degrees(angle).to_radians()))
    }

    pub const fn in_tangent(self) -> f64 {
        self.0
    }

    /// The run over which the grain leaves by one; `None` for dead straight grain.
    pub fn run(self) -> Option<f64> {
        (self.0 != 0.0).then(|| 1.0 / self.0.abs())
    }
}
