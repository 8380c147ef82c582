//! What was chosen to be shown on the screens of the blanks.

use super::{CHOICE, row};
use crate::model::Model;
use stillwood_core::record::Id;

/// The blanks that were chosen to stand side by side and are there still, in the order in which they were.
pub fn chosen_side_by_side(model: &Model) -> Vec<Id> {
    let ids = model.chosen(CHOICE, "blanks").split_whitespace();
    let ids = ids.filter_map(|id| id.parse().ok());
    ids.filter(|id| row::is_there(model, *id)).collect()
}

/// Whether what is the maker's own is hidden from a customer: it is, until the maker says otherwise.
pub fn customers_view(model: &Model) -> bool {
    model.chosen(CHOICE, "hide") != "false"
}
