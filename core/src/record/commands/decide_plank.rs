//! The decision on a plank: its mark, what was measured, the note and the judgement become events in one go.

use super::draft::Draft;
use super::draft::field_key;
use super::draft_readings::{DraftReadings, defect_from_key, draft_readings, understood};
use super::field_error::{FieldError, FieldErrors};
use super::filled::{Context, FieldQuestion, Filled, NewEvent};
use super::form::NAME_LETTERS;
use super::open_plank::recorded;
use crate::plank::{
    DefectFound, Field, FieldWarning, Readings, Reason, RingsBy, WeighedBy, defect_warnings,
    warnings_for_wood,
};
use crate::quantity::read::Units;
use crate::record::log::{Decision, Event, Id, Judged, Marked, Measured, Noted, SpeciesNamed};
use crate::record::queries::{looks_like, own_readings, proposal, sheet_of, wood_named, wood_of};
use crate::record::state::State;
use crate::verdict::{Evaluation, Sheet, Spec, looked_at, sheet};
use std::mem;

/// The stored name of the plank's own wood, for what is wrong with it.
pub const WOOD: &str = "species";
/// The name under which the decision itself is asked about.
pub const DECISION: &str = "decision";

/// A plank while it is decided on.
#[derive(Debug, Clone, Copy)]
pub struct Deciding<'a> {
    /// The piece.
    pub piece: Id,
    /// What is typed.
    pub draft: &'a Draft,
    /// How it is weighed.
    pub weighed_by: WeighedBy,
    /// How its rings are read.
    pub rings_by: RingsBy,
    /// What a bare number stands for.
    pub units: Units,
    /// What the maker decides.
    pub decision: Decision,
    /// Why, the main reason first.
    pub reasons: &'a [Reason],
    /// The maker was asked about what is open, and says yes.
    pub confirmed: bool,
}

/// What stands while a plank is measured: what it is wanted for, and its wood.
#[derive(Debug, Clone, PartialEq)]
pub struct PlankSetting {
    /// Its visit.
    pub visit: Id,
    /// What it is wanted for.
    pub spec: Spec,
    /// Its wood.
    pub species: SpeciesNamed,
}

/// What stands while a draft is measured; `None` where its pile is not known.
pub fn plank_setting(state: &State, draft: &Draft) -> Option<PlankSetting> {
    let pile = state.pile(draft.pile)?;
    let visit = state.visit(pile.opened.visit)?;
    let own = own_wood(state, draft);
    Some(PlankSetting {
        visit: visit.id,
        spec: visit.opened.spec.clone(),
        species: own.unwrap_or_else(|| pile.opened.species.clone()),
    })
}

/// The plank's own wood: the one in the record while its name stands there as it was, whatever it is called by now.
pub fn own_wood(state: &State, draft: &Draft) -> Option<SpeciesNamed> {
    let known = draft.piece.and_then(|id| state.piece(id)?.species.as_ref());
    let as_it_was = known.filter(|(_, known)| known.text == draft.species.trim());
    let as_it_was = as_it_was.map(|(_, known)| known.clone());
    as_it_was.or_else(|| wood_named(state, &draft.species))
}

/// The sheet of what a draft of a pile says, with the evaluation as it may be shown: no score and no recommendation before one
/// criterion of the spec was looked at on the plank itself.
pub fn draft_sheet(read: &DraftReadings, pile: Id, spec: &Spec, context: &Context<'_>) -> Sheet {
    let own = own_readings(context.state, pile, &read.readings);
    let mut sheet = sheet(&read.readings, &read.defects, context.instruments, spec);
    let moisture_is_own = own.contains_key(&Field::Moisture);
    let looked = looked_at(&sheet.verdict, spec, moisture_is_own);
    sheet.verdict = looked.shown(sheet.verdict);
    sheet
}

