//! A maker in the workshop: what the saw, the shelf, the scale and the clamps add to the record of [`Phone`].
//! All invented.

pub use crate::phone::taken;
use crate::phone::wood;
use crate::yard::{A7, Phone, typed};
use chrono::NaiveDate;
use std::sync::Arc;
use stillwood_core::plank::{Field, Readings, Reason, RingTilt, RunoutDirection};
use stillwood_core::quantity::{Length, Mass, kg, mm};
use stillwood_core::record::Id;
use stillwood_core::record::{
    Adhesive, Child, Climate, Cut, Discarded, Event, Glued, GrainSeen, Machined, Member,
    MoistureRead, MovementChecked, PieceKind, Placed, RoomRead, SetToRest, Span, Weighed,
    child_marks, date,
};
use stillwood_core::season::{FEELER_MM, Stage};

pub fn day(text: &str) -> NaiveDate {
    date(text).unwrap()
}

/// How far off a gap may be where a check does not say.
pub fn feeler() -> Length {
    mm(FEELER_MM)
}

/// How far off a weighing may be whose scale's step was not said.
pub fn scale() -> Mass {
    kg(0.0005)
}

/// A stretch, mm.
pub fn span(from: f64, to: f64) -> Option<Span> {
    Some(Span {
        from: taken(from, "mm"),
        to: taken(to, "mm"),
    })
}

/// A piece of a cut of which nobody said where it lay.
pub fn child(id: Id, mark: &str, kind: PieceKind) -> Child {
    Child {
        across: None,
        along: None,
        id,
        kind,
        mark: mark.to_owned(),
        through: None,
    }
}

impl Phone {
    /// Pieces in a row along the length, each from here to there; the rest is waste.
    pub fn crosscut(&mut self, parent: Id, pieces: &[(&str, f64, f64)]) -> Vec<Id> {
        let mut children = Vec::new();
        for (mark, from, to) in pieces {
            children.push(Child {
                along: span(*from, *to),
                ..child(self.id(), mark, PieceKind::Piece)
            });
        }
        self.cut(parent, children, 3.2)
    }

    /// Laminates of one thickness side by side across the width.
    pub fn rip(&mut self, parent: Id, marks: &[String], thickness: f64) -> Vec<Id> {
        let kerf = 2.4;
        let mut children = Vec::new();
        for (n, mark) in marks.iter().enumerate() {
            let from = n as f64 * (thickness + kerf);
            children.push(Child {
                across: span(from, from + thickness),
                ..child(self.id(), mark, PieceKind::Laminate)
            });
        }
        self.cut(parent, children, kerf)
    }

    /// A cut; gives the ids of the children.
    pub fn cut(&mut self, parent: Id, children: Vec<Child>, kerf: f64) -> Vec<Id> {
        let ids = children.iter().map(|child| child.id).collect();
        let cut = Cut {
            children,
            kerf: Some(taken(kerf, "mm")),
            tension: None,
        };
        self.say(parent, Event::Cut(Arc::new(cut)));
        ids
    }

    pub fn place(&mut self, piece: Id, place: &str) -> Id {
        let place = place.to_owned();
        self.say(piece, Event::Placed(Placed { place }))
    }

    pub fn rest(&mut self, piece: Id, stage: Stage, place: &str) {
        let rest = SetToRest {
            climate: Climate::default(),
            place: place.into(),
            stage,
        };
        self.say(piece, Event::SetToRest(Arc::new(rest)));
    }

    /// Machines a face and an edge flat.
    pub fn flatten(&mut self, piece: Id) {
        let machined = Machined {
            edge: true,
            face: true,
            reference: "pith side, left edge".into(),
            ..Machined::default()
        };
        self.say(piece, Event::Machined(Box::new(machined)));
    }

    pub fn check(&mut self, piece: Id, texts: &[(Field, &str)]) {
        self.check_of(piece, typed(texts));
    }

    /// A check with these gaps.
    pub fn check_of(&mut self, piece: Id, readings: Readings) {
        let check = MovementChecked {
            readings,
            reference: "pith side, left edge".into(),
            ..MovementChecked::default()
        };
        self.say(piece, Event::MovementChecked(Arc::new(check)));
    }

    /// A check whose gaps are thrown.
    pub fn check_by_dice(&mut self, piece: Id) {
        let fields = [Field::Bow, Field::Crook, Field::Twist];
        let gaps = fields.map(|field| (field, taken(self.dice.tenth(0, 3) / 10.0, "mm")));
        self.check_of(piece, Readings::from(gaps));
    }

    /// Looks at a piece: nothing moved.
    pub fn nothing_moved(&mut self, piece: Id) {
        let check = MovementChecked {
            nothing_moved: true,
            ..MovementChecked::default()
        };
        self.say(piece, Event::MovementChecked(Arc::new(check)));
    }

    /// Weighs a piece on the bench scale.
    pub fn weigh(&mut self, piece: Id, kg: f64) {
        self.weigh_on(piece, kg, "bench", Some(0.005));
    }

