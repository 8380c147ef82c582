//! The blanks that are needed, as said last.

use crate::record::log::TargetSet;
use crate::record::state::State;
use chrono::NaiveDate;

/// The target in force and the day on which it was said; `None` while none was.
pub fn target(state: &State) -> Option<(&TargetSet, NaiveDate)> {
    state.target.as_ref().map(|said| (&said.payload, said.on))
}
