//! A formula's expression, set as it would be written by hand. It computes nothing.

use crate::quantity::float_of;
use crate::quantity::show;

/// Sets an expression as it would be written by hand, each name replaced by what `named` gives for it.
pub(super) fn set(expression: &str, named: &dyn Fn(&str) -> Option<String>) -> String {
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
        "pow" => {
            let power = run(tokens, at, named);
            format!("{}^{}", bracketed(&first), bracketed(&power))
        }
        "sq" => format!("{}²", bracketed(&first)),
        "cube" => format!("{}³", bracketed(&first)),
        "sqrt" => format!("√{}", bracketed(&first)),
        "abs" => format!("|{first}|"),
        "normal" => format!("Φ({first})"),
        name => format!("{name}({first})"),
    }
}

/// Brackets round what is more than one name or number.
pub(super) fn bracketed(text: &str) -> String {
    match text.contains(' ') {
        true => format!("({text})"),
        false => text.to_owned(),
    }
}

fn constant(name: &str) -> String {
    match float_of(name) {
        Some(value) => {
            let power = libm::log10(value);
            if value >= 1e6 && power == libm::floor(power) {
                format!("10^{power:.0}")
            } else {
                show::number(value, 9)
            }
        }
        None => name.to_owned(),
    }
}
