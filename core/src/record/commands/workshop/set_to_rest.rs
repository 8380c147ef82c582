//! A piece is set to rest; its months count from the day.

use super::command::{WorkshopCommand, here};
use super::put_on_rack::RACK;
use crate::record::commands::climate::{HUMIDITY, TEMPERATURE, climate};
use crate::record::commands::form::texts_of;
use crate::record::commands::{FieldKind, FormField, Texts};
use crate::record::log::{Event, SetToRest};
use crate::record::queries::{NextStep, stage_of};
use crate::record::state::{Piece, State};
use crate::season::Stage;
use std::sync::Arc;

const STAGE: FormField = FormField::new(
    "chosen",
    FieldKind::OneOf(&["pieces", "laminates", "blanks"]),
);

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Set to rest",
    step: Some(NextStep::SetToRest),
    fields: &[STAGE, RACK, HUMIDITY, TEMPERATURE],
    offered: here,
    begins: in_its_stage,
    event: |mut read| {
        let stage = Stage::ALL.get(read.chosen(STAGE)).copied();
        let rest = SetToRest {
            climate: climate(&mut read),
            place: read.words(RACK),
            stage: stage.unwrap_or(Stage::Pieces),
        };
        read.finish(|| Some(Event::SetToRest(Arc::new(rest))))
    },
};

/// The stage is the one that it is in.
fn in_its_stage(_: &State, piece: &Piece) -> Texts {
    let stage = stage_of(piece);
    let at = Stage::ALL.iter().position(|one| *one == stage);
    texts_of([(STAGE, at.unwrap_or_default().to_string())])
}
