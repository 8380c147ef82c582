//! The book: track record, plan, questions, woods, save and share, settings.

use super::{Show, Stage, fill, press};
use stillwood_app::Route;
use stillwood_app::desk::Desk;

/// Shows them.
pub(super) fn show(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut show = |name: &str, desk: &Desk| show(&format!("book-{name}"), desk);
    let mut desk = stage.empty();
    for (name, route) in [
        ("empty", Route::Book),
        ("share-empty", Route::Share),
        ("settle-empty", Route::Settle),
        ("track-record-empty", Route::TrackRecord),
        ("plan-empty", Route::Plan),
        ("brought-in-empty", Route::BroughtIn),
        ("deleted-empty", Route::Deleted),
    ] {
        desk.go(route);
        show(name, &desk);
    }
    let mut desk = stage.desk();
    for (name, route) in [
        ("place", Route::Book),
        ("share", Route::Share),
        ("settle", Route::Settle),
        ("settings", Route::Settings),
        ("about", Route::About),
        ("track-record", Route::TrackRecord),
        ("plan", Route::Plan),
        ("own-wood", Route::NewWood),
        ("woods", Route::Woods),
        ("questions", Route::QuickQuestions),
    ] {
        desk.go(route);
        show(name, &desk);
    }
    asked(stage, &mut show);
    woods(stage, &mut show);
    files(stage, &mut show);
}

fn asked(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.desk();
    desk.go(Route::QuickQuestions);
    press(&mut desk, "How much wood is it");
    fill(&mut desk, &[("Length", "8 ft"), ("Width", "8 stone")]);
    show("question-wrong", &desk);
    fill(
        &mut desk,
        &[("Width", "8 in"), ("Thickness", "8/4"), ("Price", "14,50")],
    );
    show("question", &desk);
    desk.go(Route::Settings);
    press(&mut desk, "Delete everything");
    show("settings-dialog", &desk);
    // What was deleted, and the word on it.
    let mut desk = stage.desk();
    let visit = desk.model.state().visits().last().expect("one").id;
    desk.go(Route::Visit(visit));
    press(&mut desk, "Delete the visit");
    let delete = desk.model.words().planks.delete;
    press(&mut desk, delete);
    show("deleted-toast", &desk);
    desk.go(Route::Deleted);
    show("deleted", &desk);
}

fn woods(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.desk();
    desk.go(Route::Woods);
    press(&mut desk, "hard maple");
    show("wood", &desk);
    desk.go(Route::NewWood);
    press(&mut desk, "Save");
    show("own-wood-wrong", &desk);
    // One that the sample's makers added.
    desk.go(Route::Woods);
    press(&mut desk, "river cherry");
    press(&mut desk, "Change");
    show("edit-wood", &desk);
}

fn files(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.empty();
    desk.open_file("photo.json", b"not a record");
    show("incoming-unread", &desk);
    // A file that was cut off on its way.
    let cut = &stage.sample[..stage.sample.len() * 6 / 10];
    let mut desk = stage.empty();
    desk.open_file("phone.json", cut);
    show("incoming", &desk);
    press(&mut desk, "Bring in");
    show("brought-in", &desk);
    desk.go(Route::BroughtIn);
    press(&mut desk, "Undo this import");
    show("undo-import", &desk);
    desk.go(Route::Settle);
    show("settle-cut", &desk);
}
