//! The target: how many blanks by when, how sure, of which wood.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Filled, NewEvent};
use super::form::{Form, Texts, as_json, texts_of};
use crate::record::log::{Event, Id, SpeciesNamed, TargetSet};
use crate::record::state::State;

/// Good blanks wanted.
pub const BLANKS: FormField = FormField::new("Good blanks wanted", FieldKind::Count);
/// How many laminates make one.
pub const PER_BLANK: FormField = FormField::new("Laminates in a blank", FieldKind::Count);
/// The day by which they have to be ready.
pub const BY: FormField = FormField::new("Ready by", FieldKind::Day);
/// How sure it has to be, in percent, one of [`SURE`].
pub const HOW_SURE: FormField = FormField::new("how sure", FieldKind::Offered);
/// Of which wood; `null` for any.
pub const WOOD: FormField = FormField::new("wood", FieldKind::Offered);

/// How sure, as it can be chosen, in percent.
pub const SURE: [u32; 4] = [50, 80, 90, 95];
/// So many are more than a shop makes.
const TOO_MANY: u32 = 100_000;

/// What is asked.
pub const FIELDS: [FormField; 5] = [BLANKS, PER_BLANK, BY, HOW_SURE, WOOD];

/// The key under which the form is kept while it is half typed: that of a visit's tally, or of the plan.
pub fn form_key(visit: Option<Id>) -> String {
    visit.map_or_else(|| "wish".to_owned(), |id| format!("wish/{id}"))
}

/// A target, to be changed: for the plan [`crate::record::target_now`], for a visit that of its tally.
pub fn begins(target: &TargetSet) -> Texts {
    let by = target.by.map(|day| day.to_string());
    texts_of([
        (BLANKS, target.blanks.to_string()),
        (PER_BLANK, target.laminates_per_blank.to_string()),
        (BY, by.unwrap_or_default()),
        (HOW_SURE, as_json(&target.sure_percent)),
        (WOOD, as_json(&target.wood)),
    ])
}

/// The woods that may be chosen: those of the piles, and the one that stands in the form, as it stands there.
pub fn woods(form: &Form<'_>, state: &State) -> Vec<SpeciesNamed> {
    let chosen: Option<SpeciesNamed> = form.json(WOOD.key).flatten();
    let mut woods: Vec<SpeciesNamed> = Vec::new();
    for wood in state
        .piles()
        .map(|pile| &pile.opened.species)
        .chain(&chosen)
    {
        if !woods.iter().any(|known| known.is_same_wood(wood)) {
            let as_chosen = chosen.as_ref().filter(|chosen| chosen.is_same_wood(wood));
            woods.push(as_chosen.unwrap_or(wood).clone());
        }
    }
    woods
}

/// The target as it is typed, before it is saved: what it takes is shown at every key.
pub fn typed(form: &Form<'_>) -> Result<TargetSet, FieldErrors> {
    let mut read = form.reader();
    let blanks = read.count(BLANKS, TOO_MANY);
    if blanks.is_none() && !read.is_wrong(BLANKS) {
        read.wrong(BLANKS, FieldError::Missing);
    }
    let per_blank = read.needed_count(PER_BLANK, TOO_MANY);
    let by = read.day(BY);
    let sure = form.json(HOW_SURE.key).unwrap_or(90);
    read.finish(|| {
        Some(TargetSet {
            blanks: blanks?,
            by,
            laminates_per_blank: per_blank?,
            sure_percent: sure,
            wood: form.json(WOOD.key).flatten(),
        })
    })
}

/// What a filled form becomes.
pub fn command(form: &Form<'_>, new_id: &mut impl FnMut() -> Id) -> Result<Filled, FieldErrors> {
    let target = typed(form)?;
    let event = NewEvent::new(new_id(), Event::TargetSet(Box::new(target)));
    Ok(Filled::of(vec![event]))
}
