//! What is typed for a question, read by the same readers as everywhere.

use super::Input;
use crate::quantity::read::{self, Understood, Units, Unreadable};
use crate::quantity::{
    Angle, Frequency, Length, Mass, MassDensity, Moisture, Slope, Temperature, celsius, degrees,
    hz, kg, kg_per_m3, mm, show,
};
use crate::wood::{Humidity, Species};
use rust_decimal::Decimal;

/// What an input holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A length.
    Length,
    /// A temperature.
    Temperature,
    /// A relative humidity.
    Humidity,
    /// A moisture content.
    Moisture,
    /// An angle.
    Angle,
    /// A density.
    Density,
    /// A slope of grain.
    Slope,
    /// A mass.
    Mass,
    /// A note, in hertz.
    Frequency,
    /// An amount: money, or a count.
    Amount,
    /// A wood, chosen by its name.
    Wood,
}

/// What is understood of one input, for the line beneath it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Understanding {
    /// Nothing is typed.
    Empty,
    /// This was understood.
    Read(String),
    /// It can't be read, and why.
    Unreadable(String),
}

impl Kind {
    fn read(self, typed: &str, units: Units) -> Result<Understood, Unreadable> {
        match self {
            Kind::Length => read::length(typed, units),
            Kind::Temperature => read::temperature(typed, units),
            Kind::Humidity => read::humidity(typed),
            Kind::Moisture => read::moisture(typed),
            Kind::Angle => read::angle(typed),
            Kind::Density => read::density(typed, units),
            Kind::Slope => read::slope(typed, units),
            Kind::Mass => read::mass(typed, units),
            Kind::Frequency => read::plain(without_hertz(typed)),
            Kind::Amount | Kind::Wood => Err(Unreadable::NoNumber),
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
            Kind::Length => both(show::length),
            Kind::Temperature => both(show::temperature),
            Kind::Density => both(show::density),
            Kind::Mass => both(show::mass),
            Kind::Frequency => format!("{} Hz", show::number(value, 1)),
            Kind::Humidity => format!("{} RH", show::moisture(value)),
            Kind::Angle => show::angle(value),
            Kind::Slope => show::slope(value),
            Kind::Moisture | Kind::Amount | Kind::Wood => show::moisture(value),
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
            Kind::Wood => Understanding::Empty,
            Kind::Amount => match read::amount(typed) {
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
        if input.kind == Kind::Wood {
            return self.wood.is_none();
        }
        match input.understand(self.text(input.label), self.units) {
            Understanding::Empty => input.needed,
            Understanding::Read(_) => false,
            Understanding::Unreadable(_) => true,
        }
    }

    fn value(&self, kind: Kind, label: &str) -> Result<f64, Unreadable> {
        Ok(kind.read(self.text(label), self.units)?.value)
    }

    /// A length.
    pub(super) fn length(&self, label: &str) -> Result<Length, Unreadable> {
        self.value(Kind::Length, label).map(mm)
    }

    /// A length, where one is typed.
    pub(super) fn length_if_any(&self, label: &str) -> Option<Length> {
        self.length(label).ok()
    }

    /// A temperature.
    pub(super) fn temperature(&self, label: &str) -> Result<Temperature, Unreadable> {
        self.value(Kind::Temperature, label).map(celsius)
    }

    /// A humidity.
    pub(super) fn humidity(&self, label: &str) -> Result<Humidity, Unreadable> {
        self.value(Kind::Humidity, label).map(Humidity::percent)
    }

    /// A moisture content.
    pub(super) fn moisture(&self, label: &str) -> Result<Moisture, Unreadable> {
        self.value(Kind::Moisture, label).map(Moisture::percent)
    }

    /// An angle.
    pub(super) fn angle(&self, label: &str) -> Result<Angle, Unreadable> {
        self.value(Kind::Angle, label).map(degrees)
    }

    /// A density.
    pub(super) fn density(&self, label: &str) -> Result<MassDensity, Unreadable> {
        self.value(Kind::Density, label).map(kg_per_m3)
    }

    /// A slope of grain.
    pub(super) fn slope(&self, label: &str) -> Result<Slope, Unreadable> {
        self.value(Kind::Slope, label).map(Slope::tangent)
    }

    /// A mass.
    pub(super) fn mass(&self, label: &str) -> Result<Mass, Unreadable> {
        self.value(Kind::Mass, label).map(kg)
    }

    /// A frequency.
    pub(super) fn frequency(&self, label: &str) -> Result<Frequency, Unreadable> {
        self.value(Kind::Frequency, label).map(hz)
    }

    /// An amount, where one is typed.
    pub(super) fn amount_if_any(&self, label: &str) -> Option<Decimal> {
        read::amount(self.text(label)).ok().flatten()
    }
}
