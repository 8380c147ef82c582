//! A piece is weighed, and a witness stick beside it.

use super::command::{WorkshopCommand, here};
use crate::plank::{Field, Reading, retyped};
use crate::record::commands::form::texts_of;
use crate::record::commands::witness::{STICK, STICK_WEIGHS, witness};
use crate::record::commands::{FieldKind, FormField, Texts};
use crate::record::log::{Event, Weighed};
use crate::record::queries::NextStep;
use crate::record::state::{Piece, State};
use std::sync::Arc;

const WEIGHT: FormField = FormField::new("Weight", FieldKind::Mass);
const STEP: FormField = FormField::new("Step of the scale", FieldKind::Mass);
const SCALE: FormField = FormField::new("Scale", FieldKind::Words);

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Weigh",
    step: Some(NextStep::Weigh),
    fields: &[WEIGHT, STEP, SCALE, STICK, STICK_WEIGHS],
    offered: here,
    begins: as_last_time,
    event: |mut read| {
        let mass = read.needed_reading(WEIGHT);
        let step = read.reading(STEP);
        let scale = read.words(SCALE);
        let witness = witness(&mut read);
        read.finish(|| {
            let mass = mass?;
            Some(Event::Weighed(Arc::new(Weighed {
                mass,
                scale,
                step,
                witness,
            })))
        })
    },
};

/// The scale is that of the last time.
fn as_last_time(_: &State, piece: &Piece) -> Texts {
    let Some(last) = piece.work.weighings.last() else {
        return Texts::new();
    };
    let step = last.payload.step.as_ref();
    // A bare number would be another step under other units.
    let with_unit = |step: &Reading| retyped(Field::WeightWhole, step);
    texts_of([
        (SCALE, last.payload.scale.clone()),
        (STEP, step.map(with_unit).unwrap_or_default()),
    ])
}
