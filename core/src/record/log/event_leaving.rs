//! What is said when wood leaves, is promised, or can't be found.
//!
//! Bodies of happenings. A mistake is taken back like any other entry; then it did not happen. Keys are
//! declared in the order of the alphabet, as the file writes them.

use crate::plank::Reason;
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

/// A piece is thrown out. `about` is the piece, which ends here; its stage is the one it was in.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Discarded {
    /// Why, the main reason first.
    #[serde(default)]
    pub reasons: Vec<Reason>,
}

/// A piece is put to another use than a neck: headstock veneer, accent, fingerboard, gift. `about` is
/// the piece. It is still there and can be cut, glued or used.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Downgraded {
    /// Why, the main reason first.
    #[serde(default)]
    pub reasons: Vec<Reason>,
    /// What it will be.
    pub to: String,
}

/// A piece is not where it should be: that is not the same as thrown out. `about` is the piece. It is
/// found when it is put in its place again.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Missing {}

/// A piece is kept for somebody. `about` is the piece.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Reserved {
    /// For whom, as the maker writes it.
    pub name: String,
    /// The last day; absent is until it is released.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        with = "crate::record::log::entry::text::day_text"
    )]
    #[schemars(with = "Option<String>")]
    pub until: Option<NaiveDate>,
}

impl Reserved {
    pub fn holds_on(&self, day: NaiveDate) -> bool {
        self.until.is_none_or(|until| day <= until)
    }
}

/// A piece is no longer kept for anybody. `about` is the piece.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Released {}

/// A piece went into an instrument, or was handed over. `about` is the piece, which ends here.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Used {
    /// What it became, as the maker writes it.
    pub became: String,
}
