//! The racks: drawn and by day, for few pieces and for many; the calendar file.

mod at_the_desk;

use at_the_desk::{at, piece, press, region, says, says_not};
use stillwood_app::desk::Desk;
use stillwood_app::effect::Effect;
use stillwood_app::{Action, Route};

/// The plank whose turn it is weighs what it weighed.
fn weigh_as_last_time(desk: &mut Desk) {
    let Route::Deed(id) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    let plank = desk.model.state().piece(id).unwrap();
    let last = plank.work.weighings.last().unwrap();
    let weight = format!("{:.3} kg", last.payload.mass.value);
    desk.type_into("Weight", &weight);
    press(desk, "Save");
}

#[test]
fn a_rack_of_planks_is_weighed_one_after_the_other() {
    let mut desk = at(Route::Racks);
    press(&mut desk, "Weigh Rack by the wall");
    says(
        &desk,
        "17 left to weigh on Rack by the wall, one after the other.",
    );
    says(&desk, "K7-2-V");
    weigh_as_last_time(&mut desk);
    says(&desk, "16 left to weigh on Rack by the wall");
    says(&desk, "K7-3-T");
    // What is not at hand is weighed later.
    press(&mut desk, "Later");
    says(&desk, "16 left to weigh on Rack by the wall");
    says(&desk, "K7-8-J");
    desk.go(Route::Racks);
    assert_eq!(
        desk.model.racks.weighing, None,
        "the round ends where it is left"
    );
    press(&mut desk, "Weigh Rack by the wall");
    says(&desk, "K7-3-T");
    let mut weighed = 1;
    while matches!(desk.model.route, Route::Deed(_)) {
        weigh_as_last_time(&mut desk);
        weighed += 1;
        assert!(weighed <= 17, "each once");
    }
    assert_eq!(weighed, 17);
    assert_eq!(desk.model.route, Route::Racks);
    says_not(&desk, "Weigh Rack by the wall");
}

#[test]
fn a_downgraded_laminate_says_on_which_rack_it_lies() {
    let mut desk = at(Route::Racks);
    press(&mut desk, "By day");
    says(
        &desk,
        "Downgraded: headstock veneer · since 10 May 2025 · Shelf B",
    );
}

#[test]
fn the_order_by_day_tells_what_its_tiles_mean() {
    let mut desk = at(Route::Racks);
    press(&mut desk, "By day");
    says(&desk, "blue ring: rests, and closes as the rest passes");
}

#[test]
fn racks_are_drawn_with_what_lies_on_them_and_nothing_unknown_is_green() {
    let mut desk = at(Route::Racks);
    for rack in ["Loft", "Rack by the wall", "Shelf A", "Shelf B"] {
        says(&desk, rack);
    }
    says(&desk, "21 laminates");
    // The air of its room, as it was logged last.
    says(&desk, "19 °C, 43 %");
    says(&desk, "not all looked over yet");
    let labels: Vec<String> = desk.pressables().into_iter().map(|one| one.label).collect();
    assert!(
        labels
            .iter()
            .any(|one| one == "K7-13 a, K7-13-M a, black walnut, moved"),
        "{labels:?}"
    );
    assert!(
        labels
            .iter()
            .any(|one| one == "K7-2-V, European maple, not known"),
        "{labels:?}"
    );
    // Weight not known: its tile is grey and dashed.
    let body = region(&desk, "body");
    let at = body.find("K7-2-V, European maple").unwrap();
    let tile = body[at..]
        .find("class=\"tile ")
        .map(|from| &body[at + from..at + from + 30])
        .unwrap();
    assert!(tile.starts_with("class=\"tile unknown"), "{tile}");
    // A tile is a press to its piece.
    press(&mut desk, "K7-13 a, K7-13-M a, black walnut");
    assert_eq!(desk.model.route, Route::Piece(piece(&desk, "K7-13-M a")));
}

