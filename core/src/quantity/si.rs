//! Quantities as serde writes them where nothing but the app itself reads them: the number in SI units.
//! The record never does so: it keeps what was typed, with its unit.

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use uom::si::{Dimension, Quantity, SI};

type Of<D> = Quantity<D, SI<f64>, f64>;

pub(crate) fn serialize<D: Dimension + ?Sized, S: Serializer>(
    quantity: &Of<D>,
    to: S,
) -> Result<S::Ok, S::Error> {
    quantity.value.serialize(to)
}

pub(crate) fn deserialize<'de, D: Dimension + ?Sized, S: Deserializer<'de>>(
    from: S,
) -> Result<Of<D>, S::Error> {
    f64::deserialize(from).map(of)
}

fn of<D: Dimension + ?Sized>(value: f64) -> Of<D> {
    Quantity {
        dimension: std::marker::PhantomData,
        units: std::marker::PhantomData,
        value,
    }
}

/// The same of what may not be known.
pub(crate) mod known {
    use super::*;

    pub(crate) fn serialize<D: Dimension + ?Sized, S: Serializer>(
        quantity: &Option<Of<D>>,
        to: S,
    ) -> Result<S::Ok, S::Error> {
        quantity.as_ref().map(|known| known.value).serialize(to)
    }

    pub(crate) fn deserialize<'de, D: Dimension + ?Sized, S: Deserializer<'de>>(
        from: S,
    ) -> Result<Option<Of<D>>, S::Error> {
        Ok(Option::<f64>::deserialize(from)?.map(of))
    }
}
