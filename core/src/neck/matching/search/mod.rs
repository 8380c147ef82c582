//! The search for sets: good ones first, then all that could be better, in slices that can be stopped.
//!
//! It draws no random number: the same stock gives the same sets, however it is sliced.

mod build;
mod least;
mod turned;

use super::judge::{Judged, add, outside_in};
use super::prepared::{Limits, Numbers, Reach, Sum, limits, numbers, reaches};
use super::{Laminate, MOST_LAMINATES, MOST_PLACES, MatchError, MatchTarget, Placed};
use crate::order;
use least::{Least, Open};
use serde::{Deserialize, Serialize};

/// A set that was found, at its places and turned, with what it comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposal {
    /// The laminates from one side to the other.
    pub blank: Vec<Placed>,
    pub judged: Judged,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct SearchState {
    /// Whether all was looked through, or ruled out.
    pub done: bool,
    pub looked_at: u64,
    /// No set that is not among the proposals costs less than this.
    pub no_other_below: f64,
}

/// A laminate and whether it is rolled.
type Choice = (usize, bool);

/// A set with its cost; the choices stand from outside in.
#[derive(Debug, Clone)]
struct Found {
    cost: f64,
    members: Vec<usize>,
    choices: Vec<Choice>,
}

/// A place that is being tried.
#[derive(Debug, Clone, Copy)]
struct Level {
    next: usize,
    sum: Sum,
}

/// A search for sets of laminates.
///
/// First from every few laminates of the stock a set is built, each place by what costs least, and
/// bettered by swapping single laminates until no swap helps. Then all sets are gone through place by
/// place, mirrored places in pairs from outside in; what cannot cost less than the worst proposal, by
/// more than the wish is indifferent to, is left out. Once that is done no set can be better by more, which
/// for small stocks takes a moment; for large ones it may be stopped at any time, and
/// [`SearchState::no_other_below`] says how much better another could be.
///
/// Rings lean to one side at every other place and to the other between, which spinning can always bring
/// about; which way the grain runs out then follows from how a laminate is rolled and where it stands,
/// and is looked for with the rest. The bow, which gluing divides by n², decides only what is left free.
///
/// ```
/// use stillwood_core::neck::{Laminate, MatchSearch, MatchTarget};
/// use stillwood_core::quantity::mm;
/// let laminate = |crook: f64, twist: f64| Laminate {
///     thickness: mm(15.0), width: mm(48.0), wood: 1, crook: Some(mm(crook)), bow: None,
///     twist: Some(mm(twist)), lean: None, ring_class: None, rise: None, moisture: None,
///     density: None, modulus: None,
/// };
/// let stock = [laminate(0.4, 0.1), laminate(0.2, -0.2), laminate(0.9, 0.8), laminate(0.2, 0.1)];
/// let mut search = MatchSearch::new(&stock, &MatchTarget::of(3)).unwrap();
/// while !search.go_on(1000).done {}
/// let best = &search.proposals()[0];
/// assert!(best.judged.mean_crook.abs() < mm(1e-9) && best.judged.mean_twist.abs() < mm(1e-9));
/// ```
#[derive(Debug, Clone)]
pub struct MatchSearch {
    stock: Vec<Numbers>,
    limits: Limits,
    woods: Vec<Option<u32>>,
    /// The places from outside in.
    order: Vec<usize>,
    reaches: Vec<Reach>,
    /// Whether which way grain runs out depends on the place.
    runs_out: bool,
    /// Whether the wish reads the same from both sides.
    mirrored_wish: bool,
    /// The least that what is still to be placed costs.
    least: Least,
    keep: usize,
    indifferent: f64,
    found: Vec<Found>,
    next_start: usize,
    levels: Vec<Level>,
    choices: Vec<Choice>,
    used: Vec<bool>,
    looked_at: u64,
}

/// From how many laminates sets are built before all is gone through.
const STARTS: usize = 48;

