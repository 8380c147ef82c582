//! Laminates matched: the set that stands there, what is not ready, what the maker changes, the search beside the page.

mod at_the_desk;
mod blanks_sample;

use at_the_desk::{at, piece, press, region, sample, says, says_not};
use blanks_sample::{labels, members, ready};
use stillwood_app::blanks::{Answer, Job, SearchInSlices};
use stillwood_app::desk::Desk;
use stillwood_app::work;
use stillwood_app::{Action, Effect, Route};
use stillwood_core::record::queries;
use stillwood_core::season::Ready;

#[test]
fn the_best_set_stands_there_at_once_and_only_what_is_ready_is_in_it() {
    let mut desk = at(Route::Blanks);
    press(&mut desk, "Match and glue");
    assert_eq!(desk.model.route, Route::Match);
    says(&desk, "Set 1 of 5. All ");
    // The moisture of all five is not known, and rings of one were not looked at: no gauge is green.
    says(
        &desk,
        "within ± 0.15 mm, but not all is looked at: check first",
    );
    let gauges = region(&desk, "body");
    assert!(gauges.contains("class=\"level doubt\""), "{gauges}");
    assert!(!gauges.contains("class=\"level good\""), "{gauges}");
    says(&desk, "scale to ± 0.45 mm");
    let first = members(&desk);
    assert_eq!(first.len(), 5);
    for n in 2..=5 {
        press(&mut desk, "Next best");
        says(&desk, &format!("Set {n} of 5."));
        for member in members(&desk) {
            assert_eq!(ready(&desk, member.piece), Ready::Yes);
        }
        assert_ne!(members(&desk), first);
    }
    press(&mut desk, "Next best");
    assert_eq!(members(&desk), first);
    // To look leaves nothing half typed.
    assert!(!desk.kept.contains_key("form/glue"), "{:?}", desk.kept);
}

#[test]
fn what_stands_to_be_checked_is_open_and_gluing_past_it_is_asked_once() {
    let mut desk = at(Route::Match);
    let body = region(&desk, "body");
    let warnings = body
        .split("id=\"warnings\"")
        .nth(1)
        .expect("they stand there");
    assert!(warnings.contains("<details open>"), "{warnings}");
    assert!(
        !region(&desk, "foot").contains("main"),
        "no key invites past it"
    );
    press(&mut desk, "Glue these 5");
    says(
        &desk,
        "things stand to be checked first. Go on all the same?",
    );
    assert_eq!(desk.model.route, Route::Match);
    press(&mut desk, "Cancel");
    assert_eq!(desk.model.route, Route::Match);
    press(&mut desk, "Glue these 5");
    press(&mut desk, "Go on all the same");
    assert_ne!(desk.model.route, Route::Match);
}

#[test]
fn a_look_over_half_a_year_old_is_no_plain_ready() {
    let mut desk = at(Route::Match);
    says_not(&desk, "look again first");
    // A year on nobody has looked again.
    desk.model.now.day = "2027-11-20".into();
    says(
        &desk,
        "Ready by a look that is over half a year old: look again first",
    );
    assert!(
        !region(&desk, "body").contains(">Ready<"),
        "none is plainly so"
    );
    says(&desk, "Not looked at since ");
    says(&desk, "Last looked at over half a year ago: ");
}

#[test]
fn what_is_not_ready_tells_why_and_stands_there_only_when_the_maker_says_so() {
    let mut desk = at(Route::Match);
    press(&mut desk, "Place 2");
    press(&mut desk, "Show all");
    let before = members(&desk);
    let not_ready = desk
        .pressables()
        .into_iter()
        .find(|one| one.says.contains("not ready:"));
    let label = not_ready.expect("one is at rest").says;
    press(&mut desk, &label);
    says(&desk, "is not ready: still resting; rest over on ");
    says(&desk, "It would go on moving in the blank.");
    assert_eq!(members(&desk), before);
    press(&mut desk, "Cancel");
    assert_eq!(members(&desk), before);
    press(&mut desk, &label);
    press(&mut desk, "Use it all the same");
    let now = members(&desk);
    assert_ne!(now, before);
    assert_eq!(ready(&desk, now[1].piece), Ready::No);
    says(&desk, "Changed by hand");
    // What the maker changed is half typed, and taken up again.
    assert!(desk.kept["form/glue"].contains("in hand"));
    desk.go(Route::Blanks);
    says(&desk, "Go on with the blank in hand");
    press(&mut desk, "Go on with the blank in hand");
    assert_eq!(members(&desk), now);
}

