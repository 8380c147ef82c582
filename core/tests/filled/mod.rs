//! Forms filled in tests, over an invented record.
#![allow(dead_code, unreachable_pub, reason = "each test uses a part")]

use chrono::NaiveDate;
use stillwood_core::plank::Instruments;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{
    Context, Event, FieldErrors, Filled, Form, Id, Log, NewEvent, State, Texts,
};
use stillwood_core::verdict::Spec;
use stillwood_tests::invented::Phone;

/// A record that a form is filled over.
pub struct Shop {
    pub phone: Phone,
    pub log: Log,
    pub state: State,
    pub today: NaiveDate,
    pub tools: Instruments,
}

pub fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

impl Shop {
    pub fn new() -> Self {
        Self {
            phone: Phone::seeded("K7", 3),
            log: Log::new(),
            state: State::default(),
            today: day("2026-11-28"),
            tools: Instruments::default(),
        }
    }

    /// Takes in what the phone wrote.
    pub fn keep(&mut self) {
        self.log.merge(self.phone.written.drain(..));
        self.state = State::project(&self.log);
    }

    /// Writes down what a form became; the ids of the entries.
    pub fn write(&mut self, events: &[NewEvent]) -> Vec<Id> {
        let mut ids = Vec::new();
        for one in events {
            self.phone.day = Some(one.on.unwrap_or(self.today));
            let (event, supersedes) = (one.event.clone(), one.supersedes.clone());
            ids.push(self.phone.correct(one.about, event, supersedes));
        }
        self.phone.day = None;
        self.keep();
        ids
    }

    pub fn context(&self) -> Context<'_> {
        Context {
            state: &self.state,
            today: self.today,
            instruments: &self.tools,
        }
    }

    /// A plank of a pile of a visit.
    pub fn plank(&mut self) -> Id {
        let visit = self.phone.open_visit("North");
        let pile = self.phone.open_pile(visit, "hard_maple");
        let plank = self.phone.mark(pile);
        self.keep();
        plank
    }
}

/// Texts over those that a form begins with.
pub fn typed(mut begins: Texts, texts: &[(&str, &str)]) -> Texts {
    for (key, text) in texts {
        begins.insert((*key).to_owned(), (*text).to_owned());
    }
    begins
}

/// A form read in metric units.
pub fn metric(texts: &Texts) -> Form<'_> {
    Form::new(texts, Units::Metric)
}

/// The only event that a form became, about which nothing is asked.
pub fn only(filled: Result<Filled, FieldErrors>) -> Event {
    let filled = filled.unwrap();
    assert_eq!(filled.questions, []);
    let [event] = filled.events.as_slice() else {
        panic!("{:?}", filled.events);
    };
    event.event.clone()
}

/// The fields that are asked about.
pub fn asked(filled: &Filled) -> Vec<&str> {
    filled.questions.iter().map(|q| q.key.as_str()).collect()
}

/// The fields that are wrong.
pub fn wrong<T: std::fmt::Debug>(filled: Result<T, FieldErrors>) -> Vec<String> {
    let errors = filled.unwrap_err();
    errors.all().iter().map(|(key, _)| key.clone()).collect()
}

/// Ids that were never given before.
pub fn ids() -> impl FnMut() -> Id {
    let mut next = 9_000;
    move || {
        next += 1;
        Id::from_u128(next)
    }
}

/// A visit under the first spec that is supplied.
pub fn visit(shop: &mut Shop) -> Id {
    let id = shop.phone.open_visit("North");
    shop.keep();
    let visit = shop.state.visit(id).unwrap();
    let (entry, mut opened) = (visit.recorded.entry, visit.opened.clone());
    opened.spec = Spec::supplied()[0].clone();
    let event = Event::VisitOpened(Box::new(opened));
    shop.write(&[NewEvent::instead_of(id, event, vec![entry])]);
    id
}
