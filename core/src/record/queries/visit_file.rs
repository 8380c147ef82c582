//! One visit as a file of its own.

use crate::record::Book;
use crate::record::log::{Entry, Happening, Header, Notebook, Selection, write};
use crate::record::state::Pile;
use std::collections::BTreeSet;
use uuid::Uuid;

/// One visit as a file: its piles, their pieces, all that is said about them, and the maker's own
/// woods.
pub fn visit_to_file(notebook: &Notebook, visit: Uuid, app: &str, written: &str) -> String {
    visit_to_file_by(notebook, "", visit, app, written)
}

/// The same, with the device that writes it.
pub fn visit_to_file_by(
    notebook: &Notebook,
    device: &str,
    visit: Uuid,
    app: &str,
    written: &str,
) -> String {
    let book = Book::project(notebook);
    let mut about = BTreeSet::from([visit]);
    let mine = |pile: &&Pile| pile.opened.visit == visit;
    about.extend(book.piles.values().filter(mine).map(|pile| pile.id));
    for piece in book
        .pieces
        .values()
        .filter(|p| about.contains(&p.pile))
        .collect::<Vec<_>>()
    {
        about.insert(piece.id);
        about.extend(&piece.also);
    }
    let wood = |id: &&Uuid| !book.visits.contains_key(id) && !book.piles.contains_key(id);
    about.extend(book.begun.keys().filter(wood));
    // What takes entries out of force, and whose they are, goes with every selection.
    let of_all = notebook.entries().filter(|entry| {
        matches!(
            entry.happening,
            Happening::ImportUndone(_) | Happening::DeviceRenamed(_)
        )
    });
    about.extend(of_all.map(|entry| entry.about));
    let wanted = |entry: &&Entry| match &entry.happening {
        Happening::Told(told) => about.contains(&entry.about) || about.contains(&told.other),
        _ => about.contains(&entry.about),
    };
    let header = Header::new(app, written, Selection::Visit).by(device);
    write(&header, notebook.everything().filter(wanted))
}
