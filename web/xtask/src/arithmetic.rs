//! Arithmetic on quantities, as it stands in a file: the app shows what core works out and works nothing out of
//! wood, money or dates.
//!
//! A file is read token by token, inside macros as well. What is looked for are products and quotients, sums and
//! comparisons with a number that has a decimal point, conversions to such a number in a sum, and the methods and
//! types that round or move numbers and days. Counting and places in a list are no quantities: sums of whole numbers
//! are let through.

use proc_macro2::{Delimiter, TokenStream, TokenTree};

/// Methods that work on numbers, money and days.
const METHODS: [&str; 22] = [
    "abs",
    "sqrt",
    "powi",
    "powf",
    "floor",
    "ceil",
    "round",
    "trunc",
    "hypot",
    "signum",
    "round_dp",
    "round_dp_with_strategy",
    "checked_mul",
    "checked_div",
    "num_days",
    "checked_add_days",
    "checked_sub_days",
    "checked_add_months",
    "checked_sub_months",
    "signed_duration_since",
    "pred_opt",
    "succ_opt",
];

/// What days are moved by.
const STEPS: [&str; 3] = ["Days", "Months", "TimeDelta"];

/// Words before which a sign is not between two values.
const KEYWORDS: [&str; 10] = [
    "return", "in", "if", "match", "else", "while", "let", "mut", "as", "const",
];

/// Each place where a file works something out: its line, and what stands there.
pub(crate) fn found(text: &str) -> Vec<(usize, String)> {
    let mut all = Vec::new();
    match text.parse::<TokenStream>() {
        Ok(tokens) => look(tokens, &mut all),
        Err(why) => all.push((1, format!("can't be read: {why}"))),
    }
    all
}

fn look(tokens: TokenStream, all: &mut Vec<(usize, String)>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        if let Some(after) = after_tests(&tokens, at) {
            at = after;
            continue;
        }
        if let Some(what) = works_out(&tokens, at) {
            all.push((token.span().start().line, what));
        }
        if let TokenTree::Group(group) = token {
            look(group.stream(), all);
        }
        at += 1;
    }
}

/// Behind a module of tests that begins here.
fn after_tests(tokens: &[TokenTree], at: usize) -> Option<usize> {
    let sign = sign_at(tokens, at)?;
    let attribute = tokens.get(at + 1)?.to_string();
    let is_tests = sign == '#' && attribute.replace(' ', "") == "[cfg(test)]";
    if !is_tests {
        return None;
    }
    let body = tokens.iter().skip(at + 2).position(|token| {
        matches!(token, TokenTree::Group(group) if group.delimiter() == Delimiter::Brace)
            || token.to_string() == ";"
    });
    body.map(|body| at + 3 + body)
}

fn sign_at(tokens: &[TokenTree], at: usize) -> Option<char> {
    match tokens.get(at)? {
        TokenTree::Punct(sign) => Some(sign.as_char()),
        _ => None,
    }
}

fn works_out(tokens: &[TokenTree], at: usize) -> Option<String> {
    if let TokenTree::Ident(name) = tokens.get(at)? {
        let name = name.to_string();
        let before = at.checked_sub(1).and_then(|before| sign_at(tokens, before));
        let called = matches!(tokens.get(at + 1), Some(TokenTree::Group(_)));
        let method = before == Some('.') && called && METHODS.contains(&name.as_str());
        let step = STEPS.contains(&name.as_str()) && sign_at(tokens, at + 1) == Some(':');
        return (method || step).then_some(name);
    }
    let sign = sign_at(tokens, at)?;
    let before = tokens.get(at.checked_sub(1)?)?;
    // `$( ... )*` repeats a part of a macro.
    let repeats = at.checked_sub(2).and_then(|dollar| sign_at(tokens, dollar)) == Some('$');
    if repeats && matches!(before, TokenTree::Group(_)) {
        return None;
    }
    let mut next = at + 1;
    // `<=`, `*=` and the like.
    if sign_at(tokens, next) == Some('=') {
        next += 1;
    }
    let after = tokens.get(next)?;
    let number = |token: &TokenTree| {
        let text = token.to_string();
        matches!(token, TokenTree::Literal(_)) && is_decimal(&text)
    };
    let converted = |token: &TokenTree| {
        let text = token.to_string();
        text == "f64"
            && at
                .checked_sub(2)
                .is_some_and(|as_| tokens[as_].to_string() == "as")
    };
    let works = match sign {
        '*' | '/' => is_value(before) && is_value(after),
        '+' | '-' => is_value(before) && (number(before) || number(after) || converted(before)),
        '<' | '>' => is_value(before) && (number(before) || number(after)),
        _ => false,
    };
    works.then(|| format!("{before} {sign} {after}"))
}

fn is_decimal(text: &str) -> bool {
    text.starts_with(|first: char| first.is_ascii_digit()) && text.contains('.')
}

fn is_value(token: &TokenTree) -> bool {
    match token {
        TokenTree::Ident(name) => !KEYWORDS.contains(&name.to_string().as_str()),
        TokenTree::Literal(_) => true,
        TokenTree::Group(group) => group.delimiter() == Delimiter::Parenthesis,
        TokenTree::Punct(_) => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn whats(text: &str) -> Vec<String> {
        found(text).into_iter().map(|(_, what)| what).collect()
    }

    #[test]
    fn what_a_macro_repeats_is_no_product() {
        let repeated = "macro_rules! all { ($($name:ident)* of) => { $(pub $name)* fields } }";
        assert_eq!(whats(repeated), Vec::<String>::new());
        assert_eq!(whats("let a = (b) * c;"), ["(b) * c"]);
    }

    #[test]
    fn products_roundings_and_days_are_found_inside_macros_too() {
        let text = "fn f() {\n let area = length * width;\n html! { p { (mm / 25.4) (value.round()) } }\n on + Days::new(3) }";
        let lines: Vec<usize> = found(text).into_iter().map(|(line, _)| line).collect();
        assert_eq!(lines, [2, 3, 3, 4]);
        assert_eq!(
            whats("fn f() { a > 0.5; b + 1.0; n as f64 - x; total *= 2 }").len(),
            4
        );
    }

    #[test]
    fn counting_borrows_generics_and_tests_are_no_arithmetic() {
        let text = "use a::*; fn f<T: A + B>(x: &T) -> Vec<u8> { if n > 3 { *x } else { racks.round.at + 1 } }";
        assert_eq!(whats(text), Vec::<String>::new());
        let tests = "#[cfg(test)] mod tests { fn f() { a * b } } fn g() { 2 * n }";
        assert_eq!(whats(tests), ["2 * n"]);
    }
}
