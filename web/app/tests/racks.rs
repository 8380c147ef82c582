//! The racks: drawn and by day, a rack looked over, a piece and what is done with it, a cut, rest times, labels.

use stillwood_app::desk::Desk;
use stillwood_app::effect::Effect;
use stillwood_app::racks::Action as Racks;
use stillwood_app::{Action, Route};
use stillwood_core::record::{Event, Id, Life, queries};
use stillwood_core::season::Stage;

fn sample_on(day: &str) -> Desk {
    let file = include_bytes!("../../../demo-data/two-yards.json");
    let mut desk = Desk::with_file(file, day).unwrap();
    desk.go(Route::Racks);
    desk
}

fn sample() -> Desk {
    sample_on("2026-11-20")
}

fn piece(desk: &Desk, mark: &str) -> Id {
    desk.model
        .state()
        .pieces()
        .find(|piece| piece.mark == mark)
        .unwrap()
        .id
}

fn says(desk: &Desk, text: &str) {
    let reads = desk.reads().replace('\u{a0}', " ");
    assert!(reads.contains(text), "“{text}” is not in:\n{reads}");
}

fn says_not(desk: &Desk, text: &str) {
    let reads = desk.reads().replace('\u{a0}', " ");
    assert!(!reads.contains(text), "“{text}” is in:\n{reads}");
}

fn checks(desk: &Desk, piece: Id) -> usize {
    desk.model.state().piece(piece).unwrap().work.checks.len()
}

#[test]
fn racks_are_drawn_with_what_lies_on_them_and_nothing_unknown_is_green() {
    let mut desk = sample();
    for rack in ["Loft", "Rack by the wall", "Shelf A", "Shelf B"] {
        says(&desk, rack);
    }
    says(&desk, "21 laminates · not all looked over yet");
    let labels: Vec<String> = desk.pressables().into_iter().map(|one| one.label).collect();
    assert!(
        labels
            .iter()
            .any(|one| one == "K7-13-M a, American black walnut, moved"),
        "{labels:?}"
    );
    assert!(
        labels
            .iter()
            .any(|one| one == "K7-2-V, sycamore maple, not known"),
        "{labels:?}"
    );
    // Weight not known: its tile is grey and dashed.
    let body = desk
        .page()
        .regions
        .into_iter()
        .find(|one| one.id == "body")
        .unwrap()
        .html;
    let at = body.find("K7-2-V, sycamore maple").unwrap();
    let tile = body[at..]
        .find("class=\"tile ")
        .map(|from| &body[at + from..at + from + 30])
        .unwrap();
    assert!(tile.starts_with("class=\"tile unknown"), "{tile}");
    // A tile is a press to its piece.
    assert!(desk.press("K7-13-M a, American black walnut"));
    assert_eq!(desk.model.route, Route::Piece(piece(&desk, "K7-13-M a")));
}

#[test]
fn by_day_lots_fold_and_words_and_chips_choose() {
    let mut desk = sample();
    assert!(desk.press("By day"));
    says(&desk, "Rest over, not yet still (3)");
    says(&desk, "Rest over, ready");
    says(&desk, "Mar 2027 (8)");
    says_not(&desk, "K7-5-P b3");
    desk.type_into("words", "shelf b padauk");
    says(&desk, "Shown: “shelf b padauk”");
    says(&desk, "5 laminates of K7-28-8");
    says_not(&desk, "Mar 2027");
    desk.type_into("words", "");
    assert!(desk.press("Weight still changing"));
    says(&desk, "R4-9-A a");
    says_not(&desk, "K7-13-M a");
    assert!(desk.press("All"));
    // What was chosen is there again.
    desk.go(Route::Today);
    desk.go(Route::Racks);
    says(&desk, "Mar 2027 (8)");
    assert!(
        desk.kept["shown/workshop"].contains("\"order\":\"0\""),
        "{:?}",
        desk.kept
    );
}

