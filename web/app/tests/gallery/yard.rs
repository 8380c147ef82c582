//! The yard: visits, piles, sorting, measuring, the verdict, the bill, all planks.

use super::{Show, Stage, fill, piece, press};
use stillwood_app::Route;
use stillwood_app::desk::Desk;
use stillwood_core::record::Id;

fn last_visit(desk: &Desk) -> Id {
    let visits = desk.model.state().visits();
    visits
        .max_by_key(|visit| visit.recorded.on)
        .expect("one")
        .id
}

fn pile_of(desk: &Desk, visit: Id) -> Id {
    let mut piles = desk.model.state().piles_of(visit);
    piles.find(|pile| !pile.withdrawn).expect("one").id
}

/// Shows them.
pub(super) fn show(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut show = |name: &str, desk: &Desk| show(&format!("yard-{name}"), desk);
    first_visit(stage, &mut show);
    lists(stage, &mut show);
    forms(stage, &mut show);
    pile(stage, &mut show);
    measuring(stage, &mut show);
    verdict(stage, &mut show);
}

/// Of a newcomer.
fn first_visit(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.empty();
    desk.go(Route::Yard);
    show("empty", &desk);
    desk.go(Route::Planks);
    show("planks-empty", &desk);
    desk.go(Route::Yard);
    press(&mut desk, "Start a visit");
    show("new-visit-empty", &desk);
    fill(&mut desk, &[("Tax, %", "200"), ("Currency", "pounds")]);
    press(&mut desk, "Save");
    show("new-visit-wrong", &desk);
    fill(
        &mut desk,
        &[("Yard", "Hopple"), ("Tax, %", "20"), ("Currency", "EUR")],
    );
    press(&mut desk, "Save");
    show("visit-empty", &desk);
    let visit = last_visit(&desk);
    desk.go(Route::Tally(visit));
    show("tally-empty", &desk);
    desk.go(Route::Seller(visit));
    show("seller-empty", &desk);
}

fn lists(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.desk();
    let visit = last_visit(&desk);
    let pile = pile_of(&desk, visit);
    for (name, route) in [
        ("place", Route::Yard),
        ("visit", Route::Visit(visit)),
        ("pile-summary", Route::PileSummary(pile)),
        ("plank", Route::Plank(piece(&desk, "K7-5-P"))),
        ("mark", Route::Mark(piece(&desk, "K7-5-P"))),
        ("planks", Route::Planks),
        ("seller", Route::Seller(visit)),
        ("tally", Route::Tally(visit)),
    ] {
        desk.go(route);
        show(name, &desk);
    }
    fill(
        &mut desk,
        &[("total-money", "1734.20"), ("total-amount", "many")],
    );
    press(&mut desk, "Compare with ours");
    show("bill-wrong", &desk);
    fill(&mut desk, &[("total-amount", "52")]);
    press(&mut desk, "Compare with ours");
    show("bill", &desk);
    desk.go(Route::Visit(visit));
    press(&mut desk, "Delete the visit");
    show("visit-dialog", &desk);
}

fn forms(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.desk();
    let visit = last_visit(&desk);
    let pile = pile_of(&desk, visit);
    for (name, route) in [
        ("new-visit", Route::NewVisit),
        ("edit-visit", Route::EditVisit(visit)),
        ("edit-pile", Route::EditPile(pile)),
        ("spec", Route::Spec(visit)),
        ("target", Route::Target(visit)),
        ("new-pile", Route::NewPile(visit)),
    ] {
        desk.go(route);
        show(name, &desk);
    }
    fill(
        &mut desk,
        &[("Wood", "hard maple"), ("Moisture, %", "10.5")],
    );
    show("new-pile-half-typed", &desk);
    fill(
        &mut desk,
        &[("Wood", ""), ("Moisture, %", "wet"), ("Price", "much")],
    );
    press(&mut desk, "Save");
    show("new-pile-wrong", &desk);
    desk.go(Route::Spec(visit));
    fill(&mut desk, &[("Length, mm", ""), ("Width, mm", "wide")]);
    press(&mut desk, "Save");
    show("spec-wrong", &desk);
}

