//! A piece is machined flat: its movement counts from here.

use super::command::{WorkshopCommand, here};
use crate::plank::Field;
use crate::quantity::mm;
use crate::record::commands::form::texts_of;
use crate::record::commands::{FieldError, FieldKind, FormField, Texts};
use crate::record::log::{Event, Machined};
use crate::record::queries::{self, Checked, NextStep};
use crate::record::state::{Piece, State};
use crate::season::{FEELER_MM, Movement, Warp};

const FACE: FormField = FormField::new("A face was made flat", FieldKind::Tick);
const EDGE: FormField = FormField::new("An edge was made straight", FieldKind::Tick);
const REFERENCE: FormField = FormField::new("Marked face and edge", FieldKind::Words);
const FIELDS: [FormField; 6] = [
    FACE,
    EDGE,
    FormField::new("Length", FieldKind::Of(Field::Length)),
    FormField::new("Width", FieldKind::Of(Field::WidthNear)),
    FormField::new("Thickness", FieldKind::Of(Field::ThicknessNear)),
    REFERENCE,
];

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Machined flat",
    step: Some(NextStep::Machine),
    fields: &FIELDS,
    offered: here,
    begins: what_moved_as_last_time,
    event: |mut read| {
        let machined = Machined {
            edge: read.is_ticked(EDGE),
            face: read.is_ticked(FACE),
            readings: read.readings(&FIELDS),
            reference: read.words(REFERENCE),
        };
        if !machined.edge && !machined.face {
            read.wrong(FACE, FieldError::NeitherFaceNorEdge);
        }
        read.finish(|| Some(Event::Machined(Box::new(machined))))
    },
};

/// What moved beyond its limit at the last check since it was made flat: a face for bow, cup and twist, an edge for
/// crook. A face where nothing did, which is what is flattened first. The marked face and edge stay those of the last
/// time.
fn what_moved_as_last_time(state: &State, piece: &Piece) -> Texts {
    let last = piece.work.machined.last();
    let reference = last.map(|last| last.payload.reference.clone());
    let (face, edge) = match moved_beyond(state, piece) {
        (false, false) => (true, false),
        moved => moved,
    };
    let tick = |on: bool| if on { "yes" } else { "" }.to_owned();
    texts_of([
        (FACE, tick(face)),
        (EDGE, tick(edge)),
        (REFERENCE, reference.unwrap_or_default()),
    ])
}

/// Whether a face, whether an edge moved beyond its limit, by the last check since it was made flat.
fn moved_beyond(state: &State, piece: &Piece) -> (bool, bool) {
    let checks = queries::moved(state, piece, mm(FEELER_MM));
    let flat = piece.work.machined.last().map(|last| (last.on, last.place));
    let since = |check: &&Checked| Some((check.on, check.place)) > flat;
    let last = checks.last().filter(since);
    let changes = last.and_then(|check| check.changes.as_ref().ok());
    let mut found = (false, false);
    for change in changes.into_iter().flatten() {
        if change.movement == Some(Movement::Beyond) {
            match change.warp {
                Warp::Crook => found.1 = true,
                Warp::Bow | Warp::Cup | Warp::Twist => found.0 = true,
            }
        }
    }
    found
}
