//! The screens of the blanks: what they show of the sample workshop, and what each key does.

mod at_the_desk;
mod blanks_sample;

use at_the_desk::{DAY, at, piece, press, region, sample, sample_on, says, says_not};
use blanks_sample::members;
use stillwood_app::desk::Desk;
use stillwood_app::{Action, Effect, Route};
use stillwood_core::record::commands::glue;
use stillwood_core::record::{Event, Life, queries};

#[test]
fn the_place_counts_laminates_by_wood_and_finds_blanks_by_what_they_have_to_be() {
    let mut desk = at(Route::Blanks);
    says(&desk, "African padauk 5 ready");
    says(&desk, "European maple 7 ready 8 not ready");
    says(&desk, "1 laminate is downgraded and left out.");
    // Looked at last a year ago: not under what is ready.
    let all = desk.reads();
    let look_again = all.find("Rest over, look again").unwrap();
    assert!(all.find("H3-11-W").unwrap() > look_again);
    // What is used is asked for.
    says(&desk, "3 blanks");
    says(&desk, "Reserved for Alma until 31 Jan 2027");
    says_not(&desk, "H3-9-K");
    press(&mut desk, "Show used and discarded too");
    says(&desk, "H3-9-K");
    press(&mut desk, "Show used and discarded too");
    // Three laminates are softer and narrower than five; a comma is a point.
    desk.type_into("Stiffness at least", "5000");
    says(&desk, "2 of 3 blanks");
    desk.type_into("Stiffness at least", "7000,5");
    says(&desk, "1 of 3 blanks");
    says(&desk, "H3-10-Y");
    desk.type_into("Stiffness at least", "");
    desk.type_into("Width at least", "80 mm");
    says(&desk, "2 of 3 blanks");
    // What is not understood asks for nothing and says so at its field.
    desk.type_into("Width at least", "");
    desk.type_into("Weight at most", "light");
    says(&desk, "3 blanks");
    assert!(
        desk.page()
            .regions
            .iter()
            .any(|region| region.html.contains("aria-invalid=\"true\""))
    );
    desk.type_into("Weight at most", "1.5");
    says(&desk, "1 of 3 blanks");
    desk.type_into("Weight at most", "");
    press(&mut desk, "Reserved");
    says(&desk, "1 of 3 blanks");
    press(&mut desk, "Free");
    says(&desk, "2 of 3 blanks");
    says_not(&desk, "Alma");
    press(&mut desk, "All");
    press(&mut desk, "black walnut");
    says(&desk, "2 of 3 blanks");
    says_not(&desk, "H3-11-W");
    // It is kept on the device, under the names of old.
    let kept = &desk.kept["shown/blanks"];
    assert!(kept.contains("\"Wood\":\"black walnut\""), "{kept}");
    press(&mut desk, "black walnut");
    says(&desk, "3 blanks");
}

/// From the place to the gluing's form.
fn to_the_clamps(desk: &mut Desk) -> u32 {
    desk.go(Route::Blanks);
    press(desk, "Match and glue");
    press(desk, "Glue these 5");
    press(desk, "Go on all the same");
    2
}

