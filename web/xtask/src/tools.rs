//! to come.
