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
    /// A found set at its places, spun so that rings alternate, grain runs out one way as far as it can,
    /// and the bow is least.
    pub(super) fn proposal(&self, found: &Found) -> Proposal {
        let mut by_place: Vec<(usize, Choice)> = self
            .order
            .iter()
            .copied()
            .zip(found.choices.iter().copied())
            .collect();
        order::sort_by_key(&mut by_place, |(place, _)| *place);
        let end_for_end = |lean: f64| self.end_for_end(&by_place, lean);
        let (one, other) = (end_for_end(1.0), end_for_end(-1.0));
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

    /// Spun so that the rings lean to the side `first` at even places and to the other at odd ones; what
    /// does not lean, so that its grain runs out with that of most; what does neither, so that the bow so
    /// far is least.
    fn end_for_end(&self, by_place: &[(usize, Choice)], first: f64) -> Vec<Placed> {
        let runs = |(place, (laminate, turned_over)): &(usize, Choice)| {
            first * self.stock[*laminate].runs_at(*place, *turned_over)
        };
        let most = by_place.iter().map(runs).sum::<f64>();
        let mut bows = 0.0_f64;
        let mut blank = Vec::new();
        for (place, (laminate, turned_over)) in by_place {
            let one = &self.stock[*laminate];
            let turn = |end_for_end| Turn {
                turned_over: *turned_over,
                end_for_end,
            };
            let wanted = if place.is_multiple_of(2) {
                first
            } else {
                -first
            };
            let bow = |end_for_end| bows + one.bow.unwrap_or_default() * turn(end_for_end).of_bow();
            let end_for_end = if one.lean != 0.0 {
                one.lean * wanted < 0.0
            } else if one.rise != 0.0 {
                (one.rise * turn(false).of_runout() < 0.0) != (most < 0.0)
            } else {
                bow(true).abs() < bow(false).abs()
            };
            bows = bow(end_for_end);
            blank.push(Placed {
                laminate: *laminate,
                turn: turn(end_for_end),
            });
        }
        blank
    }
}
