//! The file of a long record: how far it is, stopped, and shared once it is ready.

use super::*;
use stillwood_core::record::commands::NewEvent;
use stillwood_core::record::{Event, Id, Marked};

/// Entries of the sample.
const SAMPLES: usize = 877;
/// More entries, so that the record is long.
const MORE: usize = 5_000;

/// A phone with a long record, whose work waits until it is told to go on.
fn with_long_record() -> Desk {
    let mut desk = phone();
    add(&mut desk, 0, MORE);
    desk.works = false;
    desk.go(Route::Share);
    desk.left.clear();
    desk
}

/// So many planks more.
fn add(desk: &mut Desk, from: usize, planks: usize) {
    let pile = desk.model.state().piles().next().unwrap().id;
    let id = |n: usize, of: u8| Id::version_7(1_790_000_000_000 + n as u64, &[of; 10]);
    let event = |n: usize| {
        let mark = format!("Z-{n}-M");
        NewEvent::new(id(n, 1), Event::Marked(Marked { mark, pile }))
    };
    let events: Vec<NewEvent> = (from..from + planks).map(event).collect();
    let ids: Vec<Id> = (from..from + planks).map(|n| id(n, 2)).collect();
    let (record, now) = (&mut desk.model.record, &desk.model.now);
    let made = record.entries(&events, &ids, now, 5_000 + from as u64);
    let made = made.unwrap().into_iter();
    record.merge(made.map(|one| one.entry().clone()).collect());
}

/// Does what waits for the screen to be painted, once. False where nothing waits.
fn goes_on(desk: &mut Desk) -> bool {
    let waits = |effect: &Effect| matches!(effect, Effect::After(0, _));
    let Some(at) = desk.left.iter().position(waits) else {
        return false;
    };
    let Effect::After(_, action) = desk.left.remove(at) else {
        return false;
    };
    desk.act(*action);
    true
}

#[test]
fn a_long_record_shows_how_far_its_file_is_and_lies_in_the_downloads_whole() {
    let mut desk = with_long_record();
    let all = SAMPLES + MORE;
    desk.act(book::share::Action::Save(book::share::What::Whole));
    says(&desk, &format!("Writing the file: 0 of {all} entries."));
    assert!(goes_on(&mut desk));
    says(&desk, &format!("Writing the file: 2000 of {all} entries."));
    assert!(desk.page().regions.iter().any(|region| {
        let bar = format!("<progress value=\"2000\" max=\"{all}\"");
        region.html.contains(&bar)
    }));
    assert!(desk.files.is_empty());
    // What is recorded meanwhile is not in it.
    add(&mut desk, MORE, 3);
    while goes_on(&mut desk) {}
    let file = desk.files.last().expect("a file").clone();
    assert_eq!(entries(&file), all);
    assert_eq!(desk.files.len(), 1);
    says(&desk, "It lies in this device's downloads.");
    says_not(&desk, "Writing the file");
    let kept: KeptElsewhere = serde_json::from_str(&desk.settings["kept_elsewhere"]).unwrap();
    let unconfirmed = kept.unconfirmed(desk.model.record.log().everything());
    assert_eq!(unconfirmed, all, "those in the file, and no more");
}

#[test]
fn a_file_that_is_stopped_leaves_nothing_and_can_be_begun_again() {
    let mut desk = with_long_record();
    let before = desk.reads();
    for by in [
        book::share::Action::Save(book::share::What::Whole),
        book::share::Action::Share(book::share::What::Whole),
    ] {
        desk.act(by);
        assert!(goes_on(&mut desk));
        press(&mut desk, "Stop");
        says(&desk, "Stopped. No file was made.");
        // The bit that was on its way does nothing.
        assert!(goes_on(&mut desk));
        assert!(!goes_on(&mut desk) && desk.files.is_empty());
        desk.model.toast = None;
        assert_eq!(desk.reads(), before, "all is as it was");
        assert!(!desk.settings.contains_key("kept_elsewhere"));
    }
    // What is left of the stopped one does not push on the next one.
    let save = book::share::Action::Save(book::share::What::Whole);
    desk.act(save.clone());
    press(&mut desk, "Stop");
    desk.act(save);
    assert!(goes_on(&mut desk), "that of the stopped one");
    says(&desk, "Writing the file: 0 of");
    while goes_on(&mut desk) {}
    assert_eq!(entries(desk.files.last().unwrap()), SAMPLES + MORE);
}

#[test]
fn a_long_file_is_shared_within_a_press_once_it_is_ready() {
    let mut desk = with_long_record();
    press(&mut desk, "Share the record");
    while goes_on(&mut desk) {}
    assert!(
        desk.files.is_empty(),
        "no browser shares it without a press"
    );
    says(&desk, "The file is ready to be shared.");
    // Called off, it is still there.
    desk.handing_ends = Some(HandingEnd::Cancelled);
    press(&mut desk, "Share the record");
    says(&desk, "The file is ready to be shared.");
    assert!(!desk.settings.contains_key("kept_elsewhere"));
    desk.handing_ends = None;
    press(&mut desk, "Share the record");
    assert_eq!(entries(desk.files.last().unwrap()), SAMPLES + MORE);
    says(&desk, "Handed over.");
    says_not(&desk, "The file is ready");
    assert!(!goes_on(&mut desk), "it was written once");

    // One that is ready is put away, or is not of the record any more.
    press(&mut desk, "Share the record");
    while goes_on(&mut desk) {}
    press(&mut desk, "Put it away");
    says_not(&desk, "The file is ready");
    press(&mut desk, "Share the record");
    while goes_on(&mut desk) {}
    add(&mut desk, MORE, 1);
    says_not(&desk, "The file is ready");
    press(&mut desk, "Share the record");
    says(&desk, "Writing the file: 0 of 5878 entries.");
}

#[test]
fn a_visit_that_is_handed_over_meanwhile_leaves_the_file_alone() {
    let mut desk = with_long_record();
    desk.act(book::share::Action::Save(book::share::What::Whole));
    assert!(goes_on(&mut desk));
    press(&mut desk, "Share the visit");
    assert_eq!(desk.files.len(), 1);
    says(&desk, "Writing the file: 2000 of");
    while goes_on(&mut desk) {}
    assert_eq!(entries(desk.files.last().unwrap()), SAMPLES + MORE);
}
