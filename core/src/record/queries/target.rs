//! The target in force, and the one to begin with.

use crate::record::log::TargetSet;
use crate::record::queries::target_of_spec;
use crate::record::state::State;
use chrono::NaiveDate;

/// The target in force and the day on which it was said; `None` while none was.
pub fn target(state: &State) -> Option<(&TargetSet, NaiveDate)> {
    state.target.as_ref().map(|said| (&said.payload, said.on))
}

/// The target in force; else as the spec of the last visit has it, else ten blanks of five laminates.
pub fn target_now(state: &State) -> TargetSet {
    let of_spec = || {
        state
            .last_visit()
            .map(|visit| target_of_spec(&visit.opened.spec))
    };
    let said = target(state).map(|(target, _)| target.clone());
    said.or_else(of_spec).unwrap_or(TargetSet {
        blanks: 10,
        by: None,
        laminates_per_blank: 5,
        sure_percent: 90,
        wood: None,
    })
}
