//! The spec of a visit: sizes, counts, and the maker's own targets and limits. All of it may be changed.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent};
use super::form::{Form, FormReader, Texts, as_json, begun_from, texts_of};
use super::spec_criteria::{self, begins_of, number, requirement};
use crate::plank::DefectKind;
use crate::record::log::{Event, Id};
use crate::verdict::{Criterion, FirstCut, Orientation, Spec};

const fn size(key: &'static str) -> FormField {
    FormField::new(key, FieldKind::Plain)
}

/// The maker's name for it.
pub const NAME: FormField = FormField::new("Name", FieldKind::Words);
/// The part's length, mm.
pub const LENGTH: FormField = size("Length, mm");
/// The part's width, mm.
pub const WIDTH: FormField = size("Width, mm");
/// The part's thickness, mm.
pub const THICKNESS: FormField = size("Thickness, mm");
/// How it lies in the plank.
pub const LAID: FormField = FormField::new("laid", FieldKind::Named(&["flat", "on_edge"]));
/// Whether a piece is sawn and flattened first.
pub const PIECE_FIRST: FormField = FormField::new("a piece first", FieldKind::Switch);
/// The planed width of that piece, mm.
pub const PIECE_WIDTH: FormField = size("Width of a piece, planed, mm");
/// How many parts make a blank.
pub const PER_BLANK: FormField = FormField::new("Parts in a blank", FieldKind::Count);
/// How many blanks are wanted.
pub const WANTED: FormField = FormField::new("Blanks wanted", FieldKind::Count);
/// The share of parts that is expected to come through.
pub const YIELD: FormField = FormField::new("Come through, %", FieldKind::Percent);
/// The saw cut, mm.
pub const KERF: FormField = size("Saw cut, mm");
/// What planing takes off a face, mm.
pub const PLANING: FormField = size("Planed off a face, mm");
/// What is cut off an end, mm.
pub const END_TRIM: FormField = size("Cut off an end, mm");
/// What is lost along both edges, mm.
pub const EDGE_TRIM: FormField = size("Lost at the edges, mm");
/// How planks that pass are ordered.
pub const ORDER: FormField = FormField::new("order", FieldKind::Named(&["score", "cost_per_part"]));
/// Defects that refuse a plank outright.
pub const FATAL: FormField = FormField::new("fatal", FieldKind::Gathered);
/// Whether the limits of the clean thickness follow from the size of the part.
pub const FOLLOWS: FormField = FormField::new("limits follow the size", FieldKind::Switch);

/// So many of anything are more than a maker counts.
const TOO_MANY: u32 = 1_000_000;

/// What is asked besides the criteria, each of which has its own fields: [`spec_criteria::fields_of`].
pub const FIELDS: [FormField; 17] = [
    NAME,
    LENGTH,
    WIDTH,
    THICKNESS,
    PER_BLANK,
    LAID,
    PIECE_FIRST,
    PIECE_WIDTH,
    WANTED,
    YIELD,
    KERF,
    PLANING,
    END_TRIM,
    EDGE_TRIM,
    FOLLOWS,
    FATAL,
    ORDER,
];

/// The key under which the form is kept while it is half typed.
pub fn form_key(visit: Id) -> String {
    format!("spec/{visit}")
}

/// A spec as it stands in the form.
pub fn texts(spec: &Spec) -> Texts {
    let mut texts = texts_of([
        (NAME, spec.name.clone()),
        (LENGTH, number(spec.part.length_mm)),
        (WIDTH, number(spec.part.width_mm)),
        (THICKNESS, number(spec.part.thickness_mm)),
        (LAID, as_json(&spec.orientation)),
        (PIECE_FIRST, as_json(&(spec.first_cut != FirstCut::Part))),
        (PIECE_WIDTH, number(spec.piece_width_mm())),
        (PER_BLANK, spec.parts_per_blank.to_string()),
        (WANTED, spec.blanks_wanted.to_string()),
        (YIELD, number(spec.expected_yield * 100.0)),
        (KERF, number(spec.kerf_mm)),
        (PLANING, number(spec.planing_mm)),
        (END_TRIM, number(spec.end_trim_mm)),
        (EDGE_TRIM, number(spec.edge_trim_mm)),
        (ORDER, as_json(&spec.order)),
        (FATAL, as_json(&spec.fatal)),
        (FOLLOWS, as_json(&spec_criteria::follows(spec))),
    ]);
    for criterion in Criterion::ALL {
        texts.extend(begins_of(*criterion, spec));
    }
    texts
}

