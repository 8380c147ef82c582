//! How the number of planks to start was worked out, to be told: what is reckoned exactly, over what the
//! mean is taken, and the figures that enter.

use super::{InHand, PlanksToStart, ShareCount, StageShare, StartError, Way, mean_share};
use crate::quantity::{Pen, Working, formula};

formula! {
    /// Blanks that come of pieces, on average.
    pub(super) GOOD_OF_PARTS: "Good blanks to be expected", "g", "";
    pieces: "m", "laminates of each lot", "";
    through: "P", "share of them that comes through the stages left", "";
    each: "k", "laminates to a blank", "";
    blanks: "B", "share of blanks that comes through", "";
    = pieces * through / each * blanks;
    range "on average; what is over counts as part of a blank";
    source "arithmetic of shares";
}

formula! {
    /// Planks on average.
    pub(super) ON_AVERAGE: "Planks on average, without a margin", "n", "";
    wanted: "N", "good blanks wanted", "";
    held: "g₀", "good blanks to be expected of what is in hand", "";
    of_one: "g₁", "good blanks to be expected of one plank", "";
    = (wanted - held) / of_one;
    range "none where enough is in hand";
    source "divided by the share, not added to";
}

/// How the planks on average were worked out.
pub fn average_told(way: &Way, in_hand: &InHand, wanted: u32) -> Result<Working, StartError> {
    let mut working = Working::default();
    super::planks_on_average(&mut working.steps, way, in_hand, wanted)?;
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

/// How the number of planks to start, and its chance, were worked out.
pub fn start_told(
    way: &Way,
    in_hand: &InHand,
    wanted: u32,
    confidence: f64,
    start: &PlanksToStart,
) -> Result<Working, StartError> {
    let mut working = average_told(way, in_hand, wanted)?;
    working.notes.push(format!(
        "The least number of planks with which at least {wanted} good blanks come in {:.0} of 100 cases: planks \
         are added one by one until the chance is reached. With {} it is {:.1} %.",
        confidence * 100.0,
        start.planks,
        start.chance * 100.0
    ));
    working.notes.push(format!(
        "What comes of a plank's {} laminates is beta-binomial, a = P (1 − ρ) / ρ, b = (1 − P)(1 − ρ) / ρ, ρ = \
         {:.2} their likeness (ρ = 0: binomial). Planks are added up by convolution, every {} make a blank, blanks \
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

/// Good blanks to be expected of laminates, with the step.
pub(super) fn of_parts(
    pen: &mut impl Pen,
    way: &Way,
    lots: &[(f64, usize)],
) -> Result<f64, StartError> {
    let blanks = mean_share(&way.blank_stages, 0)?;
    let each = f64::from(way.parts_per_blank);
    let mut items = Vec::new();
    for (pieces, done) in lots {
        items.push([*pieces, mean_share(&way.part_stages, *done)?, each, blanks]);
    }
    Ok(pen.add_up(&GOOD_OF_PARTS, &items))
}
