//! The woods and woods of the maker's own.

mod at_the_desk;

use at_the_desk::{press, says, says_not};
use stillwood_app::desk::Desk;
use stillwood_app::{Effect, Route};
use stillwood_core::record::queries;

fn empty() -> Desk {
    Desk::new("2026-11-20")
}

#[test]
fn a_wood_is_found_by_any_name_and_tells_its_numbers_sources_and_cautions() {
    let mut desk = empty();
    desk.go(Route::Woods);
    says(&desk, "105 woods");
    desk.type_into("search woods", "rock maple");
    says(&desk, "hard maple");
    press(&mut desk, "hard maple");
    says(&desk, "Also called sugar maple");
    says(&desk, "Tangential shrinkage\n9.9 %");
    says(&desk, "Wood Handbook");
    says(&desk, "All wood dust harms");
    says(&desk, "Lists change: check before you buy or ship.");
    press(&mut desk, "hard maple");
    says_not(&desk, "Also called");
    desk.type_into("search woods", "xyzzyq");
    says(&desk, "No wood of that name.");
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
    says(&desk, "106 woods");
    press(&mut desk, "river cherry");
    says(&desk, "Radial shrinkage\nnot known");
    says(&desk, "Not known here: treat it as a sensitiser.");
}

#[test]
fn a_wood_of_ones_own_is_recorded_changed_and_deleted() {
    let mut desk = empty();
    desk.go(Route::NewWood);
    desk.type_into("Name of the wood", "river cherry");
    desk.type_into("Radial shrinkage", "4.0");
    says(&desk, "Radial shrinkage: where from?");
    desk.type_into("Radial shrinkage: where from?", "the mill's card");
    press(&mut desk, "irritates");
    press(&mut desk, "Save the wood");
    let wood = queries::own_woods(desk.model.state()).remove(0);
    assert_eq!(wood.name(), "river cherry");
    press(&mut desk, "river cherry");
    says(&desk, "Radial shrinkage\n4 %\nyour data");
    press(&mut desk, "Change");
    desk.type_into("Tangential shrinkage", "7,5 %");
    press(&mut desk, "Save the wood");
    let wood = queries::own_woods(desk.model.state()).remove(0);
    assert!(wood.tangential_shrinkage().is_some());
    press(&mut desk, "river cherry");
    if !desk.reads().contains("7.5 %") {
        press(&mut desk, "river cherry");
    }
    says(&desk, "7.5 %");
    press(&mut desk, "Change");
    press(&mut desk, "Delete this wood");
    says(&desk, "Its name stays on the planks.");
    press(&mut desk, "Delete it");
    assert!(queries::own_woods(desk.model.state()).is_empty());
    assert_eq!(desk.model.route, Route::Woods);
    // It stands among what was deleted.
    desk.go(Route::Deleted);
    says(&desk, "wood of your own: river cherry");
    press(&mut desk, "Put it back");
    assert_eq!(queries::own_woods(desk.model.state()).len(), 1);
}

#[test]
fn what_is_wrong_with_a_wood_stands_at_its_field() {
    let mut desk = empty();
    desk.go(Route::NewWood);
    press(&mut desk, "Save the wood");
    says(&desk, "What is the wood called? Any name will do.");
    assert!(
        desk.left
            .iter()
            .any(|one| matches!(one, Effect::Focus(id) if id == "field-Name-of-the-wood"))
    );
    desk.type_into("Name of the wood", "river cherry");
    desk.type_into("Density at 12 %", "9000");
    says(&desk, "is not that of wood");
    desk.type_into("Usual density from", "700");
    press(&mut desk, "Save the wood");
    says(
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
    says(&desk, "In the table already. Is it one of these?");
    press(&mut desk, "hard maple");
    assert_eq!(desk.model.route, Route::Woods);
    says(&desk, "It is in the table: nothing to add.");
    says(&desk, "Tangential shrinkage\n9.9 %");
    assert!(desk.model.record.log().is_empty());
}

#[test]
fn a_half_typed_wood_is_there_again() {
    let mut desk = empty();
    desk.go(Route::NewWood);
    desk.type_into("Name of the wood", "river cherry");
    desk.go(Route::Book);
    desk.go(Route::NewWood);
    says(&desk, "You had begun this.");
    let page = desk.page();
    assert!(
        page.regions
            .iter()
            .any(|region| region.html.contains("value=\"river cherry\""))
    );
}
