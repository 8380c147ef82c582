//! What may be typed in a field, and how it is read and shown again while it is typed.

use super::field_error::FieldError;
use crate::plank::{Field, Reading, Seen, Understood, understand};
use crate::quantity::read::{self, UnderstoodNumber, Units, Unreadable};
use crate::quantity::show;

/// What may be typed in a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FieldKind {
    /// A name or a few words, in a line.
    Words,
    /// A note, as long as it likes.
    Note,
    /// A mark on wood.
    Mark,
    /// A day, as `2026-11-25`.
    Day,
    /// Yes or no: `yes`, or nothing.
    Tick,
    /// Yes or no: `true` or `false`.
    Switch,
    /// One of a few, kept as its place in the list.
    OneOf(&'static [&'static str]),
    /// One of a few, kept as its name in JSON.
    Named(&'static [&'static str]),
    /// One that the state offers (a spec, a wood by its id), kept as JSON.
    Offered,
    /// Reasons, the main one first, kept as JSON.
    Reasons,
    /// A list or a map that a screen of its own fills, kept as JSON.
    Gathered,
    /// To which side rings lean, by its words.
    Rings,
    /// Which way grain runs, by its words.
    Grain,
    /// A wood, by any name.
    Species,
    /// A measurement of a plank.
    Of(Field),
    /// A mass.
    Mass,
    /// A length.
    Length,
    /// A small length, as feelers tell it.
    SmallLength,
    /// A gap with its sign.
    Gap,
    /// A relative humidity.
    Humidity,
    /// A temperature.
    Temperature,
    /// Hours.
    Hours,
    /// Weeks.
    Weeks,
    /// Months.
    Months,
    /// A whole number of things.
    Count,
    /// A number without a unit.
    Plain,
    /// A percentage.
    Percent,
    /// Money.
    Money,
}

impl FieldKind {
    /// Whether it is typed with the keys for numbers.
    pub fn is_number(self) -> bool {
        use FieldKind::*;
        matches!(
            self,
            Of(_)
                | Mass
                | Length
                | SmallLength
                | Gap
                | Humidity
                | Temperature
                | Hours
                | Weeks
                | Months
                | Count
                | Plain
                | Percent
                | Money
        )
    }
}

/// One field of a form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FormField {
    /// Its stored name.
    pub key: &'static str,
    /// What may be typed in it.
    pub kind: FieldKind,
}

impl FormField {
    /// A field of that stored name.
    pub const fn new(key: &'static str, kind: FieldKind) -> Self {
        Self { key, kind }
    }
}

/// Reads a measurement, with how it is shown again; `None` where nothing is typed, or where the field is
/// not one for measurements.
pub fn read_as(
    kind: FieldKind,
    typed: &str,
    units: Units,
) -> Result<Option<(Reading, String)>, FieldError> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    let not_read = |why: String| {
        let typed = typed.to_owned();
        FieldError::NotRead { typed, why }
    };
    type Shown = fn(f64, Units) -> String;
    type Found = Result<UnderstoodNumber, Unreadable>;
    let (understood, shown): (Found, Shown) = match kind {
        FieldKind::Of(field) => {
            return match understand(field, typed, Seen::Measured, false, units) {
                Understood::Empty => Ok(None),
                Understood::Unreadable(why) => Err(not_read(why)),
                Understood::Read { taken, shown, .. } => Ok(Some((taken, shown))),
            };
        }
        FieldKind::Mass => (read::mass(typed, units), show::mass),
        FieldKind::Length => (read::length(typed, units), show::length),
        FieldKind::SmallLength => (read::length(typed, units), show::gap),
        FieldKind::Gap => (read::gap(typed, units), show::gap),
        FieldKind::Humidity => (read::humidity(typed), |value, _| show::moisture(value)),
        FieldKind::Temperature => (read::temperature(typed, units), show::temperature),
        FieldKind::Percent => (read::percent(typed), |value, _| {
            format!("{} %", show::number(value, 3))
        }),
        FieldKind::Hours
        | FieldKind::Weeks
        | FieldKind::Months
        | FieldKind::Count
        | FieldKind::Plain => (read::plain(typed), |value, _| show::number(value, 3)),
        _ => return Ok(None),
    };
    let understood = understood.map_err(|why| not_read(why.to_string()))?;
    let found = Reading::understood(typed, &understood, Seen::Measured);
    Ok(Some((found, shown(understood.value, units))))
}