#[test]
fn a_laminate_is_turned_and_the_drawing_and_the_figures_turn_with_it() {
    let mut desk = at(Route::Match);
    press(&mut desk, "Place 3");
    let before = members(&desk);
    let drawn = |desk: &Desk| {
        let page = desk.page();
        let body = page
            .regions
            .iter()
            .find(|region| region.id == "body")
            .unwrap()
            .html
            .clone();
        let slot = body.split("class=\"slot-key\"").nth(3).unwrap().to_owned();
        ["turn over end\"", "turn over\"", "turn end\"", "turn\""]
            .into_iter()
            .find(|class| slot.contains(class))
            .unwrap()
    };
    let was = drawn(&desk);
    press(&mut desk, "Turn over");
    says(
        &desk,
        "Changed by hand: worse, more crook; as proposed crook 0 mm, twist 0 mm.",
    );
    assert_ne!(drawn(&desk), was);
    assert_eq!(members(&desk)[2].turned_over, !before[2].turned_over);
    press(&mut desk, "End for end");
    assert_eq!(members(&desk)[2].turned, !before[2].turned);
    let label = labels(&desk, "Place 3").remove(0);
    let said = match (members(&desk)[2].turned_over, members(&desk)[2].turned) {
        (false, false) => "as is",
        (true, false) => "turned over",
        (false, true) => "end for end",
        (true, true) => "over, end for end",
    };
    assert!(label.contains(said), "{label}");
    press(&mut desk, "As proposed");
    assert_eq!(members(&desk), before);
    // A figure tells how it is worked out.
    press(&mut desk, "Remaining crook");
    says(&desk, "How it is worked out");
}

#[test]
fn what_the_twist_is_of_is_said_and_a_blank_lies_as_on_its_own_page() {
    let mut desk = at(Route::Match);
    // The level is of the laminates; a glued blank keeps less.
    says(&desk, "Mean twist 0 mm");
    says(&desk, "The glued blank keeps about 0 mm");
    says(&desk, "Size 950 × 87.5 × 47.5 mm");
    press(&mut desk, "The glued blank keeps about");
    says(
        &desk,
        "Each twist counts by how hard its laminate alone is to twist",
    );
}

#[test]
fn what_is_to_be_checked_names_the_laminates() {
    let mut desk = at(Route::Match);
    says(
        &desk,
        "to which side the rings lean on K7-28-8 a4; which way the grain runs on K7-28-8 a4.",
    );
    press(&mut desk, "Place 2");
    let mark = |desk: &Desk| {
        let piece = desk.model.state().piece(members(desk)[1].piece).unwrap();
        piece.mark.clone()
    };
    press(&mut desk, "Turn over");
    let mark = mark(&desk);
    says(
        &desk,
        &format!("The grain of {mark} runs out against the rest."),
    );
}

#[test]
fn another_laminate_says_first_what_it_would_do() {
    let mut desk = at(Route::Match);
    press(&mut desk, "Place 2");
    let offered = desk
        .pressables()
        .into_iter()
        .find(|one| one.says.contains("leaves crook"));
    let label = offered.expect("others are ready").says;
    let told = label.split("leaves crook ").nth(1).unwrap();
    let (crook, rest) = told.split_once(", twist ").unwrap();
    let (twist, _) = rest.split_once(':').unwrap();
    let (crook, twist) = (crook.to_owned(), twist.to_owned());
    press(&mut desk, &label);
    says(&desk, &format!("Remaining crook {crook}"));
    says(&desk, &format!("Mean twist {twist}"));
}

#[test]
fn a_candidate_says_why_it_is_better_and_that_one_in_the_set_changes_places() {
    let mut desk = at(Route::Match);
    press(&mut desk, "Place 2");
    let offered: Vec<String> = desk.pressables().into_iter().map(|one| one.says).collect();
    assert!(
        !offered.iter().any(|one| one.ends_with(": better")),
        "{offered:?}"
    );
    let swaps = offered
        .iter()
        .find(|one| one.contains("Press to swap the two"));
    let swaps = swaps.expect("three of the wood stand in the set").clone();
    let (mark, _) = swaps.split_once(" European maple").unwrap();
    let at_2 = members(&desk)[1].piece;
    press(&mut desk, &swaps);
    assert_eq!(members(&desk)[1].piece, piece(&desk, mark));
    assert!(members(&desk).iter().any(|one| one.piece == at_2));
}

