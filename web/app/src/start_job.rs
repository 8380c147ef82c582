//! The search for the planks to start, as work beside the page: what it is handed, what it answers, and the work itself.

use serde::{Deserialize, Serialize};
use stillwood_core::season::{StartFound, StartSearch, StartTask};

/// About so many multiplications are done before it is told how far it is.
const SLICE: u64 = 20_000_000;

/// A search beside the page.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Job {
    /// Which job it is: an answer to an earlier one is not heard.
    pub number: u32,
    /// What is searched for.
    pub task: StartTask,
}

/// How far a search is, or what it found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    /// The job that it answers.
    pub number: u32,
    /// What is answered.
    pub says: Says,
}

/// What is answered.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Says {
    /// So many planks are looked at.
    Planks(u32),
    /// What was found.
    Found(StartFound),
    /// The work broke down.
    BrokeDown,
}

impl Answer {
    /// The work broke down.
    pub fn broke_down(number: u32) -> Self {
        let says = Says::BrokeDown;
        Self { number, says }
    }
}

/// Does a job to its end; `told` hears how far it is on the way.
pub fn work_telling(job: &Job, told: impl Fn(Answer)) -> Answer {
    let number = job.number;
    let Ok(mut search) = StartSearch::new(job.task.clone()) else {
        return Answer::broke_down(number);
    };
    loop {
        search.go_on(SLICE);
        if search.is_done() {
            let says = Says::Found(search.finish());
            return Answer { number, says };
        }
        let says = Says::Planks(search.planks());
        told(Answer { number, says });
    }
}
