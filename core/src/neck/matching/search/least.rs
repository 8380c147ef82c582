//! The least that laminates still to be placed can cost: pairs of mirrored ones, the mate of one that is
//! placed, and the one in the middle.
//!
//! A pair that is alike may be a twisted one, and one that is straight unlike. So what a pair differs by and
//! what it adds to the twist are looked at together: the twist left in a blank costs no less than the sum of
//! its twists counted to the right, nor than that counted to the left, nor than nothing.

use super::super::prepared::{Limits, Numbers, unlike};

/// The twist counted to the left, not at all, and to the right.
const WAYS: [f64; 3] = [-1.0, 0.0, 1.0];

/// What is still to be placed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Open {
    /// The laminate whose mate is next.
    pub(super) mate_of: Option<usize>,
    /// Pairs of which neither is placed.
    pub(super) pairs: usize,
    pub(super) middle: bool,
}

/// The least costs, one for each way of counting the twist.
#[derive(Debug, Clone)]
pub(super) struct Least {
    pair: [f64; 3],
    /// Of the mate of each laminate.
    mates: Vec<[f64; 3]>,
    alone: [f64; 3],
}

impl Least {
    pub(super) fn of(stock: &[Numbers], places: usize, limits: &Limits) -> Self {
        let nothing_known = [f64::INFINITY; 3];
        let twists: Vec<f64> = stock
            .iter()
            .map(|one| limits.twist_of(one.twist.unwrap_or_default(), places))
            .collect();
        let mut least = Self {
            pair: nothing_known,
            mates: vec![nothing_known; stock.len()],
            alone: nothing_known,
        };
        for (at, one) in stock.iter().enumerate() {
            lower(&mut least.alone, WAYS.map(|way| way * twists[at]));
            for (next, other) in stock.iter().enumerate().skip(at + 1) {
                let apart = unlike(one, other, limits);
                let (here, there) = (twists[at], twists[next]);
                lower(&mut least.mates[at], WAYS.map(|way| apart + way * there));
                lower(&mut least.mates[next], WAYS.map(|way| apart + way * here));
                lower(
                    &mut least.pair,
                    WAYS.map(|way| apart + way * (here + there)),
                );
            }
        }
        least
    }

    /// What the twist so far, in limits of the blank's mean, and all that is still to be placed cost at
    /// least.
    pub(super) fn to_come(&self, twist: f64, open: Open) -> f64 {
        let way = |at: usize| {
            let mate = open.mate_of.map_or(0.0, |of| self.mates[of][at]);
            let pairs = match open.pairs {
                0 => 0.0,
                some => some as f64 * self.pair[at],
            };
            let middle = if open.middle { self.alone[at] } else { 0.0 };
            WAYS[at] * twist + mate + pairs + middle
        };
        way(0).max(way(1)).max(way(2))
    }
}

fn lower(least: &mut [f64; 3], found: [f64; 3]) {
    for (least, found) in least.iter_mut().zip(found) {
        *least = least.min(found);
    }
}
