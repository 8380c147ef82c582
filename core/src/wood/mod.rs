//! What is known of wood itself: the table of species, equilibrium with the air, the moisture meter,
//! density and specific gravity, weighing and oven-drying,
//! shrinking, swelling and cupping, the workshop's year, stiffness.
//!
//! Each formula stands in one function and returns an error outside the range in which its source
//! holds. This room knows nothing of a plank, of a maker's limits or of what is good: it never gives a
//! verdict, and it never fills a number that no source gives.

mod beside_usual;
mod caution;
mod cup;
mod density;
mod emc;
mod meter;
mod numbers;
mod ovendry;
mod own;
mod own_number;
mod search;
mod shrinkage;
mod source;
mod species;
mod stiffness;
mod table;
mod year;

pub use beside_usual::BesideUsual;
pub use caution::{Dust, DustCaution, TradeControl, TradeStatus};
pub use cup::{CupError, Cupping, FreeChange, Hollow, LineInLog, cupping, explain_cupping};
pub use density::{
    DensityError, FIBRE_SATURATION, density_at, density_at_12, density_from_gravity,
    gravity_from_basic, gravity_from_density,
};
pub use emc::{
    EmcError, Humidity, emc, emc_four_parameter, humidity_for_emc, humidity_for_emc_four_parameter,
};
pub use meter::{CALIBRATION_CELSIUS, MeterError, meter_corrected};
pub use ovendry::{OvenDryError, moisture_from_ovendry};
pub use own::OwnWood;
pub use own_number::{OwnNumber, OwnNumberError};
pub use search::{Match, search, search_among, search_among_called};
pub use shrinkage::{
    Across, ChangeCoefficient, Method, Movement, Shrinkage, ShrinkageError, change_by_coefficient,
    change_by_total_shrinkage, coefficient_at_angle, coefficient_from_shrinkage,
    shrinkage_at_angle, shrinkage_from_coefficient,
};
pub use source::{Adjustment, Citation, NumberOrigin, Sourced, citations};
pub use species::{DensityRange, RangeBasis, Species};
pub use stiffness::{
    SpecificStiffness, StiffnessError, sound_along, specific_stiffness, speed_of_sound,
    stiffness_from_sound, strength_tested,
};
pub use table::{find, species};
pub use year::{Air, OverYear, WorkshopYear};
