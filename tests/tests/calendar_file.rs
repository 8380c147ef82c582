//! The calendar file, read back by a parser that is not ours.

use icalendar::{Calendar, CalendarDateTime, Component, DatePerhapsTime, EventLike, EventStatus};
use proptest::prelude::*;
use stillwood_core::record::queries;
use stillwood_core::record::{Discarded, Downgraded, Event, Used, date};
use stillwood_core::season::{CalendarDay, Published, Stage, calendar};
use stillwood_tests::yard::{A7, Phone};

fn written() -> chrono::NaiveDateTime {
    date("2026-10-03").unwrap().and_hms_opt(16, 0, 5).unwrap()
}

fn read_back(text: &str) -> Calendar {
    text.parse().unwrap_or_else(|said| panic!("{said}: {text}"))
}

#[test]
fn days_of_the_record_in_another_program() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    phone.set_day("2026-08-31");
    for n in 0..12 {
        let plank = phone.plank(pile, &format!("Ahorn; außen, Nr. {n}"), &A7);
        phone.rest(plank, Stage::Pieces, "shelf 3, left");
    }
    phone.set_day("2026-09-01");
    let plank = phone.plank(pile, "A13", &A7);
    phone.rest(plank, Stage::Pieces, "");
    let days = queries::calendar_days(&phone.state(), 41, &Published::default());
    let file = calendar(&days, written());
    let found = read_back(&file);
    assert_eq!(found.events().count(), 2);
    let first = found.events().next().unwrap();
    assert_eq!(first.get_uid(), Some("pieces-2026-08-31@stillwood"));
    assert_eq!(first.get_sequence(), Some(41));
    // Six months from the last of August is the last of February: a whole day.
    let on = DatePerhapsTime::Date(date("2027-02-28").unwrap());
    assert_eq!(first.get_start(), Some(on));
    let stamp = first.get_timestamp().unwrap();
    assert_eq!(
        CalendarDateTime::Utc(stamp),
        CalendarDateTime::Utc(written().and_utc())
    );
    assert_eq!(
        first.get_summary(),
        Some("Rest over: 12 pieces set to rest 2026-08-31")
    );
    assert_eq!(first.get_location(), Some("shelf 3, left"));
    let marks = first.get_description().unwrap();
    assert!(marks.contains("Ahorn; außen, Nr. 11") && file.contains("\r\n "));
}

#[test]
fn a_day_keeps_its_name_when_it_moves() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    let plank = phone.plank(pile, "A1", &A7);
    phone.rest(plank, Stage::Pieces, "shelf 1");
    let before = queries::calendar_days(&phone.state(), 1, &Published::default());
    let terms = stillwood_core::season::StageLimits {
        months: 9,
        ..stillwood_core::season::StageLimits::supplied(Stage::Pieces)
    };
    let set = stillwood_core::record::StageSet {
        stage: Stage::Pieces,
        terms,
    };
    phone.say(pile, stillwood_core::record::Event::StageSet(Box::new(set)));
    let after = queries::calendar_days(&phone.state(), 2, &Published::default());
    assert_eq!(before[0].uid, after[0].uid);
    assert!(before[0].on < after[0].on);
}

#[test]
fn what_is_gone_is_taken_back_under_its_old_name() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    phone.set_day("2026-08-31");
    let planks = ["A1", "A2", "A3", "A4"].map(|mark| phone.plank(pile, mark, &A7));
    for plank in planks {
        phone.rest(plank, Stage::Pieces, "shelf 3");
    }
    let first = queries::calendar_days(&phone.state(), 41, &Published::default());
    let told = Published::default().after(&first, date("2026-10-03").unwrap());
    // One is thrown out, one used, one rests anew on another day, one is downgraded where it lies.
    let [a1, a2, a3, a4] = planks;
    phone.set_day("2026-11-01");
    phone.say(a1, Event::Discarded(Discarded::default()));
    phone.say(
        a2,
        Event::Used(Used {
            became: "a lamp".into(),
        }),
    );
    phone.rest(a3, Stage::Pieces, "shelf 4");
    let down = Downgraded {
        reasons: Vec::new(),
        to: "shelves".into(),
    };
    phone.say(a4, Event::Downgraded(down));
    let lots = queries::rack_lots(&phone.state());
    let lots: Vec<_> = lots.iter().flat_map(|lot| &lot.pieces).collect();
    assert_eq!(lots, [&(a3, "A3".to_owned())]);
    // Even where the count of changes did not grow, what is written now comes after.
    let days = queries::calendar_days(&phone.state(), 41, &told);
    let found = read_back(&calendar(&days, written()));
    let events: Vec<_> = found.events().collect();
    let [gone, new] = events[..] else {
        panic!("{events:?}")
    };
    assert_eq!(gone.get_uid(), first[0].uid.as_str().into());
    assert_eq!(gone.get_status(), Some(EventStatus::Cancelled));
    assert!(gone.get_sequence() > Some(41));
    assert_eq!(gone.get_start(), Some(DatePerhapsTime::Date(first[0].on)));
    let became = gone.get_description().unwrap();
    assert_eq!(
        became,
        "discarded: A1; downgraded: A4; set to rest anew 2026-11-01: A3; used: A2"
    );
    assert_eq!(new.get_status(), None);
    assert_eq!(new.get_uid(), Some("pieces-2026-11-01@stillwood"));
    // It is told again until its day is past, and then no more.
    let on = first[0].on;
    assert_eq!(told.after(&days, on).days.len(), 2);
    assert_eq!(told.after(&days, on.succ_opt().unwrap()).days.len(), 1);
}

#[test]
fn a_day_whose_entry_was_taken_back_is_taken_back() {
    let uid = "laminates-2026-05-02@stillwood".to_owned();
    let on = date("2026-11-02").unwrap();
    let before = Published {
        sequence: 7,
        days: [(uid.clone(), on)].into(),
    };
    let days = queries::calendar_days(&Phone::new("K7").state(), 3, &before);
    let [day] = &days[..] else { panic!("{days:?}") };
    assert!(day.cancelled && day.uid == uid && day.on == on && day.sequence == 8);
    assert_eq!(day.summary, "Gone: laminates set to rest 2026-05-02");
}

proptest! {
    #[test]
    fn any_text_comes_back(summary in "[^\\p{C}]{1,200}", lines in prop::collection::vec("[^\\p{C}]{0,90}", 0..4), days in 0u64..40_000) {
        let day = CalendarDay {
            uid: "blanks-2027-01-31@stillwood".into(),
            sequence: 3,
            on: date("1990-01-01").unwrap() + chrono::Days::new(days),
            summary: summary.clone(),
            description: lines.join("\n"),
            place: String::new(),
            cancelled: false,
        };
        let found = read_back(&calendar(std::slice::from_ref(&day), written()));
        let event = found.events().next().unwrap();
        prop_assert_eq!(event.get_summary(), Some(summary.as_str()));
        if !day.description.is_empty() {
            prop_assert_eq!(event.get_description(), Some(day.description.as_str()));
        }
        prop_assert_eq!(event.get_start(), Some(DatePerhapsTime::Date(day.on)));
    }
}
