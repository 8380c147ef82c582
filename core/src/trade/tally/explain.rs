//! How a plank's bill was worked out, to be told: the tally's own steps, kept.

use super::super::board_measure::footage;
use super::{TalliedLine, TallyLine, Terms};
use crate::quantity::Derivation;

/// How a plank's bill was worked out from its sizes and its pile's terms, in the currency of its visit;
/// what can't be reckoned is said.
pub fn explain_charge(
    line: &TallyLine,
    terms: &Terms,
    tallied: &TalliedLine,
    currency: &str,
) -> Derivation {
    let mut working = Derivation::default();
    let mut halves = tallied.halves_before;
    let feet = footage(&mut working.steps, &terms.rule, &line.sawn, &mut halves);
    working.notes.push(match &feet {
        Ok(_) => format!("The rule: {}.", terms.rule.in_words()),
        Err(why) => format!("No footage: {why}."),
    });
    let Some((_, basis)) = terms.price else {
        return working;
    };
    let steps_of_footage = working.steps.len();
    let amount = terms.amount(&mut working.steps, currency, line, feet);
    match amount.and_then(|amount| terms.split(&mut working.steps, currency, amount)) {
        Ok(_) => {
            working.notes.push(format!("The price is {}.", basis.per()));
            working
                .notes
                .push("Money is reckoned in decimals, to the cent, halves up.".into());
        }
        Err(why) => {
            working.steps.truncate(steps_of_footage);
            working.notes.push(format!("No price: {why}."));
        }
    }
    working
}
