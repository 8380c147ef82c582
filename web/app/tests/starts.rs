//! The search for the planks to start: short ones at once, long ones beside the page, stopped, and what comes too late.

mod at_the_desk;

use at_the_desk::{press, region, sample, says, says_not, visit_of};
use stillwood_app::desk::Desk;
use stillwood_app::start_job::{Answer, Job, Says};
use stillwood_app::work::{self, work};
use stillwood_app::{Action, Effect, Route};

const BLANKS: &str = "Good blanks wanted";
/// So many that the search takes long.
const MANY: &str = "80";

/// A desk at a screen, whose work beside the page waits.
fn waiting(route: Route) -> Desk {
    let mut desk = sample();
    desk.works = false;
    desk.go(route);
    desk
}

/// The job that was handed over last, as a worker gets it: as data.
fn handed(desk: &Desk) -> Job {
    let job = desk.left.iter().rev().find_map(|effect| match effect {
        Effect::Work(job) => Some(serde_json::to_string(job).unwrap()),
        _ => None,
    });
    match serde_json::from_str(&job.expect("a job")).unwrap() {
        work::Job::Start(job) => *job,
        other => panic!("{other:?}"),
    }
}

fn is_handed(desk: &Desk) -> bool {
    let is_work = |effect: &Effect| matches!(effect, Effect::Work(_));
    desk.left.iter().any(is_work)
}

/// What the worker answers to a job, as the page gets it.
fn worked_out(job: &Job) -> Action {
    let answer = work(&work::Job::Start(Box::new(job.clone())));
    let data = serde_json::to_string(&answer).unwrap();
    Action::WorkDone(serde_json::from_str(&data).unwrap())
}

fn says_on_the_way(number: u32, says: Says) -> Action {
    Action::WorkDone(work::Answer::Start(Answer { number, says }))
}

/// Answers every job until none is handed over.
fn work_off(desk: &mut Desk) {
    while is_handed(desk) {
        let job = handed(desk);
        desk.left.clear();
        desk.act(worked_out(&job));
    }
}

/// What stands on a screen where the work is done at once.
fn at_once(route: Route, field: &str, value: &str) -> String {
    let mut desk = sample();
    desk.go(route);
    desk.type_into(field, value);
    desk.reads()
}

#[test]
fn few_blanks_are_answered_at_once_and_nothing_is_handed_over() {
    for (route, field) in [(Route::Plan, BLANKS), (Route::TrackRecord, "start blanks")] {
        let mut desk = waiting(route);
        desk.type_into(field, "5");
        assert!(!is_handed(&desk), "{route:?}");
        says_not(&desk, "orking it out");
        assert_eq!(desk.reads(), at_once(route, field, "5"));
    }
}

#[test]
fn many_blanks_are_worked_out_beside_the_page_with_the_same_answer() {
    for (route, field) in [(Route::Plan, BLANKS), (Route::TrackRecord, "start blanks")] {
        let mut desk = waiting(route);
        desk.type_into(field, MANY);
        says(&desk, "Working it out: 0 of at most 120 planks looked at.");
        let body = region(&desk, "body");
        assert!(body.contains("<progress value=\"0\" max=\"120\""), "{body}");
        let number = handed(&desk).number;
        desk.act(says_on_the_way(number, Says::Planks(7)));
        says(&desk, "Working it out: 7 of at most 120 planks looked at.");
        work_off(&mut desk);
        assert_eq!(desk.reads(), at_once(route, field, MANY), "{route:?}");
        // What was found is kept: it is not searched for again.
        desk.go(Route::Book);
        desk.go(route);
        desk.type_into(field, MANY);
        assert!(!is_handed(&desk));
    }
}

#[test]
fn what_needs_no_search_stands_there_meanwhile() {
    let mut desk = waiting(Route::Plan);
    desk.type_into(BLANKS, MANY);
    says(&desk, "Laminates glued\n1 Mar 2028");
    says(&desk, "17 planks, not cut");
    says(&desk, "Save as target");
    says_not(&desk, "times in 100");
}

