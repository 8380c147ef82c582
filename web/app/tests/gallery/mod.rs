//! Every screen in its main states, over the sample workshop and over an empty record. The gallery draws them as
//! pictures, and a test holds their words to `tests/screens/`.
#![allow(dead_code, unreachable_pub)]

mod blanks;
mod book;
mod racks;
mod today;
mod yard;

use stillwood_app::desk::Desk;
use stillwood_app::{Action, Route, book as app_book};
use stillwood_core::record::{Id, KeptElsewhere};

/// The day on which all of them are seen.
pub const DAY: &str = "2026-11-20";

/// What a state of a screen is handed to, with its name: the place, a dash, the screen and the state.
pub type Show<'a> = dyn FnMut(&str, &Desk) + 'a;

/// Where the states are drawn: with the sample's file, on a phone or a laptop.
#[derive(Clone, Copy)]
pub struct Stage<'a> {
    pub sample: &'a [u8],
    pub wide: bool,
}

impl Stage<'_> {
    /// Over the sample.
    fn desk(self) -> Desk {
        let mut desk = Desk::with_file(self.sample, DAY).expect("the sample is read");
        self.furnish(&mut desk);
        desk
    }

    /// Over an empty record.
    fn empty(self) -> Desk {
        let mut desk = Desk::new(DAY);
        self.furnish(&mut desk);
        desk
    }

    fn furnish(self, desk: &mut Desk) {
        desk.model.shell.version = "0.1.0".to_owned();
        desk.model.shell.can_share = !self.wide;
        desk.act(Action::Wide(self.wide));
        desk.act(Action::Book(app_book::Action::Kept(
            KeptElsewhere::default(),
        )));
    }
}

/// Shows them all.
pub fn every_state(stage: Stage<'_>, show: &mut Show<'_>) {
    today::show(stage, show);
    yard::show(stage, show);
    racks::show(stage, show);
    blanks::show(stage, show);
    book::show(stage, show);
}

/// Presses what says this; there has to be something.
#[track_caller]
fn press(desk: &mut Desk, says: &str) {
    assert!(
        desk.press(says),
        "nothing says “{says}” on:\n{}",
        desk.reads()
    );
}

/// Types into fields of the page.
fn fill(desk: &mut Desk, fields: &[(&str, &str)]) {
    for (field, text) in fields {
        desk.type_into(field, text);
    }
}

#[track_caller]
fn piece(desk: &Desk, mark: &str) -> Id {
    let mut pieces = desk.model.state().pieces();
    let found = pieces.find(|piece| piece.mark == mark && !piece.withdrawn);
    found
        .unwrap_or_else(|| panic!("no {mark} in the sample"))
        .id
}

/// The place of a screen among all there are: whoever adds one finds here that it has to be shown.
pub fn number(route: Route) -> usize {
    macro_rules! numbered {
        ($($route:pat => $number:literal),* $(,)?) => { match route { $($route => $number),* } };
    }
    numbered! {
        Route::Today => 0, Route::Find => 1, Route::Yard => 2, Route::NewVisit => 3, Route::EditVisit(_) => 4,
        Route::Visit(_) => 5, Route::Spec(_) => 6, Route::NewPile(_) => 7, Route::EditPile(_) => 8,
        Route::Sort(_) => 9, Route::PileSummary(_) => 10, Route::Measure(_) => 11, Route::Verdict(_) => 12,
        Route::Plank(_) => 13, Route::Mark(_) => 14, Route::Tally(_) => 15, Route::Seller(_) => 16,
        Route::Planks => 17, Route::Target(_) => 18, Route::Racks => 19, Route::Rack(_) => 20,
        Route::Piece(_) => 21, Route::Deed(_) => 22, Route::LookOver => 23, Route::RestTimes => 24,
        Route::Cut(_) => 25, Route::Label(_) => 26, Route::RackLabel(_) => 27, Route::Match => 28,
        Route::GlueUp => 29, Route::GluingLimits => 30, Route::Blanks => 31, Route::Blank(_) => 32,
        Route::SideBySide => 33, Route::Papers(_) => 34, Route::Book => 35, Route::Share => 36,
        Route::BroughtIn => 37, Route::Deleted => 38, Route::Settle => 39, Route::QuickQuestions => 40,
        Route::Settings => 41, Route::Woods => 42, Route::NewWood => 43, Route::EditWood(_) => 44,
        Route::TrackRecord => 45, Route::Plan => 46, Route::About => 47, Route::RackPlanks(_) => 48,
        Route::RestParts(_) => 49, Route::RestBlank(_) => 50,
    }
}

/// How many there are.
pub const SCREENS: usize = 51;
