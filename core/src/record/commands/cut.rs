//! A cut of a plank or a piece: how it is laid out, and what really came off the saw. One event for the cut,
//! and one for each part that is discarded because it sprang.

use super::cut_plan::{self, PlannedCut};
use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent, on_its_day};
use super::form::{Form, FormReader, Texts, as_json, texts_of};
use crate::neck::{CuttingPlan, PartRow};
use crate::plank::Reason;
use crate::quantity::{Length, mm};
use crate::record::log::{Child, Cut, Discarded, Event, Id, Tension};
use crate::record::queries::{laid_out, marks_for, naming_faults, spring_allowed, warnings_of_cut};
use crate::record::state::State;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::Arc;

/// What became of each part of the plan, in its order.
pub const FATES: FormField = FormField::new("came of them", FieldKind::Gathered);
/// Marks that the maker gave in place of those proposed, by the places of the parts.
pub const MARKS: FormField = FormField::new("marks", FieldKind::Gathered);
/// How far it sprang: plus where it opens.
pub const SPRANG: FormField = FormField::new("It sprang by", FieldKind::Gap);
/// Over which length it sprang.
pub const SPRANG_OVER: FormField = FormField::new("Over a length of", FieldKind::Length);
/// The day.
pub const DAY: FormField = FormField::new("Day of the cut", FieldKind::Day);

/// What is asked.
pub const FIELDS: [FormField; 14] = [
    cut_plan::KIND,
    cut_plan::LENGTH,
    cut_plan::PIECE_WIDTH,
    cut_plan::THICKNESS,
    cut_plan::PLANING,
    cut_plan::KERF,
    cut_plan::END_TRIM,
    cut_plan::EDGE_TRIM,
    cut_plan::WANTED,
    FATES,
    MARKS,
    SPRANG,
    SPRANG_OVER,
    DAY,
];

/// What became of a part at the saw.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Fate {
    /// It is kept.
    Kept,
    /// It sprang, and is discarded.
    Sprang,
    /// It was not cut.
    NotCut,
}

/// The key under which the form is kept while it is half typed.
pub fn form_key(piece: Id) -> String {
    format!("{piece}/cut")
}

/// The stored name of the mark of a part, for what is wrong with it.
pub fn mark_key(part: usize) -> String {
    format!("{}/{part}", MARKS.key)
}

/// The sizes that the maker's spec has, every part kept.
pub fn begins(piece: Id, context: &Context<'_>, form_units: crate::quantity::read::Units) -> Texts {
    let mut texts = cut_plan::begins(piece, context, form_units);
    let length = texts.get(cut_plan::LENGTH.key).cloned();
    texts.extend(texts_of([
        (FATES, as_json(&Vec::<Fate>::new())),
        (MARKS, as_json(&BTreeMap::<usize, String>::new())),
        (SPRANG, String::new()),
        (SPRANG_OVER, length.unwrap_or_default()),
        (DAY, context.today.to_string()),
    ]));
    texts
}

/// What became of the parts of a plan, and the marks that the maker gave; a plan of other parts begins
/// afresh. Whoever puts one of the two into the form puts both: what was typed for another plan goes with it.
pub fn off_the_saw(form: &Form<'_>, plan: &CuttingPlan) -> (Vec<Fate>, BTreeMap<usize, String>) {
    let fates: Vec<Fate> = form.json(FATES.key).unwrap_or_default();
    if fates.len() == plan.parts() {
        (fates, form.json(MARKS.key).unwrap_or_default())
    } else {
        (vec![Fate::Kept; plan.parts()], BTreeMap::new())
    }
}

/// A part that was cut: its place in the plan, what became of it, its mark, and what is wrong with that.
#[derive(Debug, Clone, PartialEq)]
pub struct PartOff {
    /// Its place in the plan.
    pub part: usize,
    /// What became of it.
    pub fate: Fate,
    /// Its mark, as the maker gave it, else as proposed.
    pub mark: String,
    /// What is wrong with the mark.
    pub wrong: Option<crate::record::queries::NamingFault>,
}

