//! The screens of the blanks in their main states.

use stillwood_app::desk::Desk;
use stillwood_app::{Action, Route};
use stillwood_core::record::PieceKind;

/// Each screen is handed to `save` under its name; wide ones end with `-wide`.
pub(crate) fn show(sample: &[u8], save: &dyn Fn(&str, &Desk)) {
    for wide in [false, true] {
        let save = |name: &str, desk: &Desk| {
            save(
                &if wide {
                    format!("{name}-wide")
                } else {
                    name.to_owned()
                },
                desk,
            )
        };
        let mut desk = Desk::with_file(sample, "2026-11-20").unwrap();
        desk.act(Action::Wide(wide));
        desk.go(Route::Blanks);
        save("blanks", &desk);
        let state = desk.model.state();
        let blanks: Vec<_> = state
            .pieces()
            .filter(|piece| piece.work.kind == PieceKind::Blank)
            .map(|piece| (piece.id, piece.mark.clone()))
            .collect();
        for (_, mark) in &blanks {
            desk.press(&format!("{mark}: side by side"));
        }
        save("blanks-chosen", &desk);
        desk.press("Side by side");
        save("side-by-side", &desk);
        desk.press("Customer's view");
        save("side-by-side-ours", &desk);
        desk.go(Route::Blank(blanks[1].0));
        save("blank", &desk);
        desk.press("More");
        save("blank-more", &desk);
        desk.go(Route::Blank(blanks[2].0));
        desk.press("Reserve");
        desk.press("Save");
        save("blank-reserve", &desk);
        desk.go(Route::Blank(blanks[3].0));
        save("blank-at-rest", &desk);
        desk.go(Route::Papers(blanks[1].0));
        save("papers", &desk);
        desk.works = false;
        desk.go(Route::Match);
        save("match-looking", &desk);
        desk.works = true;
        desk.go(Route::Match);
        save("match", &desk);
        desk.press("Place 2");
        desk.press("Turn over");
        save("match-by-hand", &desk);
        desk.press("Show all");
        if let Some(one) = desk
            .pressables()
            .into_iter()
            .find(|one| one.says.contains("not ready:"))
        {
            desk.press(&one.says);
            save("match-why-not", &desk);
            desk.press("Cancel");
        }
        desk.press("Glue these");
        save("glue-up", &desk);
        desk.go(Route::GluingLimits);
        save("gluing-limits", &desk);
    }
}
