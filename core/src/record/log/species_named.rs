//! A wood as it was named.

use serde::{Deserialize, Serialize};

/// A wood as the maker named it, and the table's name for it where one was chosen.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct SpeciesNamed {
    /// The species table's id, or that of a wood of the maker's own; absent while it is only a name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub id: Option<String>,
    /// The name as typed or as the yard says it.
    pub text: String,
}

impl SpeciesNamed {
    /// Whether two names are of one wood: the same in the table, else the same name.
    pub fn is_same_wood(&self, other: &SpeciesNamed) -> bool {
        let plain = |named: &SpeciesNamed| named.text.trim().to_lowercase();
        match (&self.id, &other.id) {
            (Some(one), Some(other)) => one == other,
            _ => plain(self) == plain(other),
        }
    }
}
