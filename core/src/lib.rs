//! What is true of wood and of the record of it.
//!
//! It never asks what time it is, draws no random number, reads no file and knows no browser:
//! all of that is passed in. What a maker types becomes a quantity, quantities become the
//! description of a plank, the description becomes a verdict, and decisions become entries of the
//! record, whose fold is the state of every piece.

pub mod neck;
pub mod order;
pub mod record;

pub mod plank;
pub mod quantity;
pub mod season;
pub mod trade;
pub mod verdict;
pub mod wood;

pub use quantity::float_of;
