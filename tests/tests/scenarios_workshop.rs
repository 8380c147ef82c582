//! The workshop: from a plank to a blank on the rack, a year away, two devices that both cut, a bad batch
//! of glue. All invented.

use chrono::NaiveDate;
use stillwood_core::notebook::{
    ClashKind, Discarded, End, Entry, Happening, Kind, Life, Machined, Missing, Notebook, Piece,
    Placed, Released, Reserved, Shelf, StageCount, StageSet, Used, child_marks, date,
};
use stillwood_core::plank::{Field, Instruments, Reason};
use stillwood_core::quantity::{celsius, in_kg, in_m3, in_mm, mm};
use stillwood_core::season::{
    DateKey, FEELER_MM, MeasureKey, Movement, Stage, StageTerms, Warp, due_day, earliest_blanks,
    latest_days,
};
use stillwood_core::wood::{Humidity, emc};
use stillwood_tests::workshop::taken;
use stillwood_tests::yard::{A7, Phone, from_file, typed};
use uuid::Uuid;

fn day(text: &str) -> NaiveDate {
    date(text).unwrap()
}

fn feeler() -> stillwood_core::quantity::Length {
    mm(FEELER_MM)
}

fn unknown(_: &Piece) -> Option<bool> {
    None
}

fn life(phone: &Phone, piece: Uuid) -> Life {
    phone.notebook.fold().piece(piece).unwrap().life().0
}

/// A plank on the shelf of the workshop.
fn bought(phone: &mut Phone, mark: &str) -> Uuid {
    let (_, pile) = phone.pile();
    let plank = phone.plank(pile, mark, &A7);
    let place = "floor".into();
    phone.record(plank, Happening::Placed(Placed { place }));
    plank
}

/// A7 cut to three pieces, two of them ripped to four laminates each, five of those glued.
fn to_the_rack() -> (Phone, Uuid, Uuid) {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    phone.set_day("2026-12-01");
    let layout = [
        ("A7a", 80.0, 1030.0),
        ("A7b", 1033.2, 1983.2),
        ("A7c", 1986.4, 2546.4),
    ];
    let pieces = phone.crosscut(plank, &layout);
    for piece in &pieces {
        phone.flatten(*piece);
        phone.rest(*piece, Stage::Pieces, "shelf 1");
    }
    let mut laminates = Vec::new();
    phone.set_day("2027-06-03");
    for (piece, mark) in pieces.iter().zip(["A7a", "A7b"]) {
        laminates.extend(phone.rip(*piece, &child_marks(mark, Kind::Laminate, 4), 16.0));
    }
    for laminate in &laminates {
        phone.flatten(*laminate);
        phone.rest(*laminate, Stage::Laminates, "shelf 2");
        phone.weigh(*laminate, 0.56);
    }
    for visit in ["2027-09-03", "2027-12-10"] {
        phone.set_day(visit);
        for laminate in &laminates {
            let straight = [
                (Field::Bow, "+0.2"),
                (Field::Crook, "+0.05"),
                (Field::Twist, "0"),
            ];
            phone.check(*laminate, &straight);
        }
    }
    let blank = phone.glue("B012", &laminates[..5], "0417");
    phone.flatten(blank);
    phone.rest(blank, Stage::Blanks, "rack");
    (phone, plank, blank)
}

