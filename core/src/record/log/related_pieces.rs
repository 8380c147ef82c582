//! What an event is of, and which pieces it speaks of.

use crate::record::log::Event;
use crate::record::log::id::Id;

impl Event {
    pub(crate) fn is_of_the_workshop(&self) -> bool {
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
