//! A maker in a yard, for the scenarios: what is typed, and a phone that records it. All invented.

use chrono::NaiveDate;
use rust_decimal::Decimal;
use stillwood_core::plank::{
    Field, Instruments, Plank, Readings, Seen, mean_of_stations, understand,
};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{Length, mm};
use stillwood_core::record::Id;
use stillwood_core::record::State;
use stillwood_core::record::{
    DeviceId, Entry, Event, EventMeta, FileReading, Limits, Log, Marked, Measured, PileOpened,
    SamePlank, SpeciesNamed, VisitOpened, Withdrawn, date, read,
};
use stillwood_core::trade::{PriceBasis, PricesAre, Sawn, TallyLine, TallyRule, Terms};
use stillwood_core::verdict::{Part, Sheet, Spec, sheet};

/// Readings from what is typed, metric; panics on what is not understood.
pub fn typed(texts: &[(Field, &str)]) -> Readings {
    texts
        .iter()
        .map(|(field, text)| {
            let echo = understand(*field, text, Seen::Measured, false, Units::Metric);
            let taken = echo.taken().unwrap_or_else(|| panic!("{text}: {echo:?}"));
            (*field, taken.clone())
        })
        .collect()
}

/// The plank of the happy day.
pub const A7: [(Field, &str); 17] = [
    (Field::Length, "2620"),
    (Field::WidthNear, "214"),
    (Field::WidthMiddle, "205"),
    (Field::WidthFar, "193"),
    (Field::ThicknessNear, "52"),
    (Field::WeightFirst, "10.3"),
    (Field::WeightSecond, "9.4"),
    (Field::Moisture, "10.5"),
    (Field::WoodTemperature, "8"),
    (Field::Bow, "9"),
    (Field::Crook, "4"),
    (Field::Twist, "12 left"),
    (Field::Cup, "4"),
    (Field::RingChord, "150"),
    (Field::RingDip, "25"),
    (Field::GrainFace, "12/300"),
    (Field::GrainEdge, "15/300"),
];

/// Pieces of 950 x 80, to be ripped and turned on edge.
pub fn wanted() -> Spec {
    Spec {
        part: Part {
            length_mm: 950.0,
            width_mm: 45.0,
            thickness_mm: 80.0,
        },
        ..Spec::supplied().swap_remove(0)
    }
}

/// Its sheet, with the usual tools.
pub fn sheet_of(readings: &Readings, spec: &Spec) -> Sheet {
    sheet(readings, &[], &Instruments::default(), spec)
}

/// A7 with some fields typed anew.
pub fn a7_with(more: &[(Field, &str)]) -> Readings {
    let mut readings = typed(&A7);
    readings.extend(typed(more));
    readings
}

/// The yard's terms in the scenarios: 14.50 a board foot net, 20 % tax.
pub fn terms(rule: TallyRule) -> Terms {
    Terms {
        rule,
        price: Some((Decimal::new(1450, 2), PriceBasis::BoardFoot)),
        discount_percent: Decimal::ZERO,
        tax_percent: Decimal::from(20),
        prices_are: PricesAre::Net,
    }
}

/// A plank as it is charged: mean width, least thickness, nominal 8/4.
pub fn line(mark: &str, plank: &Plank) -> TallyLine {
    TallyLine {
        mark: mark.into(),
        sawn: Sawn {
            length: plank.length,
            width: mean_of_stations(&plank.widths),
            thickness: plank.thicknesses.least(),
            nominal: Some(nominal()),
        },
        width_with_wane: None,
        mass: None,
    }
}

/// 8/4.
pub fn nominal() -> Length {
    mm(50.8)
}

/// A phone with its own record. Ids come out of a counter, so that every run is the same.
pub struct Phone {
    /// Its short name and what it has recorded.
    pub author: DeviceId,
    pub log: Log,
    day: NaiveDate,
    drawn: u64,
}

impl Phone {
    pub fn new(by: &str) -> Self {
        Self::with(by, Log::new())
    }

    /// A phone that has read a record.
    pub fn with(by: &str, log: Log) -> Self {
        Self {
            author: DeviceId { by: by.into() },
            // Above every id that the record can hold by now: none is drawn twice.
            drawn: 10 * log.len() as u64,
            log,
            day: NaiveDate::from_ymd_opt(2026, 10, 3).expect("a day"),
        }
    }

