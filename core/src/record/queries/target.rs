//! The target in force, and the one to begin with.

use crate::record::log::Wished;
use crate::record::queries::wish_of_spec;
use crate::record::state::State;
use chrono::NaiveDate;

/// The wish in force and the day on which it was said; `None` while none was.
pub fn wish(state: &State) -> Option<(&Wished, NaiveDate)> {
    state.wish.as_ref().map(|said| (&said.payload, said.on))
}

/// The target in force; else as the spec of the last visit has it, else ten blanks of five laminates.
pub fn target_now(state: &State) -> Wished {
    let last = || state.visits().max_by_key(|visit| visit.recorded.on);
    let of_spec = || last().map(|visit| wish_of_spec(&visit.opened.spec));
    let said = wish(state).map(|(wish, _)| wish.clone());
    said.or_else(of_spec).unwrap_or(Wished {
        blanks: 10,
        by: None,
        laminates_per_blank: 5,
        sure_percent: 90,
        wood: None,
    })
}
