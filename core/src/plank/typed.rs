//! From what is typed in a field to a reading that can be kept, with its echo for the screen.
//!
//! It asks whether a value makes sense for a plank, and questions what does not; it never changes
//! what was typed and never refuses a value that the maker insists on, save one that no plank can
//! have (a length of nothing or less).

use super::eye::eye_steps;
use super::{Bound, Field, Measure, Reading, Seen, Sign};
use crate::quantity::read::{self, UnderstoodNumber, Units, Unreadable};
use crate::quantity::show;

/// What the screen shows beside a field while it is typed in.
#[derive(Debug, Clone, PartialEq)]
pub enum Understood {
    /// Nothing typed: not looked at.
    Empty,
    Read {
        /// The reading, as it would be kept.
        taken: Reading,
        /// The value in the maker's units, and in the other ones.
        shown: String,
        /// The same in the other system of units.
        other: String,
        /// A question, where the value is out of the usual.
        warning: Option<Warning>,
    },
    /// Not understood, and why.
    Unreadable(String),
}

impl Understood {
    pub fn taken(&self) -> Option<&Reading> {
        match self {
            Understood::Read { taken, .. } => Some(taken),
            _ => None,
        }
    }

    /// The question that is still open.
    pub fn warning(&self) -> Option<&Warning> {
        match self {
            Understood::Read { warning, .. } => warning.as_ref(),
            _ => None,
        }
    }
}

/// A question about a value, with texts that might have been meant.
#[derive(Debug, Clone, PartialEq)]
pub struct Warning {
    /// The question, in the maker's words.
    pub question: String,
    /// What may have been meant: each is a text that would be typed instead.
    pub offers: Vec<Offer>,
}

/// Something that may have been meant.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// What it would mean, for the button.
    pub label: String,
    /// The text to put in the field.
    pub text: String,
}

/// Reads one field.
///
/// `seen` by eye takes one of [`eye_steps`] as it is kept, or a number; `confirmed` silences the
/// question about an unusual value.
pub fn understand(
    field: Field,
    typed: &str,
    seen: Seen,
    confirmed: bool,
    units: Units,
) -> Understood {
    if typed.trim().is_empty() {
        return Understood::Empty;
    }
    if seen == Seen::ByEye
        && let Some(step) = eye_steps(field).iter().find(|step| step.typed == typed)
    {
        let taken = Reading {
            typed: typed.to_owned(),
            unit: field.measure().kept_in().to_owned(),
            value: step.value,
            seen,
            confirmed,
            sign: Sign::Unknown,
            bound: step.bound,
        };
        let (mut shown, other) = both(field, step.value, units);
        if step.bound == Bound::AtLeast {
            shown = format!("at least {shown}");
        }
        return Understood::Read {
            taken,
            shown,
            other,
            warning: None,
        };
    }
    let understood = match read_as(field.measure(), field, typed, units) {
        Ok(understood) => understood,
        Err(why) => return Understood::Unreadable(why.to_string()),
    };
    if let Some(why) = impossible(field, understood.value, units) {
        return Understood::Unreadable(why);
    }
    let (shown, other) = both(field, understood.value, units);
    let taken = Reading {
        confirmed,
        ..Reading::understood(typed, &understood, seen)
    };
    let warning = unusual(field, &taken, units);
    Understood::Read {
        taken,
        shown,
        other,
        warning,
    }
}

fn read_as(
    measure: Measure,
    field: Field,
    typed: &str,
    units: Units,
) -> Result<UnderstoodNumber, Unreadable> {
    match measure {
        _ if field.has_sides() => read::sided(typed, units),
        Measure::Gap => read::gap(typed, units),
        Measure::Length => read::length(typed, units),
        Measure::Mass => read::mass(typed, units),
        Measure::Moisture => read::moisture(typed),
        Measure::Temperature => read::temperature(typed, units),
        Measure::Slope => read::slope(typed, units),
        Measure::Angle => read::angle(typed),
    }
}