#[test]
fn plank_to_rack() {
    let (phone, plank, blank) = to_the_rack();
    let book = phone.notebook.fold();
    assert!(book.clashes().is_empty() && book.orphans().is_empty());
    // The blank's page: its laminates in order, the piece, the plank and the yard's bill.
    let made_of = book.made_of(blank);
    let marks: Vec<&str> = made_of
        .iter()
        .map(|id| book.piece(*id).unwrap().mark.as_str())
        .collect();
    assert_eq!(marks, ["A7a1", "A7a2", "A7a3", "A7a4", "A7b1"]);
    assert_eq!(book.ancestors(blank).len(), 8);
    assert_eq!(book.planks_of(blank), [plank]);
    let found = book.piece(plank).unwrap();
    assert_eq!(book.visit_of(found).unwrap().opened.yard, "North");
    assert_eq!(book.woods_in(blank)[0].text, "hard maple");
    for laminate in &made_of {
        let laminate = book.piece(*laminate).unwrap();
        assert_eq!(laminate.life(), (Life::GluedInto(blank), day("2027-12-10")));
        assert_eq!(laminate.work.weighings.len(), 1);
        let checks = book.moved(laminate, feeler());
        assert_eq!(checks.len(), 2);
        assert_eq!(checks[1].flat_on, Some(day("2027-06-03")));
        assert_eq!(checks[1].movement, Movement::Within);
        assert_eq!(book.species_of(laminate).unwrap().text, "hard maple");
    }
    // Everything under the plank is touched by it.
    assert_eq!(book.descendants(plank).len(), 3 + 8 + 1);
    assert_eq!(book.pieces_of(found.pile).count(), 1);
    // A laminate turned on edge is 52 wide and 16 thick.
    let size = book.size_of(book.piece(made_of[0]).unwrap());
    let sizes = [size.length, size.widths.least(), size.thicknesses.least()];
    assert_eq!(
        sizes.map(|s| s.map(|s| in_mm(s).round())),
        [Some(950.0), Some(52.0), Some(16.0)]
    );

    // The laptop reads the same and writes the same, byte for byte.
    let file = phone.file();
    let mut laptop = Notebook::new();
    laptop.merge(from_file(&file).accepted);
    assert_eq!(laptop.to_file("0.1.0", "2026-10-03T18:00:00+02:00"), file);
    assert_eq!(laptop.fold(), book);
}

#[test]
fn where_the_wood_of_a_cut_went() {
    let (phone, plank, _) = to_the_rack();
    let book = phone.notebook.fold();
    let account = book.cut_account(plank, &Instruments::default()).unwrap();
    assert!(account.doubts.is_empty() && !account.is_questioned());
    let wood = account.wood.unwrap();
    let pieces = wood.pieces.iter().flatten().map(|v| in_m3(*v)).sum::<f64>();
    let sum = pieces + in_m3(wood.kerf) + in_m3(wood.waste);
    assert!((sum - in_m3(wood.whole)).abs() < 1e-12);
    // Two saw cuts between the pieces; the trims and a hair's taper are waste.
    assert!((in_m3(wood.kerf) - 2.0 * 3.2 * 204.0 * 52.0 * 1e-9).abs() < 1e-12);
    let trims = (2620.0 - 2460.0 - 6.4) * 204.0 * 52.0 * 1e-9;
    assert!((in_m3(wood.waste) / trims - 1.0).abs() < 0.05);
    assert_eq!(account.mass, None);
}

#[test]
fn where_all_the_wood_of_a_plank_is_now() {
    let (mut phone, plank, _) = to_the_rack();
    let find = |phone: &Phone, mark: &str| phone.notebook.fold().marked(mark)[0];
    let thrown = find(&phone, "A7b4");
    phone.record(thrown, Happening::Discarded(Discarded::default()));
    let lost = find(&phone, "A7b3");
    phone.record(lost, Happening::Missing(Missing {}));
    // A7b2 is planed from 16 to 15.2 mm.
    let planed = find(&phone, "A7b2");
    let machined = Machined {
        face: true,
        readings: typed(&[(Field::ThicknessNear, "15.2"), (Field::WidthNear, "52")]),
        ..Machined::default()
    };
    phone.record(planed, Happening::Machined(Box::new(machined)));
    let ledger = phone
        .notebook
        .fold()
        .ledger(plank, &Instruments::default())
        .unwrap();
    let sum: f64 = ledger.parts().iter().map(|part| in_m3(*part)).sum();
    assert!((sum - in_m3(ledger.whole)).abs() < 1e-12);
    let laminate = 950.0 * 52.0 * 16.0 * 1e-9;
    for (found, laminates) in [
        (ledger.glued, 5.0),
        (ledger.thrown_out, 1.0),
        (ledger.missing, 1.0),
        (ledger.planed, 0.05),
    ] {
        assert!((in_m3(found) - laminates * laminate).abs() < 1e-12);
    }
    // Left: A7b2, and A7c as it was cut.
    let left = 0.95 * laminate + 560.0 * 204.0 * 52.0 * 1e-9;
    assert!((in_m3(ledger.in_hand) - left).abs() < 1e-12);
}

