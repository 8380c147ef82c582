//! A cut while it is laid out: the sizes that the maker's spec has, and the plan that they make.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::Context;
use super::form::{Form, FormReader, Texts, as_json, texts_of};
use crate::neck::{CuttingPlan, PartCut, PartWorth, PlannedPart, Stock, plan_cuts};
use crate::plank::{RingClass, turned_on_edge};
use crate::quantity::read::Units;
use crate::quantity::{Length, TraceOff, mm, show};
use crate::record::log::{Id, PieceKind};
use crate::record::queries::{rings_to_cut, size_of, stock_to_cut};
use crate::verdict::{Purpose, Spec};
use serde::{Deserialize, Serialize};

/// What it is cut to.
pub const KIND: FormField =
    FormField::new("kind", FieldKind::Named(&["piece", "laminate", "blank"]));
/// Which rings are worth a cut, of laminates.
pub const WANTED: FormField =
    FormField::new("wanted", FieldKind::Named(&["Any", "NotFlat", "Quartered"]));
/// The length, with allowance.
pub const LENGTH: FormField = FormField::new("length", FieldKind::Length);
/// The planed width of a piece or a blank.
pub const PIECE_WIDTH: FormField = FormField::new("width of a piece", FieldKind::Length);
/// The planed thickness of a laminate.
pub const THICKNESS: FormField = FormField::new("thickness of a laminate", FieldKind::Length);
/// What planing takes off each face.
pub const PLANING: FormField = FormField::new("planing", FieldKind::Length);
/// What the saw takes.
pub const KERF: FormField = FormField::new("kerf", FieldKind::Length);
/// What is cut off each end.
pub const END_TRIM: FormField = FormField::new("end trim", FieldKind::Length);
/// What is cut off each edge.
pub const EDGE_TRIM: FormField = FormField::new("edge trim", FieldKind::Length);

/// Cuts fall on tenths of a millimetre.
const STEP_MM: f64 = 0.1;

/// Which rings are worth a cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum RingsWanted {
    /// Any.
    #[default]
    Any,
    /// Quartersawn and rift.
    NotFlat,
    /// Quartersawn alone.
    #[serde(rename = "Quartered")]
    Quartersawn,
}

impl RingsWanted {
    /// What a part is worth by how its rings stand; only a laminate is chosen by its rings, and one whose rings
    /// are not known counts in full.
    pub fn worth(self, kind: PieceKind) -> PartWorth {
        let worth = |wanted: bool| f64::from(u8::from(wanted));
        let ripped = kind == PieceKind::Laminate;
        PartWorth {
            quartersawn: 1.0,
            rift: worth(!ripped || self != RingsWanted::Quartersawn),
            flatsawn: worth(!ripped || self == RingsWanted::Any),
            unknown: 1.0,
        }
    }
}

/// The plan, and what it was made of.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedCut {
    /// What it is cut to.
    pub kind: PieceKind,
    /// What is cut up.
    pub stock: Stock,
    /// How thick that is, where it is known.
    pub thickness: Option<Length>,
    /// The sizes.
    pub cut: PartCut,
    /// The plan.
    pub plan: CuttingPlan,
}

impl PlannedCut {
    /// How a part of the plan stands: a laminate turned on edge, all else as it lies. `None` where that is not
    /// known.
    pub fn stands(&self, part: &PlannedPart) -> Option<RingClass> {
        if self.kind == PieceKind::Laminate {
            return part.class;
        }
        RingClass::of(turned_on_edge(&mut TraceOff, part.ring_angle?).ok()?).ok()
    }

    /// How many parts stand in each way, those not known last; ways in which none stands are left out.
    pub fn counts(&self) -> Vec<(Option<RingClass>, usize)> {
        let classes = [
            Some(RingClass::Quartersawn),
            Some(RingClass::Rift),
            Some(RingClass::Flatsawn),
            None,
        ];
        let parts = || self.plan.rows.iter().flat_map(|row| &row.parts);
        let count = |class| parts().filter(|part| self.stands(part) == class).count();
        let counts = classes.into_iter().map(|class| (class, count(class)));
        counts.filter(|(_, count)| *count > 0).collect()
    }
}

