//! The racks: pieces at rest, looking a rack over, cutting, labels, rest times.

use super::{Show, Stage, fill, piece, press};
use stillwood_app::Route;
use stillwood_app::desk::Desk;

/// Shows them.
pub(super) fn show(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut show = |name: &str, desk: &Desk| show(&format!("racks-{name}"), desk);
    let mut desk = stage.empty();
    for (name, route) in [
        ("empty", Route::Racks),
        ("look-over-empty", Route::LookOver),
        ("rest-times-empty", Route::RestTimes),
    ] {
        desk.go(route);
        show(name, &desk);
    }
    places(stage, &mut show);
    let (mut desk, visit) = super::yard::bought(stage);
    desk.go(Route::Racks);
    show("planks-home", &desk);
    desk.go(Route::RackPlanks(visit));
    press(&mut desk, "Put 2 planks on the rack");
    show("planks-to-rack", &desk);
    pieces(stage, &mut show);
    looking_over(stage, &mut show);
    cutting(stage, &mut show);
}

fn places(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.desk();
    desk.go(Route::Racks);
    if stage.wide {
        desk.model.racks.chosen = Some(piece(&desk, "K7-13-M a"));
    }
    show("place", &desk);
    press(&mut desk, "By day");
    show("by-day", &desk);
    press(&mut desk, "By rack");
    desk.type_into("words", "ebony");
    show("nothing-found", &desk);
    desk.type_into("words", "");
    let id = piece(&desk, "K7-5-P a2");
    for (name, route) in [
        ("rack", Route::Rack(id)),
        ("rack-label", Route::RackLabel(id)),
        ("label", Route::Label(id)),
        ("rest-times", Route::RestTimes),
    ] {
        desk.go(route);
        show(name, &desk);
    }
    press(&mut desk, "Log room air");
    fill(&mut desk, &[("Room", ""), ("Humidity of the air", "damp")]);
    press(&mut desk, "Save");
    show("room-air-wrong", &desk);
    desk.go(Route::RestTimes);
    press(&mut desk, "Change: Rest time of laminates");
    show("rest-times-form", &desk);
}

fn pieces(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.desk();
    for (name, mark) in [
        ("piece-laminate", "K7-5-P a2"),
        ("piece-plank", "K7-2-V"),
        ("piece-drying", "R4-9-A a"),
        ("piece-cut", "K7-5-P"),
        ("piece-blank", "H3-10-Y"),
        ("piece-moved", "K7-13-M a"),
    ] {
        let id = piece(&desk, mark);
        desk.go(Route::Piece(id));
        show(name, &desk);
    }
    press(&mut desk, "More");
    show("piece-more", &desk);
    press(&mut desk, "Flatten and rest again");
    show("flatten", &desk);
    let id = piece(&desk, "K7-5-P a2");
    desk.go(Route::Piece(id));
    press(&mut desk, "More");
    press(&mut desk, "Rings and grain");
    show("rings-and-grain", &desk);
    desk.go(Route::Piece(id));
    press(&mut desk, "More");
    press(&mut desk, "Weigh");
    desk.type_into("Weight", "heavy");
    press(&mut desk, "Save");
    show("weigh-wrong", &desk);
}

fn looking_over(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.desk();
    desk.go(Route::Racks);
    press(&mut desk, "Look over Shelf B");
    show("look-over", &desk);
    press(&mut desk, "No change since last time");
    show("look-over-toast", &desk);
    if !stage.wide {
        press(&mut desk, "It moved: measure");
        fill(&mut desk, &[("Bow", "+0.8"), ("Crook", "many")]);
        press(&mut desk, "Save, next");
        show("look-over-wrong", &desk);
    }
}

fn cutting(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.desk();
    let id = piece(&desk, "K7-13-M b");
    desk.go(Route::Cut(id));
    show("cut", &desk);
    fill(&mut desk, &[("marks/1", "K7-13-M b1")]);
    press(&mut desk, "Record the cut");
    show("cut-wrong", &desk);
    let id = piece(&desk, "K7-2-V");
    desk.go(Route::Cut(id));
    press(&mut desk, "laminates");
    show("cut-plank", &desk);
    press(&mut desk, "Record the cut");
    show("parts-not-at-rest", &desk);
    desk.go(Route::RestParts(id));
    show("parts-to-rest", &desk);
    let mut desk = stage.desk();
    desk.go(Route::Match);
    desk.act(stillwood_app::blanks::Action::Glue);
    fill(&mut desk, &[("Mark of the blank", "N1")]);
    press(&mut desk, "Record the gluing");
    desk.go(Route::RestBlank(piece(&desk, "N1")));
    show("blank-to-rest", &desk);
}
