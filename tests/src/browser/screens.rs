//! Every screen of the app over the sample workshop, by the app's own list of them: a new screen can't be forgotten.

use super::page::Page;
use serde_json::json;
use std::mem::discriminant;
use stillwood_app::Route;
use stillwood_app::desk::Desk;
use stillwood_app::route::About;
use stillwood_core::record::{Decision, Id, Piece, PieceKind, State};

/// The sample workshop.
const SAMPLE: &[u8] = include_bytes!("../../../demo-data/two-yards.json");
/// A day on which its pieces rest.
const DAY: &str = "2026-11-20";
/// So many screens are looked at by one script: none takes longer than a driver waits.
const AT_ONCE: usize = 8;

/// What a screen may be about in the sample.
fn ids(state: &State, about: About) -> Vec<Id> {
    match about {
        About::Visit => state.visits().map(|visit| visit.id).collect(),
        About::Pile => state.piles().map(|pile| pile.id).collect(),
        About::Plank => state.planks().map(|plank| plank.id).collect(),
        About::Piece | About::Blank => state.pieces().map(|piece| piece.id).collect(),
        About::Wood => state.woods().values().map(|wood| wood.about).collect(),
    }
}

/// Whether a screen has something to show of what it is about.
fn shows_it(desk: &mut Desk, route: Route) -> bool {
    desk.go(route);
    desk.model.route == route && !desk.reads().contains(desk.model.words().common.not_here)
}

/// Screens that no address leads to: what is shown on them is chosen by a press on the screen before.
fn is_by_a_press(route: &Route) -> bool {
    matches!(route, Route::Deed(_))
}

/// Every screen of the sample workshop that an address leads to; a screen of pieces once for each kind of piece that
/// it can be about.
///
/// # Panics
/// If the sample has nothing for a screen.
pub fn of_the_sample() -> Vec<Route> {
    let mut desk = Desk::with_file(SAMPLE, DAY).expect("the sample");
    let all = Route::every(|about| ids(desk.model.state(), about));
    let mut screens: Vec<Route> = Vec::new();
    let kinds = Route::every(|_| vec![Id::from_u128(1)]);
    for kind in kinds.into_iter().filter(|kind| !is_by_a_press(kind)) {
        if kind.id().is_none() {
            screens.push(kind);
            continue;
        }
        let of_this = all
            .iter()
            .filter(|one| discriminant(*one) == discriminant(&kind));
        let before = screens.len();
        let mut seen = Vec::new();
        for route in of_this {
            let piece = route.id().and_then(|id| desk.model.state().piece(id));
            let what = piece.map(|piece| piece.work.kind);
            if !seen.contains(&what) && shows_it(&mut desk, *route) {
                seen.push(what);
                screens.push(*route);
            }
        }
        assert!(
            screens.len() > before,
            "the sample has nothing for {kind:?}"
        );
    }
    screens
}

/// The pile of the sample that was opened last.
///
/// # Panics
/// If it has none.
pub fn pile_of_the_sample() -> Id {
    let desk = Desk::with_file(SAMPLE, DAY).expect("the sample");
    let last = desk.model.state().piles().last();
    last.expect("a pile").id
}

/// A piece of the sample in the workshop.
///
/// # Panics
/// If it has none.
pub fn piece_of_the_sample() -> Id {
    let desk = Desk::with_file(SAMPLE, DAY).expect("the sample");
    let mut pieces = desk.model.state().pieces();
    let at_hand = |piece: &&Piece| piece.work.kind == PieceKind::Piece && piece.is_at_hand();
    pieces.find(at_hand).expect("a piece at hand").id
}

/// A plank of the sample that was bought.
///
/// # Panics
/// If it has none.
pub fn plank_of_the_sample() -> Id {
    let desk = Desk::with_file(SAMPLE, DAY).expect("the sample");
    let mut planks = desk.model.state().planks();
    let bought = planks.find(|plank| plank.decision() == Some(Decision::Take));
    bought.expect("a bought plank").id
}

/// The screen that is shown.
pub async fn shown(page: &Page) -> Route {
    Route::of_address(&super::steps::address(page).await)
}

/// Goes to each of these screens and does there what a script says: what it finds wrong, with the screen's address.
/// `look` is the body of a function that gives a list of texts.
pub async fn at_each(page: &Page, screens: &[Route], look: &str) -> Vec<String> {
    let script = format!(
        "const look = async () => {{ {look} }};\n\
         const drawn = () => new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go)));\n\
         const all = [];\n\
         (async () => {{\n\
             for (const screen of arguments[0]) {{\n\
                 if (location.hash !== screen) {{\n\
                     const there = new Promise((go) => addEventListener('hashchange', go, {{ once: true }}));\n\
                     location.hash = screen;\n\
                     await there;\n\
                 }}\n\
                 await drawn();\n\
                 if (!document.querySelector('#title')?.innerText.trim()) all.push(`${{screen}}: it has no title`);\n\
                 for (const wrong of await look()) all.push(`${{screen}}: ${{wrong}}`);\n\
             }}\n\
             return all;\n\
         }})().then(done, (why) => done([`${{location.hash}}: ${{why}}`]));"
    );
    let mut wrong = Vec::new();
    for some in screens.chunks(AT_ONCE) {
        let addresses: Vec<String> = some.iter().map(|route| route.address()).collect();
        let found = page.js_async(&script, vec![json!(addresses)]).await;
        let found: Vec<String> = serde_json::from_value(found).expect("a list of texts");
        wrong.extend(found);
    }
    wrong
}
