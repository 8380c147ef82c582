//! What the maker wishes for: so many blanks by a day, and how sure that has to be.

use crate::record::log::species_named::SpeciesNamed;
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

/// The maker says which blanks are needed. `about` is this target; the last one said is in force.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[schemars(rename = "Wished")]
pub struct TargetSet {
    /// Good blanks wanted.
    pub blanks: u32,
    /// The day by which they have to be ready; absent is when they are.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        with = "crate::record::log::entry::text::day_text"
    )]
    #[schemars(with = "Option<String>")]
    pub by: Option<NaiveDate>,
    /// How many laminates make one; 1 for a neck of one piece.
    pub laminates_per_blank: u32,
    /// How sure it has to be, in percent.
    pub sure_percent: u32,
    /// Of which wood; absent is any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wood: Option<SpeciesNamed>,
}

impl TargetSet {
    /// How sure it has to be, over 0 and under 1 where it was said so.
    pub fn confidence(&self) -> f64 {
        f64::from(self.sure_percent) / 100.0
    }
}