/// What no plank can have.
fn impossible(field: Field, value: f64, units: Units) -> Option<String> {
    let may_be_zero = match field.measure() {
        Measure::Gap | Measure::Temperature | Measure::Slope | Measure::Angle => true,
        Measure::Length => matches!(
            field,
            Field::WeightOverhang
                | Field::BowKink
                | Field::CrookKink
                | Field::PithOffset
                | Field::RingDip
        ),
        Measure::Mass | Measure::Moisture => false,
    };
    (!may_be_zero && value <= 0.0).then(|| {
        let (low, high) = field.usual();
        format!(
            "{} must be more than 0; usual is {} to {}.",
            field.label(),
            shown(field, low, units),
            shown(field, high, units)
        )
    })
}

/// What was typed for a reading, with the unit that was taken for granted written out, so that it
/// reads the same under other units.
pub fn retyped(field: Field, taken: &Reading) -> String {
    let typed = taken.typed.as_str();
    let by_step = || eye_steps(field).iter().any(|step| step.typed == typed);
    let reads_so = |units: &Units| {
        let understood = read_as(field.measure(), field, typed, *units);
        understood.is_ok_and(|understood| understood.value == taken.value)
    };
    let settled = [Units::Metric, Units::Inch].iter().all(reads_so);
    if settled || taken.seen == Seen::ByEye && by_step() {
        return typed.to_owned();
    }
    let unit = match (field.measure(), taken.unit.as_str()) {
        (Measure::Length | Measure::Gap, unit @ ("mm" | "in")) => unit,
        (Measure::Mass, unit @ ("kg" | "lb")) => unit,
        (Measure::Temperature, "degC") => "C",
        (Measure::Temperature, "degF") => "F",
        (Measure::Slope, unit @ ("in 300" | "in 12")) => unit,
        // With inches, a bare fraction would be asked about: 3:8 is the same wherever it is typed, and what
        // is one sign, as ½, is 0.5:1.
        (Measure::Slope, _) if typed.contains('/') => return typed.replacen('/', ":", 1),
        (Measure::Slope, _) => return format!("{}:1", taken.value),
        _ => return typed.to_owned(),
    };
    // The hand or the side stands behind the unit.
    let number = typed.trim_end_matches(char::is_alphabetic);
    let hand = &typed[number.len()..];
    let number = number.trim_end_matches([' ', '.', ',']);
    format!("{number} {unit} {hand}").trim_end().to_owned()
}

pub fn shown(field: Field, value: f64, units: Units) -> String {
    match field.measure() {
        Measure::Length | Measure::Gap => {
            with_side(field, value, |value| show::length(value, units))
        }
        Measure::Mass => show::mass(value, units),
        Measure::Moisture => show::moisture(value),
        Measure::Temperature => show::temperature(value, units),
        Measure::Slope => show::slope(value),
        Measure::Angle => show::angle(value),
    }
}

/// A length with its side or hand behind it, where the field has one. A bare twist may be to either hand; the pith
/// lies on one side.
fn with_side(field: Field, value: f64, shown: impl Fn(f64) -> String) -> String {
    let pith = field == Field::PithOffset;
    match field.has_sides() {
        true if value < 0.0 => format!("{} left", shown(-value)),
        true if pith && value > 0.0 => format!("{} right", shown(value)),
        _ => shown(value),
    }
}

fn both(field: Field, value: f64, units: Units) -> (String, String) {
    let others = match units {
        Units::Metric => Units::Inch,
        Units::Inch => Units::Metric,
    };
    // A side is told once.
    let without_side = match field.has_sides() {
        true => value.abs(),
        false => value,
    };
    let other = match field.measure() {
        Measure::Slope => format!("{} in 300", show::number(value * 300.0, 1)),
        Measure::Moisture | Measure::Angle => String::new(),
        Measure::Gap => show::gap(without_side, others),
        Measure::Length => show::length(without_side, others),
        Measure::Mass | Measure::Temperature => shown(field, value, others),
    };
    (read_back(field, value, units), other)
}

