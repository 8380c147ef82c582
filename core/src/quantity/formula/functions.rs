//! The functions that a formula's expression may use, angles in degrees.

pub(crate) fn sq(x: f64) -> f64 {
    x * x
}
pub(crate) fn cube(x: f64) -> f64 {
    x * x * x
}
/// The size without the sign.
pub(crate) fn abs(x: f64) -> f64 {
    x.abs()
}

/// The square root.
pub(crate) fn sqrt(x: f64) -> f64 {
    x.sqrt()
}
/// The angle of a tangent.
pub(crate) fn arctan(x: f64) -> f64 {
    libm::atan(x).to_degrees()
}
/// The tangent of an angle.
pub(crate) fn tan(x: f64) -> f64 {
    libm::tan(x.to_radians())
}
pub(crate) fn pow(x: f64, y: f64) -> f64 {
    libm::pow(x, y)
}

pub(crate) fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// The natural logarithm.
pub(crate) fn ln(x: f64) -> f64 {
    libm::log(x)
}
/// The hyperbolic tangent.
pub(crate) fn tanh(x: f64) -> f64 {
    libm::tanh(x)
}
/// The angle of a hyperbolic tangent.
pub(crate) fn artanh(x: f64) -> f64 {
    libm::atanh(x)
}
/// The standard normal distribution function.
pub(crate) fn normal(z: f64) -> f64 {
    0.5 * libm::erfc(-z / core::f64::consts::SQRT_2)
}