fn pile(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.desk();
    let pile = pile_of(&desk, last_visit(&desk));
    desk.go(Route::Sort(pile));
    show("sort", &desk);
    press(&mut desk, "twist");
    press(&mut desk, "No");
    show("sort-toast", &desk);
    press(&mut desk, "Maybe");
    show("chalk", &desk);
}

/// Two planks bought at a yard, on no rack yet.
pub(super) fn bought(stage: Stage<'_>) -> (Desk, Id) {
    let mut desk = begun(stage);
    let visit = last_visit(&desk);
    for plank in 0..2 {
        if plank > 0 {
            let piles = desk.model.state().piles_of(visit);
            let pile = piles.max_by_key(|pile| pile.id).expect("one").id;
            desk.go(Route::Sort(pile));
            press(&mut desk, "Measure it now");
        }
        typed(&mut desk, &["2620", "214", "205", "193", "52"]);
        press(&mut desk, "To the verdict");
        press(&mut desk, "Buy");
    }
    desk.model.toast = None;
    (desk, visit)
}

/// A pile of which the moisture is known, and a plank begun in it.
fn begun(stage: Stage<'_>) -> Desk {
    let mut desk = stage.desk();
    let visit = last_visit(&desk);
    desk.go(Route::Visit(visit));
    press(&mut desk, "New pile");
    fill(
        &mut desk,
        &[
            ("Wood", "hard maple"),
            ("Thickness it is sold as", "8/4"),
            ("Price", "14.50"),
            ("Moisture, %", "10.5"),
            ("Wood temperature", "8 °C"),
        ],
    );
    press(&mut desk, "Save");
    press(&mut desk, "Measure it now");
    desk
}

fn typed(desk: &mut Desk, texts: &[&str]) {
    for text in texts {
        desk.keys(text);
        press(desk, "Next");
    }
}

fn measuring(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = begun(stage);
    show("measure", &desk);
    press(&mut desk, "To the verdict");
    show("verdict-nothing-measured", &desk);
    let mut desk = begun(stage);
    typed(&mut desk, &["26 feet or so"]);
    show("measure-wrong", &desk);
    let mut desk = begun(stage);
    typed(&mut desk, &["2620", "214", "205", "193", "52"]);
    show("measure-weight", &desk);
    press(&mut desk, "End by end");
    show("measure-ends", &desk);
    typed(&mut desk, &["10.3", "9.4"]);
    show("measure-by-eye", &desk);
    typed(&mut desk, &["9", "4", "12 L", "4"]);
    show("measure-slope", &desk);
    typed(&mut desk, &["12/300", "15/300"]);
    show("measure-rings", &desk);
    press(&mut desk, "By chord and dip");
    show("measure-chord", &desk);
    press(&mut desk, "Defects, wood");
    press(&mut desk, "knot");
    show("defects", &desk);
    // What is out of the usual is asked about at its place.
    let mut desk = begun(stage);
    typed(&mut desk, &["2620", "214", "205", "193", "52", "86"]);
    show("measure-odd", &desk);
    press(&mut desk, "To the verdict");
    press(&mut desk, "Buy");
    show("verdict-questions", &desk);
}

fn verdict(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = begun(stage);
    typed(&mut desk, &["2620", "214", "205", "193", "52"]);
    press(&mut desk, "End by end");
    typed(
        &mut desk,
        &["10.3", "9.4", "9", "4", "12 L", "4", "12/300", "15/300"],
    );
    desk.keys("62");
    press(&mut desk, "To the verdict");
    show("verdict", &desk);
    press(&mut desk, "slope of grain");
    show("verdict-worked-out", &desk);
    press(&mut desk, "Close");
    press(&mut desk, "Buy");
    show("bought-toast", &desk);
}
