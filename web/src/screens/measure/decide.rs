//! The decision: the plank and the judgement go into the record in one transaction with the dropping
//! of the draft, and the next plank is begun.

use super::setting::{Setting, wood_named};
use crate::app::{App, Toast};
use crate::entering::{defects_of, readings_of, unread_place};
use crate::record::Deed;
use crate::route::{Route, go, replace};
use leptos::prelude::*;
use stillwood_core::plank::Reason;
use stillwood_core::record::Id;
use stillwood_core::record::{Decision, Event, Judged, Marked, Measured, Noted};
use stillwood_core::verdict::{Recommendation, Sheet};
use wasm_bindgen_futures::spawn_local;

/// What the computation proposes; nothing where it is too close to call.
pub(crate) fn proposal(call: Recommendation) -> Option<Decision> {
    match call {
        Recommendation::Good | Recommendation::GoodSoFar => Some(Decision::Take),
        Recommendation::Refused => Some(Decision::Leave),
        Recommendation::TooClose | Recommendation::NothingYet => None,
    }
}

impl App {
    /// Writes down the plank and the decision on it, and goes on to the next.
    pub(super) fn decide(
        self,
        setting: Setting,
        sheet: &Sheet,
        decision: Decision,
        reasons: Vec<Reason>,
    ) {
        let Some(draft) = self.entering.draft.get_untracked() else {
            return;
        };
        let units = self.units.get_untracked();
        let (readings, unread) = readings_of(&draft, units);
        if let Some(field) = unread.first() {
            crate::parts::focus_on(*field);
            return self.say(format!(
                "{} can't be read yet: mend it or clear it.",
                field.label()
            ));
        }
        if unread_place(&draft, units) {
            return self.say("The place of a fault can't be read yet: mend it or clear it.");
        }
        let proposed = proposal(sheet.verdict.recommendation);
        let judged = Judged {
            decision,
            proposed,
            reasons,
            score: sheet.verdict.score,
            weakest: sheet.verdict.weakest,
        };
        let measured = Measured {
            defects: defects_of(&draft, units),
            readings,
            species: wood_named(self, &draft.species),
        };
        let piece = setting.piece;
        let mut deeds = Vec::new();
        if !setting.marked {
            let marked = Marked {
                mark: draft.mark.clone(),
                pile: setting.pile,
            };
            deeds.push(Deed::new(piece, Event::Marked(marked)));
        }
        let measured = Event::Measured(measured);
        deeds.push(Deed::instead_of(piece, measured, setting.earlier.clone()));
        if !draft.note.trim().is_empty() {
            let noted = Noted {
                text: draft.note.trim().to_owned(),
            };
            deeds.push(Deed::new(piece, Event::Noted(noted)));
        }
        deeds.push(Deed::new(piece, Event::Judged(judged)));
        let about: Vec<Id> = deeds.iter().map(|deed| deed.about).collect();
        let word = match decision {
            Decision::Take => "taken",
            Decision::Leave => "left",
            Decision::SetAside => "set aside",
        };
        let overruled = proposed.is_some_and(|proposed| proposed != decision);
        // From here on a second touch finds nothing to decide.
        self.entering.lay(None);
        let against = if overruled {
            ", against the computation"
        } else {
            ""
        };
        let text = format!("{} {word}{against}.", draft.mark);
        spawn_local(async move {
            let ids = self.write(deeds, Some(piece.to_string())).await;
            if ids.is_empty() {
                return self.entering.lay(Some(draft));
            }
            self.drafts
                .update(|drafts| drafts.retain(|draft| draft.piece != Some(piece)));
            self.ask_to_keep();
            let undo = ids.into_iter().zip(about).collect();
            let back_to = Some(Route::Measure(piece));
            self.toast.set(Some(Toast {
                text,
                undo,
                back_to,
                draft: Some(draft),
                ..Toast::default()
            }));
            if !setting.earlier.is_empty() {
                return go(Route::Visit(setting.visit));
            }
            let next = match self.next_to_measure(setting.pile) {
                Some(maybe) => Some(maybe),
                None => self.begin_plank(setting.pile).await,
            };
            match next {
                Some(next) => replace(Route::Measure(next)),
                None => go(Route::Pile(setting.pile)),
            }
        });
    }

    /// The next maybe of a pile that is not yet measured.
    fn next_to_measure(self, pile: Id) -> Option<Id> {
        self.book_now(|state| {
            state
                .pieces_of(pile)
                .filter(|piece| !piece.withdrawn)
                .filter(|piece| piece.decision().is_none() && piece.readings.is_empty())
                .min_by_key(|piece| piece.recorded.entry)
                .map(|piece| piece.id)
        })
    }
}
