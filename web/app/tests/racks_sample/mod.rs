//! The sample, and what a screen is to say.
#![allow(dead_code, unreachable_pub, reason = "each test uses a part")]

use stillwood_app::Route;
use stillwood_app::desk::Desk;
use stillwood_core::record::Id;

pub fn sample_on(day: &str) -> Desk {
    let file = include_bytes!("../../../../demo-data/two-yards.json");
    let mut desk = Desk::with_file(file, day).unwrap();
    desk.go(Route::Racks);
    desk
}

pub fn sample() -> Desk {
    sample_on("2026-11-20")
}

pub fn piece(desk: &Desk, mark: &str) -> Id {
    let mut pieces = desk.model.state().pieces();
    pieces.find(|piece| piece.mark == mark).unwrap().id
}

pub fn says(desk: &Desk, text: &str) {
    let reads = desk.reads().replace('\u{a0}', " ");
    assert!(reads.contains(text), "“{text}” is not in:\n{reads}");
}

pub fn says_not(desk: &Desk, text: &str) {
    let reads = desk.reads().replace('\u{a0}', " ");
    assert!(!reads.contains(text), "“{text}” is in:\n{reads}");
}

pub fn checks(desk: &Desk, piece: Id) -> usize {
    desk.model.state().piece(piece).unwrap().work.checks.len()
}