/// The parts of a plan that were cut, with their marks.
pub fn parts_off(form: &Form<'_>, planned: &PlannedCut, piece: Id, state: &State) -> Vec<PartOff> {
    let (fates, given) = off_the_saw(form, &planned.plan);
    let cut = fates.iter().copied().enumerate();
    let cut: Vec<(usize, Fate)> = cut.filter(|(_, fate)| *fate != Fate::NotCut).collect();
    let parent = state.piece(piece).map(|piece| piece.mark.clone());
    let proposed = marks_for(state, &parent.unwrap_or_default(), planned.kind, cut.len());
    let marked = cut.iter().zip(proposed);
    let marks: Vec<String> = marked
        .map(|((part, _), proposed)| given.get(part).cloned().unwrap_or(proposed))
        .collect();
    let faults = naming_faults(state, &marks);
    let parts = cut.into_iter().zip(marks).zip(faults);
    parts
        .map(|(((part, fate), mark), wrong)| PartOff {
            part,
            fate,
            mark,
            wrong,
        })
        .collect()
}

/// The plan with those parts alone that were cut.
fn plan_as_cut(plan: &CuttingPlan, fates: &[Fate]) -> CuttingPlan {
    let mut fates = fates.iter();
    let mut cut = CuttingPlan::default();
    for row in &plan.rows {
        let parts = row.parts.iter();
        let parts = parts.filter(|_| fates.next() != Some(&Fate::NotCut));
        cut.rows.push(PartRow {
            along: row.along,
            parts: parts.copied().collect(),
        });
    }
    cut
}

/// The limit that the spring is beyond: wood with that stress goes on moving. `None` while it is within, or
/// while nothing is typed.
pub fn spring_beyond(form: &Form<'_>, state: &State) -> Option<Length> {
    let mut read = form.reader();
    let gap = mm(read.reading(SPRANG)?.value);
    let allowed = spring_allowed(state, mm(read.reading(SPRANG_OVER)?.value))?;
    (gap.abs() > allowed).then_some(allowed)
}

/// What a filled form becomes.
pub fn command(
    form: &Form<'_>,
    piece: Id,
    context: &Context<'_>,
    new_id: &mut impl FnMut() -> Id,
) -> Result<Filled, FieldErrors> {
    let state = context.state;
    let mut read = form.reader();
    let on = read.needed_day(DAY);
    let tension = tension(&mut read);
    let kerf = read.reading(cut_plan::KERF);
    let kerf = kerf.filter(|kerf| kerf.value > 0.0);
    let planned = match cut_plan::planned(form, piece, context) {
        Ok(planned) => Some(planned),
        Err(errors) => {
            read.wrong_too(errors);
            None
        }
    };
    let parts = planned.as_ref();
    let parts = parts.map(|planned| parts_off(form, planned, piece, state));
    let parts = parts.unwrap_or_default();
    if planned.is_some() && parts.is_empty() {
        read.wrong(FATES, FieldError::NothingCut);
    }
    for part in &parts {
        if let Some(why) = &part.wrong {
            read.wrong_at(&mark_key(part.part), FieldError::Mark(why.clone()));
        }
    }
    let (planned, on) = read.finish(|| Some((planned?, on?)))?;
    let named: Vec<(Id, String)> = parts
        .iter()
        .map(|part| (new_id(), part.mark.trim().to_owned()))
        .collect();
    let (fates, _) = off_the_saw(form, &planned.plan);
    let cut = plan_as_cut(&planned.plan, &fates);
    let children = laid_out(&cut, planned.kind, &named);
    let known = state.piece(piece);
    let fits = known.is_some_and(|known| warnings_of_cut(state, known, &children).is_empty());
    if !fits {
        let key = cut_plan::LENGTH.key;
        return Err(FieldErrors::at(key, FieldError::PlacesCantBe));
    }
    let confirmed = form.is_confirmed(DAY.key);
    let dated = |event: NewEvent| event.on(on).on_confirmed(confirmed);
    let sprang = |(child, part): (&Child, &PartOff)| {
        let reasons = vec![Reason::Sprang];
        let gone = Event::Discarded(Discarded { reasons });
        (part.fate == Fate::Sprang).then(|| dated(NewEvent::new(child.id, gone)))
    };
    let gone: Vec<NewEvent> = children.iter().zip(&parts).filter_map(sprang).collect();
    let cut = Cut {
        children,
        kerf,
        tension,
    };
    let cut = dated(NewEvent::new(piece, Event::Cut(Arc::new(cut))));
    let mut filled = on_its_day(form, context, cut, &[SPRANG, DAY]);
    filled.events.extend(gone);
    Ok(filled)
}

/// How far it sprang, where that was typed.
fn tension(read: &mut FormReader<'_>) -> Option<Tension> {
    let gap = read.reading(SPRANG);
    let over = match read.form().text(SPRANG.key).is_empty() {
        true => None,
        false => read.reading(SPRANG_OVER),
    };
    gap.map(|gap| Tension { gap, over })
}
