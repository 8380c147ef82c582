//! A formula as one thing: what computes a number is what is shown of it.
//!
//! [`formula!`] takes an expression once. Compiled, it computes; as text, it is set in the symbols of
//! the trade and with a piece's own numbers. So what a screen shows can't drift from what was computed.
//! It never decides whether a value is in range: that is for the function that uses it.

mod exact;
pub(crate) mod functions;
mod set;

use super::show;
pub use exact::Exact;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use set::{bracketed, set};

/// The unit of a quantity in a formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TermUnit {
    /// Always this one; nothing for a bare number.
    Named(&'static str),
    /// The one in which the formula is worked out ([`Trace::work_in`]): a currency, the unit of a criterion.
    Given,
}

impl TermUnit {
    /// The least places behind the point that are shown of such a value: money to the cent.
    pub fn least_places(self) -> i32 {
        match self {
            TermUnit::Named(_) => 0,
            TermUnit::Given => 2,
        }
    }
}

/// One quantity that goes into a formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Term {
    /// Its name in the expression.
    pub code: &'static str,
    pub symbol: &'static str,
    pub name: &'static str,
    pub unit: TermUnit,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Explanation {
    pub name: &'static str,
    pub symbol: &'static str,
    /// The unit of the result.
    pub unit: TermUnit,
    pub expression: &'static str,
    /// What goes in, in order.
    pub terms: &'static [Term],
    pub range: &'static str,
    pub source: &'static str,
}

/// A formula of `N` quantities, each a number in the unit of its term.
#[derive(Debug, Clone, Copy)]
pub struct Formula<const N: usize> {
    pub explanation: Explanation,
    pub compute: fn([f64; N]) -> f64,
}

impl<const N: usize> Formula<N> {
    /// The result for some values.
    #[inline]
    pub fn of(&self, values: [f64; N]) -> f64 {
        (self.compute)(values)
    }

    /// The result for some values, with all that is to be shown of it.
    fn step(&'static self, values: [f64; N], unit: &str) -> Step {
        Step {
            explanation: &self.explanation,
            values: values.to_vec(),
            result: self.of(values),
            unit: unit.to_owned(),
        }
    }

    /// The sum of its results over several sets of values.
    pub fn sum(&self, items: &[[f64; N]]) -> f64 {
        items.iter().fold(0.0, |sum, item| sum + self.of(*item))
    }
}

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
    fn step(&'static self, values: &[[Decimal; N]], result: Decimal, unit: &str) -> Step {
        let near = |value: &Decimal| value.to_f64().unwrap_or(f64::NAN);
        Step {
            explanation: &self.explanation,
            values: values.iter().flatten().map(near).collect(),
            result: near(&result),
            unit: unit.to_owned(),
        }
    }
}

/// So many values of a sum are told one by one beside it.
const FEW: usize = 4;

/// A formula with a piece's own numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    pub explanation: &'static Explanation,
    /// What went in, in the order of its terms; of a sum set after set.
    pub values: Vec<f64>,
    /// What came out.
    pub result: f64,
    /// What [`TermUnit::Given`] is here.
    pub unit: String,
}

impl Step {
    /// The formula in symbols: `ρ = m / V`.
    pub fn in_symbols(&self) -> String {
        let set = set(self.explanation.expression, &|code| {
            let term = self.explanation.terms.iter().find(|term| term.code == code);
            term.map(|term| term.symbol.to_owned())
        });
        match self.is_sum() {
            true => format!("{} = Σ {}", self.explanation.symbol, bracketed(&set)),
            false => format!("{} = {set}", self.explanation.symbol),
        }
    }

    /// Whether it adds up what several sets of values give.
    fn is_sum(&self) -> bool {
        self.values.len() > self.explanation.terms.len()
    }

    /// The sets of values: one, but for a sum.
    fn sets(&self) -> impl Iterator<Item = &[f64]> {
        self.values.chunks(self.explanation.terms.len().max(1))
    }

    /// The formula with its numbers and the result: `19.7 / 0.027867 = 706.93 kg/m³`.
    pub fn in_numbers(&self) -> String {
        self.terms_in_numbers().join(" ")
    }

    /// The same in parts that are read as one each: the terms, those of a sum after the first with their
    /// plus, and the result.
    pub fn terms_in_numbers(&self) -> Vec<String> {
        let one = |values: &[f64]| {
            set(self.explanation.expression, &|code| {
                let at = self
                    .explanation
                    .terms
                    .iter()
                    .position(|term| term.code == code)?;
                let unit = self.explanation.terms.get(at)?.unit;
                let shown = shown(*values.get(at)?, unit);
                Some(match shown.starts_with('−') {
                    true => format!("({shown})"),
                    false => shown,
                })
            })
        };
        let mut parts: Vec<String> = self.sets().map(one).collect();
        for part in parts.iter_mut().skip(1) {
            part.insert_str(0, "+ ");
        }
        let result = self.with_unit(self.result, self.explanation.unit);
        parts.push(format!("= {result}"));
        parts
    }

