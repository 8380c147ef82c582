//! A second reading of what is told: the shown formula is worked out again from its text alone, as a reader
//! with a pencil would, and nothing of the formula that computed it is used.

use stillwood_core::quantity::{Derivation, Step, TermUnit};

/// Each step before the last goes into one after it, and each follows; see [`check_each`].
#[track_caller]
pub fn check_steps(working: &Derivation) -> usize {
    check_chain(working);
    check_each(working)
}

/// Every step of a working gives what its shown formula gives, first with its values in place of the symbols,
/// then with the numbers as they are printed, as far as they are rounded. The number of steps.
#[track_caller]
pub fn check_each(working: &Derivation) -> usize {
    for step in &working.steps {
        let name = step.explanation.name;
        let found = in_symbols(step, &step.values);
        // Constants are printed to nine places, 0.002359737 m³ to the board foot; probabilities near none are none.
        let same = (found - step.result).abs() <= 1e-6 * step.result.abs() + 1e-12;
        assert!(
            same,
            "{name}: {} with {:?} gives {found}, told is {}",
            step.in_symbols(),
            step.values,
            step.result
        );
        let (left, right) = in_print(step);
        let open = half_digit(step.result, step.explanation.unit) + rounding(step);
        assert!(
            (left - right).abs() <= open,
            "{name}: {} gives {left} ± {open}",
            step.in_numbers()
        );
    }
    working.steps.len()
}

/// Steps that may stand beside what follows, because what they give is an answer of its own, goes on rounded to
/// what is paid or charged, or is told beside the last step as its limit or its uncertainty.
const STAND_ALONE: [&str; 16] = [
    // One answer of several: of every requirement, from the flattest to the steepest, of both ways to saw.
    "Desirability",
    "Angle of the rings to the wide face",
    "Angle of the rings once turned on edge",
    "An end of the interval",
    "Straight slab",
    "Slope of grain, both faces together",
    "A part as it comes off the saw",
    // The larger of two counts.
    "Gap left of an even curve",
    "Gap left of the kink",
    "Rise left of the twist",
    // Rounded before it goes on: to cents, to whole square feet.
    "Price",
    "Square feet of the face",
    // Told beside the change and the share.
    "Limit over this piece",
    "Standard uncertainty of the change",
    "First number of the beta distribution",
    "Its second number",
];

/// What a step before the last gives goes into one after it.
#[track_caller]
fn check_chain(working: &Derivation) {
    for (at, step) in working.steps.iter().enumerate() {
        let later = &working.steps[at + 1..];
        let goes_in = |value: &f64| (value - step.result).abs() <= 1e-9 * step.result.abs();
        let mut values = later.iter().flat_map(|later| &later.values);
        assert!(
            later.is_empty() || values.any(goes_in) || STAND_ALONE.contains(&step.explanation.name),
            "{}: {} goes into none of the later steps",
            step.explanation.name,
            step.in_numbers()
        );
    }
}

/// What the formula in symbols gives for some values; the sum over their sets, where it is one.
fn in_symbols(step: &Step, values: &[f64]) -> f64 {
    let shown = step.in_symbols();
    let head = format!("{} = ", step.explanation.symbol);
    let formula = shown
        .strip_prefix(&head)
        .expect("it begins with its symbol");
    let formula = formula.strip_prefix("Σ ").unwrap_or(formula);
    let sets = values.chunks(step.explanation.terms.len().max(1));
    let one = |values: &[f64]| {
        let terms = step.explanation.terms.iter().map(|term| term.symbol);
        evaluate(
            formula,
            &terms.zip(values.iter().copied()).collect::<Vec<_>>(),
        )
    };
    match step.explanation.terms.is_empty() {
        true => evaluate(formula, &[]),
        false => sets.map(one).sum(),
    }
}

/// What stands left and right of the last equals sign, as printed.
fn in_print(step: &Step) -> (f64, f64) {
    let mut parts = step.terms_in_numbers();
    let result = parts.pop().expect("a result");
    let number = result.strip_prefix("= ").expect("an equals sign");
    let end = number.find(|c: char| !"−.0123456789".contains(c));
    let number = evaluate(&number[..end.unwrap_or(number.len())], &[]);
    let part = |part: &String| evaluate(part.strip_prefix("+ ").unwrap_or(part), &[]);
    (parts.iter().map(part).sum(), number)
}

