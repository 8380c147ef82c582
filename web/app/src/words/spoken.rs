//! What core says, in the maker's language. Core says everything in English; here its names and sentences are found
//! in the language's catalogue, and its numbers get the language's decimal sign.
//!
//! The language that is spoken is set while a screen is drawn or an action is carried out ([`speaking`]), and by
//! nothing else.

use super::Language;
use super::line::Line;
use std::cell::Cell;
use std::cmp::Reverse;
use std::collections::{BTreeMap, HashMap};
use std::fmt::Display;
use std::sync::OnceLock;
use stillwood_core::order;

thread_local! {
    static SPOKEN: Cell<Language> = const { Cell::new(Language::English) };
}

/// Puts back the language that was spoken before, however the work ends.
struct Before(Language);

impl Drop for Before {
    fn drop(&mut self) {
        SPOKEN.set(self.0);
    }
}

/// Does something while a language is spoken.
pub fn speaking<T>(language: Language, work: impl FnOnce() -> T) -> T {
    let _before = Before(SPOKEN.replace(language));
    work()
}

/// The language that is spoken.
pub fn spoken_language() -> Language {
    SPOKEN.get()
}

/// What core says, in the language that is spoken.
pub trait Spoken {
    /// In the language that is spoken.
    fn spoken(&self) -> String;
}

impl<T: Display + ?Sized> Spoken for T {
    fn spoken(&self) -> String {
        in_language(spoken_language(), &self.to_string())
    }
}

