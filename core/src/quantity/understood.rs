//! What was understood of a typed text, and why a text is not understood.

/// Why a typed text is not understood, in the maker's words.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Unreadable {
    #[error("There is no number in it.")]
    NoNumber,
    /// A unit that this quantity is not measured in.
    #[error("“{0}” is not a unit that fits here.")]
    UnknownUnit(String),
    /// Something is left over after the value.
    #[error("What follows the number can't be placed: “{0}”.")]
    LeftOver(String),
    /// Two decimal signs in one number.
    #[error("The number has two decimal signs.")]
    TwoPoints,
    /// A fraction over nothing.
    #[error("A fraction can't have 0 below the line.")]
    DividedByZero,
    #[error("A fraction wants whole numbers above and below the line.")]
    OddFraction,
    /// A fraction of an inch where a slope is wanted.
    #[error("{0} in {1}, or {0}/{1} inch in what run? Type {0}:{1}, or {0}/{1} in 12.")]
    FractionOrSlope(u32, u32),
    /// Twelve inches or more behind feet: likely a mark between thousands.
    #[error("After feet there are fewer than 12 inches. Type thousands without a sign between.")]
    TooManyInches,
    #[error("After pounds there are fewer than 16 ounces.")]
    TooManyOunces,
    /// Longer than any tape or scale shows.
    #[error("The number has too many digits.")]
    TooManyDigits,
    /// A character that can't be seen.
    #[error("There is a hidden character in it; type it anew.")]
    HiddenCharacter,
    /// A sign where none belongs.
    #[error("A minus does not belong here: it must be more than 0.")]
    Negative,
}

/// What was understood of a typed text.
#[derive(Debug, Clone, PartialEq)]
pub struct UnderstoodNumber {
    /// The value in the unit in which the record keeps such a quantity.
    pub value: f64,
    /// The unit that was typed or taken for granted, as it is written.
    pub unit: &'static str,
    /// A plus or minus was typed (or a hand, for a twist).
    pub signed: bool,
}

/// The units that a bare number stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Units {
    /// Millimetres, kilograms, degrees Celsius; slope of grain as a rise over 300 mm.
    #[default]
    Metric,
    /// Inches, pounds, degrees Fahrenheit; slope of grain as a rise over 12 in.
    Inch,
}
