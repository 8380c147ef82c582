//! A piece can't be found.

use super::command::{WorkshopCommand, empty, here};
use crate::record::log::{Event, Missing};

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Not found",
    step: None,
    fields: &[],
    offered: here,
    begins: empty,
    event: |read| read.finish(|| Some(Event::Missing(Missing {}))),
};
