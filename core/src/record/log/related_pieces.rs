//! What an event is of, and which pieces it speaks of.

use crate::record::log::Happening;
use uuid::Uuid;

impl Happening {
    /// It happens in the workshop.
    pub(crate) fn is_of_the_workshop(&self) -> bool {
        !matches!(
            self,
            Happening::VisitOpened(_)
                | Happening::PileOpened(_)
                | Happening::PassedOver(_)
                | Happening::Marked(_)
                | Happening::Measured(_)
                | Happening::Judged(_)
                | Happening::YardLine(_)
                | Happening::YardTotal(_)
                | Happening::Noted(_)
                | Happening::Told(_)
                | Happening::WoodAdded(_)
                | Happening::Withdrawn(_)
                | Happening::Unknown { .. }
        )
    }
}

/// The pieces that an entry speaks of besides the one that it is about.
pub(crate) fn related(happening: &Happening) -> Vec<Uuid> {
    match happening {
        Happening::Cut(cut) => cut.children.iter().map(|child| child.id).collect(),
        Happening::Glued(glued) => glued.members.iter().map(|m| m.piece).collect(),
        _ => Vec::new(),
    }
}
