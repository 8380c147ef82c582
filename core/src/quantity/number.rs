//! Numbers as a hand types them: decimal point or comma, fractions, a whole and a fraction.
//!
//! It splits a text into numbers and words; what the words mean is the reader's business.

use super::understood::{UnderstoodNumber, Unreadable};
use rust_decimal::Decimal;

/// A piece of a typed text.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Token {
    /// A number, and whether it was written with a fraction.
    Number {
        value: Decimal,
        fraction: Option<(u32, u32)>,
    },
    /// A run of letters or one sign such as `"` or `%`, in lower case.
    Word(String),
}

/// More digits than any tape or scale shows.
const MOST_DIGITS: usize = 12;

/// Splits a text into numbers and words. A sign is a word of its own.
pub(super) fn tokens(typed: &str) -> Result<Vec<Token>, Unreadable> {
    let mut found = Vec::new();
    let characters: Vec<char> = typed.chars().map(western).collect();
    let mut at = 0;
    while let Some(&c) = characters.get(at) {
        if c.is_whitespace() {
            at += 1;
        } else if c.is_ascii_digit() || starts_decimal(&characters, at) {
            let (value, next) = decimal(&characters, at)?;
            at = next;
            found.push(Token::Number {
                value,
                fraction: None,
            });
        } else if let Some((over, under)) = vulgar(c) {
            at += 1;
            found.push(fraction(over, under)?);
        } else if hidden(c) {
            return Err(Unreadable::HiddenCharacter);
        } else if c.is_alphabetic() {
            let start = at;
            while characters.get(at).is_some_and(|c| c.is_alphabetic()) {
                at += 1;
            }
            let word: String = characters[start..at].iter().collect();
            found.push(Token::Word(word.to_lowercase()));
        } else {
            at += 1;
            found.push(Token::Word(plain(c).to_string()));
        }
    }
    join_fractions(found)
}

fn starts_decimal(characters: &[char], at: usize) -> bool {
    matches!(characters[at], '.' | ',') && characters.get(at + 1).is_some_and(char::is_ascii_digit)
}

/// Digits with at most one decimal point or comma.
fn decimal(characters: &[char], start: usize) -> Result<(Decimal, usize), Unreadable> {
    let mut text = String::new();
    let mut at = start;
    let mut pointed = false;
    while let Some(&c) = characters.get(at) {
        match c {
            '0'..='9' => text.push(c),
            '.' | ',' if !pointed => {
                pointed = true;
                text.push('.');
            }
            '.' | ',' => return Err(Unreadable::TwoPoints),
            _ => break,
        }
        at += 1;
    }
    if text.len() > MOST_DIGITS {
        return Err(Unreadable::TooManyDigits);
    }
    let trimmed = text.trim_end_matches('.');
    let value = trimmed.parse().map_err(|_| Unreadable::NoNumber)?;
    Ok((value, at))
}

/// Takes a leading plus or minus off. True for minus.
pub(super) fn sign(tokens: &mut Vec<Token>) -> Option<bool> {
    let minus = match tokens.first() {
        Some(Token::Word(w)) if w == "-" => true,
        Some(Token::Word(w)) if w == "+" => false,
        _ => return None,
    };
    tokens.remove(0);
    Some(minus)
}

fn word(token: Option<&Token>) -> Option<&str> {
    match token {
        Some(Token::Word(w)) => Some(w),
        _ => None,
    }
}

/// A number, the fraction it was written with, and the unit word behind it.
pub(super) type NumberAndWord = (Decimal, Option<(u32, u32)>, Option<String>);

