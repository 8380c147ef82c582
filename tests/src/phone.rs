//! The phone that all tests and benches write records with. All invented, the same every time.

use crate::dice::Dice;
use chrono::NaiveDate;
use rust_decimal::Decimal;
use stillwood_core::plank::{Reading, Readings};
use stillwood_core::record::{
    DeviceId, Entry, Event, EventMeta, FileReading, Id, Limits, Log, Mark, Marked, Measured,
    PileOpened, SamePlank, SpeciesNamed, State, VisitOpened, Withdrawn, date, read,
};
use stillwood_core::trade::{PriceBasis, TallyRule};
use stillwood_core::verdict::Spec;

/// A spec without criteria.
const SPEC: &str = r#"{"name":"Five laminates","purpose":"neck_laminates",
 "part":{"length_mm":950.0,"width_mm":80.0,"thickness_mm":18.0},"laid":"on_edge",
 "parts_per_blank":5,"blanks_wanted":10,"kerf_mm":2.4,"planing_mm":1.2,"end_trim_mm":75.0,
 "edge_trim_mm":6.0,"expected_yield":0.6,"criteria":[],"fatal":["pith","shake"],"order":"score"}"#;

/// A phone that writes entries one after another.
pub struct Phone {
    /// Its short name.
    pub author: DeviceId,
    pub seq: u64,
    pub step: u64,
    pub dice: Dice,
    /// What it wrote itself, in that order.
    pub written: Vec<Entry>,
    /// What it was handed by others.
    heard: Log,
    /// The day on which things happen; none is a day of October by the running number.
    pub day: Option<NaiveDate>,
    ids: u64,
}

impl Phone {
    /// A phone on the day of the scenarios.
    pub fn new(by: &str) -> Self {
        let seed = by.bytes().fold(0, |seed, b| seed * 257 + u64::from(b));
        Self {
            day: date("2026-10-03"),
            ..Self::seeded(by, seed)
        }
    }

    /// A phone whose ids and readings follow from a seed: of two with one name, they differ.
    pub fn seeded(by: &str, seed: u64) -> Self {
        Self {
            author: DeviceId { by: by.to_owned() },
            seq: 0,
            step: 0,
            dice: Dice::of_seed(seed),
            written: Vec::new(),
            heard: Log::new(),
            day: None,
            ids: 0,
        }
    }

    /// A phone that has read a record.
    pub fn with(by: &str, log: Log) -> Self {
        let mut phone = Self::new(by);
        // Above every id that the record can hold by now: none is drawn twice.
        phone.ids = 10 * log.len() as u64;
        phone.hear(log.everything().cloned());
        phone
    }

    /// It is handed entries of others.
    pub fn hear(&mut self, entries: impl IntoIterator<Item = Entry>) {
        self.heard.merge(entries);
        self.seq = self.seq.max(self.heard.next_seq(&self.author.by) - 1);
        self.step = self.step.max(self.heard.next_step() - 1);
    }

    /// From now on it is another day.
    pub fn set_day(&mut self, day: &str) {
        self.day = Some(date(day).expect("a day"));
    }

    /// An id that no other phone gives, above those before.
    pub fn id(&mut self) -> Id {
        self.ids += 1;
        self.dice
            .id(1_790_000_000_000 + (self.ids + self.seq) * 20_000)
    }

    /// Writes down that something happened.
    pub fn say(&mut self, about: Id, event: Event) -> Id {
        self.correct(about, event, Vec::new())
    }

    /// Writes down that something happened, in place of other entries.
    pub fn correct(&mut self, about: Id, event: Event, replaced: Vec<Id>) -> Id {
        self.seq += 1;
        self.step += 1;
        let day = 1 + (self.seq / 400) % 28;
        let moment = EventMeta {
            id: self.id(),
            seq: self.seq,
            step: self.step,
            on: self.day.unwrap_or_else(|| day_of(day as u32)),
            on_confirmed: false,
            at: format!(
                "2026-10-{day:02}T09:{:02}:{:02}+02:00",
                self.seq / 60 % 60,
                self.seq % 60
            ),
        };
        let id = moment.id;
        let entry = self.author.correction(moment, about, event, replaced);
        self.written.push(entry.expect("an entry"));
        id
    }

    pub fn take_back(&mut self, entry: Id) {
        let about = self.log().entry(entry).expect("an entry here").about;
        self.correct(about, Event::Withdrawn(Withdrawn {}), vec![entry]);
    }

    pub fn open_visit(&mut self, yard: &str) -> Id {
        self.open_visit_on(visit_terms(yard))
    }

