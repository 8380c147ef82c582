//! Quick questions, asked without a plank: typed texts in, figures with their range and source out.
//!
//! It reads what is typed and calls the functions that answer; of its own it has but sums and differences, and it
//! remembers nothing.

mod air;
mod given;
mod movement;
mod question;
mod shape;
mod size;
mod stiffness;

pub use given::{Given, Input, InputKind, Understanding};
pub use question::{Answer, Figure, Question, Reply, Way};

/// All questions, in the order in which they are offered.
pub const QUESTIONS: [&Question; 13] = [
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
    &shape::HEADSTOCK,
];

#[cfg(test)]
mod tests;