/// What the maker's spec says to begin with: a plank is sawn to what the verdict reckons the slab in, a piece
/// that was cut from a plank is ripped, and a neck of one piece is cut as a blank.
pub fn begins(piece: Id, context: &Context<'_>, units: Units) -> Texts {
    let state = context.state;
    let known = state.piece(piece);
    let of_plank = known.is_none_or(|piece| piece.work.kind == PieceKind::Plank);
    let visit = known.and_then(|piece| state.visit_of(piece));
    let spec = visit.map(|visit| &visit.opened.spec);
    let parts_first = spec.is_some_and(Spec::rips_parts_first);
    let kind = match spec.map(|spec| spec.purpose) {
        Some(Purpose::OnePieceNeck) => PieceKind::Blank,
        _ if of_plank && !parts_first => PieceKind::Piece,
        _ => PieceKind::Laminate,
    };
    let length =
        |of: fn(&Spec) -> f64, otherwise: f64| show::length(spec.map_or(otherwise, of), units);
    let trim = |of: fn(&Spec) -> f64| {
        let spec = spec.filter(|_| of_plank);
        show::length(spec.map_or(0.0, of), units)
    };
    texts_of([
        (KIND, as_json(&kind)),
        (WANTED, as_json(&RingsWanted::Any)),
        (LENGTH, length(|spec| spec.part.length_mm, 950.0)),
        (PIECE_WIDTH, length(Spec::piece_width_mm, 80.0)),
        (THICKNESS, length(Spec::across_mm, 16.0)),
        (PLANING, length(|spec| spec.planing_mm, 1.5)),
        (KERF, length(|spec| spec.kerf_mm, 3.0)),
        (END_TRIM, trim(|spec| spec.end_trim_mm)),
        (EDGE_TRIM, trim(|spec| spec.edge_trim_mm / 2.0)),
    ])
}

/// The plan that the sizes make.
pub fn planned(
    form: &Form<'_>,
    piece: Id,
    context: &Context<'_>,
) -> Result<PlannedCut, FieldErrors> {
    let state = context.state;
    let kind = form.json(KIND.key).unwrap_or(PieceKind::Piece);
    let wanted: RingsWanted = form.json(WANTED.key).unwrap_or_default();
    let across = match kind {
        PieceKind::Laminate => THICKNESS,
        _ => PIECE_WIDTH,
    };
    let mut read = form.reader();
    let mut size = |field: FormField| {
        let reading = read.needed_reading(field);
        reading.map(|reading| mm(reading.value))
    };
    let sizes = (size(LENGTH), size(across), size(PLANING));
    let lost = (size(KERF), size(END_TRIM), size(EDGE_TRIM));
    more_than_nothing(&mut read, &[LENGTH, across], [sizes.0, sizes.1]);
    let known = state.piece(piece);
    match known {
        None => read.wrong(LENGTH, FieldError::NotHere),
        Some(known) if !known.is_at_hand() => read.wrong(LENGTH, FieldError::NotAtHand),
        Some(_) => {}
    }
    let stock = known.and_then(|known| stock_to_cut(state, known));
    if known.is_some() && stock.is_none() {
        read.wrong(LENGTH, FieldError::SizesNotKnown);
    }
    let (known, stock, cut) = read.finish(|| {
        let cut = PartCut {
            length: sizes.0?,
            thickness: sizes.1?,
            planing: sizes.2?,
            kerf: lost.0?,
            end_trim: lost.1?,
            edge_trim: lost.2?,
            step: mm(STEP_MM),
        };
        Some((known?, stock?, cut))
    })?;
    let rings = |offset| Some(rings_to_cut(state, known, offset)?.angle);
    let plan = plan_cuts(&stock, &cut, &rings, &wanted.worth(kind));
    let plan = plan.map_err(|why| FieldErrors::at(LENGTH.key, FieldError::NoPlan(why)))?;
    Ok(PlannedCut {
        kind,
        thickness: size_of(state, known).thicknesses.least(),
        stock,
        cut,
        plan,
    })
}

fn more_than_nothing(
    read: &mut FormReader<'_>,
    fields: &[FormField; 2],
    sizes: [Option<Length>; 2],
) {
    for (field, size) in fields.iter().zip(sizes) {
        if size.is_some_and(|size| size <= mm(0.0)) {
            read.wrong(*field, FieldError::Zero);
        }
    }
}