    /// Weighs a piece to 1 g.
    pub fn weigh_to_a_gram(&mut self, piece: Id, kg: f64) {
        self.weigh_on(piece, kg, "fine", Some(0.001));
    }

    /// Weighs a piece on a scale of this step, kg.
    pub fn weigh_on(&mut self, piece: Id, kg: f64, scale: &str, step: Option<f64>) {
        let weighed = Weighed {
            mass: taken(kg, "kg"),
            scale: scale.into(),
            step: step.map(|step| taken(step, "kg")),
            witness: None,
        };
        self.say(piece, Event::Weighed(Arc::new(weighed)));
    }

    /// Logs the air of a room, in % and degrees Celsius.
    pub fn read_room(
        &mut self,
        about: Id,
        room: &str,
        humidity: Option<f64>,
        temperature: Option<f64>,
    ) {
        let read = RoomRead {
            climate: Climate {
                humidity: humidity.map(|found| taken(found, "%")),
                temperature: temperature.map(|found| taken(found, "degC")),
            },
            hygrometer: "dial".into(),
            room: room.into(),
            witness: None,
        };
        self.say(about, Event::RoomRead(Box::new(read)));
    }

    /// Logs the air of the shop, the same each time.
    pub fn read_the_shop(&mut self) {
        let about = self.id();
        self.read_room(about, "shop", Some(45.0), Some(20.0));
    }

    /// Reads the moisture of a piece with pins, in %.
    pub fn read_moisture(&mut self, piece: Id, percent: f64) {
        let read = MoistureRead {
            depth: None,
            meter: "pins".into(),
            shown: taken(percent, "%"),
            wood_temperature: None,
        };
        self.say(piece, Event::MoistureRead(Arc::new(read)));
    }

    /// Logs the air and weighs pieces, all alike.
    pub fn weigh_in_steady_air(&mut self, pieces: &[Id], kg: f64) {
        self.read_the_shop();
        for piece in pieces {
            self.weigh_to_a_gram(*piece, kg);
        }
    }

    /// The same on several days.
    pub fn weigh_in_steady_air_on(&mut self, days: &[&str], pieces: &[Id], kg: f64) {
        for day in days {
            self.set_day(day);
            self.weigh_in_steady_air(pieces, kg);
        }
    }

    pub fn discard(&mut self, piece: Id, reason: Reason) -> Id {
        let reasons = vec![reason];
        self.say(piece, Event::Discarded(Discarded { reasons }))
    }

    /// Glues a blank with epoxy, members in order, every other turned over.
    pub fn glue(&mut self, mark: &str, members: &[Id], batch: &str) -> Id {
        let blank = self.id();
        let adhesive = Adhesive {
            batch: batch.into(),
            brings_water: Some(false),
            mix: "2:1".into(),
            name: "epoxy".into(),
        };
        let glued = Glued {
            adhesive,
            clamp_time: Some(taken(24.0, "h")),
            ..glued(mark, members, true)
        };
        self.say(blank, Event::Glued(Box::new(glued)));
        blank
    }

    /// Glues a blank of which nothing but its members is told.
    pub fn glue_bare(&mut self, blank: Id, mark: &str, members: &[Id]) {
        let glued = glued(mark, members, false);
        self.say(blank, Event::Glued(Box::new(glued)));
    }
}

/// Members in order; every other is turned over, or none.
fn glued(mark: &str, members: &[Id], every_other: bool) -> Glued {
    let member = |(n, piece): (usize, &Id)| Member {
        piece: *piece,
        turned_over: every_other && n % 2 == 1,
        turned: false,
    };
    Glued {
        mark: mark.into(),
        members: members.iter().enumerate().map(member).collect(),
        ..Glued::default()
    }
}

/// A plank on the floor of the workshop.
pub fn bought(phone: &mut Phone, mark: &str) -> Id {
    let (_, pile) = phone.pile();
    bought_of(phone, pile, mark)
}

/// The same out of a pile.
fn bought_of(phone: &mut Phone, pile: Id, mark: &str) -> Id {
    let plank = phone.plank(pile, mark, &A7);
    phone.place(plank, "floor");
    plank
}

/// Pieces to laminates, a mark each, that are flat and at rest.
fn laminates_at_rest(phone: &mut Phone, pieces: &[Id], marks: &[&str], count: usize) -> Vec<Id> {
    let mut laminates = Vec::new();
    for (piece, mark) in pieces.iter().zip(marks) {
        laminates.extend(phone.rip(*piece, &child_marks(mark, PieceKind::Laminate, count), 16.0));
    }
    for laminate in &laminates {
        phone.flatten(*laminate);
        phone.rest(*laminate, Stage::Laminates, "shelf 2");
    }
    laminates
}

