//! German is whole: every screen, with the sample open, says nothing in English.

#[path = "german/english_in.rs"]
mod english_in;
mod gallery;
#[path = "german/prefilled.rs"]
mod prefilled;
#[path = "german/woods.rs"]
mod woods;

use english_in::English;
use gallery::{Stage, every_state};
use std::cell::RefCell;
use std::collections::BTreeSet;
use stillwood_app::desk::Desk;
use stillwood_app::form::FormAction;
use stillwood_app::racks as racks_of_app;
use stillwood_app::words::{Language, words_of};
use stillwood_app::yard as yard_of_app;
use stillwood_app::{Action, Route};
use stillwood_core::plank::Field;
use stillwood_core::record::PieceKind;
use stillwood_core::record::commands::WORKSHOP_COMMANDS;

const SAMPLE: &[u8] = include_bytes!("../../../demo-data/two-yards.json");
const DAY: &str = "2026-11-20";

/// What shows English on screens, each once, with the screen where it was seen first.
fn found_by(walk: impl FnOnce(&dyn Fn(&str, &Desk))) -> (usize, Vec<String>) {
    Desk::new_ones_speak(Language::German);
    let english = English::with_sample(SAMPLE);
    let (seen, found, screens) = (
        RefCell::new(BTreeSet::new()),
        RefCell::new(Vec::new()),
        RefCell::new(0),
    );
    walk(&|name: &str, desk: &Desk| {
        assert_eq!(desk.page().language, Language::German, "{name}");
        *screens.borrow_mut() += 1;
        for (line, why) in english.shown_on(&desk.page()) {
            if seen.borrow_mut().insert(line.clone()) {
                found.borrow_mut().push(format!("{name}: {line} [{why}]"));
            }
        }
    });
    (screens.into_inner(), found.into_inner())
}

fn none_is_english(walk: impl FnOnce(&dyn Fn(&str, &Desk)), least: usize) {
    let (screens, found) = found_by(walk);
    assert!(screens >= least, "only {screens} screens were seen");
    assert!(
        found.is_empty(),
        "{} lines are English:\n{}",
        found.len(),
        found.join("\n")
    );
}

#[test]
fn no_state_of_the_gallery_says_anything_in_english() {
    none_is_english(
        |save| {
            for wide in [false, true] {
                let stage = Stage {
                    sample: SAMPLE,
                    wide,
                };
                every_state(stage, &mut |name, desk| save(name, desk));
            }
        },
        200,
    );
}

