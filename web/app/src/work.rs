//! Long work beside the page: what it is handed, what it answers, and the work itself. Whoever has no worker does it
//! at once.

use crate::{blanks, start_job};
use serde::{Deserialize, Serialize};

/// What is to be worked out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Job {
    /// Laminates that go together.
    Match(blanks::Job),
    /// How many planks to start.
    Start(Box<start_job::Job>),
}

/// What the work gave, or how far it is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Answer {
    /// Laminates that go together.
    Match(blanks::Answer),
    /// How many planks to start.
    Start(start_job::Answer),
}

impl Job {
    /// What is answered where the work breaks down.
    pub fn broke_down(&self) -> Answer {
        match self {
            Job::Match(job) => Answer::Match(blanks::Answer::broke_down(job.number)),
            Job::Start(job) => Answer::Start(start_job::Answer::broke_down(job.number)),
        }
    }
}

/// Does a job to its end; `told` hears how far it is on the way.
pub fn work_telling(job: &Job, told: impl Fn(&Answer)) -> Answer {
    match job {
        Job::Match(job) => Answer::Match(blanks::work_telling(job, |answer| {
            told(&Answer::Match(answer.clone()));
            true
        })),
        Job::Start(job) => Answer::Start(start_job::work_telling(job, |answer| {
            told(&Answer::Start(answer));
        })),
    }
}

/// Does a job to its end.
pub fn work(job: &Job) -> Answer {
    work_telling(job, |_| ())
}
