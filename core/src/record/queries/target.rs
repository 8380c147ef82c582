//! The wish in force.

use crate::record::log::Wished;
use crate::record::state::State;
use chrono::NaiveDate;

/// The wish in force and the day on which it was said; `None` while none was.
pub fn wish(state: &State) -> Option<(&Wished, NaiveDate)> {
    state.wish.as_ref().map(|said| (&said.payload, said.on))
}
