//! What was chosen to be shown on the screens of the blanks.

use super::{CHOICE, row};
use crate::model::Model;
use stillwood_core::record::Id;

/// What was chosen to be shown; empty where nothing was.
pub fn chosen<'a>(model: &'a Model, screen: &str, name: &str) -> &'a str {
    let shown = model.shown.get(screen).and_then(|shown| shown.get(name));
    shown.map_or("", String::as_str)
}

/// The blanks that were chosen to stand side by side and are there still, in the order in which they were.
pub fn chosen_side_by_side(model: &Model) -> Vec<Id> {
    let ids = chosen(model, CHOICE, "blanks").split_whitespace();
    let ids = ids.filter_map(|id| id.parse().ok());
    ids.filter(|id| row::is_there(model, *id)).collect()
}

/// Whether what is the maker's own is hidden from a customer: it is, until the maker says otherwise.
pub fn customers_view(model: &Model) -> bool {
    chosen(model, CHOICE, "hide") != "false"
}
