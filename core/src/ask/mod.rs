//! Quick questions, asked without a plank: typed texts in, figures with their range and source out.
//!
//! It only reads what is typed and calls the one function that answers; it holds no formula of its own
//! and remembers nothing.

mod air;
mod given;
mod movement;
mod shape;
mod size;
mod stiffness;

pub use given::{Given, Kind, Understanding};

use crate::quantity::read::Units;
use crate::quantity::{Step, Working};
use crate::wood::Species;
use given::Unanswered;

/// A question.
#[derive(Debug)]
pub struct Question {
    /// As a maker asks it.
    pub asks: &'static str,
    /// The ways of asking it; several where the same is known in another form.
    pub ways: &'static [Way],
}

/// One way of asking a question.
#[derive(Debug)]
pub struct Way {
    /// Its name among the ways; empty where there is only one.
    pub name: &'static str,
    /// What has to be typed.
    pub inputs: &'static [Input],
    answer: fn(&Given<'_>) -> Result<Answer, Unanswered>,
}

/// Something to type.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Input {
    /// Its label; inputs of one label hold the same text in every question.
    pub label: &'static str,
    /// What it is.
    pub kind: Kind,
    /// What stands in it at first: seen, and to be changed.
    pub begins: &'static str,
    /// Whether there is an answer without it.
    pub needed: bool,
}

/// An input that must be typed.
const fn wanted(label: &'static str, kind: Kind) -> Input {
    Input {
        label,
        kind,
        begins: "",
        needed: true,
    }
}

/// One figure of an answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// What it is.
    pub name: String,
    /// With its unit.
    pub value: String,
    /// How it was worked out, where the answer's working does not tell of it.
    pub beside: Option<Working>,
}

impl Figure {
    /// How it was worked out, as one of an answer's.
    pub fn working<'a>(&'a self, answer: &'a Answer) -> &'a Working {
        self.beside.as_ref().unwrap_or(&answer.working)
    }
}

/// An answer.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Answer {
    /// The figures, the one asked for first.
    pub figures: Vec<Figure>,
    /// The range in which it holds, how good it is, and where it comes from: one line.
    pub basis: String,
    /// How it was worked out.
    pub working: Working,
}

impl Answer {
    fn on(basis: impl Into<String>) -> Self {
        Self {
            basis: basis.into(),
            ..Self::default()
        }
    }

    fn worked(mut self, steps: Vec<Step>) -> Self {
        self.working.steps = steps;
        self
    }

    fn with(mut self, name: impl Into<String>, value: impl Into<String>) -> Self {
        self.figures.push(Figure {
            name: name.into(),
            value: value.into(),
            beside: None,
        });
        self
    }

    /// One more figure, that was worked out by itself.
    fn beside(self, name: impl Into<String>, value: impl Into<String>, working: Working) -> Self {
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
    /// The answer.
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

/// All questions, in the order in which they are offered.
pub const QUESTIONS: [&Question; 12] = [
    &air::SETTLES,
    &size::FOOTAGE,
    &movement::MOVES,
    &movement::DENSITY,
    &shape::BOW,
    &size::WEIGHT,
    &air::METER,
    &shape::GRAIN,
    &movement::CUPS,
    &movement::YEAR,
    &air::OVEN,
    &stiffness::STIFF,
];

#[cfg(test)]
mod tests;
