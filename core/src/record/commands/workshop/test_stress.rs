//! An offcut of a piece is tested for stress.

use super::command::{WorkshopCommand, empty, here};
use crate::record::commands::{FieldKind, FormField};
use crate::record::log::{Event, StressTest, StressTested};
use crate::record::queries::NextStep;

const TEST: FormField = FormField::new(
    "chosen",
    FieldKind::OneOf(&["offcut ripped in two", "fork test"]),
);
const GAP: FormField = FormField::new("Gap", FieldKind::Gap);
const OVER: FormField = FormField::new("Over a length of", FieldKind::Length);

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Stress test",
    step: Some(NextStep::TestStress),
    fields: &[TEST, GAP, OVER],
    offered: here,
    begins: empty,
    event: |mut read| {
        let test = match read.chosen(TEST) {
            0 => StressTest::Ripped,
            _ => StressTest::Fork,
        };
        let gap = read.needed_reading(GAP);
        let over = read.reading(OVER);
        read.finish(|| {
            let gap = gap?;
            Some(Event::StressTested(Box::new(StressTested {
                gap,
                over,
                test,
            })))
        })
    },
};
