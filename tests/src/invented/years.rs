//! Ten years of a workshop: planks bought on visits, cut to pieces that rest, ripped to laminates that rest,
//! glued to blanks that rest; weighed, read and checked on the way, some thrown out. All invented, the same
//! every time.

use super::{Phone, taken, visit_terms};
use chrono::{Days, NaiveDate};
use std::collections::BTreeMap;
use std::sync::Arc;
use stillwood_core::plank::{Field, Readings, Reason};
use stillwood_core::record::Id;
use stillwood_core::record::{
    Child, Climate, Cut, Discarded, Entry, Event, Glued, Machined, Member, MoistureRead,
    MovementChecked, PieceKind, RoomRead, SetToRest, Weighed, child_marks,
};
use stillwood_core::season::Stage;
use stillwood_core::verdict::Spec;

const YEARS: u64 = 10;
const VISITS_A_YEAR: u64 = 10;
const PIECES_A_PLANK: usize = 2;
const LAMINATES_A_PIECE: usize = 3;
const LAMINATES_A_BLANK: usize = 5;

/// A piece and what is written on it.
#[derive(Clone)]
struct Named {
    id: Id,
    mark: String,
}

/// What is to be done on a day.
enum Job {
    Visit(u64),
    ReadRoom,
    Crosscut(Named),
    LookAt(Id, Stage),
    Rip(Named),
    Finish(Id),
}

/// A workshop at work.
struct Years {
    phone: Phone,
    jobs: BTreeMap<(NaiveDate, u64), Job>,
    given: u64,
    to_glue: Vec<Id>,
    blanks: usize,
    room: Id,
}

pub fn ten_years(planks: u64) -> Vec<Entry> {
    let mut phone = Phone::new("K7", 23);
    let room = phone.new_id();
    let mut years = Years {
        phone,
        jobs: BTreeMap::new(),
        given: 0,
        to_glue: Vec::new(),
        blanks: 0,
        room,
    };
    let begin = NaiveDate::from_ymd_opt(2016, 10, 3).unwrap();
    let end = begin + Days::new(YEARS * 365);
    let visits = YEARS * VISITS_A_YEAR;
    for visit in 0..visits {
        years.plan(begin, visit * 36, Job::Visit(planks / visits));
    }
    for month in 0..YEARS * 12 {
        years.plan(begin, month * 30, Job::ReadRoom);
    }
    while let Some(((day, _), job)) = years.jobs.pop_first() {
        if day > end {
            break;
        }
        years.phone.day = Some(day);
        years.work(day, job);
    }
    years.phone.written
}

impl Years {
    fn plan(&mut self, from: NaiveDate, days: u64, job: Job) {
        self.given += 1;
        self.jobs.insert((from + Days::new(days), self.given), job);
    }

    fn work(&mut self, day: NaiveDate, job: Job) {
        match job {
            Job::Visit(planks) => self.visit(day, planks),
            Job::ReadRoom => self.read_room(),
            Job::Crosscut(plank) => self.crosscut(day, plank),
            Job::LookAt(piece, stage) => self.look_at(piece, stage),
            Job::Rip(piece) => self.rip(day, piece),
            Job::Finish(laminate) => self.finish(day, laminate),
        }
    }

    fn unlucky(&mut self) -> bool {
        self.phone.dice.number_below(10) == 0
    }

    fn visit(&mut self, day: NaiveDate, planks: u64) {
        let yards = ["North", "Canal", "Hill", "Old mill"];
        let yard = yards[self.phone.dice.number_below(4) as usize];
        let visit = self.phone.new_id();
        let mut terms = visit_terms(yard);
        terms.spec = Spec::supplied().swap_remove(0);
        self.phone.say(visit, Event::VisitOpened(Box::new(terms)));
        let woods = ["maple-sugar", "walnut-black", "mahogany"];
        let wood = woods[self.phone.dice.number_below(3) as usize];
        let pile = self.phone.open_pile(visit, wood);
        for n in 0..planks {
            let id = self.phone.whole_plank(pile);
            let mark = format!("{day}-{n}");
            self.plan(day, 60, Job::Crosscut(Named { id, mark }));
        }
    }

    fn read_room(&mut self) {
        let climate = Climate {
            humidity: Some(taken(self.phone.dice.tenth(38, 62), "%")),
            temperature: Some(taken(self.phone.dice.tenth(15, 22), "degC")),
        };
        let read = RoomRead {
            climate,
            hygrometer: "salted".into(),
            room: "shelf".into(),
            witness: None,
        };
        let room = self.room;
        self.phone.say(room, Event::RoomRead(Box::new(read)));
    }