#[test]
fn by_day_lots_fold_and_words_and_chips_choose() {
    let mut desk = at(Route::Racks);
    press(&mut desk, "By day");
    says(&desk, "Rest over, not yet still (3)");
    // Looked at last a year ago: not under what is ready.
    says(&desk, "Rest over, look again (2)");
    says(&desk, "Rest over, ready (12)");
    says(&desk, "Mar 2027 (8)");
    // The day of a lot that still rests is said once.
    says(&desk, "Rests until 12 Mar 2027");
    says_not(&desk, "rest over 12 Mar 2027");
    says_not(&desk, "K7-5-P b3");
    desk.type_into("words", "shelf b padauk");
    says(&desk, "Shown: “shelf b padauk”");
    says(&desk, "5 laminates of K7-28-8");
    says_not(&desk, "Mar 2027");
    desk.type_into("words", "");
    press(&mut desk, "Weight still changing");
    says(&desk, "R4-9-A a");
    says_not(&desk, "K7-13-M a");
    press(&mut desk, "All");
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
fn chips_count_what_stands_in_the_list() {
    let mut desk = at(Route::Racks);
    press(&mut desk, "By day");
    for chip in [
        "All",
        "Rest over",
        "Due this week",
        "Resting",
        "Weight still changing",
        "Still, rest not over",
    ] {
        let counted = |label: &str| {
            let n = label.strip_prefix(chip)?.strip_prefix(' ')?;
            n.parse::<usize>().ok()
        };
        let mut all = desk.pressables().into_iter();
        let (label, counted) = all
            .find_map(|one| Some((one.says.clone(), counted(&one.says)?)))
            .unwrap();
        press(&mut desk, &label);
        // Headings: `Rest over, ready (12)`. What is missing lies nowhere, and is not counted.
        let body = stillwood_app::desk::text_of(&region(&desk, "body"));
        let listed: usize = body
            .lines()
            .filter(|line| !line.starts_with("Not at rest"))
            .filter_map(|line| {
                line.strip_suffix(')')?
                    .rsplit_once(" (")?
                    .1
                    .parse::<usize>()
                    .ok()
            })
            .sum();
        assert_eq!(listed, counted, "{chip}: {body}");
    }
    // What was put to another use is counted, and said to be so.
    press(&mut desk, "All 46");
    says(&desk, "Downgraded, nothing is due (1)");
    says(&desk, "Downgraded: headstock veneer");
}

#[test]
fn on_a_wide_screen_a_piece_is_shown_beside_and_arrows_go_through_them() {
    let mut desk = at(Route::Racks);
    desk.act(Action::Wide(true));
    // Before a piece is chosen, that which is due first is shown.
    says(&desk, "Due first");
    says(&desk, "Moved: crook 3.4 mm, limit 2 mm");
    says(&desk, "Press a piece to see it here.");
    press(&mut desk, "K7-13 a, K7-13-M a, black walnut");
    assert_eq!(desk.model.route, Route::Racks);
    says(&desk, "Moved: crook 3.4 mm, limit 2 mm");
    desk.act(Action::Key("ArrowDown".to_owned()));
    assert_eq!(desk.model.racks.chosen, Some(piece(&desk, "K7-13-M b")));
    let body = region(&desk, "body");
    assert_eq!(body.matches("id=\"chosen-piece\"").count(), 1, "{body}");
    let scrolls = |effect: &Effect| matches!(effect, Effect::ScrollTo(id) if id == "chosen-piece");
    assert!(desk.left.iter().any(scrolls), "{:?}", desk.left);
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
                    if place.is_empty() {
                        continue;
                    }
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
    let body = region(&desk, "body");
    assert!(body.len() < 20_000, "{} bytes for 2,000 pieces", body.len());
    press(&mut desk, "Rack 2");
    assert!(matches!(desk.model.route, Route::Rack(_)));
    says(&desk, "500 laminates");
    says(&desk, "P25 (50)");
    desk.go(Route::Racks);
    press(&mut desk, "By day");
    says(&desk, "50 laminates of P1");
}

#[test]
fn the_calendar_file_is_handed_out_and_what_will_not_come_is_taken_back() {
    let mut desk = at(Route::Racks);
    press(&mut desk, "Calendar file");
    let file = desk.files.last().unwrap();
    assert_eq!(file.kind, "text/calendar");
    let text = String::from_utf8(file.bytes().to_vec()).unwrap();
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
    press(&mut desk, "Calendar file");
    says(
        &desk,
        "The calendar file lies among this device's downloads.",
    );
}

/// A blank of two woods is told by its stripes.
#[test]
fn the_tile_of_a_blank_shows_its_laminates_in_their_woods_colours() {
    let mut desk = at(Route::Racks);
    desk.go(Route::Piece(piece(&desk, "H3-10-Y")));
    let body = region(&desk, "body");
    let tile = body.split("class=\"tile ").nth(1).unwrap();
    let tile = tile.split("</svg>").next().unwrap();
    let stripes = tile.split("class=\"wood\"").skip(1);
    let colours: Vec<&str> = stripes
        .filter_map(|rect| rect.split("fill=\"").nth(1)?.split('"').next())
        .collect();
    assert_eq!(colours.len(), 5, "{tile}");
    assert_eq!(colours[0], colours[2]);
    assert_ne!(colours[0], colours[1]);
}

#[test]
fn by_day_the_arrow_keys_go_in_the_order_of_the_days() {
    let mut desk = at(Route::Racks);
    desk.act(Action::Wide(true));
    press(&mut desk, "By day");
    // What is not at rest stands at the end, and is reached with the pointer.
    let body = region(&desk, "body");
    let (by_day, _) = body.split_once("Not at rest").unwrap();
    let rows = by_day.split("<strong>").skip(1);
    let names = rows.filter_map(|row| Some(row.split_once("</strong>")?.0));
    let pieces = desk.model.state().pieces();
    let known: Vec<String> = pieces.map(|piece| piece.mark.clone()).collect();
    // Many of one plank are a row, and what it holds is reached once it stands open.
    let marks: Vec<&str> = names
        .filter(|name| known.iter().any(|mark| mark == name))
        .collect();
    let mut reached = Vec::new();
    for _ in &marks {
        desk.act(Action::Key("ArrowDown".to_owned()));
        let chosen = desk.model.racks.chosen.unwrap();
        let mark = &desk.model.state().piece(chosen).unwrap().mark;
        let body = region(&desk, "body");
        let (_, row) = body.split_once("aria-current=\"true\"").unwrap();
        let (row, _) = row.split_once("</li>").unwrap();
        assert!(row.contains(&format!("<strong>{mark}</strong>")), "{row}");
        reached.push(mark.clone());
    }
    assert!(reached.len() > 5, "{reached:?}");
    assert_eq!(reached, marks);
}

#[test]
fn what_is_not_at_rest_is_shown_to_its_end() {
    let mut desk = Desk::new("2026-11-20");
    let mut phone = lots::Lots::new();
    phone.rack("", 100);
    desk.model.record.merge(phone.entries(&desk.model.record));
    desk.go(Route::Racks);
    press(&mut desk, "By day");
    says(&desk, "Not at rest (100)");
    says_not(&desk, "P2 50");
    press(&mut desk, "Show 40 more");
    says(&desk, "P2 50");
}
