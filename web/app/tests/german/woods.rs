//! Woods by their German names: shown, typed, searched for and saved.

use super::{DAY, SAMPLE};
use std::collections::BTreeSet;
use stillwood_app::desk::Desk;
use stillwood_app::effect::FileContent;
use stillwood_app::form::FormAction;
use stillwood_app::words::german::{table_file, wood_names as german};
use stillwood_app::words::{Language, in_table_file, speaking, wood_names};
use stillwood_app::{Action, Route};
use stillwood_core::record::{HEADINGS, Id};
use stillwood_core::wood::species;

fn german_desk() -> Desk {
    Desk::new_ones_speak(Language::German);
    let desk = Desk::with_file(SAMPLE, DAY).unwrap();
    Desk::new_ones_speak(Language::English);
    desk
}

fn in_german<T>(work: impl FnOnce() -> T) -> T {
    speaking(Language::German, work)
}

#[test]
fn every_wood_of_the_table_has_one_german_name_of_its_own() {
    let named: BTreeSet<&str> = german::WOODS.iter().map(|(id, _)| *id).collect();
    let all: BTreeSet<&str> = species().iter().map(|wood| wood.id()).collect();
    assert_eq!(named, all);
    assert_eq!(german::WOODS.len(), species().len());
    let names: BTreeSet<String> = german::WOODS
        .iter()
        .map(|(_, name)| name.to_lowercase())
        .collect();
    assert_eq!(names.len(), species().len(), "two woods of one name");
    for wood in species() {
        in_german(|| {
            let shown = wood_names::shown(wood.name());
            assert_eq!(shown, wood_names::wood_name(wood), "{}", wood.id());
            assert_eq!(wood_names::as_recorded(&shown), wood.name());
            assert_eq!(wood_names::as_recorded(&shown.to_lowercase()), wood.name());
            let found = wood_names::search_woods(species(), &shown);
            assert_eq!(found[0].0.id(), wood.id(), "{shown}: {:?}", found[0].1);
            // A name that belongs to another wood of the table would be taken for it.
            let other = species().iter().find(|other| {
                other.id() != wood.id()
                    && other
                        .names()
                        .iter()
                        .any(|name| name.to_lowercase() == shown.to_lowercase())
            });
            assert!(other.is_none(), "{shown} is {other:?} as well");
        });
        assert_eq!(wood_names::shown(wood.name()), wood.name(), "English stays");
    }
}

#[test]
fn a_part_of_a_german_name_finds_it() {
    in_german(|| {
        let ids = |typed: &str| -> Vec<String> {
            let found = wood_names::search_woods(species(), typed);
            found.iter().map(|(wood, _)| wood.id().to_owned()).collect()
        };
        let maples = ids("Ahorn");
        assert!(
            maples.len() >= 6 && maples.iter().all(|id| id.starts_with("maple")),
            "{maples:?}"
        );
        assert!(ids("palisander").len() >= 4);
        assert_eq!(
            ids("Nussbaum")[..3]
                .iter()
                .filter(|id| id.starts_with("walnut"))
                .count(),
            3
        );
        // English names are still found.
        assert_eq!(ids("hard maple")[0], "maple-sugar");
    });
    assert!(
        wood_names::search_woods(species(), "Zuckerahorn").is_empty(),
        "English has no such name"
    );
}

#[test]
fn a_wood_that_is_typed_in_german_is_recorded_as_in_english() {
    let mut desk = german_desk();
    let visit = desk.model.state().visits().next().unwrap().id;
    let before: BTreeSet<Id> = desk
        .model
        .state()
        .piles_of(visit)
        .map(|pile| pile.id)
        .collect();
    desk.go(Route::NewPile(visit));
    desk.type_into("Wood", "zucker");
    assert!(desk.press("Zuckerahorn"), "{}", desk.reads());
    let field = |desk: &Desk| {
        desk.page()
            .regions
            .iter()
            .any(|one| one.html.contains("value=\"Zuckerahorn\""))
    };
    assert!(field(&desk), "it stands in the field");
    desk.act(FormAction::Save);
    assert!(desk.model.form.is_none(), "{}", desk.reads());
    let piles = desk.model.state().piles_of(visit);
    let made = piles
        .filter(|pile| !before.contains(&pile.id))
        .last()
        .unwrap()
        .clone();
    assert_eq!(made.opened.species.text, "hard maple");
    assert_eq!(made.opened.species.id.as_deref(), Some("maple-sugar"));

    desk.go(Route::EditPile(made.id));
    assert!(field(&desk), "and again when the pile is changed");
    desk.type_into("Wood", "Omas Ahorn");
    desk.act(FormAction::Save);
    let named = &desk.model.state().pile(made.id).unwrap().opened.species;
    assert_eq!(
        (named.text.as_str(), &named.id),
        ("Omas Ahorn", &None),
        "the maker's own stays"
    );
}

