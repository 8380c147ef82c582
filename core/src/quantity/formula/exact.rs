//! Exact decimals in a formula: money, and what is charged by.
//!
//! The same expression that is shown is worked out digit by digit, as an account is kept. A result that
//! has too many digits for that is none, and so is all that follows from it.

use rust_decimal::Decimal;
use std::ops::{Add, Div, Mul, Sub};
use std::str::FromStr;

/// A decimal in an expression; nothing once digits ran out or it was divided by nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Exact(pub(super) Option<Decimal>);

impl From<f64> for Exact {
    /// A constant of an expression, as it is written there.
    fn from(constant: f64) -> Self {
        Self(Decimal::from_str(&constant.to_string()).ok())
    }
}

macro_rules! operator {
    ($operator:ident, $method:ident, $checked:ident) => {
        impl $operator for Exact {
            type Output = Exact;

            fn $method(self, other: Exact) -> Exact {
                let both = self.0.zip(other.0);
                Exact(both.and_then(|(one, other)| one.$checked(other)))
            }
        }

        impl $operator<f64> for Exact {
            type Output = Exact;

            fn $method(self, constant: f64) -> Exact {
                $operator::$method(self, Exact::from(constant))
            }
        }

        impl $operator<Exact> for f64 {
            type Output = Exact;

            fn $method(self, other: Exact) -> Exact {
                $operator::$method(Exact::from(self), other)
            }
        }
    };
}

operator!(Add, add, checked_add);
operator!(Sub, sub, checked_sub);
operator!(Mul, mul, checked_mul);
operator!(Div, div, checked_div);
