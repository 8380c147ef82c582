//! A piece is looked at for movement.

use super::command::{WorkshopCommand, empty, here};
use crate::plank::Field;
use crate::record::commands::{FieldError, FieldKind, FormField, FormReader};
use crate::record::log::{Event, MovementChecked};
use crate::record::queries::NextStep;
use std::sync::Arc;

/// Looked at by eye, and its shape is as it was.
pub const NOTHING_MOVED: FormField = FormField::new("Nothing moved", FieldKind::Tick);
const WITHIN: FormField = FormField::new("Off by at most", FieldKind::SmallLength);

/// What is measured of a piece that moved.
pub const MOVED: [FormField; 8] = [
    FormField::new("Crook", FieldKind::Of(Field::Crook)),
    FormField::new("Crook over", FieldKind::Of(Field::CrookOver)),
    FormField::new("Bow", FieldKind::Of(Field::Bow)),
    FormField::new("Bow over", FieldKind::Of(Field::BowOver)),
    FormField::new("Twist", FieldKind::Of(Field::Twist)),
    FormField::new("Winding stick", FieldKind::Of(Field::TwistStick)),
    FormField::new("Cup", FieldKind::Of(Field::Cup)),
    WITHIN,
];

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Check movement",
    step: Some(NextStep::CheckMovement),
    fields: &[
        NOTHING_MOVED,
        MOVED[0],
        MOVED[1],
        MOVED[2],
        MOVED[3],
        MOVED[4],
        MOVED[5],
        MOVED[6],
        MOVED[7],
    ],
    offered: here,
    begins: empty,
    event: |mut read| {
        let check = checked(&mut read);
        read.finish(|| Some(Event::MovementChecked(Arc::new(check))))
    },
};

/// A check as it was typed.
pub(in crate::record::commands) fn checked(read: &mut FormReader<'_>) -> MovementChecked {
    let check = MovementChecked {
        nothing_moved: read.is_ticked(NOTHING_MOVED),
        readings: read.readings(&MOVED),
        reference: String::new(),
        who: String::new(),
        within: read.reading(WITHIN),
    };
    let unread = MOVED.iter().any(|field| read.is_wrong(*field));
    if !check.nothing_moved && check.readings.is_empty() && !unread {
        read.wrong(NOTHING_MOVED, FieldError::NothingChecked);
    }
    check
}
