//! A set that was found, with every laminate turned: rolled as its crook wants it, spun so that the rings
//! alternate.
//!
//! It changes neither the set nor its places.

use super::super::judge::{bow_left, judged};
use super::super::prepared::Numbers;
use super::super::{Placed, Turn};
use super::{Choice, Found, MatchSearch, Proposal};
use crate::order;

impl MatchSearch {
    /// A found set at its places, spun so that ring slopes alternate and the bow is least.
    pub(super) fn proposal(&self, found: &Found) -> Proposal {
        let mut by_place: Vec<(usize, Choice)> = self
            .order
            .iter()
            .copied()
            .zip(found.choices.iter().copied())
            .collect();
        order::sort_by_key(&mut by_place, |(place, _)| *place);
        let spun = |lean: f64| self.spun(&by_place, lean);
        let (one, other) = (spun(1.0), spun(-1.0));
        let bow = |blank: &[Placed]| bow_left(&self.with_numbers(blank)).abs();
        let blank = if bow(&other) < bow(&one) { other } else { one };
        let judged = judged(&self.with_numbers(&blank), &self.limits);
        Proposal { blank, judged }
    }

    fn with_numbers<'a>(&'a self, blank: &'a [Placed]) -> Vec<(&'a Numbers, &'a Placed)> {
        blank
            .iter()
            .map(|one| (&self.stock[one.laminate], one))
            .collect()
    }

    /// Spun so that the first ring slope leans one way, the next the other; what has none, so that the
    /// bow so far is least.
    fn spun(&self, by_place: &[(usize, Choice)], first: f64) -> Vec<Placed> {
        let (mut lean, mut bows) = (first, 0.0_f64);
        let mut blank = Vec::new();
        for (_, (laminate, rolled)) in by_place {
            let one = &self.stock[*laminate];
            let bow = one.bow.unwrap_or_default();
            let turn = |spun| Turn {
                rolled: *rolled,
                spun,
            };
            let after = |spun| (bows + bow * turn(spun).of_bow()).abs();
            let spun = match one.slope.filter(|slope| *slope != 0.0) {
                Some(slope) => slope * lean < 0.0,
                None => after(true) < after(false),
            };
            bows += bow * turn(spun).of_bow();
            lean = -lean;
            blank.push(Placed {
                laminate: *laminate,
                turn: turn(spun),
            });
        }
        blank
    }
}
