//! A wood and what is known of it: from the table compiled in, or entered by the maker. Both answer
//! the same questions, and every number says whose it is. What no source gives is `None`, never a
//! default.

use super::caution::{DustCaution, TradeStatus};
use super::density::{density_from_gravity, gravity_from_basic};
use super::numbers::{Numbers, Spread, as_given, coefficient, total};
use super::shrinkage::{
    Across, ChangeCoefficient, Movement, Shrinkage, ShrinkageError, coefficient_at_angle,
    shrinkage_at_angle,
};
use super::source::{Adjustment, NumberOrigin, Sourced};
use super::stiffness::speed_of_sound;
use crate::quantity::{
    Angle, Length, MassDensity, Moisture, Pressure, Trace, Velocity, in_kg_per_m3, kg_per_m3,
};
use uom::si::pressure::megapascal;

/// How widely the density of one species varies, as a share of its mean: coefficient of variation
/// about 10 %. Wood Handbook, chapter 5, from memory.
const VARIATION: f64 = 0.10;

#[derive(Debug, Clone, PartialEq)]
pub struct Species {
    pub(super) id: String,
    pub(super) names: Vec<String>,
    pub(super) scientific: String,
    pub(super) numbers: Numbers,
    pub(super) dust: DustCaution,
    pub(super) trade: TradeStatus,
    pub(super) colour: String,
}

/// Where most of a species' densities lie, at 12 % moisture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DensityRange {
    /// Lower end.
    pub low: MassDensity,
    /// Upper end.
    pub high: MassDensity,
    /// How the ends were found.
    pub basis: RangeBasis,
    /// Whose numbers they rest on.
    pub origin: NumberOrigin,
}

/// How the ends of a [`DensityRange`] were found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RangeBasis {
    /// As the source gives them.
    Published,
    /// Mean and twice the standard deviation that the source gives.
    StandardDeviation,
    /// Mean and twice a coefficient of variation of 10 %, usual within a species (from memory).
    UsualVariation,
}

impl DensityRange {
    /// How the ends were found and whose numbers they rest on, in words.
    pub fn source(&self) -> String {
        match self.basis {
            RangeBasis::Published => self.origin.to_string(),
            RangeBasis::StandardDeviation => {
                format!("two standard deviations either way; {}", self.origin)
            }
            RangeBasis::UsualVariation => format!(
                "computed: ± {:.0} % of the density above, the usual variation of a wood (from memory); {}",
                200.0 * VARIATION,
                self.origin
            ),
        }
    }
}

impl Species {
    /// Short, stable, for the record: `maple-sugar`.
    pub fn id(&self) -> &str {
        &self.id
    }

    /// The colour in which it is drawn, as `#rrggbb`: chosen by eye, no source. A wood of the maker's own has the
    /// colour of undyed wood.
    pub fn colour(&self) -> &str {
        &self.colour
    }

    pub fn name(&self) -> &str {
        self.names.first().map_or(&self.id, String::as_str)
    }

    /// All common names; one name may belong to several woods.
    pub fn names(&self) -> &[String] {
        &self.names
    }

    /// Botanical name; empty where the maker gave none.
    pub fn scientific_name(&self) -> &str {
        &self.scientific
    }

    pub fn dust(&self) -> DustCaution {
        self.dust
    }

    pub fn trade(&self) -> &TradeStatus {
        &self.trade
    }

    /// Oven-dry mass over green volume, over water.
    pub fn basic_gravity(&self) -> Option<Sourced<f64>> {
        as_given(self.numbers.basic_gravity)
    }

    /// Oven-dry mass over volume at 12 %, over water: as given, or from the basic one.
    pub fn gravity_at_12(&self) -> Option<Sourced<f64>> {
        as_given(self.numbers.gravity_at_12).or_else(|| {
            let basic = self.basic_gravity()?;
            let at_12 = gravity_from_basic(basic.value, Moisture::STANDARD).ok()?;
            Some(basic.derived(at_12, Adjustment::FromBasicGravity))
        })
    }

