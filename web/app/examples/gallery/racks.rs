//! Today and the racks in their main states.

use stillwood_app::desk::Desk;
use stillwood_app::{Action, Route};
use stillwood_core::record::Id;

fn piece(desk: &Desk, mark: &str) -> Id {
    let found = desk.model.state().pieces().find(|piece| piece.mark == mark);
    found.map_or_else(|| panic!("no {mark} in the sample"), |piece| piece.id)
}

/// Saves each as a page.
pub(crate) fn save_all(sample: &[u8], save: &dyn Fn(&str, &Desk)) {
    let mut desk = Desk::new("2026-11-20");
    desk.go(Route::Today);
    save("start", &desk);
    for (wide, suffix) in [(false, ""), (true, "-wide")] {
        let mut desk = Desk::with_file(sample, "2026-11-20").unwrap();
        desk.act(Action::Wide(wide));
        desk.model.shell.kept = Some(stillwood_core::record::KeptElsewhere::default());
        desk.go(Route::Today);
        save(&format!("today{suffix}"), &desk);
        desk.go(Route::Find);
        desk.type_into("find", "k713");
        save(&format!("find{suffix}"), &desk);
        desk.go(Route::Racks);
        if wide {
            let id = piece(&desk, "K7-13-M a");
            desk.model.racks.chosen = Some(id);
        }
        save(&format!("racks{suffix}"), &desk);
        desk.press("By day");
        save(&format!("racks-by-day{suffix}"), &desk);
        desk.press("By rack");
        desk.press("Look over Shelf B");
        desk.press("No change since last time");
        desk.press("No change since last time");
        save(&format!("look-over{suffix}"), &desk);
        desk.press("It moved: measure");
        desk.type_into("Bow", "+0.8");
        desk.type_into("Crook", "many");
        desk.press("Save, next");
        save(&format!("look-over-moved{suffix}"), &desk);
        let id = piece(&desk, "K7-13-M a");
        desk.go(Route::Piece(id));
        save(&format!("piece-moved{suffix}"), &desk);
        desk.press("More");
        save(&format!("piece-more{suffix}"), &desk);
        desk.press("Flatten and rest again");
        save(&format!("flatten{suffix}"), &desk);
        for (name, mark) in [
            ("piece-laminate", "K7-5-P a2"),
            ("piece-plank", "K7-2-V"),
            ("piece-drying", "R4-9-A a"),
            ("piece-cut", "K7-5-P"),
            ("piece-blank", "H3-10-Y"),
        ] {
            let id = piece(&desk, mark);
            desk.go(Route::Piece(id));
            save(&format!("{name}{suffix}"), &desk);
        }
        let id = piece(&desk, "K7-5-P a2");
        desk.go(Route::Rack(id));
        save(&format!("rack{suffix}"), &desk);
        desk.go(Route::RackLabel(id));
        save(&format!("rack-label{suffix}"), &desk);
        desk.go(Route::Label(id));
        save(&format!("label{suffix}"), &desk);
        desk.go(Route::RestTimes);
        save(&format!("rests{suffix}"), &desk);
        desk.press("Log room air");
        save(&format!("room-air{suffix}"), &desk);
        let id = piece(&desk, "K7-5-P a2");
        desk.go(Route::Piece(id));
        desk.press("More");
        desk.press("Rings and grain");
        save(&format!("rings{suffix}"), &desk);
        let id = piece(&desk, "K7-13-M b");
        desk.go(Route::Cut(id));
        desk.type_into("It sprang by", "+9");
        save(&format!("cut{suffix}"), &desk);
        let id = piece(&desk, "K7-2-V");
        desk.go(Route::Cut(id));
        desk.press("laminates");
        save(&format!("cut-plank{suffix}"), &desk);
    }
}
