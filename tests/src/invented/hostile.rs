//! Records of hostile shapes: what no shop writes in a life, and a damaged or a malicious file can hold. All
//! invented, the same every time; each has a size, so that one of it can be held against ten of it.

use super::{Phone, judged, taken, visit_terms};
use chrono::{Days, NaiveDate};
use std::sync::Arc;
use stillwood_core::plank::{Field, Readings};
use stillwood_core::record::Id;
use stillwood_core::record::{
    Child, Climate, Cut, Decision, Entry, Event, EventMeta, Glued, Header, Marked, Measured,
    Member, MovementChecked, Noted, PieceKind, RoomRead, Selection, SetToRest, SpeciesNamed,
    Weighed, write,
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
    let mut phone = Phone::new(by, seed);
    phone.day = Some(begin());
    let visit = phone.new_id();
    let mut terms = visit_terms("North");
    terms.spec = Spec::supplied().swap_remove(0);
    phone.say(visit, Event::VisitOpened(Box::new(terms)));
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
    let piece = phone.new_id();
    phone.say(piece, Event::Marked(Marked { mark, pile }));
    phone.measure(piece, readings);
    phone.say(piece, Event::Judged(judged(Decision::Take, None)));
    piece
}

fn cut(phone: &mut Phone, parent: Id, children: &[(Id, String, PieceKind)]) {
    let child = |(id, mark, kind): &(Id, String, PieceKind)| Child {
        across: None,
        along: None,
        id: *id,
        kind: *kind,
        mark: mark.clone(),
        through: None,
    };
    let cut = Cut {
        children: children.iter().map(child).collect(),
        kerf: Some(taken(3.2, "mm")),
        tension: None,
    };
    phone.say(parent, Event::Cut(Arc::new(cut)));
}

fn glue(phone: &mut Phone, blank: Id, mark: String, members: &[Id]) {
    let member = |piece: &Id| Member {
        piece: *piece,
        turned_over: false,
        turned: false,
    };
    let glued = Glued {
        mark,
        members: members.iter().map(member).collect(),
        ..Glued::default()
    };
    phone.say(blank, Event::Glued(Box::new(glued)));
}

fn rest(phone: &mut Phone, piece: Id, stage: Stage) {
    let rest = SetToRest {
        climate: Climate::default(),
        place: "rack 1".into(),
        stage,
    };
    phone.say(piece, Event::SetToRest(Arc::new(rest)));
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
        let [left, off] = [phone.new_id(), phone.new_id()];
        let children = [
            (left, format!("P{n}"), PieceKind::Piece),
            (off, format!("L{n}"), PieceKind::Laminate),
        ];
        cut(&mut phone, piece, &children);
        rest(&mut phone, off, Stage::Laminates);
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
        let next = phone.new_id();
        let members = match n % 2 {
            0 => [laminate, blank],
            _ => [blank, laminate],
        };
        glue(&mut phone, next, format!("B{n}"), &members);
        blank = next;
    }
    rest(&mut phone, blank, Stage::Blanks);
    done("glue-ups", phone, blank)
}