    /// Density at 12 %: as given, or the middle of the range given, or from the specific gravity.
    pub fn density_at_12(&self) -> Option<Sourced<MassDensity>> {
        if let Some(given) = as_given(self.numbers.density_at_12) {
            return Some(given.derived(kg_per_m3(given.value), Adjustment::AsGiven));
        }
        if let Some((Spread::Range { low, high }, origin)) = self.numbers.spread {
            let middle = Sourced::given(kg_per_m3(0.5 * (low + high)), origin);
            return Some(middle.derived(middle.value, Adjustment::MiddleOfRange));
        }
        let gravity = self.gravity_at_12()?;
        let density = density_from_gravity(gravity.value, Moisture::STANDARD).ok()?;
        let how = match gravity.adjustment {
            Adjustment::AsGiven => Adjustment::FromGravityAt12,
            derived => derived,
        };
        Some(gravity.derived(density, how))
    }

    /// Where most of this wood's densities at 12 % lie: as the source gives it, else by its standard
    /// deviation, else by the variation usual within a species.
    pub fn usual_density_at_12(&self) -> Option<DensityRange> {
        let around = |mean: f64, twice: f64, basis, origin| DensityRange {
            low: kg_per_m3(mean - twice),
            high: kg_per_m3(mean + twice),
            basis,
            origin,
        };
        let mean = self.density_at_12()?;
        let centre = in_kg_per_m3(mean.value);
        Some(match self.numbers.spread {
            Some((Spread::Range { low, high }, origin)) => DensityRange {
                low: kg_per_m3(low),
                high: kg_per_m3(high),
                basis: RangeBasis::Published,
                origin,
            },
            Some((Spread::Deviation(sd), origin)) => {
                around(centre, 2.0 * sd, RangeBasis::StandardDeviation, origin)
            }
            None => around(
                centre,
                2.0 * VARIATION * centre,
                RangeBasis::UsualVariation,
                mean.origin,
            ),
        })
    }

    /// Total radial shrinkage: as given, or from the coefficient.
    pub fn radial_shrinkage(&self) -> Option<Sourced<Shrinkage>> {
        total(self.numbers.radial, self.numbers.radial_coefficient)
    }

    /// Total tangential shrinkage: as given, or from the coefficient.
    pub fn tangential_shrinkage(&self) -> Option<Sourced<Shrinkage>> {
        total(self.numbers.tangential, self.numbers.tangential_coefficient)
    }

    pub fn volumetric_shrinkage(&self) -> Option<Sourced<Shrinkage>> {
        total(self.numbers.volumetric, None)
    }

    /// Radial change coefficient: as given, or from the total shrinkage.
    pub fn radial_coefficient(&self) -> Option<Sourced<ChangeCoefficient>> {
        coefficient(self.numbers.radial_coefficient, self.numbers.radial)
    }

    /// Tangential change coefficient: as given, or from the total shrinkage.
    pub fn tangential_coefficient(&self) -> Option<Sourced<ChangeCoefficient>> {
        coefficient(self.numbers.tangential_coefficient, self.numbers.tangential)
    }

    /// Modulus of elasticity along the grain at 12 %.
    pub fn stiffness_at_12(&self) -> Option<Sourced<Pressure>> {
        let given = as_given(self.numbers.stiffness_mpa)?;
        Some(given.derived(
            Pressure::new::<megapascal>(given.value),
            Adjustment::AsGiven,
        ))
    }

    /// Speed of sound along the grain at 12 %, where stiffness and density are both known.
    pub fn speed_of_sound_at_12(&self) -> Option<Velocity> {
        speed_of_sound(self.stiffness_at_12()?.value, self.density_at_12()?.value).ok()
    }