#[test]
fn on_a_wide_screen_a_piece_is_shown_beside_and_arrows_go_through_them() {
    let mut desk = sample();
    desk.act(Action::Wide(true));
    says(&desk, "Press a piece to see it here.");
    assert!(desk.press("K7-13-M a, American black walnut"));
    assert_eq!(desk.model.route, Route::Racks);
    says(&desk, "Moved: crook 3.4 mm, limit 2 mm");
    desk.act(Action::Key("ArrowDown".to_owned()));
    assert_eq!(desk.model.racks.chosen, Some(piece(&desk, "K7-13-M b")));
    desk.act(Action::Key("Enter".to_owned()));
    assert_eq!(desk.model.route, Route::Piece(piece(&desk, "K7-13-M b")));
}

/// 2,000 laminates on four racks, by the sample's own laminates many times over.
fn many() -> Desk {
    let mut desk = Desk::new("2026-11-20");
    let mut phone = lots::Lots::new();
    for rack in 0..4 {
        phone.rack(&format!("rack {rack}"), 500);
    }
    desk.model.record.merge(phone.entries(&desk.model.record));
    desk.go(Route::Racks);
    desk
}

/// Entries of many pieces.
mod lots {
    use std::sync::Arc;
    use stillwood_app::model::Now;
    use stillwood_app::record::Record;
    use stillwood_core::record::*;
    use stillwood_core::season::Stage;

    pub(crate) struct Lots {
        events: Vec<NewEvent>,
        plank: u128,
    }

    impl Lots {
        pub(crate) fn new() -> Self {
            Self {
                events: Vec::new(),
                plank: 0,
            }
        }

        pub(crate) fn rack(&mut self, place: &str, laminates: usize) {
            for _ in 0..laminates / 50 {
                self.plank += 1;
                let plank =
                    Id::from_u128(0x0190_0000_0000_7000_8000_0000_0000_0000 + self.plank * 0x1000);
                let mark = format!("P{}", self.plank);
                self.events.push(NewEvent::new(
                    plank,
                    Event::Marked(Marked {
                        mark: mark.clone(),
                        pile: Id::from_u128(7),
                    }),
                ));
                let child = |n: u128| {
                    Id::from_u128(
                        0x0190_0000_0000_7000_8000_0000_0000_0000 + self.plank * 0x1000 + n,
                    )
                };
                let children = (1..=50).map(|n| Child {
                    across: None,
                    along: None,
                    id: child(n),
                    kind: PieceKind::Laminate,
                    mark: format!("{mark} {n}"),
                    through: None,
                });
                let cut = Cut {
                    children: children.collect(),
                    kerf: None,
                    tension: None,
                };
                self.events
                    .push(NewEvent::new(plank, Event::Cut(Arc::new(cut))));
                for n in 1..=50 {
                    let rest = SetToRest {
                        climate: Climate::default(),
                        place: place.to_owned(),
                        stage: Stage::Laminates,
                    };
                    self.events
                        .push(NewEvent::new(child(n), Event::SetToRest(Arc::new(rest))));
                }
            }
        }

        pub(crate) fn entries(&self, record: &Record) -> Vec<Entry> {
            let now = Now {
                day: "2026-06-01".to_owned(),
                at: "2026-06-01T09:00:00Z".to_owned(),
                millis: 1,
            };
            let ids: Vec<Id> = (0..self.events.len() as u128)
                .map(|n| Id::from_u128(0x0191_0000_0000_7000_8000_0000_0000_0000 + n))
                .collect();
            let made = record.entries(&self.events, &ids, &now, 1).unwrap();
            made.into_iter().map(|one| one.entry().clone()).collect()
        }
    }
}

