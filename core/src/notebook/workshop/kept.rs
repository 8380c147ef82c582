//! What is worked out of a whole record and kept until the record changes. It is no part of the state: a copy of
//! the record finds it anew, and two records that differ in nothing else are the same.

use crate::notebook::Book;
use std::fmt;
use std::sync::{Arc, Mutex, PoisonError};
use uuid::Uuid;

/// The last entry of a record, and how many pieces it has: entries are only ever added after the last.
type As = (Option<(u64, Uuid)>, usize);

fn state_of(book: &Book) -> As {
    (book.last, book.pieces.len())
}

/// Something that was worked out, with the record's state then.
pub(in crate::notebook) struct Kept<T>(Mutex<Option<(As, Arc<T>)>>);

impl<T> Kept<T> {
    /// What is kept of a record as it is now, else made anew.
    pub(super) fn of(&self, book: &Book, make: impl FnOnce() -> T) -> Arc<T> {
        let now = state_of(book);
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        match kept.as_ref() {
            Some((then, known)) if *then == now => Arc::clone(known),
            _ => {
                let new = Arc::new(make());
                *kept = Some((now, Arc::clone(&new)));
                new
            }
        }
    }

    /// What is kept of a record as it is now; `None` where nothing is.
    pub(super) fn known(&self, book: &Book) -> Option<Arc<T>> {
        let now = state_of(book);
        let kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let (then, known) = kept.as_ref()?;
        (*then == now).then(|| Arc::clone(known))
    }
}

impl<T> Default for Kept<T> {
    fn default() -> Self {
        Self(Mutex::new(None))
    }
}

impl<T> Clone for Kept<T> {
    fn clone(&self) -> Self {
        Self::default()
    }
}

impl<T> PartialEq for Kept<T> {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl<T> fmt::Debug for Kept<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Kept")
    }
}
