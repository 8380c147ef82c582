//! The sample workshop at the desk: pressed, and read.
#![allow(dead_code, unreachable_pub, reason = "each test uses a part")]

use stillwood_app::Route;
use stillwood_app::desk::Desk;
use stillwood_core::record::{Id, Piece};

pub const DAY: &str = "2026-11-20";
pub const SAMPLE: &[u8] = include_bytes!("../../../../demo-data/two-yards.json");

pub fn sample() -> Desk {
    sample_on(DAY)
}

pub fn sample_on(day: &str) -> Desk {
    Desk::with_file(SAMPLE, day).unwrap()
}

/// The sample at a screen.
pub fn at(route: Route) -> Desk {
    let mut desk = sample();
    desk.go(route);
    desk
}

#[track_caller]
pub fn press(desk: &mut Desk, says: &str) {
    let pressed = desk.press(says);
    assert!(pressed, "nothing says “{says}” on:\n{}", desk.reads());
}

/// Whether the screen says this, wherever a line or an element ends between its words.
pub fn is_said(desk: &Desk, text: &str) -> bool {
    let plain = |text: &str| text.replace(['\n', '\u{a0}'], " ");
    plain(&desk.reads()).contains(&plain(text))
}

#[track_caller]
pub fn says(desk: &Desk, text: &str) {
    assert!(is_said(desk, text), "“{text}” is not in:\n{}", desk.reads());
}

#[track_caller]
pub fn says_not(desk: &Desk, text: &str) {
    assert!(!is_said(desk, text), "“{text}” is in:\n{}", desk.reads());
}

/// The markup of a region.
#[track_caller]
pub fn region(desk: &Desk, id: &str) -> String {
    let regions = desk.page().regions;
    let found = regions.into_iter().find(|region| region.id == id);
    found.unwrap().html
}

/// A piece that is as wanted.
#[track_caller]
pub fn find(desk: &Desk, wanted: impl Fn(&Piece) -> bool) -> Id {
    let mut pieces = desk.model.state().pieces();
    pieces.find(|piece| wanted(piece)).unwrap().id
}

#[track_caller]
pub fn piece(desk: &Desk, mark: &str) -> Id {
    find(desk, |piece| piece.mark == mark && !piece.withdrawn)
}

/// The last visit to a yard.
#[track_caller]
pub fn visit_of(desk: &Desk, yard: &str) -> Id {
    let visits = desk.model.state().visits();
    let visits = visits.filter(|visit| visit.opened.yard == yard);
    visits.max_by_key(|visit| visit.recorded.on).unwrap().id
}
