//! The file: the whole record or a selection of it, as JSON that plain text tools can compare.
//!
//! The first line holds the header, then follows one entry a line. Writing the same entries always
//! gives the same bytes. Reading never fails as a whole on a file of ours: it gives what could be read
//! and a list of what could not, each with its place.

pub(crate) mod header;
pub(crate) mod read;
pub(crate) mod splitter;
pub(crate) mod under_way;
pub(crate) mod write;
