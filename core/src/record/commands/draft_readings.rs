//! What a half-typed plank says: its readings, of its weights and its rings those of the way that is shown alone, and
//! the places of its defects.

use super::draft::{Draft, DraftValue, field_key};
use super::field_error::{FieldError, FieldErrors};
use crate::plank::{
    DefectFound, Field, Readings, RingsBy, Seen, Understood, WeighedBy, retyped, understand,
};
use crate::quantity::read::Units;

/// The way of weighing that a draft tells of; `None` where no weight is typed.
pub fn weighed_by(draft: &Draft) -> Option<WeighedBy> {
    WeighedBy::of(|field| draft.value(field).is_some())
}

/// The way of reading the rings that a draft tells of: of both, the one that counts; `None` where nothing of them
/// is typed.
pub fn rings_by(draft: &Draft) -> Option<RingsBy> {
    RingsBy::of(|field| draft.value(field).is_some())
}

/// What is understood of what stands in a field.
pub fn understood(field: Field, value: &DraftValue, units: Units) -> Understood {
    understand(field, &value.text, value.seen, value.confirmed, units)
}

/// What a draft says, as far as it can be read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DraftReadings {
    /// The readings.
    pub readings: Readings,
    /// The defects, with their places as readings.
    pub defects: Vec<DefectFound>,
    /// What can't be read, field by field.
    pub errors: FieldErrors,
}

/// The stored name of where a defect starts, for what is wrong with it.
pub fn defect_from_key(at: usize) -> String {
    format!("defects/{at}/from")
}

/// The stored name of where a defect ends.
pub fn defect_to_key(at: usize) -> String {
    format!("defects/{at}/to")
}

/// Reads a draft; of the weights and the rings only those of the way that is shown.
pub fn draft_readings(
    draft: &Draft,
    weighed_by: WeighedBy,
    rings_by: RingsBy,
    units: Units,
) -> DraftReadings {
    let mut found = DraftReadings::default();
    let is_hidden = |field| weighed_by.leaves_out(field) || rings_by.leaves_out(field);
    for field in Field::ALL {
        let value = draft.value(*field).filter(|_| !is_hidden(*field));
        let Some(value) = value else { continue };
        match understood(*field, value, units) {
            Understood::Empty => {}
            Understood::Read { taken, .. } => {
                found.readings.insert(*field, taken);
            }
            Understood::Unreadable(why) => {
                let typed = value.text.trim().to_owned();
                let error = FieldError::NotRead { typed, why };
                found.errors.push(field_key(*field), error);
            }
        }
    }
    for (at, defect) in draft.defects.iter().enumerate() {
        let mut place = |text: &String, key: String| match place_of(text, units) {
            Understood::Unreadable(why) => {
                let typed = text.trim().to_owned();
                found.errors.push(&key, FieldError::NotRead { typed, why });
                None
            }
            echo => echo.taken().cloned(),
        };
        let from = place(&defect.from, defect_from_key(at));
        let to = place(&defect.to, defect_to_key(at));
        found.defects.push(DefectFound {
            kind: defect.kind,
            from,
            to,
            note: defect.note.clone(),
        });
    }
    found
}

/// A place along the plank, as typed for a defect.
fn place_of(text: &str, units: Units) -> Understood {
    understand(Field::BowKink, text, Seen::Measured, true, units)
}

/// A draft that was typed under other units, with those units written out, so that nothing in it changes its
/// meaning.
pub fn restated(draft: &Draft, typed_under: Units) -> Draft {
    let mut same = draft.clone();
    for field in Field::ALL {
        let Some(value) = draft.value(*field) else {
            continue;
        };
        let echo = understand(*field, &value.text, value.seen, true, typed_under);
        if let Some(taken) = echo.taken() {
            let text = retyped(*field, taken);
            let value = DraftValue {
                text,
                ..value.clone()
            };
            same.put(*field, value);
        }
    }
    for defect in &mut same.defects {
        for text in [&mut defect.from, &mut defect.to] {
            if let Some(taken) = place_of(text, typed_under).taken() {
                *text = retyped(Field::BowKink, taken);
            }
        }
    }
    same
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plank::{Rings, describe};
    use crate::quantity::degrees;
    use crate::record::log::Id;

    fn put(draft: &mut Draft, field: Field, text: &str) {
        let value = DraftValue {
            text: text.to_owned(),
            ..DraftValue::default()
        };
        draft.put(field, value);
    }

    fn read_by(draft: &Draft, weighed_by: WeighedBy, rings_by: RingsBy) -> DraftReadings {
        draft_readings(draft, weighed_by, rings_by, Units::Metric)
    }

    #[test]
    fn only_the_way_of_reading_the_rings_that_is_shown_counts() {
        let mut draft = Draft::new(Id::nil(), String::new(), String::new());
        put(&mut draft, Field::RingChord, "150");
        put(&mut draft, Field::RingDip, "25");
        put(&mut draft, Field::PithOffset, "40 R");
        put(&mut draft, Field::RingAngle, "64");
        let read = |way| read_by(&draft, WeighedBy::Whole, way).readings;
        let by_angle = read(RingsBy::Angle);
        assert_eq!(
            describe(&by_angle, &[]).rings,
            Some(Rings::Angle(degrees(64.0)))
        );
        assert!(by_angle.contains_key(&Field::PithOffset), "it is shown");
        let by_chord = read(RingsBy::ChordAndDip);
        assert!(!by_chord.contains_key(&Field::RingAngle));
        assert!(matches!(
            describe(&by_chord, &[]).rings,
            Some(Rings::Arc { .. })
        ));
        // What is hidden is not recorded, nor told as wrong.
        put(&mut draft, Field::RingDip, "deep");
        let read = read_by(&draft, WeighedBy::Whole, RingsBy::Angle);
        assert!(read.errors.is_empty());
    }

    #[test]
    fn where_both_ways_of_reading_the_rings_are_there_the_plank_and_the_screen_take_the_same() {
        let fields = [Field::RingAngle, Field::RingChord, Field::RingDip];
        for there in 0..8 {
            let mut draft = Draft::new(Id::nil(), String::new(), String::new());
            for (at, field) in fields.into_iter().enumerate() {
                if there & (1 << at) != 0 {
                    put(&mut draft, field, "20");
                }
            }
            let all = Field::ALL.iter().filter_map(|field| {
                let typed = draft.value(*field)?.text.as_str();
                let echo = understand(*field, typed, Seen::Measured, true, Units::Metric);
                Some((*field, echo.taken()?.clone()))
            });
            let recorded = describe(&all.collect(), &[]).rings;
            let shown = rings_by(&draft).unwrap_or_default();
            let read = read_by(&draft, WeighedBy::Whole, shown);
            assert_eq!(describe(&read.readings, &[]).rings, recorded, "{there:b}");
        }
    }
}
