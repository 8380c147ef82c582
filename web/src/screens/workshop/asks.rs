//! What a form of the workshop may ask for, and how what is typed for it is read. It draws nothing.

use stillwood_core::plank::{Field, Measure, Reading, Seen, Understood, understand};
use stillwood_core::quantity::read::{self, UnderstoodNumber, Units, Unreadable};
use stillwood_core::quantity::show;

/// What kind of thing is asked for.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Is {
    /// Words, as they stand.
    Words,
    /// A day.
    Day,
    /// Yes or no.
    Tick,
    /// A measurement of a plank.
    Of(Field),
    /// A mass.
    Mass,
    /// A length.
    Length,
    /// A small length, as feelers tell it.
    Small,
    /// A gap with its sign.
    Gap,
    /// A relative humidity.
    Humidity,
    /// A temperature.
    Temperature,
    /// A whole number of months.
    Months,
    /// A whole number of weeks.
    Weeks,
    /// One of a few, by their names.
    OneOf(&'static [&'static str]),
    /// Reasons to throw it out.
    Reasons,
    /// To which side rings lean, by a picture.
    Rings,
    /// Which way grain runs, by a picture.
    Grain,
}

/// One thing that is asked for.
#[derive(Clone, Copy)]
pub(super) struct Ask {
    /// Its label.
    pub(super) label: &'static str,
    /// What it is.
    pub(super) is: Is,
    /// A hint below.
    pub(super) hint: &'static str,
}

/// Something to ask, without a hint.
pub(super) const fn ask(label: &'static str, is: Is) -> Ask {
    Ask {
        label,
        is,
        hint: "",
    }
}

/// The same with a hint.
pub(super) const fn hinted(label: &'static str, is: Is, hint: &'static str) -> Ask {
    Ask { label, is, hint }
}

impl Is {
    /// A number, which stands beside another.
    pub(super) fn is_short(self) -> bool {
        !matches!(
            self,
            Is::Words | Is::Tick | Is::OneOf(_) | Is::Reasons | Is::Day | Is::Rings | Is::Grain
        )
    }
}

/// A length's reading, a mass's and so on, with how it is shown again.
pub(super) fn taken(
    is: Is,
    typed: &str,
    units: Units,
) -> Result<Option<(Reading, String)>, String> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    type Shown = fn(f64, Units) -> String;
    type Found = Result<UnderstoodNumber, Unreadable>;
    let (understood, shown): (Found, Shown) = match is {
        Is::Of(field) => {
            return match understand(field, typed, Seen::Measured, false, units) {
                Understood::Empty => Ok(None),
                Understood::Unreadable(why) => Err(why),
                Understood::Read {
                    taken,
                    shown,
                    warning,
                    ..
                } => {
                    let shown = finely(field, taken.value, units).unwrap_or(shown);
                    Ok(Some((
                        taken,
                        warning.map_or(shown, |warning| warning.question),
                    )))
                }
            };
        }
        Is::Mass => (read::mass(typed, units), show::mass),
        Is::Length => (read::length(typed, units), show::length),
        Is::Small => (read::length(typed, units), show::gap),
        Is::Gap => (read::gap(typed, units), show::gap),
        Is::Humidity => (read::humidity(typed), |value, _| show::moisture(value)),
        Is::Temperature => (read::temperature(typed, units), show::temperature),
        Is::Months => (read::plain(typed), |value, _| {
            format!("{} months", show::number(value, 2))
        }),
        Is::Weeks => (read::plain(typed), |value, _| {
            format!("{} weeks", show::number(value, 2))
        }),
        _ => return Ok(None),
    };
    let understood = understood.map_err(|why| why.to_string())?;
    let found = Reading::understood(typed, &understood, Seen::Measured);
    Ok(Some((found, shown(understood.value, units))))
}

/// A gap at the bench, shown as finely as feelers tell it; a left-hand twist keeps its words.
fn finely(field: Field, value: f64, units: Units) -> Option<String> {
    let left = field == Field::Twist && value < 0.0;
    let fine = field.measure() == Measure::Gap && !left;
    fine.then(|| show::gap(value, units))
}