    /// How a board of this wood changes its width or thickness between two moistures; `None` where its
    /// shrinkage is not known. The ring angle is that at the end grain, 90 degrees quarter sawn.
    pub fn movement(
        &self,
        trace: &mut impl Trace,
        size: Length,
        (ring_angle, across): (Angle, Across),
        from: Moisture,
        to: Moisture,
    ) -> Option<Result<Movement, ShrinkageError>> {
        let radial = self.radial_shrinkage()?.value;
        let tangential = self.tangential_shrinkage()?.value;
        let c_radial = self.radial_coefficient()?.value;
        let c_tangential = self.tangential_coefficient()?.value;
        Some(
            coefficient_at_angle(c_radial, c_tangential, ring_angle, across).and_then(|c| {
                let s = shrinkage_at_angle(radial, tangential, ring_angle, across)?;
                Movement::find(trace, size, (Some(c), s), from, to)
            }),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wood::{find, species};

    fn rho(wood: &Species) -> f64 {
        in_kg_per_m3(wood.density_at_12().unwrap().value)
    }

    #[test]
    fn density_comes_from_the_best_that_is_known() {
        let maple = find("maple-sugar").unwrap();
        let density = maple.density_at_12().unwrap();
        assert!((rho(maple) - 705.6).abs() < 0.01);
        assert_eq!(density.adjustment, Adjustment::FromGravityAt12);
        assert!(matches!(density.origin, NumberOrigin::Table(citation) if citation.read));
        let mahogany = find("mahogany").unwrap();
        assert_eq!(rho(mahogany), 657.0);
        let cedar = find("cedar-spanish").unwrap().density_at_12().unwrap();
        assert_eq!(cedar.adjustment, Adjustment::FromBasicGravity);
        assert_eq!(rho(find("wenge").unwrap()), 870.0);
    }

    #[test]
    fn the_usual_range_says_how_it_was_found() {
        let range = |id: &str| {
            let range = find(id).unwrap().usual_density_at_12().unwrap();
            (
                in_kg_per_m3(range.low).round(),
                in_kg_per_m3(range.high).round(),
                range.basis,
            )
        };
        assert_eq!(range("padauk"), (670.0, 820.0, RangeBasis::Published));
        assert_eq!(
            range("wenge"),
            (710.0, 1030.0, RangeBasis::StandardDeviation)
        );
        assert_eq!(
            range("maple-sugar"),
            (564.0, 847.0, RangeBasis::UsualVariation)
        );
        let source = |id: &str| find(id).unwrap().usual_density_at_12().unwrap().source();
        let begins = |id: &str, words: &str| assert!(source(id).starts_with(words), "{id}");
        begins("wenge", "two standard deviations either way; ");
        begins("maple-sugar", "computed: ± 20 % of the density above, ");
        let padauk = find("padauk").unwrap().usual_density_at_12().unwrap();
        assert_eq!(source("padauk"), padauk.origin.to_string());
    }

    #[test]
    fn every_number_of_the_table_is_one_of_wood() {
        let (mut shrinking, mut stiff) = (0, 0);
        for wood in species() {
            let id = wood.id();
            assert!(
                (200.0..1400.0).contains(&rho(wood)) || wood.density_at_12().is_none(),
                "{id}"
            );
            if let (Some(radial), Some(tangential)) =
                (wood.radial_shrinkage(), wood.tangential_shrinkage())
            {
                assert!(radial.value < tangential.value, "{id}");
                assert!(tangential.value < Shrinkage::percent(13.0), "{id}");
                shrinking += 1;
            }
            if let Some(stiffness) = wood.stiffness_at_12() {
                let mpa = stiffness.value.get::<megapascal>();
                assert!((7000.0..23_000.0).contains(&mpa), "{id}");
                stiff += 1;
            }
            assert!(
                wood.trade()
                    .words()
                    .ends_with("check before you buy or ship.")
            );
        }
        assert!(shrinking > 60 && stiff > 60, "{shrinking} {stiff}");
    }
}
