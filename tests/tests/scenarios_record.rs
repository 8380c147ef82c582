//! The record in the yard and after: a phone that dies, two phones, a phone that lost its storage. All
//! invented.

use Field::*;
use rust_decimal::Decimal;
use stillwood_core::plank::{Field, describe, not_looked_at};
use stillwood_core::quantity::in_kg_per_m3;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Id;
use stillwood_core::record::State;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Decision, Draft, DraftValue, Entry, Event, Judged, Life, Log, Marked, PlankTallied, Withdrawn,
    WoodTyped, pairs,
};
use stillwood_core::wood::{OwnNumber, Species};
use stillwood_tests::yard::{A7, Phone, count, from_file, typed};

/// A record out of its file.
fn read_again(file: &str) -> Log {
    let reading = from_file(file);
    assert!(reading.problems.is_empty());
    let mut log = Log::new();
    log.merge(reading.accepted);
    log
}

/// Takes a plank, as the maker does.
fn take(phone: &mut Phone, piece: Id) {
    let judged = Judged {
        decision: Decision::Take,
        proposed: None,
        reasons: Vec::new(),
        score: None,
        weakest: None,
    };
    phone.say(piece, Event::Judged(judged));
}

/// The planks taken on a visit and their footage by the yard's rule.
fn taken(log: &Log, visit: Id) -> (usize, Decimal) {
    let tally = queries::tally_of(&State::project(log), visit).unwrap();
    let feet = |plank: &PlankTallied| plank.tallied.board_feet.unwrap();
    (tally.planks.len(), tally.planks.iter().map(feet).sum())
}

#[test]
fn a_phone_that_dies_in_the_middle_of_a_plank() {
    let mut phone = Phone::new("K7");
    let (visit, pile) = phone.pile();
    let mut opened = phone.state().pile(pile).unwrap().opened.clone();
    opened.nominal_thickness = typed(&[(ThicknessNear, "8/4")]).remove(&ThicknessNear);
    phone.say(pile, Event::PileOpened(Box::new(opened)));
    for n in 1..=37 {
        let width = if n == 37 { "13.95 in" } else { "8 in" };
        let sizes = [(Length, "8 ft"), (WidthNear, width), (ThicknessNear, "52")];
        let mark = phone.log().next_mark("K7", &[]).unwrap().to_string();
        let piece = phone.plank(pile, &mark, &sizes);
        take(&mut phone, piece);
    }
    // The 38th is kept at every keystroke; the last one that was kept is what comes back.
    let mark = phone.log().next_mark("K7", &[]).unwrap().to_string();
    let mut draft = Draft::new(pile, mark.clone(), "2026-10-03T11:00:00+02:00".into());
    let piece = phone.id();
    draft.piece = Some(piece);
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

    let mut opened = Phone::with("K7", read_again(&kept));
    let before = taken(&opened.log(), visit);
    assert_eq!(
        (before.0, before.1.round_dp(6)),
        (37, Decimal::new(4026, 1))
    );
    let draft = Draft::from_json(&half).unwrap();
    assert!(opened.state().piece(piece).is_none());
    // Its mark may be chalked already: nothing else gets it.
    let next = opened
        .log()
        .next_mark("K7", std::slice::from_ref(&draft.mark));
    assert_ne!(next.unwrap().to_string(), mark);

    // It goes on where it stood: three readings, two still to come.
    let mut texts: Vec<(Field, &str)> = Vec::new();
    for field in Field::ALL {
        texts.extend(
            draft
                .value(*field)
                .map(|value| (*field, value.text.as_str())),
        );
    }
    let missing = not_looked_at(&describe(&typed(&texts), &[]));
    assert!(missing.contains(&"thickness") && !missing.contains(&"width"));
    texts.extend([(WidthFar, "196"), (ThicknessNear, "52")]);
    let mark = draft.mark.clone();
    opened.say(piece, Event::Marked(Marked { mark, pile }));
    opened.measure(piece, typed(&texts));
    take(&mut opened, piece);
    let after = taken(&opened.log(), visit);
    // 2480 x 203 x 50.8 mm.
    assert_eq!(after.0, 38);
    assert_eq!((after.1 - before.1).round_dp(2), Decimal::new(1084, 2));
    assert!(queries::doubled_marks(&opened.state()).is_empty());
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
        let mut log = Log::new();
        for file in order {
            let reading = from_file(file);
            assert!(reading.problems.is_empty());
            let preview = queries::preview(&log, &reading);
            let merged = log.merge(reading.accepted);
            assert_eq!((preview.new, merged.altered.len()), (merged.new, 0));
        }
        for file in order {
            let again = from_file(file);
            assert_eq!(queries::preview(&log, &again).new, 0);
            assert_eq!(log.merge(again.accepted).new, 0);
        }
        assert_eq!(count(&log), 43);
        assert_eq!(pairs(&State::project(&log)).len(), 5);
        laptops.push(log);
    }
    assert_eq!(laptops[0], laptops[1]);
    assert_eq!(laptops[0].to_file("x", "y"), laptops[1].to_file("x", "y"));

    let mut laptop = Phone::with("R2", laptops.swap_remove(0));
    for pair in pairs(&laptop.state()) {
        laptop.tell(pair.a, pair.b, true);
    }
    let state = laptop.state();
    assert_eq!(state.pieces().count(), 38);
    assert!(pairs(&state).is_empty());
    // Both readings are kept, one is in use.
    let shared = state.pieces().find(|piece| !piece.also.is_empty()).unwrap();
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
    let mut other = Log::new();
    for file in [&told, &file_b, &file_a, &told] {
        other.merge(from_file(file).accepted);
    }
    assert_eq!(other, laptop.log());
    assert_eq!(count(&other), 38);
}

