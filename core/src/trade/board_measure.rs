//! Board measure, exact: a plank's footage by a yard's rule.
//!
//! Decimal all the way, from the number as typed, so that 215.9 mm is 8.5 inches and no hair more. It
//! knows no money and no wood.

use super::{Rounding, TallyMeasure, TallyRule, ThicknessBasis};
use crate::plank::{Side, SizeError};
use crate::quantity::{Length, Trace, TraceOff, formula, in_mm};
use rust_decimal::{Decimal, RoundingStrategy};
use std::str::FromStr;
use thiserror::Error;

/// Exactly 25.4 mm (international inch, 1959).
const MM_PER_INCH: Decimal = Decimal::from_parts(254, 0, 0, false, 1);
/// Exactly 304.8 mm.
const MM_PER_FOOT: Decimal = Decimal::from_parts(3048, 0, 0, false, 1);
/// Longer than any plank: sizes up to here can be multiplied without running out of digits.
const LONGEST_MM: Decimal = Decimal::from_parts(100_000, 0, 0, false, 0);
/// Digits that survive from a length in millimetres: a billionth, finer than any fraction of an inch
/// that is typed and coarser than the noise of binary numbers.
const DIGITS: usize = 9;

/// Why a plank has no footage.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum MeasureError {
    /// A size is missing or not positive.
    #[error(transparent)]
    Size(#[from] SizeError),
    /// A size beyond any plank.
    #[error("the {} comes to {:.0} mm: that is longer than any plank", .side.name(), in_mm(*.value))]
    TooLarge { side: Side, value: Length },
    /// The rule charges the nominal thickness, and the pile has none.
    #[error("the rule charges the nominal thickness, but the pile has none")]
    NominalMissing,
    /// A percentage beyond reason.
    #[error("{0} % added to the footage: it has to lie between -100 and 1000")]
    Percent(Decimal),
}

/// A length as an exact decimal of millimetres, from nothing to a little over 100 m, so that products of
/// three never run out of digits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct ExactLength(Decimal);

impl ExactLength {
    /// From a measured length, to a billionth of a millimetre; an error when it is missing, not
    /// positive, or over 100 m.
    ///
    /// ```
    /// use stillwood_core::plank::Side;
    /// use stillwood_core::quantity::mm;
    /// use stillwood_core::trade::ExactLength;
    /// let width = ExactLength::read(Side::Width, Some(mm(215.9))).unwrap();
    /// assert_eq!(width.in_inches().normalize().to_string(), "8.5");
    /// ```
    pub fn read(side: Side, value: Option<Length>) -> Result<Self, MeasureError> {
        let value = crate::plank::positive(side, value)?;
        let text = format!("{:.*}", DIGITS, in_mm(value));
        match Decimal::from_str(&text) {
            Ok(exact) if exact <= LONGEST_MM => Ok(Self(exact.normalize())),
            _ => Err(MeasureError::TooLarge { side, value }),
        }
    }

    pub fn in_inches(self) -> Decimal {
        self.0 / MM_PER_INCH
    }

    pub fn in_feet(self) -> Decimal {
        self.0 / MM_PER_FOOT
    }

    /// Rounded to whole inches by a yard's custom; to the nearest, a half goes up.
    pub fn to_whole_inches(self, by: Rounding) -> Self {
        self.to_whole(MM_PER_INCH, by)
    }

    /// Rounded to whole feet by a yard's custom; to the nearest, a half goes up.
    pub fn to_whole_feet(self, by: Rounding) -> Self {
        self.to_whole(MM_PER_FOOT, by)
    }

    fn to_whole(self, unit: Decimal, by: Rounding) -> Self {
        match by {
            // Straight from millimetres: a division would leave its trace.
            Rounding::None => self,
            Rounding::Down => Self((self.0 / unit).floor() * unit),
            Rounding::Nearest => Self(nearest(self.0 / unit) * unit),
            Rounding::Up => Self((self.0 / unit).ceil() * unit),
        }
    }
}

fn nearest(value: Decimal) -> Decimal {
    value.round_dp_with_strategy(0, RoundingStrategy::MidpointAwayFromZero)
}

/// The sizes by which a plank is charged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sawn {
    pub length: Option<Length>,
    /// The width that is paid for: in a tapered or waney plank the mean of the stations.
    pub width: Option<Length>,
    pub thickness: Option<Length>,
    /// The pile's nominal thickness.
    pub nominal: Option<Length>,
}

