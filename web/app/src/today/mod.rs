//! Today: what stands on this device only, what is ready, what is not yet still, what is unfinished; and the search.

pub mod find;
pub mod home;
pub mod start;
mod update;

pub use update::{typed, update};

/// What only these screens know.
#[derive(Debug, Default)]
pub struct Local {
    /// What is looked for.
    pub find: String,
}

/// What may be done on these screens.
#[derive(Debug, Clone)]
pub enum Action {
    /// Open what was found, where it is one piece.
    OpenFound,
    /// Read a label with the camera.
    ReadLabel,
    /// What the code in the picture says; none where it shows none.
    LabelRead(Option<String>),
}
