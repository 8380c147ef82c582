//! No line ends between a number and its unit: `3.4 mm` stays together wherever it stands in a sentence. And no line
//! begins with the sign that stands between two things: `950 ×` or `46 mm ·` ends it.

/// Units as they are shown. `bd ft` and `N m²` are two words each.
const UNITS: [&str; 24] = [
    "mm", "cm", "m", "m²", "m³", "in", "ft", "ft³", "g", "kg", "kg/m³", "lb", "lb/ft³", "%", "°C",
    "°F", "bd", "N", "GPa", "MB", "KB", "h", "s", "min",
];
/// Units that follow the first word of their own.
const SECOND_WORDS: [(&str, &str); 2] = [("bd", "ft"), ("N", "m²")];
/// What belongs to the number after it.
const OF_WHAT_FOLLOWS: char = '±';
/// What stands between two things: a line may end after it, never before it.
const BETWEEN: [&str; 2] = ["× ", "· "];
/// What is typed is never changed.
const TYPED: [&str; 2] = ["textarea", "option"];
const UNBROKEN: char = '\u{a0}';

/// Markup in whose texts every space between a number and its unit is one at which no line ends. Attributes stay as
/// they are, and so does what stands in a field.
pub fn number_and_unit_together(html: &str) -> String {
    let mut together = String::with_capacity(html.len());
    let mut rest = html;
    let mut typed = false;
    loop {
        let (text, tag_on) = rest.split_at(rest.find('<').unwrap_or(rest.len()));
        match typed {
            true => together.push_str(text),
            false => push_text(&mut together, text),
        }
        if tag_on.is_empty() {
            return together;
        }
        let (tag, after) = tag_on.split_at(
            tag_on
                .find('>')
                .map_or(tag_on.len(), |at| at.saturating_add(1)),
        );
        typed = TYPED.iter().any(|name| {
            let inside = tag.strip_prefix('<').unwrap_or(tag);
            inside.starts_with(name)
        });
        together.push_str(tag);
        rest = after;
    }
}

fn push_text(together: &mut String, text: &str) {
    let mut rest = text;
    while let Some((before, after)) = rest.split_once(' ') {
        together.push_str(before);
        together.push(match belongs_together(together, after) {
            true => UNBROKEN,
            false => ' ',
        });
        rest = after;
    }
    together.push_str(rest);
}

/// Whether what follows a space belongs to what stands before it.
fn belongs_together(before: &str, after: &str) -> bool {
    let ends_in = |sign: fn(char) -> bool| before.ends_with(sign);
    if BETWEEN.iter().any(|sign| after.starts_with(sign)) {
        return true;
    }
    if before.ends_with(OF_WHAT_FOLLOWS) {
        return after.starts_with(|sign: char| sign.is_ascii_digit());
    }
    let is_of_word = |sign: char| sign.is_alphanumeric() || "%°³²/".contains(sign);
    let word = after.split(|sign| !is_of_word(sign)).next().unwrap_or("");
    let second = SECOND_WORDS.iter().any(|(first, second)| {
        word == *second
            && before
                .strip_suffix(first)
                .is_some_and(|number| number.ends_with(UNBROKEN))
    });
    second
        || (ends_in(|sign| sign.is_ascii_digit()) && (UNITS.contains(&word) || is_currency(word)))
}

/// Three capitals, as ISO 4217 writes the currencies.
fn is_currency(word: &str) -> bool {
    word.len() == 3 && word.bytes().all(|letter| letter.is_ascii_uppercase())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_and_its_unit_stand_together_in_texts_alone() {
        for (html, expected) in [
            ("crook 3.4 mm, limit 2 mm", "crook 3.4~mm, limit 2~mm"),
            ("0.10 ± 0.16 mm", "0.10 ±~0.16~mm"),
            ("950 × 84.5 × 46 mm", "950~× 84.5~× 46~mm"),
            ("loft · 43 % · 2 h", "loft~· 43~%~· 2~h"),
            ("6854 N m² and 11.5 bd ft", "6854~N~m² and 11.5~bd~ft"),
            ("166.20 EUR for 12 %.", "166.20~EUR for 12~%."),
            ("3 in 4 and 7 gauges of 3 OF", "3~in 4 and 7 gauges of 3 OF"),
            ("<b>3</b> mm", "<b>3</b> mm"),
            ("<p title=\"3 mm\">3 mm</p>", "<p title=\"3 mm\">3~mm</p>"),
            ("<path d=\"M1 2 m 3 4\">", "<path d=\"M1 2 m 3 4\">"),
            (
                "<textarea id=\"a\">3 mm</textarea>3 mm",
                "<textarea id=\"a\">3 mm</textarea>3~mm",
            ),
        ] {
            let expected = expected.replace('~', "\u{a0}");
            let found = number_and_unit_together(html);
            assert_eq!(found, expected);
            // A part of a region is treated before the region is.
            assert_eq!(number_and_unit_together(&found), expected);
        }
    }
}
