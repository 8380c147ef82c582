//! Today: what stands on this device only, what is ready, what is not yet still, what is unfinished; and the search.

pub mod find;
pub mod home;
pub mod settle;
pub mod start;

use crate::effect::Effect;
use crate::model::Model;
use crate::route::Route;

/// What only these screens know.
#[derive(Debug, Default)]
pub struct Local {
    /// What is looked for.
    pub find: String,
    /// More of what was found is shown.
    pub more: usize,
}

/// What may be done on these screens.
#[derive(Debug, Clone)]
pub enum Action {
    /// Open what was found, where it is one piece.
    OpenFound,
    /// Show more of what was found.
    More,
}

/// What a screen does when it opens.
pub fn opened(model: &mut Model) -> Vec<Effect> {
    if model.route != Route::Find {
        return Vec::new();
    }
    model.today.more = 0;
    Vec::new()
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::OpenFound => find::only_one(model).map(Effect::Go).into_iter().collect(),
        Action::More => {
            model.today.more += find::SHOWN;
            Vec::new()
        }
    }
}

/// Something typed into a field.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    if model.route == Route::Find && name == find::FIELD {
        model.today.find = text;
        model.today.more = 0;
    }
    Vec::new()
}
