//! The rings on the end of a laminate and the grain on its face are looked at.

use super::command::{WorkshopCommand, empty, here};
use crate::plank::{Field, RingTilt, RunoutDirection};
use crate::record::commands::{FieldError, FieldKind, FormField};
use crate::record::log::{Event, GrainSeen, PieceKind};
use crate::record::queries::NextStep;

const RINGS: FormField = FormField::new("Rings on the near end", FieldKind::Rings);
const ANGLE: FormField = FormField::new("Ring angle", FieldKind::Of(Field::RingAngle));
const GRAIN: FormField = FormField::new("Grain on the marked face", FieldKind::Grain);
const SLOPE: FormField = FormField::new("Slope of grain", FieldKind::Of(Field::GrainFace));

pub(super) const COMMAND: WorkshopCommand = WorkshopCommand {
    key: "Rings and grain",
    step: Some(NextStep::SeeGrain),
    fields: &[RINGS, ANGLE, GRAIN, SLOPE],
    offered: |piece, today| here(piece, today) && piece.work.kind == PieceKind::Laminate,
    begins: empty,
    event: |mut read| {
        let (rings, grain) = (read.words(RINGS), read.words(GRAIN));
        let mut rises = RunoutDirection::ALL.into_iter();
        let mut leans = RingTilt::ALL.into_iter();
        let seen = GrainSeen {
            grain_rises: rises.find(|rise| rise.in_words() == grain),
            grain_slope: read.reading(SLOPE),
            ring_angle: read.reading(ANGLE),
            rings_lean: leans.find(|lean| lean.in_words() == rings),
        };
        if seen == GrainSeen::default() && !read.is_wrong(SLOPE) && !read.is_wrong(ANGLE) {
            read.wrong(RINGS, FieldError::NothingSeen);
        }
        read.finish(|| Some(Event::GrainSeen(Box::new(seen))))
    },
};
