//! What counts as kept elsewhere, and what does not.

use super::*;
use crate::record::log::id::Id;
use crate::record::log::{
    DeviceId, Event, EventMeta, Limits, Marked, Noted, PileOpened, SpeciesNamed, date, read,
};
use crate::record::queries;

/// A record with a pile and planks, each entry written by a device.
fn record(by: &str, planks: u64) -> Log {
    let mut log = Log::new();
    let pile = Id::from_u128(1);
    let opened = PileOpened {
        country_of_harvest: String::new(),
        invoice: String::new(),
        moisture: None,
        name: "by the door".into(),
        nominal_thickness: None,
        price: None,
        price_basis: None,
        price_confirmed: false,
        rule: None,
        species: SpeciesNamed::default(),
        visit: Id::from_u128(2),
        wood_temperature: None,
    };
    write(&mut log, by, pile, Event::PileOpened(Box::new(opened)));
    for n in 0..planks {
        let mark = format!("{by}-{}", n + 1);
        let plank = Id::from_u128(u128::from(100 + n));
        write(&mut log, by, plank, Event::Marked(Marked { mark, pile }));
    }
    log
}

/// Writes an entry with an id of its own.
fn write(log: &mut Log, by: &str, about: Id, event: Event) {
    let (seq, step) = (log.next_seq(by), log.next_step());
    let device: u64 = by.bytes().map(u64::from).sum();
    let moment = EventMeta {
        id: Id::from_u128((u128::from(device) << 64) | u128::from(seq)),
        seq,
        step,
        on: date("2026-03-07").unwrap(),
        on_confirmed: false,
        at: String::new(),
    };
    let author = DeviceId { by: by.into() };
    log.add(author.entry(moment, about, event).unwrap());
}

fn note(log: &mut Log, by: &str, text: &str) {
    let noted = Noted { text: text.into() };
    write(log, by, Id::from_u128(100), Event::Noted(noted));
}

fn only_here(kept: &KeptElsewhere, log: &Log) -> (usize, usize) {
    let found = kept.only_here(log, &State::project(log));
    (found.planks, found.entries)
}

/// What a file of a record shows to a device that holds another one.
fn shown(here: &Log, own: &str, file: &Log, by: Option<&str>) -> NumberRanges {
    let text = file.to_file("0.2.0", "");
    let reading = read(text.as_bytes(), &Limits::default()).unwrap();
    queries::kept_elsewhere_by(here, |one| one == own, by, &reading.accepted)
}

#[test]
fn a_share_that_was_called_off_and_a_save_that_failed_count_as_nothing() {
    let log = record("K7", 3);
    let mut kept = KeptElsewhere::default();
    for end in [HandingEnd::Cancelled, HandingEnd::Failed] {
        let held = NumberRanges::of(log.everything());
        assert!(!kept.hand_over(end, "2026-03-08", held));
        assert_eq!(kept, KeptElsewhere::default());
        assert_eq!(kept.unconfirmed(log.everything()), 0);
    }
    assert_eq!(only_here(&kept, &log), (3, 4));
}

#[test]
fn a_file_that_was_handed_over_is_not_elsewhere_until_the_maker_says_so() {
    let mut log = record("K7", 3);
    let mut kept = KeptElsewhere::default();
    for way in [HandedWay::Saved, HandedWay::Shared] {
        let held = NumberRanges::of(log.everything());
        assert!(kept.hand_over(HandingEnd::Done(way), "2026-03-08", held));
        assert_eq!(only_here(&kept, &log), (3, 4));
    }
    // What came after the file was handed over was not in it.
    note(&mut log, "K7", "later");
    assert_eq!(kept.unconfirmed(log.everything()), 4);
    kept.confirm();
    assert_eq!(kept.unconfirmed(log.everything()), 0);
    assert_eq!(only_here(&kept, &log), (0, 1));
}

#[test]
fn a_press_counts_for_what_that_file_held_and_no_more() {
    let log = record("K7", 3);
    let mut kept = KeptElsewhere::default();
    let part = NumberRanges::of(log.everything().filter(|entry| entry.seq <= 2));
    kept.hand_over(HandingEnd::Done(HandedWay::Shared), "2026-03-08", part);
    kept.confirm();
    assert_eq!(only_here(&kept, &log), (2, 2));
}

#[test]
fn a_file_of_ones_own_brought_back_in_counts_as_nothing() {
    let log = record("K7", 3);
    for by in [Some("K7"), None] {
        assert_eq!(shown(&log, "K7", &log, by).count(), 0, "{by:?}");
    }
    // Also where the store was emptied meanwhile.
    assert_eq!(shown(&Log::new(), "K7", &log, None).count(), 0);
}

