//! The colours of charts, in every scheme and on paper: words stand out 7 to 1, marks 3 to 1.

use std::collections::BTreeMap;

type Scheme<'a> = BTreeMap<&'a str, &'a str>;

const SHEET: &str = include_str!("../../../static/app.css");

/// What is no mark: ground that something else is drawn on, and what frees letters from lines.
const GROUND: [&str; 5] = ["--good-tint", "--tint", "--card", "--paper", "--on-accent"];

/// Every block of colours of the sheet.
fn schemes() -> Vec<Scheme<'static>> {
    let blocks = SHEET.split('{').filter(|block| block.contains("--paper:"));
    let scheme = |block: &'static str| {
        let body = block.split('}').next().unwrap_or_default();
        let pairs = body.split(';').filter_map(|line| line.split_once(':'));
        pairs
            .map(|(name, colour)| (name.trim(), colour.trim()))
            .filter(|(_, colour)| colour.starts_with('#'))
            .collect()
    };
    blocks.map(scheme).collect()
}

/// Relative luminance (WCAG 2.2).
fn luminance(colour: &str) -> f64 {
    let digits = colour.strip_prefix('#').unwrap();
    let digits = match digits.len() {
        3 => digits.chars().flat_map(|one| [one, one]).collect(),
        _ => digits.to_owned(),
    };
    let part = |at: usize| {
        let of = f64::from(u8::from_str_radix(&digits[at..at + 2], 16).unwrap()) / 255.0;
        match of <= 0.04045 {
            true => of / 12.92,
            false => libm::pow((of + 0.055) / 1.055, 2.4),
        }
    };
    0.2126 * part(0) + 0.7152 * part(2) + 0.0722 * part(4)
}

fn contrast(a: &str, b: &str) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// The colours that rules of charts name: as letters, and as marks.
fn of_charts() -> (Vec<&'static str>, Vec<&'static str>) {
    let (mut letters, mut marks) = (Vec::new(), Vec::new());
    for rule in SHEET.split('}') {
        let Some((of, body)) = rule.split_once('{') else {
            continue;
        };
        if !of.contains(".chart") && !of.contains(".leg") {
            continue;
        }
        let is_letters = ["text", ".over", ".name"]
            .iter()
            .any(|one| of.contains(one));
        for used in body.split("var(").skip(1) {
            let name = used.split(')').next().unwrap();
            match is_letters {
                _ if GROUND.contains(&name) || !schemes()[0].contains_key(name) => {}
                true => letters.push(name),
                false => marks.push(name),
            }
        }
    }
    (letters, marks)
}

#[test]
fn words_and_marks_of_charts_stand_out_in_every_scheme() {
    let schemes = schemes();
    assert!(schemes.len() >= 6, "{}", schemes.len());
    let (letters, marks) = of_charts();
    assert!(letters.contains(&"--quiet") && marks.contains(&"--leg-blanks"));
    let mut weak = Vec::new();
    for (n, scheme) in schemes.iter().enumerate() {
        for (least, names) in [(7.0, &letters), (3.0, &marks)] {
            for name in names {
                for ground in ["--paper", "--card"] {
                    let is = contrast(scheme[name], scheme[ground]);
                    if is < least {
                        weak.push(format!("{n}: {name} on {ground} is {is:.1}"));
                    }
                }
            }
        }
        // Lines of a movement cross the ground that is within its limit.
        for judged in ["--good", "--doubt", "--bad", "--rule"] {
            let is = contrast(scheme[judged], scheme["--good-tint"]);
            if is < 3.0 {
                weak.push(format!("{n}: {judged} on --good-tint is {is:.1}"));
            }
        }
    }
    assert!(weak.is_empty(), "{weak:#?}");
}