#[test]
fn two_thousand_pieces_are_racks_in_rows_and_tiles_with_counts() {
    let mut desk = many();
    says(&desk, "500 laminates");
    let body = desk
        .page()
        .regions
        .into_iter()
        .find(|one| one.id == "body")
        .unwrap()
        .html;
    assert!(body.len() < 20_000, "{} bytes for 2,000 pieces", body.len());
    assert!(desk.press("Rack 2"));
    assert!(matches!(desk.model.route, Route::Rack(_)));
    says(&desk, "500 laminates");
    says(&desk, "P25 (50)");
    desk.go(Route::Racks);
    assert!(desk.press("By day"));
    says(&desk, "50 laminates of P1");
}

#[test]
fn twenty_one_pieces_none_moved_are_twenty_two_presses() {
    let mut desk = sample();
    let on_b: Vec<Id> = desk
        .model
        .state()
        .pieces()
        .filter(|piece| {
            piece
                .work
                .place
                .as_ref()
                .is_some_and(|place| place.payload == "shelf B")
                && piece.is_at_hand()
        })
        .map(|piece| piece.id)
        .collect();
    assert_eq!(on_b.len(), 21);
    let before: usize = on_b.iter().map(|id| checks(&desk, *id)).sum();
    let mut presses = 1;
    assert!(desk.press("Look over Shelf B"));
    says(&desk, "0 of 21 looked over");
    while desk.reads().contains("No change since last time") {
        assert!(desk.press("No change since last time"));
        presses += 1;
        assert!(presses <= 22, "{presses} presses");
    }
    assert_eq!(presses, 22);
    says(&desk, "All 21 looked over.");
    let after: usize = on_b.iter().map(|id| checks(&desk, *id)).sum();
    assert_eq!(after, before + 21, "each has a check of its own");
}

#[test]
fn a_second_press_within_300_ms_counts_for_none_and_the_last_can_be_undone() {
    let mut desk = sample_on("2026-11-21");
    desk.press("Look over Shelf A");
    let first = piece(&desk, "K7-1-X a");
    let before = checks(&desk, first);
    let second = piece(&desk, "K7-13-M a");
    let second_before = checks(&desk, second);
    assert!(desk.press("No change since last time"));
    says(&desk, "1 of 5 looked over");
    // The thumb falls twice: the next piece is on the screen by then.
    desk.model.now.millis += 200;
    desk.act(Racks::NoChange(second));
    says(&desk, "1 of 5 looked over");
    assert_eq!(checks(&desk, second), second_before);
    desk.model.now.millis += 150;
    desk.act(Racks::NoChange(second));
    says(&desk, "2 of 5 looked over");
    assert!(desk.press("Undo last"));
    says(&desk, "1 of 5 looked over");
    says(&desk, "The check of K7-13-M a is deleted.");
    assert!(desk.press("Undo last"));
    says(&desk, "0 of 5 looked over");
    assert_eq!(checks(&desk, first), before);
    let undo = desk
        .pressables()
        .into_iter()
        .find(|one| one.says == "Undo last")
        .unwrap();
    assert!(undo.disabled, "nothing is left of this round");
}

#[test]
fn what_moved_is_measured_and_all_that_is_wrong_stands_at_its_field() {
    let mut desk = sample_on("2026-11-21");
    desk.press("Look over Shelf A");
    let id = piece(&desk, "K7-1-X a");
    let before = checks(&desk, id);
    assert!(desk.press("It moved: measure"));
    assert!(desk.press("Save, next"));
    says(&desk, "Type what was measured, or say that nothing moved.");
    desk.type_into("Bow", "much");
    desk.type_into("Crook", "+2.6");
    desk.type_into("Twist", "a lot");
    assert!(desk.press("Save, next"));
    says(&desk, "“much” can't be read.");
    says(&desk, "“a lot” can't be read.");
    assert_eq!(checks(&desk, id), before);
    // Half typed, it is offered where the racks are, and stands open again.
    desk.go(Route::Racks);
    says(&desk, "K7-1-X a: It moved");
    assert!(desk.press("K7-1-X a: It moved"));
    says(&desk, "You had begun this.");
    desk.type_into("Bow", "0.3");
    desk.type_into("Twist", "");
    assert!(desk.press("Save, next"));
    assert_eq!(checks(&desk, id), before + 1);
    says(&desk, "1 of 5 looked over");
    says_not(&desk, "Save, next");
    assert!(!desk.model.forms.contains_key(&format!("{id}/check")));
}

