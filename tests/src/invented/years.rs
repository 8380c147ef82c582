//! Ten years of a workshop: planks bought on visits, cut to pieces that rest, ripped to laminates that rest,
//! glued to blanks that rest; weighed, read and checked on the way, some thrown out. All invented, the same
//! every time.

use crate::phone::Phone;
use crate::workshop::child;
use chrono::{Days, NaiveDate};
use std::collections::BTreeMap;
use stillwood_core::plank::Reason;
use stillwood_core::record::{Entry, Id, PieceKind, child_marks};
use stillwood_core::season::Stage;

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
    let mut phone = Phone::seeded("K7", 23);
    let room = phone.id();
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
        self.phone.dice.once_in(10)
    }

    fn visit(&mut self, day: NaiveDate, planks: u64) {
        let yards = ["North", "Canal", "Hill", "Old mill"];
        let yard = self.phone.dice.pick(&yards);
        let visit = self.phone.open_visit_as_supplied(yard);
        let woods = ["maple-sugar", "walnut-black", "mahogany"];
        let wood = self.phone.dice.pick(&woods);
        let pile = self.phone.open_pile(visit, wood);
        for n in 0..planks {
            let id = self.phone.whole_plank(pile);
            let mark = format!("{day}-{n}");
            self.plan(day, 60, Job::Crosscut(Named { id, mark }));
        }
    }

    fn read_room(&mut self) {
        let humidity = self.phone.dice.tenth(38, 62);
        let temperature = self.phone.dice.tenth(15, 22);
        let air = [humidity, temperature].map(Some);
        self.phone.read_room(self.room, "shelf", air[0], air[1]);
    }

    fn cut(&mut self, parent: &Named, kind: PieceKind, count: usize) -> Vec<Named> {
        let mut named = Vec::new();
        for mark in child_marks(&parent.mark, kind, count) {
            let id = self.phone.id();
            named.push(Named { id, mark });
        }
        let children = named.iter().map(|one| child(one.id, &one.mark, kind));
        self.phone.cut(parent.id, children.collect(), 3.2);
        named
    }

    fn rest(&mut self, piece: Id, stage: Stage) {
        self.phone.flatten(piece);
        let shelf = 1 + self.phone.dice.below(12);
        self.phone.rest(piece, stage, &format!("shelf {shelf}"));
        self.weigh(piece);
    }

    fn weigh(&mut self, piece: Id) {
        let mass = self.phone.dice.tenth(500, 600) / 1000.0;
        self.phone.weigh_to_a_gram(piece, mass);
    }

    fn look_at(&mut self, piece: Id, stage: Stage) {
        self.weigh(piece);
        self.phone.check_by_dice(piece);
        if stage == Stage::Laminates {
            let percent = self.phone.dice.tenth(7, 9);
            self.phone.read_moisture(piece, percent);
        }
    }

    fn crosscut(&mut self, day: NaiveDate, plank: Named) {
        for piece in self.cut(&plank, PieceKind::Piece, PIECES_A_PLANK) {
            if self.unlucky() {
                self.phone.discard(piece.id, Reason::Sprang);
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
            self.phone.discard(piece.id, Reason::Moved);
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
            self.phone.discard(laminate, Reason::Moved);
            return;
        }
        self.to_glue.push(laminate);
        if self.to_glue.len() < LAMINATES_A_BLANK {
            return;
        }
        let blank = self.phone.id();
        self.blanks += 1;
        let members = std::mem::take(&mut self.to_glue);
        let mark = format!("B{}", self.blanks);
        self.phone.glue_bare(blank, &mark, &members);
        self.rest(blank, Stage::Blanks);
        self.plan(day, 90, Job::LookAt(blank, Stage::Blanks));
        self.plan(day, 180, Job::LookAt(blank, Stage::Blanks));
    }
}