impl MatchSearch {
    /// A search in a stock. An error for places, limits or properties that make no sense, or too few
    /// laminates.
    pub fn new(stock: &[Laminate], wish: &MatchTarget) -> Result<Self, MatchError> {
        let places = wish.places.len();
        if places == 0 || places > MOST_PLACES {
            return Err(MatchError::Places(places));
        }
        if stock.len() > MOST_LAMINATES {
            return Err(MatchError::TooMany(stock.len()));
        }
        if !(wish.indifferent >= 0.0 && wish.indifferent.is_finite()) {
            return Err(MatchError::Number(wish.indifferent));
        }
        let (stock, limits) = (numbers(stock)?, limits(&wish.limits)?);
        let placeable = most_placed(&stock, &wish.places);
        if placeable < places {
            return Err(MatchError::TooFew {
                stock: placeable,
                places,
            });
        }
        Ok(Self {
            reaches: reaches(&stock, places),
            order: outside_in(places),
            woods: wish.places.clone(),
            runs_out: stock.iter().any(|one| one.runs_at(0, false) != 0.0),
            mirrored_wish: wish.places.iter().eq(wish.places.iter().rev()),
            least: Least::of(&stock, places, &limits),
            keep: wish.proposals.max(1),
            indifferent: wish.indifferent,
            found: Vec::new(),
            next_start: 0,
            levels: vec![Level {
                next: 0,
                sum: Sum::default(),
            }],
            choices: Vec::new(),
            used: vec![false; stock.len()],
            looked_at: 0,
            stock,
            limits,
        })
    }

    /// Looks at about so many more placings.
    pub fn go_on(&mut self, placings: u64) -> SearchState {
        let until = self.looked_at.saturating_add(placings.max(1));
        while self.looked_at < until {
            if self.next_start < STARTS.min(self.stock.len()) {
                self.build_and_better();
            } else if !self.try_next() {
                break;
            }
        }
        self.state()
    }

    pub fn state(&self) -> SearchState {
        let done = self.levels.is_empty();
        // What is left out costs at least this; before that, only what any set costs is known.
        let left_out = (self.worst() - self.indifferent).max(0.0);
        SearchState {
            done,
            looked_at: self.looked_at,
            no_other_below: if done {
                left_out
            } else {
                left_out.min(self.bound(&Sum::default(), 0, None))
            },
        }
    }

    /// The best sets so far, the best first.
    pub fn proposals(&self) -> Vec<Proposal> {
        self.found
            .iter()
            .map(|found| self.proposal(found))
            .collect()
    }

    /// The cost that a new set has to beat.
    fn worst(&self) -> f64 {
        match self.found.get(self.keep - 1) {
            Some(found) => found.cost,
            None => f64::INFINITY,
        }
    }

    fn mirror_of(step: usize, places: usize) -> Option<usize> {
        (step % 2 == 1 && step < places / 2 * 2).then(|| step - 1)
    }

    fn fits(&self, step: usize, laminate: usize) -> bool {
        let wood = self.woods[self.order[step]];
        !self.used[laminate] && wood.is_none_or(|wood| wood == self.stock[laminate].wood)
    }

    fn placed(
        &self,
        sum: Sum,
        choices: &[Choice],
        step: usize,
        (laminate, turned_over): Choice,
    ) -> Sum {
        let one = &self.stock[laminate];
        let lies = (turned_over, one.runs_at(self.order[step], turned_over));
        let mirror = Self::mirror_of(step, self.order.len())
            .and_then(|of| choices.get(of))
            .map(|(other, _)| &self.stock[*other]);
        add(sum, one, lies, mirror, &self.limits)
    }

    /// What no set that goes on from here costs less than; `last` is the laminate placed last.
    fn bound(&self, sum: &Sum, steps: usize, last: Option<usize>) -> f64 {
        let places = self.order.len();
        let open = Open {
            mate_of: Self::mirror_of(steps, places).and(last),
            pairs: places / 2 - steps.div_ceil(2).min(places / 2),
            middle: places % 2 == 1 && steps < places,
        };
        sum.bound(&self.limits, &self.reaches[places - steps], |twist| {
            self.least.to_come(twist, open)
        })
    }

