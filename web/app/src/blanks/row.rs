//! A blank as lists and cards show it: what it is, how its rest stands, for whom it is reserved. Core has worked it
//! out; here it is put into words.

use crate::drawings::UNDYED;
use crate::drawings::section::{Layer, SectionDrawn};
use crate::model::Model;
use crate::page::Ui;
use crate::parts::Judged;
use crate::words::{Spoken, dates, fill, show, wood_names};
use chrono::NaiveDate;
use stillwood_core::order;
use stillwood_core::quantity::{in_kg, in_mm, kg, mm};
use stillwood_core::record::{Id, Life, Piece, PieceKind, Reserved, RestLine, queries};
use stillwood_core::season::{DateKey, FEELER_MM, MeasureKey, Readiness, is_look_old};
use stillwood_core::wood::Species;

/// A blank in a list.
#[derive(Debug, Clone)]
pub struct Row {
    /// The blank.
    pub id: Id,
    /// Its mark.
    pub mark: String,
    /// Its woods, in words.
    pub woods: String,
    /// Its length, then the wider of the two across, mm.
    pub sizes: [Option<f64>; 3],
    /// Its weight, kg.
    pub kilograms: Option<f64>,
    /// The weight was read on the blank itself.
    pub weighed: bool,
    /// Where it is in its life, and since when.
    pub life: (Life, NaiveDate),
    /// How its rest stands, where it rests.
    pub rest: Option<Readiness>,
    /// The day of its last look, where that is too long ago to tell how it stands.
    pub old_look: Option<NaiveDate>,
    /// It is reserved today.
    pub reserved: bool,
    /// For whom it is reserved, or was.
    pub reserved_for: Option<Reserved>,
    /// Its section, where that is known.
    pub section: Option<SectionDrawn>,
    /// When it was glued.
    pub glued: NaiveDate,
}

/// Where a blank stands in the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Group {
    /// Ready, and free.
    Ready,
    /// Its rest is over and it was still, but nobody has looked for long.
    LookAgain,
    /// Reserved for somebody.
    Reserved,
    /// At rest, or not known to be ready.
    AtRest,
    /// Used, discarded, missing.
    Gone,
}

impl Group {
    /// All of them, in the order of the list.
    pub const ALL: [Group; 5] = [
        Group::Ready,
        Group::LookAgain,
        Group::Reserved,
        Group::AtRest,
        Group::Gone,
    ];
}

impl Row {
    /// It can be reserved, or used.
    pub fn is_there(&self) -> bool {
        is_there_so(self.life.0)
    }

    /// Its woods one by one.
    pub fn each_wood(&self) -> impl Iterator<Item = &str> {
        self.woods.split(", ").filter(|one| !one.is_empty())
    }

    /// Where it stands in the list.
    pub fn group(&self) -> Group {
        match &self.rest {
            _ if !self.is_there() => Group::Gone,
            _ if self.reserved => Group::Reserved,
            Some(ready) if ready.is_ready() && self.old_look.is_some() => Group::LookAgain,
            Some(ready) if ready.is_ready() => Group::Ready,
            _ => Group::AtRest,
        }
    }
}

fn is_there_so(life: Life) -> bool {
    matches!(life, Life::InShop | Life::Resting(_) | Life::Reserved)
}

/// Whether a blank can be reserved, or used.
pub fn is_there(model: &Model, id: Id) -> bool {
    let piece = model.state().piece(id).filter(|piece| is_blank(piece));
    piece.is_some_and(|piece| piece.is_at_hand() && is_there_so(piece.life_on(model.now.date()).0))
}

/// It is a blank, and not deleted.
pub fn is_blank(piece: &Piece) -> bool {
    piece.work.kind == PieceKind::Blank && !piece.withdrawn && piece.work.unresolved.is_none()
}

/// How a piece rests; none where it does not.
pub fn rest_line(model: &Model, piece: &Piece) -> Option<RestLine> {
    let scale = kg(model.settings.instruments.scale_kg);
    queries::rest_line(model.state(), piece, model.now.date(), mm(FEELER_MM), scale)
}

