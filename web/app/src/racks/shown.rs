//! What was chosen to be shown on the screens of the racks: kept on the device under the names that older versions
//! gave.

use crate::effect::Effect;
use crate::model::Model;
use crate::tell;
use stillwood_core::record::as_json;

/// What is chosen; empty where nothing is.
pub fn text<'a>(model: &'a Model, screen: &str, name: &str) -> &'a str {
    let shown = model.shown.get(screen).and_then(|texts| texts.get(name));
    shown.map_or("", String::as_str)
}

/// The place in a list that is chosen; the first where none is.
pub fn place(model: &Model, screen: &str, name: &str) -> usize {
    text(model, screen, name).parse().unwrap_or_default()
}

/// Names that are chosen.
pub fn list(model: &Model, screen: &str, name: &str) -> Vec<String> {
    // nothing lost: a list that can't be read is chosen anew
    serde_json::from_str(text(model, screen, name)).unwrap_or_default()
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

/// Chooses.
pub fn choose(
    model: &mut Model,
    screen: &'static str,
    name: &'static str,
    value: String,
) -> Vec<Effect> {
    tell::choose(model, screen, name, value)
}
