//! A piece that was reserved is free again.

use super::command::{WorkshopCommand, empty};
use crate::record::log::{Event, Released};
use crate::record::queries::NextStep;

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Release",
    step: Some(NextStep::Release),
    fields: &[],
    offered: |piece, _| piece.work.reserved.is_some(),
    begins: empty,
    event: |read| read.finish(|| Some(Event::Released(Released {}))),
};
