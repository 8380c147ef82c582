//! The stages in which wood rests, how long at least, and how far it may move in each: the maker's own
//! terms, with terms supplied to begin with.
//!
//! It never says that a piece is ready: that takes a date and a measurement.

use chrono::{Months, NaiveDate};
use serde::{Deserialize, Serialize};

/// Weeks that a plank lies in the room where the terms of pieces say nothing else: several weeks to two
/// months are told. Common practice, no source.
pub const WEEKS_IN_ROOM: u32 = 4;

/// A look at wood speaks for so many months: after that it has gone through another season of its room, and how it
/// stands is not known until it is looked at again. Common practice, no source.
pub const LOOK_HOLDS_MONTHS: u32 = 6;

/// Whether a look is too old to tell how wood stands today: more than [`LOOK_HOLDS_MONTHS`] calendar months.
///
/// ```
/// use stillwood_core::{record::date, season::is_look_old};
/// let old = |looked, today| is_look_old(date(looked).unwrap(), date(today).unwrap());
/// assert!(!old("2026-05-20", "2026-11-20"));
/// assert!(old("2026-05-19", "2026-11-20"));
/// ```
pub fn is_look_old(looked: NaiveDate, today: NaiveDate) -> bool {
    let until = looked.checked_add_months(Months::new(LOOK_HOLDS_MONTHS));
    until.is_some_and(|until| until < today)
}

/// Where in its making a piece rests.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Pieces cut from planks.
    Pieces,
    /// Laminates ripped from pieces.
    Laminates,
    /// Blanks glued from laminates.
    Blanks,
}

impl Stage {
    /// All of them, in the order in which wood goes through them.
    pub const ALL: [Stage; 3] = [Stage::Pieces, Stage::Laminates, Stage::Blanks];

    pub fn name(self) -> &'static str {
        match self {
            Stage::Pieces => "pieces",
            Stage::Laminates => "laminates",
            Stage::Blanks => "blanks",
        }
    }
}

/// How far a shape may change over [`StageLimits::over_mm`] since it was last machined flat.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Limit {
    /// Beyond this it is out, mm.
    #[serde(rename = "out_mm")]
    pub reject_mm: f64,
    /// Beyond this it is watched, mm; absent where nothing lies between kept and out.
    #[serde(default, rename = "watch_mm", skip_serializing_if = "Option::is_none")]
    pub warn_mm: Option<f64>,
}

impl Limit {
    /// A limit with nothing between kept and out.
    pub fn out(reject_mm: f64) -> Self {
        Self {
            reject_mm,
            warn_mm: None,
        }
    }

    /// A limit with a stretch in which the piece is watched.
    pub fn watched(warn_mm: f64, reject_mm: f64) -> Self {
        Self {
            reject_mm,
            warn_mm: Some(warn_mm),
        }
    }

    /// How much of what it may change a change of so many mm takes up, in %, with its sign: 100 lies on the limit.
    pub fn percent_of(&self, change_mm: f64) -> f64 {
        change_mm / self.reject_mm * 100.0
    }
}

/// The terms of a stage. A shape without a limit is recorded and not judged.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[schemars(rename = "StageTerms")]
pub struct StageLimits {
    /// Curve along the length, flatwise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bow: Option<Limit>,
    /// Curve along the length, edgewise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crook: Option<Limit>,
    /// Curve across the width, whatever the length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cup: Option<Limit>,
    /// The least rest, in calendar months.
    pub months: u32,
    /// The longest that is usual, in calendar months.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub months_most: Option<u32>,
    /// The length for which the limits hold, mm.
    pub over_mm: f64,
    /// Rise of the fourth corner.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub twist: Option<Limit>,
    /// Of pieces: weeks that a plank lies in the room before it is cut to them; absent for
    /// [`WEEKS_IN_ROOM`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weeks_in_room: Option<u32>,
}

impl StageLimits {
    /// Weeks that a plank lies in the room before it is cut, by the terms of pieces.
    pub fn weeks_before_cut(&self) -> u32 {
        self.weeks_in_room.unwrap_or(WEEKS_IN_ROOM)
    }

    /// What is supplied until the maker sets terms: pieces 6 months, laminates 6 to 12, blanks 6, and
    /// limits over 950 mm. Common practice, no source.
    ///
    /// No published value: rules of thumb: no text gives them.
    pub fn supplied(stage: Stage) -> Self {
        let none = Self {
            bow: None,
            crook: None,
            cup: None,
            months: 6,
            months_most: None,
            over_mm: 950.0,
            twist: None,
            weeks_in_room: None,
        };
        match stage {
            Stage::Pieces => {
                let limit = Some(Limit::watched(1.0, 2.0));
                Self {
                    bow: limit,
                    crook: limit,
                    twist: limit,
                    ..none
                }
            }
            Stage::Laminates => Self {
                bow: Some(Limit::out(1.0)),
                crook: Some(Limit::out(0.3)),
                twist: Some(Limit::out(0.5)),
                months_most: Some(12),
                ..none
            },
            Stage::Blanks => Self {
                crook: Some(Limit::watched(0.15, 0.3)),
                twist: Some(Limit::out(0.2)),
                ..none
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_stage_has_terms_that_make_sense() {
        for stage in Stage::ALL {
            let terms = StageLimits::supplied(stage);
            assert!(terms.months_most.is_none_or(|most| most > terms.months));
            for limit in [terms.bow, terms.crook, terms.twist].into_iter().flatten() {
                assert!(limit.warn_mm.is_none_or(|watch| watch < limit.reject_mm));
            }
        }
    }

    #[test]
    fn the_file_keeps_its_keys() {
        let limit = serde_json::to_string(&Limit::watched(1.0, 2.0)).unwrap();
        assert_eq!(limit, r#"{"out_mm":2.0,"watch_mm":1.0}"#);
        let read: Limit = serde_json::from_str(&limit).unwrap();
        assert_eq!(read, Limit::watched(1.0, 2.0));
    }
}
