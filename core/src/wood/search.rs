//! Finding a wood by what a hand types: any case, accents, order of words, one or two slips. It offers
//! matches, best first; it never picks one.

use super::species::Species;
use super::table::species;
use crate::order;

/// A wood that may be meant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Match<'a> {
    pub species: &'a Species,
    /// The name of it that fits best.
    pub name: &'a str,
    /// Whether every word typed stands in that name letter by letter.
    pub exact: bool,
    cost: u32,
}

/// Words that add nothing to the name of a wood.
const FILLERS: [&str; 3] = ["wood", "timber", "lumber"];

/// The woods of the table that may be meant, best first; empty when none is near.
pub fn search(text: &str) -> Vec<Match<'static>> {
    search_among(species(), text)
}

/// As [`search`], among any woods: the table's and the maker's own.
pub fn search_among<'a>(
    woods: impl IntoIterator<Item = &'a Species>,
    text: &str,
) -> Vec<Match<'a>> {
    search_among_called(woods, text, &|_| None)
}

/// As [`search_among`], of woods that have another name besides: that of the maker's language.
pub fn search_among_called<'a>(
    woods: impl IntoIterator<Item = &'a Species>,
    text: &str,
    called: &dyn Fn(&Species) -> Option<&'static str>,
) -> Vec<Match<'a>> {
    let mut typed = words(text);
    if typed.iter().any(|word| !FILLERS.contains(&word.as_str())) {
        typed.retain(|word| !FILLERS.contains(&word.as_str()));
    }
    if typed.is_empty() {
        return Vec::new();
    }
    let mut found: Vec<Match<'a>> = woods
        .into_iter()
        .filter_map(|wood| best_name(wood, &typed, called(wood)))
        .collect();
    order::sort_by_key(&mut found, |found| found.cost);
    found
}

fn best_name<'a>(
    wood: &'a Species,
    typed: &[String],
    called: Option<&'static str>,
) -> Option<Match<'a>> {
    let names = wood.names().iter().map(String::as_str);
    let names = names.chain([wood.scientific_name(), wood.id()]);
    let as_typed = names
        .chain(called)
        .filter_map(|name| Some((name, fit(typed, &words(name))?)));
    // Some languages write a name as one word: "Ahorn" stands in "Bergahorn".
    let inside = called.and_then(|name| Some((name, stands_inside(typed, &words(name))?)));
    as_typed
        .chain(inside)
        .map(|(name, (slips, left_over))| Match {
            species: wood,
            name,
            exact: slips == 0,
            cost: 10 * slips + left_over,
        })
        .min_by_key(|found| found.cost)
}

/// What it takes where every typed word stands somewhere in a word of the name.
fn stands_inside(typed: &[String], name: &[String]) -> Option<(u32, u32)> {
    let inside = |word: &String| {
        word.chars().count() >= 4
            && name
                .iter()
                .any(|candidate| candidate.contains(word.as_str()))
    };
    typed.iter().all(inside).then_some((2, 0))
}

/// What it takes to fit every typed word to a word of the name, and how many of its words are left.
fn fit(typed: &[String], name: &[String]) -> Option<(u32, u32)> {
    word_by_word(typed, name).or_else(|| {
        // "purple heart", "zebra wood": one word written as two, or the other way round.
        let slips = distance(&typed.concat(), &name.concat())?;
        Some((1 + 3 * slips, 0))
    })
}

fn word_by_word(typed: &[String], name: &[String]) -> Option<(u32, u32)> {
    let mut left: Vec<&String> = name.iter().collect();
    let mut slips = 0;
    for word in typed {
        let (cost, index) = left
            .iter()
            .enumerate()
            .filter_map(|(index, candidate)| Some((fit_word(word, candidate)?, index)))
            .min()?;
        slips += cost;
        left.remove(index);
    }
    Some((slips, u32::try_from(left.len()).unwrap_or(u32::MAX)))
}

/// 0 the same, 1 the beginning, 3 for every slip.
fn fit_word(typed: &str, name: &str) -> Option<u32> {
    if typed == name {
        Some(0)
    } else if typed.len() >= 2 && name.starts_with(typed) {
        Some(1)
    } else {
        Some(3 * distance(typed, name)?)
    }
}

