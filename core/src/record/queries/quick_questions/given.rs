//! What is typed for a question, read by the same readers as everywhere.

use crate::quantity::read::{self, UnderstoodNumber, Units, Unreadable};
use crate::quantity::{
    Angle, Frequency, Length, Mass, MassDensity, Moisture, Slope, Temperature, celsius, degrees,
    hz, kg, kg_per_m3, mm, show,
};
use crate::wood::{Humidity, Species};
use rust_decimal::Decimal;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InputKind {
    Length,
    Temperature,
    Humidity,
    Moisture,
    Angle,
    Density,
    Slope,
    Mass,
    /// A note, in hertz.
    Frequency,
    /// An amount: money, or a count.
    Amount,
    /// A wood, chosen by its name.
    Wood,
}

/// Something to type.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Input {
    /// Its label; inputs of one label hold the same text in every question.
    pub label: &'static str,
    pub kind: InputKind,
    /// What stands in it at first: seen, and to be changed.
    pub begins: &'static str,
    /// Whether there is an answer without it.
    pub needed: bool,
}

/// An input that must be typed.
pub(super) const fn wanted(label: &'static str, kind: InputKind) -> Input {
    Input {
        label,
        kind,
        begins: "",
        needed: true,
    }
}

/// What is understood of one input, for the line beneath it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Understanding {
    /// Nothing is typed.
    Empty,
    Read(String),
    /// It can't be read, and why.
    Unreadable(String),
}

impl InputKind {
    fn read(self, typed: &str, units: Units) -> Result<UnderstoodNumber, Unreadable> {
        match self {
            InputKind::Length => read::length(typed, units),
            InputKind::Temperature => read::temperature(typed, units),
            InputKind::Humidity => read::humidity(typed),
            InputKind::Moisture => read::moisture(typed),
            InputKind::Angle => read::angle(typed),
            InputKind::Density => read::density(typed, units),
            InputKind::Slope => read::slope(typed, units),
            InputKind::Mass => read::mass(typed, units),
            InputKind::Frequency => read::plain(without_hertz(typed)),
            InputKind::Amount | InputKind::Wood => Err(Unreadable::NoNumber),
        }
    }

    fn shown(self, value: f64, units: Units) -> String {
        let other = match units {
            Units::Metric => Units::Inch,
            Units::Inch => Units::Metric,
        };
        let both = |shown: fn(f64, Units) -> String| {
            format!("{} = {}", shown(value, units), shown(value, other))
        };
        match self {
            InputKind::Length => both(show::length),
            InputKind::Temperature => both(show::temperature),
            InputKind::Density => both(show::density),
            InputKind::Mass => both(show::mass),
            InputKind::Frequency => format!("{} Hz", show::number(value, 1)),
            InputKind::Humidity => format!("{} RH", show::moisture(value)),
            InputKind::Angle => show::angle(value),
            InputKind::Slope => show::slope(value),
            InputKind::Moisture | InputKind::Amount | InputKind::Wood => show::moisture(value),
        }
    }
}

fn without_hertz(typed: &str) -> &str {
    let typed = typed.trim_end();
    match typed
        .len()
        .checked_sub(2)
        .and_then(|at| typed.split_at_checked(at))
    {
        Some((number, unit)) if unit.eq_ignore_ascii_case("hz") => number,
        _ => typed,
    }
}

impl Input {
    /// What is understood of a text typed into it.
    pub fn understand(&self, typed: &str, units: Units) -> Understanding {
        if typed.trim().is_empty() {
            return Understanding::Empty;
        }
        match self.kind {
            InputKind::Wood => Understanding::Empty,
            InputKind::Amount => match read::amount(typed) {
                Ok(Some(amount)) => Understanding::Read(amount.normalize().to_string()),
                Ok(None) => Understanding::Empty,
                Err(why) => Understanding::Unreadable(why.to_string()),
            },
            kind => match kind.read(typed, units) {
                Ok(read) => Understanding::Read(kind.shown(read.value, units)),
                Err(why) => Understanding::Unreadable(why.to_string()),
            },
        }
    }
}

/// Why there is no answer, in the maker's words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Unanswered(pub(super) String);

impl<E: std::error::Error> From<E> for Unanswered {
    fn from(why: E) -> Self {
        Self(why.to_string())
    }
}

/// What is typed for a question.
#[derive(Debug, Clone, Copy)]
pub struct Given<'a> {
    pub(super) typed: &'a [(&'static str, String)],
    pub(super) wood: Option<&'a Species>,
    pub(super) units: Units,
}

impl Given<'_> {
    fn text(&self, label: &str) -> &str {
        let typed = self.typed.iter().find(|(known, _)| *known == label);
        typed.map_or("", |(_, text)| text)
    }

    /// Whether an input keeps the answer away.
    pub(super) fn wants(&self, input: &Input) -> bool {
        if input.kind == InputKind::Wood {
            return self.wood.is_none();
        }
        match input.understand(self.text(input.label), self.units) {
            Understanding::Empty => input.needed,
            Understanding::Read(_) => false,
            Understanding::Unreadable(_) => true,
        }
    }

    fn value(&self, kind: InputKind, label: &str) -> Result<f64, Unreadable> {
        Ok(kind.read(self.text(label), self.units)?.value)
    }

    pub(super) fn length(&self, label: &str) -> Result<Length, Unreadable> {
        self.value(InputKind::Length, label).map(mm)
    }

    pub(super) fn length_if_any(&self, label: &str) -> Option<Length> {
        self.length(label).ok()
    }

    pub(super) fn temperature(&self, label: &str) -> Result<Temperature, Unreadable> {
        self.value(InputKind::Temperature, label).map(celsius)
    }

    pub(super) fn humidity(&self, label: &str) -> Result<Humidity, Unreadable> {
        self.value(InputKind::Humidity, label)
            .map(Humidity::percent)
    }

    pub(super) fn moisture(&self, label: &str) -> Result<Moisture, Unreadable> {
        self.value(InputKind::Moisture, label)
            .map(Moisture::percent)
    }

    pub(super) fn angle(&self, label: &str) -> Result<Angle, Unreadable> {
        self.value(InputKind::Angle, label).map(degrees)
    }

    pub(super) fn density(&self, label: &str) -> Result<MassDensity, Unreadable> {
        self.value(InputKind::Density, label).map(kg_per_m3)
    }

    pub(super) fn slope(&self, label: &str) -> Result<Slope, Unreadable> {
        self.value(InputKind::Slope, label).map(Slope::tangent)
    }

    pub(super) fn mass(&self, label: &str) -> Result<Mass, Unreadable> {
        self.value(InputKind::Mass, label).map(kg)
    }

    pub(super) fn frequency(&self, label: &str) -> Result<Frequency, Unreadable> {
        self.value(InputKind::Frequency, label).map(hz)
    }

    pub(super) fn amount_if_any(&self, label: &str) -> Option<Decimal> {
        read::amount(self.text(label)).ok().flatten()
    }
}
