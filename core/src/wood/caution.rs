//! What a wood may do to the maker's health, and what the law may ask before it is bought or shipped.
//! It informs and dates what it knows; it never clears a wood, and local rules always decide.

use super::source::NumberOrigin;
use serde::{Deserialize, Serialize};

/// What the dust or splinters of a wood are reported to do.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Dust {
    /// Nothing beyond what all wood dust does.
    General,
    /// Irritates skin, eyes, nose or throat.
    Irritant,
    /// Can make a person allergic: skin or lungs.
    Sensitiser,
    /// Not known.
    #[default]
    Unknown,
}

/// A caution about dust, and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DustCaution {
    pub dust: Dust,
    /// Whose word it is.
    pub origin: NumberOrigin,
}

impl DustCaution {
    pub fn words(&self) -> String {
        let own = match self.dust {
            Dust::General => "No special report.",
            Dust::Irritant => "Reported to irritate skin, eyes or airways.",
            Dust::Sensitiser => {
                "Reported as a sensitiser: once allergic, a little is enough to bring it on."
            }
            Dust::Unknown => "Not known here: treat it as a sensitiser.",
        };
        format!(
            "{own} All wood dust harms: catch it where it is made, and follow your local rules and \
             your doctor."
        )
    }
}

/// A listing under the convention on trade in endangered species (CITES), as known at a date.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TradeControl {
    /// "I", "II" or "III".
    pub appendix: String,
    /// The date to which this is known: year, month or day. It may have changed since.
    pub as_of: String,
    /// What is covered: annotation, populations, products.
    pub covers: String,
    /// Whose word it is.
    pub origin: NumberOrigin,
}

/// What is known here of trade control on a wood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TradeStatus {
    Listed(TradeControl),
    /// In the table, and no listing is known to it.
    NoneKnown,
    /// Not in the table: nothing is known.
    Unknown,
}

impl TradeStatus {
    /// In words; always ends by sending the maker to the current lists.
    pub fn words(&self) -> String {
        let known = match self {
            TradeStatus::Listed(listing) => format!(
                "CITES Appendix {} ({}), as of {}, {}.",
                listing.appendix, listing.covers, listing.as_of, listing.origin
            ),
            TradeStatus::NoneKnown => "No CITES listing known here.".to_owned(),
            TradeStatus::Unknown => "CITES listing not known: no data.".to_owned(),
        };
        format!("{known} Lists change: check before you buy or ship.")
    }
}
