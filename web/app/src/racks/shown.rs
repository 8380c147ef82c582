//! What was chosen to be shown on the screens of the racks: kept on the device under the names that older versions
//! gave.

use crate::model::Model;
use stillwood_core::record::as_json;

/// The place in a list that is chosen; the first where none is.
pub fn place(model: &Model, screen: &str, name: &str) -> usize {
    model.chosen(screen, name).parse().unwrap_or_default()
}

/// Names that are chosen.
pub fn list(model: &Model, screen: &str, name: &str) -> Vec<String> {
    // nothing lost: a list that can't be read is chosen anew
    serde_json::from_str(model.chosen(screen, name)).unwrap_or_default()
}

/// The names with one more, or with one fewer, as they are kept.
pub fn toggled(list: &[String], one: &str) -> String {
    let mut list = list.to_vec();
    match list.iter().position(|known| known == one) {
        Some(at) => drop(list.remove(at)),
        None => list.push(one.to_owned()),
    }
    as_json(&list)
}