#[test]
fn mass_never_grows_from_parent_to_children_unquestioned() {
    let weighed = |kg: f64| {
        let mut phone = Phone::new("K7");
        let plank = bought(&mut phone, "A7");
        phone.weigh(plank, 19.7);
        let halves = [("A7a", 0.0, 1310.0), ("A7b", 1313.2, 2620.0)];
        for half in phone.crosscut(plank, &halves) {
            phone.weigh(half, kg);
        }
        let account = phone
            .notebook
            .fold()
            .cut_account(plank, &Instruments::default());
        account.unwrap().mass.unwrap()
    };
    let usual = weighed(9.8);
    assert!((in_kg(usual.waste) - 0.1).abs() < 1e-9);
    assert!(!usual.is_questioned());
    // 5 g more than before is within three readings of a scale in steps of 5 g; 50 g is not.
    assert!(!weighed(9.8525).is_questioned());
    assert!(weighed(9.875).is_questioned());
}

#[test]
fn a_cut_that_cannot_be_is_questioned_before_it_is_recorded() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let children = {
        let mut trial = Phone::with("X9", phone.notebook.clone());
        let layout = [("A7a", 0.0, 1400.0), ("A7b", 1300.0, 2700.0)];
        trial.crosscut(plank, &layout);
        let book = trial.notebook.fold();
        match &book.piece(plank).unwrap().work.end.as_ref().unwrap().said {
            End::Cut(cut) => cut.children.clone(),
            other => panic!("{other:?}"),
        }
    };
    let book = phone.notebook.fold();
    let doubts = book.cut_doubts(book.piece(plank).unwrap(), &children);
    let said: Vec<String> = doubts
        .iter()
        .map(|doubt| doubt.question(|n| children[n].mark.clone()))
        .collect();
    assert_eq!(
        said,
        [
            "A7b reaches 80 mm beyond the wood that it is cut from",
            "A7b and A7a share wood"
        ]
    );
}

/// 64 laminates and 9 pieces set to rest, then nobody looks for 402 days.
fn a_year_away() -> (Phone, Vec<Uuid>) {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    let mut laminates = Vec::new();
    phone.set_day("2026-10-20");
    for n in 0..16 {
        let plank = phone.plank(pile, &format!("P{n}"), &A7);
        let marks: Vec<String> = (1..=4).map(|k| format!("P{n}-{k}")).collect();
        laminates.extend(phone.rip(plank, &marks, 16.0));
    }
    for (n, laminate) in laminates.iter().enumerate() {
        phone.flatten(*laminate);
        let place = if n < 40 { "shelf 2" } else { "box by the wall" };
        phone.rest(*laminate, Stage::Laminates, place);
    }
    phone.set_day("2026-11-16");
    for n in 0..3 {
        let plank = phone.plank(pile, &format!("Q{n}"), &A7);
        let thirds: Vec<(String, f64, f64)> = (0..3)
            .map(|k| {
                (
                    format!("Q{n}{k}"),
                    f64::from(k) * 860.0,
                    f64::from(k) * 860.0 + 850.0,
                )
            })
            .collect();
        let layout: Vec<(&str, f64, f64)> = thirds
            .iter()
            .map(|(m, a, b)| (m.as_str(), *a, *b))
            .collect();
        for piece in phone.crosscut(plank, &layout) {
            phone.rest(piece, Stage::Pieces, "shelf 1");
        }
    }
    (phone, laminates)
}

