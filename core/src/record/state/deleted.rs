//! What the maker deleted: visits and piles, with all that was recorded in them. Planks that were deleted by
//! themselves are found where pieces begin ([`crate::record::state::origin`]).

use crate::record::log::id::Id;
use crate::record::log::standing::EventStatuses;
use crate::record::log::{Entry, Event, EventStatus};
use crate::record::state::State;

impl State {
    /// Notes which of the visits and piles that these entries open the maker deleted, and that the piles of a deleted
    /// visit are gone with it. What an undone import brought is no deletion: what was recorded in it since stays.
    pub(crate) fn note_deleted(&mut self, ordered: &[&Entry], statuses: &EventStatuses) {
        let opens =
            |entry: &&&Entry| matches!(entry.event, Event::VisitOpened(_) | Event::PileOpened(_));
        let opened = crate::order::set_of(ordered.iter().filter(opens).map(|entry| entry.about));
        for id in &opened {
            let visit = self.visits.get(id).map(|visit| visit.withdrawn);
            let withdrawn = visit.or_else(|| self.piles.get(id).map(|pile| pile.withdrawn));
            let begun = self.begun.get(id).into_iter().flatten().rev();
            let by = begun.filter_map(|entry| match statuses.of(*entry) {
                EventStatus::TakenBack { by } => Some(by),
                _ => None,
            });
            if let (Some(true), Some(by)) = (withdrawn, by.into_iter().next()) {
                self.deleted.insert(*id, by);
            }
        }
        for id in &opened {
            if let Some(pile) = self.piles.get_mut(id) {
                pile.withdrawn |= self.deleted.contains_key(&pile.opened.visit);
            }
        }
    }

    /// Whether the maker deleted a pile, or the visit that it was found on; an undone import is no deletion.
    pub(crate) fn pile_is_deleted(&self, pile: Id) -> bool {
        let visit = self.piles.get(&pile).map(|pile| pile.opened.visit);
        [Some(pile), visit]
            .into_iter()
            .flatten()
            .any(|id| self.deleted.contains_key(&id))
    }

    /// Whether an entry begins something in what was deleted, or of what was.
    pub(crate) fn says_of_deleted(&self, entry: &Entry) -> bool {
        let gone = |piece: Id| self.piece(piece).is_some_and(|piece| piece.deleted);
        match &entry.event {
            Event::PileOpened(pile) => self.deleted.contains_key(&pile.visit),
            Event::Marked(marked) => self.pile_is_deleted(marked.pile),
            Event::Cut(_) => gone(entry.about),
            Event::Glued(glued) => glued.members.iter().any(|member| gone(member.piece)),
            _ => false,
        }
    }
}
