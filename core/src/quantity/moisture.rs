//! Moisture content of wood.

/// Moisture content: mass of water over the oven-dry mass of the wood, in percent.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
pub struct Moisture(f64);

impl Moisture {
    /// The moisture content at which densities are compared.
    pub const STANDARD: Moisture = Moisture(12.0);

    /// From percent of the oven-dry mass.
    pub const fn percent(value: f64) -> Self {
        Self(value)
    }

    /// In percent of the oven-dry mass.
    pub const fn in_percent(self) -> f64 {
        self.0
    }

    /// As a plain fraction: 12 % is 0.12.
    pub fn fraction(self) -> f64 {
        self.0 / 100.0
    }
}
