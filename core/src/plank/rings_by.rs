//! How the rings at the end are read: by their angle, or by the chord of one and its dip. Where a record holds
//! both, it is told here which of them counts, once for the plank, its uncertainty and the screen.

use super::Field;
use serde::{Deserialize, Serialize};

/// How the rings are read at the end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RingsBy {
    /// Their angle to the wide face.
    #[default]
    Angle,
    /// The chord of a ring and its dip, where they are curved.
    ChordAndDip,
}

impl RingsBy {
    /// The fields that this way needs.
    pub fn fields(self) -> &'static [Field] {
        match self {
            RingsBy::Angle => &[Field::RingAngle],
            RingsBy::ChordAndDip => &[Field::RingChord, Field::RingDip],
        }
    }

    /// The way that counts of what was read: chord and dip where both are there, for they tell the angle anywhere
    /// across the plank; otherwise the angle; `None` where nothing of either is there.
    pub fn of(has: impl Fn(Field) -> bool) -> Option<RingsBy> {
        let (chord, dip) = (has(Field::RingChord), has(Field::RingDip));
        match (chord && dip, has(Field::RingAngle), chord || dip) {
            (false, true, _) => Some(RingsBy::Angle),
            (true, ..) | (_, _, true) => Some(RingsBy::ChordAndDip),
            (false, false, false) => None,
        }
    }

    /// The way to which a field belongs. The pith's place is noted beside a chord and its dip.
    pub fn whose(field: Field) -> Option<RingsBy> {
        match field {
            Field::RingAngle => Some(RingsBy::Angle),
            Field::RingChord | Field::RingDip | Field::PithOffset => Some(RingsBy::ChordAndDip),
            _ => None,
        }
    }

    /// Whether a field is one that only the other way needs. The pith's place may be noted beside either.
    pub fn leaves_out(self, field: Field) -> bool {
        field != Field::PithOffset && RingsBy::whose(field).is_some_and(|way| way != self)
    }
}