/// The spec in force of a visit.
pub fn begins(visit: Id, context: &Context<'_>) -> Texts {
    let visit = context.state.visit(visit);
    visit.map_or_else(Texts::new, |visit| {
        begun_from(texts(&visit.opened.spec), Some(visit.recorded.entry))
    })
}

/// The thickness of clean wood that the part needs by what is typed, mm.
pub fn slab_needed(form: &Form<'_>) -> Option<f64> {
    let laid = form.json(LAID.key).unwrap_or(Orientation::Flat);
    let field = match laid {
        Orientation::Flat => THICKNESS,
        Orientation::OnEdge => WIDTH,
    };
    Some(form.reader().reading(field)?.value)
}

/// Whether the limits of the clean thickness follow from the size: as it is chosen; in a form that does not say
/// it, where they are those that follow.
pub fn follows_size(form: &Form<'_>) -> bool {
    form.json(FOLLOWS.key).unwrap_or_else(|| {
        let needed = slab_needed(form);
        needed.is_some_and(|needed| spec_criteria::are_of_slab(form, needed))
    })
}

/// What a filled form becomes.
pub fn command(form: &Form<'_>, visit: Id, context: &Context<'_>) -> Result<Filled, FieldErrors> {
    let mut read = form.reader();
    let Some(known) = context.state.visit(visit) else {
        return Err(FieldErrors::at(NAME.key, FieldError::NotHere));
    };
    let before = &known.opened.spec;
    let name = read.words(NAME);
    let sizes = [LENGTH, WIDTH, THICKNESS].map(|field| more_than_nothing(&mut read, field));
    let per_blank = read.needed_count(PER_BLANK, TOO_MANY);
    let piece_first = read.is_ticked(PIECE_FIRST);
    let piece_width = piece_first.then(|| more_than_nothing(&mut read, PIECE_WIDTH));
    let wanted = read.count(WANTED, TOO_MANY);
    if wanted.is_none() && !read.is_wrong(WANTED) {
        read.wrong(WANTED, FieldError::Missing);
    }
    let expected_yield = share(&mut read);
    let lost = [KERF, PLANING, END_TRIM, EDGE_TRIM]
        .map(|field| read.needed_reading(field).map(|reading| reading.value));
    let follows = follows_size(form).then(|| slab_needed(form)).flatten();
    let mut criteria = Vec::new();
    for criterion in Criterion::ALL {
        criteria.extend(requirement(&mut read, *criterion, before, follows));
    }
    let fatal: Vec<DefectKind> = form.json(FATAL.key).unwrap_or_else(|| before.fatal.clone());
    let spec = read.finish(|| {
        let mut spec = before.clone();
        spec.name = name;
        spec.part.length_mm = sizes[0]?;
        spec.part.width_mm = sizes[1]?;
        spec.part.thickness_mm = sizes[2]?;
        spec.orientation = form.json(LAID.key).unwrap_or(before.orientation);
        spec.first_cut = match piece_width {
            Some(width) => FirstCut::Piece { width_mm: width? },
            None => FirstCut::Part,
        };
        spec.order = form.json(ORDER.key).unwrap_or(before.order);
        spec.parts_per_blank = per_blank?;
        spec.blanks_wanted = wanted?;
        spec.expected_yield = expected_yield? / 100.0;
        spec.kerf_mm = lost[0]?;
        spec.planing_mm = lost[1]?;
        spec.end_trim_mm = lost[2]?;
        spec.edge_trim_mm = lost[3]?;
        spec.criteria = criteria;
        spec.fatal = fatal;
        Some(spec)
    })?;
    let mut opened = known.opened.clone();
    opened.spec = spec;
    let event = Event::VisitOpened(Box::new(opened));
    let event = NewEvent::instead_of(visit, event, form.replaces(&begins(visit, context)));
    Ok(Filled::of(vec![event.on(known.recorded.on)]))
}

fn more_than_nothing(read: &mut FormReader<'_>, field: FormField) -> Option<f64> {
    let value = read.needed_reading(field)?.value;
    if value <= 0.0 {
        read.wrong(field, FieldError::Zero);
    }
    Some(value)
}

fn share(read: &mut FormReader<'_>) -> Option<f64> {
    let value = more_than_nothing(read, YIELD)?;
    if value > 100.0 {
        let percent = rust_decimal::Decimal::try_from(value).unwrap_or_default();
        read.wrong(YIELD, FieldError::OverAHundred(percent));
    }
    Some(value)
}
