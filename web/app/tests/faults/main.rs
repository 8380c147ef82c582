//! Faults that were found by using the app as a maker would: each has a test, and stays mended.

use at_the_desk::{find, is_said, piece, press, region, sample, says, says_not, visit_of};
use stillwood_app::desk::Desk;
use stillwood_app::{Action, Route};
use stillwood_core::plank::Field;
use stillwood_core::record::Id;

#[path = "../at_the_desk/mod.rs"]
mod at_the_desk;
mod first_look;
mod forms;
mod keys;
mod looking_over;
mod measuring;
mod shown;
mod undone;

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
/// Types values into the fields in the order of the tape; what is asked about is left as it is typed.
fn type_all(desk: &mut Desk, values: &[&str]) {
    for value in values {
        let field = active(desk);
        desk.keys(value);
        press(desk, "Next");
        if field.is_some() && active(desk) == field {
            press(desk, "Next");
        }
    }
}

fn active(desk: &Desk) -> Option<Field> {
    desk.model.yard.entering.as_ref().and_then(|one| one.active)
}

fn text(desk: &Desk, field: Field) -> String {
    let entering = desk.model.yard.entering.as_ref().unwrap();
    entering.value(field).text
}
