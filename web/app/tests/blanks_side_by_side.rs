//! Blanks side by side: what differs, what is best, and what a customer does not see.

mod at_the_desk;
mod blanks_sample;

use at_the_desk::{at, piece, press, region, sample, says, says_not};
use blanks_sample::labels;
use stillwood_app::{Action, Route};
use stillwood_core::record::{Event, Id, NewEvent, Noted};

#[test]
fn side_by_side_shows_what_differs_first_and_hides_what_is_the_makers_own() {
    let mut desk = at(Route::SideBySide);
    says(&desk, "No blank is chosen.");
    press(&mut desk, "To the blanks");
    for mark in ["H3-10-Y", "H3-11-W", "H3-12-U"] {
        press(&mut desk, &format!("{mark}: side by side"));
    }
    says(&desk, "3 blanks chosen");
    press(&mut desk, "Side by side");
    for told in [
        "N m²",
        "0.10 ± 0.16 mm, bow",
        "months ago",
        "Reserved until 31 Jan 2027",
        "free",
    ] {
        says(&desk, told);
    }
    for hidden in ["Alma", "EUR", "Vessingholt"] {
        says_not(&desk, hidden);
    }
    // Each has its section drawn.
    let body = desk
        .page()
        .regions
        .iter()
        .find(|region| region.id == "body")
        .unwrap()
        .html
        .clone();
    assert_eq!(body.matches("<svg class=\"section\"").count(), 3);
    // What differs stands before what is the same.
    let all = desk.reads();
    let alike = all.find("The same for all").unwrap();
    let not_known = all.find("Not known of any").unwrap();
    assert!(all.find("0.10 ± 0.16 mm, bow").unwrap() > alike);
    assert!(not_known > alike);
    assert!(
        all.find("Movement over a year in its room").unwrap() > not_known,
        "nothing is known of it: that is not the same"
    );
    assert!(all.find("Stiffness EI").unwrap() < alike);
    press(&mut desk, "Customer's view");
    for shown in ["Reserved for Alma until 31 Jan 2027", "EUR", "Vessingholt"] {
        says(&desk, shown);
    }
    // It is as it was when it is opened again; one is left out, one is reserved from here.
    desk.go(Route::Today);
    desk.go(Route::SideBySide);
    says(&desk, "EUR");
    press(&mut desk, "Customer's view");
    press(&mut desk, "Leave out H3-12-U");
    says_not(&desk, "H3-12-U");
    press(&mut desk, "Reserve H3-11-W");
    desk.type_into("For whom", "Bo");
    press(&mut desk, "Save");
    assert_eq!(desk.model.route, Route::SideBySide);
    assert!(labels(&desk, "Reserve ").is_empty());
    assert!(
        desk.kept["shown/choice"].contains("\"hide\":\"true\""),
        "{}",
        desk.kept["shown/choice"]
    );
}

#[test]
fn six_stand_side_by_side_at_most() {
    let mut desk = sample();
    for n in 1..=5 {
        desk.works = false;
        desk.go(Route::Match);
        while desk.press("One laminate fewer") {}
        desk.works = true;
        press(&mut desk, "Find the best set");
        press(&mut desk, "Make it a blank");
        // Where something stands to be checked, it is asked.
        desk.press("Go on all the same");
        desk.type_into("Mark of the blank", &format!("N{n}"));
        press(&mut desk, "Record the gluing");
    }
    desk.go(Route::Blanks);
    for mark in ["N1", "N2", "N3", "N4", "N5", "H3-10-Y"] {
        press(&mut desk, &format!("{mark}: side by side"));
    }
    says(&desk, "6 blanks chosen");
    press(&mut desk, "H3-11-W: side by side");
    says(&desk, "6 at most stand side by side.");
    says(&desk, "6 blanks chosen");
    press(&mut desk, "Side by side");
    assert_eq!(labels(&desk, "Leave out ").len(), 6);
}

#[test]
fn side_by_side_the_best_of_a_row_has_a_word() {
    let mut desk = at(Route::Blanks);
    for mark in ["H3-10-Y", "H3-11-W", "H3-12-U"] {
        press(&mut desk, &format!("{mark}: side by side"));
    }
    press(&mut desk, "Side by side");
    // One is narrower: that it is lighter says nothing of its wood.
    says(&desk, "1.39 kg");
    says_not(&desk, "lightest");
    // Stiffness is what is usual for the woods: nobody knows which is the stiffest.
    says_not(&desk, "stiffest");
    // All moved as much within what a feeler tells.
    says_not(&desk, "moved least");
    // On a wide screen a row begins with its name.
    desk.act(Action::Wide(true));
    let body = region(&desk, "body");
    assert!(body.contains("<th scope=\"row\">Weight</th>"), "{body}");
    // Of one size one is the lightest, by a scale that tells the two apart.
    press(&mut desk, "Leave out H3-12-U");
    says_not(&desk, "lightest");
    desk.model.settings.instruments.scale_kg = 0.005;
    says(&desk, "2.36 kg lightest");
}

#[test]
fn a_note_that_was_deleted_stands_nowhere_beside_others() {
    let mut desk = at(Route::Blanks);
    let blank = piece(&desk, "H3-10-Y");
    let text = "a ghost".to_owned();
    let noted = NewEvent::new(blank, Event::Noted(Noted { text }));
    let (record, now) = (&desk.model.record, &desk.model.now);
    let entry = Id::from_u128(0x0191_0000_0000_7000_8000_0000_0000_0000);
    let first = record.own_entries().1 + 1;
    let made = record.entries(&[noted], &[entry], now, first).unwrap();
    let entries = made.into_iter().map(|one| one.entry().clone()).collect();
    desk.model.record.merge(entries);
    desk.act(stillwood_app::blanks::Action::SideBySide(blank));
    desk.act(Action::Choose {
        screen: "choice",
        name: "hide",
        value: "false".to_owned(),
    });
    desk.go(Route::SideBySide);
    says(&desk, "a ghost");
    desk.act(stillwood_app::racks::Action::DeleteEntry(blank, entry));
    says_not(&desk, "a ghost");
}
