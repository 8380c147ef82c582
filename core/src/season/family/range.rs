//! Between which numbers of planks the answer may lie, for shares that few pieces are counted of.
//!
//! It is the answer for each of the shares that the counts leave open, one by one, and not for their mean.

use serde::{Deserialize, Serialize};

/// Between which numbers of planks the answer lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct StartRange {
    /// Enough if the shares are as good as the counts allow; `None` where that is beyond what was looked at.
    pub low: Option<u32>,
    /// Enough if they are as bad; `None` where that is beyond what was looked at.
    pub high: Option<u32>,
}

/// Of the least planks that are enough at each place; `None` where none of those looked at is.
pub(super) fn range_of(mut answers: Vec<Option<u32>>) -> StartRange {
    // Those beyond what was looked at come last.
    crate::order::sort_by_key(&mut answers, |planks| planks.unwrap_or(u32::MAX));
    let left_out = answers.len() / 40;
    let low = answers.get(left_out).copied().flatten();
    let high = answers.iter().rev().nth(left_out).copied().flatten();
    StartRange { low, high }
}
