//! What a filled form becomes: events to be written down, and questions to be answered first.

use super::field_kind::{FieldKind, FormField};
use super::form::{DAY, Form, UNTIL};
use crate::plank::Instruments;
use crate::record::log::Event;
use crate::record::log::Id;
use crate::record::queries::{WarningSubject, work_warnings};
use crate::record::state::State;
use chrono::NaiveDate;

/// What whoever fills a form stands in.
#[derive(Debug, Clone, Copy)]
pub struct Context<'a> {
    /// The state of everything.
    pub state: &'a State,
    /// The device's day.
    pub today: NaiveDate,
    /// The maker's tools.
    pub instruments: &'a Instruments,
}

/// One event to be written down: what it is about, what happened, what it replaces.
#[derive(Debug, Clone, PartialEq)]
pub struct NewEvent {
    /// The piece, pile or visit.
    pub about: Id,
    /// What happened.
    pub event: Event,
    /// Entries that it replaces.
    pub supersedes: Vec<Id>,
    /// The day, as the maker says; none is the day on which it is written down.
    pub on: Option<NaiveDate>,
    /// The maker said "yes, really" to a question about the day.
    pub on_confirmed: bool,
}

impl NewEvent {
    /// Something new.
    pub fn new(about: Id, event: Event) -> Self {
        Self::instead_of(about, event, Vec::new())
    }

    /// Something in place of other entries.
    pub fn instead_of(about: Id, event: Event, supersedes: Vec<Id>) -> Self {
        Self {
            about,
            event,
            supersedes,
            on: None,
            on_confirmed: false,
        }
    }

    /// The same on a day that the maker says.
    pub fn on(mut self, day: NaiveDate) -> Self {
        self.on = Some(day);
        self
    }

    /// The same, with whether the maker said "yes, really" of the day.
    pub fn on_confirmed(mut self, confirmed: bool) -> Self {
        self.on_confirmed = confirmed;
        self
    }
}

/// A question about what stands in a field, to be answered before it is recorded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FieldQuestion {
    /// The stored name of the field.
    pub key: String,
    /// The question, in the maker's words.
    pub question: String,
}

/// What a filled form becomes. It is recorded when no question is left.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Filled {
    /// What is to be written down, in one go.
    pub events: Vec<NewEvent>,
    /// Questions that the maker has not yet answered with "yes, really".
    pub questions: Vec<FieldQuestion>,
}

impl Filled {
    /// Events about which nothing is asked.
    pub fn of(events: Vec<NewEvent>) -> Self {
        Self {
            events,
            questions: Vec::new(),
        }
    }

    /// The same with a question about a field, where it is not answered yet.
    pub fn ask(mut self, form: &Form<'_>, key: &str, question: Option<String>) -> Self {
        if let Some(question) = question.filter(|_| !form.is_confirmed(key)) {
            let key = key.to_owned();
            self.questions.push(FieldQuestion { key, question });
        }
        self
    }

    /// The same with the questions that the workshop asks about an event before it is recorded, each at the
    /// field of the form that it is about.
    pub fn ask_about(
        mut self,
        form: &Form<'_>,
        context: &Context<'_>,
        event: &NewEvent,
        fields: &[FormField],
    ) -> Self {
        let (state, today) = (context.state, context.today);
        let on = event.on.unwrap_or(today);
        let asked = work_warnings(state, event.about, &event.event, on, today, form.units);
        for warning in asked {
            let key = field_of(warning.of, fields);
            self = self.ask(form, key, Some(warning.question));
        }
        self
    }
}

/// One event of the workshop on the day that the form says, with the questions that it raises.
pub(super) fn on_its_day(
    form: &Form<'_>,
    context: &Context<'_>,
    event: NewEvent,
    fields: &[FormField],
) -> Filled {
    let asked = Filled::default().ask_about(form, context, &event, fields);
    Filled {
        events: vec![event],
        ..asked
    }
}

/// The stored name of the field that a question is about.
fn field_of(of: WarningSubject, fields: &[FormField]) -> &'static str {
    let kind = |is: fn(FieldKind) -> bool| {
        let found = fields.iter().find(|field| is(field.kind));
        found.map_or("", |field| field.key)
    };
    match of {
        WarningSubject::Day => {
            let is_day = |field: &&FormField| field.kind == FieldKind::Day && **field != UNTIL;
            fields.iter().find(is_day).unwrap_or(&DAY).key
        }
        WarningSubject::Until => UNTIL.key,
        WarningSubject::Mass => kind(|kind| kind == FieldKind::Mass),
        WarningSubject::Witness => super::witness::STICK_WEIGHS.key,
        WarningSubject::Humidity => kind(|kind| kind == FieldKind::Humidity),
        WarningSubject::Temperature => kind(|kind| kind == FieldKind::Temperature),
        WarningSubject::Gap => kind(|kind| kind == FieldKind::Gap),
        WarningSubject::Clamped => kind(|kind| kind == FieldKind::Hours),
        WarningSubject::Reading(of) => {
            let found = fields.iter().find(|field| field.kind == FieldKind::Of(of));
            found.map_or("", |field| field.key)
        }
    }
}