#[test]
fn a_true_twin_told_different_is_never_offered_again() {
    let (a, b) = two_phones();
    let mut laptop = Phone::with("R2", a.log());
    laptop.hear(b.written);
    let offered = pairs(&laptop.state());
    laptop.tell(offered[0].a, offered[0].b, false);
    let left = pairs(&laptop.state());
    assert_eq!(left.len(), 4);
    assert!(
        left.iter()
            .all(|p| (p.a, p.b) != (offered[0].a, offered[0].b))
    );
    let mut elsewhere = Log::new();
    elsewhere.merge(from_file(&laptop.file()).accepted);
    assert_eq!(pairs(&State::project(&elsewhere)).len(), 4);
    assert_eq!(count(&elsewhere), 43);
}

#[test]
fn a_file_read_and_written_again_is_the_same_byte_for_byte() {
    let (a, _) = two_phones();
    let first = a.file();
    let mut laptop = Log::new();
    laptop.merge(from_file(&first).accepted);
    assert_eq!(laptop.to_file("0.1.0", "2026-10-03T18:00:00+02:00"), first);
}

#[test]
fn after_storage_is_lost_no_mark_is_given_twice() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    let next = |phone: &Phone| phone.log().next_mark("K7", &[]).unwrap();
    let add = |phone: &mut Phone| {
        let mark = next(phone).to_string();
        phone.plank(pile, &mark, &[(Length, "2620")])
    };
    for _ in 0..31 {
        add(&mut phone);
    }
    let exported = phone.file();
    for _ in 0..3 {
        add(&mut phone);
    }
    // The last one is taken back, but its mark stands on the wood.
    let mark = next(&phone).to_string();
    let piece = phone.id();
    let marked = phone.say(piece, Event::Marked(Marked { mark, pile }));
    let gone = Event::Withdrawn(Withdrawn {});
    phone.correct(piece, gone, vec![marked]);
    let on_the_laptop = phone.file();
    let last = next(&phone);

    let mut restored = Phone::with("K7", read_again(&exported));
    assert_eq!(count(&restored.log()), 31);
    let reused = next(&restored);
    assert!(reused < last);
    // The laptop knows better: once its file is in, the number is above all of them.
    restored.hear(from_file(&on_the_laptop).accepted);
    assert_eq!(count(&restored.log()), 34);
    assert_eq!(next(&restored), last);
    // Another device's numbers are its own.
    let other = restored.log().next_mark("M4", &[]).unwrap();
    assert_eq!((other.device(), other.number()), ("M4".to_owned(), 1));

    // A number used twice all the same is found when the records meet.
    let mut careless = Phone::with("K7", read_again(&exported));
    let twin = careless.plank(pile, &reused.to_string(), &[(Length, "2000")]);
    careless.hear(from_file(&on_the_laptop).accepted);
    let state = careless.state();
    let doubled = queries::doubled_marks(&state);
    assert_eq!(doubled.len(), 1);
    assert!(doubled[0].pieces.contains(&twin));
    assert!(!queries::cloned_devices(&state).is_empty());
}

/// Records a wood as typed; gives what it is about and the entry.
fn add_wood(phone: &mut Phone, of: Option<(Id, Id)>, wood: &WoodTyped) -> (Id, Id) {
    let about = of.map_or_else(|| phone.id(), |(about, _)| about);
    let state = phone.state();
    let added = wood
        .added(&state, &about.to_string(), Units::Metric)
        .unwrap();
    let replaced = of.map(|(_, entry)| entry).into_iter().collect();
    let event = Event::WoodAdded(Box::new(added));
    (about, phone.correct(about, event, replaced))
}

/// The wood of a plank, as a file of its record tells it elsewhere.
fn wood_of(phone: &Phone, piece: Id) -> Option<Species> {
    let state = State::project(&read_again(&phone.file()));
    queries::wood_of(&state, queries::species_of(&state, state.piece(piece)?)?)
}