#[test]
fn woods_stand_where_the_maker_wants_them() {
    let mut desk = at(Route::Match);
    let wood = |desk: &Desk, at: usize| {
        let piece = desk.model.state().piece(members(desk)[at].piece).unwrap();
        queries::species_of(desk.model.state(), piece)
            .unwrap()
            .text
            .clone()
    };
    desk.works = false;
    press(&mut desk, "African padauk");
    press(&mut desk, "Place 2");
    press(&mut desk, "European maple");
    press(&mut desk, "Place 3");
    desk.works = true;
    press(&mut desk, "African padauk");
    let woods: Vec<String> = (0..5).map(|at| wood(&desk, at)).collect();
    assert_eq!(
        woods,
        [
            "African padauk",
            "European maple",
            "African padauk",
            "European maple",
            "African padauk"
        ]
    );
    let kept = &desk.kept["shown/glue"];
    assert!(
        kept.contains(
            r#""woods by place":"[\"African padauk\",\"European maple\",\"African padauk\""#
        ),
        "{kept}"
    );
    // Not on both sides: only what is said of each place counts, and the warning stands.
    desk.works = false;
    press(&mut desk, "Same on both sides");
    assert!(desk.kept["shown/glue"].contains(r#""the same on both sides":"false""#));
    press(&mut desk, "Place 5");
    desk.works = true;
    press(&mut desk, "European maple");
    assert_eq!(
        [wood(&desk, 0), wood(&desk, 4)],
        ["African padauk", "European maple"]
    );
    says(
        &desk,
        "The woods are not the same on both sides of the middle.",
    );
    // More than there is of a wood is said.
    desk.works = false;
    press(&mut desk, "One laminate more");
    press(&mut desk, "One laminate more");
    says(&desk, "Match 7");
    for at in 1..=7 {
        press(&mut desk, &format!("Place {at}"));
        press(&mut desk, "African padauk");
    }
    says(&desk, "only 5 laminates for 7 places, of the woods wanted");
}

#[test]
fn the_search_is_handed_over_shows_how_far_it_is_and_can_be_stopped() {
    let mut desk = sample();
    desk.works = false;
    desk.go(Route::Match);
    let handed = |desk: &Desk| -> Job {
        let job = desk.left.iter().rev().find_map(|effect| match effect {
            Effect::Work(work::Job::Match(job)) => Some(job.clone()),
            _ => None,
        });
        // A worker is handed it as data.
        serde_json::from_str(&serde_json::to_string(&job.unwrap()).unwrap()).unwrap()
    };
    let job = handed(&desk);
    says(&desk, "Looking: 0 arrangements so far.");
    let mut working = SearchInSlices::new(&job);
    let part: Answer = working.go_on(300);
    assert!(!part.is_last());
    desk.act(Action::WorkDone(work::Answer::Match(part.clone())));
    says(&desk, "Looking:");
    says_not(&desk, "Looking: 0");
    assert_eq!(members(&desk).len(), 5, "the best so far stands there");
    press(&mut desk, "Stop");
    assert!(matches!(desk.left.last(), Some(Effect::StopWork)));
    says(&desk, "A better set may be left.");
    // What comes too late is not heard.
    let before = desk.reads();
    let last = stillwood_app::blanks::work(&job);
    desk.act(Action::WorkDone(work::Answer::Match(last.clone())));
    assert_eq!(desk.reads(), before);
    // Nor is an answer to an earlier search.
    press(&mut desk, "Find the best set");
    desk.act(Action::WorkDone(work::Answer::Match(last)));
    says(&desk, "Looking: 0");
    let last = stillwood_app::blanks::work(&handed(&desk));
    desk.act(Action::WorkDone(work::Answer::Match(last)));
    says(&desk, "arrangements looked through");
    // Whoever goes elsewhere stops it.
    press(&mut desk, "One laminate more");
    desk.go(Route::Blanks);
    assert!(
        desk.left
            .iter()
            .rev()
            .take(3)
            .any(|effect| matches!(effect, Effect::StopWork))
    );
    desk.go(Route::Match);
    // A worker that breaks down loses nothing.
    press(&mut desk, "Place 1");
    press(&mut desk, "One laminate fewer");
    let number = handed(&desk).number;
    desk.act(Action::WorkDone(work::Answer::Match(Answer::broke_down(
        number,
    ))));
    says(&desk, "The search broke down. Nothing is lost");
}

#[test]
fn what_the_maker_changed_by_hand_stays_while_the_search_goes_on() {
    let mut desk = sample();
    desk.works = false;
    desk.go(Route::Match);
    let job = desk.left.iter().find_map(|effect| match effect {
        Effect::Work(work::Job::Match(job)) => Some(job.clone()),
        _ => None,
    });
    let job = job.unwrap();
    let mut working = SearchInSlices::new(&job);
    desk.act(Action::WorkDone(work::Answer::Match(working.go_on(300))));
    press(&mut desk, "Turn over");
    let mine = members(&desk);
    desk.act(Action::WorkDone(work::Answer::Match(
        stillwood_app::blanks::work(&job),
    )));
    assert_eq!(members(&desk), mine);
    // It is not given up without a question.
    press(&mut desk, "Next best");
    says(&desk, "You changed this set by hand. Give it up?");
    press(&mut desk, "Cancel");
    assert_eq!(members(&desk), mine);
    press(&mut desk, "Next best");
    press(&mut desk, "Give it up");
    assert_ne!(members(&desk), mine);
    says_not(&desk, "Give it up?");
}

#[test]
fn laminates_are_left_out_of_the_search() {
    let mut desk = at(Route::Match);
    says(&desk, "Searched through: 12 of 20 laminates");
    let marks: Vec<String> = members(&desk)
        .iter()
        .map(|member| desk.model.state().piece(member.piece).unwrap().mark.clone())
        .collect();
    let out = piece(&desk, &marks[0]);
    let chip = desk
        .pressables()
        .into_iter()
        .rev()
        .find(|one| one.says.starts_with(&marks[0]));
    let action = desk.page().action(&chip.unwrap().press).cloned().unwrap();
    desk.act(action);
    says(&desk, "Searched through: 11 of 20 laminates");
    press(&mut desk, "Find the best set");
    assert!(members(&desk).iter().all(|member| member.piece != out));
}

#[test]
fn what_is_seen_on_the_wood_is_recorded_and_counts_at_once() {
    let mut desk = at(Route::Match);
    // The first place is of padauk whose rings were not looked at.
    let first = members(&desk)[0].piece;
    let mark = desk.model.state().piece(first).unwrap().mark.clone();
    says(&desk, &format!("Rings or grain of {mark} not looked at"));
    assert!(labels(&desk, "Place 1")[0].contains("rings not looked at"));
    press(&mut desk, &format!("{mark}: rings rise to the left"));
    says(&desk, &format!("{mark}: rings rise to the left."));
    press(&mut desk, &format!("{mark}: grain rises to the far end"));
    assert!(!labels(&desk, "Place 1")[0].contains("rings not looked at"));
    says(&desk, &format!("Rings and grain of {mark}"));
    let seen = desk.model.state().piece(first).unwrap().work.grain_seen();
    assert!(seen.rings_lean.is_some() && seen.grain_rises.is_some());
}

#[test]
fn the_makers_own_limits_hold_from_then_on_and_all_errors_stand_at_their_fields() {
    let mut desk = at(Route::Match);
    press(&mut desk, "Limits for matching");
    desk.type_into("Crook left, mm", "none");
    desk.type_into("Twist, mm", "0");
    press(&mut desk, "Keep these limits");
    let errors = &desk.model.form.as_ref().unwrap().errors;
    assert!(
        errors.of("Crook left, mm").is_some() && errors.of("Twist, mm").is_some(),
        "{errors:?}"
    );
    desk.type_into("Crook left, mm", "0.05");
    press(&mut desk, "As supplied");
    assert_eq!(
        desk.model.form.as_ref().unwrap().text("Crook left, mm"),
        "0.15"
    );
    desk.type_into("Crook left, mm", "0.05");
    press(&mut desk, "Keep these limits");
    assert_eq!(desk.model.route, Route::Match);
    says(&desk, "± 0.05 mm");
    says(&desk, "scale to ± 0.15 mm");
}