    /// Tries the next placing; `false` when there is none.
    fn try_next(&mut self) -> bool {
        let Some(level) = self.levels.last_mut() else {
            return false;
        };
        let (at, sum) = (level.next, level.sum);
        level.next += 1;
        let step = self.levels.len() - 1;
        let choice = (at / 2, at % 2 == 1);
        if choice.0 >= self.stock.len() {
            self.levels.pop();
            if let Some((laminate, _)) = self.choices.pop() {
                self.used[laminate] = false;
            }
            return !self.levels.is_empty();
        }
        self.looked_at += 1;
        if !self.fits(step, choice.0) || self.is_twin(step, choice) {
            return true;
        }
        let sum = self.placed(sum, &self.choices, step, choice);
        if step + 1 == self.order.len() {
            let mut choices = self.choices.clone();
            choices.push(choice);
            self.offer(sum.cost(&self.limits), &choices);
        } else if self.bound(&sum, step + 1, Some(choice.0)) < self.worst() - self.indifferent {
            self.choices.push(choice);
            self.used[choice.0] = true;
            self.levels.push(Level { next: 0, sum });
        }
        true
    }

    /// Whether a choice only gives a turned or mirrored twin of another placing. Where runout depends on
    /// the place, only what stands at places of the same kind, odd or even, can change places and be a twin.
    fn is_twin(&self, step: usize, (laminate, turned_over): Choice) -> bool {
        let wood = |step: usize| self.woods[self.order[step]];
        let places = self.order.len();
        match step {
            0 => turned_over,
            _ if Self::mirror_of(step, places).is_some() => {
                let alike = if self.runs_out && places.is_multiple_of(2) {
                    // Both of the pair are at places of unlike kinds: only the whole can be mirrored.
                    step == 1 && self.mirrored_wish
                } else {
                    wood(step) == wood(step - 1)
                };
                alike && laminate < self.choices[step - 1].0
            }
            // The first of a pair: pairs of like places stand in order of their first.
            _ if step + 1 < places => {
                let back = if self.runs_out { 4 } else { 2 };
                let Some(before) = step.checked_sub(back) else {
                    return false;
                };
                let like = wood(step) == wood(before) && wood(step + 1) == wood(before + 1);
                // In one order only, where the two of a pair are interchangeable.
                let turns = self.runs_out && places.is_multiple_of(2);
                like && (turns || wood(step) == wood(step + 1)) && laminate < self.choices[before].0
            }
            _ => false,
        }
    }

    /// Keeps a set if it is among the best; of one set of laminates only its best placing.
    fn offer(&mut self, cost: f64, choices: &[Choice]) {
        if cost >= self.worst() {
            return;
        }
        let mut members: Vec<usize> = choices.iter().map(|choice| choice.0).collect();
        order::sort(&mut members);
        if let Some(same) = self.found.iter().position(|found| found.members == members) {
            if self.found[same].cost <= cost {
                return;
            }
            self.found.remove(same);
        }
        let place = self
            .found
            .iter()
            .take_while(|found| found.cost <= cost)
            .count();
        let choices = choices.to_vec();
        self.found.insert(
            place,
            Found {
                cost,
                members,
                choices,
            },
        );
        self.found.truncate(self.keep);
    }
}

/// How many places can be filled.
fn most_placed(stock: &[Numbers], places: &[Option<u32>]) -> usize {
    let mut filled = 0;
    let mut woods: Vec<u32> = places.iter().flatten().copied().collect();
    order::sort(&mut woods);
    woods.dedup();
    for wood in woods {
        let wanted = places.iter().filter(|place| **place == Some(wood)).count();
        filled += wanted.min(stock.iter().filter(|one| one.wood == wood).count());
    }
    let any = places.iter().filter(|place| place.is_none()).count();
    filled + any.min(stock.len() - filled)
}

#[cfg(test)]
mod tests;
