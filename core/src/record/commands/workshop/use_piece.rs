//! A piece went into an instrument, or was handed over.

use super::command::{WorkshopCommand, empty, here};
use crate::record::commands::{FieldKind, FormField};
use crate::record::log::{Event, Used};
use crate::record::queries::NextStep;

const BECAME: FormField = FormField::new("What it became", FieldKind::Words);

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Used",
    step: Some(NextStep::Use),
    fields: &[BECAME],
    offered: here,
    begins: empty,
    event: |mut read| {
        let became = read.needed_words(BECAME);
        read.finish(|| Some(Event::Used(Used { became })))
    },
};
