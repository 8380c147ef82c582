//! The sample workshop, pressed and read.
#![allow(dead_code, unreachable_pub)]

use stillwood_app::Route;
use stillwood_app::desk::Desk;
use stillwood_core::record::{Id, Member, queries};
use stillwood_core::season::Ready;

pub const DAY: &str = "2026-11-20";

pub fn sample() -> Desk {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../demo-data/two-yards.json"
    );
    let bytes = std::fs::read(path).unwrap();
    Desk::with_file(&bytes, DAY).unwrap()
}

pub fn at(route: Route) -> Desk {
    let mut desk = sample();
    desk.go(route);
    desk
}

pub fn piece(desk: &Desk, mark: &str) -> Id {
    let state = desk.model.state();
    state
        .pieces()
        .find(|piece| piece.mark == mark && !piece.withdrawn)
        .unwrap()
        .id
}

#[track_caller]
pub fn press(desk: &mut Desk, says: &str) {
    assert!(
        desk.press(says),
        "nothing says “{says}” on:\n{}",
        desk.reads()
    );
}

#[track_caller]
pub fn reads(desk: &Desk, text: &str) {
    let all = desk.reads().replace('\u{a0}', " ");
    assert!(
        all.replace('\n', " ").contains(text),
        "“{text}” is not in:\n{all}"
    );
}

#[track_caller]
pub fn reads_not(desk: &Desk, text: &str) {
    let all = desk.reads().replace('\u{a0}', " ");
    assert!(
        !all.replace('\n', " ").contains(text),
        "“{text}” is in:\n{all}"
    );
}

/// The laminates of the set that is shown.
pub fn members(desk: &Desk) -> Vec<Member> {
    desk.model
        .blanks
        .matching
        .set
        .iter()
        .flatten()
        .cloned()
        .collect()
}

/// How the laminate of a mark is ready.
pub fn ready(desk: &Desk, piece: Id) -> Ready {
    let model = &desk.model;
    let all =
        queries::laminates_at_hand(model.state(), model.now.date(), &model.settings.instruments);
    all.iter().find(|one| one.piece == piece).unwrap().ready
}

/// What a key says to the ear.
pub fn labels(desk: &Desk, begins: &str) -> Vec<String> {
    let all = desk.pressables().into_iter().map(|one| one.label);
    all.filter(|label| label.starts_with(begins)).collect()
}
