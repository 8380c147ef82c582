//! The screens of the yard: what they show of the sample, what each key does, errors at their fields, and how many
//! presses a thing takes.

use at_the_desk::{DAY, is_said, press, region, sample, says, visit_of};
use stillwood_app::action::Action;
use stillwood_app::desk::{Desk, text_of};
use stillwood_app::{Effect, Route, yard};
use stillwood_core::record::{Decision, Id, Limits, queries, read};

#[path = "../at_the_desk/mod.rs"]
mod at_the_desk;
mod deciding;
mod drawn;
mod measuring;
mod planks;
mod visits;

fn wide() -> Desk {
    let mut desk = sample();
    desk.act(Action::Wide(true));
    desk
}

fn pile_of(desk: &Desk, visit: Id) -> Id {
    let mut piles = desk.model.state().piles_of(visit);
    piles.find(|pile| !pile.withdrawn).unwrap().id
}

fn piece_of(desk: &Desk, mark: &str) -> Id {
    let mut planks = desk.model.state().planks();
    planks.find(|piece| piece.mark == mark).unwrap().id
}

/// The marks in the dense list, from above.
fn marks(desk: &Desk) -> Vec<String> {
    let body = region(desk, "body");
    let rows = body.split("<th scope=\"row\">").skip(1);
    rows.map(|row| text_of(row.split("</th>").next().unwrap()))
        .collect()
}

/// A pile of which moisture and temperature are known, and a plank begun in it.
fn begun() -> Desk {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Visit(visit));
    press(&mut desk, "New pile");
    for (field, text) in [
        ("Wood", "hard maple"),
        ("Moisture, %", "10.5"),
        ("Wood temperature", "8 °C"),
    ] {
        desk.type_into(field, text);
    }
    press(&mut desk, "Save");
    press(&mut desk, "Measure it now");
    desk.presses = 0;
    desk
}

/// Types a number and goes on with one press.
fn typed(desk: &mut Desk, text: &str, then: &str) {
    desk.keys(text);
    press(desk, then);
}

/// Opens a visit on an empty record with a pile of hard maple at 14.50 a board foot, 20 % tax.
fn first_day() -> Desk {
    let mut desk = Desk::new(DAY);
    desk.go(Route::Yard);
    press(&mut desk, "Start a visit");
    for (field, text) in [("Yard", "Hopple"), ("Tax, %", "20"), ("Currency", "EUR")] {
        desk.type_into(field, text);
    }
    press(&mut desk, "Save");
    press(&mut desk, "Sizes and limits");
    for (field, text) in [("Length, mm", "950"), ("Width, mm", "80")] {
        desk.type_into(field, text);
    }
    press(&mut desk, "Save");
    press(&mut desk, "New pile");
    for (field, text) in [
        ("Wood", "hard maple"),
        ("Thickness it is sold as", "8/4"),
        ("Price", "14.50"),
        ("Moisture, %", "10.5"),
        ("Wood temperature", "8 °C"),
    ] {
        desk.type_into(field, text);
    }
    press(&mut desk, "Save");
    desk
}

/// The plank whose figures a maker worked out by hand: 2620 × 214, 205, 193 × 52, 10.3 and 9.4 kg.
fn measure_by_hand(desk: &mut Desk) {
    press(desk, "Measure it now");
    for text in ["2620", "214", "205", "193", "52"] {
        typed(desk, text, "Next");
    }
    press(desk, "End by end");
    for text in ["10.3", "9.4", "9", "4", "12 L", "4", "12/300", "15/300"] {
        typed(desk, text, "Next");
    }
}