/// One number with its unit word, from the front; the rest is left.
pub(super) fn number_and_word(tokens: &mut Vec<Token>) -> Option<NumberAndWord> {
    let (value, fraction) = match tokens.first() {
        Some(Token::Number { value, fraction }) => (*value, *fraction),
        _ => return None,
    };
    tokens.remove(0);
    let mut unit = word(tokens.first()).map(str::to_owned);
    if unit.is_some() {
        tokens.remove(0);
        // Two single quotes are a double one.
        if unit.as_deref() == Some("'") && word(tokens.first()) == Some("'") {
            tokens.remove(0);
            unit = Some("\"".into());
        }
        // A full stop after a unit, or the degree sign before C or F.
        if word(tokens.first()) == Some(".") {
            tokens.remove(0);
        }
        if unit.as_deref() == Some("°")
            && let Some(scale @ ("c" | "f")) = word(tokens.first())
        {
            unit = Some(scale.to_owned());
            tokens.remove(0);
        }
    }
    Some((value, fraction, unit))
}

fn written(tokens: &[Token]) -> String {
    let parts: Vec<String> = tokens
        .iter()
        .map(|t| match t {
            Token::Number { value, .. } => value.normalize().to_string(),
            Token::Word(w) => w.clone(),
        })
        .collect();
    parts.join(" ")
}

pub(super) fn finish(
    rest: &[Token],
    understood: UnderstoodNumber,
) -> Result<UnderstoodNumber, Unreadable> {
    if rest.is_empty() {
        Ok(understood)
    } else {
        Err(Unreadable::LeftOver(written(rest)))
    }
}

/// The one-character fractions that keyboards offer.
fn vulgar(c: char) -> Option<(u32, u32)> {
    Some(match c {
        '¼' => (1, 4),
        '½' => (1, 2),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        _ => return None,
    })
}

fn fraction(over: u32, under: u32) -> Result<Token, Unreadable> {
    let value = Decimal::from(over)
        .checked_div(Decimal::from(under))
        .ok_or(Unreadable::DividedByZero)?;
    Ok(Token::Number {
        value,
        fraction: Some((over, under)),
    })
}

/// Characters that can't be seen, or that turn the order of what is seen.
fn hidden(c: char) -> bool {
    matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}')
        || c.is_control()
}

/// A digit or a decimal sign of another script or width as the plain one; any other character as it is.
pub(super) fn western(c: char) -> char {
    let digit = match c {
        // Arabic-Indic, its eastern form, full width.
        '\u{660}'..='\u{669}' => u32::from(c) - 0x660,
        '\u{6f0}'..='\u{6f9}' => u32::from(c) - 0x6f0,
        '\u{ff10}'..='\u{ff19}' => u32::from(c) - 0xff10,
        '\u{66b}' | '\u{ff0c}' => return ',',
        '\u{ff0e}' => return '.',
        '\u{66a}' | '\u{ff05}' => return '%',
        '\u{ff0d}' => return '-',
        '\u{ff0b}' => return '+',
        '\u{ff0f}' => return '/',
        other => return other,
    };
    char::from_digit(digit, 10).unwrap_or(c)
}

/// One spelling for the many signs that mean the same.
fn plain(c: char) -> char {
    match c {
        '”' | '“' | '″' | '„' => '"',
        '’' | '‘' | '′' | '`' | '´' => '\'',
        '−' | '–' | '—' => '-',
        '⁄' | '∕' => '/',
        '∶' => ':',
        'º' => '°',
        other => other,
    }
}

/// Makes `3 / 8` one number, and `94 1/2` the sum of its two.
fn join_fractions(tokens: Vec<Token>) -> Result<Vec<Token>, Unreadable> {
    let mut joined: Vec<Token> = Vec::new();
    let mut rest = tokens.into_iter().peekable();
    while let Some(token) = rest.next() {
        let slash = token == Token::Word("/".into());
        match (slash, joined.last().cloned(), rest.peek().cloned()) {
            (
                true,
                Some(Token::Number {
                    value: over,
                    fraction: None,
                }),
                Some(Token::Number {
                    value: under,
                    fraction: None,
                }),
            ) => {
                rest.next();
                joined.pop();
                push_fraction(&mut joined, over, under)?;
            }
            _ => push(&mut joined, token),
        }
    }
    Ok(joined)
}