/// The wood of a piece, where the table has it.
pub fn wood_of_piece(model: &Model, piece: &Piece) -> Option<Species> {
    let named = queries::species_of(model.state(), piece)?;
    queries::wood_of(model.state(), named)
}

/// The colour in which the wood of a piece is drawn.
pub fn colour_of(model: &Model, id: Id) -> String {
    let piece = model.state().piece(id);
    let wood = piece.and_then(|piece| wood_of_piece(model, piece));
    wood.map_or_else(|| UNDYED.to_owned(), |wood| wood.colour().to_owned())
}

/// The section of a blank as it is drawn; none where a size of a laminate is not known.
pub fn section_drawn(model: &Model, piece: &Piece) -> Option<SectionDrawn> {
    let section = queries::section_of(model.state(), piece)?;
    let layer = |one: &stillwood_core::record::InSection| Layer {
        thickness: in_mm(one.thickness),
        colour: colour_of(model, one.piece),
    };
    Some(SectionDrawn {
        layers: section.laminates.iter().map(layer).collect(),
        depth: in_mm(section.depth),
    })
}

/// Woods one beside the other; of one wood alone, how many.
pub fn in_a_row(woods: &[String], between: &str) -> String {
    match woods {
        [first, _, ..] if woods.iter().all(|one| one == first) => {
            format!("{} × {first}", woods.len())
        }
        _ => woods.join(between),
    }
}

/// A section in words: its woods from one side to the other.
pub fn section_said(ui: &Ui<'_>, id: Id) -> String {
    let state = ui.model.state();
    let section = state
        .piece(id)
        .and_then(|piece| queries::section_of(state, piece));
    match section {
        Some(section) => {
            let woods: Vec<String> = section
                .laminates
                .iter()
                .map(|one| wood_names::shown(&one.wood))
                .collect();
            let woods = in_a_row(&woods, ", ");
            fill(ui.w.blanks.section_said, &[("woods", &woods)])
        }
        None => ui.w.blanks.section_unknown.to_owned(),
    }
}

/// What is in the list, of a blank.
pub fn row(model: &Model, piece: &Piece) -> Row {
    let state = model.state();
    let today = model.now.date();
    let life = piece.life_on(today);
    let line = rest_line(model, piece).filter(|_| is_there_so(life.0));
    let weight = queries::blank_weight(state, piece);
    let reserved_for = piece
        .work
        .reserved
        .as_ref()
        .map(|kept| kept.payload.clone());
    Row {
        id: piece.id,
        mark: piece.mark.clone(),
        woods: queries::woods_named(state, piece.id),
        sizes: queries::blank_size(state, piece),
        kilograms: weight.map(|(mass, _)| in_kg(mass)),
        weighed: weight.is_some_and(|(_, weighed)| weighed),
        life,
        rest: line.and_then(|line| line.ready.ok()),
        old_look: old_look(model, piece),
        reserved: reserved_for.is_some() && piece.is_kept_on(today),
        reserved_for,
        section: section_drawn(model, piece),
        glued: piece.recorded.on,
    }
}

/// All blanks, by mark.
pub fn rows(model: &Model) -> Vec<Row> {
    let blanks = model.state().pieces().filter(|piece| is_blank(piece));
    let mut rows: Vec<Row> = blanks.map(|piece| row(model, piece)).collect();
    order::sort_by(&mut rows, |a, b| queries::compare_marks(&a.mark, &b.mark));
    rows
}

