//! What the screens of the blanks hold.
#![allow(dead_code, unreachable_pub)]

use stillwood_app::desk::Desk;
use stillwood_core::record::{Id, Member, queries};
use stillwood_core::season::Ready;

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
