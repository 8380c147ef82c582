//! Two devices that both cut, both glue, both promise: both stay in the record, one is in force. All
//! invented.

use stillwood_core::plank::Reason;
use stillwood_core::record::Id;
use stillwood_core::record::State;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Discarded, Entry, Event, Life, Log, PieceConflictKind, PieceKind, Released, Reserved, Used,
    child_marks,
};
use stillwood_core::season::Stage;
use stillwood_tests::workshop::{bought, day, to_the_rack};
use stillwood_tests::yard::Phone;

fn life(phone: &Phone, piece: Id) -> Life {
    phone.state().piece(piece).unwrap().life().0
}

/// Both orders of arrival give the same.
fn met(a: &Phone, b: &Phone) -> Log {
    let entries = |phone: &Phone| -> Vec<Entry> { phone.log().entries().cloned().collect() };
    let mut one = Log::new();
    one.merge(entries(a));
    one.merge(entries(b));
    let mut other = Log::new();
    other.merge(entries(b));
    other.merge(entries(a));
    assert_eq!(State::project(&one), State::project(&other));
    one
}

#[test]
fn one_plank_cut_on_two_devices() {
    let mut a = Phone::new("K7");
    let plank = bought(&mut a, "A7");
    let mut b = Phone::with("M4", a.log());
    let first = a.crosscut(plank, &[("A7a", 80.0, 1030.0), ("A7b", 1040.0, 1990.0)]);
    let second = b.crosscut(plank, &[("A7a", 80.0, 1030.0)]);
    b.rest(second[0], Stage::Pieces, "shelf 1");
    let mut laptop = Phone::with("R2", met(&a, &b));
    let state = laptop.state();
    let [piece_conflict] = queries::piece_conflicts(&state) else {
        panic!("{:?}", queries::piece_conflicts(&state));
    };
    assert_eq!(
        (piece_conflict.about, piece_conflict.why),
        (plank, PieceConflictKind::GoneAlready)
    );
    // One is in force, the other is kept and shown.
    let unresolved = |piece: &&Id| state.piece(**piece).unwrap().life().0 == Life::Unresolved;
    let doubted: Vec<&Id> = first.iter().chain(&second).filter(unresolved).collect();
    assert!(doubted.len() == 1 || doubted.len() == 2);
    assert!(queries::doubled_marks(&state).len() == 1);
    let stock = queries::stock(&state).count();
    assert_eq!(stock, 3 - doubted.len());
    // The maker settles it either way; the other cut counts then.
    for settled in [piece_conflict.in_force.unwrap(), piece_conflict.set_aside] {
        let mut laptop = Phone::with("R2", laptop.log());
        laptop.take_back(settled);
        let state = laptop.state();
        assert!(queries::piece_conflicts(&state).is_empty());
        let alive = queries::stock(&state).count();
        assert!(alive == 1 || alive == 2);
        assert!(state.pieces().all(|piece| piece.work.unresolved.is_none()));
    }
    laptop.take_back(piece_conflict.in_force.unwrap());
    laptop.take_back(piece_conflict.set_aside);
    assert_eq!(life(&laptop, plank), Life::InShop);
}

#[test]
fn one_laminate_glued_on_two_devices_and_one_thrown_out_before() {
    let mut a = Phone::new("K7");
    let plank = bought(&mut a, "A7");
    let laminates = a.rip(plank, &child_marks("A7", PieceKind::Laminate, 8), 16.0);
    let mut b = Phone::with("M4", a.log());
    let one = a.glue("B1", &laminates[..5], "0417");
    let two = b.glue("B2", &laminates[3..], "0418");
    let both = State::project(&met(&a, &b));
    assert_eq!(queries::piece_conflicts(&both).len(), 1);
    let standing = [one, two].map(|id| both.piece(id).unwrap().is_at_hand());
    assert_eq!(standing.iter().filter(|at_hand| **at_hand).count(), 1);
    let free = queries::stock(&both)
        .filter(|p| p.work.kind == PieceKind::Laminate)
        .count();
    assert_eq!(free, 3);

    // Thrown out, it can't be glued; the throwing out taken back, it can.
    let mut c = Phone::new("P4");
    let plank = bought(&mut c, "C1");
    let laminates = c.rip(plank, &child_marks("C1", PieceKind::Laminate, 3), 16.0);
    let thrown = c.discard(laminates[1], Reason::Sprang);
    let blank = c.glue("B3", &laminates, "0417");
    let state = c.state();
    assert_eq!(queries::piece_conflicts(&state)[0].in_force, Some(thrown));
    assert_eq!(life(&c, blank), Life::Unresolved);
    assert_eq!(life(&c, laminates[0]), Life::InShop);
    assert_eq!(life(&c, laminates[1]), Life::Discarded);
    c.take_back(thrown);
    assert!(queries::piece_conflicts(&c.state()).is_empty());
    assert_eq!(life(&c, laminates[1]), Life::GluedInto(blank));
    assert_eq!(life(&c, blank), Life::InShop);
}

#[test]
fn a_blank_is_never_promised_twice() {
    let (mut phone, _, blank) = to_the_rack();
    let keep = |phone: &mut Phone, name: &str, until: Option<&str>| {
        let reserved = Reserved {
            name: name.into(),
            until: until.map(day),
        };
        phone.say(blank, Event::Reserved(reserved));
        let state = phone.state();
        let held = state.piece(blank).unwrap().work.reserved.clone();
        (
            held.map(|held| held.payload.name),
            queries::piece_conflicts(&state).len(),
        )
    };
    phone.set_day("2028-07-01");
    assert_eq!(
        keep(&mut phone, "first", Some("2028-07-31")),
        (Some("first".into()), 0)
    );
    assert_eq!(life(&phone, blank), Life::Reserved);
    assert_eq!(keep(&mut phone, "second", None), (Some("first".into()), 1));
    // The first asks for longer; after that day the next may have it.
    assert_eq!(
        keep(&mut phone, "first", Some("2028-08-31")),
        (Some("first".into()), 1)
    );
    phone.set_day("2028-09-01");
    assert_eq!(keep(&mut phone, "third", None), (Some("third".into()), 1));
    phone.say(blank, Event::Released(Released {}));
    assert_eq!(life(&phone, blank), Life::Resting(Stage::Blanks));
}

#[test]
fn thrown_out_on_two_devices_is_thrown_out_and_no_clash() {
    let met_after = |first: Event| {
        let mut a = Phone::new("K7");
        let plank = bought(&mut a, "A7");
        let mut b = Phone::with("M4", a.log());
        a.say(plank, first);
        b.say(plank, Event::Discarded(Discarded::default()));
        let state = State::project(&met(&a, &b));
        (
            queries::piece_conflicts(&state).len(),
            state.piece(plank).unwrap().is_at_hand(),
        )
    };
    assert_eq!(
        met_after(Event::Discarded(Discarded::default())),
        (0, false)
    );
    // What was used up and thrown out is asked about.
    let became = "a lamp".into();
    assert_eq!(met_after(Event::Used(Used { became })), (1, false));
}
