//! Reading an amount of money, a percentage or a volume, exactly.

use super::number::western;
use rust_decimal::Decimal;

/// Why a text is not an amount.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotAnAmount {
    /// A comma or a point before three digits: between thousands, or the decimal sign?
    #[error("Is that {0}{1}, or {0}.{1}0? Type it that way.")]
    ThousandsOrDecimals(String, String),
    /// Less than nothing.
    #[error("It can't be less than 0.")]
    Negative,
    #[error("“{0}” is not a number.")]
    NoNumber(String),
}

/// An amount of money as a hand types it, exact, comma or point; nothing typed is none. A comma or a
/// point before three digits is asked about, where it may as well stand between thousands.
///
/// ```
/// use stillwood_core::quantity::read::amount;
/// assert_eq!(amount("1.450,50"), amount("1450.5"));
/// assert!(amount("1,450").is_err() && amount("1.450").is_err());
/// ```
pub fn amount(typed: &str) -> Result<Option<Decimal>, NotAnAmount> {
    exact(typed, |whole, decimals| {
        Err(NotAnAmount::ThousandsOrDecimals(
            whole.to_owned(),
            decimals.to_owned(),
        ))
    })
}

/// A percentage or a volume in cubic metres, as [`amount`]; three digits behind one comma or point are its decimals, for
/// neither comes to a thousand.
pub fn under_a_thousand(typed: &str) -> Result<Option<Decimal>, NotAnAmount> {
    exact(typed, |_, _| Ok(()))
}

/// `doubtful` is asked where the one comma or point stands before three digits, with what stands around it.
fn exact(
    typed: &str,
    doubtful: impl Fn(&str, &str) -> Result<(), NotAnAmount>,
) -> Result<Option<Decimal>, NotAnAmount> {
    let text: String = typed.trim().chars().map(western).collect();
    if text.is_empty() {
        return Ok(None);
    }
    let no_number = || NotAnAmount::NoNumber(typed.trim().to_owned());
    let (minus, text) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(&text)),
    };
    let signs: Vec<(usize, char)> = text
        .char_indices()
        .filter(|(_, c)| matches!(c, ',' | '.'))
        .collect();
    let decimal_sign = match signs.as_slice() {
        [] => None,
        [one] => Some(*one),
        // Of both the last is the decimal sign; of one sign, two can only be between thousands.
        [before @ .., last] => before.iter().all(|one| one.1 != last.1).then_some(*last),
    };
    let (whole, decimals) = match decimal_sign {
        Some((at, sign)) => (&text[..at], &text[at + sign.len_utf8()..]),
        None => (text, ""),
    };
    let is_digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    let groups: Vec<&str> = whole.split(between_thousands).collect();
    let grouped = match groups.as_slice() {
        [first, rest @ ..] if !rest.is_empty() => {
            (1..=3).contains(&first.len()) && rest.iter().all(|group| group.len() == 3)
        }
        _ => true,
    };
    let digits = groups.concat();
    if !grouped || !is_digits(&digits) || !is_digits(decimals) {
        return Err(no_number());
    }
    let whole_alone = groups.len() == 1 && (1..=3).contains(&whole.len());
    if whole_alone && !whole.starts_with('0') && decimals.len() == 3 {
        doubtful(whole, decimals)?;
    }
    let plain = match decimals {
        "" => digits,
        _ => format!("{digits}.{decimals}"),
    };
    match plain.parse::<Decimal>() {
        Ok(_) if minus => Err(NotAnAmount::Negative),
        Ok(value) => Ok(Some(value)),
        Err(_) => Err(no_number()),
    }
}

/// What stands between thousands: a comma, a point, a blank, a narrow one, an apostrophe, the Arabic sign.
fn between_thousands(sign: char) -> bool {
    matches!(
        sign,
        ',' | '.' | ' ' | '\u{a0}' | '\u{202f}' | '\'' | '’' | '\u{66c}'
    )
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
        for doubtful in ["1,450", "1.450"] {
            assert_eq!(
                amount(doubtful).unwrap_err().to_string(),
                "Is that 1450, or 1.4500? Type it that way."
            );
        }
        // What is offered can be typed, with either sign.
        for offered in ["1.4500", "1,4500"] {
            assert_eq!(amount(offered), Ok(Some(Decimal::new(14_500, 4))));
        }
        // No thousands: a nought before the sign, or more digits than a group has.
        assert_eq!(amount("0,125"), Ok(Some(Decimal::new(125, 3))));
        assert_eq!(amount("1450.125"), Ok(Some(Decimal::new(1_450_125, 3))));
        assert_eq!(under_a_thousand("1,450"), Ok(Some(Decimal::new(1450, 3))));
        assert_eq!(under_a_thousand("1.450"), Ok(Some(Decimal::new(1450, 3))));
        for millions in [
            "1,450,000",
            "1.450.000",
            "1 450 000",
            "1'450'000",
            "1’450’000",
        ] {
            assert_eq!(amount(millions), Ok(Some(Decimal::from(1_450_000))));
        }
        assert_eq!(amount(""), Ok(None));
        assert_eq!(amount("-1"), Err(NotAnAmount::Negative));
        for text in [
            "1e999",
            "NaN",
            "x",
            "1.2.3",
            "1,45,000",
            "14,50.25",
            "14 50",
            "1 45.5",
            "1450 000",
            "1,450.50.25",
            ".",
            "-",
            "1_450",
        ] {
            assert!(amount(text).is_err(), "{text}");
        }
    }
}
