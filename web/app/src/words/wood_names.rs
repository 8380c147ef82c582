//! Woods by the names that the language has for those of the table. The record, half-typed forms and filters hold the
//! table's own name, so that they read the same in every language: it is put into the language where it is shown, and
//! out of it where it is typed. A name that the table does not have is the maker's, and stays.

use super::Language;
use super::german::wood_names::{WOODS, by_own_name};
use super::spoken::spoken_language;
use std::collections::HashMap;
use std::sync::OnceLock;
use stillwood_core::wood::{Species, search_among_called, species};

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

static OWN_NAMES: OnceLock<HashMap<String, &'static str>> = OnceLock::new();

/// The table's own name of a wood, by any of its names in small letters; of none by which several woods go.
fn own_names() -> &'static HashMap<String, &'static str> {
    OWN_NAMES.get_or_init(|| {
        let mut own: HashMap<String, &'static str> = HashMap::new();
        let mut several: Vec<String> = Vec::new();
        for wood in species() {
            for name in wood.names() {
                let name = name.to_lowercase();
                let known = own.insert(name.clone(), wood.name());
                if known.is_some_and(|known| known != wood.name()) {
                    several.push(name);
                }
            }
        }
        for name in several {
            own.remove(&name);
        }
        for wood in species() {
            own.insert(wood.name().to_lowercase(), wood.name());
        }
        own
    })
}

/// A wood as it is named in the record, or several with commas between them: one wood has one name on every screen,
/// by whichever of its names a yard has it.
pub fn shown(named: &str) -> String {
    let one = |name: &str| {
        let own = own_names().get(&name.to_lowercase()).copied();
        in_field(own.unwrap_or(name))
    };
    named.split(", ").map(one).collect::<Vec<_>>().join(", ")
}

/// A wood in a field that is typed in: as it stands there, in the words of the language.
pub fn in_field(named: &str) -> String {
    let known = names().and_then(|names| names.by_name.get(named).copied());
    known.unwrap_or(named).to_owned()
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::spoken::speaking;

    #[test]
    fn a_wood_has_one_name_by_whichever_a_yard_names_it() {
        for (language, own, several) in [
            (
                Language::English,
                "European maple",
                "soft maple, hard maple",
            ),
            (Language::German, "Bergahorn", "soft maple, Zuckerahorn"),
        ] {
            speaking(language, || {
                assert_eq!(shown("sycamore maple"), own);
                assert_eq!(
                    shown("Sycamore Maple, European maple"),
                    format!("{own}, {own}")
                );
                // Two woods go by the one name, and one of two woods has the other as its own.
                assert_eq!(shown("soft maple, hard maple"), several);
                // A name of the maker's own stays, and so does what stands in a field.
                assert_eq!(shown("river cherry"), "river cherry");
                assert_eq!(in_field("sycamore maple"), "sycamore maple");
            });
        }
    }
}
