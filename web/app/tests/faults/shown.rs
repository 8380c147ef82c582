//! Faults of what is shown: names, signs, days, charts.

use super::at_the_desk::sample_on;
use super::*;
use stillwood_core::record::{Event, NewEvent, Noted, Weighed};

/// Records something as it stands, past every form.
fn record(desk: &mut Desk, event: NewEvent) {
    let new_id = desk.model.new_id().unwrap();
    let record = &desk.model.record;
    let first = record.own_entries().1 + 1;
    let made = record.entries(&[event], &[new_id], &desk.model.now, first);
    let entries = made.unwrap().into_iter().map(|one| one.entry().clone());
    desk.model.record.merge(entries.collect());
}

#[test]
fn a_note_never_turns_the_text_after_it() {
    let mut desk = sample();
    let id = piece(&desk, "K7-1-X");
    let text = "grey \u{202e}streak \u{2066}here".to_owned();
    let noted = NewEvent::new(id, Event::Noted(Noted { text }));
    desk.act(Action::Yard(stillwood_app::yard::Action::Recorded(
        stillwood_app::yard::recorded::Action::AddNote(id),
    )));
    record(&mut desk, noted);
    for route in [Route::Plank(id), Route::Piece(id)] {
        desk.go(route);
        let reads = desk.reads();
        assert!(reads.contains("grey"), "{reads}");
        let turns = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
        assert!(!reads.contains(turns), "{route:?}");
    }
}

#[test]
fn a_mark_is_found_however_it_is_typed() {
    let mut desk = sample();
    desk.go(Route::Find);
    for typed in ["K713", "k713m", "K7-13-M", "k7 13 m"] {
        desk.type_into("find", typed);
        says(&desk, "K7-13-M");
        says_not(&desk, "Nothing found");
    }
}

#[test]
fn weights_have_a_scale_on_which_25_grams_are_no_hill() {
    let mut desk = sample();
    for mark in ["R4-9-A a", "K7-5-P b3"] {
        let id = piece(&desk, mark);
        desk.go(Route::Piece(id));
        let body = region(&desk, "body");
        let known = desk.model.state().piece(id).unwrap();
        let weights: Vec<f64> = {
            let all = known.work.weighings.iter();
            all.map(|one| one.payload.mass.value * 1000.0).collect()
        };
        if weights.len() < 2 {
            continue;
        }
        // The names of the scale's marks, in grams or kilograms.
        let grams = |text: &str| -> Option<f64> {
            let (value, unit) = text.trim().rsplit_once(['\u{a0}', ' '])?;
            let value: f64 = value.parse().ok()?;
            match unit {
                "g" => Some(value),
                "kg" => Some(value * 1000.0),
                _ => None,
            }
        };
        let marks: Vec<f64> = body
            .split("text-anchor=\"end\">")
            .skip(1)
            .filter_map(|rest| grams(rest.split('<').next()?))
            .collect();
        assert!(marks.len() >= 2, "{mark}: the chart has a scale");
        let span = marks.iter().fold(f64::MIN, |a, b| a.max(*b))
            - marks.iter().fold(f64::MAX, |a, b| a.min(*b));
        let weight = weights.iter().sum::<f64>() / weights.len() as f64;
        // Some per cent of moisture, not the whole of a small change.
        assert!(span >= weight * 0.03, "{mark}: {span} of {weight} g");
    }
}

#[test]
fn the_key_for_wood_that_can_be_flattened_is_never_discard() {
    let desk = sample();
    let mut moved = 0;
    let ids: Vec<Id> = desk.model.state().pieces().map(|piece| piece.id).collect();
    let mut desk = desk;
    for id in ids {
        desk.go(Route::Piece(id));
        let page = desk.page();
        let Some(foot) = page.regions.iter().find(|one| one.id == "foot") else {
            continue;
        };
        let keys = stillwood_app::desk::text_of(&foot.html);
        let first = keys.lines().next().unwrap_or_default();
        assert_ne!(first, "Discard", "{}", desk.reads());
        moved += usize::from(is_said(&desk, "Moved:"));
    }
    assert!(moved > 0);
}

/// Names of persons after whom methods are called.
const PERSONS: [&str; 14] = [
    "Derringer",
    "Suich",
    "Wilson",
    "Kaplan",
    "Meier",
    "Hailwood",
    "Horrobin",
    "Young",
    "Jeffreys",
    "Clopper",
    "Pearson",
    "Greenwood",
    "Bernoulli",
    "Hankinson",
];

#[test]
fn methods_are_named_by_what_they_do_and_persons_only_in_a_source() {
    let mut desk = sample();
    let plank = piece(&desk, "K7-1-X");
    let laminate = piece(&desk, "K7-13-M a");
    let blank = find(&desk, |piece| {
        piece.work.kind == stillwood_core::record::PieceKind::Blank && piece.is_at_hand()
    });
    let screens = [
        Route::Today,
        Route::Yard,
        Route::Racks,
        Route::Blanks,
        Route::Book,
        Route::Plan,
        Route::TrackRecord,
        Route::Match,
        Route::RestTimes,
        Route::QuickQuestions,
        Route::Settings,
        Route::Share,
        Route::Plank(plank),
        Route::Piece(laminate),
        Route::Blank(blank),
        Route::Papers(blank),
    ];
    for route in screens {
        desk.go(route);
        for line in desk.reads().lines() {
            for person in PERSONS {
                let named = line
                    .split(|c: char| !c.is_alphanumeric())
                    .any(|word| word == person);
                assert!(!named, "{route:?}: {line}");
            }
        }
    }
}

