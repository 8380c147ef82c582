//! What the maker deleted: visits and piles, and all that was recorded in them.

use crate::record::log::id::Id;
use crate::record::log::standing::EventStatuses;
use crate::record::log::{Entry, Event, EventStatus};
use crate::record::state::State;
use std::collections::BTreeMap;

impl State {
    /// Notes the visits and piles that the maker deleted, and that the piles of a deleted visit are gone with it.
    /// What an undone import brought is no deletion: what was recorded in it since stays.
    pub(crate) fn note_deleted(&mut self, standings: &EventStatuses) {
        let withdrawn = |state: &State, id: &Id| {
            let visit = state.visits.get(id).map(|visit| visit.withdrawn);
            visit.or_else(|| state.piles.get(id).map(|pile| pile.withdrawn)) == Some(true)
        };
        let mut deleted = BTreeMap::new();
        for (id, begun) in &self.begun {
            let by = begun
                .iter()
                .rev()
                .find_map(|entry| match standings.of(*entry) {
                    EventStatus::TakenBack { by } => Some(by),
                    _ => None,
                });
            if let Some(by) = by.filter(|_| withdrawn(self, id)) {
                deleted.insert(*id, by);
            }
        }
        for pile in self.piles.values_mut() {
            pile.withdrawn |= deleted.contains_key(&pile.opened.visit);
        }
        self.deleted = deleted;
    }

    /// Whether an entry begins something in what was deleted, or of what was.
    pub(crate) fn says_of_deleted(&self, entry: &Entry) -> bool {
        if self.deleted.is_empty() {
            return false;
        }
        let gone = |piece: Id| self.piece(piece).is_some_and(|piece| piece.withdrawn);
        match &entry.event {
            Event::PileOpened(pile) => self.deleted.contains_key(&pile.visit),
            Event::Marked(marked) => {
                let pile = self.piles.get(&marked.pile);
                pile.is_some_and(|pile| pile.withdrawn)
            }
            Event::Cut(_) => gone(entry.about),
            Event::Glued(glued) => glued.members.iter().any(|member| gone(member.piece)),
            _ => false,
        }
    }
}
