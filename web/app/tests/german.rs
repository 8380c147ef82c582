//! German is whole: every screen, with the sample open, says nothing in English.

#[path = "german/english_in.rs"]
mod english_in;
mod gallery;

use english_in::English;
use gallery::{Stage, every_state};
use std::cell::RefCell;
use std::collections::BTreeSet;
use stillwood_app::Route;
use stillwood_app::desk::Desk;
use stillwood_app::words::Language;

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
            let piece = desk.model.yard.entering.as_ref().unwrap().piece;
            desk.go(Route::Verdict(piece));
            save("verdict", &desk);
            assert!(desk.press("Reject"));
            save("reject", &desk);
        },
        14,
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
            for id in pieces.iter().step_by(5) {
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
