//! A question, the ways of asking it, and its answer.

use super::given::{Given, Input, Unanswered};
use crate::quantity::read::Units;
use crate::quantity::{Derivation, Step};
use crate::wood::Species;

#[derive(Debug)]
pub struct Question {
    pub asks: &'static str,
    /// The ways of asking it; several where the same is known in another form.
    pub ways: &'static [Way],
}

/// One way of asking a question.
#[derive(Debug)]
pub struct Way {
    /// Its name among the ways; empty where there is only one.
    pub name: &'static str,
    pub inputs: &'static [Input],
    pub(super) answer: fn(&Given<'_>) -> Result<Answer, Unanswered>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    pub name: String,
    /// With its unit.
    pub value: String,
    /// How it was worked out, where the answer's working does not tell of it.
    pub beside: Option<Derivation>,
}

impl Figure {
    /// How it was worked out, as one of an answer's.
    pub fn working<'a>(&'a self, answer: &'a Answer) -> &'a Derivation {
        self.beside.as_ref().unwrap_or(&answer.working)
    }
}

#[derive(Debug, Clone, PartialEq, Default)]
pub struct Answer {
    /// The figures, the one asked for first.
    pub figures: Vec<Figure>,
    /// The range in which it holds, how good it is, and where it comes from: one line.
    pub basis: String,
    pub working: Derivation,
}

impl Answer {
    pub(super) fn on(basis: impl Into<String>) -> Self {
        Self {
            basis: basis.into(),
            ..Self::default()
        }
    }

    pub(super) fn worked(mut self, steps: Vec<Step>) -> Self {
        self.working.steps = steps;
        self
    }

    pub(super) fn with(mut self, name: impl Into<String>, value: impl Into<String>) -> Self {
        self.figures.push(Figure {
            name: name.into(),
            value: value.into(),
            beside: None,
        });
        self
    }

    /// One more figure, that was worked out by itself.
    pub(super) fn beside(
        self,
        name: impl Into<String>,
        value: impl Into<String>,
        working: Derivation,
    ) -> Self {
        let mut answer = self.with(name, value);
        if let Some(last) = answer.figures.last_mut() {
            last.beside = Some(working);
        }
        answer
    }
}

/// What comes back.
#[derive(Debug, Clone, PartialEq)]
pub enum Reply {
    /// These are still to be typed, or typed anew.
    Wants(Vec<&'static str>),
    /// There is no answer, and why.
    Cannot(String),
    Answer(Answer),
}

impl Way {
    /// The reply to what is typed, by the labels of the inputs. `wood` is the wood that was chosen.
    pub fn reply(
        &self,
        typed: &[(&'static str, String)],
        wood: Option<&Species>,
        units: Units,
    ) -> Reply {
        let given = Given { typed, wood, units };
        let wants: Vec<&'static str> = self
            .inputs
            .iter()
            .filter(|input| given.wants(input))
            .map(|input| input.label)
            .collect();
        if !wants.is_empty() {
            return Reply::Wants(wants);
        }
        match (self.answer)(&given) {
            Ok(answer) => Reply::Answer(answer),
            Err(Unanswered(why)) => Reply::Cannot(why),
        }
    }
}