#[test]
fn the_file_of_another_device_counts_for_what_it_holds() {
    let mut phone = record("K7", 3);
    let mut laptop = phone.clone();
    note(&mut laptop, "M4", "on the laptop");
    note(&mut phone, "K7", "meanwhile on the phone");
    for by in [Some("M4"), None] {
        let mut kept = KeptElsewhere::default();
        let found = shown(&phone, "K7", &laptop, by);
        assert_eq!(kept.news(&found), 5, "{by:?}");
        assert!(kept.see(&found), "{by:?}");
        assert!(!kept.see(&found) && kept.news(&found) == 0, "known already");
        let mut after = phone.clone();
        after.merge(laptop.entries().cloned());
        assert_eq!(only_here(&kept, &after), (0, 1), "{by:?}");
    }
    // It says who wrote it: then it need not bring anything new.
    assert_eq!(shown(&phone, "K7", &record("K7", 3), Some("M4")).count(), 4);
    assert_eq!(shown(&phone, "K7", &record("K7", 3), None).count(), 0);
}

#[test]
fn an_entry_that_differs_there_is_not_kept_there() {
    let mut phone = record("K7", 3);
    let mut copy = phone.clone();
    note(&mut phone, "K7", "as it was written");
    note(&mut copy, "K7", "as it came back");
    let mut kept = KeptElsewhere::default();
    kept.see(&shown(&phone, "K7", &copy, Some("M4")));
    assert_eq!(only_here(&kept, &phone), (0, 1));
    // Nor is another entry of the same number, written by a copy of this device.
    let mut twin = record("K7", 3);
    let other = Event::Noted(Noted {
        text: "the twin's".into(),
    });
    let moment = EventMeta {
        id: Id::from_u128(77),
        seq: 5,
        step: 9,
        on: date("2026-03-07").unwrap(),
        on_confirmed: false,
        at: String::new(),
    };
    let author = DeviceId { by: "K7".into() };
    twin.add(author.entry(moment, Id::from_u128(100), other).unwrap());
    let mut kept = KeptElsewhere::default();
    kept.see(&shown(&phone, "K7", &twin, Some("M4")));
    assert_eq!(only_here(&kept, &phone), (0, 1));
}

#[test]
fn what_older_versions_kept_is_a_file_that_was_saved_at_most() {
    let log = record("K7", 2);
    let mut kept = KeptElsewhere::from_last_saved("2026-02-01");
    let handed = kept.handed.clone().unwrap();
    assert_eq!(
        (handed.on.as_str(), handed.way),
        ("2026-02-01", HandedWay::Saved)
    );
    assert_eq!(kept.unconfirmed(log.everything()), 0);
    kept.confirm();
    assert_eq!(only_here(&kept, &log), (2, 3));
}

#[test]
fn it_is_kept_and_read_again_and_what_another_window_knows_is_joined() {
    let log = record("K7", 2);
    let mut kept = KeptElsewhere::default();
    kept.see(&NumberRanges::of(log.entries().take(1)));
    let way = HandingEnd::Done(HandedWay::Shared);
    kept.hand_over(way, "2026-03-08", NumberRanges::of(log.entries()));
    let text = serde_json::to_string(&kept).unwrap();
    assert_eq!(serde_json::from_str::<KeptElsewhere>(&text).unwrap(), kept);
    let nothing: KeptElsewhere = serde_json::from_str("{}").unwrap();
    assert_eq!(nothing, KeptElsewhere::default());
    let mut other = KeptElsewhere::default();
    other.see(&NumberRanges::of(log.entries().skip(1)));
    other.join(&kept);
    assert_eq!(only_here(&other, &log), (0, 0));
    assert_eq!(other.handed, kept.handed);
}

/// Two windows of one device: what either has noted is known, and of two files the one of the later day counts.
#[test]
fn what_two_windows_noted_is_joined() {
    let handed = |on: &str, by: &str| {
        let mut kept = KeptElsewhere::default();
        let entries: NumberRanges =
            serde_json::from_value(serde_json::json!({ by: [[1, 2]] })).unwrap();
        kept.hand_over(HandingEnd::Done(HandedWay::Saved), on, entries);
        kept
    };
    let (earlier, later) = (handed("2026-11-20", "A"), handed("2026-11-21", "B"));
    for (mut one, other) in [(earlier.clone(), &later), (later.clone(), &earlier)] {
        one.join(other);
        assert_eq!(one.handed, later.handed);
    }
    let of_one_day = handed("2026-11-20", "C");
    let mut own = earlier.clone();
    own.join(&of_one_day);
    assert_eq!(own.handed, earlier.handed);
}