#[test]
fn no_state_of_the_gallery_puts_a_decimal_point_into_a_field() {
    Desk::new_ones_speak(Language::German);
    let (mut fields, mut found) = (0, BTreeSet::new());
    for wide in [false, true] {
        let stage = Stage {
            sample: SAMPLE,
            wide,
        };
        every_state(stage, &mut |name, desk| {
            let page = desk.page();
            fields += prefilled::numbers_in_fields(&page).len();
            let points = prefilled::points_in_fields(&page).into_iter();
            found.extend(points.map(|point| format!("{name}: {point}")));
        });
    }
    assert!(fields > 100, "only {fields} fields for numbers were seen");
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn sorting_measuring_and_the_verdict_say_nothing_in_english() {
    none_is_english(
        |save| {
            let mut desk = Desk::with_file(SAMPLE, DAY).unwrap();
            let pile = desk.model.state().piles().last().unwrap().id;
            desk.go(Route::Sort(pile));
            save("sort", &desk);
            for says in ["twist", "Maybe", "Chalked, next"] {
                assert!(desk.press(says), "{says}");
                save(says, &desk);
            }
            assert!(desk.press("Measure it now"));
            for text in ["2620", "205", "207", "204", "52", "19,7", "3"] {
                desk.keys(text);
                save(text, &desk);
                assert!(desk.press("Next"), "after {text}");
            }
            assert!(desk.press("about 3"));
            save("eye", &desk);
            desk.press("Next");
            for text in ["1,2", "12", "10", "62"] {
                desk.press("Next");
                desk.keys(text);
                save(text, &desk);
            }
            for field in Field::ALL {
                desk.act(yard_of_app::Action::Activate(*field));
                save(field.label(), &desk);
            }
            let piece = desk.model.yard.entering.as_ref().unwrap().piece;
            desk.go(Route::Verdict(piece));
            save("verdict", &desk);
            assert!(desk.press("Reject"));
            save("reject", &desk);
        },
        45,
    );
}

/// Every figure of a screen that can be asked how it was worked out. What is told lies over a screen that is quickly
/// drawn.
fn ask_all(desk: &mut Desk, name: &str, save: &dyn Fn(&str, &Desk)) {
    let page = desk.page();
    let keys = desk.pressables().into_iter();
    let keys = keys.filter(|one| one.label.ends_with("Wie es berechnet ist"));
    let asked: Vec<_> = keys
        .filter_map(|one| Some((one.label, page.action(&one.press)?.clone())))
        .collect();
    let route = desk.model.route;
    for (label, action) in asked {
        desk.act(action);
        assert!(desk.model.dialog.is_some(), "{name}: {label}");
        desk.model.route = Route::Deleted;
        save(&format!("{name}, {label}"), desk);
        desk.model.route = route;
        desk.model.dialog = None;
    }
}

#[test]
fn how_figures_are_worked_out_says_nothing_in_english() {
    none_is_english(
        |save| {
            let mut desk = Desk::with_file(SAMPLE, DAY).unwrap();
            let visits: Vec<_> = desk.model.state().visits().map(|one| one.id).collect();
            let pieces: Vec<_> = desk.model.state().pieces().map(|one| one.id).collect();
            let mut routes = vec![
                Route::TrackRecord,
                Route::Plan,
                Route::RestTimes,
                Route::Yard,
                Route::Planks,
                Route::Match,
            ];
            routes.extend(visits.iter().map(|id| Route::Visit(*id)));
            routes.extend(visits.iter().map(|id| Route::Tally(*id)));
            for id in pieces.iter().step_by(9) {
                routes.extend([Route::Plank(*id), Route::Piece(*id), Route::Blank(*id)]);
            }
            for route in routes {
                desk.go(route);
                let name = format!("{route:?}");
                save(&name, &desk);
                ask_all(&mut desk, &name, save);
            }
        },
        300,
    );
}

/// Types something into every field of the open form, and saves it.
fn fill_in(desk: &mut Desk, text: &str) {
    let fields = desk
        .model
        .form
        .as_ref()
        .map(|open| open.id.fields())
        .unwrap_or_default();
    for field in fields {
        use stillwood_core::record::FieldKind::*;
        if !matches!(
            field.kind,
            OneOf(_) | Named(_) | Offered | Gathered | Reasons | Rings | Grain
        ) {
            desk.type_into(field.key, text);
        }
    }
    desk.act(FormAction::Save);
}

#[test]
fn forms_and_what_is_wrong_in_them_say_nothing_in_english() {
    none_is_english(
        |save| {
            let mut desk = Desk::with_file(SAMPLE, DAY).unwrap();
            let pieces = desk.model.state().pieces();
            let laminate = pieces
                .filter(|one| one.work.kind == PieceKind::Laminate)
                .last()
                .unwrap()
                .id;
            for command in &WORKSHOP_COMMANDS {
                for text in ["", "viel", "-7", "99999"] {
                    let form = racks_of_app::PieceForm::Workshop(command.key);
                    desk.act(racks_of_app::Action::Do(laminate, form));
                    save(&format!("{}, {text}", command.key), &desk);
                    fill_in(&mut desk, text);
                    save(&format!("{}, {text}, saved", command.key), &desk);
                }
            }
            let visit = desk.model.state().visits().next().unwrap().id;
            let pile = desk.model.state().piles().next().unwrap().id;
            let routes = [
                Route::NewVisit,
                Route::EditVisit(visit),
                Route::NewPile(visit),
                Route::EditPile(pile),
                Route::Spec(visit),
                Route::Target(visit),
                Route::NewWood,
                Route::GluingLimits,
                Route::Cut(laminate),
            ];
            for route in routes {
                for text in ["", "viel", "-7", "99999"] {
                    desk.go(route);
                    fill_in(&mut desk, text);
                    save(&format!("{route:?}, {text}"), &desk);
                }
            }
        },
        120,
    );
}

#[test]
fn an_empty_record_and_what_was_deleted_say_nothing_in_english() {
    none_is_english(
        |save| {
            for wide in [false, true] {
                let mut desk = Desk::new(DAY);
                desk.act(Action::Wide(wide));
                for route in [
                    Route::Today,
                    Route::Find,
                    Route::Yard,
                    Route::Planks,
                    Route::Racks,
                    Route::LookOver,
                    Route::RestTimes,
                    Route::Match,
                    Route::GlueUp,
                    Route::Blanks,
                    Route::SideBySide,
                    Route::Book,
                    Route::Share,
                    Route::BroughtIn,
                    Route::Deleted,
                    Route::Settle,
                    Route::TrackRecord,
                    Route::Plan,
                ] {
                    desk.go(route);
                    save(&format!("empty {route:?}"), &desk);
                }
            }
            let mut desk = Desk::with_file(SAMPLE, DAY).unwrap();
            desk.refuses = true;
            let plank = desk.model.state().planks().next().unwrap().id;
            desk.go(Route::Plank(plank));
            for says in ["Delete the plank", "Delete"] {
                desk.press(says);
                save(says, &desk);
            }
            desk.refuses = false;
            desk.go(Route::Plank(plank));
            for says in ["Delete the plank", "Delete"] {
                desk.press(says);
                save(says, &desk);
            }
            for route in [
                Route::Plank(plank),
                Route::Deleted,
                Route::Yard,
                Route::Mark(plank),
            ] {
                desk.go(route);
                save(&format!("deleted {route:?}"), &desk);
            }
            for typed in ["k7", "twist", "nothing at all"] {
                desk.go(Route::Find);
                desk.type_into("find", typed);
                save(&format!("find {typed}"), &desk);
            }
        },
        45,
    );
}

/// What is filled into a sentence, so that only its own words are left to look at.
fn filled(sentence: &str) -> String {
    let mut said = String::new();
    let mut rest = sentence;
    while let Some((before, after)) = rest.split_once('{') {
        said.push_str(before);
        said.push('7');
        rest = after.split_once('}').map_or("", |(_, after)| after);
    }
    said + rest
}

#[test]
fn a_table_that_lapsed_to_english_would_be_found() {
    let english = English::with_sample(SAMPLE);
    let german = words_of(Language::German).all();
    let both: Vec<_> = words_of(Language::English)
        .all()
        .into_iter()
        .zip(german)
        .collect();
    let tables: BTreeSet<&str> = both.iter().map(|(one, _)| one.0).collect();
    assert_eq!(tables.len(), 14);
    for table in tables.into_iter().filter(|table| *table != "dates") {
        let of = both
            .iter()
            .filter(|(one, other)| one.0 == table && one.2 != other.2);
        let found: Vec<bool> = of
            .map(|(one, _)| {
                english
                    .is_english(one.2)
                    .or_else(|| english.is_english(&filled(one.2)))
                    .is_some()
            })
            .collect();
        let share = found.iter().filter(|found| **found).count() as f64 / found.len() as f64;
        assert!(
            share > 0.9,
            "{table}: only {share:.2} of its sentences would be found"
        );
    }
    // And German is not taken for English.
    let taken: Vec<_> = both
        .iter()
        .filter(|(one, other)| one.2 != other.2 && english.is_english(&filled(other.2)).is_some())
        .map(|(_, other)| other.2)
        .collect();
    assert!(taken.is_empty(), "{}", taken.join("\n"));
}
