//! One visit as a file of its own.

use crate::record::State;
use crate::record::log::id::Id;
use crate::record::log::{Entry, Event, Header, Log, Selection, write};
use crate::record::state::Pile;

/// One visit of a record, and of what it says, as a file of the device that writes it: its piles, their pieces, all that is said about them, and the
/// maker's own woods.
pub fn visit_to_file(
    log: &Log,
    state: &State,
    device: &str,
    visit: Id,
    app: &str,
    written: &str,
) -> String {
    let mut about = crate::order::set_of([visit]);
    let mine = |pile: &&Pile| pile.opened.visit == visit;
    about.extend(state.piles.values().filter(mine).map(|pile| pile.id));
    for piece in state
        .pieces
        .values()
        .filter(|p| about.contains(&p.pile))
        .collect::<Vec<_>>()
    {
        about.insert(piece.id);
        about.extend(&piece.also);
    }
    let wood = |id: &&Id| !state.visits.contains_key(id) && !state.piles.contains_key(id);
    about.extend(state.begun.keys().filter(wood));
    // What takes entries out of force, and whose they are, goes with every selection.
    let of_all = log.entries().filter(|entry| {
        matches!(
            entry.event,
            Event::ImportUndone(_) | Event::DeviceRenamed(_)
        )
    });
    about.extend(of_all.map(|entry| entry.about));
    let wanted = |entry: &&Entry| match &entry.event {
        Event::SamePlank(told) => about.contains(&entry.about) || about.contains(&told.other),
        _ => about.contains(&entry.about),
    };
    let header = Header::new(app, written, Selection::Visit).by(device);
    write(&header, log.everything().filter(wanted))
}