/// A name of core's, in the language that is spoken: for labels that are known as a whole.
pub fn spoken_name(english: &'static str) -> &'static str {
    let catalogue = match spoken_language() {
        Language::English => english_words(),
        Language::German => german(),
    };
    catalogue.whole.get(english).copied().unwrap_or(english)
}

/// A name that may be core's or the maker's: only what is known as a whole is put into the language.
pub fn spoken_whole(name: &str) -> String {
    let catalogue = match spoken_language() {
        Language::English => english_words(),
        Language::German => german(),
    };
    catalogue.find(name).unwrap_or_else(|| name.to_owned())
}

/// What the screens call a name of core's; none where they call it so.
pub fn called(name: &str) -> Option<String> {
    match spoken_language() {
        Language::English => None,
        Language::German => german().whole.get(name).map(|says| (*says).to_owned()),
    }
}

/// What a heading or a word of core's is called in the table for a spreadsheet.
pub fn in_table_file(name: &str) -> Option<String> {
    let of_file = |lines: &[Line]| {
        lines
            .iter()
            .find(|(of, _)| *of == name)
            .map(|(_, says)| *says)
    };
    match spoken_language() {
        Language::English => None,
        Language::German => of_file(super::german::table_file::LINES)
            .map(str::to_owned)
            .or_else(|| called(name)),
    }
}

/// The catalogue of a language.
struct Catalogue {
    whole: HashMap<&'static str, &'static str>,
    /// Sentences with something left open that fit what begins with a byte, what says most by itself first; 0 has
    /// those that begin open.
    open: BTreeMap<u8, Vec<Sentence>>,
    /// Words that join two names.
    joints: &'static [Line],
}

#[derive(Clone)]
struct Sentence {
    pattern: Vec<Piece>,
    says: &'static str,
}

#[derive(Clone, Copy)]
enum Piece {
    Text(&'static str),
    Any,
    Number,
}

fn pieces(pattern: &'static str) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut rest = pattern;
    while let Some((before, after)) = rest.split_once('{') {
        if !before.is_empty() {
            pieces.push(Piece::Text(before));
        }
        let (inside, after) = after.split_once('}').unwrap_or((after, ""));
        pieces.push(if inside == "#" {
            Piece::Number
        } else {
            Piece::Any
        });
        rest = after;
    }
    if !rest.is_empty() {
        pieces.push(Piece::Text(rest));
    }
    pieces
}

impl Catalogue {
    fn of(lines: &[&[Line]], joints: &'static [Line]) -> Self {
        let mut whole = HashMap::new();
        let mut open: BTreeMap<u8, Vec<Sentence>> = BTreeMap::new();
        for (english, says) in lines.iter().copied().flatten().copied() {
            if !english.contains('{') {
                whole.insert(english, says);
                continue;
            }
            let pattern = pieces(english);
            let first = match pattern.first() {
                Some(Piece::Text(text)) => text.as_bytes().first().copied().unwrap_or_default(),
                _ => 0,
            };
            open.entry(first)
                .or_default()
                .push(Sentence { pattern, says });
        }
        let begins_open = open.get(&0).cloned().unwrap_or_default();
        for (first, sentences) in &mut open {
            if *first != 0 {
                sentences.extend(begins_open.iter().cloned());
            }
            order::sort_by_key(sentences, |one| Reverse(own_letters(&one.pattern)));
        }
        Self {
            whole,
            open,
            joints,
        }
    }

    fn find(&self, text: &str) -> Option<String> {
        if let Some(says) = self.whole.get(text) {
            return Some((*says).to_owned());
        }
        let first = text.as_bytes().first().copied()?;
        let sentences = self.open.get(&first).or_else(|| self.open.get(&0))?;
        sentences.iter().find_map(|one| one.say(self, text))
    }

    /// What is found of it as a whole, else sentence by sentence and part by part; what is not found stays as it is,
    /// with its numbers as the language writes them.
    fn say(&self, text: &str) -> String {
        let found = self.find(text);
        found
            .or_else(|| self.say_parts(text))
            .or_else(|| self.say_joined(text))
            .unwrap_or_else(|| with_comma(text))
    }

    /// Two names with a word between them, as `K7-5-P a of K7-5-P`.
    fn say_joined(&self, text: &str) -> Option<String> {
        self.joints.iter().find_map(|(joint, says)| {
            let (before, after) = text.split_once(joint)?;
            Some(format!("{}{says}{}", self.say(before), self.say(after)))
        })
    }

    /// Several sentences, or a list, of which at least one is known.
    fn say_parts(&self, text: &str) -> Option<String> {
        const BETWEEN: [(&str, &str); 5] =
            [("?", " "), (".", " "), (";", " "), (",", " "), (" ·", " ")];
        let least_known = |all: bool| {
            BETWEEN.into_iter().find_map(|(end, space)| {
                let between = format!("{end}{space}");
                let mut parts = split_outside(text, &between);
                let last = parts.len().saturating_sub(1);
                if last == 0 {
                    return None;
                }
                // A sentence keeps its end.
                let ends = if end == "?" || end == "." { end } else { "" };
                parts[..last]
                    .iter_mut()
                    .for_each(|part| part.push_str(ends));
                let known = parts
                    .iter()
                    .filter(|part| self.find(part).is_some())
                    .count();
                let enough = if all { known == parts.len() } else { known > 0 };
                let joint = between.strip_prefix(ends).unwrap_or(&between);
                let say = || {
                    parts
                        .iter()
                        .map(|part| self.say(part))
                        .collect::<Vec<_>>()
                        .join(joint)
                };
                enough.then(say)
            })
        };
        least_known(true).or_else(|| least_known(false))
    }
}

fn own_letters(pattern: &[Piece]) -> usize {
    let letters = pattern.iter().map(|piece| match piece {
        Piece::Text(text) => text.len(),
        Piece::Number => 1,
        Piece::Any => 0,
    });
    letters.sum()
}

/// The parts of a text between what divides it, but not inside brackets.
fn split_outside(text: &str, between: &str) -> Vec<String> {
    let mut parts = Vec::new();
    let mut part = String::new();
    for piece in text.split(between) {
        if !part.is_empty() {
            part.push_str(between);
        }
        part.push_str(piece);
        if part.matches('(').count() == part.matches(')').count() {
            parts.push(std::mem::take(&mut part));
        }
    }
    if !part.is_empty() {
        parts.push(part);
    }
    parts
}

/// What stands in the open places, where a text fits a pattern.
fn fits<'a>(pattern: &[Piece], text: &'a str, taken: &mut Vec<&'a str>) -> bool {
    let Some((piece, rest)) = pattern.split_first() else {
        return text.is_empty();
    };
    match piece {
        Piece::Text(own) => text
            .strip_prefix(own)
            .is_some_and(|text| fits(rest, text, taken)),
        Piece::Any | Piece::Number => {
            let ends: Vec<usize> = match rest.first() {
                None => vec![text.len()],
                // What stands in quotes ends where they do.
                Some(Piece::Text(next)) if next.starts_with('”') => {
                    text.find('”').into_iter().collect()
                }
                Some(Piece::Text(next)) => text.match_indices(next).map(|(at, _)| at).collect(),
                Some(_) => return false,
            };
            for end in ends {
                let Some((open, after)) = text.split_at_checked(end) else {
                    continue;
                };
                if open.is_empty() || (matches!(piece, Piece::Number) && !is_number(open)) {
                    continue;
                }
                let before = taken.len();
                taken.push(open);
                if fits(rest, after, taken) {
                    return true;
                }
                taken.truncate(before);
            }
            false
        }
    }
}

/// A number with what belongs to it and no more, as `−0.3`, `1:25`, `47.3 ± 1.2 mm` or `?`.
fn is_number(text: &str) -> bool {
    let first = text.chars().next();
    let begins = first.is_some_and(|sign| sign.is_ascii_digit() || "−-+±?".contains(sign));
    begins && !text.contains("; ") && !text.contains(", ")
}

impl Sentence {
    fn say(&self, catalogue: &Catalogue, text: &str) -> Option<String> {
        let mut taken = Vec::new();
        if !fits(&self.pattern, text, &mut taken) {
            return None;
        }
        // What stands in quotes was typed: it stays as it is.
        let mut quoted = Vec::with_capacity(taken.len());
        let mut before = "";
        for piece in &self.pattern {
            match piece {
                Piece::Text(own) => before = own,
                _ => quoted.push(before.ends_with(['“', '"', '„'])),
            }
        }
        let said: Vec<String> = taken
            .iter()
            .zip(quoted)
            .map(|(open, quoted)| {
                if quoted {
                    (*open).to_owned()
                } else {
                    catalogue.say(open)
                }
            })
            .collect();
        let mut filled = String::with_capacity(self.says.len() + text.len());
        let mut rest = self.says;
        let mut next = 0;
        while let Some((own, after)) = rest.split_once('{') {
            filled.push_str(own);
            let (inside, after) = after.split_once('}').unwrap_or((after, ""));
            let at = inside.parse().unwrap_or_else(|_| {
                next += 1;
                next - 1
            });
            filled.push_str(said.get(at).map_or("", String::as_str));
            rest = after;
        }
        filled.push_str(rest);
        Some(filled)
    }
}

/// A text with a decimal comma in its numbers: a point between digits, where no other point or dash stands beside
/// the number (a version, a day).
pub fn with_comma(text: &str) -> String {
    let signs: Vec<char> = text.chars().collect();
    let is_digit = |at: Option<usize>| {
        at.and_then(|at| signs.get(at))
            .is_some_and(char::is_ascii_digit)
    };
    let other_point = |from: usize, step: isize| {
        let mut at = from.checked_add_signed(step);
        while is_digit(at) {
            at = at.and_then(|at| at.checked_add_signed(step));
        }
        at.and_then(|at| signs.get(at)) == Some(&'.') && {
            let beyond = at.and_then(|at| at.checked_add_signed(step));
            is_digit(beyond)
        }
    };
    let decimal = |at: usize| {
        signs[at] == '.'
            && is_digit(at.checked_sub(1))
            && is_digit(Some(at + 1))
            && !other_point(at, -1)
            && !other_point(at, 1)
    };
    (0..signs.len())
        .map(|at| if decimal(at) { ',' } else { signs[at] })
        .collect()
}

static GERMAN: OnceLock<Catalogue> = OnceLock::new();
static ENGLISH: OnceLock<Catalogue> = OnceLock::new();

/// What core says, in a language.
pub fn in_language(language: Language, english: &str) -> String {
    match language {
        // English is core's own, save for words that the screens have another for.
        Language::English => {
            let found = english_words().find(english);
            found.unwrap_or_else(|| english.to_owned())
        }
        Language::German => german().say(english),
    }
}

/// Whether the German catalogue knows it, as a whole or part by part.
pub fn is_known_in_german(english: &str) -> bool {
    let german = german();
    german
        .find(english)
        .or_else(|| german.say_parts(english))
        .is_some()
}

fn english_words() -> &'static Catalogue {
    ENGLISH.get_or_init(|| Catalogue::of(&[super::english_core::LINES], &[]))
}