#[test]
fn a_set_is_glued_in_four_presses_and_the_blank_says_all_that_was_said() {
    let mut desk = sample();
    let presses = to_the_clamps(&mut desk);
    assert_eq!(desk.model.route, Route::GlueUp);
    let set = members(&desk);
    // Which way round, how large the joints are, the mark found by the app, the cautions.
    says(&desk, "marked edge");
    says(
        &desk,
        "Joints: 4 of 950 mm × 47.5 mm, together 0.18 m² . Multiply it by the spread",
    );
    let mark = desk
        .model
        .form
        .as_ref()
        .unwrap()
        .text(glue::MARK.key)
        .to_owned();
    assert!(mark.starts_with("K7-"), "{mark}");
    says(
        &desk,
        "Glue that is not cured can make skin and lungs sensitive for good.",
    );
    says(&desk, "All wood dust harms");
    // All that is wrong stands at its field, and nothing is recorded.
    let before = desk.model.record.log().len();
    desk.type_into("Mark of the blank", "H3-10-Y");
    desk.type_into("Clamped, hours", "long");
    desk.type_into("Humidity, %", "140");
    press(&mut desk, "Record the gluing");
    let errors = &desk.model.form.as_ref().unwrap().errors;
    for field in ["Mark of the blank", "Clamped, hours", "Humidity, %"] {
        assert!(errors.of(field).is_some(), "{field}: {errors:?}");
    }
    assert_eq!(desk.model.record.log().len(), before);
    desk.type_into("Mark of the blank", "N1");
    desk.type_into("Adhesive", "epoxy");
    desk.type_into("Batch", "0412");
    desk.type_into("Clamped, hours", "8");
    desk.type_into("Humidity, %", "45");
    says_not(&desk, "Water in the glue swells the wood");
    press(&mut desk, "Yes");
    says(&desk, "Water in the glue swells the wood");
    // The device is full: what was typed stands.
    desk.refuses = true;
    press(&mut desk, "Record the gluing");
    says(&desk, "the device is full");
    desk.refuses = false;
    press(&mut desk, "Record the gluing");
    let blank = piece(&desk, "N1");
    assert_eq!(desk.model.route, Route::Blank(blank));
    assert_eq!(presses + 2, 4, "the water and the record are two more");
    says(&desk, "epoxy, 0412");
    says(&desk, "Clamped 8 h");
    says(&desk, "The glue brings water Yes");
    says(&desk, "Same batch of glue H3-");
    says(&desk, "Water in the glue swells the wood");
    // Each laminate lies as it was shown.
    let glued = desk.model.state().piece(blank).unwrap();
    let entry = glued.history.iter().find_map(|line| {
        match &desk.model.record.log().entry(line.entry)?.event {
            Event::Glued(glued) => Some(glued.members.clone()),
            _ => None,
        }
    });
    assert_eq!(entry, Some(set.clone()));
    assert!(!desk.kept.contains_key("form/glue"));
    for member in &set {
        let life = desk.model.state().piece(member.piece).unwrap().life().0;
        assert_eq!(life, Life::GluedInto(blank));
    }
    // Undone, the form stands open again as it was typed, and the laminates are there.
    press(&mut desk, "Undo");
    assert_eq!(desk.model.route, Route::GlueUp);
    assert_eq!(members(&desk), set);
    assert_eq!(desk.model.form.as_ref().unwrap().text("Batch"), "0412");
    desk.go(Route::Blanks);
    says(&desk, "African padauk 5 ready");
    for member in &set {
        assert!(desk.model.state().piece(member.piece).unwrap().is_at_hand());
    }
}

#[test]
fn what_is_half_typed_of_a_gluing_is_there_again() {
    let mut desk = sample();
    to_the_clamps(&mut desk);
    let set = members(&desk);
    desk.type_into("Adhesive", "epoxy");
    desk.go(Route::Today);
    desk.model.blanks.matching = Default::default();
    desk.go(Route::GlueUp);
    assert_eq!(members(&desk), set);
    assert_eq!(desk.model.form.as_ref().unwrap().text("Adhesive"), "epoxy");
    says(&desk, "You had begun this.");
}

#[test]
fn one_laminate_makes_a_blank_without_glue() {
    let mut desk = sample();
    desk.works = false;
    desk.go(Route::Match);
    for _ in 0..3 {
        press(&mut desk, "One laminate fewer");
    }
    desk.works = true;
    press(&mut desk, "One laminate fewer");
    says(&desk, "A blank of one piece");
    press(&mut desk, "Make it a blank");
    press(&mut desk, "Go on all the same");
    says_not(&desk, "Does it bring water?");
    desk.type_into("Mark of the blank", "N1");
    press(&mut desk, "Record the gluing");
    let blank = piece(&desk, "N1");
    assert_eq!(desk.model.route, Route::Blank(blank));
    assert_eq!(queries::made_of(desk.model.state(), blank).len(), 1);
}

