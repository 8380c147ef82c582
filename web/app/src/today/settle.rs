//! What the record does not agree about: counted here, settled where files come in.

use crate::model::Model;
use crate::words::count;
use stillwood_core::record::queries;

/// Each in a line with its count.
pub fn to_settle(model: &Model) -> Vec<String> {
    let words = &model.words().today;
    let (state, log) = (model.state(), model.record.log());
    let conflicts = log.conflicts();
    let open = conflicts.iter().filter(|one| !one.settled).count();
    let all = [
        (open, words.conflicts_one, words.conflicts_other),
        (
            state.disputes().len(),
            words.disputes_one,
            words.disputes_other,
        ),
        (
            queries::pairs(state).len(),
            words.pairs_one,
            words.pairs_other,
        ),
        (
            queries::shared_signs(state).len(),
            words.signs_one,
            words.signs_other,
        ),
        (
            queries::cloned_devices(state).len(),
            words.clones_one,
            words.clones_other,
        ),
        (
            queries::doubled_marks(state).len(),
            words.marks_one,
            words.marks_other,
        ),
        (
            queries::orphans(state).len(),
            words.orphans_one,
            words.orphans_other,
        ),
        (
            log.damaged_numbering().len(),
            words.numbering_one,
            words.numbering_other,
        ),
        (state.newer().len(), words.newer_one, words.newer_other),
    ];
    let told = all.into_iter().filter(|(n, ..)| *n > 0);
    told.map(|(n, one, other)| count(n as u64, one, other))
        .collect()
}