    /// From now on it is another day.
    pub fn set_day(&mut self, day: &str) {
        self.day = date(day).expect("a day");
    }

    /// An id that no other phone gives.
    pub fn id(&mut self) -> Id {
        self.drawn += 1;
        let mut random = [0; 10];
        for (at, byte) in random.iter_mut().enumerate() {
            let name = self.author.by.as_bytes();
            *byte = name[at % name.len()].wrapping_mul(31);
        }
        random[6..].copy_from_slice(&(self.drawn as u32).to_be_bytes());
        Id::version_7(1_790_000_000_000 + self.drawn, &random)
    }

    /// Records that something happened.
    pub fn record(&mut self, about: Id, event: Event) -> Entry {
        self.correct(about, event, Vec::new())
    }

    pub fn take_back(&mut self, entry: Id) {
        let about = self.log.entry(entry).expect("an entry here").about;
        self.correct(about, Event::Withdrawn(Withdrawn {}), vec![entry]);
    }

    /// Records that something happened, in place of other entries.
    pub fn correct(&mut self, about: Id, event: Event, replaced: Vec<Id>) -> Entry {
        let moment = EventMeta {
            id: self.id(),
            seq: self.log.next_seq(&self.author.by),
            step: self.log.next_step(),
            on: self.day,
            on_confirmed: false,
            at: "2026-10-03T10:00:00+02:00".into(),
        };
        let entry = self
            .author
            .correction(moment, about, event, replaced)
            .expect("an entry");
        self.log.merge([entry.clone()]);
        entry
    }

    /// Opens a visit and a pile of hard maple; gives both.
    pub fn pile(&mut self) -> (Id, Id) {
        self.pile_of(SpeciesNamed {
            id: Some("maple-sugar".into()),
            text: "hard maple".into(),
        })
    }

    /// Opens a visit and a pile of a wood; gives both.
    pub fn pile_of(&mut self, species: SpeciesNamed) -> (Id, Id) {
        let (visit, pile) = (self.id(), self.id());
        let opened = VisitOpened {
            budget: None,
            currency: "EUR".into(),
            discount_percent: Decimal::ZERO,
            note: String::new(),
            price_basis: PriceBasis::BoardFoot,
            prices_include_tax: false,
            rule: TallyRule::default(),
            spec: Spec::supplied().swap_remove(0),
            tax_percent: Decimal::from(20),
            yard: "North".into(),
        };
        self.record(visit, Event::VisitOpened(Box::new(opened)));
        let begun = PileOpened {
            moisture: None,
            name: "8/4".into(),
            nominal_thickness: None,
            price: Some(Decimal::new(1450, 2)),
            price_basis: None,
            price_confirmed: false,
            rule: None,
            species,
            visit,
            wood_temperature: None,
        };
        self.record(pile, Event::PileOpened(Box::new(begun)));
        (visit, pile)
    }

    pub fn plank(&mut self, pile: Id, mark: &str, texts: &[(Field, &str)]) -> Id {
        let piece = self.id();
        self.plank_with(piece, pile, mark, texts);
        piece
    }

    /// Marks a plank whose id is drawn already, and measures it.
    pub fn plank_with(&mut self, piece: Id, pile: Id, mark: &str, texts: &[(Field, &str)]) {
        let mark = mark.to_owned();
        self.record(piece, Event::Marked(Marked { mark, pile }));
        let readings = typed(texts);
        let measured = Measured {
            readings,
            ..Measured::default()
        };
        self.record(piece, Event::Measured(measured));
    }

    /// Says that two records are of one plank, or of two.
    pub fn tell(&mut self, a: Id, b: Id, same: bool) {
        self.record(a, Event::SamePlank(SamePlank { other: b, same }));
    }

    /// The whole record as a file.
    pub fn file(&self) -> String {
        self.log.to_file("0.1.0", "2026-10-03T18:00:00+02:00")
    }
}

pub fn from_file(text: &str) -> FileReading {
    read(text.as_bytes(), &Limits::default()).expect("a file of ours")
}

/// How many pieces a record holds.
pub fn count(log: &Log) -> usize {
    State::project(log).pieces().count()
}