#[test]
fn what_is_next_for_a_blank_is_the_large_key() {
    let main = |desk: &Desk| {
        let page = desk.page();
        let foot = page
            .regions
            .iter()
            .find(|region| region.id == "foot")
            .unwrap()
            .html
            .clone();
        let key = foot
            .split("<button")
            .find(|key| key.contains("main"))
            .unwrap()
            .to_owned();
        stillwood_app::desk::text_of(&format!("<b {key}"))
    };
    // Both were checked on 29 November 2025: that holds for half a year, then they are looked at again first.
    for (today, mark, next) in [
        ("2026-05-29", "H3-11-W", "Reserve"),
        ("2026-05-29", "H3-10-Y", "Used"),
        (DAY, "H3-11-W", "Check movement"),
        (DAY, "H3-10-Y", "Check movement"),
        (DAY, "H3-12-U", "Check movement"),
    ] {
        let mut desk = sample_on(today);
        desk.go(Route::Blank(piece(&desk, mark)));
        assert_eq!(main(&desk), next, "{mark} on {today}");
    }
}

#[test]
fn a_blank_is_reserved_and_free_again() {
    let mut desk = at(Route::Blanks);
    let blank = piece(&desk, "H3-11-W");
    press(&mut desk, "H3-11-W");
    assert_eq!(desk.model.route, Route::Blank(blank));
    press(&mut desk, "Reserve");
    press(&mut desk, "Save");
    assert!(
        desk.model
            .form
            .as_ref()
            .unwrap()
            .errors
            .of("For whom")
            .is_some()
    );
    desk.type_into("For whom", "Bo");
    // It is taken up again where it was left.
    desk.go(Route::Today);
    desk.go(Route::Blank(blank));
    says(&desk, "You had begun this.");
    desk.type_into("Until, the last day", "2027-02-01");
    press(&mut desk, "Save");
    assert_eq!(desk.model.route, Route::Blank(blank));
    says(&desk, "Reserved for Bo until 1 Feb 2027");
    press(&mut desk, "More");
    press(&mut desk, "Release");
    says(&desk, "H3-11-W is free again.");
    let toast = region(&desk, "toast");
    assert!(
        toast.contains("<span class=\"nowrap\">H3-11-W</span> is free again."),
        "a mark never breaks at its hyphens: {toast}"
    );
    // It stands in the history alone.
    assert!(!region(&desk, "body").contains("class=\"reserved\""));
    press(&mut desk, "Undo");
    says(&desk, "Reserved for Bo until 1 Feb 2027");
}

#[test]
fn every_figure_of_a_blank_tells_how_it_is_worked_out() {
    let mut desk = sample();
    desk.go(Route::Blank(piece(&desk, "H3-10-Y")));
    says(&desk, "Largest movement 0.10 ± 0.16 mm, bow");
    says(
        &desk,
        "Not looked at since Nov 2025 · rest over since 19 Nov 2025",
    );
    let figures: Vec<String> = [
        "Size",
        "Weight",
        "Stiffness EI",
        "Largest movement",
        "Watched",
        "Glued",
        "Rest",
        "Its own wood",
        "Together",
    ]
    .iter()
    .map(|name| format!("{name}: "))
    .collect();
    for name in figures {
        press(&mut desk, &name);
        says(&desk, "How it is worked out");
        press(&mut desk, "Close");
    }
    // What is not known says why.
    says(&desk, "not known: how the rings of");
    says(&desk, "Trade control");
}

