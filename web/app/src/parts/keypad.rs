//! The keypad for a number, made for the field that is typed in.

use super::{Icon, icon};
use crate::page::Ui;
use crate::words::{Language, fill, spoken_name};
use maud::{Markup, html};
use stillwood_core::plank::{Field, Measure};
use stillwood_core::quantity::read::Units;

/// What a key does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Key {
    /// Adds a text at the end.
    Add(&'static str),
    /// Takes the last sign off.
    Erase,
    /// Turns plus to minus and back.
    Sign,
    /// To the next field.
    Next,
    /// Clears the field: it was not looked at.
    NotLooked,
    /// What the plank before has.
    SameAsLast,
}

/// A key and its name.
type Named = (&'static str, Key);

/// The key left of the zero and that right of it, and those of the last row.
fn made_for(field: Field, units: Units) -> ([Named; 2], &'static [Named]) {
    use Key::{Add, Sign};
    const MINUS: Named = ("±", Sign);
    const POINT: Named = (".", Add("."));
    const STROKE: Named = ("/", Add("/"));
    match (field.measure(), units) {
        _ if field.has_sides() => (
            [POINT, STROKE],
            &[
                ("left", Add(" L")),
                ("right", Add(" R")),
                ("mm", Add(" mm")),
                ("in", Add(" in")),
                ("space", Add(" ")),
            ],
        ),
        (Measure::Gap, _) => (
            [POINT, MINUS],
            &[
                ("mm", Add(" mm")),
                ("cm", Add(" cm")),
                ("in", Add(" in")),
                ("/", Add("/")),
                ("space", Add(" ")),
            ],
        ),
        (Measure::Length, _) => (
            [POINT, STROKE],
            &[
                ("mm", Add(" mm")),
                ("cm", Add(" cm")),
                ("m", Add(" m")),
                ("in", Add(" in")),
                ("ft", Add("' ")),
                ("space", Add(" ")),
            ],
        ),
        (Measure::Mass, _) => (
            [POINT, STROKE],
            &[
                ("kg", Add(" kg")),
                ("g", Add(" g")),
                ("lb", Add(" lb ")),
                ("oz", Add(" oz")),
                ("space", Add(" ")),
            ],
        ),
        (Measure::Slope, _) => (
            [POINT, ("1:", Add("1:"))],
            &[
                ("in", Add(" in ")),
                ("/", Add("/")),
                ("°", Add("°")),
                ("%", Add(" %")),
                ("space", Add(" ")),
            ],
        ),
        (Measure::Temperature, _) => ([POINT, MINUS], &[("°C", Add(" °C")), ("°F", Add(" °F"))]),
        (Measure::Moisture, _) => ([POINT, ("½", Add("½"))], &[("%", Add(" %"))]),
        (Measure::Angle, _) => ([POINT, ("½", Add("½"))], &[("°", Add("°"))]),
    }
}

/// A text after a key.
pub fn after_key(text: &str, key: Key) -> String {
    match key {
        Key::Add(more) => format!("{text}{more}"),
        Key::Erase => {
            let mut shorter = text.to_owned();
            let gone = shorter.pop();
            // A unit goes as a whole.
            let unit = gone.is_some_and(|c| c.is_alphabetic() || matches!(c, ' ' | '%' | '°'));
            while unit && shorter.ends_with(|c: char| c.is_alphabetic() || c == ' ') {
                shorter.pop();
            }
            shorter
        }
        Key::Sign => match text.strip_prefix('-') {
            Some(rest) => format!("+{rest}"),
            None => format!("-{}", text.trim_start_matches('+')),
        },
        Key::NotLooked => String::new(),
        Key::Next | Key::SameAsLast => text.to_owned(),
    }
}

/// A key as a language has it: its words, and its decimal sign.
fn in_language(language: Language, (name, key): Named) -> Named {
    match (language, name) {
        (Language::German, ".") => (",", Key::Add(",")),
        (Language::German, name) => (spoken_name(name), key),
        (Language::English, name) => (name, key),
    }
}

/// The keypad. `last` is what the plank before has in this field, where it has something.
pub fn keypad(
    ui: &Ui<'_>,
    field: Field,
    last: Option<&str>,
    press: impl Fn(Key) -> String,
) -> Markup {
    let words = &ui.w.yard;
    let ([left, right], row) = made_for(field, ui.model.units());
    let digit = |name: &'static str| {
        html! { button.key.digit type="button" data-press=(press(Key::Add(name))) { (name) } }
    };
    let small = |(name, key): Named| {
        let (name, key) = in_language(ui.model.settings.language, (name, key));
        html! { button.key.unit type="button" data-press=(press(key)) { (name) } }
    };
    html! {
        div.digits {
            @for name in ["1", "2", "3"] { (digit(name)) }
            button.key.beside type="button" data-press=(press(Key::Erase)) aria-label=(words.delete_last) {
                (icon(Icon::Erase))
            }
            @for name in ["4", "5", "6"] { (digit(name)) }
            button.key.beside type="button" data-press=(press(Key::NotLooked)) { (words.not_looked) }
            @for name in ["7", "8", "9"] { (digit(name)) }
            @if let Some(last) = last {
                button.key.beside type="button" data-press=(press(Key::SameAsLast)) {
                    (fill(words.same_as_last, &[("value", &last)]))
                }
            } @else {
                button.key.beside type="button" disabled { (fill(words.same_as_last, &[("value", &"–")])) }
            }
            (small(left)) (digit("0")) (small(right))
            button.key.main type="button" data-press=(press(Key::Next)) { (words.next) }
        }
        div.units { @for key in row { (small(*key)) } }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_add_and_take_away() {
        assert_eq!(after_key("26", Key::Add("2")), "262");
        assert_eq!(after_key("262", Key::Erase), "26");
        assert_eq!(after_key("2400 mm", Key::Erase), "2400");
        assert_eq!(after_key("29 lb 2", Key::Erase), "29 lb ");
        assert_eq!(after_key("29 lb ", Key::Erase), "29");
        assert_eq!(after_key("94 1", Key::Erase), "94 ");
        assert_eq!(after_key("4 %", Key::Erase), "4");
        assert_eq!(after_key("12 L", Key::Erase), "12");
        assert_eq!(after_key("", Key::Erase), "");
    }

    #[test]
    fn the_sign_turns() {
        assert_eq!(after_key("9", Key::Sign), "-9");
        assert_eq!(after_key("-9", Key::Sign), "+9");
        assert_eq!(after_key("+9", Key::Sign), "-9");
    }
}
