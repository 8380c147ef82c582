//! The reasons at hand in the quick sort, those that are used most in front.

use crate::order;
use crate::plank::{Reason, ReasonGroup};
use crate::record::state::State;
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// What shows on a rough plank in ten seconds, while nothing tells what the maker uses.
const QUICK: [Reason; 12] = [
    Reason::Runout,
    Reason::Knot,
    Reason::Twist,
    Reason::Crook,
    Reason::Bow,
    Reason::Kink,
    Reason::Checks,
    Reason::Pith,
    Reason::WrongRings,
    Reason::Sapwood,
    Reason::TooSmall,
    Reason::TooHeavy,
];

/// Twelve reasons: those for which most planks were left, then those that show in ten seconds.
pub fn sort_reasons(state: &State) -> Vec<Reason> {
    let mut times: BTreeMap<Reason, u64> = BTreeMap::new();
    for lot in state.piles().flat_map(|pile| &pile.passed) {
        for reason in &lot.reasons {
            *times.entry(*reason).or_default() += u64::from(lot.count);
        }
    }
    let mut reasons: Vec<Reason> = QUICK.to_vec();
    let others = times.keys().filter(|reason| !QUICK.contains(reason));
    let others = others.filter(|reason| reason.group() != ReasonGroup::Workshop);
    reasons.extend(others);
    order::sort_by_key(&mut reasons, |reason| {
        Reverse(times.get(reason).copied().unwrap_or_default())
    });
    reasons.truncate(QUICK.len());
    reasons
}