#[test]
fn papers_name_the_invoice_and_the_country_of_harvest() {
    let mut desk = sample();
    let blank = piece(&desk, "H3-10-Y");
    let state = desk.model.state();
    let plank = queries::planks_of(state, blank).into_iter().next().unwrap();
    let pile = state.piece(plank).unwrap().pile;
    desk.go(Route::Papers(blank));
    says_not(&desk, "Invoice:");
    desk.go(Route::EditPile(pile));
    desk.type_into("Invoice", "R-118");
    desk.type_into("Country of harvest", "Slovenia");
    press(&mut desk, "Save");
    desk.go(Route::Papers(blank));
    says(&desk, "Invoice: R-118");
    says(&desk, "Country of harvest: Slovenia");
}

#[test]
fn papers_tell_the_whole_history_and_never_what_it_cost() {
    let mut desk = sample();
    let blank = piece(&desk, "H3-10-Y");
    desk.go(Route::Blank(blank));
    press(&mut desk, "Papers");
    assert_eq!(desk.model.route, Route::Papers(blank));
    says(&desk, "Papers of H3-10-Y");
    says(&desk, "from plank H3-");
    says(&desk, "measured: ");
    says(&desk, "The maker:");
    // Facts first, then what it came from, in short: what was weighed is summed up, and nothing is drawn of it.
    says(&desk, "Weighed 4 times, from 26 Oct 2024 to 10 May 2025");
    says(&desk, "Weighed once, on 25 Mar 2024");
    // Weights are told as the entries below tell them, so that they differ by what is said.
    says(&desk, "4.583 kg at first, 4.596 kg at last, 13 g heavier");
    let body = region(&desk, "body");
    let folded = body.find("All entries of").expect("a fold");
    let signed = body.find("The maker:").expect("signed");
    assert!(signed < folded, "the facts are the first page");
    assert_eq!(
        body.matches("over-time").count(),
        2,
        "the movement and the weight of the blank alone"
    );
    for hidden in ["EUR", "Alma", "Vessingholt", "bought"] {
        says_not(&desk, hidden);
    }
    press(&mut desk, "Customer's view");
    says(&desk, "Vessingholt");
    says(&desk, "Reserved for Alma");
    says_not(&desk, "EUR");
    press(&mut desk, "Print");
    assert!(matches!(desk.left.last(), Some(Effect::Print)));
}

#[test]
fn a_wide_screen_shows_the_list_and_the_blank_beside_it() {
    let mut desk = sample();
    desk.act(Action::Wide(true));
    desk.go(Route::Blanks);
    // Before one is chosen, the first of the list stands beside it.
    let pane = |desk: &Desk| {
        let page = desk.page();
        let pane = page.regions.iter().find(|region| region.id == "pane");
        pane.map(|region| region.html.clone())
    };
    let first = pane(&desk).expect("a pane");
    assert!(
        first.contains("H3-11-W") && first.contains("Largest movement"),
        "{first}"
    );
    says(&desk, "Press a blank to see it here.");
    // And its row in the list is marked.
    let body = region(&desk, "body");
    let (_, marked) = body
        .split_once("<li class=\"blank\" aria-current=\"true\">")
        .unwrap();
    let (row, _) = marked.split_once("</li>").unwrap();
    assert!(row.contains("H3-11-W"), "{row}");
    desk.go(Route::Blank(piece(&desk, "H3-10-Y")));
    let page = desk.page();
    assert!(
        page.regions
            .iter()
            .any(|region| region.id == "pane" && region.html.contains("Largest movement"))
    );
    says(&desk, "H3-11-W");
    says(&desk, "Laminates to match");
    // Up and down go through the list in its order.
    desk.act(Action::Key("ArrowUp".to_owned()));
    assert_eq!(desk.model.route, Route::Blank(piece(&desk, "H3-11-W")));
    desk.act(Action::Key("ArrowUp".to_owned()));
    assert_eq!(
        desk.model.route,
        Route::Blank(piece(&desk, "H3-11-W")),
        "there is none before it"
    );
    desk.act(Action::Key("ArrowDown".to_owned()));
    desk.act(Action::Key("ArrowDown".to_owned()));
    assert_eq!(desk.model.route, Route::Blank(piece(&desk, "H3-12-U")));
}

