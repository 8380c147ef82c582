//! The screens of the yard in their main states.

use stillwood_app::Route;
use stillwood_app::action::Action;
use stillwood_app::desk::Desk;
use stillwood_core::record::{Decision, Id};

fn first_visit(desk: &Desk) -> Id {
    let visits = desk.model.state().visits();
    visits.max_by_key(|visit| visit.recorded.on).unwrap().id
}

/// Saves each screen, by a name.
pub(crate) fn save_all(sample: &[u8], save: &dyn Fn(&str, &Desk)) {
    for (wide, prefix) in [(false, ""), (true, "wide-")] {
        let mut desk = Desk::with_file(sample, "2026-11-20").unwrap();
        desk.act(Action::Wide(wide));
        let visit = first_visit(&desk);
        let pile = desk.model.state().piles_of(visit).next().unwrap().id;
        let planks = desk.model.state().planks();
        let bought = planks
            .filter(|plank| plank.decision() == Some(Decision::Take))
            .nth(3)
            .unwrap()
            .id;
        let name = |name: &str| format!("{prefix}{name}");
        for (shown, route) in [
            ("yard", Route::Yard),
            ("visit", Route::Visit(visit)),
            ("new-visit", Route::NewVisit),
            ("new-pile", Route::NewPile(visit)),
            ("spec", Route::Spec(visit)),
            ("target", Route::Target(visit)),
            ("pile-summary", Route::PileSummary(pile)),
            ("plank", Route::Plank(bought)),
            ("planks", Route::Planks),
            ("seller", Route::Seller(visit)),
            ("tally", Route::Tally(visit)),
        ] {
            desk.go(route);
            save(&name(shown), &desk);
        }
        desk.type_into("total-money", "1734.20");
        desk.press("Compare with ours");
        save(&name("bill"), &desk);
        desk.go(Route::Sort(pile));
        desk.press("Measure it now");
        desk.press("Defects, wood");
        desk.press("knot");
        save(&name("defects"), &desk);
    }
    let mut empty = Desk::new("2026-11-20");
    empty.go(Route::Yard);
    save("yard-empty", &empty);
    empty.press("Start a visit");
    empty.press("Save");
    save("new-visit-wrong", &empty);
}