#[test]
fn the_day_and_who_looked_are_typed_once_for_the_round() {
    let mut desk = sample_on("2026-11-21");
    desk.press("Look over Shelf A");
    desk.type_into("Who looked", "the apprentice");
    desk.type_into("Day", "");
    assert!(desk.press("No change since last time"));
    says(&desk, "Which day was it?");
    desk.type_into("Day", "2026-11-18");
    assert!(desk.press("No change since last time"));
    // Asked once for the round: another check is later.
    says(&desk, "That is before 2026-11-20");
    assert!(desk.press("Keep it as typed"));
    assert!(desk.press("No change since last time"));
    assert!(desk.model.dialog.is_none(), "not asked again");
    assert!(desk.press("Undo last"));
    let checked_id = piece(&desk, "K7-1-X a");
    let checked = desk.model.state().piece(checked_id).unwrap();
    let of_day = checked
        .work
        .checks
        .iter()
        .filter(|check| check.on.to_string() == "2026-11-18");
    let last = of_day.last().unwrap();
    assert_eq!(last.payload.who, "the apprentice");
    assert!(last.payload.nothing_moved);
    // The check of that day is undone, not the last by the calendar.
    let before = checks(&desk, checked_id);
    assert!(desk.press("Undo last"));
    assert_eq!(checks(&desk, checked_id), before - 1);
    let piece = desk.model.state().piece(checked_id).unwrap();
    assert!(
        piece
            .work
            .checks
            .iter()
            .all(|check| check.on.to_string() != "2026-11-18")
    );
    // A day to come is asked about once.
    desk.type_into("Day", "2062-01-01");
    assert!(desk.press("No change since last time"));
    assert!(desk.model.dialog.is_some(), "asked first");
    desk.act(Action::CloseDialog);
    // What is typed of the round is there again after a reload.
    desk.go(Route::LookOver);
    assert_eq!(desk.model.racks.round.texts["Who looked"], "the apprentice");
}

#[test]
fn a_rack_is_looked_over_by_keyboard_on_a_wide_screen() {
    let mut desk = sample_on("2026-11-21");
    desk.act(Action::Wide(true));
    desk.press("Look over Shelf A");
    says(&desk, "Enter or N: no change");
    for key in ["n", "ArrowDown", "Enter"] {
        desk.model.now.millis += 400;
        desk.act(Action::Key(key.to_owned()));
    }
    says(&desk, "2 of 5 looked over");
    desk.model.now.millis += 400;
    desk.act(Action::Key("m".to_owned()));
    says(&desk, "Save, next");
    desk.act(Action::Key("Escape".to_owned()));
    desk.model.now.millis += 400;
    desk.act(Action::Key("Backspace".to_owned()));
    says(&desk, "1 of 5 looked over");
}

#[test]
fn a_check_that_could_not_be_kept_is_told_and_can_be_made_again() {
    let mut desk = sample_on("2026-11-21");
    desk.press("Look over Shelf A");
    desk.refuses = true;
    desk.press("No change since last time");
    says(&desk, "the device is full");
    says(&desk, "0 of 5 looked over");
    desk.refuses = false;
    desk.model.now.millis += 10_000;
    desk.press("No change since last time");
    says(&desk, "1 of 5 looked over");
}