impl Sawn {
    fn charged_thickness(&self, basis: ThicknessBasis) -> Result<ExactLength, MeasureError> {
        match basis {
            ThicknessBasis::Measured => ExactLength::read(Side::Thickness, self.thickness),
            ThicknessBasis::Nominal if self.nominal.is_none() => Err(MeasureError::NominalMissing),
            ThicknessBasis::Nominal => ExactLength::read(Side::Thickness, self.nominal),
        }
    }
}

/// Which way the next exact half of a surface measure goes: down first, then up and down by turns
/// through the tally.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Halves {
    next_up: bool,
}

impl Halves {
    /// To the nearest whole number, an exact half by turns.
    fn nearest(&mut self, value: Decimal) -> Decimal {
        // Thirds of a millimetre, from a mean of three widths, must not hide a half.
        let value = value.round_dp(8);
        if value - value.floor() != Decimal::from_parts(5, 0, 0, false, 1) {
            return nearest(value);
        }
        let up = self.next_up;
        self.next_up = !up;
        if up { value.ceil() } else { value.floor() }
    }
}

formula! {
    exact
    /// Footage, nothing rounded.
    FOOTAGE: "Footage", "bf", "bd ft";
    l: "L", "length charged", "ft";
    w: "W", "width charged", "in";
    t: "T", "thickness charged", "in";
    = l * w * t / 12.0;
    range "any";
    source "the definition of the board foot: 1 ft × 12 in × 1 in";
}

formula! {
    exact
    /// Square feet of the face.
    FACE: "Square feet of the face", "F", "sq ft";
    l: "L", "length charged", "ft";
    w: "W", "width charged", "in";
    = l * w / 12.0;
    range "to the nearest whole foot after that, exact halves down and up by turns";
    source "the hardwood trade's surface measure (read as quoted)";
}

formula! {
    exact
    /// Footage by surface measure.
    BY_FACE: "Footage by surface measure", "bf", "bd ft";
    face: "SM", "surface measure: the face in whole square feet", "sq ft";
    t: "T", "thickness in quarters of an inch, at least 1", "in";
    = face * t;
    range "any";
    source "the hardwood trade's surface measure (read as quoted)";
}

formula! {
    exact
    /// With the rule's percentage.
    ADDED: "Footage with the yard's percentage", "bf′", "bd ft";
    bf: "bf", "footage", "bd ft";
    p: "p", "added by the rule", "%";
    = bf * (1.0 + p / 100.0);
    range "−100 to 1000 %";
    source "the visit's tally rule";
}

formula! {
    exact
    /// Board feet in cubic metres.
    CUBIC: "In cubic metres", "V", "m³";
    bf: "bf", "footage", "bd ft";
    = bf * 0.002359737216;
    range "any";
    source "the definition of the board foot, exact";
}

/// Volume of a box in board feet, unrounded: L W T / 12.
///
/// L is the length in feet, W and T are width and thickness in inches. Arithmetic of the definition: a
/// board foot is 1 ft x 12 in x 1 in (read in a university glossary of lumber terms). `None` where it has
/// too many digits, which no [`ExactLength`] gives.
pub fn exact_board_feet(
    trace: &mut impl Trace,
    length: ExactLength,
    width: ExactLength,
    thickness: ExactLength,
) -> Option<Decimal> {
    let values = [length.in_feet(), width.in_inches(), thickness.in_inches()];
    trace.exact(&FOOTAGE, values)
}

/// Board feet as cubic metres: exactly 0.002359737216 m3 each, so 1 m3 is 423.776 of them.
///
/// `None` when the footage has too many digits. Arithmetic of the definition.
pub fn cubic_metres(board_feet: Decimal) -> Option<Decimal> {
    in_cubic_metres(&mut TraceOff, board_feet)
}

/// [`cubic_metres`], with its step.
pub(crate) fn in_cubic_metres(trace: &mut impl Trace, board_feet: Decimal) -> Option<Decimal> {
    trace.exact(&CUBIC, [board_feet])
}

/// Cubic metres as board feet, see [`cubic_metres`].
pub fn board_feet_of(cubic_metres: Decimal) -> Option<Decimal> {
    cubic_metres.checked_div(Decimal::from_parts(2_359_737_216, 0, 0, false, 12))
}

