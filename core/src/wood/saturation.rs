//! Fibre saturation of a wood: the moisture at which drying begins to shrink it, and what it has shrunk
//! by at a lower one. It never says how wet a plank is.

use super::shrinkage::Shrinkage;
use super::source::{Sourced, origin};
use super::species::Species;
use super::table::find;
use crate::quantity::{Moisture, formula};
use thiserror::Error;

/// Moisture in %, at room temperature, and the letter of its source.
const KNOWN: [(&str, f64, char); 7] = [
    ("ash-white", 24.0, 'B'),
    ("birch-yellow", 27.0, 'B'),
    ("spruce-sitka", 28.5, 'B'),
    ("spruce-red", 27.0, 'B'),
    ("douglas-fir", 26.0, 'B'),
    ("iroko", 23.0, 'T'),
    ("moabi", 23.0, 'T'),
];

/// Why no shrinkage can be given.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum SaturationError {
    /// No wood's fibres are saturated there.
    #[error("{percent:.1} %: the fibres of wood are saturated between 20 and 35 % moisture")]
    NotASaturation {
        /// As given, %.
        percent: f64,
    },
    /// Wetter than fibre saturation, or not a moisture.
    #[error("{percent:.1} %: this wood shrinks between 0 and {saturation:.1} % moisture only")]
    NotShrinking {
        /// The moisture that is outside, %.
        percent: f64,
        /// Fibre saturation, %.
        saturation: f64,
    },
    /// No wood shrinks like this.
    #[error("{percent} % is not a total shrinkage of wood")]
    NotAShrinkage {
        /// As given, %.
        percent: f64,
    },
}

impl Species {
    /// Moisture at which it begins to shrink, at room temperature. `None` where no source gives it; the
    /// handbook then takes [`FIBRE_SATURATION`](super::FIBRE_SATURATION).
    pub fn fibre_saturation(&self) -> Option<Sourced<Moisture>> {
        // Not a wood of the maker's own that has the same id.
        find(self.id()).filter(|wood| *wood == self)?;
        let (_, percent, key) = KNOWN.iter().find(|(id, ..)| *id == self.id())?;
        Some(Sourced::given(Moisture::percent(*percent), origin(*key)?))
    }
}

/// Shrinkage from green to a moisture below fibre saturation: `S_M = S (1 - M/Mf)`, in %.
///
/// S is the total shrinkage in the same direction or of the volume, over 0 and up to 40 %; M the moisture,
/// from 0 to Mf; Mf fibre saturation, from 20 to 35 % (the limits of S and Mf are ours). An error
/// outside. The straight line leaves out the bend near fibre saturation.
///
/// Source: Wood Handbook, FPL-GTR-282 (2021), equation 4-9 (read in a transcription).
///
/// ```
/// use stillwood_core::{quantity::Moisture, wood::{Shrinkage, find, shrinkage_from_green}};
/// let ash = find("ash-white").unwrap();
/// let total = ash.tangential_shrinkage().unwrap().value;
/// let saturated = ash.fibre_saturation().unwrap().value;
/// let dried = shrinkage_from_green(total, Moisture::percent(12.0), saturated).unwrap();
/// assert!((dried.in_percent() - 3.9).abs() < 1e-9);
/// ```
pub fn shrinkage_from_green(
    total: Shrinkage,
    at: Moisture,
    saturation: Moisture,
) -> Result<Shrinkage, SaturationError> {
    let (s, m, mf) = (total.in_percent(), at.in_percent(), saturation.in_percent());
    if !(20.0..=35.0).contains(&mf) {
        return Err(SaturationError::NotASaturation { percent: mf });
    }
    if !(0.0..=mf).contains(&m) {
        return Err(SaturationError::NotShrinking {
            percent: m,
            saturation: mf,
        });
    }
    if !(s > 0.0 && s <= 40.0) {
        return Err(SaturationError::NotAShrinkage { percent: s });
    }
    Ok(Shrinkage::percent(FROM_GREEN.of([s, m, mf])))
}

formula! {
    /// Shrinkage from green to a moisture.
    FROM_GREEN: "Shrinkage from green", "S_M", "%";
    s: "S", "total shrinkage", "%";
    m: "M", "moisture", "%";
    mf: "M_f", "fibre saturation", "%";
    = s * (1.0 - m / mf);
    range "0 % to fibre saturation, 20 to 35 %";
    source "Wood Handbook, FPL-GTR-282 (2021), equation 4-9 (read in a transcription)";
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wood::OwnWood;

    #[test]
    fn every_known_saturation_is_of_a_wood_of_the_table_and_was_read() {
        for (id, ..) in KNOWN {
            let known = find(id).and_then(Species::fibre_saturation).unwrap();
            assert!(known.origin.is_read(), "{id}");
            assert!((20.0..=30.0).contains(&known.value.in_percent()), "{id}");
        }
        assert!(find("maple-sugar").unwrap().fibre_saturation().is_none());
    }

    #[test]
    fn a_wood_of_the_makers_own_is_not_given_the_tables_saturation() {
        let own = Species::from(OwnWood {
            id: "ash-white".into(),
            ..OwnWood::default()
        });
        assert!(own.fibre_saturation().is_none());
    }

    #[test]
    fn outside_its_range_it_says_so() {
        let percent = Moisture::percent;
        let shrunk =
            |s, m, mf| shrinkage_from_green(Shrinkage::percent(s), percent(m), percent(mf));
        let wet = shrunk(7.8, 25.0, 24.0).unwrap_err();
        assert_eq!(
            wet.to_string(),
            "25.0 %: this wood shrinks between 0 and 24.0 % moisture only"
        );
        assert_eq!(
            shrunk(7.8, 12.0, 19.0),
            Err(SaturationError::NotASaturation { percent: 19.0 })
        );
        assert_eq!(
            shrunk(0.0, 12.0, 24.0),
            Err(SaturationError::NotAShrinkage { percent: 0.0 })
        );
        assert!(shrunk(7.8, -1.0, 24.0).is_err());
        assert!(shrunk(f64::NAN, 12.0, 24.0).is_err());
        assert!(shrunk(7.8, f64::NAN, 24.0).is_err());
        assert!(shrunk(7.8, 12.0, f64::NAN).is_err());
    }
}
