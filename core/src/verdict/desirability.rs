//! Desirability: how good a value is between the maker's limit and target, 0 to 1.

use super::Form;
use crate::quantity::{Trace, conformance_probability, formula, normal_cdf};

impl Form {
    /// Desirability of a value, 0 at the limit and beyond, 1 at the target and beyond, a straight
    /// line between (weight 1). `unit` is that of the value, for whoever keeps the steps.
    ///
    /// Source: Derringer and Suich 1980; one-sided and target forms as in the NIST/SEMATECH
    /// e-Handbook of Statistical Methods, 5.5.3.2.2 (the target form read in a copy, the one-sided
    /// ones in a public package's manual). Where target and limit are one value it is a step: 1 on the
    /// good side and at the value itself, 0 beyond.
    ///
    /// ```
    /// use stillwood_core::quantity::TraceOff;
    /// use stillwood_core::verdict::Form;
    /// let runout = Form::AtMost { target: 0.050, limit: 0.060 };
    /// assert!((runout.desirability(&mut TraceOff, "", 0.057) - 0.3).abs() < 1e-9);
    /// ```
    pub fn desirability(self, trace: &mut impl Trace, unit: &str, value: f64) -> f64 {
        if self.margin(value) < 0.0 {
            return 0.0;
        }
        match self {
            Form::AtMost { target, limit } => rise(trace, unit, [limit, target], value),
            Form::AtLeast { target, limit } => rise(trace, unit, [limit, target], value),
            Form::Within {
                low_limit,
                low_target,
                high_target,
                high_limit,
            } => rise(trace, unit, [low_limit, low_target], value).min(rise(
                trace,
                unit,
                [high_limit, high_target],
                value,
            )),
        }
    }

    /// How far the value is inside its limit, in its own unit: negative is beyond it. For a window,
    /// the nearer limit counts.
    pub fn margin(self, value: f64) -> f64 {
        match self {
            Form::AtMost { limit, .. } => limit - value,
            Form::AtLeast { limit, .. } => value - limit,
            Form::Within {
                low_limit,
                high_limit,
                ..
            } => (value - low_limit).min(high_limit - value),
        }
    }

    /// The probability that the true value lies inside the limit, or both limits of a window.
    ///
    /// One-sided as [`conformance_probability`]; a window is the difference of two:
    /// `Phi((T_U - y)/u) - Phi((T_L - y)/u)`, JCGM 106:2012, 7.4 (from memory).
    pub fn conformance(self, value: f64, standard: f64) -> f64 {
        match self {
            Form::Within {
                low_limit,
                high_limit,
                ..
            } if standard > 0.0 => {
                normal_cdf((high_limit - value) / standard)
                    - normal_cdf((low_limit - value) / standard)
            }
            _ => conformance_probability(self.margin(value), standard),
        }
    }

    /// Whether targets and limits stand in a possible order.
    pub fn is_sound(self) -> bool {
        match self {
            Form::AtMost { target, limit } => target <= limit,
            Form::AtLeast { target, limit } => target >= limit,
            Form::Within {
                low_limit,
                low_target,
                high_target,
                high_limit,
            } => low_limit <= low_target && low_target <= high_target && high_target <= high_limit,
        }
    }
}

/// 0 at `zero` and beyond, 1 at `one` and beyond, a straight line between; it may rise either way.
fn rise(trace: &mut impl Trace, unit: &str, [zero, one]: [f64; 2], value: f64) -> f64 {
    if zero == one {
        // A step: beyond it was settled by the margin.
        return 1.0;
    }
    trace
        .work_in(unit, &DESIRABILITY, [value, zero, one])
        .clamp(0.0, 1.0)
        // At a limit from above the quotient is a negative nought, which would be shown as "-0".
        .abs()
}

formula! {
    /// Desirability between a limit and a target.
    DESIRABILITY: "Desirability", "d", "";
    y: "y", "the value", given;
    limit: "limit", "the limit: 0 there and beyond", given;
    target: "target", "where it is good: 1 there and beyond", given;
    = (y - limit) / (target - limit);
    range "0 at the least, 1 at the most";
    source "Derringer and Suich 1980, after NIST/SEMATECH e-Handbook 5.5.3.2.2 (read in copies)";
}

/// Geometric mean of desirabilities: 0 as soon as one is 0. `None` for none.
///
/// Source: overall desirability, Derringer and Suich 1980 (read as quoted in public texts).
pub fn geometric_mean(desirabilities: impl IntoIterator<Item = f64>) -> Option<f64> {
    let (product, count) = desirabilities
        .into_iter()
        .fold((1.0, 0.0), |(product, count), next| {
            (product * next, count + 1.0)
        });
    (count > 0.0).then(|| libm::pow(product, 1.0 / count))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::TraceOff;

    #[test]
    fn at_its_limit_a_value_is_worth_nothing_and_not_less() {
        let at_most = Form::AtMost {
            target: 0.05,
            limit: 0.06,
        };
        let at_least = Form::AtLeast {
            target: 47.0,
            limit: 45.0,
        };
        for (form, limit) in [(at_most, 0.06), (at_least, 45.0)] {
            let found = form.desirability(&mut TraceOff, "", limit);
            assert_eq!(found.to_bits(), 0.0_f64.to_bits(), "{form:?}: {found}");
        }
    }

    #[test]
    fn a_step_is_good_at_the_value_itself_and_nothing_beyond() {
        let at_least = Form::AtLeast {
            target: 1.0,
            limit: 1.0,
        };
        assert_eq!(
            [0.0, 1.0, 2.0].map(|v| at_least.desirability(&mut TraceOff, "", v)),
            [0.0, 1.0, 1.0]
        );
        let at_most = Form::AtMost {
            target: 3.0,
            limit: 3.0,
        };
        assert_eq!(
            [2.0, 3.0, 3.1].map(|v| at_most.desirability(&mut TraceOff, "", v)),
            [1.0, 1.0, 0.0]
        );
        let window = Form::Within {
            low_limit: 4.0,
            low_target: 4.0,
            high_target: 6.0,
            high_limit: 8.0,
        };
        assert_eq!(
            [3.9, 4.0, 5.0, 7.0, 8.0, 8.1].map(|v| window.desirability(&mut TraceOff, "", v)),
            [0.0, 1.0, 1.0, 0.5, 0.0, 0.0]
        );
    }

    #[test]
    fn a_form_in_no_possible_order_is_not_sound() {
        let turned = Form::AtMost {
            target: 2.0,
            limit: 1.0,
        };
        assert!(!turned.is_sound());
        let nothing = Form::AtLeast {
            target: f64::NAN,
            limit: 1.0,
        };
        assert!(!nothing.is_sound());
    }

    #[test]
    fn the_mean_of_none_is_none_and_one_nothing_makes_it_nothing() {
        assert_eq!(geometric_mean([]), None);
        assert_eq!(geometric_mean([1.0, 0.0, 1.0]), Some(0.0));
        let mean = geometric_mean([0.25, 1.0]).unwrap();
        assert!((mean - 0.5).abs() < 1e-12);
    }
}
