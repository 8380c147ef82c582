//! Texts shown so that nothing in them is hidden: what has no width, or turns the writing round, stands
//! there by its number.
//!
//! It changes no entry: what was written goes back into the file as it came.

use crate::record::log::entry::text::is_hidden as has_no_look;
use serde_json::Value;
use std::borrow::Cow;

/// The text with every sign that can't be seen, or that turns the writing round, as a token such as
/// `‹U+202E›`. Line ends and tabs stay; so do signs that scripts and emoji are written with (joiners
/// between letters of scripts that join, variation selectors after what they vary, the tags of a flag),
/// and marks of direction beside letters that are written from the right.
pub fn visible_text(text: &str) -> Cow<'_, str> {
    if !text.chars().any(is_hidden) {
        return Cow::Borrowed(text);
    }
    let signs: Vec<char> = text.chars().collect();
    let from_the_right = signs.iter().copied().any(is_from_the_right);
    let flags = tags_of_flags(&signs);
    let mut shown = String::with_capacity(text.len() + 16);
    let mut before = None;
    for (at, sign) in signs.iter().copied().enumerate() {
        let after = signs.get(at + 1).copied();
        if !is_hidden(sign) || flags[at] || belongs(sign, before, after, from_the_right) {
            shown.push(sign);
            before = Some(sign);
        } else {
            shown.push_str(&format!("‹U+{:04X}›", u32::from(sign)));
            before = Some('›');
        }
    }
    Cow::Owned(shown)
}

/// Whether a name or a mark holds a sign that can't be seen, a line end or a tab.
pub fn has_hidden_sign(name: &str) -> bool {
    let hidden = name.chars().any(has_no_look);
    hidden && (name.chars().any(char::is_control) || visible_text(name) != name)
}

/// The same as [`visible_text`] for every text in a body, which is JSON in order as entries keep it; `None` where nothing in
/// it is hidden. (In such a body only control characters are written by their numbers.)
pub(crate) fn visible_body(body: &str) -> Option<String> {
    let hidden = !body.is_ascii() && body.chars().any(is_hidden) || body.contains("\\u");
    let mut value = hidden
        .then(|| serde_json::from_str::<Value>(body).ok())
        .flatten()?;
    make_visible(&mut value).then(|| value.to_string())
}

/// Tells whether anything was changed. Texts lie no deeper than the reader of entries lets them.
fn make_visible(value: &mut Value) -> bool {
    match value {
        Value::String(text) => {
            let shown = match visible_text(text) {
                Cow::Borrowed(_) => return false,
                Cow::Owned(shown) => shown,
            };
            let changed = shown != *text;
            *text = shown;
            changed
        }
        Value::Array(values) => values
            .iter_mut()
            .fold(false, |changed, value| make_visible(value) | changed),
        Value::Object(values) => values
            .values_mut()
            .fold(false, |changed, value| make_visible(value) | changed),
        _ => false,
    }
}

/// Whether a sign shows nothing where it stands, or turns the writing round.
pub(crate) fn is_hidden(sign: char) -> bool {
    if sign.is_ascii() {
        return sign.is_ascii_control() && !matches!(sign, '\n' | '\t' | '\r');
    }
    has_no_look(sign)
        || matches!(sign, '\u{34f}' | '\u{17b4}' | '\u{17b5}' | '\u{180b}'..='\u{180f}'
            | '\u{fff0}'..='\u{fff8}' | '\u{1bca0}'..='\u{1bca3}' | '\u{1d173}'..='\u{1d17a}')
}

/// Whether a hidden sign is part of how its neighbours are written.
fn belongs(sign: char, before: Option<char>, after: Option<char>, from_the_right: bool) -> bool {
    match sign {
        '\u{200c}' => before.is_some_and(joins) && after.is_some_and(joins),
        '\u{200d}' => {
            let letters = before.is_some_and(joins) && after.is_none_or(joins);
            let pictures = before.is_some_and(|c| is_picture(c) || is_of_a_picture(c))
                && after.is_some_and(is_picture);
            letters || pictures
        }
        '\u{200e}' | '\u{200f}' | '\u{61c}' => from_the_right,
        '\u{180b}'..='\u{180d}' | '\u{180f}' => before.is_some_and(is_mongolian),
        '\u{fe00}'..='\u{fe0d}' => before.is_some_and(|c| is_ideograph(c) || is_symbol(c)),
        '\u{fe0e}' | '\u{fe0f}' => {
            let on_a_key = before.is_some_and(|c| c.is_ascii_digit() || c == '#' || c == '*')
                && after == Some('\u{20e3}');
            on_a_key || before.is_some_and(is_picture)
        }
        '\u{e0100}'..='\u{e01ef}' => before.is_some_and(is_ideograph),
        _ => false,
    }
}

