//! German: what core says, by its English.

mod composed;
mod neck;
mod plank_1;
mod plank_2;
mod plank_3;
mod quantity;
mod questions;
mod record_commands;
mod record_log;
mod record_queries_1;
mod record_queries_2;
mod record_state;
mod season_1;
mod season_2;
mod shell;
mod trade;
mod verdict;
mod wood_1;
mod wood_2;

use crate::words::line::Line;

/// All of it.
pub const ALL: &[&[Line]] = &[
    composed::LINES,
    neck::LINES,
    plank_1::LINES,
    plank_2::LINES,
    plank_3::LINES,
    quantity::LINES,
    questions::LINES,
    record_commands::LINES,
    record_log::LINES,
    record_queries_1::LINES,
    record_queries_2::LINES,
    record_state::LINES,
    season_1::LINES,
    season_2::LINES,
    trade::LINES,
    verdict::LINES,
    wood_1::LINES,
    wood_2::LINES,
    shell::LINES,
];

/// Words that join two names.
pub const JOINTS: &[Line] = &[(" of ", " von "), (" and ", " und "), (" to ", " bis ")];