#[test]
fn what_moved_is_flattened_first_and_set_to_rest_in_the_same_form() {
    let mut desk = sample();
    let id = piece(&desk, "K7-13-M a");
    desk.go(Route::Piece(id));
    says(&desk, "Moved: crook 3.4 mm, limit 2 mm");
    let foot: Vec<String> = {
        let page = desk.page();
        let foot = page.regions.iter().find(|one| one.id == "foot").unwrap();
        stillwood_app::desk::text_of(&foot.html)
            .lines()
            .map(str::to_owned)
            .collect()
    };
    assert_eq!(foot, ["Flatten and rest again", "Discard"]);
    assert!(desk.press("Flatten and rest again"));
    assert_eq!(desk.model.route, Route::Deed(id));
    desk.type_into("Thickness", "9 stone");
    assert!(desk.press("Save"));
    says(&desk, "can't be read");
    desk.type_into("Thickness", "48.2");
    assert!(desk.press("Save"));
    assert_eq!(desk.model.route, Route::Piece(id));
    says(&desk, "Rests until 20 May 2027");
    let known = desk.model.state().piece(id).unwrap();
    assert_eq!(known.work.rest().unwrap().on.to_string(), "2026-11-20");
    assert_eq!(
        known.work.machined.last().unwrap().on.to_string(),
        "2026-11-20"
    );
    // Both go with one undo.
    assert!(desk.press("Undo"));
    desk.go(Route::Piece(id));
    says(&desk, "Moved: crook 3.4 mm, limit 2 mm");
}

#[test]
fn every_command_that_fits_lies_behind_more_and_records() {
    let mut desk = sample();
    let id = piece(&desk, "K7-5-P b3");
    desk.go(Route::Piece(id));
    desk.press("More");
    for name in [
        "Put on a rack",
        "Weigh",
        "Moisture",
        "Check movement",
        "Machined flat",
        "Rings and grain",
        "Stress test",
        "Set to rest",
        "Discard",
        "Downgrade",
        "Missing",
        "Reserve",
        "Used",
        "Cut",
        "Flatten and rest again",
    ] {
        says(&desk, name);
    }
    assert!(desk.press("Weigh"));
    assert!(desk.press("Save"));
    says(&desk, "This is still to be typed.");
    desk.type_into("Weight", "19 stone");
    says(&desk, "can't be read");
    desk.type_into("Weight", "431 g");
    assert!(desk.press("Save"));
    let last = desk
        .model
        .state()
        .piece(id)
        .unwrap()
        .work
        .weighings
        .last()
        .unwrap()
        .payload
        .clone();
    assert!((last.mass.value - 0.431).abs() < 1e-9);
    says(&desk, "431 g on 20 Nov");
    // Discarded only with a reason, and brought back by one touch.
    desk.press("More");
    desk.press("Discard");
    desk.press("Save");
    says(&desk, "Say why");
    desk.press("sprang at the saw");
    desk.press("Save");
    says(&desk, "Discarded");
    assert!(
        desk.page().regions.iter().all(|one| one.id != "foot"),
        "nothing is to be done with it"
    );
    assert!(desk.press("Undo"));
    assert!(matches!(
        desk.model.state().piece(id).unwrap().life().0,
        Life::Resting(Stage::Laminates)
    ));
}

#[test]
fn a_half_typed_form_stands_on_the_page_of_its_piece_and_goes_on() {
    let mut desk = sample();
    let id = piece(&desk, "K7-5-P b3");
    desk.go(Route::Piece(id));
    desk.press("More");
    desk.press("Weigh");
    desk.type_into("Weight", "43");
    desk.go(Route::Today);
    says(&desk, "K7-5-P b3: Weigh");
    desk.go(Route::Piece(id));
    says(&desk, "Half typed: Weigh.");
    assert!(desk.press("Go on"));
    assert_eq!(desk.model.form.as_ref().unwrap().text("Weight"), "43");
    // The address of a form of which nothing is known leads to its piece.
    desk.press("Start afresh");
    desk.model.racks.deed = None;
    desk.go(Route::Deed(id));
    assert_eq!(desk.model.route, Route::Piece(id));
}

