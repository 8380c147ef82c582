//! A piece is machined flat: its movement counts from here.

use super::command::{WorkshopCommand, here};
use crate::plank::Field;
use crate::record::commands::form::texts_of;
use crate::record::commands::{FieldError, FieldKind, FormField, Texts};
use crate::record::log::{Event, Machined};
use crate::record::queries::NextStep;
use crate::record::state::{Piece, State};

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
    begins: a_face_as_last_time,
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

/// A face, which is what is flattened first; the marked face and edge stay those of the last time.
fn a_face_as_last_time(_: &State, piece: &Piece) -> Texts {
    let last = piece.work.machined.last();
    let reference = last.map(|last| last.payload.reference.clone());
    texts_of([
        (FACE, "yes".to_owned()),
        (REFERENCE, reference.unwrap_or_default()),
    ])
}
