//! A wood that the maker enters: whatever is known of it, marked as the maker's data. It fills no gap
//! from the table.

use super::caution::{Dust, DustCaution, TradeStatus};
use super::numbers::{Numbers, Spread};
use super::shrinkage::Shrinkage;
use super::source::NumberOrigin;
use super::species::Species;
use crate::quantity::{MassDensity, in_kg_per_m3};
use uom::si::f64::Pressure;
use uom::si::pressure::megapascal;

/// A wood of the maker's own: whatever is known of it, the rest left empty.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OwnWood {
    /// Short and stable, for the record.
    pub id: String,
    /// What the maker calls it.
    pub name: String,
    /// Botanical name, where it is known.
    pub scientific: String,
    /// Oven-dry mass over green volume, over water.
    pub basic_gravity: Option<f64>,
    /// Density at 12 %.
    pub density_at_12: Option<MassDensity>,
    /// Where most densities at 12 % lie.
    pub usual_density: Option<(MassDensity, MassDensity)>,
    pub radial: Option<Shrinkage>,
    pub tangential: Option<Shrinkage>,
    pub volumetric: Option<Shrinkage>,
    /// Modulus of elasticity along the grain at 12 %.
    pub stiffness: Option<Pressure>,
    /// What its dust is known to do.
    pub dust: Dust,
}

impl From<OwnWood> for Species {
    fn from(own: OwnWood) -> Self {
        let yours = |number: Option<f64>| number.map(|value| (value, NumberOrigin::YourData));
        Species {
            id: own.id,
            names: vec![own.name],
            scientific: own.scientific,
            numbers: Numbers {
                basic_gravity: yours(own.basic_gravity),
                density_at_12: yours(own.density_at_12.map(in_kg_per_m3)),
                spread: own.usual_density.map(|(low, high)| {
                    let (low, high) = (in_kg_per_m3(low), in_kg_per_m3(high));
                    (Spread::Range { low, high }, NumberOrigin::YourData)
                }),
                radial: yours(own.radial.map(Shrinkage::in_percent)),
                tangential: yours(own.tangential.map(Shrinkage::in_percent)),
                volumetric: yours(own.volumetric.map(Shrinkage::in_percent)),
                stiffness_mpa: yours(own.stiffness.map(|e| e.get::<megapascal>())),
                ..Numbers::default()
            },
            dust: DustCaution {
                dust: own.dust,
                origin: NumberOrigin::YourData,
            },
            trade: TradeStatus::Unknown,
            colour: "#d8c7a6".to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::TraceOff;
    use crate::quantity::{Moisture, degrees, in_mm, kg_per_m3, mm};
    use crate::wood::Across;

    #[test]
    fn a_wood_of_the_makers_own_answers_alike_and_says_whose_data() {
        let bare = Species::from(OwnWood::default());
        assert!(bare.density_at_12().is_none() && bare.usual_density_at_12().is_none());
        let twelve = Moisture::STANDARD;
        let ten = Moisture::percent(10.0);
        let flat = |wood: &Species| {
            wood.movement(
                &mut TraceOff,
                mm(100.0),
                (degrees(0.0), Across::Width),
                twelve,
                ten,
            )
        };
        assert!(flat(&bare).is_none());
        assert!(
            bare.trade()
                .words()
                .starts_with("CITES listing not known: no data.")
        );

        let own = Species::from(OwnWood {
            name: "river cherry".into(),
            density_at_12: Some(kg_per_m3(600.0)),
            radial: Some(Shrinkage::percent(4.0)),
            tangential: Some(Shrinkage::percent(7.5)),
            ..OwnWood::default()
        });
        assert_eq!(own.density_at_12().unwrap().source(), "your data");
        assert_eq!(
            own.tangential_coefficient().unwrap().source(),
            "computed from the total shrinkage: your data"
        );
        let moved = in_mm(flat(&own).unwrap().unwrap().change);
        assert!((moved + 200.0 / 380.0).abs() < 1e-9, "{moved}");
    }
}