#[test]
fn what_needs_a_network_says_so() {
    let mut desk = sample();
    desk.go(Route::About);
    let body = region(&desk, "body");
    let at = body.find("notices.txt").unwrap();
    let link = &body[at..at + body[at..].find("</a>").unwrap()];
    assert!(link.contains("Needs a network."), "{link}");
}

#[test]
fn a_tile_never_says_a_bare_number_alone() {
    let mut desk = sample();
    desk.go(Route::Racks);
    let body = region(&desk, "body");
    let tiles = body.split("class=\"on-rack\"").skip(1);
    let mut tiles =
        tiles.map(|rest| stillwood_app::desk::text_of(rest.split("</a>").next().unwrap()));
    let bare = tiles.find(|text| text.trim().chars().all(|c| c.is_ascii_digit()));
    assert_eq!(bare, None);
}

#[test]
fn the_signs_of_a_gauge_stay_round_however_wide_it_is() {
    let mut desk = sample();
    desk.go(Route::Plank(piece(&desk, "K7-1-X")));
    let body = region(&desk, "body");
    let gauges: Vec<&str> = body.split("<svg class=\"gauge ").skip(1).collect();
    assert!(gauges.len() >= 5);
    for gauge in gauges {
        let drawn = gauge.split("</svg>").next().unwrap();
        assert!(!drawn.contains("preserveAspectRatio"), "{drawn}");
        assert!(drawn.contains('%'), "{drawn}");
    }
}

#[test]
fn parts_that_are_narrow_on_the_drawing_have_no_dashes() {
    let mut desk = sample();
    desk.go(Route::Plank(piece(&desk, "K7-1-X")));
    let body = region(&desk, "body");
    let parts = body.split("class=\"parts").nth(1).unwrap();
    let parts = parts.split("</g>").next().unwrap();
    assert!(parts.starts_with(" narrow"), "{parts}");
    assert!(parts.matches("<rect").count() > 10);
    let css = include_str!("../../../../static/app.css");
    assert!(css.contains(".parts.narrow rect { stroke-dasharray: none"));
}

#[test]
fn the_manifest_has_the_colour_of_the_page() {
    let manifest: serde_json::Value =
        serde_json::from_str(include_str!("../../../../static/manifest.webmanifest")).unwrap();
    let page = include_str!("../../../../static/index.html");
    let css = include_str!("../../../../static/app.css");
    for key in ["background_color", "theme_color"] {
        let colour = manifest[key].as_str().unwrap();
        assert!(
            css.contains(&format!("--paper: {colour}")),
            "{key} {colour}"
        );
        assert!(
            page.contains(&format!("content=\"{colour}\"")),
            "{key} {colour}"
        );
    }
}

#[test]
fn days_are_written_in_one_way() {
    let mut desk = sample();
    desk.act(Action::Wide(true));
    let plank = piece(&desk, "K7-1-X");
    let laminate = piece(&desk, "K7-13-M a");
    let visit = visit_of(&desk, "Plumlatch Lumber");
    let blank = find(&desk, |piece| {
        piece.work.kind == stillwood_core::record::PieceKind::Blank && piece.is_at_hand()
    });
    let is_iso = |text: &str| {
        let signs: Vec<char> = text.chars().collect();
        signs.windows(10).any(|ten| {
            ten.iter().enumerate().all(|(at, c)| match at {
                4 | 7 => *c == '-',
                _ => c.is_ascii_digit(),
            })
        })
    };
    for route in [
        Route::Today,
        Route::Yard,
        Route::Racks,
        Route::Blanks,
        Route::Book,
        Route::Plan,
        Route::TrackRecord,
        Route::Match,
        Route::RestTimes,
        Route::Share,
        Route::Deleted,
        Route::Settle,
        Route::Planks,
        Route::Visit(visit),
        Route::Tally(visit),
        Route::Spec(visit),
        Route::Target(visit),
        Route::Seller(visit),
        Route::Plank(plank),
        Route::Piece(laminate),
        Route::Rack(laminate),
        Route::Label(laminate),
        Route::RackLabel(laminate),
        Route::Cut(laminate),
        Route::Blank(blank),
        Route::Papers(blank),
        Route::SideBySide,
        Route::Settings,
        Route::QuickQuestions,
    ] {
        desk.go(route);
        for line in desk.reads().lines() {
            assert!(!is_iso(line), "{route:?}: {line}");
        }
    }
}

#[test]
fn pieces_that_weigh_more_than_what_they_were_cut_from_are_questioned() {
    let mut desk = sample();
    let plank = piece(&desk, "K7-5-P");
    let says_why = "Its pieces weigh more than it did: check the weights.";
    desk.go(Route::Piece(plank));
    says_not(&desk, says_why);
    let known = desk.model.state().piece(plank).unwrap();
    let mut weighed: Weighed = (*known.work.weighings.last().unwrap().payload).clone();
    weighed.mass.value = 2.0;
    let cut_on = known.work.end.as_ref().unwrap().on;
    let weighed = NewEvent::new(plank, Event::Weighed(weighed.into()));
    record(&mut desk, weighed.on(cut_on));
    desk.go(Route::Piece(plank));
    says(&desk, says_why);
}

#[test]
fn a_day_of_drying_that_has_passed_wants_the_piece_weighed() {
    let later = |desk: &Desk| {
        let id = piece(desk, "R4-9-A a");
        let known = desk.model.state().piece(id).unwrap();
        stillwood_app::racks::matter::dries(&desk.model, known)
    };
    assert!(later(&sample()).starts_with("still drying, near its room's air about"));
    let passed = later(&sample_on("2027-06-01"));
    assert_eq!(passed, "still drying when it was weighed last: weigh it");
}
