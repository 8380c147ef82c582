//! What can be done with a piece in the workshop: one table, a file a form.

mod check_movement;
mod command;
mod discard;
mod downgrade;
mod machine_flat;
mod missing;
mod put_on_rack;
mod read_moisture;
mod release;
mod reserve;
mod rings_and_grain;
mod set_to_rest;
mod test_stress;
mod use_piece;
mod weigh;

pub use check_movement::{MOVED, NOTHING_MOVED};
pub use command::WorkshopCommand;

pub(super) use check_movement::checked;
pub(super) use put_on_rack::RACK;

/// All of them, in the order in which they are offered.
pub static WORKSHOP_COMMANDS: [WorkshopCommand; 14] = [
    put_on_rack::COMMAND,
    weigh::COMMAND,
    read_moisture::COMMAND,
    check_movement::COMMAND,
    machine_flat::COMMAND,
    rings_and_grain::COMMAND,
    test_stress::COMMAND,
    set_to_rest::COMMAND,
    discard::COMMAND,
    downgrade::COMMAND,
    missing::COMMAND,
    reserve::COMMAND,
    release::COMMAND,
    use_piece::COMMAND,
];

/// The one of a stored name.
pub fn workshop_command(key: &str) -> Option<&'static WorkshopCommand> {
    WORKSHOP_COMMANDS.iter().find(|command| command.key == key)
}
