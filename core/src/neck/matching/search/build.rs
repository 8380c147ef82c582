//! Good sets to begin with: built place by place, and bettered by swaps.
//!
//! They need not be the best; the search goes on from them.

use super::super::prepared::Sum;
use super::{Choice, MatchSearch, STARTS};

impl MatchSearch {
    /// Builds a set round one laminate and betters it.
    pub(super) fn build_and_better(&mut self) {
        let starts = STARTS.min(self.stock.len());
        let first = self.next_start * self.stock.len() / starts;
        self.next_start += 1;
        let mut choices: Vec<Choice> = Vec::new();
        let mut sum = Sum::default();
        for step in 0..self.order.len() {
            let only = (step == 0 && self.fits(0, first)).then_some(first);
            let Some(choice) = self.cheapest(sum, &choices, step, only) else {
                break;
            };
            sum = self.placed(sum, &choices, step, choice);
            self.used[choice.0] = true;
            choices.push(choice);
        }
        if choices.len() == self.order.len() {
            self.better(&mut choices);
        }
        self.used.fill(false);
    }

    /// What costs least at a step.
    fn cheapest(
        &mut self,
        sum: Sum,
        before: &[Choice],
        step: usize,
        only: Option<usize>,
    ) -> Option<Choice> {
        let mut best = None;
        let mut least = f64::INFINITY;
        for at in 0..2 * self.stock.len() {
            let choice = (at / 2, at % 2 == 1);
            if only.is_some_and(|only| only != choice.0) || !self.fits(step, choice.0) {
                continue;
            }
            self.looked_at += 1;
            let cost = self.placed(sum, before, step, choice).cost(&self.limits);
            if cost < least {
                (best, least) = (Some(choice), cost);
            }
        }
        best
    }

    /// Swaps one laminate after another for the one that helps most, until none does.
    fn better(&mut self, choices: &mut [Choice]) {
        let mut least = self.cost_of(choices);
        self.offer(least, choices);
        loop {
            let before = least;
            for step in 0..choices.len() {
                let mut best = choices[step];
                self.used[best.0] = false;
                for at in 0..2 * self.stock.len() {
                    choices[step] = (at / 2, at % 2 == 1);
                    if !self.fits(step, at / 2) {
                        continue;
                    }
                    self.looked_at += 1;
                    let cost = self.cost_of(choices);
                    self.offer(cost, choices);
                    if cost < least {
                        (best, least) = (choices[step], cost);
                    }
                }
                choices[step] = best;
                self.used[best.0] = true;
            }
            if least >= before {
                return;
            }
        }
    }

    fn cost_of(&self, choices: &[Choice]) -> f64 {
        let mut sum = Sum::default();
        for (step, choice) in choices.iter().enumerate() {
            sum = self.placed(sum, choices, step, *choice);
        }
        sum.cost(&self.limits)
    }
}