/// Half of the last digit that is printed: five significant ones, at most nine behind the point; of what brings
/// its own unit at least two.
fn half_digit(value: f64, unit: TermUnit) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return 0.0;
    }
    let places = (4 - libm::log10(value.abs()).floor() as i32).clamp(unit.least_places(), 9);
    0.5 * libm::pow(10.0, f64::from(-places))
}

/// How far the result may be off because its values are rounded in print.
fn rounding(step: &Step) -> f64 {
    let units = step.explanation.terms.iter().map(|term| term.unit).cycle();
    let moved = step
        .values
        .iter()
        .zip(units)
        .enumerate()
        .map(|(at, (value, unit))| {
            let ends = [-1.0, 1.0].map(|sign| {
                let mut values = step.values.clone();
                values[at] = value + sign * half_digit(*value, unit);
                (in_symbols(step, &values) - step.result).abs()
            });
            // Beyond its domain a formula has no value.
            ends.into_iter()
                .filter(|by| by.is_finite())
                .fold(0.0, f64::max)
        });
    // A half more, for what is not straight; and the constants, as above.
    1.5 * moved.sum::<f64>() + 1e-6 * step.result.abs() + 1e-12
}

/// The value of a formula as it is set by hand, each symbol with its value.
pub fn evaluate(formula: &str, symbols: &[(&str, f64)]) -> f64 {
    let mut reader = Reader {
        rest: formula,
        symbols,
    };
    let value = reader.sum();
    assert_eq!(reader.rest, "", "not read to its end: {formula}");
    value
}

struct Reader<'a> {
    rest: &'a str,
    symbols: &'a [(&'a str, f64)],
}

impl Reader<'_> {
    fn takes(&mut self, sign: &str) -> bool {
        let after = self.rest.strip_prefix(sign);
        self.rest = after.unwrap_or(self.rest);
        after.is_some()
    }

    fn sum(&mut self) -> f64 {
        let mut sum = self.product();
        loop {
            if self.takes(" + ") {
                sum += self.product();
            } else if self.takes(" − ") {
                sum -= self.product();
            } else {
                return sum;
            }
        }
    }

    fn product(&mut self) -> f64 {
        let mut product = self.signed();
        loop {
            if self.takes(" · ") {
                product *= self.signed();
            } else if self.takes(" / ") {
                product /= self.signed();
            } else {
                return product;
            }
        }
    }

    /// A minus holds for a whole power: −x² is −(x²).
    fn signed(&mut self) -> f64 {
        match self.takes("−") {
            true => -self.signed(),
            false => self.power(),
        }
    }

    fn power(&mut self) -> f64 {
        let mut base = self.atom();
        loop {
            if self.takes("²") {
                base *= base;
            } else if self.takes("³") {
                base = base * base * base;
            } else if self.takes("^") {
                base = libm::pow(base, self.signed());
            } else {
                return base;
            }
        }
    }

    fn closed(&mut self, sign: &str) -> f64 {
        let inside = self.sum();
        assert!(self.takes(sign), "no {sign} before {}", self.rest);
        inside
    }

    fn atom(&mut self) -> f64 {
        if self.takes("(") {
            return self.closed(")");
        }
        if self.takes("√") {
            return self.atom().sqrt();
        }
        if self.takes("|") {
            return self.closed("|").abs();
        }
        for (name, apply) in FUNCTIONS {
            if self.takes(name) {
                return apply(self.closed(")"));
            }
        }
        let fits = |(symbol, _): &&(&str, f64)| self.rest.starts_with(symbol);
        let longest = self
            .symbols
            .iter()
            .filter(fits)
            .max_by_key(|(s, _)| s.len());
        if let Some((symbol, value)) = longest {
            self.rest = &self.rest[symbol.len()..];
            return *value;
        }
        let digits = self.rest.find(|c: char| !c.is_ascii_digit() && c != '.');
        let (number, after) = self.rest.split_at(digits.unwrap_or(self.rest.len()));
        let value = number.parse();
        self.rest = after;
        value.unwrap_or_else(|_| panic!("neither number nor symbol: {number}{after}"))
    }
}