    /// Each quantity that went in: its symbol, name, and value with unit; of a sum the value where all are
    /// alike, a few values one by one, and of more the least and the greatest.
    pub fn inputs(&self) -> Vec<(&'static str, &'static str, String)> {
        let values = |at: usize, unit| {
            let of: Vec<f64> = self.sets().filter_map(|set| set.get(at).copied()).collect();
            let with_unit = |value: &f64| self.with_unit(*value, unit);
            let least = of.iter().min_by(|a, b| a.total_cmp(b));
            let greatest = of.iter().max_by(|a, b| a.total_cmp(b));
            match (least, greatest) {
                (Some(least), Some(greatest)) if of.len() > 1 && least == greatest => {
                    format!("{} in each", with_unit(least))
                }
                (Some(least), Some(greatest)) if of.len() > FEW => {
                    format!("{} to {}", with_unit(least), with_unit(greatest))
                }
                _ => of.iter().map(with_unit).collect::<Vec<_>>().join(", "),
            }
        };
        let terms = self.explanation.terms.iter().enumerate();
        terms
            .map(|(at, term)| (term.symbol, term.name, values(at, term.unit)))
            .collect()
    }

    fn with_unit(&self, value: f64, unit: TermUnit) -> String {
        let number = shown(value, unit);
        let unit = match unit {
            TermUnit::Named(unit) => unit,
            TermUnit::Given => &self.unit,
        };
        match unit {
            "" => number,
            "°" => format!("{number}°"),
            unit => format!("{number} {unit}"),
        }
    }
}

/// A number to five significant digits, or more where its unit wants them, without trailing zeros.
fn shown(value: f64, unit: TermUnit) -> String {
    if value == 0.0 || !value.is_finite() {
        return show::number(value, 0);
    }
    let digits = libm::floor(libm::log10(value.abs())) as i32;
    let places = (4 - digits).clamp(unit.least_places(), 9);
    show::number(value, usize::try_from(places).unwrap_or(0))
}

/// Works formulas out, with or without keeping their steps: one computation, twice compiled.
pub trait Trace {
    /// The result of a formula for some values; `unit` is that of the terms that are given one.
    fn work_in<const N: usize>(
        &mut self,
        unit: &str,
        formula: &'static Formula<N>,
        values: [f64; N],
    ) -> f64;

    /// The sum of a formula's results over several sets of values.
    fn add_up<const N: usize>(&mut self, formula: &'static Formula<N>, items: &[[f64; N]]) -> f64;

    /// The sum of an exact formula's results over several sets of values; `None` where digits ran out.
    fn add_exact_in<const N: usize>(
        &mut self,
        unit: &str,
        formula: &'static ExactFormula<N>,
        items: &[[Decimal; N]],
    ) -> Option<Decimal>;

    /// [`Self::work_in`], where every term has a unit of its own.
    #[inline]
    fn work<const N: usize>(&mut self, formula: &'static Formula<N>, values: [f64; N]) -> f64 {
        self.work_in("", formula, values)
    }

    /// The result of an exact formula; `None` where digits ran out or nothing is divided by.
    fn exact_in<const N: usize>(
        &mut self,
        unit: &str,
        formula: &'static ExactFormula<N>,
        values: [Decimal; N],
    ) -> Option<Decimal> {
        self.add_exact_in(unit, formula, &[values])
    }

    /// [`Self::exact_in`], where every term has a unit of its own.
    fn exact<const N: usize>(
        &mut self,
        formula: &'static ExactFormula<N>,
        values: [Decimal; N],
    ) -> Option<Decimal> {
        self.exact_in("", formula, values)
    }
}

/// Keeps nothing: for the many times that only the result is wanted.
#[derive(Debug, Clone, Copy, Default)]
pub struct TraceOff;

impl Trace for TraceOff {
    #[inline]
    fn work_in<const N: usize>(
        &mut self,
        _unit: &str,
        formula: &'static Formula<N>,
        values: [f64; N],
    ) -> f64 {
        formula.of(values)
    }

    #[inline]
    fn add_up<const N: usize>(&mut self, formula: &'static Formula<N>, items: &[[f64; N]]) -> f64 {
        formula.sum(items)
    }

