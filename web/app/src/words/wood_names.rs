//! Woods by the names that the language has for those of the table. The record, half-typed forms and filters hold the
//! table's own name, so that they read the same in every language: it is put into the language where it is shown, and
//! out of it where it is typed. A name that the table does not have is the maker's, and stays.

use super::Language;
use super::german::wood_names::{WOODS, by_own_name};
use super::spoken::spoken_language;
use std::collections::HashMap;
use std::sync::OnceLock;
use stillwood_core::wood::{Species, search_among_called};

struct Names {
    by_id: HashMap<&'static str, &'static str>,
    /// By the table's own name.
    by_name: HashMap<&'static str, &'static str>,
    /// The table's own name, by that of the language in small letters.
    own: HashMap<String, &'static str>,
}

static GERMAN: OnceLock<Names> = OnceLock::new();

fn names() -> Option<&'static Names> {
    match spoken_language() {
        Language::English => None,
        Language::German => Some(GERMAN.get_or_init(|| {
            Names {
                by_id: WOODS.iter().copied().collect(),
                by_name: by_own_name().collect(),
                own: by_own_name()
                    .map(|(own, says)| (says.to_lowercase(), own))
                    .collect(),
            }
        })),
    }
}

fn of_table(wood: &Species) -> Option<&'static str> {
    names()?.by_id.get(wood.id()).copied()
}

/// The name of a wood.
pub fn wood_name(wood: &Species) -> &str {
    of_table(wood).unwrap_or(wood.name())
}

/// All other names of a wood.
pub fn other_names(wood: &Species) -> Vec<&str> {
    let shown = wood_name(wood);
    let names = wood.names().iter().map(String::as_str);
    names.filter(|name| *name != shown).collect()
}

/// By what else of this language a yard may name a wood: where the names of the table are translated, each has the one.
pub fn aliases(wood: &Species) -> Vec<&str> {
    match names() {
        None => other_names(wood),
        Some(_) => Vec::new(),
    }
}

/// A wood as it is named in the record, or several with commas between them.
pub fn shown(named: &str) -> String {
    match names() {
        None => named.to_owned(),
        Some(names) => {
            let one = |name| names.by_name.get(name).copied().unwrap_or(name);
            named.split(", ").map(one).collect::<Vec<_>>().join(", ")
        }
    }
}

/// What is typed for a wood, as the record names it.
pub fn as_recorded(typed: &str) -> String {
    let own = names().and_then(|names| names.own.get(&typed.trim().to_lowercase()));
    own.map_or_else(|| typed.to_owned(), |own| (*own).to_owned())
}

/// The woods that may be meant by what is typed, best first, with the name that fits best.
pub fn search_woods<'a>(
    among: impl IntoIterator<Item = &'a Species>,
    typed: &str,
) -> Vec<(&'a Species, &'a str)> {
    let found = search_among_called(among, typed, &|wood| of_table(wood));
    found
        .into_iter()
        .map(|found| (found.species, found.name))
        .collect()
}