#[test]
fn a_wood_with_only_a_name_is_recorded_and_named_later() {
    let mut phone = Phone::new("K7");
    let named = queries::wood_named(&phone.state(), "river cherry").unwrap();
    assert_eq!(named.id, None);
    let (_, pile) = phone.pile_of(named);
    let piece = phone.plank(pile, "C1", &[(Length, "2620"), (WidthNear, "204")]);
    assert_eq!(wood_of(&phone, piece), None);

    let number = |number, text: &str| {
        let source = "two boards, weighed and dried";
        (number, text.to_owned(), source.to_owned())
    };
    let mut wood = WoodTyped {
        name: "River Cherry".into(),
        numbers: vec![
            number(OwnNumber::Radial, "4,0"),
            number(OwnNumber::Tangential, "7.5 %"),
            number(OwnNumber::Density, "0.58 g/cm³"),
        ],
        ..WoodTyped::default()
    };
    let first = add_wood(&mut phone, None, &wood);
    let known = wood_of(&phone, piece).unwrap();
    assert_eq!(known.name(), "River Cherry");
    let radial = known.radial_shrinkage().unwrap();
    assert_eq!(radial.value.in_percent(), 4.0);
    assert_eq!(radial.source(), "your data");
    assert_eq!(in_kg_per_m3(known.density_at_12().unwrap().value), 580.0);
    // What no one gave stays unknown.
    assert!(known.stiffness_at_12().is_none() && known.volumetric_shrinkage().is_none());
    assert!(known.trade().words().contains("no data"));

    // A change replaces; what was typed and where it is from are kept.
    wood.numbers.push(number(OwnNumber::Radial, "4.2"));
    let second = add_wood(&mut phone, Some(first), &wood);
    let state = phone.state();
    assert_eq!((state.woods().len(), state.disputes().len()), (1, 0));
    let kept = &state.woods()[&first.0.to_string()].added.numbers["shrinkage_radial"];
    assert_eq!((kept.value, kept.typed.as_str()), (4.2, "4.2 %"));
    assert_eq!(kept.source, "two boards, weighed and dried");
    assert_eq!(
        WoodTyped::of(&state.woods()[&first.0.to_string()].added, Units::Inch).name,
        "River Cherry"
    );

    // Taken back, the name alone stays, and nothing waits for a beginning that is missing.
    let begun = state.begun_by(second.0);
    assert_eq!(begun, [first.1, second.1]);
    phone.correct(second.0, Event::Withdrawn(Withdrawn {}), begun);
    assert_eq!(wood_of(&phone, piece), None);
    assert!(queries::orphans(&phone.state()).is_empty());
}

#[test]
fn a_wood_that_can_not_be_kept_says_why() {
    let mut phone = Phone::new("K7");
    let fault = |phone: &Phone, wood: &WoodTyped| {
        let state = phone.state();
        wood.added(&state, "new", Units::Metric)
            .unwrap_err()
            .to_string()
    };
    let wood = |name: &str, numbers: &[(OwnNumber, &str)]| WoodTyped {
        name: name.into(),
        numbers: numbers
            .iter()
            .map(|(number, text)| (*number, (*text).to_owned(), String::new()))
            .collect(),
        ..WoodTyped::default()
    };
    assert!(fault(&phone, &wood(" ", &[])).contains("What is the wood called?"));
    assert!(fault(&phone, &wood("hard maple", &[])).contains("in the table already"));
    let says = fault(
        &phone,
        &wood("river cherry", &[(OwnNumber::Tangential, "75")]),
    );
    assert!(says.starts_with("Tangential shrinkage: 75 %"), "{says}");
    let ends = [
        (OwnNumber::DensityLow, "640"),
        (OwnNumber::DensityHigh, "520"),
    ];
    assert!(fault(&phone, &wood("river cherry", &ends)).contains("both ends"));
    add_wood(&mut phone, None, &wood("river cherry", &[]));
    assert!(fault(&phone, &wood("River cherry ", &[])).contains("change that one"));
}

#[test]
fn nothing_depends_on_the_order_of_arrival() {
    let (a, b) = two_phones();
    let mut entries: Vec<Entry> = a
        .log()
        .entries()
        .chain(b.log().entries())
        .cloned()
        .collect();
    let mut straight = Log::new();
    straight.merge(entries.clone());
    entries.reverse();
    let mut turned = Log::new();
    turned.merge(entries);
    assert_eq!(straight, turned);
    assert_eq!(State::project(&straight), State::project(&turned));
    assert_eq!(State::project(&straight).piece(Id::nil()), None);
}

#[test]
fn what_was_decided_last_is_where_a_plank_is() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    let plank = phone.plank(pile, "A7", &A7);
    let life = |phone: &Phone| phone.state().piece(plank).unwrap().life().0;
    assert_eq!(life(&phone), Life::AtYard);
    for (decision, wanted) in [
        (Decision::SetAside, Life::AtYard),
        (Decision::Leave, Life::Left),
        (Decision::Take, Life::Bought),
    ] {
        let judged = Judged {
            decision,
            proposed: None,
            reasons: Vec::new(),
            score: None,
            weakest: None,
        };
        phone.say(plank, Event::Judged(judged));
        assert_eq!(life(&phone), wanted);
    }
}
