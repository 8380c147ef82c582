//! Two entries that can't both be true of one piece of wood.
//!
//! The first in the order of the entries is in force, for wood that is gone can't be cut again; the other
//! is set aside. Both stay in the record. The maker settles it by taking one of them back.

use crate::record::log::id::Id;

/// Why two entries can't both be true.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PieceConflictKind {
    /// The piece was cut, glued, discarded or used already.
    GoneAlready,
    /// The piece begins with an entry that is itself set aside, or comes later.
    Unresolved,
    /// The family of the piece goes in a circle: it comes from itself.
    InACircle,
    TakenBack,
    BegunAlready,
    /// It is kept for somebody else.
    ReservedAlready,
}

impl PieceConflictKind {
    /// In the maker's words.
    pub fn in_words(self) -> &'static str {
        match self {
            PieceConflictKind::GoneAlready => "it was cut, glued, discarded or used already",
            PieceConflictKind::Unresolved => "where it comes from is itself in doubt",
            PieceConflictKind::InACircle => {
                "its family goes in a circle: it would come from itself"
            }
            PieceConflictKind::TakenBack => "it was deleted",
            PieceConflictKind::BegunAlready => "it has begun already",
            PieceConflictKind::ReservedAlready => "it is reserved for somebody else",
        }
    }
}

/// A clash between two entries.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PieceConflict {
    pub about: Id,
    /// The entry in force; `None` where the piece was taken back.
    pub in_force: Option<Id>,
    pub set_aside: Id,
    pub why: PieceConflictKind,
}
