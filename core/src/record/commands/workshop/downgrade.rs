//! A piece is put to another use than a neck.

use super::command::{WorkshopCommand, empty, here};
use super::discard::REASONS;
use crate::record::commands::{FieldKind, FormField};
use crate::record::log::{Downgraded, Event};

const TO: FormField = FormField::new("To what use", FieldKind::Words);

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Another use",
    step: None,
    fields: &[TO, REASONS],
    offered: here,
    begins: empty,
    event: |mut read| {
        let down = Downgraded {
            reasons: read.reasons(REASONS),
            to: read.needed_words(TO),
        };
        read.finish(|| Some(Event::Downgraded(down)))
    },
};
