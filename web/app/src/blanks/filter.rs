//! What a blank has to be, to be in the list: its wood, size, weight, stiffness, free or reserved. Kept on the device.

use super::row::Row;
use super::{BLANKS, figures};
use crate::model::Model;
use crate::words::{Spoken, wood_names};
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
    /// By the name that is shown; empty for any.
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
    let text = model.chosen(BLANKS, name).trim();
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

/// What is typed in a field, as it is understood; empty where nothing is, or only a number.
pub fn understood(model: &Model, name: &str) -> String {
    let Ok(Some(value)) = typed(model, name) else {
        return String::new();
    };
    match name {
        WEIGHT => show::mass(value, model.units()),
        STIFFNESS => String::new(),
        _ => show::length(value, model.units()),
    }
    .spoken()
}

impl Filter {
    /// As it was chosen last. What is not understood asks for nothing: its field says so.
    pub fn of(model: &Model) -> Self {
        let value = |name| typed(model, name).unwrap_or_default();
        Self {
            wood: wood_names::shown(model.chosen(BLANKS, "Wood").trim()),
            state: model.chosen(BLANKS, "state").to_owned(),
            gone: model.chosen(BLANKS, "used") == "true",
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
            .any(|name| !model.chosen(BLANKS, name).trim().is_empty())
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
        let is_wanted = |wood: &str| wood_names::shown(wood) == self.wood;
        let state = match self.state.as_str() {
            FREE => !row.reserved,
            RESERVED => row.reserved,
            _ => true,
        };
        self.looks_at(row)
            && state
            && (self.wood.is_empty() || row.each_wood().any(is_wanted))
            && at_least(self.length, row.sizes[0])
            && at_least(self.width, row.sizes[1])
            && self
                .weight
                .is_none_or(|most| row.kilograms.is_some_and(|kg| kg <= most))
            && stiff_enough()
    }
}