#[test]
fn a_year_away_everything_is_there_and_ripe() {
    let (mut phone, laminates) = a_year_away();
    let opened = day("2026-10-20") + chrono::Duration::days(402);
    let mut again = Notebook::new();
    again.merge(from_file(&phone.file()).accepted);
    assert_eq!(again.fold(), phone.notebook.fold());
    let lines = again.fold().resting(opened, feeler(), &unknown);
    assert_eq!(lines.len(), 64 + 9);
    for line in &lines {
        let ready = line.ready.as_ref().unwrap();
        assert_eq!(ready.date, DateKey::Ripe);
        assert_eq!(ready.measure, MeasureKey::NotChecked);
        assert_eq!(ready.in_words(), "ripe: check its movement");
        let due = if line.stage == Stage::Laminates {
            "2027-04-20"
        } else {
            "2027-05-16"
        };
        assert_eq!(ready.due, day(due));
    }
    // 182 and 208 days from the day of the first rest: the days a maker counts on the calendar.
    assert_eq!((day("2027-04-20") - day("2026-10-20")).num_days(), 182);
    assert_eq!((day("2027-05-16") - day("2026-10-20")).num_days(), 208);
    let shelves = Shelf::all(lines);
    let found: Vec<(&str, usize)> = shelves
        .iter()
        .map(|s| (s.place.as_str(), s.lines.len()))
        .collect();
    assert_eq!(
        found,
        [("box by the wall", 24), ("shelf 1", 9), ("shelf 2", 40)]
    );

    // The box was flooded: three are not found, and count neither way.
    phone.set_day("2027-11-26");
    for lost in &laminates[61..] {
        phone.record(*lost, Happening::Missing(Missing {}));
    }
    let book = phone.notebook.fold();
    assert_eq!(book.resting(opened, feeler(), &unknown).len(), 61 + 9);
    assert_eq!(book.missing_wood().count(), 3);
    let total = |phone: &Phone| {
        let counts = phone.notebook.fold().stage_counts(Kind::Laminate);
        counts
            .values()
            .fold(StageCount::default(), |sum, one| StageCount {
                waiting: sum.waiting + one.waiting,
                missing: sum.missing + one.missing,
                failed: sum.failed + one.failed,
                ..sum
            })
    };
    assert_eq!((total(&phone).waiting, total(&phone).missing), (61, 3));
    let place = "shelf 2".into();
    phone.record(laminates[61], Happening::Placed(Placed { place }));
    let reasons = vec![Reason::Moved];
    phone.record(laminates[62], Happening::Discarded(Discarded { reasons }));
    let now = total(&phone);
    assert_eq!((now.waiting, now.missing, now.failed), (62, 1, 1));
    let gone = phone.notebook.fold();
    let gone = gone.piece(laminates[62]).unwrap().work.end.clone().unwrap();
    assert!(matches!(
        gone.said,
        End::Discarded(_, Some(Stage::Laminates))
    ));
}

/// A piece of 3.2 kg gains 71 g when the air goes from 40 to 55 %: that is the air, not the wood.
#[test]
fn what_the_air_gives() {
    let at = |percent| {
        let humidity = Humidity::percent(percent);
        emc(celsius(20.0), humidity).unwrap().in_percent()
    };
    let dry = 3.2 / (1.0 + at(40.0) / 100.0);
    let gained = dry * (at(55.0) - at(40.0)) / 100.0;
    assert!((gained * 1000.0 - 71.0).abs() < 1.5, "{gained}");
}

