//! The screens of the book, on the phone and on the laptop.
use stillwood_app::desk::Desk;
use stillwood_app::{Action, Route, book};
use stillwood_core::record::KeptElsewhere;

const DAY: &str = "2026-11-20";

fn desk(sample: &[u8], wide: bool) -> Desk {
    let mut desk = Desk::with_file(sample, DAY).unwrap();
    desk.model.shell.version = "0.11.0".to_owned();
    desk.model.shell.can_share = !wide;
    desk.act(Action::Wide(wide));
    desk.act(Action::Book(book::Action::Kept(KeptElsewhere::default())));
    desk
}

/// The file with one plank of the sample that is damaged, and with another length of one.
fn file_of_another(sample: &[u8]) -> Vec<u8> {
    let text = String::from_utf8(sample.to_vec()).unwrap();
    let cut = text.len() * 6 / 10;
    text.as_bytes()[..cut].to_vec()
}

/// Saves them all.
pub(crate) fn screens(sample: &[u8], save: &dyn Fn(&str, &Desk)) {
    for wide in [false, true] {
        let name = |screen: &str| format!("book-{screen}{}", if wide { "-wide" } else { "" });
        let mut desk = desk(sample, wide);
        for (screen, route) in [
            ("place", Route::Book),
            ("share", Route::Share),
            ("settle", Route::Settle),
            ("settings", Route::Settings),
            ("about", Route::About),
            ("track", Route::TrackRecord),
            ("plan", Route::Plan),
            ("own-wood", Route::NewWood),
            ("woods", Route::Woods),
            ("questions", Route::QuickQuestions),
        ] {
            desk.go(route);
            save(&name(screen), &desk);
        }
        desk.go(Route::Woods);
        desk.press("hard maple");
        save(&name("wood"), &desk);
        desk.go(Route::QuickQuestions);
        desk.press("How much wood is it");
        desk.type_into("Length", "8 ft");
        desk.type_into("Width", "8 in");
        desk.type_into("Thickness", "8/4");
        desk.type_into("Price", "14,50");
        save(&name("question"), &desk);
        let mut empty = Desk::new(DAY);
        empty.act(Action::Wide(wide));
        empty.act(Action::Book(book::Action::Kept(KeptElsewhere::default())));
        empty.open_file("phone.json", &file_of_another(sample));
        save(&name("incoming"), &empty);
        empty.press("Bring in");
        save(&name("brought-in"), &empty);
        empty.go(Route::BroughtIn);
        empty.press("Undo this import");
        save(&name("imports"), &empty);
        empty.go(Route::Settle);
        save(&name("settle-cut"), &empty);
    }
}
