//! What is known of wood itself: the table of species, equilibrium with the air, the moisture meter,
//! density and specific gravity, shrinking and swelling.
//!
//! Each formula stands in one function and returns an error outside the range in which its source
//! holds. This room knows nothing of a plank, of a maker's limits or of what is good: it never gives a
//! verdict, and it never fills a number that no source gives.

mod caution;
mod density;
mod emc;
mod meter;
mod numbers;
mod own;
mod own_number;
mod search;
mod shrinkage;
mod source;
mod species;
mod table;

pub use caution::{Dust, DustCaution, TradeControl, TradeStatus};
pub use density::{
    DensityError, FIBRE_SATURATION, WATER_DENSITY, basic_from_gravity, density_at, density_at_12,
    density_from_gravity, density_from_ovendry, gravity_at, gravity_from_basic,
    gravity_from_density, gravity_from_shrinkage, maximum_moisture, sinking_moisture,
    volumetric_shrinkage, volumetric_shrinkage_at, volumetric_shrinkage_from_ovendry,
};
pub use emc::{
    EmcError, Humidity, emc, emc_four_parameter, humidity_for_emc, humidity_for_emc_four_parameter,
};
pub use meter::{CALIBRATION_CELSIUS, MeterError, meter_corrected};
pub use own::OwnWood;
pub use own_number::{OwnNumber, OwnNumberError};
pub use search::{Match, search, search_among};
pub use shrinkage::{
    Across, ChangeCoefficient, Method, Movement, Shrinkage, ShrinkageError, change_by_coefficient,
    change_by_total_shrinkage, coefficient_at_angle, coefficient_from_shrinkage,
    shrinkage_at_angle, shrinkage_from_coefficient,
};
pub use source::{Citation, Derivation, Origin, Sourced, citations};
pub use species::{DensityRange, RangeBasis, Species, find, species};
