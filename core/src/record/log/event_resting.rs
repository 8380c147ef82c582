//! What is said while wood rests: where it lies, what it weighs, how it moved, how the air is, and the
//! maker's terms for a stage.
//!
//! Bodies of happenings: what was typed, with the tool that it was taken with. Keys are declared in the
//! order of the alphabet, as the file writes them.

use crate::plank::{Reading, Readings};
use crate::season::{Stage, StageLimits};
use serde::{Deserialize, Serialize};

/// The air of a room.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(default)]
pub struct Climate {
    /// Relative humidity, %.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub humidity: Option<Reading>,
    /// Temperature.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Reading>,
}

impl Climate {
    /// Nothing was taken.
    pub fn is_empty(&self) -> bool {
        self.humidity.is_none() && self.temperature.is_none()
    }
}

/// A piece is put in its place: it arrived, was moved, or was found again. `about` is the piece.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Placed {
    /// The rack, as the maker calls it.
    pub place: String,
}

/// A piece is set to rest; its months count from the day. `about` is the piece.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct SetToRest {
    /// The room's climate.
    #[serde(default, skip_serializing_if = "Climate::is_empty")]
    pub climate: Climate,
    /// The rack; empty where it stays in its place.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub place: String,
    /// The stage.
    pub stage: Stage,
}

/// A stick of long-seasoned wood weighed beside a piece: what it gains, the air gave.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Witness {
    /// Its mass.
    pub mass: Reading,
    /// What it is called.
    #[serde(default)]
    pub name: String,
}

/// A piece is weighed. `about` is the piece.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Weighed {
    /// What the scale showed.
    pub mass: Reading,
    /// The scale.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub scale: String,
    /// The least step that the scale shows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<Reading>,
    /// The witness stick, weighed at the same time.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub witness: Option<Witness>,
}

/// A piece's moisture is read. `about` is the piece.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct MoistureRead {
    /// How deep the pins went.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub depth: Option<Reading>,
    /// The meter.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub meter: String,
    /// What it showed.
    pub shown: Reading,
    /// How warm the wood is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wood_temperature: Option<Reading>,
}

/// A piece is looked at for movement. `about` is the piece.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(default)]
pub struct MovementChecked {
    /// Looked at by eye, and its shape is as it was at the last check.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub nothing_moved: bool,
    /// Bow, crook, cup and twist as typed, with the straightedge or stick.
    #[serde(skip_serializing_if = "Readings::is_empty")]
    pub readings: Readings,
    /// The face and edge that the signs refer to.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub reference: String,
    /// Who looked.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub who: String,
    /// How far off a gap may be, either way.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub within: Option<Reading>,
}

/// The air of a room is read. `about` is the room.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct RoomRead {
    /// What was read.
    pub climate: Climate,
    /// The hygrometer.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub hygrometer: String,
    /// The room, as the maker calls it.
    pub room: String,
    /// A witness stick that lies in it, weighed at the same time.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub witness: Option<Witness>,
}

/// The maker sets the terms of a stage. `about` is the setting.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct StageSet {
    /// The stage.
    pub stage: Stage,
    /// Its terms from now on, for all that rests in it.
    pub terms: StageLimits,
}
