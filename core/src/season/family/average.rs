//! Blanks and planks on average, by shares alone: without a margin.

use super::way::{InHand, Way, check, mean_share};
use crate::quantity::{Trace, formula};
use crate::season::start::StartError;

/// Good blanks to be expected on average of what is in hand and so many planks: each lot times the
/// shares before it, laminates over the laminates of a blank. Leftovers count as parts of a blank.
pub(super) fn blanks_expected(
    trace: &mut impl Trace,
    way: &Way,
    planks: f64,
    in_hand: &InHand,
) -> Result<f64, StartError> {
    check(way, in_hand)?;
    let mut lots = Vec::new();
    if planks > 0.0 {
        lots.push((planks * f64::from(way.parts_per_plank), 0));
    }
    let held = in_hand.parts.iter();
    lots.extend(held.map(|lot| (f64::from(lot.pieces), lot.stages_done)));
    let mut blanks = match lots.is_empty() {
        true => 0.0,
        false => of_parts(trace, way, &lots)?,
    };
    for lot in &in_hand.blanks {
        blanks += f64::from(lot.pieces) * mean_share(&way.blank_stages, lot.stages_done)?;
    }
    Ok(blanks)
}

/// Planks that are enough on average besides what is in hand, with its steps: by dividing, without a margin,
/// and with its fraction. The errors of [`StartTask::check`](super::StartTask::check), but for those of the confidence.
///
/// No published value: a ratio of the blanks to be expected.
pub fn planks_on_average(
    trace: &mut impl Trace,
    way: &Way,
    in_hand: &InHand,
    wanted: u32,
) -> Result<f64, StartError> {
    let held = blanks_expected(trace, way, 0.0, in_hand)?;
    let of_one = blanks_expected(trace, way, 1.0, &InHand::default())?;
    let planks = trace.work(&ON_AVERAGE, [f64::from(wanted), held, of_one]);
    Ok(planks.max(0.0))
}

/// Good blanks to be expected of laminates, with the step.
fn of_parts(trace: &mut impl Trace, way: &Way, lots: &[(f64, usize)]) -> Result<f64, StartError> {
    let blanks = mean_share(&way.blank_stages, 0)?;
    let each = f64::from(way.parts_per_blank);
    let mut items = Vec::new();
    for (pieces, done) in lots {
        items.push([*pieces, mean_share(&way.part_stages, *done)?, each, blanks]);
    }
    Ok(trace.add_up(&GOOD_OF_PARTS, &items))
}

formula! {
    /// Blanks that come of pieces, on average.
    GOOD_OF_PARTS: "Good blanks to be expected", "g", "";
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
    ON_AVERAGE: "Planks on average, without a margin", "n", "";
    wanted: "N", "good blanks wanted", "";
    held: "g₀", "good blanks to be expected of what is in hand", "";
    of_one: "g₁", "good blanks to be expected of one plank", "";
    = (wanted - held) / of_one;
    range "none where enough is in hand";
    source "divided by the share, not added to";
}
