//! Whether an event ends or begins pieces, and which things it speaks of.

use crate::record::log::id::Id;
use crate::record::log::{Entry, Event};

impl Event {
    /// Whether it is read in its place, a correction in that of what it corrects
    /// ([`crate::record::log::order_of_entries`]): all but what is told in the yard or of any entry.
    pub(crate) fn has_a_place(&self) -> bool {
        !matches!(
            self,
            Event::VisitOpened(_)
                | Event::PileOpened(_)
                | Event::PassedOver(_)
                | Event::Marked(_)
                | Event::Measured(_)
                | Event::Judged(_)
                | Event::YardLine(_)
                | Event::YardTotal(_)
                | Event::Noted(_)
                | Event::SamePlank(_)
                | Event::WoodAdded(_)
                | Event::Withdrawn(_)
                | Event::Unknown { .. }
        )
    }
}

/// The pieces that an entry speaks of besides the one that it is about.
pub(crate) fn related(event: &Event) -> Vec<Id> {
    match event {
        Event::Cut(cut) => cut.children.iter().map(|child| child.id).collect(),
        Event::Glued(glued) => glued.members.iter().map(|m| m.piece).collect(),
        _ => Vec::new(),
    }
}

/// What an event is recorded in or told of: the visit of a pile, the pile of a plank, the other of two planks.
pub(crate) fn begun_in(event: &Event) -> Option<Id> {
    match event {
        Event::PileOpened(opened) => Some(opened.visit),
        Event::Marked(marked) => Some(marked.pile),
        Event::SamePlank(told) => Some(told.other),
        _ => None,
    }
}

/// What begins with an entry: a pile, a plank, what was cut, a blank.
pub(crate) fn begun_by(entry: &Entry) -> Vec<Id> {
    match &entry.event {
        Event::PileOpened(_) | Event::Marked(_) | Event::Glued(_) => vec![entry.about],
        Event::Cut(_) => related(&entry.event),
        _ => Vec::new(),
    }
}
