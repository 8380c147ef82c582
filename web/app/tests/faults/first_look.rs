//! Faults of what is said of wood that was never machined flat: its first look is what it moves from.

use super::*;
use stillwood_app::racks::Action as Racks;

/// Ten laminates as they come from the saw, whose rest is over, on a rack that is looked over.
fn rough_laminates() -> Desk {
    let mut desk = sample();
    let cut = piece(&desk, "K7-13-M b");
    desk.go(Route::Cut(cut));
    press(&mut desk, "Record the cut");
    press(&mut desk, "Set to rest");
    desk.type_into("Shelf", "saw rack");
    press(&mut desk, "Set 10 laminates to rest");
    on(&mut desk, "2028-01-10");
    desk
}

fn on(desk: &mut Desk, day: &str) {
    desk.model.now.day = day.to_owned();
    desk.go(Route::Racks);
}

/// Looks at a laminate: sizes are typed, else nothing has changed.
fn look(desk: &mut Desk, day: &str, id: Id, sizes: &[(&str, &str)]) {
    on(desk, day);
    desk.act(Racks::LookOver("saw rack".to_owned()));
    desk.act(Racks::GoTo(id));
    if sizes.is_empty() {
        press(desk, "No change since last time");
        return;
    }
    desk.act(Racks::ItMoved(id));
    for (field, text) in sizes {
        desk.type_into(field, text);
    }
    press(desk, "Save, next");
    assert!(desk.model.form.is_none(), "{:?}", desk.model.form);
}

const FIRST: [(&str, &str); 3] = [("Bow", "+0.2"), ("Crook", "+0.1"), ("Twist", "0.1 L")];

#[test]
fn so_many_looks_as_tell_how_it_stands_are_said_to_be_wanted() {
    let mut desk = rough_laminates();
    let id = piece(&desk, "K7-13-M b1");
    let told = |desk: &mut Desk| {
        desk.go(Route::Piece(id));
        desk.reads()
    };
    let reads = told(&mut desk);
    assert!(reads.contains("3 looks still wanted"), "{reads}");
    says(
        &desk,
        "measure it once, then look it over, some weeks apart",
    );
    for (day, wanted, below) in [
        (
            "2028-01-10",
            "2 looks still wanted",
            "look it over, some weeks apart",
        ),
        (
            "2028-02-10",
            "1 look still wanted",
            "look it over once more",
        ),
    ] {
        look(&mut desk, day, id, &FIRST);
        let reads = told(&mut desk);
        assert!(reads.contains(wanted), "{wanted} on {day}: {reads}");
        says(&desk, below);
    }
    look(&mut desk, "2028-03-10", id, &FIRST);
    let reads = told(&mut desk);
    assert!(!reads.contains("still wanted"), "{reads}");
}

#[test]
fn what_was_machined_flat_wants_two_looks_and_each_of_a_lot_is_counted() {
    let mut desk = rough_laminates();
    let flat = piece(&desk, "K7-13-M b2");
    let form = stillwood_app::racks::PieceForm::Workshop("Machined flat");
    desk.act(Racks::Do(flat, form));
    // A face is ticked already.
    press(&mut desk, "An edge was made straight");
    press(&mut desk, "Save");
    desk.go(Route::Piece(flat));
    says(&desk, "2 looks still wanted");
    // Of a face alone: what its crook moves from is not known yet.
    let face = piece(&desk, "K7-13-M b3");
    desk.act(Racks::Do(face, form));
    press(&mut desk, "Save");
    desk.go(Route::Piece(face));
    says(&desk, "3 looks still wanted");
    on(&mut desk, "2028-01-10");
    press(&mut desk, "By day");
    says(&desk, "1: 2 looks still wanted · 9: 3 looks still wanted");
    desk.go(Route::Today);
    says(
        &desk,
        "8 laminates of K7-5-P European maple 2 looks still wanted · rest over 12 Mar 2027",
    );
}

#[test]
fn after_the_first_look_it_is_said_what_was_measured_and_when() {
    let mut desk = rough_laminates();
    let id = piece(&desk, "K7-13-M b1");
    desk.act(Racks::LookOver("saw rack".to_owned()));
    desk.act(Racks::GoTo(id));
    says(&desk, "Nothing was measured on it yet");
    // It was never made flat.
    says(&desk, "Change since the first look, and its limit");
    says_not(&desk, "Change since flat");
    look(&mut desk, "2028-01-10", id, &FIRST);
    on(&mut desk, "2028-02-10");
    desk.act(Racks::LookOver("saw rack".to_owned()));
    desk.act(Racks::GoTo(id));
    says(
        &desk,
        "Measured once, on 10 Jan: bow 0.2 mm, crook 0.1 mm, twist −0.1 mm. “No change” counts from there.",
    );
    says_not(&desk, "Nothing was measured on it yet");
    says_not(&desk, "not measured");
    // What tells something now is the first key.
    let keys = desk.pressables();
    let at = |says: &str| keys.iter().position(|key| key.says == says);
    assert!(at("No change since last time") < at("It moved: measure"));
    look(&mut desk, "2028-02-10", id, &[]);
    on(&mut desk, "2028-03-10");
    desk.act(Racks::LookOver("saw rack".to_owned()));
    desk.act(Racks::GoTo(id));
    says(&desk, "“No change” is by eye.");
    says_not(&desk, "Measured once");
    // What was made flat says so.
    let flat = piece(&desk, "K7-1-X a");
    desk.act(Racks::LookOver("shelf A".to_owned()));
    desk.act(Racks::GoTo(flat));
    says(&desk, "Change since flat, and its limit");
}
