//! A piece arrived, was moved to another place, or was found again.

use super::command::{WorkshopCommand, always, empty};
use crate::record::commands::{FieldKind, FormField};
use crate::record::log::{Event, Placed};
use crate::record::queries::NextStep;

/// The rack.
pub(in crate::record::commands) const RACK: FormField = FormField::new("Shelf", FieldKind::Words);

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Put on a shelf",
    step: Some(NextStep::PutOnShelf),
    fields: &[RACK],
    offered: always,
    begins: empty,
    event: |mut read| {
        let place = read.needed_words(RACK);
        read.finish(|| Some(Event::Placed(Placed { place })))
    },
};