/// A blank that is ripped in four and glued again of the four, over and over.
pub fn cut_and_glued_again(size: usize) -> Hostile {
    let (mut phone, pile) = at_the_yard("K7", 5);
    let mut piece = plank(&mut phone, pile, "P".into(), sizes(900.0, 80.0, 20.0));
    for n in 0..size {
        let parts: [Id; 4] = std::array::from_fn(|_| phone.new_id());
        let children = parts.map(|id| {
            (
                id,
                format!("L{n}-{}", id.as_u128() % 97),
                PieceKind::Laminate,
            )
        });
        cut(&mut phone, piece, &children);
        piece = phone.new_id();
        glue(&mut phone, piece, format!("B{n}"), &parts);
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

fn check(phone: &mut Phone, piece: Id) {
    let fields = [Field::Bow, Field::Crook, Field::Twist];
    let gap = |phone: &mut Phone| taken(phone.dice.tenth(0, 3) / 10.0, "mm");
    let readings = fields.map(|field| (field, gap(phone)));
    let check = MovementChecked {
        readings: Readings::from(readings),
        reference: "pith side, left edge".into(),
        ..MovementChecked::default()
    };
    phone.say(piece, Event::MovementChecked(Arc::new(check)));
}

fn checks(size: usize, day: impl Fn(u64) -> u64) -> (Phone, Id) {
    let (mut phone, pile) = at_the_yard("K7", 9);
    let piece = plank(&mut phone, pile, "P".into(), sizes(2600.0, 200.0, 52.0));
    rest(&mut phone, piece, Stage::Pieces);
    for n in 0..size as u64 {
        phone.day = Some(begin() + Days::new(day(n)));
        check(&mut phone, piece);
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
    rest(&mut phone, piece, Stage::Pieces);
    let room = phone.new_id();
    for n in 0..size as u64 {
        phone.day = Some(begin() + Days::new(n));
        let humidity = (n == 0).then(|| taken(45.0, "%"));
        let read = RoomRead {
            climate: Climate {
                humidity,
                temperature: Some(taken(20.0, "degC")),
            },
            hygrometer: String::new(),
            room: "rack".into(),
            witness: None,
        };
        phone.say(room, Event::RoomRead(Box::new(read)));
        let weighed = Weighed {
            mass: taken(10.0 + libm::exp(-(n as f64) / 1000.0), "kg"),
            scale: "bench".into(),
            step: Some(taken(0.01, "kg")),
            witness: None,
        };
        phone.say(piece, Event::Weighed(Arc::new(weighed)));
    }
    done("weighings", phone, piece)
}

/// Pieces of which each is cut from the one before, and the first from the last.
pub fn cuts_in_a_circle(size: usize) -> Hostile {
    let (mut phone, _) = at_the_yard("K7", 11);
    let pieces: Vec<Id> = (0..size as u64).map(|n| phone.dice.id(n)).collect();
    for (n, piece) in pieces.iter().enumerate() {
        let child = pieces[(n + 1) % size];
        cut(
            &mut phone,
            *piece,
            &[(child, format!("P{n}"), PieceKind::Piece)],
        );
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
        glue(&mut phone, *blank, format!("B{n}"), &[before, laminate]);
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
    let mut phone = Phone::new("K7", 14);
    let mut piece = Id::nil();
    for n in 0..size {
        phone.day = Some(begin() + Days::new(n as u64 % 4000));
        let visit = phone.new_id();
        let mut terms = visit_terms(&format!("Yard {n}"));
        terms.spec = Spec::supplied().swap_remove(0);
        terms.spec.name = format!("Spec {n}");
        phone.say(visit, Event::VisitOpened(Box::new(terms)));
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
        let parts: [Id; 2] = std::array::from_fn(|_| phone.new_id());
        let mut at = 0;
        let children = parts.map(|id| {
            at += 1;
            (id, format!("L{n}-{at}"), PieceKind::Laminate)
        });
        cut(&mut phone, piece, &children);
        for part in parts {
            let lies = SetToRest {
                climate: Climate::default(),
                place: format!("room {n} rack"),
                stage: Stage::Laminates,
            };
            phone.say(part, Event::SetToRest(Arc::new(lies)));
            let weighed = Weighed {
                mass: taken(1.0, "kg"),
                scale: "bench".into(),
                step: None,
                witness: None,
            };
            phone.say(part, Event::Weighed(Arc::new(weighed)));
        }
        let read = RoomRead {
            climate: Climate {
                humidity: Some(taken(45.0, "%")),
                temperature: None,
            },
            hygrometer: String::new(),
            room: format!("room {n}"),
            witness: None,
        };
        let room = phone.new_id();
        phone.say(room, Event::RoomRead(Box::new(read)));
    }
    done("many names", phone, piece)
}

/// A file of so many different entries under one id.
pub fn one_id(size: usize) -> String {
    let (mut phone, pile) = at_the_yard("K7", 15);
    let piece = plank(&mut phone, pile, "P".into(), sizes(2600.0, 200.0, 52.0));
    let id = phone.new_id();
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
