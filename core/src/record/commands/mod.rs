//! The commands: what a filled form becomes, events or errors by field.

pub(crate) mod draft;
pub(crate) mod own_wood;

pub use draft::{Draft, DraftDefect, DraftValue};
pub use own_wood::{WoodFault, WoodTyped};
