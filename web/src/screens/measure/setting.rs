//! What stands while one plank is measured, and its draft: as kept, or from what is recorded.

use crate::app::App;
use crate::entering::restated;
use crate::shell::clock;
use leptos::prelude::*;
use stillwood_core::order;
use stillwood_core::plank::{Field, Reading, Readings, retyped};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Draft, DraftDefect, DraftValue, SpeciesNamed};
use stillwood_core::verdict::Spec;

/// What stays the same while one plank is measured.
#[derive(Clone)]
pub(super) struct Setting {
    /// The plank.
    pub(super) piece: Id,
    /// Its pile.
    pub(super) pile: Id,
    /// Its visit.
    pub(super) visit: Id,
    /// What it is wanted for.
    pub(super) spec: Spec,
    /// Its wood.
    pub(super) species: SpeciesNamed,
    /// Entries that hold its earlier measurements; they are replaced when it is saved again.
    pub(super) earlier: Vec<Id>,
    /// It has its mark in the record.
    pub(super) marked: bool,
}

/// What stands for a piece.
pub(super) fn setting_of(app: App, draft: &Draft, piece: Id) -> Option<Setting> {
    app.book_now(|state| {
        let pile = state.pile(draft.pile)?;
        let visit = state.visit(pile.opened.visit)?;
        let known = state.piece(piece);
        // The plank's own wood is in its draft; here stands what the pile says.
        let mut earlier: Vec<Id> = Vec::new();
        if let Some(known) = known {
            earlier.extend(known.readings.values().map(|held| held.entry));
            earlier.extend(known.defects.iter().map(|(entry, _)| *entry));
            order::sort(&mut earlier);
            earlier.dedup();
        }
        Some(Setting {
            piece,
            pile: draft.pile,
            visit: visit.id,
            spec: visit.opened.spec.clone(),
            species: pile.opened.species.clone(),
            marked: known.is_some_and(|piece| !piece.withdrawn),
            earlier,
        })
    })
}

fn kept_value(field: Field, taken: &Reading, confirmed: bool) -> DraftValue {
    DraftValue {
        text: retyped(field, taken),
        seen: taken.seen,
        confirmed,
    }
}

/// The draft of a piece: as kept, else from what is recorded, else with what the pile's planks share.
pub(super) fn draft_of(app: App, piece: Id) -> Option<Draft> {
    let kept = app.drafts.with_untracked(|drafts| {
        drafts
            .iter()
            .find(|draft| draft.piece == Some(piece))
            .cloned()
    });
    let mut draft = match kept {
        Some(kept) if !kept.is_empty() => return Some(kept),
        Some(begun) => begun,
        None => app.book_now(|state| {
            let known = state.piece(piece)?;
            let mut draft = Draft::new(known.pile, known.mark.clone(), clock::now().at);
            draft.piece = Some(piece);
            for (field, held) in &known.readings {
                draft.put(
                    *field,
                    kept_value(*field, &held.taken, held.taken.confirmed),
                );
            }
            let place = |taken: &Option<Reading>| {
                taken
                    .as_ref()
                    .map_or(String::new(), |taken| retyped(Field::BowKink, taken))
            };
            for found in known.defects_found() {
                draft.defects.push(DraftDefect {
                    from: place(&found.from),
                    kind: found.kind,
                    note: found.note.clone(),
                    to: place(&found.to),
                });
            }
            if let Some((_, species)) = &known.species {
                draft.species.clone_from(&species.text);
            }
            Some(draft)
        })?,
    };
    if draft.is_empty() {
        carry_over(app, &mut draft);
    }
    Some(draft)
}

/// Puts into a new draft what the pile's planks share.
fn carry_over(app: App, draft: &mut Draft) {
    app.book_now(|state| {
        let Some(pile) = state.pile(draft.pile) else {
            return;
        };
        let shared = [
            (Field::Moisture, &pile.opened.moisture),
            (Field::WoodTemperature, &pile.opened.wood_temperature),
        ];
        for (field, taken) in shared {
            if let Some(taken) = taken {
                draft.put(field, kept_value(field, taken, false));
            }
        }
    });
}

impl App {
    /// Writes the units out in every half-typed plank, before a bare number comes to mean another unit.
    pub(crate) fn restate_drafts(self, typed_under: Units) {
        for draft in self.drafts.get_untracked() {
            self.keep_draft(restated(&draft, typed_under));
        }
    }

    /// Drops a half-typed plank: what is in the record stays.
    pub(super) fn drop_draft(self, piece: Id) {
        self.drafts
            .update(|drafts| drafts.retain(|draft| draft.piece != Some(piece)));
        if let Some(store) = self.record.with_value(crate::record::Record::store) {
            store.remove_draft(&piece.to_string());
        }
    }

    /// Keeps a half-typed plank, in memory and in the store.
    pub(crate) fn keep_draft(self, draft: Draft) {
        let key = draft
            .piece
            .map(|piece| piece.to_string())
            .unwrap_or_default();
        let store = self.record.with_value(crate::record::Record::store);
        match (store, draft.to_json()) {
            (Some(store), Ok(json)) => store.put_draft(&key, &json),
            (None, _) => {}
            (_, Err(why)) => self.draft_trouble.set(Some(why.to_string())),
        }
        self.drafts.update(|drafts| {
            match drafts.iter_mut().find(|known| known.piece == draft.piece) {
                Some(known) => *known = draft,
                None => drafts.push(draft),
            }
        });
    }
}

/// The readings of the plank of this pile that was recorded last, to have them one tap away.
pub(super) fn plank_before(app: App, pile: Id, now: Id) -> Readings {
    app.book_now(|state| {
        state
            .pieces_of(pile)
            .filter(|piece| piece.id != now && !piece.withdrawn && !piece.readings.is_empty())
            .max_by_key(|piece| piece.recorded.entry)
            .map(stillwood_core::record::Piece::readings_in_use)
            .unwrap_or_default()
    })
}

/// The wood that a name stands for, see [`stillwood_core::record::State::wood_named`].
pub(crate) fn wood_named(app: App, name: &str) -> Option<SpeciesNamed> {
    app.state(|state| queries::wood_named(state, name))
}
