//! The state: what the entries of a log say of every visit, pile and piece, and nothing more.
//!
//! It is projected from the log and never edited. Whatever has to be worked out is a query.

pub(crate) mod deleted;
pub(crate) mod devices;
pub(crate) mod lineage;
pub(crate) mod memo;
pub(crate) mod numbers;
pub(crate) mod origin;
pub(crate) mod piece_conflict;
pub(crate) mod piece_life;
pub(crate) mod project;
pub(crate) mod project_work;
pub(crate) mod visits_piles_pieces;
pub(crate) mod work;

pub use piece_conflict::{PieceConflict, PieceConflictKind};
pub use visits_piles_pieces::{
    CurrentReading, HistoryLine, Judgement, Note, PassedLot, Piece, Pile, Recorded, State, Visit,
    Wood,
};
pub use work::{Dated, End, Life, Origin, Work};