/// What a decision becomes.
pub fn command(deciding: &Deciding<'_>, context: &Context<'_>) -> Result<Filled, FieldErrors> {
    let Deciding { draft, units, .. } = *deciding;
    let state = context.state;
    let mut read = draft_readings(draft, deciding.weighed_by, deciding.rings_by, units);
    let mut errors = mem::take(&mut read.errors);
    if let Some(error) = FieldError::if_longer(draft.species.trim(), NAME_LETTERS) {
        errors.push(WOOD, error);
    }
    let setting = plank_setting(state, draft);
    if setting.is_none() {
        errors.push(DECISION, FieldError::PileNotHere);
    }
    let Some(setting) = setting.filter(|_| errors.is_empty()) else {
        return Err(errors);
    };
    let verdict = draft_sheet(&read, draft.pile, &setting.spec, context).verdict;
    let questions = match deciding.decision {
        Decision::Take if !deciding.confirmed => {
            let species = &setting.species;
            let found = (&read.readings, &read.defects[..]);
            questions(deciding.piece, draft, units, species, found, context)
        }
        _ => Vec::new(),
    };
    let judged = judged(deciding.decision, deciding.reasons, &verdict);
    let measured = Measured {
        defects: read.defects,
        readings: read.readings,
        species: own_wood(state, draft),
    };
    let piece = deciding.piece;
    let known = state.piece(piece);
    let mut events = Vec::new();
    if known.is_none_or(|known| known.withdrawn) {
        let (mark, pile) = (draft.mark.clone(), draft.pile);
        events.push(NewEvent::new(piece, Event::Marked(Marked { mark, pile })));
    }
    let all_earlier = || {
        known
            .map(|known| known.measured.clone())
            .unwrap_or_default()
    };
    let earlier = draft.begun_from.clone().unwrap_or_else(all_earlier);
    events.push(NewEvent::instead_of(
        piece,
        Event::Measured(measured),
        earlier,
    ));
    let note = draft.note.trim().to_owned();
    if !note.is_empty() {
        events.push(NewEvent::new(piece, Event::Noted(Noted { text: note })));
    }
    events.push(NewEvent::new(piece, Event::Judged(judged)));
    Ok(Filled { events, questions })
}

/// A plank that is recorded is decided on again, beside the earlier decisions. Before it is bought the same is asked
/// as of one that is being measured, unless the maker was asked and says yes (`confirmed`).
pub fn again(
    piece: Id,
    decision: Decision,
    reasons: &[Reason],
    confirmed: bool,
    units: Units,
    context: &Context<'_>,
) -> Result<Filled, FieldErrors> {
    let state = context.state;
    let known = state.piece(piece);
    let sheet = known.and_then(|known| sheet_of(state, known, context.instruments));
    let (Some(known), Some(sheet)) = (known, sheet) else {
        return Err(FieldErrors::at(DECISION, FieldError::NotHere));
    };
    let draft = recorded(known, "");
    let questions = match plank_setting(state, &draft) {
        Some(setting) if decision == Decision::Take && !confirmed => {
            let (readings, defects) = (known.readings_in_use(), known.defects_found());
            let (species, found) = (&setting.species, (&readings, &defects[..]));
            questions(piece, &draft, units, species, found, context)
        }
        _ => Vec::new(),
    };
    let event = Event::Judged(judged(decision, reasons, &sheet.verdict));
    let events = vec![NewEvent::new(piece, event)];
    Ok(Filled { events, questions })
}

fn judged(decision: Decision, reasons: &[Reason], verdict: &Evaluation) -> Judged {
    Judged {
        decision,
        proposed: proposal(verdict.recommendation),
        reasons: reasons.to_vec(),
        score: verdict.score,
        weakest: verdict.weakest,
    }
}

/// The questions that the readings of a plank raise together, for its wood.
pub fn plank_warnings(
    readings: &Readings,
    species: &SpeciesNamed,
    units: Units,
    context: &Context<'_>,
) -> Vec<FieldWarning> {
    let wood = wood_of(context.state, species);
    let usual = wood.and_then(|wood| wood.usual_density_at_12());
    let (lightest, heaviest) = usual.map(|usual| (usual.low, usual.high)).unzip();
    warnings_for_wood(readings, lightest, heaviest, units)
}

/// What is asked before a plank is bought: whatever is odd and not answered, whether it stands in the pile already, and
/// whether it is bought unmeasured.
fn questions(
    plank: Id,
    draft: &Draft,
    units: Units,
    species: &SpeciesNamed,
    (readings, defects): (&Readings, &[DefectFound]),
    context: &Context<'_>,
) -> Vec<FieldQuestion> {
    let mut asked: Vec<FieldQuestion> = Vec::new();
    let mut ask = |key: &str, question: String| {
        let key = key.to_owned();
        asked.push(FieldQuestion { key, question });
    };
    for field in readings.keys() {
        let value = draft.value(*field);
        let echo = value.map(|value| understood(*field, value, units));
        if let Some(warning) = echo.as_ref().and_then(|echo| echo.warning()) {
            ask(field_key(*field), warning.question.clone());
        }
    }
    for one in plank_warnings(readings, species, units, context) {
        ask(field_key(one.field), one.warning.question);
    }
    for (at, warning) in defect_warnings(readings, defects, units) {
        ask(&defect_from_key(at), warning.question);
    }
    let (state, pile) = (context.state, draft.pile);
    if let Some(other) = looks_like(state, plank, pile, readings, context.instruments) {
        let mark = &other.mark;
        ask(
            field_key(Field::Length),
            format!("It looks like {mark}: same sizes and weight. Is it the same plank?"),
        );
    }
    let own = own_readings(context.state, draft.pile, readings);
    if own.is_empty() && defects.is_empty() {
        ask(
            DECISION,
            "Nothing of it was measured. Buy it all the same?".into(),
        );
    }
    asked
}
