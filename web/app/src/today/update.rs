//! What is done on the screens of today.

use super::{Action, find};
use crate::effect::Effect;
use crate::model::Model;
use crate::route::Route;
use crate::tell::say;

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::OpenFound => find::only_one(model).map(Effect::Go).into_iter().collect(),
        Action::ReadLabel => vec![Effect::ReadLabel],
        Action::LabelRead(None) => say(model, model.words().today.no_code),
        Action::LabelRead(Some(text)) => {
            model.today.find = text;
            find::only_one(model).map(Effect::Go).into_iter().collect()
        }
    }
}

/// Something typed into a field.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    if model.route == Route::Find && name == find::FIELD {
        model.today.find = text;
    }
    Vec::new()
}