#[test]
fn moved_since_last_flat() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let piece = phone.crosscut(plank, &[("A7a", 80.0, 1030.0)])[0];
    phone.flatten(piece);
    phone.rest(piece, Stage::Laminates, "");
    let mut look = |on: &str, crook: &str| {
        phone.set_day(on);
        let zero = [
            (Field::Bow, "0"),
            (Field::Twist, "0"),
            (Field::Crook, crook),
        ];
        phone.check(piece, &zero);
        let book = phone.notebook.fold();
        book.moved(book.piece(piece).unwrap(), feeler())
            .pop()
            .unwrap()
    };
    let crook = |checked: &stillwood_core::notebook::Checked| {
        let changes = checked.changes.as_ref().unwrap();
        *changes
            .iter()
            .find(|change| change.warp == Warp::Crook)
            .unwrap()
    };
    let first = look("2026-11-03", "+0.10");
    assert_eq!(first.movement, Movement::Steady);
    let last = look("2027-06-03", "+0.45");
    assert!((in_mm(crook(&last).by.unwrap()) - 0.45).abs() < 1e-9);
    assert!((crook(&last).limit.unwrap().out_mm - 0.3).abs() < 1e-9);
    assert_eq!(last.movement, Movement::Beyond);
    // Too close to call: within a tool's reach of the limit, either side.
    assert_eq!(look("2027-07-03", "-0.35").movement, Movement::TooClose);
    // Machined flat again, it counts from there.
    phone.set_day("2027-08-01");
    phone.flatten(piece);
    phone.set_day("2027-09-01");
    phone.nothing_moved(piece);
    let book = phone.notebook.fold();
    let checks = book.moved(book.piece(piece).unwrap(), feeler());
    let last = checks.last().unwrap();
    assert_eq!(last.flat_on, Some(day("2027-08-01")));
    assert_eq!(last.movement, Movement::Steady);
}

