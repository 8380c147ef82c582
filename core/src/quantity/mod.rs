//! Lengths, masses, densities, moisture and slopes as types, so that one can't pass for another.
//!
//! The physical quantities are those of the `uom` crate, held in SI; this room adds short
//! constructors in the units of the bench, the two quantities of the trade that SI has no name for
//! ([`Moisture`], [`Slope`]), the reading of what a hand types and the showing of it again. It never
//! knows what a number is for.

mod amount;
mod conformance;
mod derivation;
mod estimate;
pub(crate) mod formula;
mod moisture;
mod number;
mod of_wood;
pub mod read;
pub mod show;
pub(crate) mod si;
mod slope;
mod understood;

pub(crate) use conformance::CONFORMANCE;
pub use conformance::{Conformance, GUARD_FACTOR, conformance_probability, normal_cdf};
pub use derivation::{Derivation, Spread};
pub use estimate::{Estimate, Input, Scalar, propagate};
pub(crate) use formula::formula;
pub use formula::{
    Exact, ExactFormula, Explanation, Formula, Step, Term, TermUnit, Trace, TraceOff,
};
pub use moisture::Moisture;
pub use number::float_of;
pub use slope::Slope;
pub use uom::si::f64::{
    Angle, Area, Frequency, Length, Mass, MassDensity, Pressure, TemperatureInterval,
    ThermodynamicTemperature as Temperature, Velocity, Volume,
};

use uom::si::{
    angle, area, frequency, length, mass, mass_density, pressure, thermodynamic_temperature,
    velocity, volume,
};

/// Exactly 25.4 mm (international inch, 1959).
pub const MM_PER_INCH: f64 = 25.4;
/// Exactly 453.59237 g (international avoirdupois pound, 1959).
pub const GRAMS_PER_POUND: f64 = 453.592_37;

/// Whether a value is a number and more than nothing.
// Against the largest number and not with `is_finite`, which compiles to much more: it is asked hundreds of
// times for one verdict.
pub(crate) fn is_positive(value: f64) -> bool {
    0.0 < value && value <= f64::MAX
}

pub fn mm(value: f64) -> Length {
    Length::new::<length::millimeter>(value)
}

pub fn inches(value: f64) -> Length {
    Length::new::<length::inch>(value)
}

pub fn kg(value: f64) -> Mass {
    Mass::new::<mass::kilogram>(value)
}

/// A density from kilograms per cubic metre.
pub fn kg_per_m3(value: f64) -> MassDensity {
    MassDensity::new::<mass_density::kilogram_per_cubic_meter>(value)
}

/// A volume from cubic metres.
pub fn m3(value: f64) -> Volume {
    Volume::new::<volume::cubic_meter>(value)
}

/// An area from square millimetres.
pub fn mm2(value: f64) -> Area {
    Area::new::<area::square_millimeter>(value)
}

pub fn degrees(value: f64) -> Angle {
    Angle::new::<angle::degree>(value)
}

pub fn celsius(value: f64) -> Temperature {
    Temperature::new::<thermodynamic_temperature::degree_celsius>(value)
}

/// A modulus of elasticity from gigapascals.
pub fn gpa(value: f64) -> Pressure {
    Pressure::new::<pressure::gigapascal>(value)
}

pub fn hz(value: f64) -> Frequency {
    Frequency::new::<frequency::hertz>(value)
}

pub fn metres_per_second(value: f64) -> Velocity {
    Velocity::new::<velocity::meter_per_second>(value)
}

pub fn in_mm(value: Length) -> f64 {
    value.get::<length::millimeter>()
}

pub fn in_inches(value: Length) -> f64 {
    value.get::<length::inch>()
}

/// An area in square millimetres.
pub fn in_mm2(value: Area) -> f64 {
    value.get::<area::square_millimeter>()
}

pub fn in_kg(value: Mass) -> f64 {
    value.get::<mass::kilogram>()
}

/// A density in kilograms per cubic metre.
pub fn in_kg_per_m3(value: MassDensity) -> f64 {
    value.get::<mass_density::kilogram_per_cubic_meter>()
}

/// A volume in cubic metres.
pub fn in_m3(value: Volume) -> f64 {
    value.get::<volume::cubic_meter>()
}

pub fn in_degrees(value: Angle) -> f64 {
    value.get::<angle::degree>()
}

pub fn in_celsius(value: Temperature) -> f64 {
    value.get::<thermodynamic_temperature::degree_celsius>()
}

/// A modulus of elasticity in gigapascals.
pub fn in_gpa(value: Pressure) -> f64 {
    value.get::<pressure::gigapascal>()
}

pub fn in_hz(value: Frequency) -> f64 {
    value.get::<frequency::hertz>()
}

pub fn in_metres_per_second(value: Velocity) -> f64 {
    value.get::<velocity::meter_per_second>()
}