/// How a rest stands: its judgement, and in words.
pub fn rest_words(ui: &Ui<'_>, ready: &Readiness) -> (Judged, &'static str) {
    let words = &ui.w.blanks;
    match (ready.measure, ready.date) {
        (MeasureKey::Moved, _) => (Judged::Bad, words.rest_moved),
        (MeasureKey::Still, DateKey::RestOver) => (Judged::Good, words.rest_ready),
        (MeasureKey::Still, _) => (Judged::Unknown, words.rest_steady),
        (_, DateKey::Resting) => (Judged::Unknown, words.rest_resting),
        (_, DateKey::DueSoon) => (Judged::Unknown, words.rest_due_soon),
        (MeasureKey::NotChecked, DateKey::RestOver) => (Judged::Doubt, words.rest_not_checked),
        (MeasureKey::TooClose, DateKey::RestOver) => (Judged::Doubt, words.rest_too_close),
        (MeasureKey::WeightChanging, DateKey::RestOver) => (Judged::Doubt, words.rest_not_still),
        (MeasureKey::WeightNotKnown, DateKey::RestOver) => {
            (Judged::Doubt, words.rest_weight_not_known)
        }
    }
}

/// The day of a piece's last look, where that is too long ago to tell how it stands.
pub fn old_look(model: &Model, piece: &Piece) -> Option<NaiveDate> {
    let looked = piece.work.checks.last()?.on;
    is_look_old(looked, model.now.date()).then_some(looked)
}

/// How a blank stands: its judgement, and in words.
pub fn stands(ui: &Ui<'_>, row: &Row) -> (Judged, String) {
    match (&row.rest, row.old_look) {
        (Some(ready), Some(looked)) if ready.is_ready() => {
            let month = dates::month_of_year(ui.w, looked);
            let said = fill(ui.w.blanks.rest_not_looked_since, &[("month", &month)]);
            (Judged::Doubt, said)
        }
        (Some(ready), _) => {
            let (judged, words) = rest_words(ui, ready);
            (judged, words.to_owned())
        }
        (None, _) if row.is_there() => (Judged::Unknown, ui.w.blanks.never_rested.to_owned()),
        (None, _) => (Judged::Unknown, row.life.0.in_words().spoken().to_owned()),
    }
}

/// A day with its year: wood is older than a year, and papers are read later.
pub fn day(ui: &Ui<'_>, on: NaiveDate) -> String {
    dates::day(ui.w, on, NaiveDate::default())
}

/// The day beside how a rest stands: since when alone, where that already says that it is over.
pub fn due_beside(ui: &Ui<'_>, ready: &Readiness) -> String {
    let says_over = !matches!(ready.measure, MeasureKey::Still | MeasureKey::Moved);
    match ready.date {
        DateKey::RestOver if says_over => fill(ui.w.blanks.since, &[("day", &day(ui, ready.due))]),
        _ => due_words(ui, ready),
    }
}

/// Until when it rests, or since when its rest is over.
pub fn due_words(ui: &Ui<'_>, ready: &Readiness) -> String {
    let sentence = match ready.date {
        DateKey::RestOver => ui.w.blanks.rest_over_since,
        _ => ui.w.blanks.rest_over_on,
    };
    fill(sentence, &[("day", &day(ui, ready.due))])
}

/// For whom it is reserved and until when; without the name where that is hidden. None where it never was.
pub fn reserved_words(ui: &Ui<'_>, row: &Row, hide: bool) -> Option<String> {
    let words = &ui.w.blanks;
    let said = row.reserved_for.as_ref()?;
    let name: &str = &said.name;
    let until = said.until.map(|until| day(ui, until)).unwrap_or_default();
    let sentence = match (row.reserved, said.until.is_some(), hide) {
        (false, _, true) => return None,
        (false, _, false) => words.was_reserved,
        (true, true, false) => words.reserved_until,
        (true, false, false) => words.reserved_for,
        (true, true, true) => words.reserved_until_no_name,
        (true, false, true) => words.reserved_no_name,
    };
    Some(fill(sentence, &[("name", &name), ("day", &until)]))
}

/// Its size, with the unit.
pub fn size_words(ui: &Ui<'_>, row: &Row) -> String {
    show::sizes(row.sizes, ui.model.units())
}

/// Its weight, and whether it is of its laminates; none where it was not weighed.
pub fn weight_words(ui: &Ui<'_>, row: &Row) -> Option<String> {
    let weight = show::mass(row.kilograms?, ui.model.units());
    Some(match row.weighed {
        true => weight,
        false => fill(ui.w.blanks.about, &[("value", &weight)]),
    })
}
