//! An import is undone as a whole; [`super::delete::restore`] puts it back.

use super::filled::{Filled, NewEvent};
use crate::record::log::{EntryIds, Event, Id, ImportUndone};

/// What an import brought is taken out of force; `name` is that of its file.
pub fn command(brought: EntryIds, name: &str, new_id: &mut impl FnMut() -> Id) -> Filled {
    let name = name.to_owned();
    let undone = Event::ImportUndone(Box::new(ImportUndone { brought, name }));
    Filled::of(vec![NewEvent::new(new_id(), undone)])
}
