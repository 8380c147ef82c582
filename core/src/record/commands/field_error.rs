//! What is wrong with the fields of a form, in the maker's words.

use super::own_wood::WoodFault;
use crate::neck::CutPlanError;
use crate::record::queries::NamingFault;
use rust_decimal::Decimal;
use thiserror::Error;

/// What is wrong with one field.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum FieldError {
    /// Nothing stands in it.
    #[error("This is still to be typed.")]
    Missing,
    /// It can't be read.
    #[error("{}", not_read(typed, why))]
    NotRead {
        /// What was typed.
        typed: String,
        /// Why.
        why: String,
    },
    /// It is no day.
    #[error("“{0}” is not a day.")]
    NotADay(String),
    /// No day was said.
    #[error("Which day was it?")]
    NoDay,
    /// A name that fits on no label.
    #[error(
        "“{start}…” has {letters} letters. A name has at most {most}: write the rest in a note."
    )]
    TooLong {
        /// Its beginning.
        start: String,
        /// How many letters it has.
        letters: usize,
        /// How many it may have.
        most: usize,
    },
    /// A name with a sign that can't be seen.
    #[error("“{0}” holds a sign that can't be seen: type it anew.")]
    HiddenSign(String),
    /// It is not a whole number, or one too large.
    #[error("A whole number up to {most}, not “{typed}”.")]
    NotWhole {
        /// What was typed.
        typed: String,
        /// The largest that makes sense.
        most: u32,
    },
    /// It is 0 and can't be.
    #[error("It must be more than 0.")]
    Zero,
    /// A share of more than all.
    #[error("{0} % is more than all of it. Type 100 or less.")]
    OverAHundred(Decimal),
    /// A share, as 0.1, that is more than all.
    #[error("“{0}” is more than all of it. A tenth is 0.1; type 1 or less.")]
    MoreThanAll(String),
    /// Nothing is to be learnt from it.
    #[error("Say why: what is discarded teaches what to buy.")]
    NoReason,
    /// Nothing is chosen of what could be put on a rack.
    #[error("Choose a piece at least.")]
    NoPiece,
    /// A check of which nothing is said.
    #[error("Type what was measured, or say that nothing moved.")]
    NothingChecked,
    /// Machined, but nothing of it.
    #[error("Say which: a face, an edge, or both.")]
    NeitherFaceNorEdge,
    /// More added to a footage than any yard adds.
    #[error("{0} % added to the footage is more than any yard adds.")]
    TooMuchAdded(Decimal),
    /// It is no currency.
    #[error("“{0}” is no currency. Type its code or its sign, as EUR, USD or £.")]
    NoCurrency(String),
    /// What the wood is for is not chosen.
    #[error("Say what the wood is for.")]
    NoSpec,
    /// The wood has no name.
    #[error("Which wood is it? Any name will do.")]
    NoWood,
    /// The pile of a plank is in no record of this device.
    #[error("Its pile is not in this record. Bring in the file that holds it first.")]
    PileNotHere,
    /// A piece is in no record of this device.
    #[error("It is not in this record.")]
    NotHere,
    /// A piece that is no longer there.
    #[error("It is no longer here: it was cut, glued, discarded or used.")]
    NotAtHand,
    /// What is to be cut has no known size.
    #[error("Measure its length and its width before it is laid out.")]
    SizesNotKnown,
    /// No plan can be made of the sizes.
    #[error("No cut can be laid out: {0}.")]
    NoPlan(CutPlanError),
    /// No part of a plan was cut.
    #[error("Nothing of it was cut. Say what came off the saw.")]
    NothingCut,
    /// Pieces that would lie outside of what they are cut from.
    #[error("The places of the pieces can't be right: look at the sizes again.")]
    PlacesCantBe,
    /// No laminate is chosen.
    #[error("No laminate is chosen: press those that may be glued.")]
    NoneChosen,
    /// No set can be looked for.
    #[error("{0}")]
    NoMatch(String),
    /// No laminate is in hand.
    #[error("Take the laminates of the blank in hand first.")]
    NoneInHand,
    /// A laminate that can't be glued any more.
    #[error("“{0}” is no longer here to be glued: take another.")]
    LaminateGone(String),
    /// A limit on the wrong side of its target.
    #[error("A limit lies on the wrong side of its target.")]
    LimitBeforeTarget,
    /// Fewer months at most than at least.
    #[error("{most} at most can't be fewer than {least} at least.")]
    FewerThanLeast {
        /// At least.
        least: u32,
        /// At most.
        most: u32,
    },
    /// A warning that comes when it is rejected already.
    #[error("It has to be less than where it is rejected.")]
    WarnsTooLate,
    /// Air of which nothing was read.
    #[error("Type the humidity or the temperature, or what the stick weighs.")]
    NothingLogged,
    /// A device without a name.
    #[error("Type a name, such as “phone” or “laptop in the shop”.")]
    NoDeviceName,
    /// A wood of the maker's own can't be kept so.
    #[error(transparent)]
    Wood(#[from] WoodFault),
    /// A mark can't be given.
    #[error(transparent)]
    Mark(#[from] NamingFault),
    /// Rings and grain of which nothing is said.
    #[error("Choose a picture, or type an angle or a slope.")]
    NothingSeen,
}

impl FieldError {
    /// That a name is longer than it may be, where it is.
    pub(super) fn if_longer(name: &str, most: usize) -> Option<Self> {
        let letters = name.chars().count();
        let start = || name.chars().take(20).collect();
        (letters > most).then(|| FieldError::TooLong {
            start: start(),
            letters,
            most,
        })
    }
}

/// What was typed, and why it can't be read; the reason alone where that says already what was typed.
fn not_read(typed: &str, why: &str) -> String {
    match why.contains(&format!("“{typed}”")) {
        true => why.to_owned(),
        false => format!("“{typed}” can't be read. {why}"),
    }
}

/// What is wrong with a form: all of it, field by field, in the order of the form.
#[derive(Debug, Clone, PartialEq, Default, Error)]
#[error("{}", first_of(.0))]
pub struct FieldErrors(Vec<(String, FieldError)>);

fn first_of(errors: &[(String, FieldError)]) -> String {
    let first = errors.first();
    first.map_or_else(String::new, |(key, error)| format!("{key}: {error}"))
}

impl FieldErrors {
    /// One error.
    pub fn at(key: &str, error: FieldError) -> Self {
        Self(vec![(key.to_owned(), error)])
    }

    /// Adds an error; a field keeps the first of its own.
    pub fn push(&mut self, key: &str, error: FieldError) {
        if self.of(key).is_none() {
            self.0.push((key.to_owned(), error));
        }
    }

    /// Adds all errors of another list.
    pub fn extend(&mut self, other: FieldErrors) {
        for (key, error) in other.0 {
            self.push(&key, error);
        }
    }

    /// Takes out what was wrong with a field: another text stands in it.
    pub fn remove(&mut self, key: &str) {
        self.0.retain(|(known, _)| known != key);
    }

    /// Whether nothing is wrong.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The stored names of fields, each with what is wrong.
    pub fn all(&self) -> &[(String, FieldError)] {
        &self.0
    }

    /// What is wrong with a field.
    pub fn of(&self, key: &str) -> Option<&FieldError> {
        let found = self.0.iter().find(|(of, _)| of == key);
        found.map(|(_, error)| error)
    }
}
