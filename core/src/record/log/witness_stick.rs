//! A weighing of a witness stick, out of the entry that tells it.

use crate::record::log::Event;
use crate::record::log::Witness;
use crate::record::log::id::Id;

#[derive(Debug, Clone, PartialEq)]
pub(crate) struct StickWeighed {
    /// What it weighed, kg.
    pub(crate) mass: f64,
    pub(crate) place: Place,
}

/// Where a stick was weighed.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Place {
    Room(String),
    Beside(Id),
}

/// The stick that an entry tells the weight of, by its name; sticks without one are told apart by their rooms when
/// they are asked about.
pub(crate) fn stick_of(event: &Event, about: Id) -> Option<(String, StickWeighed)> {
    let weighed = |witness: &Witness, place| {
        let mass = witness.mass.value;
        (witness.name.trim().to_owned(), StickWeighed { mass, place })
    };
    match event {
        Event::Weighed(said) => Some(weighed(said.witness.as_ref()?, Place::Beside(about))),
        Event::RoomRead(said) => Some(weighed(
            said.witness.as_ref()?,
            Place::Room(said.room.clone()),
        )),
        _ => None,
    }
}
