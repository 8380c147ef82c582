//! What becomes of deeds that can't be written down, and of pages that are damaged.

use super::*;
use stillwood_core::record::{Event, Noted, lines};
use wasm_bindgen_test::wasm_bindgen_test;

fn now() -> clock::Now {
    clock::now()
}

fn noted(text: &str) -> Deed {
    let noted = Noted {
        text: text.to_owned(),
    };
    Deed::new(Id::from_u128(7), Event::Noted(noted))
}

fn record() -> Record {
    Record::new(Device::nobody(), None)
}

fn two(record: &Record, first: u64) -> Result<Vec<WrittenEntry>, StoreError> {
    let ids = [Id::from_u128(1), Id::from_u128(2)];
    record.entries(&[noted("a"), noted("b")], &ids, &now(), first)
}

#[wasm_bindgen_test]
fn a_deed_becomes_an_entry_or_says_why_it_does_not() {
    let mut record = record();
    assert_eq!(two(&record, 1).map(|entries| entries.len()), Ok(2));
    for first in [LARGEST_NUMBER, LARGEST_NUMBER + 1, u64::MAX] {
        assert!(
            matches!(two(&record, first), Err(StoreError::NotMade(_))),
            "{first}"
        );
    }
    // A clock that others pushed to its end stands there, and stops nobody.
    for step in [LARGEST_NUMBER - 1, LARGEST_NUMBER, u64::MAX] {
        record.step = step;
        let steps =
            two(&record, 1).map(|two| two.iter().all(|one| one.entry().step == LARGEST_NUMBER));
        assert_eq!(steps, Ok(true));
    }
}

#[wasm_bindgen_test]
fn a_damaged_line_is_listed_kept_and_spoils_no_other() {
    let mut record = record();
    let whole = page_of(&two(&record, 1).unwrap_or_default());
    let mut page = whole.clone().into_bytes();
    page.extend_from_slice(b"{\"half\":\n\xff\xfe\n");
    assert!(!is_whole(&page));
    assert!(is_whole(whole.as_bytes()));
    // Without its final newline it is whole as well.
    assert!(is_whole(whole.trim_end().as_bytes()));
    let key = PageKey::from_number(3.0);
    let pages = Pages {
        pages: vec![Page { key, lines: page }],
        ..Pages::default()
    };
    record.take_in(&pages);
    assert_eq!(record.log.len(), 2);
    let found: Vec<_> = record
        .damage()
        .map(|one| (one.place.clone(), one.line))
        .collect();
    let place = Place::Page(key);
    assert_eq!(found, [(place.clone(), Some(3)), (place, Some(4))]);
    assert_eq!((record.damaged_pages(), record.small_pages.len()), (1, 0));
    // Where the store is emptied they are written again, byte for byte.
    let again = record.missing_in(&Pages::default());
    let mut expected: Vec<&[u8]> = whole.lines().map(str::as_bytes).collect();
    expected.extend([b"{\"half\":".as_slice(), b"\xff\xfe"]);
    let mut found: Vec<_> = lines_of(&again).map(|(_, line)| line).collect();
    expected.sort_unstable();
    found.sort_unstable();
    assert_eq!(found, expected);
    assert_eq!(record.missing_in(&pages), Vec::<u8>::new());
}

#[wasm_bindgen_test]
fn what_the_store_is_given_is_what_was_checked() {
    let record = record();
    let ids = [Id::from_u128(1), Id::from_u128(2)];
    // Line ends and signs that can't be seen are written as they were typed, each entry on its own line.
    let deeds = [noted("a\nb"), noted("hid\u{200b}den")];
    let made = record.entries(&deeds, &ids, &now(), 1).unwrap_or_default();
    let page = page_of(&made);
    let read: Vec<_> = lines_of(page.as_bytes())
        .map(|(_, line)| read_line(line, &Limits::default()))
        .collect();
    let entries: Vec<Entry> = made.into_iter().map(WrittenEntry::into_entry).collect();
    assert_eq!(lines(&entries), page);
    let expected: Vec<Result<Entry, String>> = entries.into_iter().map(Ok).collect();
    assert_eq!((read.len(), read), (2, expected));
}

#[wasm_bindgen_test]
fn another_identity_counts_from_one() {
    let mut record = record();
    let entries = two(&record, 1).unwrap_or_default();
    record.merge(entries.into_iter().map(WrittenEntry::into_entry).collect());
    assert_eq!(record.own_entries(), (2, 2));
    let old = record.by().to_owned();
    let mut device = Device::nobody();
    device.id = "K7-222222222A".to_owned();
    record.becomes(device);
    assert_ne!(record.by(), old);
    assert_eq!(record.own_entries(), (0, 0));
}
