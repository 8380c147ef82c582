//! The search for laminates that go together, as work beside the page: what it is handed, what it answers, and the
//! work itself. Whoever has no worker does it in slices.

use serde::{Deserialize, Serialize};
use stillwood_core::neck::{Laminate, MatchSearch, MatchTarget, Placed, SearchState};

/// Placings that are looked at before it tells how far it is.
pub const SLICE: u64 = 20_000;

/// What is looked for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Job {
    /// Which job it is: an answer to an earlier one is not heard.
    pub number: u32,
    /// The laminates that may be glued.
    pub stock: Vec<Laminate>,
    /// What is asked for.
    pub wish: MatchTarget,
}

/// How far the search is, and the best sets so far.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    /// The job that it answers.
    pub number: u32,
    /// How far it is; none where the work broke down, or where nothing can be looked for.
    pub state: Option<SearchState>,
    /// The best sets so far, the best first; laminates count in the stock of the job.
    pub sets: Vec<Vec<Placed>>,
}

impl Answer {
    /// The work broke down.
    pub fn broke_down(number: u32) -> Self {
        Self {
            number,
            state: None,
            sets: Vec::new(),
        }
    }

    /// No other answer to this job follows.
    pub fn is_last(&self) -> bool {
        self.state.is_none_or(|state| state.done)
    }
}

/// A job under way, a slice at a time.
#[derive(Debug)]
pub struct SearchInSlices {
    number: u32,
    search: Option<MatchSearch>,
}

impl SearchInSlices {
    /// Begins a job.
    pub fn new(job: &Job) -> Self {
        Self {
            number: job.number,
            search: MatchSearch::new(&job.stock, &job.wish).ok(),
        }
    }

    /// Looks at about so many more placings.
    pub fn go_on(&mut self, placings: u64) -> Answer {
        let Some(search) = &mut self.search else {
            return Answer::broke_down(self.number);
        };
        let state = search.go_on(placings);
        let sets = search.proposals().into_iter().map(|found| found.blank);
        Answer {
            number: self.number,
            state: Some(state),
            sets: sets.collect(),
        }
    }
}

/// Does a job to its end; `told` hears how far it is after every slice, and ends it by saying `false`.
pub fn work_telling(job: &Job, mut told: impl FnMut(&Answer) -> bool) -> Answer {
    let mut working = SearchInSlices::new(job);
    loop {
        let answer = working.go_on(SLICE);
        if answer.is_last() || !told(&answer) {
            return answer;
        }
    }
}

/// Does a job to its end.
pub fn work(job: &Job) -> Answer {
    work_telling(job, |_| true)
}

#[cfg(test)]
mod tests {
    use super::*;
    use stillwood_core::quantity::mm;

    /// Laminates that all twist to one hand: no bound rules much out, and it takes long.
    fn job(stock: u32, places: usize) -> Job {
        let laminate = |n: u32| Laminate {
            thickness: mm(15.0 + 0.01 * f64::from(n)),
            width: mm(48.0),
            wood: 1,
            crook: Some(mm(0.05 * f64::from(n % 7) - 0.1)),
            bow: None,
            twist: Some(mm(0.3 + 0.02 * f64::from(n % 5))),
            lean: None,
            ring_class: None,
            rise: None,
            moisture: None,
            density: None,
            modulus: None,
        };
        Job {
            number: 3,
            stock: (0..stock).map(laminate).collect(),
            wish: MatchTarget::of(places),
        }
    }

    #[test]
    fn a_job_goes_through_the_worker_and_is_done_to_its_end() {
        let job = job(6, 3);
        let json = serde_json::to_string(&job).unwrap_or_default();
        let there: Job = serde_json::from_str(&json).unwrap_or(Job {
            number: 0,
            ..job.clone()
        });
        let answer = work(&there);
        assert_eq!(answer.number, 3);
        assert!(answer.is_last() && answer.state.is_some_and(|state| state.done));
        assert_eq!(answer.sets.len(), 5);
        assert!(answer.sets.iter().all(|set| set.len() == 3));
        // In other slices it finds the same.
        let mut working = SearchInSlices::new(&job);
        let mut sliced = working.go_on(7);
        while !sliced.is_last() {
            sliced = working.go_on(7);
        }
        assert_eq!(sliced.sets, answer.sets);
    }

    #[test]
    fn whoever_hears_how_far_it_is_can_end_it() {
        let mut heard = 0;
        let answer = work_telling(&job(24, 13), |answer| {
            heard += 1;
            assert!(!answer.is_last());
            heard < 2
        });
        assert_eq!(heard, 2);
        assert!(!answer.is_last() && !answer.sets.is_empty());
    }

    #[test]
    fn a_job_that_makes_no_sense_breaks_down_and_says_so() {
        let answer = work(&job(2, 5));
        assert!(answer.is_last() && answer.state.is_none());
    }
}