/// Surface measure: the square feet of the face, W L/12, to the nearest whole foot.
///
/// W is the width in inches, L the length in feet, either already rounded by custom. An exact half goes
/// down and up by turns, which is the state kept in `halves`. Rule read in two texts: the hardwood
/// trade's rule book, p. 7 para. 16, as quoted by its chief inspector ("to the nearest whole foot"), and
/// King, Elements of Woodwork (halves by turns). That the first half goes down is from memory. `None`
/// where it has too many digits, which no [`ExactLength`] gives.
pub fn surface_measure(
    trace: &mut impl Trace,
    length: ExactLength,
    width: ExactLength,
    halves: &mut Halves,
) -> Option<Decimal> {
    let face = trace.exact(&FACE, [length.in_feet(), width.in_inches()])?;
    Some(halves.nearest(face))
}

/// A thickness in whole quarters of an inch, as a number of inches: the nearest quarter, stock under one
/// inch counting as one inch.
///
/// Under one inch as one: read in a university glossary of lumber terms. The nearest quarter, so that a
/// nominal 50 mm is 8/4: common practice, no source.
pub fn inches_in_quarters(thickness: ExactLength) -> Decimal {
    let four = Decimal::from(4u8);
    nearest(thickness.0 * four / MM_PER_INCH).max(four) / four
}

/// Footage of a plank by a yard's rule, in board feet, not rounded for show.
///
/// Width and length are first rounded as the rule says, to inches and feet, then multiplied: as they
/// are, or by surface measure with the thickness in quarters. The rule's percentage, from -100 to 1000,
/// is added last. `halves` carries the turn of the exact halves from plank to plank.
///
/// ```
/// use stillwood_core::quantity::{inches, mm};
/// use stillwood_core::trade::{Halves, Sawn, TallyRule, board_feet};
/// let plank = Sawn {
///     length: Some(mm(2620.0)), width: Some(mm(204.0)),
///     thickness: Some(mm(52.0)), nominal: Some(inches(2.0)),
/// };
/// let charged = board_feet(&TallyRule::default(), &plank, &mut Halves::default()).unwrap();
/// assert_eq!(charged.round_dp(1).to_string(), "11.5");
/// ```
pub fn board_feet(
    rule: &TallyRule,
    plank: &Sawn,
    halves: &mut Halves,
) -> Result<Decimal, MeasureError> {
    footage(&mut TraceOff, rule, plank, halves)
}

/// [`board_feet`], with its steps.
pub(super) fn footage(
    trace: &mut impl Trace,
    rule: &TallyRule,
    plank: &Sawn,
    halves: &mut Halves,
) -> Result<Decimal, MeasureError> {
    let [length, width, thickness] = charged_sizes(rule, plank)?;
    let percent = rule.added_percent;
    let reasonable = percent >= -Decimal::ONE_HUNDRED && percent <= Decimal::ONE_THOUSAND;
    let mut footage = || {
        let bf = match rule.measure {
            TallyMeasure::Exact => exact_board_feet(trace, length, width, thickness)?,
            TallyMeasure::SurfaceMeasure => {
                let face = surface_measure(trace, length, width, halves)?;
                trace.exact(&BY_FACE, [face, inches_in_quarters(thickness)])?
            }
        };
        match percent.is_zero() {
            true => Some(bf),
            false => trace.exact(&ADDED, [bf, percent]),
        }
    };
    footage()
        .filter(|_| reasonable)
        .ok_or(MeasureError::Percent(percent))
}

