//! Finds English on a German screen: what a table has in English, and words that only English has.

use std::collections::BTreeSet;
use stillwood_app::desk::{attributes_of, text_of};
use stillwood_app::page::Page;
use stillwood_app::words::german::wood_names::WOODS;
use stillwood_app::words::{Language, words_of};
use stillwood_core::wood::{citations, find, species};

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
    "never",
    "typed",
    "wood",
    "share",
    "none",
    "known",
    "nothing",
];

/// Names of documents and of woods are not put into another language: what is left in English, and why.
const NAMES_OF_DOCUMENTS: &[&str] = &[
    "wood handbook",
    "nist/sematech e-handbook",
    "jcgm 106:2012, 8.3",
    "2001, abschnitt 4.3",
    "#17 african populations",
];

/// What knows English.
pub(crate) struct English {
    sentences: BTreeSet<&'static str>,
    names: Vec<String>,
    /// The table's own names of woods that have another in German.
    woods: BTreeSet<String>,
}

fn english_woods() -> BTreeSet<String> {
    let german = WOODS
        .iter()
        .filter_map(|(id, says)| Some((find(id)?, says)));
    german
        .map(|(wood, says)| (wood.name().to_lowercase(), says.to_lowercase()))
        .filter(|(own, says)| own != says)
        .map(|(own, _)| own)
        .collect()
}

/// Whether words stand in a line, and not only as a part of other words.
fn stands_in(line: &str, words: &str) -> bool {
    let ends = |side: Option<char>| side.is_none_or(|sign| !sign.is_alphanumeric());
    line.match_indices(words).any(|(at, _)| {
        ends(line[..at].chars().next_back()) && ends(line[at + words.len()..].chars().next())
    })
}

/// Texts in a value of JSON, but for those that name a choice of the app's own.
fn strings(value: &serde_json::Value, into: &mut BTreeSet<String>) {
    const CHOICES: [&str; 7] = [
        "kind",
        "decision",
        "stage",
        "test",
        "reasons",
        "happening",
        "unit",
    ];
    match value {
        serde_json::Value::String(text) => drop(into.insert(text.to_lowercase())),
        serde_json::Value::Array(list) => list.iter().for_each(|one| strings(one, into)),
        serde_json::Value::Object(map) => {
            let typed = map
                .iter()
                .filter(|(key, _)| !CHOICES.contains(&key.as_str()));
            typed.for_each(|(_, one)| strings(one, into));
        }
        _ => {}
    }
}

impl English {
    /// With what the maker typed in the sample, which is not the app's to put into another language.
    pub(crate) fn with_sample(sample: &[u8]) -> Self {
        let german = words_of(Language::German).all();
        let english = words_of(Language::English).all();
        let differ = english
            .iter()
            .zip(german)
            .filter(|(one, other)| one.2 != other.2);
        let file: serde_json::Value = serde_json::from_slice(sample).unwrap();
        let mut names = BTreeSet::new();
        strings(&file, &mut names);
        // What the gallery types.
        names.insert("26 feet or so".to_owned());
        names.extend(NAMES_OF_DOCUMENTS.iter().map(|one| (*one).to_owned()));
        for wood in species() {
            names.extend(wood.names().iter().map(|name| name.to_lowercase()));
        }
        // A name of a wood that German has another for is English, wherever it stands.
        let woods = english_woods();
        names.retain(|name| !woods.contains(name));
        names.extend(citations().iter().map(|source| source.text.to_lowercase()));
        let mut names: Vec<String> = names.into_iter().filter(|text| text.len() > 3).collect();
        names.sort_by_key(|text| std::cmp::Reverse(text.len()));
        Self {
            woods,
            sentences: differ
                .map(|(one, _)| one.2)
                .filter(|text| text.len() > 3)
                .collect(),
            names,
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

    /// Why a line is English; none where it is not.
    pub(crate) fn is_english(&self, line: &str) -> Option<String> {
        let is_typed = self.names.contains(&line.to_lowercase());
        if self.sentences.contains(line) && !is_typed {
            return Some("a sentence of the English table".to_owned());
        }
        let mut line = without_what_was_typed(&line.to_lowercase());
        for text in &self.names {
            if line.contains(text.as_str()) {
                line = line.replace(text.as_str(), " ");
            }
        }
        // Under which other names a wood goes is told in full.
        if !line.starts_with("heißt auch") {
            let found = self.woods.iter().find(|wood| stands_in(&line, wood));
            if let Some(wood) = found {
                return Some(format!("the wood {wood}"));
            }
        }
        let mut words = line.split(|sign: char| !sign.is_alphanumeric() && sign != '\'');
        if let Some(word) = words.find(|word| STOP_WORDS.contains(word)) {
            return Some(word.to_owned());
        }
        has_decimal_point(&line).then(|| "a decimal point".to_owned())
    }
}

/// Without what stands in quotes, or after “eingetippt”: it is shown as it was typed.
fn without_what_was_typed(line: &str) -> String {
    let mut kept = String::new();
    let mut rest = line;
    while let Some((before, after)) = rest.split_once(['„', '“']) {
        kept.push_str(before);
        rest = after.split_once(['“', '”']).map_or("", |(_, after)| after);
    }
    kept.push_str(rest);
    let Some((before, after)) = kept.split_once("eingetippt ") else {
        return kept;
    };
    let after = after.split_once(')').map_or("", |(_, after)| after);
    without_what_was_typed(&format!("{before}{after}"))
}

/// A point between digits; not that of a version, which has two.
fn has_decimal_point(line: &str) -> bool {
    let words = line.split(|sign: char| !sign.is_ascii_digit() && sign != '.');
    let points = words.map(|word| word.trim_matches('.').matches('.').count());
    points.into_iter().any(|points| points == 1)
}