/// A value as it is read back to whoever typed it: with every digit that a maker types, so that 8.25 is not told as
/// 8.2.
fn read_back(field: Field, value: f64, units: Units) -> String {
    match (field.measure(), units) {
        (Measure::Gap, _) => with_side(field, value, |value| show::gap(value, units)),
        (Measure::Length, Units::Metric) => with_side(field, value, |value| {
            format!("{} mm", show::number(value, 2))
        }),
        (Measure::Moisture, _) => format!("{} %", show::number(value, 2)),
        (Measure::Angle, _) => format!("{}°", show::number(value, 1)),
        _ => shown(field, value, units),
    }
}

fn usual(field: Field, value: f64) -> bool {
    let (low, high) = field.usual();
    let value = if field.measure() == Measure::Gap || field.has_sides() {
        value.abs()
    } else {
        value
    };
    (low..=high).contains(&value)
}

/// Whether a number was typed without a unit.
pub(super) fn typed_bare(typed: &str) -> bool {
    typed
        .trim()
        .chars()
        .all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | ' ' | '/' | '+' | '-'))
}

/// The question about a value out of the usual, with what else may have been meant; none where the
/// maker said that it is so.
pub fn unusual(field: Field, taken: &Reading, units: Units) -> Option<Warning> {
    if taken.confirmed {
        return None;
    }
    if usual(field, taken.value) {
        let pith = field == Field::PithOffset;
        return pith.then(|| which_side(taken, units)).flatten();
    }
    let mut offers = Vec::new();
    let bare = match (field.measure(), taken.typed.trim()) {
        (Measure::Temperature, typed) => typed.trim_end_matches('°').trim_end(),
        (_, typed) => typed,
    };
    if typed_bare(bare) {
        let mut texts: Vec<String> = match field.measure() {
            Measure::Length | Measure::Gap => ["in", "mm", "cm", "m"]
                .iter()
                .map(|unit| format!("{bare} {unit}"))
                .collect(),
            Measure::Mass => ["lb", "kg", "g"]
                .iter()
                .map(|unit| format!("{bare} {unit}"))
                .collect(),
            Measure::Temperature => vec![format!("{bare} °F"), format!("{bare} °C")],
            Measure::Slope => vec![format!("1:{bare}")],
            Measure::Moisture | Measure::Angle => Vec::new(),
        };
        // "2,620" meant as two thousand six hundred and twenty.
        if bare.contains(',') {
            texts.push(bare.replace(',', ""));
        }
        for text in texts {
            let Ok(meant) = read_as(field.measure(), field, &text, units) else {
                continue;
            };
            if usual(field, meant.value) && meant.value != taken.value {
                let label = format!("{text} = {}", shown(field, meant.value, units));
                offers.push(Offer { label, text });
            }
        }
    }
    let (low, high) = field.usual();
    let bound = |bound: f64| match field.has_sides() {
        true => show::length(bound, units),
        false => shown(field, bound, units),
    };
    let question = format!(
        "{} {}? Usual is {} to {}.",
        field.label(),
        shown(field, taken.value, units),
        bound(low),
        bound(high)
    );
    Some(Warning { question, offers })
}

/// The question about a pith without its side: it is taken to lie to the right.
fn which_side(taken: &Reading, units: Units) -> Option<Warning> {
    if taken.sign == Sign::Known || taken.value == 0.0 {
        return None;
    }
    let right = shown(Field::PithOffset, taken.value, units);
    let text = format!("{} left", taken.typed.trim());
    Some(Warning {
        question: format!("{right}, away from the marked edge? Else say left."),
        offers: vec![Offer {
            label: shown(Field::PithOffset, -taken.value, units),
            text,
        }],
    })
}
