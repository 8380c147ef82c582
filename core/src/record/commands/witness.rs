//! The witness stick, where one was weighed beside a piece or in a room.

use super::field_kind::{FieldKind, FormField};
use super::form::FormReader;
use crate::record::log::Witness;

/// The name of the stick.
pub const STICK: FormField = FormField::new("Witness stick", FieldKind::Words);
/// Its weight.
pub const STICK_WEIGHS: FormField = FormField::new("The stick weighs", FieldKind::Mass);

/// The stick: a name without a weight is an error; a weight without a name is that of
/// the room's own stick.
pub(super) fn witness(read: &mut FormReader<'_>) -> Option<Witness> {
    let name = read.words(STICK);
    let mass = match name.is_empty() {
        true => read.reading(STICK_WEIGHS),
        false => read.needed_reading(STICK_WEIGHS),
    };
    mass.map(|mass| Witness { mass, name })
}
