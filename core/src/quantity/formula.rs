//! A formula as one thing: what computes a number is what is shown of it.
//!
//! [`formula!`] takes an expression once. Compiled, it computes; as text, it is set in the symbols of
//! the trade and with a piece's own numbers. So what a screen shows can't drift from what was computed.
//! It never decides whether a value is in range: that is for the function that uses it.

use super::show;

/// One quantity that goes into a formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Term {
    /// Its name in the expression.
    pub code: &'static str,
    /// Its symbol.
    pub symbol: &'static str,
    /// What it is.
    pub name: &'static str,
    /// Its unit; nothing for a bare number.
    pub unit: &'static str,
}

/// What is told of a formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Told {
    /// What it computes.
    pub name: &'static str,
    /// The symbol of the result.
    pub symbol: &'static str,
    /// The unit of the result.
    pub unit: &'static str,
    /// The expression, as compiled.
    pub expression: &'static str,
    /// What goes in, in order.
    pub terms: &'static [Term],
    /// Where it holds.
    pub range: &'static str,
    /// Where it is from.
    pub source: &'static str,
}

/// A formula of `N` quantities, each a number in the unit of its term.
#[derive(Debug, Clone, Copy)]
pub struct Formula<const N: usize> {
    /// What is told of it.
    pub told: Told,
    /// What it computes.
    pub compute: fn([f64; N]) -> f64,
}

impl<const N: usize> Formula<N> {
    /// The result for some values.
    #[inline]
    pub fn of(&self, values: [f64; N]) -> f64 {
        (self.compute)(values)
    }

    /// The result for some values, with all that is to be shown of it.
    pub fn step(&'static self, values: [f64; N]) -> Step {
        Step {
            told: &self.told,
            values: values.to_vec(),
            result: self.of(values),
        }
    }
}

/// A formula with a piece's own numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// The formula.
    pub told: &'static Told,
    /// What went in, in the order of its terms.
    pub values: Vec<f64>,
    /// What came out.
    pub result: f64,
}

impl Step {
    /// The formula in symbols: `ρ = m / V`.
    pub fn in_symbols(&self) -> String {
        let set = set(self.told.expression, &|code| {
            let term = self.told.terms.iter().find(|term| term.code == code);
            term.map(|term| term.symbol.to_owned())
        });
        format!("{} = {set}", self.told.symbol)
    }

    /// The formula with its numbers and the result: `19.7 / 0.027867 = 706.93 kg/m³`.
    pub fn in_numbers(&self) -> String {
        let set = set(self.told.expression, &|code| {
            let at = self.told.terms.iter().position(|term| term.code == code)?;
            let shown = significant(*self.values.get(at)?);
            Some(match shown.starts_with('−') {
                true => format!("({shown})"),
                false => shown,
            })
        });
        format!("{set} = {}", with_unit(self.result, self.told.unit))
    }

    /// Each quantity that went in: its symbol, name, and value with unit.
    pub fn inputs(&self) -> Vec<(&'static str, &'static str, String)> {
        let values = self.told.terms.iter().zip(&self.values);
        values
            .map(|(term, value)| (term.symbol, term.name, with_unit(*value, term.unit)))
            .collect()
    }
}

fn with_unit(value: f64, unit: &str) -> String {
    let value = significant(value);
    match unit {
        "" => value,
        "°" => format!("{value}°"),
        unit => format!("{value} {unit}"),
    }
}

/// A number to five significant digits, without trailing zeros.
fn significant(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return show::number(value, 0);
    }
    let digits = libm::floor(libm::log10(value.abs())) as i32;
    show::number(value, usize::try_from(4 - digits).unwrap_or(0).min(9))
}

