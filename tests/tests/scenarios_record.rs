//! The record in the yard and after: a phone that dies, two phones, a phone that lost its storage. All
//! invented.

use Field::*;
use rust_decimal::Decimal;
use stillwood_core::notebook::{Draft, DraftValue, Entry, Mark, Notebook, SpeciesNamed, pairs};
use stillwood_core::plank::{Field, Line, TallyRule, describe, tally};
use stillwood_tests::yard::{Phone, count, from_file, line, terms};
use uuid::Uuid;

fn lines(notebook: &Notebook) -> Vec<Line> {
    notebook
        .fold()
        .pieces()
        .map(|piece| line(&piece.mark, &describe(&piece.readings_in_use(), &[])))
        .collect()
}

#[test]
fn a_phone_that_dies_in_the_middle_of_a_plank() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    for n in 1..=36 {
        let sizes = [(Length, "8 ft"), (WidthNear, "8 in"), (ThicknessNear, "52")];
        phone.plank(pile, &format!("A{n}"), &sizes);
    }
    let last = [
        (Length, "8 ft"),
        (WidthNear, "13.95 in"),
        (ThicknessNear, "52"),
    ];
    phone.plank(pile, "A37", &last);
    let mut draft = Draft::new(pile, "A38".into(), "2026-10-03T11:00:00+02:00".into());
    for (field, text) in [(Length, "2480"), (WidthNear, "210"), (WidthMiddle, "203")] {
        let text = text.to_owned();
        draft.put(
            field,
            DraftValue {
                text,
                ..DraftValue::default()
            },
        );
    }
    let (kept, half) = (phone.file(), draft.to_json().unwrap());
    drop((phone, draft));

    let opened = Phone::with("K7", {
        let mut notebook = Notebook::new();
        notebook.merge(from_file(&kept).accepted);
        notebook
    });
    let found = tally(&lines(&opened.notebook), &terms(TallyRule::default()));
    assert_eq!(found.lines.len(), 37);
    assert_eq!(found.board_feet.round_dp(6), Decimal::new(4026, 1));
    let draft = Draft::from_json(&half).unwrap();
    assert_eq!(draft.fields_typed(), 3);
    assert_eq!(draft.value(WidthMiddle).unwrap().text, "203");
    assert!(draft.value(WidthFar).is_none());
    assert_eq!((draft.pile, draft.mark.as_str()), (pile, "A38"));
}

/// Two phones on one day in one yard: 24 and 19 planks, five of them the same. Nothing else is alike.
fn two_phones() -> (Phone, Phone) {
    let mut a = Phone::new("K7");
    let mut b = Phone::new("M4");
    let (_, pile_a) = a.pile();
    let (_, pile_b) = b.pile();
    let plank = |phone: &mut Phone, pile, mark: &str, length: u32, width: &str, weight: &str| {
        let length = length.to_string();
        let texts = [
            (Length, length.as_str()),
            (WidthNear, width),
            (ThicknessNear, "52"),
            (WeightWhole, weight),
        ];
        phone.plank(pile, mark, &texts)
    };
    for n in 0..24 {
        plank(
            &mut a,
            pile_a,
            &format!("K7-{n}"),
            2020 + 40 * n,
            "205",
            "19.7",
        );
    }
    for n in 0..5 {
        plank(
            &mut b,
            pile_b,
            &format!("M4-{n}"),
            2020 + 40 * n,
            "204",
            "19.8",
        );
    }
    for n in 5..19 {
        plank(
            &mut b,
            pile_b,
            &format!("M4-{n}"),
            3020 + 40 * n,
            "180",
            "15",
        );
    }
    (a, b)
}

#[test]
fn two_phones_meet_on_a_laptop() {
    let (a, b) = two_phones();
    let (file_a, file_b) = (a.file(), b.file());
    let mut laptops = Vec::new();
    for order in [[&file_a, &file_b], [&file_b, &file_a]] {
        let mut notebook = Notebook::new();
        for file in order {
            let reading = from_file(file);
            assert!(reading.problems.is_empty());
            let preview = notebook.preview(&reading);
            let merged = notebook.merge(reading.accepted);
            assert_eq!((preview.new, merged.altered.len()), (merged.new, 0));
        }
        for file in order {
            let again = from_file(file);
            assert_eq!(notebook.preview(&again).new, 0);
            assert_eq!(notebook.merge(again.accepted).new, 0);
        }
        assert_eq!(count(&notebook), 43);
        assert_eq!(pairs(&notebook.fold()).len(), 5);
        laptops.push(notebook);
    }
    assert_eq!(laptops[0], laptops[1]);
    assert_eq!(laptops[0].to_file("x", "y"), laptops[1].to_file("x", "y"));

    let mut laptop = Phone::with("R2", laptops.swap_remove(0));
    for pair in pairs(&laptop.notebook.fold()) {
        laptop.tell(pair.a, pair.b, true);
    }
    let book = laptop.notebook.fold();
    assert_eq!(book.pieces().count(), 38);
    assert!(pairs(&book).is_empty());
    // Both readings are kept, one is in use.
    let shared = book.pieces().find(|piece| !piece.also.is_empty()).unwrap();
    let weight = &shared.readings[&WeightWhole];
    let mut both: Vec<&str> = weight
        .earlier
        .iter()
        .map(|(_, t)| t.typed.as_str())
        .collect();
    both.push(&weight.taken.typed);
    both.sort_unstable();
    assert_eq!(both, ["19.7", "19.8"]);
    assert_eq!(shared.marks.len(), 2);
    // The other order and the files once more change nothing.
    let told = laptop.file();
    let mut other = Notebook::new();
    for file in [&told, &file_b, &file_a, &told] {
        other.merge(from_file(file).accepted);
    }
    assert_eq!(other, laptop.notebook);
    assert_eq!(count(&other), 38);
}