#[test]
fn figures_tell_how_they_are_worked_out_and_charts_say_what_they_show() {
    let mut desk = sample();
    let id = piece(&desk, "K7-13-M a");
    desk.go(Route::Piece(id));
    assert!(desk.press("Change of crook"));
    says(&desk, "How it is worked out");
    desk.act(Action::CloseDialog);
    let body = desk
        .page()
        .regions
        .into_iter()
        .find(|one| one.id == "body")
        .unwrap()
        .html;
    assert!(
        body.contains("crook +3.4 mm, limit 2 mm"),
        "the chart says the same"
    );
    assert!(desk.press("Rest over since"));
    desk.act(Action::CloseDialog);
    // The scale of the weights shows noise as noise: 6 % of moisture at least.
    let id = piece(&desk, "R4-9-A a");
    desk.go(Route::Piece(id));
    says(
        &desk,
        "The band is what it would weigh once settled in the air of its room.",
    );
    let id = piece(&desk, "K7-2-V");
    desk.go(Route::Piece(id));
    says(
        &desk,
        "Four weighings with the air of its room logged tell where it settles.",
    );
    says(&desk, "Yard sheet");
}

#[test]
fn a_family_goes_from_the_plank_to_what_was_made() {
    let mut desk = sample();
    let id = piece(&desk, "K7-13-M a");
    desk.go(Route::Piece(id));
    says(&desk, "and 1 more of the same cut");
    assert!(desk.press("K7-13-M"));
    says(&desk, "Cut");
    let laminate = piece(&desk, "K7-5-P a2");
    desk.go(Route::Piece(laminate));
    says(&desk, "K7-5-P a");
    says(&desk, "of the same cut");
}

#[test]
fn a_cut_is_drawn_first_what_is_not_known_is_hatched_and_strips_take_their_marks() {
    let mut desk = sample();
    let id = piece(&desk, "K7-13-M b");
    desk.go(Route::Cut(id));
    says(&desk, "10 laminates: 10 quartersawn");
    says(&desk, "Look for metal first.");
    let marks = queries::marks_for(
        desk.model.state(),
        "K7-13-M b",
        stillwood_core::record::PieceKind::Laminate,
        2,
    );
    assert_eq!(marks, ["K7-13-M b1", "K7-13-M b2"]);
    // Two strips of one mark are told at their fields.
    desk.type_into("marks/1", "K7-13-M b1");
    says(&desk, "stands on two of them");
    desk.press("Record the cut");
    assert!(desk.model.state().piece(id).unwrap().is_at_hand());
    desk.type_into("marks/1", "K7-13-M b22");
    // The third sprang, the tenth was not cut.
    assert!(desk.press("Strip 3: kept"));
    assert!(desk.press("Strip 10: kept"));
    assert!(desk.press("Strip 10: sprang"));
    desk.type_into("It sprang by", "+9");
    says(&desk, "That is beyond your limit of 2 mm over this length.");
    assert!(desk.press("Record the cut"));
    assert_eq!(desk.model.route, Route::Piece(id));
    says(&desk, "Cut");
    let made = queries::made_from(desk.model.state(), id);
    assert_eq!(made.len(), 9);
    assert!(
        desk.model
            .state()
            .pieces()
            .any(|piece| piece.mark == "K7-13-M b22")
    );
    let gone = made
        .iter()
        .filter(|id| desk.model.state().piece(**id).unwrap().life().0 == Life::Discarded);
    assert_eq!(gone.count(), 1);
    // It is no longer there to be cut.
    desk.go(Route::Cut(id));
    says(&desk, "It is no longer here to be cut");
}

#[test]
fn a_cut_of_wood_whose_rings_nobody_read_is_grey_and_never_green() {
    let mut desk = sample();
    let read = |piece: &stillwood_core::record::Piece| {
        piece
            .value(stillwood_core::plank::Field::RingAngle)
            .is_some()
            || piece
                .value(stillwood_core::plank::Field::RingChord)
                .is_some()
    };
    let state = desk.model.state();
    let found = queries::stock(state).find(|piece| {
        piece.work.kind == stillwood_core::record::PieceKind::Plank
            && piece.is_bought()
            && !read(piece)
            && queries::stock_to_cut(state, piece).is_some()
    });
    let Some(id) = found.map(|piece| piece.id) else {
        return;
    };
    desk.go(Route::Cut(id));
    desk.press("laminates");
    says(&desk, "rings not known");
    let body = desk
        .page()
        .regions
        .into_iter()
        .find(|one| one.id == "body")
        .unwrap()
        .html;
    assert!(body.contains("strip unknown"));
    assert!(!body.contains("strip good"));
}

