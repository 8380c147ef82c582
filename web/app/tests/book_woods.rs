//! The woods and woods of the maker's own.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use stillwood_app::desk::Desk;
use stillwood_app::{Effect, Route};
use stillwood_core::record::queries;

fn empty() -> Desk {
    Desk::new("2026-11-20")
}

fn press(desk: &mut Desk, says: &str) {
    assert!(desk.press(says), "nothing says “{says}”:\n{}", desk.reads());
}

fn reads(desk: &Desk, says: &str) {
    let read = desk.reads();
    assert!(read.contains(says), "“{says}” does not stand here:\n{read}");
}

fn reads_not(desk: &Desk, says: &str) {
    let read = desk.reads();
    assert!(!read.contains(says), "“{says}” stands here:\n{read}");
}

#[test]
fn a_wood_is_found_by_any_name_and_tells_its_numbers_sources_and_cautions() {
    let mut desk = empty();
    desk.go(Route::Woods);
    reads(&desk, "105 woods");
    desk.type_into("search woods", "rock maple");
    reads(&desk, "hard maple");
    press(&mut desk, "hard maple");
    reads(&desk, "Also called sugar maple");
    reads(&desk, "Tangential shrinkage\n9.9 %");
    reads(&desk, "Wood Handbook");
    reads(&desk, "All wood dust harms");
    reads(&desk, "Lists change: check before you buy or ship.");
    press(&mut desk, "hard maple");
    reads_not(&desk, "Also called");
    desk.type_into("search woods", "xyzzyq");
    reads(&desk, "No wood of that name.");
    let page = desk.page();
    assert!(
        page.regions
            .iter()
            .any(|region| region.html.contains("Search by any name"))
    );
}

#[test]
fn a_number_that_is_not_known_is_said_to_be_so() {
    let mut desk = empty();
    desk.go(Route::NewWood);
    desk.type_into("Name of the wood", "river cherry");
    press(&mut desk, "Save the wood");
    assert_eq!(desk.model.route, Route::Woods);
    reads(&desk, "106 woods");
    press(&mut desk, "river cherry");
    reads(&desk, "Radial shrinkage\nnot known");
    reads(&desk, "Not known here: treat it as a sensitiser.");
}

#[test]
fn a_wood_of_ones_own_is_recorded_changed_and_deleted() {
    let mut desk = empty();
    desk.go(Route::NewWood);
    desk.type_into("Name of the wood", "river cherry");
    desk.type_into("Radial shrinkage", "4.0");
    reads(&desk, "Radial shrinkage: where from?");
    desk.type_into("Radial shrinkage: where from?", "the mill's card");
    press(&mut desk, "irritates");
    press(&mut desk, "Save the wood");
    let wood = queries::own_woods(desk.model.state()).remove(0);
    assert_eq!(wood.name(), "river cherry");
    press(&mut desk, "river cherry");
    reads(&desk, "Radial shrinkage\n4 %\nyour data");
    press(&mut desk, "Change");
    desk.type_into("Tangential shrinkage", "7,5 %");
    press(&mut desk, "Save the wood");
    let wood = queries::own_woods(desk.model.state()).remove(0);
    assert!(wood.tangential_shrinkage().is_some());
    press(&mut desk, "river cherry");
    if !desk.reads().contains("7.5 %") {
        press(&mut desk, "river cherry");
    }
    reads(&desk, "7.5 %");
    press(&mut desk, "Change");
    press(&mut desk, "Delete this wood");
    reads(&desk, "Its name stays on the planks.");
    press(&mut desk, "Delete it");
    assert!(queries::own_woods(desk.model.state()).is_empty());
    assert_eq!(desk.model.route, Route::Woods);
    // It stands among what was deleted.
    desk.go(Route::Deleted);
    reads(&desk, "wood of your own: river cherry");
    press(&mut desk, "Put it back");
    assert_eq!(queries::own_woods(desk.model.state()).len(), 1);
}

#[test]
fn what_is_wrong_with_a_wood_stands_at_its_field() {
    let mut desk = empty();
    desk.go(Route::NewWood);
    press(&mut desk, "Save the wood");
    reads(&desk, "What is the wood called? Any name will do.");
    assert!(
        desk.left
            .iter()
            .any(|one| matches!(one, Effect::Focus(id) if id == "field-Name-of-the-wood"))
    );
    desk.type_into("Name of the wood", "river cherry");
    desk.type_into("Density at 12 %", "9000");
    reads(&desk, "is not that of wood");
    desk.type_into("Usual density from", "700");
    press(&mut desk, "Save the wood");
    reads(
        &desk,
        "The usual density needs both ends, the lighter one first.",
    );
    assert!(desk.model.record.log().is_empty());
}

#[test]
fn a_wood_of_the_table_needs_none_of_ones_own() {
    let mut desk = empty();
    desk.go(Route::NewWood);
    desk.type_into("Name of the wood", "hard mapel");
    reads(&desk, "In the table already. Is it one of these?");
    press(&mut desk, "hard maple");
    assert_eq!(desk.model.route, Route::Woods);
    reads(&desk, "It is in the table: nothing to add.");
    reads(&desk, "Tangential shrinkage\n9.9 %");
    assert!(desk.model.record.log().is_empty());
}

#[test]
fn a_half_typed_wood_is_there_again() {
    let mut desk = empty();
    desk.go(Route::NewWood);
    desk.type_into("Name of the wood", "river cherry");
    desk.go(Route::Book);
    desk.go(Route::NewWood);
    reads(&desk, "You had begun this.");
    let page = desk.page();
    assert!(
        page.regions
            .iter()
            .any(|region| region.html.contains("value=\"river cherry\""))
    );
}
