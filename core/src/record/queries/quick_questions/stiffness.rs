//! How stiff a bar is by its note.

use super::given::{Given, InputKind, Unanswered};
use super::given::{Input, wanted};
use super::movement::DENSITY_OF;
use super::question::{Answer, Question, Way};
use crate::quantity::{Derivation, in_gpa, in_metres_per_second, show};
use crate::wood::{sound_along, specific_stiffness, stiffness_from_sound};

const BAR: Input = wanted("Length of the bar", InputKind::Length);
const NOTE: Input = wanted("Its first note along the length", InputKind::Frequency);

pub(super) static STIFF: Question = Question {
    asks: "How stiff is a bar, by tapping its end?",
    ways: &[Way {
        name: "",
        inputs: &[BAR, NOTE, DENSITY_OF],
        answer: stiff,
    }],
};

fn stiff(given: &Given<'_>) -> Result<Answer, Unanswered> {
    let mut steps = Vec::new();
    let (length, note) = (given.length(BAR.label)?, given.frequency(NOTE.label)?);
    let density = given.density(DENSITY_OF.label)?;
    let speed = sound_along(&mut steps, length, note)?;
    let stiffness = stiffness_from_sound(&mut steps, speed, density)?;
    let mut by_weight = Vec::new();
    let for_weight = specific_stiffness(&mut by_weight, stiffness, density)?;
    Ok(Answer::on(
        "Held loosely at mid-length and tapped on its end; the note found with any spectrum of a \
         recording. It lies above what a slow bend would give: +22 % for Scots pine (Hassan 2013, read). \
         Standard theory of the thin free bar, from memory.",
    )
    .worked(steps)
    .with("Modulus of elasticity", format!("{} GPa", show::number(in_gpa(stiffness), 2)))
    .with(
        "Speed of sound",
        format!("{} m/s", show::number(in_metres_per_second(speed), 0)),
    )
    .beside(
        "Stiffness for its weight",
        format!("{} MN·m/kg", show::number(for_weight.in_mn_m_per_kg(), 1)),
        Derivation::of(by_weight),
    ))
}
