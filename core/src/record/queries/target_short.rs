//! Whether the wood in hand is enough for the target that is kept, and how many planks it is short of.

use crate::quantity::{Length, Mass};
use crate::record::log::TargetSet;
use crate::record::queries;
use crate::record::queries::{Expected, TargetAnswer, TargetQuestion, share_of_a_stage_now};
use crate::record::state::State;
use crate::season::{StartFound, StartTask};
use chrono::NaiveDate;

/// What a target is short of.
#[derive(Debug, Clone, PartialEq)]
pub struct TargetShort {
    /// The target.
    pub target: TargetSet,
    /// What it takes, by the least rests.
    pub answer: TargetAnswer,
}

impl TargetShort {
    /// Planks that are still to be bought; none where no number is enough, or it can't be told.
    pub fn planks(&self) -> Option<u32> {
        self.answer.start.as_ref().ok()?.planks
    }

    /// Planks bought now can still be blanks in time.
    pub fn is_in_time(&self) -> bool {
        self.answer.planks_in_time
    }
}

/// [`TargetShort`] without the search for the planks to start.
#[derive(Debug, Clone, PartialEq)]
pub struct ShortQuestion {
    target: TargetSet,
    question: TargetQuestion,
}

impl ShortQuestion {
    /// What is searched for; `None` where there is nothing to search for.
    pub fn task(&self) -> Option<&StartTask> {
        self.question.task()
    }

    /// The answer, by what the search found: see [`TargetQuestion::answered`].
    pub fn answered(&self, found: Option<StartFound>) -> TargetShort {
        TargetShort {
            target: self.target.clone(),
            answer: self.question.answered(found),
        }
    }
}

/// The day, the feeler and the scale for which it was asked.
#[derive(Clone, PartialEq)]
struct ShortFor(NaiveDate, Length, Mass);

/// What the target that is kept is short of; `None` while none is kept.
pub fn target_short(
    state: &State,
    today: NaiveDate,
    feeler: Length,
    scale: Mass,
) -> Option<TargetShort> {
    short_question(state, today, feeler, scale).map(|asked| asked.answered(None))
}

/// The same without the search. For the few days asked for last it is kept until the record changes.
pub fn short_question(
    state: &State,
    today: NaiveDate,
    feeler: Length,
    scale: Mass,
) -> Option<ShortQuestion> {
    let asked = ShortFor(today, feeler, scale);
    let find = || short_on(state, today, feeler, scale);
    Option::clone(&state.memo.answer(state.version(), asked, find))
}

fn short_on(state: &State, today: NaiveDate, feeler: Length, scale: Mass) -> Option<ShortQuestion> {
    let (target, _) = queries::target(state)?;
    let lines = queries::resting(state, today, feeler, scale);
    let per_plank = queries::laminates_to_expect(state, None);
    let woods = target.wood.as_slice();
    let (wood, _) = queries::wood_in_hand(state, woods, &lines, per_plank, today);
    let expected = Expected {
        per_plank,
        share_unknown: share_of_a_stage_now(state),
        by_own_counts: true,
    };
    let rests = queries::least_rests(state);
    Some(ShortQuestion {
        target: target.clone(),
        question: queries::target_question(state, target, &wood, expected, &rests, today),
    })
}
