//! German: what core says, by its English.

pub mod composed;
mod neck;
mod plank;
mod quantity;
mod questions;
mod record_commands;
mod record_log;
mod record_queries;
mod record_state;
mod season;
mod shell;
mod trade;
mod verdict;
mod wood;

use crate::words::line::Line;

/// All of it.
pub const ALL: &[&[Line]] = &[
    composed::LINES,
    neck::LINES,
    plank::LINES,
    quantity::LINES,
    questions::LINES,
    record_commands::LINES,
    record_log::LINES,
    record_queries::LINES,
    record_state::LINES,
    season::LINES,
    trade::LINES,
    verdict::LINES,
    wood::LINES,
    shell::LINES,
];

/// Words that join two names.
pub const JOINTS: &[Line] = &[(" of ", " von "), (" and ", " und "), (" to ", " bis ")];
