//! Exact decimals in a formula: money, and what is charged by.
//!
//! The same expression that is shown is worked out digit by digit, as an account is kept. A result that
//! has too many digits for that is none, and so is all that follows from it.

use super::{Explanation, Step};
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use std::ops::{Add, Div, Mul, Sub};
use std::str::FromStr;

/// A decimal in an expression; nothing once digits ran out or it was divided by nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Exact(Option<Decimal>);

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

/// A formula of `N` exact decimals, each in the unit of its term.
#[derive(Debug, Clone, Copy)]
pub struct ExactFormula<const N: usize> {
    pub explanation: Explanation,
    pub compute: fn([Exact; N]) -> Exact,
}

impl<const N: usize> ExactFormula<N> {
    /// The result for some values; `None` where it has too many digits, or where nothing is divided by.
    pub fn of(&self, values: [Decimal; N]) -> Option<Decimal> {
        (self.compute)(values.map(|value| Exact(Some(value)))).0
    }

    /// The sum of its results over several sets of values.
    pub fn sum(&self, items: &[[Decimal; N]]) -> Option<Decimal> {
        let mut each = items.iter().map(|item| self.of(*item));
        each.try_fold(Decimal::ZERO, |sum, one| sum.checked_add(one?))
    }

    /// What is shown of it: the numbers nearest to the decimals.
    pub(super) fn step(
        &'static self,
        values: &[[Decimal; N]],
        result: Decimal,
        unit: &str,
    ) -> Step {
        let near = |value: &Decimal| value.to_f64().unwrap_or(f64::NAN);
        Step {
            explanation: &self.explanation,
            values: values.iter().flatten().map(near).collect(),
            result: near(&result),
            unit: unit.to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Step, Trace, TraceOff, formula};
    use rust_decimal::Decimal;

    formula! {
        exact
        /// For the tests.
        TAXED: "taxed", "g", given;
        net: "n", "net", given;
        t: "t", "tax", "%";
        = net * (1.0 + t / 100.0);
        range "any";
        source "none";
    }

    #[test]
    fn tenths_stay_tenths_and_what_runs_out_of_digits_is_none() {
        let mut steps: Vec<Step> = Vec::new();
        let values = ["0.10", "7.7"].map(|text| text.parse().unwrap());
        let gross = steps.exact_in("EUR", &TAXED, values).unwrap();
        assert_eq!(gross.to_string(), "0.10770");
        assert_eq!(steps[0].in_numbers(), "0.1 · (1 + 7.7 / 100) = 0.1077 EUR");
        assert_eq!(steps[0].inputs()[0].2, "0.1 EUR");
        // Ten times a tenth is one, which no sum of floats is.
        let tenths = [[Decimal::new(1, 1), Decimal::ZERO]; 10];
        let sum = TraceOff.add_exact_in("EUR", &TAXED, &tenths).unwrap();
        assert_eq!(sum, Decimal::ONE);
        let too_many = [Decimal::MAX, Decimal::ONE];
        assert_eq!(TraceOff.exact_in("EUR", &TAXED, too_many), None);
        assert_eq!(steps.exact_in("EUR", &TAXED, too_many), None);
        assert_eq!(steps.len(), 1);
    }
}
