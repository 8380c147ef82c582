//! The record: a log of entries that never change, the state that they add up to, what is asked of it, and
//! what a filled form becomes.

pub mod commands;
pub mod log;
pub mod queries;
pub mod state;

pub use commands::*;
pub use log::*;
pub use queries::*;
pub use state::*;
