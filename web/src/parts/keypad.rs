//! The keypad for numbers: large keys for a thumb, with the signs that a phone's own number pad lacks
//! (fraction stroke, foot and inch, units, plus and minus).

use leptos::prelude::*;
use stillwood_core::plank::{Field, Measure};

/// What a key does.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Key {
    /// Adds a text at the end.
    Add(&'static str),
    /// Takes the last character off.
    Back,
    /// Turns plus to minus and back.
    Sign,
    /// To the next field.
    Next,
    /// Puts the keypad away.
    Hide,
}

/// Keys beside the digits, by what is measured: name, key.
fn beside(field: Field) -> [(&'static str, Key); 6] {
    use Key::{Add, Sign};
    match field.measure() {
        _ if field.has_sides() => [
            ("left", Add(" L")),
            ("right", Add(" R")),
            ("/", Add("/")),
            ("space", Add(" ")),
            ("″", Add("\"")),
            ("mm", Add(" mm")),
        ],
        Measure::Gap => [
            ("±", Sign),
            ("/", Add("/")),
            ("″", Add("\"")),
            ("space", Add(" ")),
            ("mm", Add(" mm")),
            ("cm", Add(" cm")),
        ],
        Measure::Length => [
            ("/", Add("/")),
            ("space", Add(" ")),
            ("′", Add("'")),
            ("″", Add("\"")),
            ("m", Add(" m")),
            ("mm", Add(" mm")),
        ],
        Measure::Mass => [
            ("kg", Add(" kg")),
            ("g", Add(" g")),
            ("lb", Add(" lb ")),
            ("oz", Add(" oz")),
            ("/", Add("/")),
            ("space", Add(" ")),
        ],
        Measure::Slope => [
            ("in", Add(" in ")),
            ("1:", Add("1:")),
            ("/", Add("/")),
            ("°", Add("°")),
            ("%", Add(" %")),
            ("space", Add(" ")),
        ],
        Measure::Temperature => [
            ("±", Sign),
            ("°C", Add(" °C")),
            ("°F", Add(" °F")),
            ("space", Add(" ")),
            ("/", Add("/")),
            (",", Add(",")),
        ],
        Measure::Moisture | Measure::Angle => [
            ("%", Add(" %")),
            ("°", Add("°")),
            ("/", Add("/")),
            ("space", Add(" ")),
            (",", Add(",")),
            ("½", Add("½")),
        ],
    }
}

/// A text after a key.
pub(crate) fn after_key(text: &str, key: Key) -> String {
    match key {
        Key::Add(more) => format!("{text}{more}"),
        Key::Back => {
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
        Key::Next | Key::Hide => text.to_owned(),
    }
}

/// The keys. `press` is called for each.
#[component]
pub(crate) fn Keys(
    /// The field that is typed in.
    #[prop(into)]
    field: Signal<Field>,
    /// Called with each key pressed.
    press: impl Fn(Key) + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let key = move |name: &'static str, said: &'static str, class: &'static str, key: Key| {
        view! {
            <button
                type="button"
                class=class
                aria-label=said
                // Keeps the field's focus, so that a keyboard can go on typing in it.
                on:mousedown=|event| event.prevent_default()
                on:click=move |_| press(key)
            >
                {name}
            </button>
        }
    };
    let side = move |at: usize| {
        move || {
            let (name, act) = beside(field.get())[at];
            key(name, name, "unit", act)
        }
    };
    view! {
        <div class="keys" role="group" aria-label="Number keys">
            {key("1", "1", "", Key::Add("1"))}
            {key("2", "2", "", Key::Add("2"))}
            {key("3", "3", "", Key::Add("3"))}
            {side(0)}
            {side(1)}
            {key("⌫", "delete", "unit", Key::Back)}
            {key("4", "4", "", Key::Add("4"))}
            {key("5", "5", "", Key::Add("5"))}
            {key("6", "6", "", Key::Add("6"))}
            {side(2)}
            {side(3)}
            {key("hide", "hide the keys", "unit", Key::Hide)}
            {key("7", "7", "", Key::Add("7"))}
            {key("8", "8", "", Key::Add("8"))}
            {key("9", "9", "", Key::Add("9"))}
            {side(4)}
            {side(5)}
            {key("00", "00", "unit", Key::Add("00"))}
            {key("0", "0", "zero", Key::Add("0"))}
            {key(".", "decimal point", "", Key::Add("."))}
            {key(",", "decimal comma", "unit", Key::Add(","))}
            {key("−", "minus", "unit", Key::Sign)}
            {key("next", "next field", "next", Key::Next)}
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn keys_add_and_take_away() {
        assert_eq!(after_key("26", Key::Add("2")), "262");
        assert_eq!(after_key("262", Key::Back), "26");
        assert_eq!(after_key("2400 mm", Key::Back), "2400");
        assert_eq!(after_key("29 lb 2", Key::Back), "29 lb ");
        assert_eq!(after_key("29 lb ", Key::Back), "29");
        assert_eq!(after_key("94 1", Key::Back), "94 ");
        assert_eq!(after_key("4 %", Key::Back), "4");
        assert_eq!(after_key("12 L", Key::Back), "12");
        assert_eq!(after_key("", Key::Back), "");
    }

    #[wasm_bindgen_test]
    fn the_sign_turns() {
        assert_eq!(after_key("9", Key::Sign), "-9");
        assert_eq!(after_key("-9", Key::Sign), "+9");
        assert_eq!(after_key("+9", Key::Sign), "-9");
    }
}
