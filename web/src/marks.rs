//! Marks for planks: the next one of this device, never given out twice, whether the one before is in
//! the record, half typed, or just chalked on the wood from another window.

use crate::app::App;
use crate::record::Record;
use crate::shell::{clock, locks};
use leptos::prelude::*;
use stillwood_core::record::Draft;
use stillwood_core::record::Id;

impl App {
    /// The next mark of this device. Other windows are asked: what they have written, what is half
    /// typed in them, and what they have begun and not yet typed into.
    pub(crate) async fn next_mark(self) -> String {
        self.catch_up_now().await;
        if let Err(why) = self.leave_a_shared_sign().await {
            self.say(format!("This device keeps its sign: {why}"));
        }
        let mut taken: Vec<String> = self
            .drafts
            .with_untracked(|drafts| drafts.iter().map(|d| d.mark.clone()).collect());
        taken.extend(
            self.dropped
                .with_untracked(|d| d.as_ref().map(|d| d.mark.clone())),
        );
        if let Some(store) = self.record.with_value(Record::store)
            && let Ok(kept) = store.all_drafts().await
        {
            let marks = kept
                .iter()
                .filter_map(|(_, json)| Draft::from_json(json).ok());
            taken.extend(marks.map(|draft| draft.mark));
        }
        loop {
            let mark = self.record.with_value(|record| record.next_mark(&taken));
            if mark.is_empty() || locks::hold(&format!("stillwood mark {mark}")).await {
                return mark;
            }
            taken.push(mark);
        }
    }

    /// Begins a plank of a pile: a half-typed draft with its mark. One that was begun here and left
    /// empty is taken up again, so that its mark is not lost.
    pub(crate) async fn begin_plank(self, pile: Id) -> Option<Id> {
        if let Some(piece) = self.left_empty(pile) {
            return Some(piece);
        }
        let mark = self.next_mark().await;
        // A second tap may have begun one meanwhile.
        if let Some(piece) = self.left_empty(pile) {
            return Some(piece);
        }
        let piece = self.new_id()?;
        let mut draft = Draft::new(pile, mark, clock::now().at);
        draft.piece = Some(piece);
        // Kept at once: its mark may be chalked before the first key.
        self.keep_draft(draft);
        Some(piece)
    }

    fn left_empty(self, pile: Id) -> Option<Id> {
        self.drafts
            .with_untracked(|drafts| {
                drafts
                    .iter()
                    .find(|d| d.pile == pile && d.typed.is_empty())
                    .and_then(|d| d.piece)
            })
            .filter(|id| self.book_now(|state| state.piece(*id).is_none()))
    }
}
