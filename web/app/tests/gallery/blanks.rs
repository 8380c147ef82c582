//! The blanks: matching, gluing, the blanks themselves, side by side, papers.

use super::{Show, Stage, press};
use stillwood_app::Route;
use stillwood_app::desk::Desk;
use stillwood_core::record::PieceKind;

/// Shows them.
pub(super) fn show(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut show = |name: &str, desk: &Desk| show(&format!("blanks-{name}"), desk);
    let mut desk = stage.empty();
    for (name, route) in [
        ("empty", Route::Blanks),
        ("match-empty", Route::Match),
        ("side-by-side-empty", Route::SideBySide),
    ] {
        desk.go(route);
        show(name, &desk);
    }
    blanks(stage, &mut show);
    matching(stage, &mut show);
}

fn blanks(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.desk();
    desk.go(Route::Blanks);
    show("place", &desk);
    let blanks: Vec<_> = desk
        .model
        .state()
        .pieces()
        .filter(|piece| piece.work.kind == PieceKind::Blank)
        .map(|piece| (piece.id, piece.mark.clone()))
        .collect();
    // One of them is used: it stands in no list.
    for (_, mark) in &blanks[1..] {
        press(&mut desk, &format!("{mark}: side by side"));
    }
    show("chosen", &desk);
    press(&mut desk, "Side by side");
    show("side-by-side", &desk);
    press(&mut desk, "Customer's view");
    show("side-by-side-ours", &desk);
    press(&mut desk, "Customer's view");
    desk.go(Route::Blank(blanks[1].0));
    show("blank", &desk);
    press(&mut desk, "More");
    show("blank-more", &desk);
    desk.go(Route::Blank(blanks[2].0));
    press(&mut desk, "Reserve");
    press(&mut desk, "Save");
    show("reserve-wrong", &desk);
    desk.go(Route::Blank(blanks[3].0));
    show("blank-at-rest", &desk);
    desk.go(Route::Papers(blanks[1].0));
    show("papers", &desk);
}

fn matching(stage: Stage<'_>, show: &mut Show<'_>) {
    let mut desk = stage.desk();
    desk.works = false;
    desk.go(Route::Match);
    show("match-looking", &desk);
    desk.works = true;
    desk.go(Route::Match);
    show("match", &desk);
    press(&mut desk, "Place 2");
    press(&mut desk, "Turn over");
    show("match-by-hand", &desk);
    press(&mut desk, "Show all");
    show("match-all", &desk);
    let not_ready = |desk: &Desk| {
        let mut all = desk.pressables().into_iter();
        let says = desk.model.words().blanks.not_ready;
        let says = says.split('{').next().expect("it begins");
        all.find(|one| one.says.contains(says))
    };
    let one = not_ready(&desk).expect("one that is not ready");
    press(&mut desk, &one.says);
    show("match-dialog", &desk);
    press(&mut desk, "Cancel");
    desk.act(stillwood_app::blanks::Action::Glue);
    show("glue-up", &desk);
    desk.go(Route::GluingLimits);
    show("gluing-limits", &desk);
}