/// Length, width and thickness as the rule charges them, each rounded by its custom.
fn charged_sizes(rule: &TallyRule, plank: &Sawn) -> Result<[ExactLength; 3], MeasureError> {
    Ok([
        ExactLength::read(Side::Length, plank.length)?.to_whole_feet(rule.length),
        ExactLength::read(Side::Width, plank.width)?.to_whole_inches(rule.width),
        plank.charged_thickness(rule.thickness)?,
    ])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{inches, mm};

    fn sawn(length_in: f64, width_in: f64, thickness_in: f64) -> Sawn {
        Sawn {
            length: Some(inches(length_in)),
            width: Some(inches(width_in)),
            thickness: Some(inches(thickness_in)),
            nominal: Some(inches(thickness_in)),
        }
    }

    fn by(rule: &TallyRule, plank: &Sawn) -> Decimal {
        board_feet(rule, plank, &mut Halves::default()).unwrap()
    }

    fn surface() -> TallyRule {
        TallyRule {
            measure: TallyMeasure::SurfaceMeasure,
            ..TallyRule::default()
        }
    }

    #[test]
    fn inches_come_out_whole() {
        assert_eq!(
            by(&TallyRule::default(), &sawn(96.0, 9.0, 1.0)),
            Decimal::from(6)
        );
        assert_eq!(
            by(&TallyRule::default(), &sawn(96.0, 9.0, 1.5)),
            Decimal::from(9)
        );
        let width = ExactLength::read(Side::Width, Some(mm(215.9))).unwrap();
        assert_eq!(width.in_inches(), Decimal::new(85, 1));
    }

    #[test]
    fn every_length_to_a_tenth_keeps_its_text() {
        for tenths in 1..60_000u32 {
            let typed = f64::from(tenths) / 10.0;
            let exact = ExactLength::read(Side::Length, Some(mm(typed))).unwrap();
            assert_eq!(exact.0, Decimal::new(i64::from(tenths), 1));
        }
    }

    #[test]
    fn exact_halves_go_down_and_up_by_turns() {
        // 12 ft x 8.5 in is 8.5 square feet.
        let half = sawn(144.0, 8.5, 1.0);
        let mut halves = Halves::default();
        let tally: Vec<Decimal> = (0..4)
            .map(|_| board_feet(&surface(), &half, &mut halves).unwrap())
            .collect();
        assert_eq!(tally, [8, 9, 8, 9].map(Decimal::from));
        // What is no half does not take a turn.
        assert_eq!(
            board_feet(&surface(), &sawn(144.0, 8.75, 1.0), &mut halves),
            Ok(Decimal::from(9))
        );
        assert_eq!(
            board_feet(&surface(), &half, &mut halves),
            Ok(Decimal::from(8))
        );
    }

    #[test]
    fn thickness_counts_in_quarters_and_never_under_an_inch() {
        assert_eq!(by(&surface(), &sawn(96.0, 9.0, 0.75)), Decimal::from(6));
        assert_eq!(by(&surface(), &sawn(96.0, 9.0, 1.25)).to_string(), "7.50");
        let nominal = ExactLength::read(Side::Thickness, Some(mm(50.0))).unwrap();
        assert_eq!(inches_in_quarters(nominal), Decimal::from(2));
    }

    #[test]
    fn customs_round_before_multiplying() {
        let rule = |width, length| TallyRule {
            width,
            length,
            ..TallyRule::default()
        };
        let plank = sawn(103.0, 8.4, 1.0);
        assert_eq!(
            by(&rule(Rounding::Up, Rounding::Down), &plank),
            Decimal::from(6)
        );
        assert_eq!(
            by(&rule(Rounding::Nearest, Rounding::Up), &plank),
            Decimal::from(6)
        );
        let added = TallyRule {
            added_percent: Decimal::from(15),
            ..TallyRule::default()
        };
        assert_eq!(
            by(&added, &sawn(96.0, 9.0, 1.0)).normalize().to_string(),
            "6.9"
        );
    }

    #[test]
    fn absurd_sizes_are_refused_not_multiplied() {
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e5, 1e300] {
            let plank = sawn(bad, 9.0, 1.0);
            assert!(
                board_feet(&surface(), &plank, &mut Halves::default()).is_err(),
                "{bad}"
            );
        }
        let mut none = sawn(96.0, 9.0, 1.0);
        none.nominal = None;
        let error = board_feet(&surface(), &none, &mut Halves::default()).unwrap_err();
        assert_eq!(error, MeasureError::NominalMissing);
        let huge = TallyRule {
            added_percent: Decimal::MAX,
            ..surface()
        };
        let error = board_feet(&huge, &sawn(96.0, 9.0, 1.0), &mut Halves::default()).unwrap_err();
        assert_eq!(error, MeasureError::Percent(Decimal::MAX));
    }

    #[test]
    fn a_cubic_metre_is_423_776_board_feet() {
        let bf = board_feet_of(Decimal::ONE).unwrap();
        assert_eq!(bf.round_dp(3).to_string(), "423.776");
        assert_eq!(
            cubic_metres(Decimal::ONE).unwrap().to_string(),
            "0.002359737216"
        );
    }
}
