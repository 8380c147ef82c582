//! Two phones in one yard: planks recorded twice, and one visit taken out as a file.

use stillwood_core::plank::{Field, Readings};
use stillwood_core::record::Id;
use stillwood_core::record::State;
use stillwood_core::record::queries;
use stillwood_core::record::{Entry, Event, Limits, Log, SamePlank, pairs, read};
use stillwood_tests::invented::{Phone, taken};

/// Records what a plank measures; the name of the yard is written as each maker writes it.
fn buy(phone: &mut Phone, yard: &str, planks: &[(f64, f64, f64)]) -> Vec<Id> {
    let visit = phone.open_visit(yard);
    let pile = phone.open_pile(visit, "hard_maple");
    let record = |(length, width, weight): &(f64, f64, f64)| {
        let piece = phone.mark(pile);
        let readings = Readings::from([
            (Field::Length, taken(*length, "mm")),
            (Field::WidthNear, taken(*width, "mm")),
            (Field::WeightWhole, taken(*weight, "kg")),
        ]);
        phone.measure(piece, readings);
        piece
    };
    planks.iter().map(record).collect()
}

/// Two phones: 24 planks and 19, five of them the same.
fn two_phones() -> (Phone, Phone) {
    let own = |n: u32, from: f64| (from + f64::from(n) * 40.0, 150.0 + f64::from(n), 15.0);
    let shared = [
        (2620.0, 205.0, 19.7),
        (2480.0, 198.0, 18.1),
        (3010.0, 221.0, 24.4),
        (2615.0, 240.0, 23.0),
        (2210.0, 187.0, 15.2),
    ];
    let mut a: Vec<_> = (0..19).map(|n| own(n, 4000.0)).collect();
    a.extend(shared);
    let mut b: Vec<_> = shared
        .map(|(l, w, kg)| (l + 5.0, w - 2.0, kg + 0.1))
        .to_vec();
    b.extend((0..14).map(|n| own(n, 6000.0)));
    let (mut first, mut second) = (Phone::seeded("K7", 21), Phone::seeded("M4", 22));
    buy(&mut first, "North", &a);
    buy(&mut second, " north ", &b);
    (first, second)
}

#[test]
fn planks_that_both_phones_recorded_are_offered_and_nothing_is_joined_unasked() {
    let (mut a, b) = two_phones();
    let mut laptop = Log::new();
    laptop.merge(a.written.clone());
    let file = {
        let mut phone = Log::new();
        phone.merge(b.written.clone());
        phone.to_file("0.1.0", "")
    };
    let reading = read(file.as_bytes(), &Limits::default()).unwrap();
    let preview = queries::preview(&laptop, &reading);
    assert_eq!((preview.new_pieces, preview.pairs.len()), (19, 5));
    assert_eq!((preview.new, preview.already_here), (b.written.len(), 0));
    laptop.merge(reading.accepted.clone());
    assert_eq!(laptop.merge(reading.accepted).new, 0);

    let mut other_way = Log::new();
    other_way.merge(b.written.clone());
    other_way.merge(a.written.clone());
    assert_eq!(other_way, laptop);

    let state = State::project(&laptop);
    assert_eq!(state.pieces().count(), 43);
    let offered = pairs(&state);
    assert_eq!(offered.len(), 5);
    assert!(
        offered
            .iter()
            .all(|pair| pair.compared == 3 && pair.apart < 0.4)
    );

    // Four are the same; the fifth is a twin, and is never offered again.
    a.step = laptop.next_step();
    for (n, pair) in offered.iter().enumerate() {
        let told = SamePlank {
            other: pair.b,
            same: n < 4,
        };
        a.say(pair.a, Event::SamePlank(told));
    }
    laptop.merge(a.written.clone());
    let state = State::project(&laptop);
    assert_eq!(state.pieces().count(), 39);
    assert_eq!(pairs(&state), []);
    let joined = state.piece(offered[0].b).unwrap();
    assert_eq!(
        (joined.id, joined.also.as_slice()),
        (offered[0].a, &[offered[0].b][..])
    );
    assert_eq!(joined.readings[&Field::Length].earlier.len(), 1);
    assert_eq!(joined.marks.len(), 2);
    assert_eq!(joined.by.len(), 2);
    assert_eq!(
        state
            .pieces_of(joined.pile)
            .filter(|p| p.id == joined.id)
            .count(),
        1
    );

    // Told the same after all.
    a.say(
        offered[4].a,
        Event::SamePlank(SamePlank {
            other: offered[4].b,
            same: true,
        }),
    );
    laptop.merge(a.written.clone());
    assert_eq!(State::project(&laptop).pieces().count(), 38);
}

#[test]
fn planks_of_one_phone_of_other_days_or_other_woods_are_not_offered() {
    let (mut a, mut b) = (Phone::seeded("K7", 31), Phone::seeded("M4", 32));
    let plank = [(2620.0, 205.0, 19.7)];
    buy(&mut a, "North", &[plank[0], plank[0]]);
    assert_eq!(pairs(&State::project_entries(&a.written)), []);
    b.seq = 4000; // another day
    buy(&mut b, "North", &plank);
    let both = |a: &Phone, b: &Phone| {
        let all: Vec<Entry> = a.written.iter().chain(&b.written).cloned().collect();
        pairs(&State::project_entries(&all)).len()
    };
    assert_eq!(both(&a, &b), 0);
    let mut one = Phone::seeded("R2", 34);
    buy(&mut one, "North", &plank);
    for (yard, species, wanted) in [
        ("North", "hard_maple", 1),
        ("North", "ash", 0),
        ("South", "hard_maple", 0),
    ] {
        let mut c = Phone::seeded("PA", 33);
        let visit = c.open_visit(yard);
        let pile = c.open_pile(visit, species);
        let piece = c.mark(pile);
        // Measured from the other end.
        let readings = Readings::from([
            (Field::Length, taken(2611.0, "mm")),
            (Field::WidthNear, taken(207.0, "mm")),
        ]);
        c.measure(piece, readings);
        assert_eq!(both(&one, &c), wanted, "{yard} {species}");
    }
}

#[test]
fn one_visit_goes_into_a_file_with_all_that_belongs_to_it() {
    let (mut a, b) = two_phones();
    let first = a.written[0].about;
    buy(&mut a, "South", &[(2000.0, 200.0, 12.0)]);
    let mut log = Log::new();
    log.merge(a.written.clone());
    log.merge(b.written);
    let reading = read(
        queries::visit_to_file(&log, &State::project(&log), "", first, "0", "").as_bytes(),
        &Limits::default(),
    )
    .unwrap();
    assert_eq!(reading.accepted.len(), 2 + 24 * 2);
    let state = State::project_entries(&reading.accepted);
    assert_eq!(state.pieces().count(), 24);
    assert!(queries::orphans(&state).is_empty());
}
