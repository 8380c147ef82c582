//! Invented records, the same for the same seed: no wood in them is real.

pub mod bought;
pub mod hostile;
pub mod years;

pub use crate::workshop::taken;
use stillwood_core::plank::{DefectFound, DefectKind, Field, Readings, Reason};
use stillwood_core::record::Id;
use stillwood_core::record::{
    Decision, DeviceId, Entry, Event, EventMeta, Judged, Mark, Marked, Measured, Noted, PassedOver,
    PileOpened, SpeciesNamed, VisitOpened, YardLine,
};
use stillwood_core::trade::TallyRule;

/// A spec, as JSON: its type belongs to another room.
const SPEC: &str = r#"{"name":"Five laminates","purpose":"neck_laminates",
 "part":{"length_mm":950.0,"width_mm":80.0,"thickness_mm":18.0},"laid":"on_edge",
 "parts_per_blank":5,"blanks_wanted":10,"kerf_mm":2.4,"planing_mm":1.2,"end_trim_mm":75.0,
 "edge_trim_mm":6.0,"expected_yield":0.6,"criteria":[],"fatal":["pith","shake"],"order":"score"}"#;

/// A source of numbers that is the same on every machine (a 64-bit xorshift). The shares of true offers that
/// tests hold pairs of planks to were found with this very sequence.
pub struct Dice(u64);

impl Dice {
    pub fn of_seed(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    fn any(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0.wrapping_mul(0x2545_f491_4f6c_dd1d)
    }

    pub fn number_below(&mut self, end: u64) -> u64 {
        (self.any() >> 11) % end
    }

    pub fn tenth(&mut self, from: u64, to: u64) -> f64 {
        (from * 10 + self.number_below((to - from) * 10)) as f64 / 10.0
    }

    pub fn id(&mut self, ms: u64) -> Id {
        let (a, b) = (self.any().to_le_bytes(), self.any().to_le_bytes());
        let random: [u8; 10] = std::array::from_fn(|i| if i < 8 { a[i] } else { b[i - 8] });
        Id::version_7(ms, &random)
    }
}

/// A device that writes entries one after another.
pub struct Phone {
    pub author: DeviceId,
    pub seq: u64,
    pub step: u64,
    pub dice: Dice,
    pub written: Vec<Entry>,
    /// The day on which things happen; none is a day of October by the running number.
    pub day: Option<chrono::NaiveDate>,
}

impl Phone {
    pub fn new(by: &str, seed: u64) -> Self {
        let by = by.to_owned();
        Self {
            author: DeviceId { by },
            seq: 0,
            step: 0,
            dice: Dice::of_seed(seed),
            written: Vec::new(),
            day: None,
        }
    }

    pub fn new_id(&mut self) -> Id {
        self.dice.id(1_790_000_000_000 + self.seq * 20_000)
    }

    pub fn say(&mut self, about: Id, event: Event) -> Id {
        self.correct(about, event, Vec::new())
    }

