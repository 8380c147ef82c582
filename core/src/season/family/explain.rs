//! How the number of planks to start was worked out, to be told: what is reckoned exactly, over what the
//! mean is taken, and the figures that enter.

use super::average::planks_on_average;
use super::search::reaches;
use super::way::{InHand, StageShare, Way};
use crate::quantity::Derivation;
use crate::season::effective::ShareCount;
use crate::season::start::StartError;

/// How the planks on average were worked out.
pub fn explain_average(way: &Way, in_hand: &InHand, wanted: u32) -> Result<Derivation, StartError> {
    let mut working = Derivation::default();
    planks_on_average(&mut working.steps, way, in_hand, wanted)?;
    working.notes = shares(way)?;
    let blanks: u32 = in_hand.blanks.iter().map(|lot| lot.pieces).sum();
    if blanks > 0 {
        working.notes.push(format!(
            "{blanks} blanks in hand, each by the share of its stages left, are in what is to be expected."
        ));
    }
    working.source =
        "the maker's own counts; a counted share is the mean of beta (x + 1/2, n − x + 1/2)";
    Ok(working)
}

/// How the number of planks to start, and its chance, were worked out; `chances` as
/// [`StartFound`](super::StartFound) has them.
pub fn explain_start(
    way: &Way,
    in_hand: &InHand,
    wanted: u32,
    confidence: f64,
    chances: &[f64],
) -> Result<Derivation, StartError> {
    let mut working = explain_average(way, in_hand, wanted)?;
    working.notes.push(format!(
        "The least number of planks with which at least {wanted} good blanks come in {:.0} of 100 cases: planks \
         are added one by one until the chance is reached.",
        confidence * 100.0,
    ));
    let planks = chances.len().saturating_sub(1);
    let chance = chances.last().copied().unwrap_or_default();
    let percent = chance * 100.0;
    working.notes.push(match reaches(chance, confidence) {
        true => format!("With {planks} it is {percent:.1} %."),
        false => format!(
            "It is not reached: with {planks}, the most that are looked at, it is {percent:.1} %."
        ),
    });
    working.notes.push(format!(
        "A plank gives {} laminates where none of its pieces is discarded. What comes of them is beta-binomial, a = P (1 − ρ) / ρ, b = (1 − P)(1 − ρ) / ρ, ρ = \
         {:.2} their family effect (ρ = 0: binomial). Planks are added up by convolution, every {} make a blank, blanks \
         come through each by itself: exact for given shares. Shares that were counted are taken at 256 places \
         spread evenly over what they may be, and the chance is the mean.",
        way.parts_per_plank, way.intraclass_correlation, way.parts_per_blank
    ));
    working.source =
        "textbook probability, no source read; counted shares with the prior of Jeffreys";
    Ok(working)
}

/// Each stage's share.
fn shares(way: &Way) -> Result<Vec<String>, StartError> {
    let one = |(name, stage): (&str, &StageShare)| {
        let mean = 100.0 * stage.mean()?;
        Ok(match stage {
            StageShare::Known(_) => format!("{name}: {mean:.0} %, taken as it is."),
            StageShare::Counted(count) => {
                let ShareCount { through, of, .. } = *count;
                let mut x = through.to_string();
                let mut n = of.to_string();
                let mut as_fewer = String::new();
                if count.counts_as < f64::from(of) {
                    n = format!("{:.1}", count.counts_as);
                    x = format!(
                        "{:.1}",
                        count.counts_as * f64::from(through) / f64::from(of)
                    );
                    as_fewer = format!(", which count as {x} of {n} by themselves");
                }
                format!(
                    "{name}: {through} of {of} came through{as_fewer}; ({x} + 1/2) / ({n} + 1) = {mean:.1} %."
                )
            }
        })
    };
    let names = |count: usize, of: [&'static str; 2]| {
        (0..count).map(move |at| if at + 1 < count { of[0] } else { of[1] })
    };
    let parts = names(way.part_stages.len(), ["Pieces", "Laminates"]).zip(&way.part_stages);
    let blanks = names(way.blank_stages.len(), ["Glued", "Blanks"]).zip(&way.blank_stages);
    parts.chain(blanks).map(one).collect()
}
