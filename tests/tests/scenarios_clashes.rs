//! Two devices that both cut, both glue, both promise: both stay in the record, one is in force. All
//! invented.

use stillwood_core::plank::Reason;
use stillwood_core::record::Book;
use stillwood_core::record::queries;
use stillwood_core::record::{
    ClashKind, Discarded, Entry, Happening, Kind, Life, Notebook, Released, Reserved, Used,
    child_marks,
};
use stillwood_core::season::Stage;
use stillwood_tests::workshop::{bought, day, to_the_rack};
use stillwood_tests::yard::Phone;
use uuid::Uuid;

fn life(phone: &Phone, piece: Uuid) -> Life {
    Book::project(&phone.notebook)
        .piece(piece)
        .unwrap()
        .life()
        .0
}

/// Both orders of arrival give the same.
fn met(a: &Phone, b: &Phone) -> Notebook {
    let entries = |phone: &Phone| -> Vec<Entry> { phone.notebook.entries().cloned().collect() };
    let mut one = Notebook::new();
    one.merge(entries(a));
    one.merge(entries(b));
    let mut other = Notebook::new();
    other.merge(entries(b));
    other.merge(entries(a));
    assert_eq!(Book::project(&one), Book::project(&other));
    one
}

#[test]
fn one_plank_cut_on_two_devices() {
    let mut a = Phone::new("K7");
    let plank = bought(&mut a, "A7");
    let mut b = Phone::with("M4", a.notebook.clone());
    let first = a.crosscut(plank, &[("A7a", 80.0, 1030.0), ("A7b", 1040.0, 1990.0)]);
    let second = b.crosscut(plank, &[("A7a", 80.0, 1030.0)]);
    b.rest(second[0], Stage::Pieces, "shelf 1");
    let mut laptop = Phone::with("R2", met(&a, &b));
    let book = Book::project(&laptop.notebook);
    let [clash] = queries::clashes(&book) else {
        panic!("{:?}", queries::clashes(&book));
    };
    assert_eq!((clash.about, clash.why), (plank, ClashKind::GoneAlready));
    // One is in force, the other is kept and shown.
    let in_doubt = |piece: &&Uuid| book.piece(**piece).unwrap().life().0 == Life::InDoubt;
    let doubted: Vec<&Uuid> = first.iter().chain(&second).filter(in_doubt).collect();
    assert!(doubted.len() == 1 || doubted.len() == 2);
    assert!(queries::doubled_marks(&book).len() == 1);
    let stock = queries::stock(&book).count();
    assert_eq!(stock, 3 - doubted.len());
    // The maker settles it either way; the other cut counts then.
    for settled in [clash.in_force.unwrap(), clash.set_aside] {
        let mut laptop = Phone::with("R2", laptop.notebook.clone());
        laptop.take_back(settled);
        let book = Book::project(&laptop.notebook);
        assert!(queries::clashes(&book).is_empty());
        let alive = queries::stock(&book).count();
        assert!(alive == 1 || alive == 2);
        assert!(book.pieces().all(|piece| piece.work.in_doubt.is_none()));
    }
    laptop.take_back(clash.in_force.unwrap());
    laptop.take_back(clash.set_aside);
    assert_eq!(life(&laptop, plank), Life::InShop);
}

#[test]
fn one_laminate_glued_on_two_devices_and_one_thrown_out_before() {
    let mut a = Phone::new("K7");
    let plank = bought(&mut a, "A7");
    let laminates = a.rip(plank, &child_marks("A7", Kind::Laminate, 8), 16.0);
    let mut b = Phone::with("M4", a.notebook.clone());
    let one = a.glue("B1", &laminates[..5], "0417");
    let two = b.glue("B2", &laminates[3..], "0418");
    let both = Book::project(&met(&a, &b));
    assert_eq!(queries::clashes(&both).len(), 1);
    let standing = [one, two].map(|id| both.piece(id).unwrap().is_at_hand());
    assert_eq!(standing.iter().filter(|at_hand| **at_hand).count(), 1);
    let free = queries::stock(&both)
        .filter(|p| p.work.kind == Kind::Laminate)
        .count();
    assert_eq!(free, 3);

    // Thrown out, it can't be glued; the throwing out taken back, it can.
    let mut c = Phone::new("P4");
    let plank = bought(&mut c, "C1");
    let laminates = c.rip(plank, &child_marks("C1", Kind::Laminate, 3), 16.0);
    let reasons = vec![Reason::Sprang];
    let thrown = c.record(laminates[1], Happening::Discarded(Discarded { reasons }));
    let blank = c.glue("B3", &laminates, "0417");
    let book = Book::project(&c.notebook);
    assert_eq!(queries::clashes(&book)[0].in_force, Some(thrown.id));
    assert_eq!(life(&c, blank), Life::InDoubt);
    assert_eq!(life(&c, laminates[0]), Life::InShop);
    assert_eq!(life(&c, laminates[1]), Life::Discarded);
    c.take_back(thrown.id);
    assert!(queries::clashes(&Book::project(&c.notebook)).is_empty());
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
        phone.record(blank, Happening::Reserved(reserved));
        let book = Book::project(&phone.notebook);
        let held = book.piece(blank).unwrap().work.reserved.clone();
        (
            held.map(|held| held.said.name),
            queries::clashes(&book).len(),
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
    phone.record(blank, Happening::Released(Released {}));
    assert_eq!(life(&phone, blank), Life::Resting(Stage::Blanks));
}

#[test]
fn thrown_out_on_two_devices_is_thrown_out_and_no_clash() {
    let met_after = |first: Happening| {
        let mut a = Phone::new("K7");
        let plank = bought(&mut a, "A7");
        let mut b = Phone::with("M4", a.notebook.clone());
        a.record(plank, first);
        b.record(plank, Happening::Discarded(Discarded::default()));
        let book = Book::project(&met(&a, &b));
        (
            queries::clashes(&book).len(),
            book.piece(plank).unwrap().is_at_hand(),
        )
    };
    assert_eq!(
        met_after(Happening::Discarded(Discarded::default())),
        (0, false)
    );
    // What was used up and thrown out is asked about.
    let became = "a lamp".into();
    assert_eq!(met_after(Happening::Used(Used { became })), (1, false));
}
