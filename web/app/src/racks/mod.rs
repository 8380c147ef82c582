//! The screens of `racks`.

use crate::effect::Effect;
use crate::model::Model;

/// What only these screens know.
#[derive(Debug, Default)]
pub struct Local {}

/// What may be done on these screens.
#[derive(Debug, Clone)]
pub enum Action {}

/// What a screen does when it opens.
pub fn opened(_model: &mut Model) -> Vec<Effect> {
    Vec::new()
}

/// What an action does.
pub fn update(_model: &mut Model, action: Action) -> Vec<Effect> {
    match action {}
}

/// Something typed into a field.
pub fn typed(_model: &mut Model, _name: &str, _text: String) -> Vec<Effect> {
    Vec::new()
}
