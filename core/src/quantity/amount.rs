//! Reading an amount of money or a percentage, exactly.

use super::number::western;
use rust_decimal::Decimal;

/// Why a text is not an amount.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotAnAmount {
    /// A comma before three digits: thousands, or a decimal comma?
    #[error("Is that {0}{1}, or {0}.{1}? Type it that way.")]
    Comma(String, String),
    /// Less than nothing.
    #[error("It can't be less than 0.")]
    Negative,
    #[error("“{0}” is not a number.")]
    NoNumber(String),
}

/// An amount of money or a percentage as a hand types it, exact, comma or point; nothing typed is none.
///
/// ```
/// use stillwood_core::quantity::read::amount;
/// assert_eq!(amount("1.450,50"), amount("1450.5"));
/// assert!(amount("1,450").is_err());
/// ```
pub fn amount(typed: &str) -> Result<Option<Decimal>, NotAnAmount> {
    let bare: String = typed
        .trim()
        .chars()
        .map(western)
        // Between thousands: a blank, a narrow one, an apostrophe, the Arabic thousands sign.
        .filter(|c| !matches!(c, ' ' | '\u{a0}' | '\u{202f}' | '\'' | '\u{66c}'))
        .collect();
    let plain = match (bare.rfind(','), bare.rfind('.')) {
        // Both: the last one is the decimal sign.
        (Some(comma), Some(point)) if comma < point => bare.replace(',', ""),
        (Some(_), Some(_)) => bare.replace('.', "").replace(',', "."),
        // Two of one sign can only be between thousands.
        _ if bare.matches([',', '.']).count() > 1 => {
            if bare.split([',', '.']).skip(1).any(|group| group.len() != 3) {
                return Err(NotAnAmount::NoNumber(typed.trim().to_owned()));
            }
            bare.replace([',', '.'], "")
        }
        (Some(comma), None) if comma > 0 && bare.len() == comma + 4 => {
            let (whole, rest) = bare.split_at(comma);
            let rest = rest.trim_start_matches(',');
            return Err(NotAnAmount::Comma(whole.to_owned(), rest.to_owned()));
        }
        _ => bare.replace(',', "."),
    };
    if plain.is_empty() {
        return Ok(None);
    }
    match plain.parse::<Decimal>() {
        Ok(value) if value.is_sign_negative() => Err(NotAnAmount::Negative),
        Ok(value) => Ok(Some(value)),
        Err(_) => Err(NotAnAmount::NoNumber(typed.trim().to_owned())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn money_takes_comma_and_point() {
        assert_eq!(amount("14,50"), Ok(Some(Decimal::new(1450, 2))));
        assert_eq!(amount(" 14.50 "), Ok(Some(Decimal::new(1450, 2))));
        assert_eq!(amount("1 450"), Ok(Some(Decimal::from(1450))));
        assert_eq!(amount("1,450.50"), Ok(Some(Decimal::new(145_050, 2))));
        assert_eq!(amount("1.450,50"), Ok(Some(Decimal::new(145_050, 2))));
        assert_eq!(
            amount("1,450").unwrap_err().to_string(),
            "Is that 1450, or 1.450? Type it that way."
        );
        for millions in ["1,450,000", "1.450.000", "1 450 000", "1'450'000"] {
            assert_eq!(amount(millions), Ok(Some(Decimal::from(1_450_000))));
        }
        assert_eq!(amount(""), Ok(None));
        assert_eq!(amount("-1"), Err(NotAnAmount::Negative));
        for text in ["1e999", "NaN", "x", "1.2.3", "1,45,000"] {
            assert!(amount(text).is_err(), "{text}");
        }
    }
}
