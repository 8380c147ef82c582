//! A piece is discarded: what was found wrong with it teaches what to buy.

use super::command::{WorkshopCommand, always, empty};
use crate::record::commands::{FieldError, FieldKind, FormField};
use crate::record::log::{Discarded, Event};
use crate::record::queries::NextStep;

/// Why, the main reason first.
pub(super) const REASONS: FormField = FormField::new("reasons", FieldKind::Reasons);

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Throw out",
    step: Some(NextStep::ThrowOut),
    fields: &[REASONS],
    offered: always,
    begins: empty,
    event: |mut read| {
        let reasons = read.reasons(REASONS);
        if reasons.is_empty() {
            read.wrong(REASONS, FieldError::NoReason);
        }
        read.finish(|| Some(Event::Discarded(Discarded { reasons })))
    },
};