#[test]
fn a_true_twin_told_different_is_never_offered_again() {
    let (a, b) = two_phones();
    let mut laptop = Phone::with("R2", a.notebook);
    laptop
        .notebook
        .merge(b.notebook.entries().cloned().collect::<Vec<_>>());
    let offered = pairs(&laptop.notebook.fold());
    laptop.tell(offered[0].a, offered[0].b, false);
    let left = pairs(&laptop.notebook.fold());
    assert_eq!(left.len(), 4);
    assert!(
        left.iter()
            .all(|p| (p.a, p.b) != (offered[0].a, offered[0].b))
    );
    let mut elsewhere = Notebook::new();
    elsewhere.merge(from_file(&laptop.file()).accepted);
    assert_eq!(pairs(&elsewhere.fold()).len(), 4);
    assert_eq!(count(&elsewhere), 43);
}

#[test]
fn a_file_read_and_written_again_is_the_same_byte_for_byte() {
    let (a, _) = two_phones();
    let first = a.file();
    let mut laptop = Notebook::new();
    laptop.merge(from_file(&first).accepted);
    assert_eq!(laptop.to_file("0.1.0", "2026-10-03T18:00:00+02:00"), first);
}

/// The next mark of a device: above every number of its own in the record.
fn next_mark(notebook: &Notebook, by: &str) -> Mark {
    let book = notebook.fold();
    let own = book
        .pieces()
        .flat_map(|piece| &piece.marks)
        .filter_map(|text| Mark::parse(text).ok())
        .filter(|mark| mark.device() == by)
        .map(|mark| mark.number());
    Mark::next(by, own.max().unwrap_or(0)).unwrap()
}

#[test]
fn after_storage_is_lost_no_mark_is_given_twice() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    let add = |phone: &mut Phone| {
        let mark = next_mark(&phone.notebook, "K7").to_string();
        phone.plank(pile, &mark, &[(Length, "2620")])
    };
    for _ in 0..31 {
        add(&mut phone);
    }
    let exported = phone.file();
    for _ in 0..4 {
        add(&mut phone);
    }
    let on_the_laptop = phone.file();
    let last = next_mark(&phone.notebook, "K7");

    let mut restored = Notebook::new();
    restored.merge(from_file(&exported).accepted);
    assert_eq!(count(&restored), 31);
    let reused = next_mark(&restored, "K7");
    assert!(reused < last);
    // The laptop knows better: once its file is in, the number is above all of them.
    restored.merge(from_file(&on_the_laptop).accepted);
    assert_eq!(count(&restored), 35);
    assert_eq!(next_mark(&restored, "K7"), last);

    // A number used twice all the same is found when the records meet.
    let mut careless = Phone::with("K7", Notebook::new());
    careless.notebook.merge(from_file(&exported).accepted);
    let twin = careless.plank(pile, &reused.to_string(), &[(Length, "2000")]);
    careless.notebook.merge(from_file(&on_the_laptop).accepted);
    let book = careless.notebook.fold();
    let doubled = book.doubled_marks();
    assert_eq!(doubled.len(), 1);
    assert!(doubled[0].pieces.contains(&twin));
    assert!(!book.clones().is_empty());
}

#[test]
fn a_wood_with_only_a_name_is_recorded_and_named_later() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile_of(SpeciesNamed {
        id: None,
        text: "river cherry".into(),
    });
    let piece = phone.plank(pile, "C1", &[(Length, "2620"), (WidthNear, "204")]);
    let named = |phone: &Phone| {
        let book = phone.notebook.fold();
        let piece = book.piece(piece).unwrap().clone();
        book.species_of(&piece).cloned().unwrap()
    };
    assert_eq!(named(&phone).text, "river cherry");
    assert_eq!(named(&phone).id, None);
    let again = from_file(&phone.file());
    assert!(again.problems.is_empty());
}

#[test]
fn nothing_depends_on_the_order_of_arrival() {
    let (a, b) = two_phones();
    let mut entries: Vec<Entry> = a
        .notebook
        .entries()
        .chain(b.notebook.entries())
        .cloned()
        .collect();
    let mut straight = Notebook::new();
    straight.merge(entries.clone());
    entries.reverse();
    let mut turned = Notebook::new();
    turned.merge(entries);
    assert_eq!(straight, turned);
    assert_eq!(straight.fold(), turned.fold());
    assert_eq!(straight.fold().piece(Uuid::nil()), None);
}
