//! An import is undone as a whole; [`super::delete::restore`] puts it back.

use super::filled::{Filled, NewEvent};
use crate::record::log::{EntryIds, Event, Id, ImportUndone};

/// What an import brought is taken out of force; `name` is that of its file, `about` a new id.
pub fn command(brought: EntryIds, name: String, about: Id) -> Filled {
    let undone = Event::ImportUndone(Box::new(ImportUndone { brought, name }));
    Filled::of(vec![NewEvent::new(about, undone)])
}
