//! The wish in force.

use super::Wished;
use crate::notebook::Book;
use chrono::NaiveDate;

impl Book {
    /// The wish in force and the day on which it was said; `None` while none was.
    pub fn wish(&self) -> Option<(&Wished, NaiveDate)> {
        self.wish.as_ref().map(|said| (&said.said, said.on))
    }
}