#[test]
fn an_empty_record_says_what_will_come() {
    let mut desk = Desk::new(DAY);
    desk.go(Route::Blanks);
    says(&desk, "No laminate waits to be glued.");
    says(&desk, "No blank is glued yet.");
    // On a wide screen nothing empty stands beside it.
    desk.act(Action::Wide(true));
    assert!(desk.page().regions.iter().all(|region| region.id != "pane"));
    desk.act(Action::Wide(false));
    desk.go(Route::Match);
    says(&desk, "No laminate waits to be glued.");
    desk.go(Route::SideBySide);
    says(&desk, "No blank is chosen.");
    desk.go(Route::GlueUp);
    press(&mut desk, "Record the gluing");
    let errors = &desk.model.form.as_ref().unwrap().errors;
    assert!(errors.of(glue::IN_HAND.key).is_some(), "{errors:?}");
}

#[test]
fn that_a_rest_is_over_is_said_once() {
    let mut desk = sample_on("2027-06-01");
    desk.go(Route::Blank(piece(&desk, "H3-12-U")));
    says(&desk, "1 look still wanted · rest over since 8 Dec 2026");
    assert_eq!(desk.reads().matches("rest over").count(), 1);
}

#[test]
fn the_two_pages_of_a_blank_agree_and_say_nothing_twice() {
    let mut desk = sample();
    let blank = piece(&desk, "H3-10-Y");
    let told = |desk: &mut Desk, route: Route| {
        desk.go(route);
        let body = region(desk, "body");
        let history = body.split("class=\"history\"").nth(1).expect("its history");
        history.split("</ol>").next().map(str::to_owned)
    };
    let of_blank = told(&mut desk, Route::Blank(blank));
    says(&desk, "Not looked at since Nov 2025");
    let chosen_by = [
        "Largest movement",
        "Glue, mix, batch",
        "The glue brings water",
        "Stiffness is what is usual for the woods.",
        "What its wood cost",
    ];
    for said in chosen_by {
        says(&desk, said);
    }
    // What a blank is chosen by, and what it cost, stands once: the racks tell where it is and how it keeps.
    desk.go(Route::Piece(blank));
    says(&desk, "Not looked at since Nov 2025");
    for said in chosen_by {
        says_not(&desk, said);
    }
    says(&desk, "Section and figures");
    assert_eq!(
        of_blank,
        told(&mut desk, Route::Piece(blank)),
        "newest first"
    );
}

#[test]
fn a_gluing_begun_afresh_keeps_its_laminates() {
    let mut desk = sample();
    to_the_clamps(&mut desk);
    let set = members(&desk);
    desk.type_into("Adhesive", "epoxy");
    desk.go(Route::Today);
    desk.go(Route::GlueUp);
    press(&mut desk, "Start afresh");
    let form = desk.model.form.as_ref().unwrap();
    assert_eq!(form.text("Adhesive"), "");
    assert_ne!(form.text("Mark of the blank"), "");
    press(&mut desk, "Record the gluing");
    let Route::Blank(blank) = desk.model.route else {
        panic!("{:?}", desk.model.route);
    };
    let made = queries::made_of(desk.model.state(), blank);
    let set: Vec<_> = set.iter().map(|one| one.piece).collect();
    assert_eq!(made, set);
}

#[test]
fn a_wood_that_is_asked_for_is_its_whole_name_and_a_size_is_read_back_with_its_unit() {
    let mut desk = at(Route::Blanks);
    desk.act(stillwood_app::blanks::Action::OfWood("walnut".to_owned()));
    says(&desk, "0 of 3 blanks");
    desk.act(stillwood_app::blanks::Action::OfWood(String::new()));
    desk.type_into("Length at least", "700");
    says(&desk, "700 mm");
    desk.model.settings.units = stillwood_core::quantity::read::Units::Inch;
    says(&desk, "700 in");
}