#[test]
fn a_search_that_is_stopped_leaves_the_form_and_is_not_heard_any_more() {
    let mut desk = waiting(Route::Plan);
    desk.type_into(BLANKS, MANY);
    let job = handed(&desk);
    press(&mut desk, "Stop");
    assert!(matches!(desk.left.last(), Some(Effect::StopWork)));
    says(&desk, "Stopped. It is not worked out.");
    assert!(region(&desk, "body").contains("value=\"80\""));
    // What comes too late is not shown.
    let before = desk.reads();
    desk.act(says_on_the_way(job.number, Says::Planks(9)));
    desk.act(worked_out(&job));
    assert_eq!(desk.reads(), before);
    // Whatever else is done, it stays stopped; it goes on when it is asked for.
    desk.left.clear();
    desk.act(Action::Wide(true));
    desk.act(Action::Wide(false));
    assert!(!is_handed(&desk));
    press(&mut desk, "Work it out");
    assert_ne!(handed(&desk).number, job.number);
    desk.act(worked_out(&job));
    says(&desk, "Working it out: 0 of at most 120");
    work_off(&mut desk);
    assert_eq!(desk.reads(), at_once(Route::Plan, BLANKS, MANY));
}

#[test]
fn a_search_for_what_is_not_asked_any_more_is_stopped_and_not_shown() {
    let mut desk = waiting(Route::Plan);
    desk.type_into(BLANKS, "79");
    let first = handed(&desk);
    desk.left.clear();
    desk.type_into(BLANKS, MANY);
    let at = |wanted: fn(&Effect) -> bool| desk.left.iter().position(wanted);
    let stopped = at(|effect| matches!(effect, Effect::StopWork));
    let begun = at(|effect| matches!(effect, Effect::Work(_)));
    assert!(stopped.is_some() && stopped < begun, "one at a time");
    desk.act(worked_out(&first));
    says(&desk, "Working it out: 0 of at most 120");
    work_off(&mut desk);
    assert_eq!(desk.reads(), at_once(Route::Plan, BLANKS, MANY));
    // One that was stopped is another question once the form is changed.
    desk.type_into(BLANKS, "78");
    press(&mut desk, "Stop");
    desk.left.clear();
    desk.type_into(BLANKS, "77");
    assert!(is_handed(&desk));
}

#[test]
fn whoever_leaves_the_screen_stops_the_search_and_not_the_next_one() {
    let mut desk = waiting(Route::Plan);
    desk.type_into(BLANKS, MANY);
    desk.left.clear();
    desk.go(Route::Match);
    let of_work = desk.left.iter().filter_map(|effect| match effect {
        Effect::StopWork => Some("stop"),
        Effect::Work(work::Job::Match(_)) => Some("match"),
        Effect::Work(_) => Some("start"),
        _ => None,
    });
    let of_work: Vec<&str> = of_work.collect();
    assert_eq!(of_work, ["stop", "match"]);
    desk.left.clear();
    desk.go(Route::Plan);
    let of_work = desk.left.iter().filter_map(|effect| match effect {
        Effect::StopWork => Some("stop"),
        Effect::Work(work::Job::Start(_)) => Some("start"),
        _ => None,
    });
    let of_work: Vec<&str> = of_work.collect();
    assert_eq!(
        of_work,
        ["stop", "start"],
        "the half-typed 80 are asked again"
    );
}

#[test]
fn a_search_that_breaks_down_loses_nothing_and_can_be_tried_again() {
    let mut desk = waiting(Route::TrackRecord);
    desk.type_into("start blanks", MANY);
    let number = handed(&desk).number;
    desk.left.clear();
    desk.act(says_on_the_way(number, Says::BrokeDown));
    says(&desk, "It could not be worked out. Nothing is lost.");
    assert!(!is_handed(&desk), "it is not tried for ever");
    press(&mut desk, "Work it out");
    work_off(&mut desk);
    assert_eq!(
        desk.reads(),
        at_once(Route::TrackRecord, "start blanks", MANY)
    );
}

#[test]
fn a_large_target_is_worked_out_beside_today_and_the_visit_too() {
    let mut whole = sample();
    whole.go(Route::Plan);
    whole.type_into(BLANKS, MANY);
    press(&mut whole, "Save as target");
    let mut desk = waiting(Route::Plan);
    desk.type_into(BLANKS, MANY);
    press(&mut desk, "Save as target");
    let visit = visit_of(&desk, "Plumlatch Lumber");
    for route in [Route::Today, Route::Visit(visit), Route::Tally(visit)] {
        // What the other screens have found is not known here.
        desk.model.starts = stillwood_app::starts::Starts::default();
        desk.left.clear();
        desk.go(route);
        says(&desk, "Working it out: 0 of at most 120");
        press(&mut desk, "Stop");
        says(&desk, "Stopped. It is not worked out.");
        press(&mut desk, "Work it out");
        work_off(&mut desk);
        whole.go(route);
        assert_eq!(desk.reads(), whole.reads(), "{route:?}");
    }
}
