//! The numbers that a maker may know of a wood: one list, which the form, the record and the checks
//! share. It never fills one from another.

use crate::quantity::read::{self, UnderstoodNumber, Units, Unreadable};
use crate::quantity::show;
use thiserror::Error;
use uom::si::pressure::{gigapascal, megapascal};

/// Why a number is not kept.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum OwnNumberError {
    #[error(transparent)]
    Unreadable(#[from] Unreadable),
    #[error("{shown} is not that of wood: it lies between {low} and {high}")]
    NotWood {
        shown: String,
        /// The least that is taken.
        low: String,
        /// The most that is taken.
        high: String,
    },
}

/// How a number is read and shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Density,
    Gravity,
    Percent,
    Stiffness,
}

macro_rules! numbers {
    ($($variant:ident, $key:literal, $label:literal, $kind:ident, $low:literal .. $high:literal, $doc:literal;)*) => {
        /// A number about a wood.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum OwnNumber {
            $(#[doc = $doc] $variant,)*
        }

        impl OwnNumber {
            /// All of them, in the order of the form.
            pub const ALL: &'static [OwnNumber] = &[$(OwnNumber::$variant),*];

            /// Its name in the record.
            pub fn key(self) -> &'static str {
                match self { $(OwnNumber::$variant => $key,)* }
            }

            pub fn label(self) -> &'static str {
                match self { $(OwnNumber::$variant => $label,)* }
            }

            /// The label of its source.
            pub fn source_label(self) -> &'static str {
                match self { $(OwnNumber::$variant => concat!($label, ": where from?"),)* }
            }

            fn kind(self) -> Kind {
                match self { $(OwnNumber::$variant => Kind::$kind,)* }
            }

            /// Outside this no wood lies, in the unit in which it is kept. Wide bounds, from memory.
            fn of_wood(self) -> (f64, f64) {
                match self { $(OwnNumber::$variant => ($low, $high),)* }
            }
        }
    };
}

numbers! {
    Density, "density_at_12", "Density at 12 %", Density, 50.0 .. 1600.0, "Mass and volume at 12 % moisture.";
    DensityLow, "density_low", "Usual density from", Density, 50.0 .. 1600.0, "Where most densities at 12 % begin.";
    DensityHigh, "density_high", "Usual density to", Density, 50.0 .. 1600.0, "Where most densities at 12 % end.";
    BasicGravity, "basic_gravity", "Basic specific gravity", Gravity, 0.03 .. 1.5, "Oven-dry mass over green volume, over water.";
    Radial, "shrinkage_radial", "Radial shrinkage", Percent, 0.1 .. 20.0, "Green to oven-dry, across the rings.";
    Tangential, "shrinkage_tangential", "Tangential shrinkage", Percent, 0.1 .. 30.0, "Green to oven-dry, along the rings.";
    Volumetric, "shrinkage_volumetric", "Volumetric shrinkage", Percent, 0.2 .. 40.0, "Green to oven-dry, of the volume.";
    Stiffness, "stiffness", "Stiffness E at 12 %", Stiffness, 500.0 .. 40_000.0, "Modulus of elasticity along the grain, at 12 %.";
}

impl OwnNumber {
    /// The unit in which the record keeps it.
    pub fn kept_in(self) -> &'static str {
        match self.kind() {
            Kind::Density => "kg/m3",
            Kind::Gravity => "",
            Kind::Percent => "%",
            Kind::Stiffness => "MPa",
        }
    }

    /// What a bare number is in, for the hint beside the field.
    pub fn hint(self, units: Units) -> &'static str {
        match (self.kind(), units) {
            (Kind::Density, Units::Metric) => "kg/m³, or with its unit",
            (Kind::Density, Units::Inch) => "lb/ft³, or with its unit",
            (Kind::Gravity, _) => "as 0.56",
            (Kind::Percent, _) => "%, green to oven-dry",
            (Kind::Stiffness, _) => "GPa, or with MPa, psi, Mpsi",
        }
    }

    /// What is typed, as understood; an error where it is no number of wood.
    pub fn read(self, typed: &str, units: Units) -> Result<UnderstoodNumber, OwnNumberError> {
        let understood = match self.kind() {
            Kind::Density => read::density(typed, units)?,
            Kind::Gravity => read::plain(typed)?,
            Kind::Percent => read::percent(typed)?,
            Kind::Stiffness => read::stiffness(typed)?,
        };
        let (low, high) = self.of_wood();
        if (low..=high).contains(&understood.value) {
            return Ok(understood);
        }
        let shown = |value| self.shown(value, units);
        Err(OwnNumberError::NotWood {
            shown: shown(understood.value),
            low: shown(low),
            high: shown(high),
        })
    }

    pub fn shown(self, value: f64, units: Units) -> String {
        match self.kind() {
            Kind::Density => show::density(value, units),
            Kind::Gravity => show::number(value, 3),
            Kind::Percent => show::moisture(value),
            Kind::Stiffness => {
                let pressure = uom::si::f64::Pressure::new::<megapascal>(value);
                format!("{} GPa", show::number(pressure.get::<gigapascal>(), 2))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_no_wood_has_is_refused_with_its_range() {
        let metric = |number: OwnNumber, text: &str| number.read(text, Units::Metric);
        assert_eq!(metric(OwnNumber::Radial, "4,0 %").unwrap().value, 4.0);
        assert_eq!(
            metric(OwnNumber::Stiffness, "12.6").unwrap().value,
            12_600.0
        );
        for (number, text, says) in [
            (
                OwnNumber::Tangential,
                "75",
                "75 % is not that of wood: it lies between 0.1 % and 30 %",
            ),
            (
                OwnNumber::Stiffness,
                "12600",
                "12600 GPa is not that of wood: it lies between 0.5 GPa and 40 GPa",
            ),
            (
                OwnNumber::Density,
                "0.64",
                "1 kg/m³ is not that of wood: it lies between 50 kg/m³ and 1600 kg/m³",
            ),
            (
                OwnNumber::BasicGravity,
                "heavy",
                "There is no number in it.",
            ),
        ] {
            assert_eq!(metric(number, text).unwrap_err().to_string(), says);
        }
    }

    #[test]
    fn every_number_has_a_name_of_its_own() {
        for (at, one) in OwnNumber::ALL.iter().enumerate() {
            for other in &OwnNumber::ALL[..at] {
                assert!(one.key() != other.key() && one.label() != other.label());
            }
        }
    }
}
