//! The moisture of a piece is read.

use super::command::{WorkshopCommand, here};
use crate::plank::Field;
use crate::record::commands::form::texts_of;
use crate::record::commands::{FieldKind, FormField, Texts};
use crate::record::log::{Event, MoistureRead};
use crate::record::queries::NextStep;
use crate::record::state::{Piece, State};
use std::sync::Arc;

const SHOWN: FormField = FormField::new("Meter shows", FieldKind::Of(Field::Moisture));
const WOOD_TEMPERATURE: FormField =
    FormField::new("Wood temperature", FieldKind::Of(Field::WoodTemperature));
const DEPTH: FormField = FormField::new("Depth of the pins", FieldKind::Length);
const METER: FormField = FormField::new("Meter", FieldKind::Words);

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Moisture",
    step: Some(NextStep::ReadMoisture),
    fields: &[SHOWN, WOOD_TEMPERATURE, DEPTH, METER],
    offered: here,
    begins: as_last_time,
    event: |mut read| {
        let shown = read.needed_reading(SHOWN);
        let wood_temperature = read.reading(WOOD_TEMPERATURE);
        let depth = read.reading(DEPTH);
        let meter = read.words(METER);
        read.finish(|| {
            let shown = shown?;
            Some(Event::MoistureRead(Arc::new(MoistureRead {
                depth,
                meter,
                shown,
                wood_temperature,
            })))
        })
    },
};

/// The meter is that of the last time.
fn as_last_time(_: &State, piece: &Piece) -> Texts {
    let last = piece.work.moistures.last();
    last.map_or_else(Texts::new, |last| {
        texts_of([(METER, last.payload.meter.clone())])
    })
}
