//! What is out of the usual in a price or in the day of a visit: asked about, never changed.
//!
//! The bounds are common practice, no source: wide enough for the dearest wood.

use crate::trade::PriceBasis;
use chrono::{Datelike, NaiveDate};
use rust_decimal::Decimal;

/// A question about a price per unit, where it is far from what wood costs. In whatever currency: the
/// bounds only catch a point that was left out or a unit that was mixed up.
///
/// ```
/// use rust_decimal::Decimal;
/// use stillwood_core::trade::{PriceBasis, price_warning};
/// let asked = price_warning(Decimal::from(1450), PriceBasis::BoardFoot).unwrap();
/// assert_eq!(asked, "1450 per board foot, or 14.50?");
/// assert_eq!(price_warning(Decimal::new(1450, 2), PriceBasis::BoardFoot), None);
/// // "1.450" may have been meant as one thousand four hundred and fifty.
/// let asked = price_warning(Decimal::new(1450, 3), PriceBasis::CubicMetre).unwrap();
/// assert_eq!(asked, "1.45 per m³, or 1450?");
/// ```
pub fn price_warning(price: Decimal, basis: PriceBasis) -> Option<String> {
    let most = match basis {
        PriceBasis::BoardFoot | PriceBasis::Kilogram => Decimal::from(300),
        PriceBasis::CubicMetre => Decimal::from(100_000),
        PriceBasis::Piece => Decimal::from(20_000),
    };
    if basis == PriceBasis::CubicMetre && price > Decimal::ZERO && price < Decimal::from(50) {
        let thousandfold = price.checked_mul(Decimal::ONE_THOUSAND)?.normalize();
        return Some(format!(
            "{} {}, or {thousandfold}?",
            price.normalize(),
            basis.per()
        ));
    }
    (price > most).then(|| {
        let mut hundredth = price.checked_div(Decimal::ONE_HUNDRED).unwrap_or_default();
        hundredth.rescale(2);
        format!("{} {}, or {hundredth}?", price.normalize(), basis.per())
    })
}

/// A question about the day of a visit, where it is still to come or long gone.
pub fn day_warning(day: NaiveDate, today: NaiveDate) -> Option<String> {
    if day > today {
        Some("That day is still to come. Really?".into())
    } else if today.year() - day.year() > 30 {
        Some("That is more than thirty years ago. Really?".into())
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_to_come_and_one_long_gone_are_asked_about() {
        let day = |year| NaiveDate::from_ymd_opt(year, 10, 3).unwrap();
        let today = day(2026);
        assert!(day_warning(day(2062), today).is_some_and(|why| why.contains("still to come")));
        assert!(day_warning(day(1962), today).is_some_and(|why| why.contains("thirty")));
        assert_eq!(day_warning(today, today), None);
        assert_eq!(day_warning(day(1997), today), None);
    }

    #[test]
    fn each_basis_has_its_bound() {
        let dear = Decimal::from(6000);
        assert!(price_warning(dear, PriceBasis::BoardFoot).is_some());
        assert!(price_warning(dear, PriceBasis::Kilogram).is_some());
        assert_eq!(price_warning(dear, PriceBasis::CubicMetre), None);
        assert_eq!(price_warning(dear, PriceBasis::Piece), None);
        let cheap = Decimal::from(6);
        assert!(price_warning(cheap, PriceBasis::CubicMetre).is_some());
        assert_eq!(price_warning(cheap, PriceBasis::BoardFoot), None);
        assert_eq!(price_warning(Decimal::ZERO, PriceBasis::CubicMetre), None);
        assert!(price_warning(Decimal::MAX, PriceBasis::Piece).is_some());
    }
}
