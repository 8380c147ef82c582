//! The air of a room, as it is asked for in several forms.

use super::field_kind::{FieldKind, FormField};
use super::form::FormReader;
use crate::record::log::Climate;

/// The relative humidity.
pub const HUMIDITY: FormField = FormField::new("Humidity of the air", FieldKind::Humidity);
/// The temperature.
pub const TEMPERATURE: FormField = FormField::new("Temperature of the air", FieldKind::Temperature);

/// The air, as far as it was read.
pub(super) fn climate(read: &mut FormReader<'_>) -> Climate {
    Climate {
        humidity: read.reading(HUMIDITY),
        temperature: read.reading(TEMPERATURE),
    }
}