/// A7 cut to three pieces, two of them ripped to four laminates each, five of those glued. Gives the phone, the
/// plank and the blank.
pub fn to_the_rack() -> (Phone, Id, Id) {
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
    phone.set_day("2027-06-03");
    let laminates = laminates_at_rest(&mut phone, &pieces, &["A7a", "A7b"], 4);
    phone.weigh_in_steady_air(&laminates, 0.56);
    phone.set_day("2027-07-03");
    phone.weigh_in_steady_air(&laminates, 0.56);
    for visit in ["2027-09-03", "2027-12-10"] {
        phone.set_day(visit);
        phone.weigh_in_steady_air(&laminates, 0.56);
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

/// Eight laminates of A7 whose rest is over, of woods that moved this way and that, and a plank B1 that
/// nobody has cut. Gives the phone, that plank and the laminates.
pub fn laminates_ready() -> (Phone, Id, Vec<Id>) {
    let mut phone = Phone::new("K7");
    phone.set_day("2025-01-10");
    let (_, pile) = phone.pile();
    let [plank, other] = ["A7", "B1"].map(|mark| bought_of(&mut phone, pile, mark));
    let pieces = phone.crosscut(plank, &[("A7a", 80.0, 1030.0), ("A7b", 1033.2, 1983.2)]);
    phone.set_day("2025-08-01");
    let laminates = laminates_at_rest(&mut phone, &pieces, &["A7a", "A7b"], 4);
    let weighed_on = ["2025-08-01", "2025-09-01", "2025-11-01", "2026-02-01"];
    phone.weigh_in_steady_air_on(&weighed_on, &laminates, 0.56);
    let crooks = [
        "+0.1", "-0.1", "+0.05", "-0.05", "0", "+0.1", "-0.1", "+0.05",
    ];
    for day in ["2025-11-10", "2026-03-10"] {
        phone.set_day(day);
        for (laminate, crook) in laminates.iter().zip(crooks) {
            let shape = [
                (Field::Bow, "+0.2"),
                (Field::Crook, crook),
                (Field::Twist, "0.1 left"),
            ];
            phone.check(*laminate, &shape);
        }
    }
    for laminate in &laminates {
        phone.read_moisture(*laminate, 8.5);
    }
    (phone, other, laminates)
}

/// Twenty laminates of each of these woods, rested and read, no two of one shape; the sides of their rings
/// and grain known where that is wanted, and their twists so much more to the right, mm.
pub fn shelf_of(woods: &[(&str, &str)], sides: bool, right: f64) -> (Phone, Vec<Id>) {
    let mut phone = Phone::new("K7");
    phone.set_day("2025-01-10");
    let mut laminates = Vec::new();
    for (n, (id, text)) in woods.iter().enumerate() {
        let (_, pile) = phone.pile_of(wood(id, text));
        let mark = format!("P{}", n + 1);
        let plank = bought_of(&mut phone, pile, &mark);
        let [near, far] = [format!("{mark}a"), format!("{mark}b")];
        let layout = [(&*near, 80.0, 1030.0), (&*far, 1033.2, 1983.2)];
        for (piece, mark) in phone.crosscut(plank, &layout).iter().zip([&near, &far]) {
            laminates.extend(phone.rip(*piece, &child_marks(mark, PieceKind::Laminate, 10), 16.0));
        }
    }
    phone.set_day("2025-08-01");
    for laminate in &laminates {
        phone.flatten(*laminate);
        phone.rest(*laminate, Stage::Laminates, "shelf 2");
    }
    // Steps of the golden ratio spread evenly without a random number.
    let spread_of = |n: usize, step: f64, half: f64| {
        let along = (n + 1) as f64 * step;
        half * (2.0 * (along - along.floor()) - 1.0)
    };
    for day in ["2025-08-01", "2025-09-01", "2025-11-10", "2026-03-10"] {
        phone.set_day(day);
        phone.read_the_shop();
        for (n, laminate) in laminates.iter().enumerate() {
            let grams = 560.0 + spread_of(n, 0.733_892, 30.0).round();
            phone.weigh_to_a_gram(*laminate, grams / 1000.0);
        }
    }
    for day in ["2025-11-10", "2026-03-10"] {
        phone.set_day(day);
        for (n, laminate) in laminates.iter().enumerate() {
            let spread = |step, half| spread_of(n, step, half);
            let [crook, bow, twist] =
                [(0.754_878, 0.25), (0.569_840, 0.9), (0.819_173, 0.4)].map(|(s, h)| spread(s, h));
            let shape = [
                (Field::Crook, format!("{crook:+.3}")),
                (Field::Bow, format!("{bow:+.2}")),
                (Field::Twist, format!("{:+.3}", twist + right)),
            ];
            let shape = shape
                .each_ref()
                .map(|(field, text)| (*field, text.as_str()));
            phone.check(*laminate, &shape);
            phone.read_moisture(*laminate, 8.5 + (spread(0.856_675, 4.0).round() / 10.0));
            if sides && day.starts_with("2025") {
                let seen = GrainSeen {
                    rings_lean: Some(RingTilt::ALL[2 * usize::from(spread(0.671_044, 1.0) < 0.0)]),
                    grain_rises: Some(
                        RunoutDirection::ALL[2 * usize::from(spread(0.5497, 1.0) < 0.0)],
                    ),
                    ..GrainSeen::default()
                };
                phone.say(*laminate, Event::GrainSeen(Box::new(seen)));
            }
        }
    }
    (phone, laminates)
}
