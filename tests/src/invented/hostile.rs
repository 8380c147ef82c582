//! Records of hostile shapes: what no shop writes in a life, and a damaged or a malicious file can hold. All
//! invented, the same every time; each has a size, so that one of it can be held against ten of it.

use super::{Phone, judged, taken, visit_terms};
use crate::workshop::child;
use chrono::{Days, NaiveDate};
use stillwood_core::plank::{Field, Readings};
use stillwood_core::record::{
    Decision, Entry, Event, EventMeta, Header, Id, Measured, Noted, PieceKind, Selection,
    SpeciesNamed, write,
};
use stillwood_core::season::Stage;
use stillwood_core::verdict::Spec;

/// A record of a hostile shape.
pub struct Hostile {
    pub name: &'static str,
    pub entries: Vec<Entry>,
    /// The piece that the questions about one piece are asked of: the deepest, or the fullest.
    pub piece: Id,
    /// An entry that may come next.
    pub next: Entry,
}

/// What a shape is called, its full size, and how it is made in a size.
pub type Shape = (&'static str, usize, fn(usize) -> Hostile);

/// All shapes with their full sizes.
pub const SHAPES: [Shape; 14] = [
    ("like planks of two phones", 4_000, like_planks),
    ("a chain of cuts", 60_000, chain_of_cuts),
    ("a chain of glue-ups", 20_000, chain_of_glue_ups),
    ("cut and glued again", 10_000, cut_and_glued_again),
    ("a chain of corrections", 100_000, chain_of_corrections),
    ("corrections made apart", 100_000, corrections_apart),
    ("corrections in a comb", 20_000, corrections_in_a_comb),
    ("checks of one piece", 30_000, checks_of_one_piece),
    ("checks, the last day first", 30_000, checks_backwards),
    (
        "weighings and readings of a room",
        30_000,
        weighings_in_a_room,
    ),
    ("cuts in a circle", 60_000, cuts_in_a_circle),
    ("glue-ups in a circle", 20_000, glue_ups_in_a_circle),
    ("one defect after another", 30_000, defects_of_one_piece),
    ("visits, rooms and woods", 5_000, many_names),
];

fn begin() -> NaiveDate {
    NaiveDate::from_ymd_opt(1990, 1, 1).unwrap()
}

/// A phone on a visit with a pile.
fn at_the_yard(by: &str, seed: u64) -> (Phone, Id) {
    let mut phone = Phone::seeded(by, seed);
    phone.day = Some(begin());
    let visit = phone.open_visit_as_supplied("North");
    let pile = phone.open_pile(visit, "maple-sugar");
    (phone, pile)
}

fn sizes(length: f64, width: f64, thickness: f64) -> Readings {
    Readings::from([
        (Field::Length, taken(length, "mm")),
        (Field::WidthNear, taken(width, "mm")),
        (Field::ThicknessNear, taken(thickness, "mm")),
    ])
}

/// A plank with a short mark, measured and taken.
fn plank(phone: &mut Phone, pile: Id, mark: String, readings: Readings) -> Id {
    let piece = phone.marked(pile, mark);
    phone.measure(piece, readings);
    phone.say(piece, Event::Judged(judged(Decision::Take, None)));
    piece
}

fn done(name: &'static str, mut phone: Phone, piece: Id) -> Hostile {
    let text = "one more".to_owned();
    phone.say(piece, Event::Noted(Noted { text }));
    let next = phone.written.pop().unwrap();
    Hostile {
        name,
        entries: phone.written,
        piece,
        next,
    }
}

/// Two phones that each measured so many planks of one yard on one day, all alike.
pub fn like_planks(size: usize) -> Hostile {
    let (mut a, pile_a) = at_the_yard("K7", 1);
    let (mut b, pile_b) = at_the_yard("M4", 2);
    let mut piece = Id::nil();
    for n in 0..size {
        piece = plank(
            &mut a,
            pile_a,
            format!("K7-{n}"),
            sizes(2600.0, 200.0, 52.0),
        );
        plank(
            &mut b,
            pile_b,
            format!("M4-{n}"),
            sizes(2600.0, 200.0, 52.0),
        );
    }
    a.written.append(&mut b.written);
    done("like planks", a, piece)
}

/// A plank from which a laminate is cut, and from what is left another, and so on; all laminates rest.
pub fn chain_of_cuts(size: usize) -> Hostile {
    let (mut phone, pile) = at_the_yard("K7", 3);
    let mut piece = plank(&mut phone, pile, "P".into(), sizes(2600.0, 200.0, 52.0));
    for n in 0..size {
        let [left, off] = [phone.id(), phone.id()];
        let children = vec![
            child(left, &format!("P{n}"), PieceKind::Piece),
            child(off, &format!("L{n}"), PieceKind::Laminate),
        ];
        phone.cut(piece, children, 3.2);
        phone.rest(off, Stage::Laminates, "rack 1");
        piece = left;
    }
    done("cuts", phone, piece)
}

/// A blank glued of a plank and a blank, which was glued of a plank and a blank, and so on.
pub fn chain_of_glue_ups(size: usize) -> Hostile {
    let (mut phone, pile) = at_the_yard("K7", 4);
    let mut blank = plank(&mut phone, pile, "P".into(), sizes(900.0, 80.0, 20.0));
    for n in 0..size {
        let mark = format!("P{n}");
        let laminate = plank(&mut phone, pile, mark, sizes(900.0, 80.0, 20.0));
        let next = phone.id();
        let members = match n % 2 {
            0 => [laminate, blank],
            _ => [blank, laminate],
        };
        phone.glue_bare(next, &format!("B{n}"), &members);
        blank = next;
    }
    phone.rest(blank, Stage::Blanks, "rack 1");
    done("glue-ups", phone, blank)
}

/// A blank that is ripped in four and glued again of the four, over and over.
pub fn cut_and_glued_again(size: usize) -> Hostile {
    let (mut phone, pile) = at_the_yard("K7", 5);
    let mut piece = plank(&mut phone, pile, "P".into(), sizes(900.0, 80.0, 20.0));
    for n in 0..size {
        let parts: [Id; 4] = std::array::from_fn(|_| phone.id());
        let part = |id: &Id| {
            let mark = format!("L{n}-{}", id.as_u128() % 97);
            child(*id, &mark, PieceKind::Laminate)
        };
        phone.cut(piece, parts.iter().map(part).collect(), 3.2);
        piece = phone.id();
        phone.glue_bare(piece, &format!("B{n}"), &parts);
        phone.measure(piece, sizes(900.0, 80.0, 20.0));
    }
    done("cut and glued", phone, piece)
}

fn width(n: usize) -> Event {
    let readings = Readings::from([(Field::WidthNear, taken(200.0 + (n % 50) as f64, "mm"))]);
    Event::Measured(Measured {
        readings,
        ..Measured::default()
    })
}

pub fn chain_of_corrections(size: usize) -> Hostile {
    let (mut phone, pile) = at_the_yard("K7", 6);
    let piece = plank(&mut phone, pile, "P".into(), sizes(900.0, 80.0, 20.0));
    let mut last = phone.say(piece, width(0));
    for n in 0..size {
        last = phone.correct(piece, width(n), vec![last]);
    }
    done("corrections", phone, piece)
}

/// A reading that is corrected so many times apart.
pub fn corrections_apart(size: usize) -> Hostile {
    let (mut phone, pile) = at_the_yard("K7", 7);
    let piece = plank(&mut phone, pile, "P".into(), sizes(900.0, 80.0, 20.0));
    let first = phone.say(piece, width(0));
    for n in 0..size {
        phone.correct(piece, width(n), vec![first]);
    }
    done("apart", phone, piece)
}

/// A chain of corrections, each of which is corrected once more apart.
pub fn corrections_in_a_comb(size: usize) -> Hostile {
    let (mut phone, pile) = at_the_yard("K7", 8);
    let piece = plank(&mut phone, pile, "P".into(), sizes(900.0, 80.0, 20.0));
    let mut last = phone.say(piece, width(0));
    for n in 0..size {
        let next = phone.correct(piece, width(n), vec![last]);
        phone.correct(piece, width(n + 1), vec![last]);
        last = next;
    }
    done("comb", phone, piece)
}

fn checks(size: usize, day: impl Fn(u64) -> u64) -> (Phone, Id) {
    let (mut phone, pile) = at_the_yard("K7", 9);
    let piece = plank(&mut phone, pile, "P".into(), sizes(2600.0, 200.0, 52.0));
    phone.rest(piece, Stage::Pieces, "rack 1");
    for n in 0..size as u64 {
        phone.day = Some(begin() + Days::new(day(n)));
        phone.check_by_dice(piece);
    }
    (phone, piece)
}

/// A piece that is checked day after day.
pub fn checks_of_one_piece(size: usize) -> Hostile {
    let (phone, piece) = checks(size, |n| n);
    done("checks", phone, piece)
}

/// The same, the last day recorded first.
pub fn checks_backwards(size: usize) -> Hostile {
    let (phone, piece) = checks(size, |n| size as u64 - n);
    done("checks backwards", phone, piece)
}

/// A piece that is weighed day after day, in a room of which nearly every reading lacks the humidity.
pub fn weighings_in_a_room(size: usize) -> Hostile {
    let (mut phone, pile) = at_the_yard("K7", 10);
    let piece = plank(&mut phone, pile, "P".into(), sizes(2600.0, 200.0, 52.0));
    phone.rest(piece, Stage::Pieces, "rack 1");
    let room = phone.id();
    for n in 0..size as u64 {
        phone.day = Some(begin() + Days::new(n));
        phone.read_room(room, "rack", (n == 0).then_some(45.0), Some(20.0));
        let mass = 10.0 + libm::exp(-(n as f64) / 1000.0);
        phone.weigh_on(piece, mass, "bench", Some(0.01));
    }
    done("weighings", phone, piece)
}

/// Pieces of which each is cut from the one before, and the first from the last.
pub fn cuts_in_a_circle(size: usize) -> Hostile {
    let (mut phone, _) = at_the_yard("K7", 11);
    let pieces: Vec<Id> = (0..size as u64).map(|n| phone.dice.id(n)).collect();
    for (n, piece) in pieces.iter().enumerate() {
        let next = child(pieces[(n + 1) % size], &format!("P{n}"), PieceKind::Piece);
        phone.cut(*piece, vec![next], 3.2);
    }
    done("circle of cuts", phone, pieces[0])
}

/// Blanks of which each is glued of the one before and a plank, and the first of the last.
pub fn glue_ups_in_a_circle(size: usize) -> Hostile {
    let (mut phone, pile) = at_the_yard("K7", 12);
    let blanks: Vec<Id> = (0..size as u64).map(|n| phone.dice.id(n)).collect();
    for (n, blank) in blanks.iter().enumerate() {
        let laminate = plank(&mut phone, pile, format!("P{n}"), sizes(900.0, 80.0, 20.0));
        let before = blanks[(n + size - 1) % size];
        phone.glue_bare(*blank, &format!("B{n}"), &[before, laminate]);
    }
    done("circle of glue-ups", phone, blanks[0])
}

/// A plank on which one defect after another is found.
pub fn defects_of_one_piece(size: usize) -> Hostile {
    use stillwood_core::plank::{DefectFound, DefectKind};
    let (mut phone, pile) = at_the_yard("K7", 13);
    let piece = plank(&mut phone, pile, "P".into(), sizes(2600.0, 200.0, 52.0));
    for n in 0..size {
        let defect = DefectFound {
            kind: DefectKind::EndCheck,
            from: Some(taken(n as f64 / 100.0, "mm")),
            to: Some(taken(n as f64 / 100.0 + 5.0, "mm")),
            note: String::new(),
        };
        let measured = Measured {
            defects: vec![defect],
            ..Measured::default()
        };
        phone.say(piece, Event::Measured(measured));
    }
    done("defects", phone, piece)
}

/// So many visits, each with its own spec, wood, plank, laminates, rack and room.
pub fn many_names(size: usize) -> Hostile {
    let mut phone = Phone::seeded("K7", 14);
    let mut piece = Id::nil();
    for n in 0..size {
        phone.day = Some(begin() + Days::new(n as u64 % 4000));
        let mut terms = visit_terms(&format!("Yard {n}"));
        terms.spec = Spec::supplied().swap_remove(0);
        terms.spec.name = format!("Spec {n}");
        let visit = phone.open_visit_on(terms);
        let pile = phone.open_pile(visit, "maple-sugar");
        piece = plank(
            &mut phone,
            pile,
            format!("P{n}"),
            sizes(2600.0, 200.0, 52.0),
        );
        let wood = SpeciesNamed {
            id: None,
            text: format!("wood {n}"),
        };
        let named = Measured {
            species: Some(wood),
            ..Measured::default()
        };
        phone.say(piece, Event::Measured(named));
        let parts: [Id; 2] = std::array::from_fn(|_| phone.id());
        let part =
            |(at, id): (usize, &Id)| child(*id, &format!("L{n}-{}", at + 1), PieceKind::Laminate);
        phone.cut(piece, parts.iter().enumerate().map(part).collect(), 3.2);
        for part in parts {
            phone.rest(part, Stage::Laminates, &format!("room {n} rack"));
            phone.weigh_on(part, 1.0, "bench", None);
        }
        let room = phone.id();
        phone.read_room(room, &format!("room {n}"), Some(45.0), None);
    }
    done("many names", phone, piece)
}

/// A file of so many different entries under one id.
pub fn one_id(size: usize) -> String {
    let (mut phone, pile) = at_the_yard("K7", 15);
    let piece = plank(&mut phone, pile, "P".into(), sizes(2600.0, 200.0, 52.0));
    let id = phone.id();
    for n in 0..size {
        let moment = EventMeta {
            id,
            seq: phone.seq + 1,
            step: phone.step + 1,
            on: begin(),
            on_confirmed: false,
            at: String::new(),
        };
        let noted = Event::Noted(Noted {
            text: format!("story {n}"),
        });
        let entry = phone.author.correction(moment, piece, noted, Vec::new());
        phone.written.push(entry.unwrap());
    }
    write(&Header::new("0.0.0", "", Selection::Whole), &phone.written)
}
