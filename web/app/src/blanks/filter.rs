//! What a blank has to be, to be in the list: its wood, size, weight, stiffness, free or reserved. Kept on the device.

use super::row::Row;
use super::{BLANKS, chosen, figures};
use crate::model::Model;
use crate::words::Spoken;
use stillwood_core::quantity::float_of;
use stillwood_core::quantity::read::{self, Units};
use stillwood_core::quantity::show;

/// Length at least.
pub const LENGTH: &str = "Length at least";
/// Width at least.
pub const WIDTH: &str = "Width at least";
/// Weight at most.
pub const WEIGHT: &str = "Weight at most";
/// Stiffness at least.
pub const STIFFNESS: &str = "Stiffness at least";

/// The fields that are typed, by their stored names.
pub const NAMES: [&str; 4] = [LENGTH, WIDTH, WEIGHT, STIFFNESS];

/// Free, reserved, or both: stored words.
pub const FREE: &str = "free";
/// See [`FREE`].
pub const RESERVED: &str = "reserved";

/// What is asked of a blank.
#[derive(Debug, Clone, Default)]
pub struct Filter {
    wood: String,
    /// Free or reserved only; empty for both.
    pub state: String,
    /// Used and discarded ones are shown too.
    pub gone: bool,
    length: Option<f64>,
    width: Option<f64>,
    weight: Option<f64>,
    stiffness: Option<f64>,
}

/// What is typed in a field: nothing, a value, or why it is not understood.
pub fn typed(model: &Model, name: &str) -> Result<Option<f64>, String> {
    let text = chosen(model, BLANKS, name).trim();
    if text.is_empty() {
        return Ok(None);
    }
    let units: Units = model.units();
    let value = match name {
        WEIGHT => read::mass(text, units)
            .map(|read| read.value)
            .map_err(|why| why.spoken()),
        STIFFNESS => {
            let number = float_of(&text.replace(',', "."));
            number.ok_or_else(|| model.words().blanks.no_number.to_owned())
        }
        _ => read::length(text, units)
            .map(|read| read.value)
            .map_err(|why| why.spoken()),
    };
    value.map(Some)
}

impl Filter {
    /// As it was chosen last. What is not understood asks for nothing: its field says so.
    pub fn of(model: &Model) -> Self {
        let value = |name| typed(model, name).unwrap_or_default();
        Self {
            wood: chosen(model, BLANKS, "Wood").trim().to_lowercase(),
            state: chosen(model, BLANKS, "state").to_owned(),
            gone: chosen(model, BLANKS, "used") == "true",
            length: value(LENGTH),
            width: value(WIDTH),
            weight: value(WEIGHT),
            stiffness: value(STIFFNESS),
        }
    }

    /// Whether something is typed in a field.
    pub fn any_typed(model: &Model) -> bool {
        NAMES
            .iter()
            .any(|name| !chosen(model, BLANKS, name).trim().is_empty())
    }

    /// Whether a blank is looked at: those that were used or discarded only where they are asked for.
    pub fn looks_at(&self, row: &Row) -> bool {
        row.is_there() || self.gone
    }

    /// Whether a blank fits; what is not known of it does not fit.
    pub fn fits(&self, model: &Model, row: &Row) -> bool {
        let at_least = |least: Option<f64>, size: Option<f64>| {
            least.is_none_or(|least| size.is_some_and(|size| size >= least))
        };
        let stiff_enough = || {
            self.stiffness.is_none_or(|least| {
                // To the whole number, as it is shown.
                let piece = model.state().piece(row.id);
                let stiff = piece.and_then(|piece| figures::stiffness(model, piece));
                stiff.is_some_and(|stiff| show::reaches_as_whole(stiff, least))
            })
        };
        let state = match self.state.as_str() {
            FREE => !row.reserved,
            RESERVED => row.reserved,
            _ => true,
        };
        self.looks_at(row)
            && state
            && row.woods.to_lowercase().contains(&self.wood)
            && at_least(self.length, row.sizes[0])
            && at_least(self.width, row.sizes[1])
            && self
                .weight
                .is_none_or(|most| row.kilograms.is_some_and(|kg| kg <= most))
            && stiff_enough()
    }
}
