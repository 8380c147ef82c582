//! A weighing of a witness stick, out of the entry that tells it.

use super::Witness;
use crate::notebook::Happening;
use uuid::Uuid;

/// A weighing of a stick, and where it lay.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::notebook) struct StickWeighed {
    /// What it weighed, kg.
    pub(in crate::notebook) mass: f64,
    /// Where it was weighed.
    pub(in crate::notebook) place: Place,
}

/// Where a stick was weighed.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::notebook) enum Place {
    /// In a room.
    Room(String),
    /// Beside a piece.
    Beside(Uuid),
}

/// The stick that an entry tells the weight of, by its name.
pub(in crate::notebook) fn stick_of(
    happening: &Happening,
    about: Uuid,
) -> Option<(String, StickWeighed)> {
    let weighed = |witness: &Witness, place| {
        let mass = witness.mass.value;
        (witness.name.trim().to_owned(), StickWeighed { mass, place })
    };
    match happening {
        Happening::Weighed(said) => Some(weighed(said.witness.as_ref()?, Place::Beside(about))),
        Happening::RoomRead(said) => Some(weighed(
            said.witness.as_ref()?,
            Place::Room(said.room.clone()),
        )),
        _ => None,
    }
}