    fn cut(&mut self, parent: &Named, kind: PieceKind, count: usize) -> Vec<Named> {
        let marks = child_marks(&parent.mark, kind, count);
        let mut named = Vec::new();
        for mark in marks {
            let id = self.phone.new_id();
            named.push(Named { id, mark });
        }
        let child = |one: &Named| Child {
            across: None,
            along: None,
            id: one.id,
            kind,
            mark: one.mark.clone(),
            through: None,
        };
        let cut = Cut {
            children: named.iter().map(child).collect(),
            kerf: Some(taken(3.2, "mm")),
            tension: None,
        };
        self.phone.say(parent.id, Event::Cut(Arc::new(cut)));
        named
    }

    fn rest(&mut self, piece: Id, stage: Stage) {
        let machined = Machined {
            edge: true,
            face: true,
            reference: "pith side, left edge".into(),
            ..Machined::default()
        };
        self.phone.say(piece, Event::Machined(Box::new(machined)));
        let shelf = 1 + self.phone.dice.number_below(12);
        let rest = SetToRest {
            climate: Climate::default(),
            place: format!("shelf {shelf}"),
            stage,
        };
        self.phone.say(piece, Event::SetToRest(Arc::new(rest)));
        self.weigh(piece);
    }

    fn weigh(&mut self, piece: Id) {
        let weighed = Weighed {
            mass: taken(self.phone.dice.tenth(500, 600) / 1000.0, "kg"),
            scale: "bench".into(),
            step: Some(taken(0.001, "kg")),
            witness: None,
        };
        self.phone.say(piece, Event::Weighed(Arc::new(weighed)));
    }

    fn look_at(&mut self, piece: Id, stage: Stage) {
        self.weigh(piece);
        let gap = |phone: &mut Phone| taken(phone.dice.tenth(0, 3) / 10.0, "mm");
        let fields = [Field::Bow, Field::Crook, Field::Twist];
        let readings: Readings = fields
            .into_iter()
            .map(|field| (field, gap(&mut self.phone)))
            .collect();
        let check = MovementChecked {
            readings,
            reference: "pith side, left edge".into(),
            ..MovementChecked::default()
        };
        self.phone
            .say(piece, Event::MovementChecked(Arc::new(check)));
        if stage == Stage::Laminates {
            let read = MoistureRead {
                depth: None,
                meter: "pins".into(),
                shown: taken(self.phone.dice.tenth(7, 9), "%"),
                wood_temperature: None,
            };
            self.phone.say(piece, Event::MoistureRead(Arc::new(read)));
        }
    }

    fn discard(&mut self, piece: Id, reason: Reason) {
        let discarded = Discarded {
            reasons: vec![reason],
        };
        self.phone.say(piece, Event::Discarded(discarded));
    }

    fn crosscut(&mut self, day: NaiveDate, plank: Named) {
        for piece in self.cut(&plank, PieceKind::Piece, PIECES_A_PLANK) {
            if self.unlucky() {
                self.discard(piece.id, Reason::Sprang);
                continue;
            }
            self.rest(piece.id, Stage::Pieces);
            self.plan(day, 90, Job::LookAt(piece.id, Stage::Pieces));
            self.plan(day, 180, Job::LookAt(piece.id, Stage::Pieces));
            self.plan(day, 190, Job::Rip(piece));
        }
    }

    fn rip(&mut self, day: NaiveDate, piece: Named) {
        if self.unlucky() {
            self.discard(piece.id, Reason::Moved);
            return;
        }
        for laminate in self.cut(&piece, PieceKind::Laminate, LAMINATES_A_PIECE) {
            let id = laminate.id;
            self.rest(id, Stage::Laminates);
            for days in [60, 150, 240] {
                self.plan(day, days, Job::LookAt(id, Stage::Laminates));
            }
            self.plan(day, 250, Job::Finish(id));
        }
    }

    /// Thrown out, or glued with the next four.
    fn finish(&mut self, day: NaiveDate, laminate: Id) {
        if self.unlucky() {
            self.discard(laminate, Reason::Moved);
            return;
        }
        self.to_glue.push(laminate);
        if self.to_glue.len() < LAMINATES_A_BLANK {
            return;
        }
        let blank = self.phone.new_id();
        self.blanks += 1;
        let member = |piece| Member {
            piece,
            turned_over: false,
            turned: false,
        };
        let members = std::mem::take(&mut self.to_glue);
        let glued = Glued {
            mark: format!("B{}", self.blanks),
            members: members.into_iter().map(member).collect(),
            ..Glued::default()
        };
        self.phone.say(blank, Event::Glued(Box::new(glued)));
        self.rest(blank, Stage::Blanks);
        self.plan(day, 90, Job::LookAt(blank, Stage::Blanks));
        self.plan(day, 180, Job::LookAt(blank, Stage::Blanks));
    }
}