/// Works formulas out, silently or keeping every step to be shown: one computation, twice compiled.
pub trait Pen {
    /// The result of a formula for some values.
    fn work<const N: usize>(&mut self, formula: &'static Formula<N>, values: [f64; N]) -> f64;
}

/// Keeps nothing: for the many times that only the result is wanted.
#[derive(Debug, Clone, Copy, Default)]
pub struct Silent;

impl Pen for Silent {
    #[inline]
    fn work<const N: usize>(&mut self, formula: &'static Formula<N>, values: [f64; N]) -> f64 {
        formula.of(values)
    }
}

/// Keeps each step once, in order.
impl Pen for Vec<Step> {
    fn work<const N: usize>(&mut self, formula: &'static Formula<N>, values: [f64; N]) -> f64 {
        let step = formula.step(values);
        let result = step.result;
        if !self.contains(&step) {
            self.push(step);
        }
        result
    }
}

/// Sets an expression as it would be written by hand, each name replaced by what `named` gives for it.
fn set(expression: &str, named: &dyn Fn(&str) -> Option<String>) -> String {
    let tokens = tokens(expression);
    let mut at = 0;
    run(&tokens, &mut at, named)
}

/// Names and numbers whole, everything else sign by sign, no blanks.
fn tokens(expression: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut rest = expression.trim_start();
    while let Some(first) = rest.chars().next() {
        let word = |c: char| c.is_alphanumeric() || c == '_' || c == '.';
        let end = match word(first) {
            true => rest.find(|c| !word(c)).unwrap_or(rest.len()),
            false => first.len_utf8(),
        };
        let (token, after) = rest.split_at(end);
        found.push(token);
        rest = after.trim_start();
    }
    found
}

/// Sets tokens up to a closing bracket or a comma, which is passed.
fn run(tokens: &[&str], at: &mut usize, named: &dyn Fn(&str) -> Option<String>) -> String {
    let mut out = String::new();
    while let Some(token) = tokens.get(*at) {
        *at += 1;
        match *token {
            ")" | "," => break,
            "(" => {
                let inside = run(tokens, at, named);
                out.push_str(&format!("({inside})"));
            }
            "*" => out.push_str(" · "),
            "/" => out.push_str(" / "),
            "+" => out.push_str(" + "),
            "-" if out.is_empty() => out.push('−'),
            "-" => out.push_str(" − "),
            name if tokens.get(*at) == Some(&"(") => {
                *at += 1;
                out.push_str(&applied(name, tokens, at, named));
            }
            name => match named(name) {
                Some(shown) => out.push_str(&shown),
                None => out.push_str(&constant(name)),
            },
        }
    }
    out
}

/// A function of the expression as it is written by hand.
fn applied(
    name: &str,
    tokens: &[&str],
    at: &mut usize,
    named: &dyn Fn(&str) -> Option<String>,
) -> String {
    let first = run(tokens, at, named);
    match name {
        "sq" => format!("{}²", bracketed(&first)),
        "sqrt" => format!("√{}", bracketed(&first)),
        "normal" => format!("Φ({first})"),
        name => format!("{name}({first})"),
    }
}

/// Brackets round what is more than one name or number.
fn bracketed(text: &str) -> String {
    match text.contains(' ') {
        true => format!("({text})"),
        false => text.to_owned(),
    }
}

fn constant(name: &str) -> String {
    match name.parse::<f64>() {
        Ok(value) => {
            let power = libm::log10(value);
            if value >= 1e6 && power == libm::floor(power) {
                format!("10^{power:.0}")
            } else {
                show::number(value, 9)
            }
        }
        Err(_) => name.to_owned(),
    }
}

/// The functions that an expression may use, angles in degrees.
pub(crate) mod functions {
    /// The square.
    pub(crate) fn sq(x: f64) -> f64 {
        x * x
    }
    /// The square root.
    pub(crate) fn sqrt(x: f64) -> f64 {
        x.sqrt()
    }
    /// The angle of a tangent.
    pub(crate) fn arctan(x: f64) -> f64 {
        libm::atan(x).to_degrees()
    }
    /// The standard normal distribution function.
    pub(crate) fn normal(z: f64) -> f64 {
        0.5 * libm::erfc(-z / core::f64::consts::SQRT_2)
    }
}

/// A [`Formula`] from one expression.
macro_rules! formula {
    (
        $(#[$doc:meta])*
        $vis:vis $name:ident: $what:literal, $symbol:literal, $unit:literal;
        $($term:ident: $term_symbol:literal, $term_name:literal, $term_unit:literal;)*
        = $body:expr;
        range $range:literal;
        source $source:literal;
    ) => {
        $(#[$doc])*
        $vis static $name: $crate::quantity::Formula<{ [$(stringify!($term)),*].len() }> =
            $crate::quantity::Formula {
                told: $crate::quantity::Told {
                    name: $what,
                    symbol: $symbol,
                    unit: $unit,
                    expression: stringify!($body),
                    terms: &[$($crate::quantity::Term {
                        code: stringify!($term),
                        symbol: $term_symbol,
                        name: $term_name,
                        unit: $term_unit,
                    }),*],
                    range: $range,
                    source: $source,
                },
                compute: {
                    #[allow(unused_imports)]
                    use $crate::quantity::formula::functions::*;
                    |[$($term),*]| $body
                },
            };
    };
}
pub(crate) use formula;

#[cfg(test)]
mod tests {
    use super::*;

    formula! {
        /// For the tests.
        SLOPE: "slope", "s", "";
        a: "a", "on the face", "mm";
        b: "b", "on the edge", "mm";
        = sqrt(sq(a / 300.0) + sq((b - a) / 300.0)) * 1e6;
        range "any";
        source "none";
    }

    #[test]
    fn what_is_shown_is_what_is_computed() {
        let step = SLOPE.step([12.0, -15.0]);
        let by_hand = (0.04_f64 * 0.04 + 0.09 * 0.09).sqrt() * 1e6;
        assert!((step.result - by_hand).abs() < 1e-6);
        assert_eq!(
            step.in_symbols(),
            "s = √((a / 300)² + ((b − a) / 300)²) · 10^6"
        );
        assert_eq!(
            step.in_numbers(),
            "√((12 / 300)² + (((−15) − 12) / 300)²) · 10^6 = 98489"
        );
        assert_eq!(step.inputs()[1], ("b", "on the edge", "−15 mm".to_owned()));
    }

    #[test]
    fn numbers_keep_five_digits() {
        for (value, shown) in [
            (0.0, "0"),
            (0.027_866_98, "0.027867"),
            (706.934, "706.93"),
            (2620.0, "2620"),
            (1_234_567.0, "1234567"),
            (-12.0, "−12"),
        ] {
            assert_eq!(significant(value), shown);
        }
        assert_eq!(set("-(x) + normal(x / 2.0)", &|_| None), "−(x) + Φ(x / 2)");
    }
}
