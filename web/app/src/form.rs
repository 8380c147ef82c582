//! A form that stands open: what is typed is kept at every key and taken up again when the form is next opened,
//! until it is recorded. All that is wrong stands at its field.

use crate::effect::Effect;
use crate::model::{Model, Texts};

/// A form that stands open.
#[derive(Debug, Clone)]
pub struct OpenForm {
    /// Under which it is kept while it is half typed.
    pub key: String,
    /// What stands in its fields.
    pub texts: Texts,
    /// What is wrong, above the key that saves it.
    pub line: String,
    /// It is being written down.
    pub busy: bool,
}

/// What may be done with the form that stands open.
#[derive(Debug, Clone)]
pub enum FormAction {
    /// Save it.
    Save,
}

/// What an action does.
pub fn update(_model: &mut Model, _action: FormAction) -> Vec<Effect> {
    Vec::new()
}

/// Something typed into one of its fields.
pub fn typed(_model: &mut Model, _name: &str, _text: String) -> Vec<Effect> {
    Vec::new()
}

/// It is recorded: it is half typed no more.
pub fn recorded(_model: &mut Model, _key: &str, _effects: &mut Vec<Effect>) {}