    /// Opens a visit with the first of the supplied specs.
    pub fn open_visit_as_supplied(&mut self, yard: &str) -> Id {
        self.open_visit_on(VisitOpened {
            spec: Spec::supplied().swap_remove(0),
            ..visit_terms(yard)
        })
    }

    pub fn open_visit_on(&mut self, terms: VisitOpened) -> Id {
        let visit = self.id();
        self.say(visit, Event::VisitOpened(Box::new(terms)));
        visit
    }

    pub fn open_pile(&mut self, visit: Id, species: &str) -> Id {
        self.open_pile_on(pile_terms(visit, wood(species, species)))
    }

    fn open_pile_on(&mut self, terms: PileOpened) -> Id {
        let pile = self.id();
        self.say(pile, Event::PileOpened(Box::new(terms)));
        pile
    }

    /// Opens a visit and a pile of hard maple; gives both.
    pub fn pile(&mut self) -> (Id, Id) {
        self.pile_of(wood("maple-sugar", "hard maple"))
    }

    /// Opens a visit and a pile of a wood that no thickness is named for; gives both.
    pub fn pile_of(&mut self, species: SpeciesNamed) -> (Id, Id) {
        let visit = self.open_visit_as_supplied("North");
        let terms = PileOpened {
            nominal_thickness: None,
            ..pile_terms(visit, species)
        };
        (visit, self.open_pile_on(terms))
    }

    /// Gives a pile the thickness that it is sold as, 8/4: without it there is no price.
    pub fn sell_as_two_inches(&mut self, pile: Id) {
        let state = self.state();
        let mut opened = state.pile(pile).expect("a pile").opened.clone();
        opened.nominal_thickness = Some(taken(50.8, "mm"));
        let opened = Event::PileOpened(Box::new(opened));
        self.correct(pile, opened, state.begun_by(pile));
    }

    /// A plank with the phone's next mark.
    pub fn mark(&mut self, pile: Id) -> Id {
        let last = self.seq as u32;
        let mark = match Mark::next(&self.author.by, last) {
            Ok(mark) => mark.to_string(),
            Err(_) => format!("{}-{last}", self.author.by),
        };
        self.marked(pile, mark)
    }

    /// A plank with a mark.
    pub fn marked(&mut self, pile: Id, mark: String) -> Id {
        let piece = self.id();
        self.say(piece, Event::Marked(Marked { mark, pile }));
        piece
    }

    pub fn measure(&mut self, piece: Id, readings: Readings) -> Id {
        let measured = Measured {
            readings,
            ..Measured::default()
        };
        self.say(piece, Event::Measured(measured))
    }

    /// Says that two records are of one plank, or of two.
    pub fn tell(&mut self, a: Id, b: Id, same: bool) {
        self.say(a, Event::SamePlank(SamePlank { other: b, same }));
    }

    /// The whole record: what it was handed and what it wrote.
    pub fn log(&self) -> Log {
        let mut log = self.heard.clone();
        log.merge(self.written.iter().cloned());
        log
    }

    pub fn state(&self) -> State {
        State::project(&self.log())
    }

    /// The whole record as a file.
    pub fn file(&self) -> String {
        self.log().to_file("0.1.0", "2026-10-03T18:00:00+02:00")
    }
}

pub fn from_file(text: &str) -> FileReading {
    read(text.as_bytes(), &Limits::default()).expect("a file of ours")
}

/// A day of October.
pub fn day_of(day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 10, day).expect("a day")
}

/// A value as typed, in the unit in which it is kept.
pub fn taken(value: f64, unit: &str) -> Reading {
    Reading::of_number(value, unit)
}

/// A wood of the table and how it was typed.
pub fn wood(id: &str, text: &str) -> SpeciesNamed {
    SpeciesNamed {
        id: Some(id.to_owned()),
        text: text.to_owned(),
    }
}

pub fn visit_terms(yard: &str) -> VisitOpened {
    VisitOpened {
        budget: None,
        currency: "EUR".to_owned(),
        discount_percent: Decimal::ZERO,
        note: String::new(),
        price_basis: PriceBasis::BoardFoot,
        prices_include_tax: false,
        rule: TallyRule::default(),
        spec: serde_json::from_str(SPEC).expect("a spec"),
        tax_percent: Decimal::from(20),
        yard: yard.to_owned(),
    }
}

pub fn pile_terms(visit: Id, species: SpeciesNamed) -> PileOpened {
    PileOpened {
        country_of_harvest: String::new(),
        invoice: String::new(),
        moisture: None,
        name: "by the door".to_owned(),
        nominal_thickness: Some(taken(50.8, "mm")),
        price: Some(Decimal::new(1450, 2)),
        price_basis: None,
        price_confirmed: false,
        rule: None,
        species,
        visit,
        wood_temperature: None,
    }
}
