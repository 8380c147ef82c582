//! What a criterion comes to for a plank: a value, a bound, or nothing, and why.
//!
//! It holds no text until somebody asks for it: an evaluation looks at a criterion many times.

use crate::neck::CuttingError;
use crate::plank::{AtLeast, FormError, PlankDensityError, RingError};
use crate::wood::{DensityError, MeterError};
use std::fmt;
use thiserror::Error;

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CriterionValue {
    /// Its value, in the unit of the criterion.
    Value(f64),
    /// It is no better than this: something that can only make it worse was not looked at, or seen by
    /// eye as so much or more.
    AtBest(f64, Bound),
    /// Nothing: what was not looked at.
    NotLooked(&'static str),
    /// It can't be worked out from what was measured, and why.
    Cannot(Unworkable),
}

impl CriterionValue {
    /// The value or the bound.
    pub fn number(&self) -> Option<f64> {
        match self {
            CriterionValue::Value(value) | CriterionValue::AtBest(value, _) => Some(*value),
            CriterionValue::NotLooked(_) | CriterionValue::Cannot(_) => None,
        }
    }
}

/// Why a value is only a bound.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bound {
    not_looked: Option<&'static str>,
    /// What the eye saw as so much or more.
    by_eye: AtLeast,
}

impl Bound {
    /// A bound where something was not looked at or was seen as so much or more.
    pub(super) fn of(not_looked: Option<&'static str>, by_eye: AtLeast) -> Option<Self> {
        (not_looked.is_some() || by_eye != AtLeast::default())
            .then_some(Self { not_looked, by_eye })
    }
}

impl fmt::Display for Bound {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let AtLeast {
            bow,
            crook,
            twist,
            cup,
            grain_face,
            grain_edge,
        } = self.by_eye;
        let mut said = self.not_looked.is_some();
        out.write_str(self.not_looked.unwrap_or_default())?;
        for (what, open) in [
            ("bow", bow),
            ("crook", crook),
            ("twist", twist),
            ("cup", cup),
            ("grain", grain_face || grain_edge),
        ] {
            if open {
                let before = if said { "; " } else { "" };
                write!(out, "{before}{what} by eye so much or more: measure it")?;
                said = true;
            }
        }
        Ok(())
    }
}

/// Why a criterion can't be worked out from what was measured.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum Unworkable {
    /// A shape can't be carried over to the part.
    #[error(transparent)]
    Form(#[from] FormError),
    /// The meter's reading is no number.
    #[error(transparent)]
    Meter(#[from] MeterError),
    #[error(transparent)]
    Density(#[from] PlankDensityError),
    /// The density can't be brought to 12 %.
    #[error(transparent)]
    Carry(#[from] DensityError),
    /// The rings tell no angle.
    #[error(transparent)]
    Rings(#[from] RingError),
    /// The parts can't be counted.
    #[error(transparent)]
    Cutting(#[from] CuttingError),
}