fn german() -> &'static Catalogue {
    GERMAN.get_or_init(|| {
        let mut all = Catalogue::of(super::german::core::ALL, super::german::core::JOINTS);
        all.whole.extend(super::german::wood_names::by_own_name());
        all
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_core_says_is_put_into_german_with_what_stands_in_it() {
        let said = |text| in_language(Language::German, text);
        assert_eq!(said("twist"), "Verdrehung");
        assert_eq!(said("“bow” is not a number."), "„bow“ ist keine Zahl.");
        assert_eq!(said("47.3 ± 1.2 mm"), "47,3 ± 1,2 mm");
        assert_eq!(
            said("the width was not measured"),
            "die Breite wurde nicht gemessen"
        );
        assert_eq!(
            said("Is that 1450, or 1.4500? Type it that way."),
            "Ist das 1450 oder 1,4500? Tippe es so."
        );
        assert_eq!(said("0.15 mm left"), "0,15 mm links");
        assert_eq!(said("Rack 7"), "Rack 7");
    }

    #[test]
    fn only_a_decimal_point_becomes_a_comma() {
        assert_eq!(with_comma("1:15.6 (1:14.1)"), "1:15,6 (1:14,1)");
        assert_eq!(with_comma("version 0.9.12"), "version 0.9.12");
        assert_eq!(with_comma("5.5.3.2.2"), "5.5.3.2.2");
        assert_eq!(with_comma("20. Nov."), "20. Nov.");
    }

    #[test]
    fn the_language_before_comes_back() {
        let inside = speaking(Language::German, || {
            speaking(Language::English, spoken_language)
        });
        assert_eq!(
            (inside, spoken_language()),
            (Language::English, Language::English)
        );
    }
}