    pub fn correct(&mut self, about: Id, event: Event, supersedes: Vec<Id>) -> Id {
        self.seq += 1;
        self.step += 1;
        let day = 1 + (self.seq / 400) % 28;
        let moment = EventMeta {
            id: self.new_id(),
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
        let entry = self.author.correction(moment, about, event, supersedes);
        self.written.push(entry.unwrap());
        id
    }

    pub fn open_visit(&mut self, yard: &str) -> Id {
        let visit = self.new_id();
        self.say(visit, Event::VisitOpened(Box::new(visit_terms(yard))));
        visit
    }

    pub fn open_pile(&mut self, visit: Id, species: &str) -> Id {
        let pile = self.new_id();
        self.say(pile, Event::PileOpened(Box::new(pile_of(visit, species))));
        pile
    }

    pub fn mark(&mut self, pile: Id) -> Id {
        let piece = self.new_id();
        let last = self.seq as u32;
        let mark = match Mark::next(&self.author.by, last) {
            Ok(mark) => mark.to_string(),
            Err(_) => format!("{}-{last}", self.author.by),
        };
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

    /// A plank from the quick sort to the yard's line: seven entries.
    pub fn whole_plank(&mut self, pile: Id) -> Id {
        let count = 1 + self.dice.number_below(4) as u32;
        let reasons = vec![Reason::ALL[self.dice.number_below(Reason::ALL.len() as u64) as usize]];
        self.say(pile, Event::PassedOver(PassedOver { count, reasons }));
        let piece = self.mark(pile);
        let readings = plank_readings(&mut self.dice);
        self.measure(piece, readings);
        let later = Measured {
            readings: Readings::from([(Field::Moisture, taken(self.dice.tenth(8, 12), "%"))]),
            defects: vec![DefectFound {
                kind: DefectKind::EndCheck,
                from: Some(taken(0.0, "mm")),
                to: Some(taken(self.dice.tenth(10, 90), "mm")),
                note: String::new(),
            }],
            species: None,
        };
        self.say(piece, Event::Measured(later));
        let score = Some(self.dice.tenth(0, 100));
        self.say(piece, Event::Judged(judged(Decision::Take, score)));
        let line = YardLine {
            board_feet: Some(rust_decimal::Decimal::new(
                self.dice.number_below(300) as i64,
                1,
            )),
            ..YardLine::default()
        };
        self.say(piece, Event::YardLine(line));
        let text = "rings dead at the far end, ask for the next one <b>".to_owned();
        self.say(piece, Event::Noted(Noted { text }));
        piece
    }
}

pub fn day_of(day: u32) -> chrono::NaiveDate {
    chrono::NaiveDate::from_ymd_opt(2026, 10, day).unwrap()
}

pub fn judged(decision: Decision, score: Option<f64>) -> Judged {
    Judged {
        decision,
        proposed: Some(Decision::Take),
        reasons: Vec::new(),
        score,
        weakest: None,
    }
}

pub fn visit_terms(yard: &str) -> VisitOpened {
    VisitOpened {
        budget: None,
        currency: "EUR".to_owned(),
        discount_percent: rust_decimal::Decimal::ZERO,
        note: String::new(),
        price_basis: stillwood_core::trade::PriceBasis::BoardFoot,
        prices_include_tax: false,
        rule: TallyRule::default(),
        spec: serde_json::from_str(SPEC).unwrap(),
        tax_percent: rust_decimal::Decimal::new(20, 0),
        yard: yard.to_owned(),
    }
}

pub fn pile_of(visit: Id, species: &str) -> PileOpened {
    PileOpened {
        moisture: None,
        name: "by the door".to_owned(),
        nominal_thickness: Some(taken(50.8, "mm")),
        price: Some(rust_decimal::Decimal::new(1450, 2)),
        price_basis: None,
        price_confirmed: false,
        rule: None,
        species: SpeciesNamed {
            id: Some(species.to_owned()),
            text: species.to_owned(),
        },
        visit,
        wood_temperature: None,
    }
}

pub fn plank_readings(dice: &mut Dice) -> Readings {
    Readings::from([
        (Field::Length, taken(dice.tenth(1800, 3200), "mm")),
        (Field::WidthNear, taken(dice.tenth(150, 260), "mm")),
        (Field::WidthMiddle, taken(dice.tenth(150, 260), "mm")),
        (Field::WidthFar, taken(dice.tenth(150, 260), "mm")),
        (Field::ThicknessNear, taken(dice.tenth(48, 56), "mm")),
        (Field::WeightFirst, taken(dice.tenth(8, 12), "kg")),
        (Field::WeightSecond, taken(dice.tenth(8, 12), "kg")),
        (Field::Bow, taken(dice.tenth(0, 12), "mm")),
        (Field::Twist, taken(dice.tenth(0, 12), "mm")),
        (Field::GrainFace, taken(0.04, "tan")),
    ])
}

/// A record of about so many entries: seven for each plank, fifty planks a pile, five piles a visit.
pub fn record(entries: usize, seed: u64) -> Vec<Entry> {
    let mut phone = Phone::new("K7", seed);
    let (mut visit, mut pile) = (Id::nil(), Id::nil());
    let mut planks = 0;
    while phone.written.len() < entries {
        if planks % 250 == 0 {
            visit = phone.open_visit("North");
        }
        if planks % 50 == 0 {
            pile = phone.open_pile(visit, "hard_maple");
        }
        phone.whole_plank(pile);
        planks += 1;
    }
    phone.written
}