/// Which signs are the tags of a flag: a black flag, letters and digits as tags, the tag that ends it
/// (Unicode Technical Standard 51, emoji tag sequences).
fn tags_of_flags(signs: &[char]) -> Vec<bool> {
    let mut flags = vec![false; signs.len()];
    let mut at = 0;
    while at < signs.len() {
        if signs[at] == '\u{1f3f4}' {
            let tags = &signs[at + 1..];
            let letters = tags
                .iter()
                .take_while(|c| matches!(c, '\u{e0030}'..='\u{e0039}' | '\u{e0061}'..='\u{e007a}'))
                .count();
            if (1..=6).contains(&letters) && tags.get(letters) == Some(&'\u{e007f}') {
                flags[at + 1..=at + 1 + letters].fill(true);
                at += letters + 1;
            }
        }
        at += 1;
    }
    flags
}

/// Letters and marks of scripts in which a joiner tells how letters are joined: Arabic and its kin, the
/// scripts of India and of south-east Asia, Mongolian. (The blocks of the Unicode Standard.)
fn joins(c: char) -> bool {
    matches!(c, '\u{600}'..='\u{61b}' | '\u{61d}'..='\u{7ff}' | '\u{840}'..='\u{fff}'
        | '\u{1000}'..='\u{109f}' | '\u{1780}'..='\u{17b3}' | '\u{17b6}'..='\u{180a}' | '\u{1810}'..='\u{18af}'
        | '\u{1900}'..='\u{1cff}' | '\u{a840}'..='\u{a87f}' | '\u{a8e0}'..='\u{abff}'
        | '\u{fb50}'..='\u{fdff}' | '\u{fe70}'..='\u{fefc}' | '\u{10a00}'..='\u{10fff}'
        | '\u{11000}'..='\u{11fff}' | '\u{1e900}'..='\u{1e95f}')
}

/// Letters that are written from the right: Hebrew, Arabic and their kin.
fn is_from_the_right(c: char) -> bool {
    matches!(c, '\u{5d0}'..='\u{5f4}' | '\u{620}'..='\u{64a}' | '\u{66e}'..='\u{6d5}'
        | '\u{6fa}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdfc}' | '\u{fe70}'..='\u{fefc}'
        | '\u{10800}'..='\u{10fff}' | '\u{1e800}'..='\u{1efff}')
}

/// What is drawn as a picture, or can be.
fn is_picture(c: char) -> bool {
    is_symbol(c) || matches!(c, '\u{1f000}'..='\u{1faff}' | '\u{a9}' | '\u{ae}')
}

/// What may stand between a picture and a joiner: a skin's shade, the selector of a picture.
fn is_of_a_picture(c: char) -> bool {
    matches!(c, '\u{fe0f}' | '\u{1f3fb}'..='\u{1f3ff}')
}

/// Arrows, signs of mathematics, technical and other signs.
fn is_symbol(c: char) -> bool {
    matches!(
        c,
        '\u{203c}' | '\u{2049}' | '\u{2100}'
            ..='\u{2bff}' | '\u{3030}' | '\u{303d}' | '\u{3297}' | '\u{3299}'
    )
}

fn is_ideograph(c: char) -> bool {
    matches!(c, '\u{3005}' | '\u{3400}'..='\u{9fff}' | '\u{f900}'..='\u{faff}' | '\u{20000}'..='\u{3ffff}')
}

