//! Finds English on a German screen: what a table has in English, and words that only English has.

use std::collections::BTreeSet;
use stillwood_app::desk::{attributes_of, text_of};
use stillwood_app::page::Page;
use stillwood_app::words::{Language, words_of};

/// Words of English that German does not have.
const STOP_WORDS: &[&str] = &[
    "the",
    "of",
    "and",
    "is",
    "are",
    "not",
    "with",
    "for",
    "from",
    "its",
    "it",
    "that",
    "which",
    "by",
    "to",
    "on",
    "no",
    "yet",
    "be",
    "has",
    "have",
    "one",
    "each",
    "or",
    "at",
    "as",
    "than",
    "this",
    "were",
    "been",
    "where",
    "when",
    "there",
    "here",
    "your",
    "you",
    "they",
    "left",
    "length",
    "width",
    "thickness",
    "weight",
    "moisture",
    "plank",
    "planks",
    "piece",
    "pieces",
    "laminate",
    "laminates",
    "blank",
    "blanks",
    "bow",
    "crook",
    "twist",
    "cup",
    "grain",
    "rings",
    "read",
    "day",
    "days",
    "month",
    "months",
    "week",
    "weeks",
    "about",
    "measured",
    "bought",
    "rejected",
    "ready",
    "rest",
    "never",
    "typed",
    "wood",
    "share",
    "none",
    "known",
    "nothing",
];

/// What knows English.
pub(crate) struct English {
    sentences: BTreeSet<&'static str>,
    typed: Vec<String>,
}

fn strings(value: &serde_json::Value, into: &mut BTreeSet<String>) {
    match value {
        serde_json::Value::String(text) => drop(into.insert(text.clone())),
        serde_json::Value::Array(list) => list.iter().for_each(|one| strings(one, into)),
        serde_json::Value::Object(map) => map.iter().for_each(|(key, one)| {
            // What names a choice of the app's is not the maker's.
            if !["kind", "decision", "stage", "test", "reasons", "happening"]
                .contains(&key.as_str())
            {
                strings(one, into);
            }
        }),
        _ => {}
    }
}

impl English {
    /// With what the maker typed in the sample.
    pub(crate) fn with_sample(sample: &[u8]) -> Self {
        let german = words_of(Language::German).all();
        let sentences = words_of(Language::English).all();
        let differ = sentences
            .iter()
            .zip(german)
            .filter(|(one, other)| one.2 != other.2);
        let file: serde_json::Value = serde_json::from_slice(sample).unwrap();
        let mut typed = BTreeSet::new();
        strings(&file, &mut typed);
        let mut typed: Vec<String> = typed.into_iter().filter(|text| text.len() > 3).collect();
        typed.sort_by_key(|text| std::cmp::Reverse(text.len()));
        Self {
            sentences: differ
                .map(|(one, _)| one.2)
                .filter(|text| text.len() > 3)
                .collect(),
            typed,
        }
    }

    /// Lines of a screen that are English, and why.
    pub(crate) fn shown_on(&self, page: &Page) -> Vec<(String, String)> {
        let mut lines = vec![page.title.clone()];
        for region in &page.regions {
            lines.extend(text_of(&region.html).lines().map(str::to_owned));
            lines.extend(attributes_of(&region.html));
        }
        let judged = lines.into_iter().map(|line| (self.is_english(&line), line));
        judged
            .filter_map(|(why, line)| Some((line, why?)))
            .collect()
    }

    fn is_english(&self, line: &str) -> Option<String> {
        if self.sentences.contains(line) {
            return Some("a sentence of the English table".to_owned());
        }
        let mut line = line.to_owned();
        for text in &self.typed {
            if line.contains(text.as_str()) {
                line = line.replace(text.as_str(), " ");
            }
        }
        let words = line.split(|sign: char| !sign.is_alphanumeric() && sign != '\'');
        let lower = words.map(str::to_lowercase);
        let found = lower
            .filter(|word| STOP_WORDS.contains(&word.as_str()))
            .next();
        if found.is_some() {
            return found;
        }
        let signs: Vec<char> = line.chars().collect();
        let point = signs
            .windows(3)
            .any(|three| three[0].is_ascii_digit() && three[1] == '.' && three[2].is_ascii_digit());
        point.then(|| "a decimal point".to_owned())
    }
}
