//! How a plank is weighed: whole, end by end, or balanced where there is no scale.

use super::Field;
use serde::{Deserialize, Serialize};

/// How a plank is weighed: which fields are shown. What was typed for another way stays in the draft and
/// does not count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WeighedBy {
    /// The whole plank on the scale.
    #[default]
    Whole,
    /// One end at a time.
    Ends,
    /// No scale: balanced on a bar.
    Balance,
}

impl WeighedBy {
    /// All of them.
    pub const ALL: [WeighedBy; 3] = [WeighedBy::Whole, WeighedBy::Ends, WeighedBy::Balance];

    /// The fields that this way needs.
    pub fn fields(self) -> &'static [Field] {
        match self {
            WeighedBy::Whole => &[Field::WeightWhole],
            WeighedBy::Ends => &[
                Field::WeightFirst,
                Field::WeightSecond,
                Field::WeightOverhang,
            ],
            WeighedBy::Balance => &[Field::BalanceMass, Field::BalanceArm],
        }
    }

    /// The way that counts of what was read: the one with most readings, the simplest of several; `None` where
    /// nothing of any is there.
    pub fn of(has: impl Fn(Field) -> bool) -> Option<WeighedBy> {
        let read = |way: WeighedBy| way.fields().iter().filter(|field| has(**field)).count();
        let most = WeighedBy::ALL.map(read).into_iter().max()?;
        let mut ways = WeighedBy::ALL.into_iter();
        ways.find(|way| most > 0 && read(*way) == most)
    }

    /// Whether a field belongs to another way of weighing.
    pub fn leaves_out(self, field: Field) -> bool {
        let mut others = WeighedBy::ALL.into_iter().filter(|way| *way != self);
        others.any(|way| way.fields().contains(&field))
    }
}
