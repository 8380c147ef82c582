//! The wish in force.

use crate::record::log::Wished;
use crate::record::state::Book;
use chrono::NaiveDate;

/// The wish in force and the day on which it was said; `None` while none was.
pub fn wish(book: &Book) -> Option<(&Wished, NaiveDate)> {
    book.wish.as_ref().map(|said| (&said.said, said.on))
}