    fn add_exact_in<const N: usize>(
        &mut self,
        _unit: &str,
        formula: &'static ExactFormula<N>,
        items: &[[Decimal; N]],
    ) -> Option<Decimal> {
        formula.sum(items)
    }
}

/// Keeps each step once, in order.
impl Trace for Vec<Step> {
    fn work_in<const N: usize>(
        &mut self,
        unit: &str,
        formula: &'static Formula<N>,
        values: [f64; N],
    ) -> f64 {
        keep(self, formula.step(values, unit))
    }

    fn add_up<const N: usize>(&mut self, formula: &'static Formula<N>, items: &[[f64; N]]) -> f64 {
        let step = Step {
            explanation: &formula.explanation,
            values: items.concat(),
            result: formula.sum(items),
            unit: String::new(),
        };
        keep(self, step)
    }

    fn add_exact_in<const N: usize>(
        &mut self,
        unit: &str,
        formula: &'static ExactFormula<N>,
        items: &[[Decimal; N]],
    ) -> Option<Decimal> {
        let result = formula.sum(items)?;
        keep(self, formula.step(items, result, unit));
        Some(result)
    }
}

fn keep(steps: &mut Vec<Step>, step: Step) -> f64 {
    let result = step.result;
    if !steps.contains(&step) {
        steps.push(step);
    }
    result
}

/// A [`Formula`] from one expression, or an [`ExactFormula`].
macro_rules! formula {
    (exact $(#[$doc:meta])* $vis:vis $name:ident: $($rest:tt)*) => {
        $crate::quantity::formula::formula!(
            @of ExactFormula, $crate::quantity::formula::Exact;
            $(#[$doc])* $vis $name: $($rest)*
        );
    };
    (
        @of $kind:ident, $number:ty;
        $(#[$doc:meta])*
        $vis:vis $name:ident: $what:literal, $symbol:literal, $unit:tt;
        $($term:ident: $term_symbol:literal, $term_name:literal, $term_unit:tt;)*
        = $body:expr;
        range $range:literal;
        source $source:literal;
    ) => {
        $(#[$doc])*
        $vis static $name: $crate::quantity::$kind<{ [$(stringify!($term)),*].len() }> =
            $crate::quantity::$kind {
                explanation: $crate::quantity::Explanation {
                    name: $what,
                    symbol: $symbol,
                    unit: $crate::quantity::formula::formula!(@unit $unit),
                    expression: stringify!($body),
                    terms: &[$($crate::quantity::Term {
                        code: stringify!($term),
                        symbol: $term_symbol,
                        name: $term_name,
                        unit: $crate::quantity::formula::formula!(@unit $term_unit),
                    }),*],
                    range: $range,
                    source: $source,
                },
                compute: {
                    #[allow(unused_imports)]
                    use $crate::quantity::formula::functions::*;
                    |[$($term),*]: [$number; [$(stringify!($term)),*].len()]| -> $number { $body }
                },
            };
    };
    (@unit given) => { $crate::quantity::TermUnit::Given };
    (@unit $unit:literal) => { $crate::quantity::TermUnit::Named($unit) };
    ($(#[$doc:meta])* $vis:vis $name:ident: $($rest:tt)*) => {
        $crate::quantity::formula::formula!(@of Formula, f64; $(#[$doc])* $vis $name: $($rest)*);
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
        let step = SLOPE.step([12.0, -15.0], "");
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
    fn a_sum_is_told_term_by_term() {
        let mut steps: Vec<Step> = Vec::new();
        let sum = steps.add_up(&SLOPE, &[[3.0, 3.0], [0.0, 6.0]]);
        assert_eq!(sum, SLOPE.of([3.0, 3.0]) + SLOPE.of([0.0, 6.0]));
        assert!(steps[0].in_symbols().starts_with("s = Σ (√("));
        assert!(steps[0].in_numbers().ends_with("= 30000"));
        assert_eq!(steps[0].inputs()[1].2, "3 mm, 6 mm");
        let parts = steps[0].terms_in_numbers();
        assert!(
            parts[1].starts_with("+ √(") && parts[2] == "= 30000",
            "{parts:?}"
        );
        let many: Vec<[f64; 2]> = (1..=9).map(|n| [3.0, f64::from(n)]).collect();
        steps.add_up(&SLOPE, &many);
        let inputs: Vec<String> = steps[1].inputs().into_iter().map(|one| one.2).collect();
        assert_eq!(inputs, ["3 mm in each", "1 mm to 9 mm"]);
        assert_eq!(steps[1].terms_in_numbers().len(), 10);
        assert_eq!(TraceOff.add_up(&SLOPE, &[]), 0.0);
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
            assert_eq!(super::shown(value, TermUnit::Named("")), shown);
        }
        assert_eq!(super::shown(123_456.789, TermUnit::Given), "123456.79");
        assert_eq!(set("-(x) + normal(x / 2.0)", &|_| None), "−(x) + Φ(x / 2)");
    }

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
