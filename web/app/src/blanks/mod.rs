//! The screens of `blanks`.

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

/// Work that takes long and is done beside the page.
#[derive(Debug, Clone)]
pub enum Job {}

/// What such work gives.
#[derive(Debug, Clone)]
pub enum Answer {}

/// Takes what the work beside the page gave.
pub fn answered(_model: &mut Model, answer: Answer) -> Vec<Effect> {
    match answer {}
}