fn is_mark(line: &str) -> bool {
    let parts: Vec<&str> = line.split('-').collect();
    parts.len() == 3 && parts[1].parse::<u32>().is_ok()
}

#[test]
fn what_is_shown_is_what_a_search_finds() {
    let mut desk = german_desk();
    desk.go(Route::Planks);
    let marks = |desk: &Desk| desk.reads().lines().filter(|line| is_mark(line)).count();
    let all = marks(&desk);
    desk.type_into("search", "hard maple");
    let maples = marks(&desk);
    assert!(maples > 5 && maples < all, "{maples} of {all}");
    for typed in ["zuckerahorn", "Zucker ahorn"] {
        desk.type_into("search", typed);
        assert_eq!(marks(&desk), maples, "{typed}");
    }
    desk.type_into("search", "verdrehung");
    let twisted = marks(&desk);
    desk.type_into("search", "twist");
    assert!(
        twisted > 0 && twisted <= marks(&desk),
        "notes may say twist as well"
    );
    desk.type_into("search", "");
    for typed in ["Zuckerahorn", "zucker", "hard maple", "Verdrehung"] {
        desk.go(Route::Find);
        desk.type_into("find", typed);
        assert!(marks(&desk) > 0, "{typed}: {}", desk.reads());
    }
    desk.go(Route::Racks);
    let racked = |desk: &mut Desk, typed: &str| {
        desk.type_into("words", typed);
        desk.reads().replace(typed, "…")
    };
    let found = racked(&mut desk, "hard maple");
    assert!(found.contains("K7-32"));
    assert_eq!(racked(&mut desk, "zuckerahorn"), found);
    assert_ne!(racked(&mut desk, "nussbaum"), found);
}

#[test]
fn the_table_for_a_spreadsheet_is_in_the_language_that_is_spoken() {
    for heading in HEADINGS {
        assert!(in_german(|| in_table_file(heading)).is_some(), "{heading}");
        assert_eq!(in_table_file(heading), None, "English is core's own");
    }
    let headings: BTreeSet<&str> = table_file::LINES.iter().map(|(_, says)| *says).collect();
    assert_eq!(headings.len(), table_file::LINES.len());
    let saved = |desk: &mut Desk| {
        desk.act(Action::Wide(true));
        desk.go(Route::Planks);
        desk.act(stillwood_app::yard::table::Action::SaveCsv);
        let Some(FileContent::Bytes(bytes)) = desk.files.last().map(|file| &file.content) else {
            panic!("no file")
        };
        let text = String::from_utf8(bytes.clone()).unwrap();
        text.trim_start_matches('\u{feff}').to_owned()
    };
    let german = saved(&mut german_desk());
    let english = saved(&mut Desk::with_file(SAMPLE, DAY).unwrap());
    assert!(
        german.starts_with("Zeichen,Holzhof,Tag,Holz,Länge mm,"),
        "{german}"
    );
    assert!(english.starts_with("mark,yard,day,wood,length mm,"));
    assert!(german.contains(",Zuckerahorn,") && !german.contains(",hard maple,"));
    assert!(german.contains(",gekauft,") && !german.contains(",bought,"));
    let numbers = |text: &str| -> Vec<f64> {
        let cells = text.split([',', '\n']);
        cells.filter_map(|cell| cell.trim().parse().ok()).collect()
    };
    assert_eq!(
        numbers(&german),
        numbers(&english),
        "numbers keep their point"
    );
}