fn push_fraction(joined: &mut Vec<Token>, over: Decimal, under: Decimal) -> Result<(), Unreadable> {
    let value = over.checked_div(under).ok_or(Unreadable::DividedByZero)?;
    let parts = match (u32::try_from(over), u32::try_from(under)) {
        (Ok(over_whole), Ok(under_whole)) if over.fract().is_zero() && under.fract().is_zero() => {
            (over_whole, under_whole)
        }
        _ => return Err(Unreadable::OddFraction),
    };
    push(
        joined,
        Token::Number {
            value,
            fraction: Some(parts),
        },
    );
    Ok(())
}

/// Adds a proper fraction to the whole number just before it.
fn push(joined: &mut Vec<Token>, token: Token) {
    if let (
        Some(Token::Number {
            value: whole,
            fraction: None,
        }),
        Token::Number {
            value,
            fraction: Some((over, under)),
        },
    ) = (joined.last(), &token)
        && over < under
        && whole.fract().is_zero()
    {
        let sum = Token::Number {
            value: whole + value,
            fraction: Some((*over, *under)),
        };
        joined.pop();
        joined.push(sum);
        return;
    }
    joined.push(token);
}

/// A decimal as the nearest float, by way of its text, so that 2400.3 is 2400.3.
pub(super) fn float(value: Decimal) -> f64 {
    // A decimal's text is always a number.
    float_of(&value.normalize().to_string()).unwrap_or(f64::NAN)
}

/// The float nearest to a decimal number: digits with a point, a sign and an exponent, as the standard reader
/// takes them. What is no finite number is none.
///
/// It goes by way of the reader of the record's file: either brings ten kilobytes of powers of ten, and the app
/// is to be small.
pub fn float_of(text: &str) -> Option<f64> {
    let (minus, unsigned) = match text.strip_prefix('-') {
        Some(rest) => ("-", rest),
        None => ("", text.strip_prefix('+').unwrap_or(text)),
    };
    let at = unsigned.find(['e', 'E']).unwrap_or(unsigned.len());
    let (digits, exponent) = unsigned.split_at(at);
    let (whole, fraction) = digits.split_once('.').unwrap_or((digits, ""));
    let is_digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    let is_empty = whole.is_empty() && fraction.is_empty();
    if is_empty
        || !is_digits(whole)
        || !is_digits(fraction)
        || exponent.ends_with(char::is_whitespace)
    {
        return None;
    }
    // JSON wants one digit at least on either side of the point, and no nought before others.
    let whole = whole.trim_start_matches('0');
    let whole = if whole.is_empty() { "0" } else { whole };
    let fraction = if fraction.is_empty() { "0" } else { fraction };
    serde_json::from_str(&format!("{minus}{whole}.{fraction}{exponent}")).ok()
}

#[cfg(test)]
mod tests {
    use super::float_of;
    use proptest::prelude::*;

    #[test]
    fn what_is_no_number_is_none() {
        for text in [
            "", ".", "-", "+-1", " 1", "1 ", "1e", "1e5 ", "0x1", "inf", "NaN", "1e999", "1,5",
            "--1",
        ] {
            assert_eq!(float_of(text), None, "{text:?}");
        }
    }

    proptest! {
        #[test]
        fn as_the_standard_reader_to_the_bit(text in "[-+]?[0-9]{0,25}[.]?[0-9]{0,25}([eE][-+]?[0-9]{1,3})?") {
            let standard = text.parse::<f64>().ok().filter(|value| value.is_finite());
            prop_assert_eq!(float_of(&text).map(f64::to_bits), standard.map(f64::to_bits), "{}", text);
        }

        #[test]
        fn what_is_written_is_read_again(bits in any::<u64>()) {
            let value = f64::from_bits(bits);
            prop_assume!(value.is_finite());
            let read = float_of(&format!("{value:e}")).map(f64::to_bits);
            prop_assert_eq!(read, Some(bits));
        }
    }
}
