//! Is it still drying: a series of weighings against the air that the piece lay in.
//!
//! A weight alone can't tell: it follows the air as well as the drying. Here the piece follows the
//! equilibrium of its air with a lag, and what is left is how far it still is from that equilibrium. It
//! never takes the air's ups and downs for drying, nor says what the scale can't see.

mod air;
mod curve;
mod explain;
mod fit;
mod formulas;
mod one_percent;
mod report;
mod weighing;
mod witness;

pub use air::AirUncertainty;
pub use explain::{DriedTo, explain_drying_figure};
pub use fit::{Bounded, DryingFit, fit_drying, fit_drying_in_air};
pub use formulas::NEAR_ENOUGH;
pub use one_percent::{mass_change_in_air, one_percent_of};
pub use report::{Drying, DryingReport, drying, drying_in_air};
pub use weighing::{AirReading, DryingError, Weighing, smallest_change_seen};
pub use witness::air_from_witness;

#[cfg(test)]
mod coverage;
#[cfg(test)]
mod tests;
