//! Faults that were found by using the app as a maker would: each has a test, and stays mended.

use stillwood_app::desk::Desk;
use stillwood_app::{Action, Route};
use stillwood_core::plank::Field;
use stillwood_core::record::{Id, Piece};

mod forms;
mod measuring;
mod shown;
mod undone;

const SAMPLE: &[u8] = include_bytes!("../../../../demo-data/two-yards.json");
const DAY: &str = "2026-11-20";

fn sample() -> Desk {
    Desk::with_file(SAMPLE, DAY).unwrap()
}

#[track_caller]
fn press(desk: &mut Desk, what: &str) {
    assert!(desk.press(what), "no key {what:?} in:\n{}", desk.reads());
}

fn says(desk: &Desk, what: &str) -> bool {
    desk.reads().replace(['\n', '\u{a0}'], " ").contains(what)
}

#[track_caller]
fn expect(desk: &Desk, what: &str) {
    assert!(says(desk, what), "no {what:?} in:\n{}", desk.reads());
}

#[track_caller]
fn expect_not(desk: &Desk, what: &str) {
    assert!(!says(desk, what), "{what:?} in:\n{}", desk.reads());
}

#[track_caller]
fn region(desk: &Desk, id: &str) -> String {
    let page = desk.page();
    let found = page.regions.into_iter().find(|region| region.id == id);
    found.unwrap().html
}

fn find(desk: &Desk, wanted: impl Fn(&Piece) -> bool) -> Id {
    let mut pieces = desk.model.state().pieces();
    pieces.find(|piece| wanted(piece)).unwrap().id
}

fn piece(desk: &Desk, mark: &str) -> Id {
    find(desk, |piece| piece.mark == mark)
}

fn visit_of(desk: &Desk, yard: &str) -> Id {
    let visits = desk.model.state().visits();
    let visits = visits.filter(|visit| visit.opened.yard == yard);
    visits.max_by_key(|visit| visit.recorded.on).unwrap().id
}

/// A new pile of maple on the last visit, with what is known of it, and its first plank begun.
fn measuring(of_pile: &[(&str, &str)]) -> Desk {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    press(&mut desk, "New pile");
    desk.type_into("Wood", "hard maple");
    for (field, text) in of_pile {
        desk.type_into(field, text);
    }
    press(&mut desk, "Save");
    press(&mut desk, "Measure it now");
    desk.presses = 0;
    desk
}

/// Types values, each followed by Next.
fn type_all(desk: &mut Desk, values: &[&str]) {
    for value in values {
        desk.keys(value);
        press(desk, "Next");
    }
}

fn active(desk: &Desk) -> Option<Field> {
    desk.model.yard.entering.as_ref().and_then(|one| one.active)
}

fn text(desk: &Desk, field: Field) -> String {
    let entering = desk.model.yard.entering.as_ref().unwrap();
    entering.value(field).text
}