/// A function and its name in print.
type Function = (&'static str, fn(f64) -> f64);

/// All of them, angles in degrees.
const FUNCTIONS: [Function; 7] = [
    ("arctan(", |x| libm::atan(x).to_degrees()),
    ("artanh(", libm::atanh),
    ("tanh(", libm::tanh),
    ("tan(", |x| libm::tan(x.to_radians())),
    ("exp(", libm::exp),
    ("ln(", libm::log),
    ("Φ(", normal),
];

/// The standard normal distribution function, by the midpoint rule over its density.
fn normal(z: f64) -> f64 {
    let steps = 20_000;
    let width = z.clamp(-40.0, 40.0) / f64::from(steps);
    let density = |x: f64| libm::exp(-x * x / 2.0) / (2.0 * std::f64::consts::PI).sqrt();
    let area: f64 = (0..steps)
        .map(|n| width * density(width * (f64::from(n) + 0.5)))
        .sum();
    0.5 + area
}

#[cfg(test)]
mod tests {
    use super::{check_steps, evaluate, normal};
    use stillwood_core::quantity::{Derivation, Explanation, Step, TermUnit};

    static DOUBLE: Explanation = Explanation {
        name: "Twice as much",
        symbol: "y",
        unit: TermUnit::Named("mm"),
        expression: "2.0 * x",
        terms: &[stillwood_core::quantity::Term {
            code: "x",
            symbol: "x",
            name: "length",
            unit: TermUnit::Named("mm"),
        }],
        range: "any",
        source: "arithmetic",
    };

    /// Doubled once and once more, each step from what is given for it.
    fn twice_doubled(steps: [(f64, f64); 2]) -> Derivation {
        let step = |(value, result)| Step {
            explanation: &DOUBLE,
            values: vec![value],
            result,
            unit: String::new(),
        };
        Derivation::of(steps.map(step).into())
    }

    #[test]
    fn steps_that_follow_from_each_other_hold() {
        assert_eq!(check_steps(&twice_doubled([(3.0, 6.0), (6.0, 12.0)])), 2);
    }

    #[test]
    #[should_panic(expected = "Twice as much: y = 2 · x")]
    fn a_middle_step_that_is_off_fails() {
        check_steps(&twice_doubled([(3.0, 6.1), (6.1, 12.2)]));
    }

    #[test]
    #[should_panic(expected = "goes into none of the later steps")]
    fn a_middle_step_that_leads_nowhere_fails() {
        check_steps(&twice_doubled([(3.0, 6.0), (6.1, 12.2)]));
    }

    #[test]
    fn a_formula_is_read_as_it_is_set_by_hand() {
        // By hand, from the rules of arithmetic.
        for (formula, value) in [
            ("2 + 3 · 4", 14.0),
            ("2 · (3 − 5) / 4", -1.0),
            ("12 / 3 / 2", 2.0),
            ("−3²", -9.0),
            ("(−3)²", 9.0),
            ("2^3 · 10^6", 8e6),
            ("√(3² + 4²)", 5.0),
            ("|2 − 9|", 7.0),
            ("arctan(1)", 45.0),
            ("x · x′", 6.0),
        ] {
            let found = evaluate(formula, &[("x", 2.0), ("x′", 3.0)]);
            assert!((found - value).abs() < 1e-9, "{formula}: {found}");
        }
        // Source: tables of the standard normal distribution: Φ(1.96) = 0.9750021. From memory.
        assert!((normal(1.96) - 0.975_002_1).abs() < 1e-7);
        assert!((normal(-1.96) - 0.024_997_9).abs() < 1e-7);
    }

    #[test]
    #[should_panic(expected = "neither number nor symbol")]
    fn a_symbol_that_is_not_told_fails() {
        evaluate("2 · y", &[("x", 2.0)]);
    }
}
