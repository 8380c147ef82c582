//! A piece is reserved for somebody.

use super::command::{WorkshopCommand, empty, here};
use crate::record::commands::form::UNTIL;
use crate::record::commands::{FieldKind, FormField};
use crate::record::log::{Event, Reserved};
use crate::record::queries::NextStep;

const FOR_WHOM: FormField = FormField::new("For whom", FieldKind::Words);

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Reserve",
    step: Some(NextStep::Reserve),
    fields: &[FOR_WHOM, UNTIL],
    offered: |piece, today| here(piece, today) && !piece.is_kept_on(today),
    begins: empty,
    event: |mut read| {
        let reserved = Reserved {
            name: read.needed_name(FOR_WHOM),
            until: read.day(UNTIL),
        };
        read.finish(|| Some(Event::Reserved(reserved)))
    },
};