#[test]
fn a_date_and_two_checks_end_a_rest() {
    let (phone, _, _) = to_the_rack();
    let book = phone.notebook.fold();
    let lines =
        |today: &str, weight: Option<bool>| book.resting(day(today), feeler(), &|_: &Piece| weight);
    let laminate = |line: &stillwood_core::notebook::RestLine| line.mark == "A7b2";
    let at = |today, weight| {
        let found = lines(today, weight).into_iter().find(laminate).unwrap();
        found.ready.unwrap()
    };
    assert!(at("2027-12-10", None).is_ready());
    assert!(!at("2027-12-02", None).is_ready());
    assert_eq!(at("2027-12-02", None).date, DateKey::DueSoon);
    assert_eq!(
        at("2027-12-10", Some(false)).measure,
        MeasureKey::StillDrying
    );
    // The maker's own terms hold for what rests already.
    let mut longer = Phone::with("M4", phone.notebook.clone());
    let terms = StageTerms {
        months: 12,
        ..StageTerms::supplied(Stage::Laminates)
    };
    let stage = Stage::Laminates;
    let about = longer.id();
    longer.record(about, Happening::StageSet(StageSet { stage, terms }));
    let book = longer.notebook.fold();
    let line = book.resting(day("2027-12-10"), feeler(), &unknown);
    let line = line.into_iter().find(laminate).unwrap();
    assert_eq!(line.ready.unwrap().due, day("2028-06-03"));
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
    assert_eq!(one.fold(), other.fold());
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
    let book = laptop.notebook.fold();
    let [clash] = book.clashes() else {
        panic!("{:?}", book.clashes());
    };
    assert_eq!((clash.about, clash.why), (plank, ClashKind::GoneAlready));
    // One is in force, the other is kept and shown.
    let in_doubt = |piece: &&Uuid| book.piece(**piece).unwrap().life().0 == Life::InDoubt;
    let doubted: Vec<&Uuid> = first.iter().chain(&second).filter(in_doubt).collect();
    assert!(doubted.len() == 1 || doubted.len() == 2);
    assert!(book.doubled_marks().len() == 1);
    let stock = book.stock().count();
    assert_eq!(stock, 3 - doubted.len());
    // The maker settles it either way; the other cut counts then.
    for settled in [clash.in_force.unwrap(), clash.set_aside] {
        let mut laptop = Phone::with("R2", laptop.notebook.clone());
        laptop.take_back(settled);
        let book = laptop.notebook.fold();
        assert!(book.clashes().is_empty());
        let alive = book.stock().count();
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
    let both = met(&a, &b).fold();
    assert_eq!(both.clashes().len(), 1);
    let standing = [one, two].map(|id| both.piece(id).unwrap().is_at_hand());
    assert_eq!(standing.iter().filter(|at_hand| **at_hand).count(), 1);
    let free = both
        .stock()
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
    let book = c.notebook.fold();
    assert_eq!(book.clashes()[0].in_force, Some(thrown.id));
    assert_eq!(life(&c, blank), Life::InDoubt);
    assert_eq!(life(&c, laminates[0]), Life::InShop);
    assert_eq!(life(&c, laminates[1]), Life::Discarded);
    c.take_back(thrown.id);
    assert!(c.notebook.fold().clashes().is_empty());
    assert_eq!(life(&c, laminates[1]), Life::GluedInto(blank));
    assert_eq!(life(&c, blank), Life::InShop);
}

#[test]
fn a_slip_in_a_cut_is_put_right_after_its_wood_was_glued() {
    let (mut phone, plank, blank) = to_the_rack();
    let before = phone.notebook.fold();
    let end = before.piece(plank).unwrap().work.end.clone().unwrap();
    let End::Cut(mut cut) = end.said else {
        panic!("{end:?}");
    };
    cut.kerf = Some(taken(2.4, "mm"));
    phone.set_day("2026-12-01");
    let right = phone.correct(plank, Happening::Cut(cut), vec![end.entry]);
    let glue = before.piece(blank).unwrap().recorded.entry;
    let Happening::Glued(mut glued) = phone.notebook.entry(glue).unwrap().happening.clone() else {
        panic!("glued");
    };
    glued.adhesive.batch = "0418".into();
    phone.set_day("2027-12-10");
    phone.correct(blank, Happening::Glued(glued), vec![glue]);
    let book = phone.notebook.fold();
    assert!(book.clashes().is_empty(), "{:?}", book.clashes());
    assert_eq!(
        book.piece(plank).unwrap().work.end.as_ref().unwrap().entry,
        right.id
    );
    assert_eq!(book.descendants(plank), before.descendants(plank));
    assert_eq!(book.touched_by_batch("0418"), [blank]);
    assert_eq!(life(&phone, blank), Life::Resting(Stage::Blanks));
}

#[test]
fn what_a_bad_batch_of_glue_touches() {
    let mut phone = Phone::new("K7");
    let mut blanks = Vec::new();
    for n in 0..8 {
        let plank = bought(&mut phone, &format!("A{n}"));
        let laminates = phone.rip(plank, &child_marks("A", Kind::Laminate, 5), 16.0);
        let batch = if n < 6 { "0417" } else { "0418" };
        blanks.push(phone.glue(&format!("B{n}"), &laminates, batch));
    }
    let became = "bass 12".into();
    phone.record(blanks[0], Happening::Used(Used { became }));
    let book = phone.notebook.fold();
    let mut touched = book.touched_by_batch(" 0417");
    touched.sort();
    let mut wanted = blanks[..6].to_vec();
    wanted.sort();
    assert_eq!(touched, wanted);
    assert!(book.touched_by_batch("0419").is_empty());
    let counts = book.stage_counts(Kind::Blank);
    assert_eq!(counts.values().map(|count| count.through).sum::<u32>(), 1);
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
        let book = phone.notebook.fold();
        let held = book.piece(blank).unwrap().work.reserved.clone();
        (held.map(|held| held.said.name), book.clashes().len())
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
fn four_blanks_by_next_spring() {
    let (phone, _) = a_year_away();
    let book = phone.notebook.fold();
    let rests = book.least_rests();
    // Each of the nine pieces is expected to give four laminates.
    let held = book.held(&|_| 4);
    let today = day("2027-01-10");
    let found = earliest_blanks(&held, 5, &rests, today).unwrap();
    assert_eq!(found.len(), (64 + 9 * 4) / 5);
    // Laminates are free on 20 April 2027, so a blank glued then is ready six months on.
    assert_eq!(found[..12], [day("2027-10-20"); 12]);
    assert_eq!(found[13], day("2028-05-16"));
    let plan = latest_days(day("2028-04-30"), &rests).unwrap();
    assert_eq!(plan.glue_by, day("2027-10-31"));
    assert_eq!(plan.too_late(today), ["cut planks"]);
    assert_eq!(due_day(plan.glue_by, rests.blanks), Ok(day("2028-04-30")));
}