/// Letters wrong, missing, added or swapped with a neighbour (optimal string alignment), when few
/// enough for the shorter word: none up to three letters, one up to five, two beyond.
fn distance(a: &str, b: &str) -> Option<u32> {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    let allowed = match a.len().min(b.len()) {
        0..=3 => 0,
        4..=5 => 1,
        _ => 2,
    };
    if a.len().abs_diff(b.len()) > allowed {
        return None;
    }
    let mut before: Vec<usize> = Vec::new();
    let mut above: Vec<usize> = (0..=b.len()).collect();
    for (i, &x) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, &y) in b.iter().enumerate() {
            let mut least = (above[j] + usize::from(x != y))
                .min(above[j + 1] + 1)
                .min(row[j] + 1);
            if i > 0 && j > 0 && x == b[j - 1] && a[i - 1] == y {
                least = least.min(before[j - 1] + 1);
            }
            row.push(least);
        }
        before = std::mem::replace(&mut above, row);
    }
    let slips = above[b.len()];
    (slips <= allowed).then(|| u32::try_from(slips).unwrap_or(u32::MAX))
}

/// Small letters without accents, split at everything else.
fn words(text: &str) -> Vec<String> {
    let plain: String = text
        .chars()
        .flat_map(char::to_lowercase)
        .filter(|c| !('\u{300}'..='\u{36f}').contains(c) && !matches!(c, '\'' | '’'))
        .map(without_accent)
        .collect();
    plain
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty() && *word != "spp")
        .map(str::to_owned)
        .collect()
}

fn without_accent(c: char) -> char {
    match c {
        'à'..='å' | 'ā' | 'ă' | 'ą' => 'a',
        'ç' | 'ć' | 'č' => 'c',
        'è'..='ë' | 'ē' | 'ę' | 'ě' => 'e',
        'ì'..='ï' | 'ī' => 'i',
        'ñ' | 'ń' | 'ň' => 'n',
        'ò'..='ö' | 'ø' | 'ō' => 'o',
        'ù'..='ü' | 'ū' | 'ů' => 'u',
        'ý' | 'ÿ' => 'y',
        'š' | 'ś' => 's',
        'ž' | 'ź' | 'ż' => 'z',
        'ł' => 'l',
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wood::OwnWood;

    fn first(text: &str) -> &'static str {
        search(text).first().map_or("", |found| found.species.id())
    }

    #[test]
    fn a_hand_that_slips_still_finds_the_wood() {
        for (typed, id) in [
            ("Hard Maple", "maple-sugar"),
            ("maple, hard", "maple-sugar"),
            ("hrad mapel", "maple-sugar"),
            ("acer sacharum", "maple-sugar"),
            ("SACCHARUM acer", "maple-sugar"),
            ("walnut black", "walnut-black"),
            ("balck wallnut", "walnut-black"),
            ("wengé", "wenge"),
            ("wange", "wenge"),
            ("Gonçalo Alves", "goncalo-alves"),
            ("okoumé", "okoume"),
            ("purple heart", "purpleheart"),
            ("purpelheart", "purpleheart"),
            ("zebra wood", "zebrano"),
            ("maple-bigleaf", "maple-bigleaf"),
            ("big leaf maple", "maple-bigleaf"),
            ("indian rosewod", "rosewood-indian"),
            ("pau fero", "pau-ferro"),
            ("Khaya", "mahogany-african"),
            ("cherry", "cherry-black"),
        ] {
            assert_eq!(first(typed), id, "{typed}");
        }
    }

    #[test]
    fn what_is_not_in_the_table_is_not_guessed() {
        for typed in [
            "river cherry",
            "xyzzy",
            "",
            "  ",
            "!!",
            "oak bog moonwood",
            "e",
        ] {
            assert!(search(typed).is_empty(), "{typed}: {:?}", first(typed));
        }
    }

    #[test]
    fn exact_says_whether_letters_had_to_be_bent() {
        assert!(search("hard maple")[0].exact);
        assert!(!search("hard mapel")[0].exact);
        assert_eq!(search("afara")[0].name, "afara");
    }

    #[test]
    fn a_makers_own_wood_is_found_beside_the_table() {
        let own = Species::from(OwnWood {
            id: "river-cherry".into(),
            name: "river cherry".into(),
            ..OwnWood::default()
        });
        let all = species().iter().chain([&own]);
        assert_eq!(search_among(all, "rivver cherry")[0].species, &own);
    }

    #[test]
    fn another_language_has_names_that_are_one_word() {
        let called = |wood: &Species| (wood.id() == "maple-sugar").then_some("Zuckerahorn");
        let found = |typed| {
            let found = search_among_called(species(), typed, &called);
            found
                .into_iter()
                .map(|one| (one.species.id(), one.name))
                .next()
        };
        for typed in ["Zuckerahorn", "zuckerahron", "zucker ahorn", "Ahorn"] {
            assert_eq!(
                found(typed),
                Some(("maple-sugar", "Zuckerahorn")),
                "{typed}"
            );
        }
        // A few letters stand in many words.
        assert_eq!(
            found("hor"),
            search("hor")
                .first()
                .map(|one| (one.species.id(), one.name))
        );
        assert!(search("Zuckerahorn").is_empty());
    }
}