#[test]
fn rest_times_are_changed_and_what_is_wrong_stands_at_its_field() {
    let mut desk = sample();
    assert!(desk.press("Rest times and rooms"));
    says(&desk, "warn over 1 mm, reject over 2 mm");
    assert!(desk.press("Change: Rest of laminates"));
    desk.type_into("Months at least", "8.5");
    desk.type_into("Bow: watched beyond", "3");
    assert!(desk.press("Save"));
    says(&desk, "A whole number up to 600");
    desk.type_into("Months at least", "8");
    desk.type_into("Bow: watched beyond", "");
    assert!(desk.press("Save"));
    assert_eq!(desk.model.route, Route::RestTimes);
    assert_eq!(
        queries::stage_limits(desk.model.state(), Stage::Laminates).months,
        8
    );
    says(&desk, "8 to 12 months");
}

#[test]
fn a_rooms_air_is_logged_and_what_wood_settles_at_is_told() {
    let mut desk = sample();
    desk.go(Route::RestTimes);
    assert!(desk.press("Log room air"));
    desk.type_into("Room", "");
    assert!(desk.press("Save"));
    says(&desk, "This is still to be typed.");
    desk.type_into("Room", "bench");
    desk.type_into("Humidity of the air", "45");
    assert!(desk.press("Save"));
    says(&desk, "Bench");
    says(&desk, "8.5 %");
    let read = desk
        .model
        .record
        .log()
        .entries()
        .filter(|entry| matches!(entry.event, Event::RoomRead(_)));
    assert!(read.count() > 0);
    assert!(desk.press("wood settles at: 8.5 %"));
    says(&desk, "How it is worked out");
}

#[test]
fn a_label_holds_the_whole_mark_as_a_code_and_no_cost() {
    let mut desk = sample();
    let id = piece(&desk, "K7-13-M a");
    desk.go(Route::Piece(id));
    assert!(desk.press("Label"));
    let body = desk
        .page()
        .regions
        .into_iter()
        .find(|one| one.id == "body")
        .unwrap()
        .html;
    assert!(body.contains("aria-label=\"K7-13-M a\""), "{body}");
    says(&desk, "rest over since 25 Apr 2026");
    for secret in ["EUR", "USD", "87.10", "score"] {
        says_not(&desk, secret);
    }
    assert!(desk.press("Print"));
    assert!(matches!(desk.left.as_slice(), [.., Effect::Print]));
    desk.go(Route::Rack(id));
    assert!(desk.press("Label"));
    says(&desk, "K7-13-M b");
    says_not(&desk, "EUR");
}

#[test]
fn the_calendar_file_is_handed_out_and_what_will_not_come_is_taken_back() {
    let mut desk = sample();
    assert!(desk.press("Calendar file"));
    let file = desk.files.last().unwrap();
    assert_eq!(file.kind, "text/calendar");
    let text = String::from_utf8(file.bytes.clone()).unwrap();
    assert!(text.contains("BEGIN:VEVENT"));
    assert!(
        desk.settings.contains_key("settings"),
        "what it told of is kept"
    );
    // All laminates of a day are discarded: the next file takes that day back.
    let id = piece(&desk, "K7-13-M a");
    let other = piece(&desk, "K7-13-M b");
    for id in [id, other] {
        desk.go(Route::Piece(id));
        desk.press("More");
        desk.press("Missing");
        desk.press("Save");
    }
    desk.go(Route::Racks);
    assert!(desk.press("Calendar file"));
    says(
        &desk,
        "The calendar file lies among this device's downloads.",
    );
}