fn is_mongolian(c: char) -> bool {
    matches!(c, '\u{1810}'..='\u{18af}' | '\u{11660}'..='\u{1167f}')
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::log::id::Id;
    use crate::record::log::{Added, DeviceId, Entry, Event, EventMeta, Limits, Log, Noted};
    use proptest::prelude::*;

    #[test]
    fn what_hides_or_turns_stands_there_by_its_number() {
        for (text, shown) in [
            ("by the \u{202e}rood", "by the ‹U+202E›rood"),
            ("No\u{200b}rth", "No‹U+200B›rth"),
            ("\u{feff}North", "‹U+FEFF›North"),
            ("a\u{2066}b\u{2069}c", "a‹U+2066›b‹U+2069›c"),
            ("K7\u{200d}13", "K7‹U+200D›13"),
            ("soft\u{ad}hyphen", "soft‹U+00AD›hyphen"),
            ("bell\u{7}", "bell‹U+0007›"),
            ("\u{3164}", "‹U+3164›"),
            ("one\u{2028}two", "one‹U+2028›two"),
            ("a\u{200f}b", "a‹U+200F›b"),
            ("a\u{e0041}b", "a‹U+E0041›b"),
            ("a\u{fe0f}b", "a‹U+FE0F›b"),
            ("a\u{34f}b", "a‹U+034F›b"),
        ] {
            assert_eq!(visible_text(text), shown);
        }
    }

    #[test]
    fn what_scripts_and_emoji_are_written_with_stays() {
        for text in [
            "plain, with ± and × and ″\nand a second line\t",
            "érable, 楓, ゼ",
            "می\u{200c}خواهم",
            "क्\u{200d}ष",
            "\u{200f}(3) אגוז\u{200e}",
            "👩\u{200d}🔧 👍🏽 ❤\u{fe0f} 1\u{fe0f}\u{20e3}",
            "🏳\u{fe0f}\u{200d}🌈",
            "🏴\u{e0067}\u{e0062}\u{e0073}\u{e0063}\u{e0074}\u{e007f}",
            "葛\u{e0100}",
        ] {
            assert!(
                matches!(visible_text(text), Cow::Borrowed(_)) || visible_text(text) == text,
                "{text}"
            );
        }
        // Even there nothing turns the writing round.
        assert_eq!(visible_text("אגוז\u{202d}12"), "אגוז‹U+202D›12");
    }

    #[test]
    fn a_body_is_shown_text_by_text_and_its_keys_are_left() {
        let body =
            "{\"name\":\"No\u{200b}rth\",\"of\":[\"a\",{\"b\":\"\\u0007\"}],\"w\u{200b}\":1}";
        let shown =
            "{\"name\":\"No‹U+200B›rth\",\"of\":[\"a\",{\"b\":\"‹U+0007›\"}],\"w\u{200b}\":1}";
        assert_eq!(visible_body(body).as_deref(), Some(shown));
        assert_eq!(visible_body("{\"name\":\"érable\"}"), None);
        assert_eq!(visible_body("{\"name\":\"می\u{200c}خ\"}"), None);
    }

    #[test]
    fn an_entry_shows_what_is_hidden_and_goes_out_as_it_was_written() {
        let limits = Limits::default();
        let line = |text: &str| {
            format!(
                "{{\"about\":\"017f22e2-79b0-7cc3-98c4-dc0c0c07398f\",\"at\":\"\",\"body\":{{\"text\":\"{text}\"}},\
                 \"by\":\"K\",\"happening\":\"noted\",\"id\":\"017f22e2-79b0-7cc3-98c4-dc0c0c073990\",\
                 \"on\":\"2026-03-07\",\"seq\":1,\"step\":10,\"v\":1}}"
            )
        };
        let written = line("turned \u{202e}round");
        for read in [
            Entry::from_json(&written, &limits),
            Entry::from_kept(&written, &limits),
        ] {
            let read = read.unwrap();
            let shown = "turned ‹U+202E›round".to_owned();
            assert_eq!(read.event, Event::Noted(Noted { text: shown }));
            assert_eq!(read.to_line(), written);
            // What stands there by its number when it is written is another entry.
            let other = Entry::from_json(&line("turned ‹U+202E›round"), &limits).unwrap();
            assert_eq!(read.event, other.event);
            assert_ne!(read, other);
            let mut log = Log::new();
            assert_eq!(log.add(read.clone()), Added::New);
            assert_eq!(log.add(read), Added::AlreadyHere);
            assert_eq!(log.add(other), Added::Altered);
        }
        let text = "hid\u{200b}den".to_owned();
        let author = DeviceId { by: "K".into() };
        let moment = EventMeta {
            id: Id::from_u128(1),
            seq: 1,
            step: 1,
            on: "2026-03-07".parse().unwrap(),
            on_confirmed: false,
            at: String::new(),
        };
        let own = author
            .entry(moment, Id::from_u128(2), Event::Noted(Noted { text }))
            .unwrap();
        let shown = "hid‹U+200B›den".to_owned();
        assert_eq!(own.event, Event::Noted(Noted { text: shown }));
        assert!(own.to_line().contains("hid\u{200b}den"));
    }

    proptest! {
        #[test]
        fn nothing_that_turns_is_left_and_a_second_time_changes_nothing(
            text in "(\\PC|[\u{200b}-\u{200f}\u{202a}-\u{202e}\u{2060}-\u{206f}\u{feff}👩א]){0,30}"
        ) {
            let shown = visible_text(&text).into_owned();
            let turns = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
            prop_assert!(!shown.chars().any(turns));
            prop_assert_eq!(visible_text(&shown), shown.as_str());
        }
    }
}
